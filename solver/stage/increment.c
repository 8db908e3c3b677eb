/* increment.c - see increment.h.
 *
 * A row of posts carries max(0, phi) with phi = f0 + k c, c its closing since set; phi moves on by k dc whether it
 * bears or not, so one number a row tells force and gap. Within an increment:
 *   bears before and after:  a spring
 *   bears, then open:        its force goes, cause by cause, as a load
 *   open, then bears:        a spring that starts at phi < 0 (the gap to travel), charged to the operation
 *   open before and after:   nothing
 * Push supports and bearings are rigid: held or free, with a gap in metres.
 * SPDX-License-Identifier: MIT */
#include "increment.h"

#include <math.h>
#include <string.h>

#include "contact.h"
#include "coupling.h"
#include "mechanism.h"
#include "mem.h"
#include "near.h"

/* ---- the structure under a set of contacts -------------------------------------------------------------- */

static void list_structure(analysis_run *run)
{
    frame_structure *s = &run->structure;
    const stage_state *state = &run->state;
    void *hinge = state->hinge;
    *s = (frame_structure){.on = state->element_on,
                           .hinge = hinge,
                           .holds = run->holds,
                           .joints = run->joints,
                           .struts = run->struts};
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
    section_book_update(&run->book, &run->state, run->ageless);
    for (kl_index e = 0; e < run->mesh.element_count; e++) {
        if (!run->state.element_on[e]) {
            continue;
        }
        const kl_status status = element_form(&run->mesh, e, run->book.rigidity[e],
                                              run->state.hinge[e], &run->system.matrix[e]);
        if (status != KL_OK) {
            const kl_member *member = &run->model->members[run->mesh.elements[e].member];
            kl_diags_add(run->diags, KL_ERROR, "no-stiffness", member->origin,
                         "a section of member %s has no stiffness left (its ducts take more than "
                         "the concrete has, or "
                         "its modulus is not known on that day)",
                         member->name);
            return KL_BAD_MODEL;
        }
    }
    return KL_OK;
}

static kl_status factor_structure(analysis_run *run, bool quiet)
{
    list_structure(run);
    system_assemble(&run->system, &run->structure);
    return mechanism_factor(&run->system, &run->structure, quiet, run->diags);
}

/* ---- loads of contacts that change ----------------------------------------------------------------------- */

static void push_row(const analysis_run *run, kl_index row, double force, frame_loads *loads)
{
    const mesh_row *r = &run->mesh.rows[row];
    loads->node[3 * r->top + 1] += force;
    if (r->foot != KL_NONE) {
        loads->node[3 * r->foot + 1] -= force;
    }
}

/* Unit vector of a hold in global axes. */
static void hold_vector(const analysis_run *run, const hold_state *hold, double v[3])
{
    const double slope = run->model->supports[hold->support].slope;
    v[0] = hold->direction == 0 ? cos(slope) : hold->direction == 1 ? -sin(slope) : 0.0;
    v[1] = hold->direction == 0 ? sin(slope) : hold->direction == 1 ? cos(slope) : 0.0;
    v[2] = hold->direction == 2 ? 1.0 : 0.0;
}

static void
push_hold(const analysis_run *run, const hold_state *hold, double amount, double *node_values)
{
    double v[3];
    hold_vector(run, hold, v);
    for (int d = 0; d < 3; d++) {
        node_values[3 * run->model->supports[hold->support].node + d] += amount * v[d];
    }
}

/* The part of a node's vector along a hold. */
static double along_hold(const analysis_run *run, const hold_state *hold, const double *node_values)
{
    double v[3];
    hold_vector(run, hold, v);
    const double *at = &node_values[3 * run->model->supports[hold->support].node];
    return v[0] * at[0] + v[1] * at[1] + v[2] * at[2];
}

static const double *old_block(const analysis_run *run, const pending_column *pending)
{
    for (kl_index i = 0; i < run->state.set.count; i++) {
        const cause_column *c = &run->state.set.columns[i];
        if (c->kind == pending->kind && c->load_case == pending->load_case) {
            return c->data;
        }
    }
    return NULL;
}

