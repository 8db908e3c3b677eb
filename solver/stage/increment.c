/* increment.c - see increment.h.
 * SPDX-License-Identifier: MIT */
#include "increment.h"

#include <math.h>
#include <string.h>

#include "commit.h"
#include "coupling.h"
#include "effect.h"
#include "mechanism.h"
#include "mem.h"
#include "near.h"

/* ---- the structure under a set of contacts -------------------------------------------------------------- */

/* A bearing joins nothing until both its nodes stand: else its spring would tie the one that does to the ground. */
static bool joint_is_there(const analysis_run *run, const joint_state *joint)
{
    const kl_bearing *bearing = &run->model->bearings[joint->bearing];
    return run->state.node_stands[bearing->node] && run->state.node_stands[bearing->base];
}

static void list_structure(analysis_run *run)
{
    frame_structure *s = &run->structure;
    const stage_state *state = &run->state;
    void *hinge = state->hinge;
    *s = (frame_structure){.on = state->element_on,
                           .hinge = hinge,
                           .holds = run->holds,
                           .joints = run->joints,
                           .struts = run->struts,
                           .stands = state->node_stands};
    for (kl_index i = 0; i < state->hold_count; i++) {
        const hold_state *hold = &state->holds[i];
        if (hold->active) {
            run->holds[s->hold_count++] =
                (frame_hold){run->model->supports[hold->support].node, hold->direction,
                             hold->kind != KL_SPRING && hold->bears,
                             hold->kind == KL_SPRING ? hold->stiffness : 0.0};
        }
    }
    for (kl_index i = 0; i < state->joint_count; i++) {
        const joint_state *joint = &state->joints[i];
        const kl_bearing *bearing = &run->model->bearings[joint->bearing];
        if (!joint_is_there(run, joint)) {
            continue;
        }
        run->joints[s->joint_count++] =
            (frame_joint){bearing->node, bearing->base, joint->direction,
                          joint->kind != KL_SPRING && joint->bears,
                          joint->kind == KL_SPRING ? joint->stiffness : 0.0};
    }
    for (kl_index i = 0; i < run->mesh.row_count; i++) {
        const mesh_row *row = &run->mesh.rows[i];
        if (state->rows[i].phase == ROW_SET && state->rows[i].bears) {
            run->struts[s->strut_count++] = (frame_strut){row->top, row->foot, row->stiffness};
        }
    }
}

kl_status increment_form(analysis_run *run)
{
    if (run->phase != STRUCTURE_CHANGED) {
        return KL_OK;
    }
    if (!run->book.passing) { /* else the moduli are those of the step of time */
        section_book_age(&run->book, &run->state, run->ageless);
    }
    section_book_update(&run->book, &run->state);
    for (kl_index e = 0; e < run->mesh.element_count; e++) {
        if (!run->state.element_on[e]) {
            continue;
        }
        const kl_status status =
            element_form(&run->mesh, e, run->book.flexibility[run->book.page[e]],
                         run->state.hinge[e], &run->system.matrix[e]);
        if (status != KL_OK) {
            const kl_member *member = &run->model->members[run->mesh.elements[e].member];
            kl_diags_add(run->diags, KL_ERROR, "no-stiffness", member->origin,
                         "A section of member %s has no stiffness left (its ducts take more than "
                         "the concrete has, or "
                         "its modulus is not known on that day).",
                         member->name);
            return KL_BAD_MODEL;
        }
    }
    run->phase = STRUCTURE_FORMED;
    return KL_OK;
}

/* @param softness share of each unknown's own diagonal that is added to it: 0 for anything that counts; a little in a
 * search among sets that may let the structure go (see search_soft). */
static kl_status factor_structure(analysis_run *run, double softness, bool quiet)
{
    list_structure(run);
    system_assemble(&run->system, &run->structure);
    if (!(softness > 0.0)) {
        return mechanism_factor(&run->system, &run->structure, quiet, run->diags);
    }
    factor_report report;
    system_brace(&run->system, softness);
    KL_TRY(system_factor(&run->system, &report));
    return report.complete ? KL_OK : KL_NUMERIC;
}

/* ---- response -------------------------------------------------------------------------------------------- */

/* Split what nodes need into bearing forces and what is left for supports; bearings are listed top down. */
static void split_sums(const analysis_run *run, pending_column *c)
{
    for (kl_index i = 0; i < run->model->bearing_count; i++) {
        const kl_index b = run->bearing_order[i];
        const kl_bearing *bearing = &run->model->bearings[b];
        for (int d = 0; d < 3; d++) {
            double *node = &c->sum[3 * bearing->node + d];
            const bool held = bearing->hold[d].kind != KL_FREE;
            c->bearing[3 * b + d] = held ? *node : 0.0;
            c->sum[3 * bearing->base + d] += held ? *node : 0.0;
            *node = held ? 0.0 : *node;
        }
    }
}

