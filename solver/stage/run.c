/* run.c - see run.h.
 * SPDX-License-Identifier: MIT */
#include "run.h"

#include <math.h>
#include <string.h>

#include "mem.h"
#include "profile_rows.h"
#include "stressing.h"
#include "tendon_warnings.h"

/* ---- tendons before the mesh: their kinks are element ends ------------------------------------------------ */

typedef struct break_list {
    mesh_break *items;
    size_t count, capacity;
} break_list;

#define BREAK_LIMIT 1000000

/* `along` follows the tendon: breaks that come in rising order find their members at once. */
static kl_status add_break(profile_walk *along, double x, break_list *list)
{
    void *items = list->items;
    mesh_break here;
    here.member = profile_walk_to(along, x, KL_LEFT, &here.station);
    KL_TRY(mem_grow(&items, &list->capacity, list->count + 1, sizeof(mesh_break), BREAK_LIMIT));
    list->items = items;
    list->items[list->count++] = here;
    return KL_OK;
}

/* A tendon's action is a polynomial of degree 4 along an element; that is good to 1e-7 while the tendon turns by no more
 * than this from one end to the other, and the error grows with the fifth power. */
#define TURN_OF_ELEMENT 0.1 /* rad */

static kl_status breaks_of_turning(analysis_run *run, kl_index t, break_list *list)
{
    const tendon_path *path = &run->paths[t];
    profile_walk along = {.model = run->model, .tendon = &run->model->tendons[t]};
    for (kl_index i = 0; i < path->piece_count; i++) {
        const path_piece *p = &path->pieces[i];
        const double length = p->to - p->from;
        const double turn = fabs(atan(p->m0 + 2.0 * p->c * length) - atan(p->m0));
        const int parts =
            (int)ceil(turn / TURN_OF_ELEMENT); /* at most 32: angles are below a right one */
        for (int k = 1; k < parts; k++) {
            KL_TRY(add_break(&along, p->from + length * k / parts, list));
        }
    }
    return KL_OK;
}

static kl_status
breaks_of_curve(analysis_run *run, kl_index t, const force_curve *curve, break_list *list)
{
    const double *x;
    kl_index count;
    profile_walk along = {.model = run->model, .tendon = &run->model->tendons[t]};
    KL_TRY(force_breaks(&run->paths[t], curve, run->a, &x, &count));
    for (kl_index i = 0; i < count; i++) {
        KL_TRY(add_break(&along, x[i], list));
    }
    return KL_OK;
}

/* Where the seated force has a kink, and where friction alone has one: losses are told apart. Warnings are drawn by the
 * fullest stressing only. */
static kl_status breaks_of_stressing(
    analysis_run *run, kl_index t, double share, bool warn, force_curve *now, break_list *list)
{
    stressing s;
    KL_TRY(stressing_find(run, t, share, now->count > 0 ? now : NULL, run->diags, &s));
    KL_TRY(breaks_of_curve(run, t, &s.after, list));
    KL_TRY(breaks_of_curve(run, t, &s.record.unseated, list));
    *now = s.after;
    return warn ? tendon_warnings(run->model, t, &run->paths[t], &s.after, &s.record, run->diags)
                : KL_OK;
}

/* The next `stress` of a tendon in the stages: *s, *o count on from where they stand. NULL: none left. */
static const kl_operation *
next_stressing(const kl_model *model, kl_index t, kl_index *s, kl_index *o)
{
    for (; *s < model->stage_count; (*s)++, *o = 0) {
        while (*o < model->stages[*s].operation_count) {
            const kl_operation *op = &model->stages[*s].operations[(*o)++];
            for (kl_index i = 0; op->kind == KL_OP_STRESS && i < op->items.count; i++) {
                if (op->items.items[i] == t) {
                    return op;
                }
            }
        }
    }
    return NULL;
}

/* Every stressing of one tendon in the stages; without stages (or never stressed) its full stressing. */
static kl_status breaks_of_tendon(analysis_run *run, kl_index t, break_list *list)
{
    double largest = 0.0;
    kl_index s = 0;
    kl_index o = 0;
    const kl_operation *op;
    while ((op = next_stressing(run->model, t, &s, &o)) != NULL) {
        largest = fmax(largest, op->factor);
    }
    bool warned = false;
    force_curve now = {NULL, 0};
    s = o = 0;
    while ((op = next_stressing(run->model, t, &s, &o)) != NULL) {
        const bool warn = !warned && op->factor >= largest;
        KL_TRY(breaks_of_stressing(run, t, op->factor, warn, &now, list));
        warned = warned || warn;
    }
    return now.count > 0 ? KL_OK : breaks_of_stressing(run, t, 1.0, true, &now, list);
}