/* What a contact carries under one cause now, direct changes of this increment included. */
static double carried(const analysis_run *run, const pending_column *column, const contact *c)
{
    const double *old = old_block(run, column);
    if (c->kind == CONTACT_ROW) {
        const size_t at = run->layout.row + (size_t)c->index;
        return (old ? old[at] : 0.0) + column->delta[at];
    }
    if (c->kind == CONTACT_HOLD) {
        const hold_state *hold = &run->state.holds[c->index];
        const size_t at = run->layout.reaction;
        return (old ? along_hold(run, hold, old + at) : 0.0) +
               along_hold(run, hold, column->delta + at);
    }
    const joint_state *joint = &run->state.joints[c->index];
    const size_t at = run->layout.bearing + 3 * (size_t)joint->bearing + (size_t)joint->direction;
    return (old ? old[at] : 0.0) + column->delta[at];
}

/* Give back what an opening contact carried under a column's cause. */
static void give_back(analysis_run *run, const contact *c, pending_column *column)
{
    const double force = carried(run, column, c);
    if (c->kind == CONTACT_ROW) {
        push_row(run, c->index, -force, &column->loads);
    } else if (c->kind == CONTACT_HOLD) {
        push_hold(run, &run->state.holds[c->index], -force, column->loads.node);
    } else {
        const joint_state *joint = &run->state.joints[c->index];
        const kl_bearing *bearing = &run->model->bearings[joint->bearing];
        column->loads.node[3 * bearing->node + joint->direction] -= force;
        column->loads.node[3 * bearing->base + joint->direction] += force;
    }
}

static double push_sign(kl_hold_kind kind)
{
    return kind == KL_PUSH_MINUS ? -1.0 : 1.0;
}

/* Close a contact through its gap, as part of the operation's own column. */
static void travel_gap(analysis_run *run, const contact *c, pending_column *own)
{
    if (c->kind == CONTACT_ROW) {
        push_row(run, c->index, run->state.rows[c->index].virtual_force, &own->loads);
    } else if (c->kind == CONTACT_HOLD) {
        const hold_state *hold = &run->state.holds[c->index];
        push_hold(run, hold, -hold->gap * push_sign(hold->kind), own->loads.moved);
    } else {
        const joint_state *joint = &run->state.joints[c->index];
        const kl_bearing *bearing = &run->model->bearings[joint->bearing];
        own->loads.moved[3 * bearing->node + joint->direction] -=
            joint->gap * push_sign(joint->kind);
    }
}