/* A column that is open only because a contact might give something back to it. */
static void rest(const analysis_run *run, pending_column *c)
{
    const frame_mesh *mesh = &run->mesh;
    memset(c->u, 0, 3 * (size_t)mesh->node_count * sizeof(double));
    memset(c->sum, 0, 3 * (size_t)mesh->node_count * sizeof(double));
    memset(c->start, 0, 3 * (size_t)mesh->element_count * sizeof(double));
    memset(c->turn, 0, 2 * (size_t)run->model->member_count * sizeof(double));
    memset(c->field, 0, FIELD_AT(mesh->element_count, 0) * sizeof(double));
    memset(c->bearing, 0, 3 * (size_t)run->model->bearing_count * sizeof(double));
    memset(c->coupled, 0, (size_t)run->model->tendon_count * sizeof(double));
}

static kl_status respond(analysis_run *run, const kl_index *tendons, kl_index tendon_count)
{
    KL_TRY(coupling_units(run, tendons, tendon_count));
    for (kl_index i = 0; i < run->pending_count; i++) {
        pending_column *c = &run->pending[i];
        if (loads_are_none(&run->mesh, &c->loads)) {
            rest(run, c);
            continue;
        }
        KL_TRY(response_solve(&run->system, &run->structure, &c->loads, c->u, run->basic, c->sum));
        recover_elements(&run->system, &run->structure, &c->loads, c->u, run->basic, c->field,
                         c->start, c->turn, c->sum);
        KL_TRY(coupling_apply(run, tendons, tendon_count, c));
        split_sums(run, c);
    }
    return KL_OK;
}

/* ---- the set of contacts --------------------------------------------------------------------------------- */

static bool *bears_of(analysis_run *run, const contact *c)
{
    stage_state *s = &run->state;
    return c->kind == CONTACT_ROW    ? &s->rows[c->index].bears
           : c->kind == CONTACT_HOLD ? &s->holds[c->index].bears
                                     : &s->joints[c->index].bears;
}

static bool is_push(kl_hold_kind kind)
{
    return kind == KL_PUSH_PLUS || kind == KL_PUSH_MINUS;
}

static void add_contact(contact_list *list, contact_kind kind, kl_index index, bool closed)
{
    list->items[list->count++] =
        (contact){.kind = kind, .index = index, .was_closed = closed, .closed = closed};
}

static void list_contacts(analysis_run *run, contact_list *list)
{
    const stage_state *s = &run->state;
    list->count = 0;
    for (kl_index i = 0; i < run->mesh.row_count; i++) {
        if (s->rows[i].phase == ROW_SET) {
            add_contact(list, CONTACT_ROW, i, s->rows[i].bears);
        }
    }
    for (kl_index i = 0; i < s->hold_count; i++) {
        if (s->holds[i].active && is_push(s->holds[i].kind)) {
            add_contact(list, CONTACT_HOLD, i, s->holds[i].bears);
        }
    }
    for (kl_index i = 0; i < s->joint_count; i++) {
        if (is_push(s->joints[i].kind) && joint_is_there(run, &s->joints[i])) {
            add_contact(list, CONTACT_JOINT, i, s->joints[i].bears);
        }
    }
}

/* Every cause that a contact carries something of must have a column, for the contact may open. */
static kl_status open_columns(analysis_run *run, contact_list *list)
{
    if (list->count == 0) {
        return KL_OK;
    }
    for (kl_index i = 0; i < run->state.set.count; i++) {
        const cause_column *c = &run->state.set.columns[i];
        if (!run_pending(run, c->kind, c->load_case)) {
            return KL_NO_MEMORY;
        }
    }
    for (kl_index i = 0; i < list->count; i++) {
        contact *c = &list->items[i];
        c->force_before = effect_force(run, c);
    }
    return KL_OK;
}

/* Where the model declares a contact. */
static kl_origin origin_of(const analysis_run *run, const contact *c)
{
    const kl_model *model = run->model;
    switch (c->kind) {
    case CONTACT_ROW:
        return model->falsework[run->mesh.rows[c->index].falsework].origin;
    case CONTACT_HOLD:
        return model->supports[run->state.holds[c->index].support].origin;
    case CONTACT_JOINT:
        break;
    }
    return model->bearings[run->state.joints[c->index].bearing].origin;
}

static kl_status no_contact(analysis_run *run, const contact_list *list)
{
    kl_diags_add(run->diags, KL_ERROR, "no-contact", origin_of(run, &list->items[0]),
                 "No set of bearing posts and supports carries the load: what only pushes lets the "
                 "structure go.");
    kl_diags_hint(run->diags, "look for uplift that no weight or tie holds down");
    return KL_NO_CONTACT;
}

static void show_set(analysis_run *run, const contact_list *list)
{
    for (kl_index i = 0; i < list->count; i++) {
        *bears_of(run, &list->items[i]) = list->items[i].closed;
    }
}

static bool same_set(analysis_run *run, const contact_list *list)
{
    for (kl_index i = 0; i < list->count; i++) {
        if (*bears_of(run, &list->items[i]) != list->items[i].closed) {
            return false;
        }
    }
    return true;
}