static kl_status make_mesh(analysis_run *run, break_list *list)
{
    const kl_model *model = run->model;
    run->paths = arena_array(run->a, (size_t)model->tendon_count, sizeof(tendon_path));
    run->traces = arena_array(run->a, (size_t)model->tendon_count, sizeof(tendon_trace));
    run->from_slack = arena_array(run->a, (size_t)model->tendon_count, sizeof(stressing));
    run->first_trace = arena_array(run->a, (size_t)model->tendon_count + 1, sizeof(kl_index));
    if (!run->paths || !run->traces || !run->from_slack || !run->first_trace) {
        return KL_NO_MEMORY;
    }
    for (kl_index t = 0; t < model->tendon_count; t++) {
        KL_TRY(profile_build(model, t, run->a, run->diags, &run->paths[t]));
        KL_TRY(breaks_of_turning(run, t, list));
        KL_TRY(breaks_of_tendon(run, t, list));
    }
    KL_TRY(member_tendons_make(model, run->a, &run->through));
    KL_TRY(tendon_warn_ducts(model, run->paths, &run->through, run->diags));
    KL_TRY(mesh_create(model, list->items, (kl_index)list->count, run->a, run->diags, &run->mesh));
    for (kl_index t = 0; t < model->tendon_count; t++) {
        KL_TRY(action_trace(&run->mesh, t, &run->paths[t], run->a, &run->traces[t]));
    }
    return KL_OK;
}

/* ---- workspace ------------------------------------------------------------------------------------------- */

static kl_status order_bearings(analysis_run *run)
{
    const kl_model *model = run->model;
    const kl_index count = model->bearing_count;
    run->bearing_order = arena_array(run->a, (size_t)count, sizeof(kl_index));
    kl_index *depth = arena_array(run->a, (size_t)model->node_count, sizeof(kl_index));
    if (!run->bearing_order || !depth) {
        return KL_NO_MEMORY;
    }
    for (kl_index pass = 0; pass < count;
         pass++) { /* how many bearings lie between a node and the top of its chain */
        for (kl_index b = 0; b < count; b++) {
            const kl_bearing *bearing = &model->bearings[b];
            if (depth[bearing->base] <= depth[bearing->node] && depth[bearing->node] < count) {
                depth[bearing->base] = depth[bearing->node] + 1;
            }
        }
        if (count > 16 && pass > 16) {
            break; /* chains are short; a ring of bearings is refused by the model's check */
        }
    }
    kl_index placed = 0;
    for (kl_index level = 0; placed < count && level <= count; level++) {
        for (kl_index b = 0; b < count; b++) {
            if (depth[model->bearings[b].node] == level) {
                run->bearing_order[placed++] = b;
            }
        }
    }
    return KL_OK;
}

static kl_status make_column(analysis_run *run, pending_column *c)
{
    KL_TRY(loads_create(&run->mesh, run->a, &c->loads));
    c->sum = arena_array(run->a, 3 * (size_t)run->mesh.node_count, sizeof(double));
    c->bearing = arena_array(run->a, 3 * (size_t)run->model->bearing_count, sizeof(double));
    c->coupled = arena_array(run->a, (size_t)run->model->tendon_count, sizeof(double));
    return c->sum && c->bearing && c->coupled ? KL_OK : KL_NO_MEMORY;
}

static kl_status take_block(analysis_run *run, pending_column *c)
{
    c->delta = block_take(&run->blocks, run->a);
    if (!c->delta) {
        return KL_NO_MEMORY;
    }
    c->u = c->delta + run->layout.node;
    c->start = c->delta + run->layout.start;
    c->turn = c->delta + run->layout.turn;
    c->field = c->delta + run->layout.field;
    return KL_OK;
}