static void contact_loads(analysis_run *run, const contact_list *contacts, pending_column *own)
{
    const size_t n = 3 * (size_t)run->mesh.node_count * sizeof(double);
    for (kl_index i = 0; i < run->pending_count; i++) {
        pending_column *column = &run->pending[i];
        memcpy(column->loads.node, column->base_node, n);
        memcpy(column->loads.moved, column->base_moved, n);
    }
    for (kl_index k = 0; k < contacts->count; k++) {
        const contact *c = &contacts->items[k];
        if (c->was_closed && !c->closed) {
            for (kl_index i = 0; i < run->pending_count; i++) {
                give_back(run, c, &run->pending[i]);
            }
        } else if (!c->was_closed && c->closed) {
            travel_gap(run, c, own);
        }
    }
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

static kl_status respond(analysis_run *run, const kl_index *tendons, kl_index tendon_count)
{
    KL_TRY(coupling_units(run, tendons, tendon_count));
    for (kl_index i = 0; i < run->pending_count; i++) {
        pending_column *c = &run->pending[i];
        KL_TRY(system_solve(&run->system, &run->structure, &c->loads, 1, c->u, run->right));
        recover_elements(&run->system, &run->structure, &c->loads, c->u, c->field, c->start,
                         c->sum);
        KL_TRY(coupling_apply(run, tendons, tendon_count, c));
        split_sums(run, c);
    }
    return KL_OK;
}

static double row_closing(const analysis_run *run, kl_index row, const double *u)
{
    const mesh_row *r = &run->mesh.rows[row];
    return (r->foot == KL_NONE ? 0.0 : u[3 * r->foot + 1]) - u[3 * r->top + 1];
}

/* Movement of a bearing's node against its base. */
static double joint_slip(const analysis_run *run, const joint_state *joint, const double *u)
{
    const kl_bearing *bearing = &run->model->bearings[joint->bearing];
    return u[3 * bearing->node + joint->direction] - u[3 * bearing->base + joint->direction];
}

/* phi of a row at the end of the increment. */
static double row_value(const analysis_run *run, kl_index row)
{
    double value = run->state.rows[row].virtual_force;
    for (kl_index i = 0; i < run->pending_count; i++) {
        value += run->mesh.rows[row].stiffness * row_closing(run, row, run->pending[i].u);
    }
    return value;
}

static double hold_value(const analysis_run *run, const contact *c)
{
    const hold_state *hold = &run->state.holds[c->index];
    double value = c->closed ? c->force_before : -hold->gap;
    if (c->closed && !c->was_closed) {
        value = 0.0;
    }
    for (kl_index i = 0; i < run->pending_count; i++) {
        const pending_column *p = &run->pending[i];
        const double part =
            push_sign(hold->kind) * along_hold(run, hold, c->closed ? p->sum : p->u);
        value += c->closed ? part : -part;
    }
    return value;
}

static double joint_value(const analysis_run *run, const contact *c)
{
    const joint_state *joint = &run->state.joints[c->index];
    double value = c->closed ? c->force_before : -joint->gap;
    if (c->closed && !c->was_closed) {
        value = 0.0;
    }
    for (kl_index i = 0; i < run->pending_count; i++) {
        const pending_column *p = &run->pending[i];
        const double part =
            push_sign(joint->kind) * (c->closed ? p->bearing[3 * joint->bearing + joint->direction]
                                                : joint_slip(run, joint, p->u));
        value += c->closed ? part : -part;
    }
    return value;
}

static double largest_movement(const analysis_run *run)
{
    double largest = 0.0;
    for (kl_index i = 0; i < run->pending_count; i++) {
        for (kl_index n = 0; n < run->mesh.node_count; n++) {
            largest = fmax(
                largest, fmax(fabs(run->pending[i].u[3 * n]), fabs(run->pending[i].u[3 * n + 1])));
        }
    }
    return largest;
}

/* Values of all contacts under the set just solved. @return the largest force among them. */
static double evaluate(const analysis_run *run, contact_list *contacts)
{
    double largest = 0.0;
    for (kl_index i = 0; i < contacts->count; i++) {
        contact *c = &contacts->items[i];
        c->is_length = !c->closed && c->kind != CONTACT_ROW;
        c->value = c->kind == CONTACT_ROW    ? row_value(run, c->index)
                   : c->kind == CONTACT_HOLD ? hold_value(run, c)
                                             : joint_value(run, c);
        largest =
            c->is_length ? largest : fmax(largest, fmax(fabs(c->value), fabs(c->force_before)));
    }
    return largest;
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

static double force_now(const analysis_run *run, const contact *c)
{
    const kl_hold_kind kind = c->kind == CONTACT_HOLD    ? run->state.holds[c->index].kind
                              : c->kind == CONTACT_JOINT ? run->state.joints[c->index].kind
                                                         : KL_PUSH_PLUS;
    double force = 0.0;
    for (kl_index i = 0; i < run->pending_count; i++) {
        force += carried(run, &run->pending[i], c);
    }
    return push_sign(kind) * force;
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
        if (is_push(s->joints[i].kind)) {
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
        c->force_before = force_now(run, c);
    }
    return KL_OK;
}

static kl_status no_contact(analysis_run *run)
{
    kl_diags_add(run->diags, KL_ERROR, "no-contact", KL_NOWHERE,
                 "no set of bearing posts and supports carries the load: what only pushes lets the "
                 "structure go");
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

static bool all_closed(const contact_list *list)
{
    for (kl_index i = 0; i < list->count; i++) {
        if (!list->items[i].closed) {
            return false;
        }
    }
    return true;
}

/* Find the set and leave the responses under it in the pending columns. */
static kl_status search(analysis_run *run,
                        contact_list *list,
                        pending_column *own,
                        const kl_index *tendons,
                        kl_index tendon_count)
{
    contact_search memory = contact_search_start();
    bool factored = !run->structure_changed;
    contact_first(list, &run->settings, run->turn++);
    for (;;) {
        if (!factored || !same_set(run, list)) {
            show_set(run, list);
            const kl_status status = factor_structure(run, list->count > 0);
            run->structure_changed = status != KL_OK;
            if (status == KL_MECHANISM && list->count > 0) {
                if (contact_retreat(list, &memory)) {
                    factored = false;
                    continue;
                }
                return all_closed(list) ? factor_structure(run, false) : no_contact(run);
            }
            KL_TRY(status);
            factored = true;
        }
        contact_loads(run, list, own);
        KL_TRY(respond(run, tendons, tendon_count));
        const double largest = evaluate(run, list);
        run->largest_force = fmax(run->largest_force, largest);
        if (contact_next(list, &memory, run->largest_force, largest_movement(run))) {
            run->contact_changes += memory.changes;
            return KL_OK;
        }
        if (memory.changes > 20000) {
            return no_contact(run);
        }
    }
}

/* ---- committing ------------------------------------------------------------------------------------------ */

static void add_all(double *to, const double *from, size_t count)
{
    for (size_t i = 0; i < count; i++) {
        to[i] += from[i];
    }
}

/* Stresses of the extreme fibres from the strains the concrete sees. */
static void add_stresses(const analysis_run *run, pending_column *c)
{
    const frame_mesh *mesh = &run->mesh;
    for (kl_index e = 0; e < mesh->element_count; e++) {
        if (!run->state.element_on[e]) {
            continue;
        }
        const double modulus = run->book.modulus[mesh->elements[e].member];
        for (int p = 0; p < QUADRATURE_POINTS; p++) {
            const mesh_section *s = &mesh->sections[mesh->elements[e].section + p];
            double *row = &c->field[FIELD_AT(e, p)];
            row[FIELD_TOP] =
                modulus * (row[FIELD_E] - row[FIELD_K] * s->top - c->loads.fibre[e].top[p]);
            row[FIELD_BOTTOM] =
                modulus * (row[FIELD_E] - row[FIELD_K] * s->bottom - c->loads.fibre[e].bottom[p]);
        }
    }
}

static void add_tendon_forces(const analysis_run *run, pending_column *c)
{
    for (kl_index t = 0; t < run->model->tendon_count; t++) {
        const tendon_trace *trace = &run->traces[t];
        double *to = &c->delta[run->layout.tendon + (size_t)run->first_trace[t]];
        const bool grouted =
            run->state.tendons[t].phase == KL_TENDON_GROUTED && !run->model->sections_gross;
        for (kl_index i = 0; i < trace->count; i++) {
            for (int p = 0; p < QUADRATURE_POINTS; p++) {
                const trace_point *at = &trace->elements[i].at[p];
                const double *row = &c->field[FIELD_AT(trace->elements[i].element, p)];
                const double bonded = trace->modulus * trace->area * at->cosine * at->cosine *
                                      (row[FIELD_E] - row[FIELD_K] * at->height);
                to[i * QUADRATURE_POINTS + p] += grouted ? bonded : c->coupled[t];
            }
        }
    }
}

static void add_contacts(const analysis_run *run,
                         const contact_list *list,
                         const pending_column *own,
                         pending_column *c)
{
    for (kl_index i = 0; i < list->count; i++) {
        const contact *k = &list->items[i];
        const double before = carried(run, c, k);
        if (k->kind == CONTACT_ROW) {
            double *row = &c->delta[run->layout.row + (size_t)k->index];
            if (!k->closed) {
                *row -= before;
            } else {
                *row += run->mesh.rows[k->index].stiffness * row_closing(run, k->index, c->u);
                *row += !k->was_closed && c == own ? run->state.rows[k->index].virtual_force : 0.0;
            }
        } else if (!k->closed && k->kind == CONTACT_HOLD) {
            push_hold(run, &run->state.holds[k->index], -before, c->delta + run->layout.reaction);
        } else if (!k->closed) {
            const joint_state *joint = &run->state.joints[k->index];
            c->delta[run->layout.bearing + 3 * (size_t)joint->bearing + (size_t)joint->direction] -=
                before;
        }
    }
}

static void add_reactions(const analysis_run *run, pending_column *c)
{
    for (kl_index i = 0; i < run->state.hold_count; i++) {
        const hold_state *hold = &run->state.holds[i];
        if (hold->active && (hold->bears || hold->kind == KL_SPRING)) {
            push_hold(run, hold, along_hold(run, hold, c->sum), c->delta + run->layout.reaction);
        }
    }
}

static void commit_column(analysis_run *run,
                          const contact_list *list,
                          const pending_column *own,
                          pending_column *c)
{
    const frame_mesh *mesh = &run->mesh;
    add_contacts(run, list, own, c);
    add_stresses(run, c);
    add_tendon_forces(run, c);
    add_reactions(run, c);
    add_all(c->delta + run->layout.node, c->u, 3 * (size_t)mesh->node_count);
    add_all(c->delta + run->layout.start, c->start, 3 * (size_t)mesh->element_count);
    add_all(c->delta + run->layout.field, c->field, FIELD_AT(mesh->element_count, 0));
    add_all(c->delta + run->layout.bearing, c->bearing, 3 * (size_t)run->model->bearing_count);
}

/* Gaps and virtual forces move on; needs all responses. */
static void move_contacts(analysis_run *run, const contact_list *list)
{
    for (kl_index i = 0; i < list->count; i++) {
        const contact *k = &list->items[i];
        if (k->kind == CONTACT_ROW) {
            run->state.rows[k->index].virtual_force = k->value;
        } else if (k->kind == CONTACT_HOLD) {
            run->state.holds[k->index].gap = k->closed ? 0.0 : -k->value;
        } else {
            run->state.joints[k->index].gap = k->closed ? 0.0 : -k->value;
        }
    }
}

static void move_tendons(analysis_run *run)
{
    for (kl_index t = 0; t < run->model->tendon_count; t++) {
        double change = 0.0;
        for (kl_index i = 0; i < run->pending_count; i++) {
            change += run->pending[i].coupled[t];
        }
        run->state.tendons[t].uniform += change / run->model->tendons[t].count;
    }
}

static kl_status commit(analysis_run *run, const contact_list *list, const pending_column *own)
{
    for (kl_index i = 0; i < run->pending_count; i++) {
        commit_column(run, list, own, &run->pending[i]);
    }
    move_contacts(run, list);
    move_tendons(run);
    for (kl_index i = 0; i < run->pending_count; i++) {
        pending_column *c = &run->pending[i];
        cause_column *to = state_column(run->a, &run->state.set, c->kind, c->load_case);
        if (!to) {
            return KL_NO_MEMORY;
        }
        if (to->data) {
            add_all(c->delta, to->data, run->layout.size);
        }
        to->data = c->delta;
        c->delta = NULL;
    }
    run->pending_count = 0;
    return KL_OK;
}

/* ---- the whole ------------------------------------------------------------------------------------------- */

static void keep_loads(analysis_run *run)
{
    const size_t n = 3 * (size_t)run->mesh.node_count * sizeof(double);
    for (kl_index i = 0; i < run->pending_count; i++) {
        pending_column *c = &run->pending[i];
        memcpy(c->base_node, c->loads.node, n);
        memcpy(c->base_moved, c->loads.moved, n);
        for (kl_index k = 0; k < run->mesh.node_count; k++) {
            run->largest_force =
                fmax(run->largest_force, hypot(c->loads.node[3 * k], c->loads.node[3 * k + 1]));
        }
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
    if (run->structure_changed) {
        KL_TRY(increment_form(run));
    }
    keep_loads(run);
    const kl_index tendon_count = coupling_list(run, excepted, run->followers);
    KL_TRY(search(run, &list, own, run->followers, tendon_count));
    return commit(run, &list, own);
}