/* What the search needs besides the set. */
typedef struct search_task {
    analysis_run *run;
    contact_list *list;
    pending_column *own;
    kl_index tendon_count;
    bool factored; /* the factor at hand is that of the set shown in the state */
} search_task;

/* Respond under the set in the list. @return KL_MECHANISM when it lets the structure go. */
static kl_status try_set(search_task *task, double softness, bool quiet)
{
    analysis_run *run = task->run;
    if (!task->factored || !same_set(run, task->list)) {
        show_set(run, task->list);
        task->factored = false;
        run->phase = STRUCTURE_FORMED;
        KL_TRY(factor_structure(run, softness, quiet));
        task->factored = true;
        run->phase = softness > 0.0 ? STRUCTURE_FORMED : STRUCTURE_FACTORED;
    }
    effect_loads(run, task->list, task->own);
    return respond(run, run->followers, task->tendon_count);
}

/* Change the set until nothing contradicts. */
static kl_status search_sets(search_task *task, double softness)
{
    analysis_run *run = task->run;
    contact_search memory = contact_search_start();
    for (;;) {
        KL_TRY(try_set(task, softness, task->list->count > 0));
        const double force = fmax(run->largest_force, effect_evaluate(run, task->list));
        if (contact_next(task->list, &memory, force, effect_largest_movement(run))) {
            run->contact_changes += memory.changes;
            run->largest_force = softness > 0.0 ? run->largest_force : force;
            return KL_OK;
        }
        if (memory.changes > CONTACT_CHANGES_LIMIT) {
            return KL_NO_CONTACT;
        }
    }
}

/* A set on the way let the structure go, which tells the search nothing. With a little bracing to the ground every
 * set answers, and the movements of what is loose show which contacts close. The set found so is only a guess: it is
 * solved again without the bracing and must hold by itself. */
#define BRACING 1e-8

static kl_status search_soft(search_task *task)
{
    contact_close_all(task->list);
    task->factored = false;
    kl_status status = search_sets(task, BRACING);
    task->factored = false;
    if (status == KL_OK) {
        status = search_sets(task, 0.0);
    }
    return status;
}

/* Find the set and leave the responses under it in the pending columns. */
static kl_status search(search_task *task)
{
    analysis_run *run = task->run;
    contact_first(task->list, &run->settings, run->turn++);
    kl_status status = search_sets(task, 0.0);
    if (task->list->count == 0 || (status != KL_MECHANISM && status != KL_NO_CONTACT)) {
        return status;
    }
    status = search_soft(task);
    if (status != KL_MECHANISM && status != KL_NO_CONTACT) {
        return status;
    }
    contact_close_all(task->list); /* loose even so? then it is no matter of contacts */
    task->factored = false;
    status = try_set(task, 0.0, false);
    return status == KL_OK ? no_contact(run, task->list) : status;
}

/* ---- the whole ------------------------------------------------------------------------------------------- */

/* Contacts add to the loads of nodes and to their movements, and start again from what was prepared. */
static kl_status keep_loads(analysis_run *run, pending_column *c)
{
    const size_t n = 3 * (size_t)run->mesh.node_count;
    KL_TRY(loads_open_moved(&run->mesh, &c->loads));
    c->base_node = c->base_node ? c->base_node : arena_array(run->a, n, sizeof(double));
    c->base_moved = c->base_moved ? c->base_moved : arena_array(run->a, n, sizeof(double));
    if (!c->base_node || !c->base_moved) {
        return KL_NO_MEMORY;
    }
    memcpy(c->base_node, c->loads.node, n * sizeof(double));
    memcpy(c->base_moved, c->loads.moved, n * sizeof(double));
    return KL_OK;
}

static void see_loads(analysis_run *run, const pending_column *c)
{
    for (kl_index k = 0; k < run->mesh.node_count; k++) {
        run->largest_force =
            fmax(run->largest_force, hypot(c->loads.node[3 * k], c->loads.node[3 * k + 1]));
    }
}

kl_status
increment_solve(analysis_run *run, kl_cause_kind kind, kl_index load_case, kl_index excepted)
{
    contact_list list = {run->contacts, 0};
    list_contacts(run, &list);
    if (run_pending(run, kind, load_case) == NULL) {
        return KL_NO_MEMORY;
    }
    KL_TRY(open_columns(run, &list));
    pending_column *own = run_pending(run, kind, load_case);
    KL_TRY(increment_form(run));
    for (kl_index i = 0; i < run->pending_count; i++) {
        see_loads(run, &run->pending[i]);
        KL_TRY(list.count > 0 ? keep_loads(run, &run->pending[i]) : KL_OK);
    }
    const kl_index tendon_count = coupling_list(run, excepted, run->followers);
    search_task task = {run, &list, own, tendon_count, run->phase == STRUCTURE_FACTORED};
    KL_TRY(search(&task));
    return commit_increment(run, &list, own);
}