static kl_status make_workspace(analysis_run *run)
{
    const kl_model *model = run->model;
    const size_t contacts = (size_t)run->mesh.row_count + (size_t)run->state.hold_count +
                            (size_t)run->state.joint_count;
    run->pending_capacity = 2 * KL_CAUSE_COUNT + 5 * model->case_count; /* creep by source too */
    run->pending = arena_array(run->a, (size_t)run->pending_capacity, sizeof(pending_column));
    run->stresses = arena_array(run->a, (size_t)run->pending_capacity, sizeof(memory_stress));
    run->unit = arena_array(run->a, (size_t)model->tendon_count, sizeof(pending_column));
    run->basic = arena_array(run->a, 3 * (size_t)run->mesh.element_count, sizeof(double));
    run->holds = arena_array(run->a, (size_t)run->state.hold_count, sizeof(frame_hold));
    run->joints = arena_array(run->a, (size_t)run->state.joint_count, sizeof(frame_joint));
    run->struts = arena_array(run->a, (size_t)run->mesh.row_count, sizeof(frame_strut));
    run->contacts = arena_array(run->a, contacts, sizeof(contact));
    run->followers = arena_array(run->a, (size_t)model->tendon_count, sizeof(kl_index));
    run->stressing = arena_array(run->a, (size_t)model->tendon_count, sizeof(kl_stressing));
    run->stressed_share = arena_array(run->a, (size_t)model->tendon_count, sizeof(double));
    if (!run->stressing || !run->stressed_share || !run->pending || !run->stresses || !run->unit ||
        !run->basic || !run->holds || !run->joints || !run->struts || !run->contacts ||
        !run->followers) {
        return KL_NO_MEMORY;
    }
    for (kl_index t = 0; t < model->tendon_count; t++) {
        KL_TRY(make_column(run, &run->unit[t]));
        KL_TRY(take_block(run, &run->unit[t]));
    }
    return order_bearings(run);
}

static bool has_days(const kl_model *model)
{
    return model->stage_count > 0 && model->stages[model->stage_count - 1].has_time;
}

/* What time does: only where there are days. */
static kl_status make_memory(analysis_run *run)
{
    const kl_model *model = run->model;
    const double last = run->ageless ? -HUGE_VAL : model->stages[model->stage_count - 1].time;
    KL_TRY(relaxing_create(&run->mesh, run->traces, run->first_trace, run->a, &run->relaxing));
    KL_TRY(ageing_create(&run->mesh, &run->settings, run->a, &run->ageing));
    run->memory = (creep_memory){.last_day = last};
    return KL_OK;
}

kl_status run_prepare(const kl_model *model,
                      const kl_settings *settings,
                      kl_diags *diags,
                      arena *a,
                      analysis_run *run)
{
    *run = (analysis_run){.model = model,
                          .settings = settings ? *settings : kl_settings_default(),
                          .diags = diags,
                          .a = a,
                          .ageless = !has_days(model),
                          .step = KL_NONE};
    break_list breaks = {0};
    const kl_status status = make_mesh(run, &breaks);
    mem_free(breaks.items);
    KL_TRY(status);
    run->layout = state_layout(&run->mesh, run->traces, run->first_trace);
    run->blocks.size = run->layout.size;
    KL_TRY(system_create(&run->mesh, run->settings.threads, a, &run->system));
    KL_TRY(section_book_create(&run->mesh, run->traces, a, &run->book));
    KL_TRY(state_create(&run->mesh, a, &run->state));
    KL_TRY(make_workspace(run));
    return make_memory(run);
}

void run_release(analysis_run *run)
{
    system_destroy(&run->system);
    mem_free(run->state.spans);
}

pending_column *run_pending(analysis_run *run, kl_cause_kind kind, kl_index load_case)
{
    for (kl_index i = 0; i < run->pending_count; i++) {
        if (run->pending[i].kind == kind && run->pending[i].load_case == load_case) {
            return &run->pending[i];
        }
    }
    if (run->pending_count == run->pending_capacity) {
        return NULL;
    }
    pending_column *c = &run->pending[run->pending_count];
    if (c->sum) {
        loads_clear(&run->mesh, &c->loads);
    } else if (make_column(run, c) != KL_OK) {
        return NULL;
    }
    c->kind = kind;
    c->load_case = load_case;
    if (take_block(run, c) != KL_OK) {
        return NULL;
    }
    run->pending_count++;
    return c;
}
