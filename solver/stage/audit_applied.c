/* audit_applied.c - which loads are on, and how much of each: the stages' operations replayed.
 *
 * A load goes with what it stands on: with its member when that is removed, with its node when no member meets it any
 * more. `unload` takes off all that is on.
 * SPDX-License-Identifier: MIT */
#include <string.h>

#include "audit_parts.h"
#include "mem.h"

bool audit_belongs(kl_cause wanted, kl_cause_kind kind, kl_index load_case)
{
    if (wanted.kind == KL_CAUSE_ALL) {
        return true;
    }
    return wanted.kind == KL_CAUSE_CASE ? wanted.load_case == load_case : wanted.kind == kind;
}

static bool load_belongs(kl_cause wanted, const kl_load *load, kl_index load_case)
{
    return audit_belongs(wanted, load->kind == KL_LOAD_WEIGHT ? KL_CAUSE_WEIGHT : KL_CAUSE_CASE,
                         load_case);
}

/* ---- replaying ------------------------------------------------------------------------------------------- */

typedef struct replay {
    const audit_work *w;
    double *on;        /* of each load */
    bool *stands;      /* of each member */
    kl_index *meeting; /* of each model node: standing element ends at it */
} replay;

static void set_standing(replay *r, kl_index member, bool stands)
{
    if (r->stands[member] == stands) {
        return;
    }
    const mesh_member *of = &r->w->mesh->members[member];
    r->stands[member] = stands;
    for (kl_index e = of->first; e < of->first + of->count; e++) {
        for (int end = 0; end < 2; end++) {
            const kl_index node = r->w->mesh->elements[e].node[end];
            if (node < r->w->model->node_count) {
                r->meeting[node] += stands ? 1 : -1;
            }
        }
    }
}

static void drop_loads(replay *r)
{
    const kl_model *model = r->w->model;
    for (kl_index c = 0; c < model->case_count; c++) {
        for (kl_index i = 0; i < model->cases[c].load_count; i++) {
            const kl_load *load = &model->cases[c].loads[i];
            const bool gone = (load->member != KL_NONE && !r->stands[load->member]) ||
                              (load->node != KL_NONE && r->meeting[load->node] == 0);
            if (gone) {
                r->on[r->w->first_load[c] + i] = 0.0;
            }
        }
    }
}

static void change_case(replay *r, kl_index load_case, double factor, bool off)
{
    double *on = &r->on[r->w->first_load[load_case]];
    for (kl_index i = 0; i < r->w->model->cases[load_case].load_count; i++) {
        on[i] = off ? 0.0 : on[i] + factor;
    }
}

static void replay_operation(replay *r, const kl_operation *op)
{
    const bool builds = op->kind == KL_OP_CAST || op->kind == KL_OP_PLACE;
    const bool loads = op->kind == KL_OP_LOAD || op->kind == KL_OP_UNLOAD;
    for (kl_index i = 0; i < op->items.count; i++) {
        if (builds || op->kind == KL_OP_REMOVE) {
            set_standing(r, op->items.items[i], builds);
        } else if (loads) {
            change_case(r, op->items.items[i], op->factor, op->kind == KL_OP_UNLOAD);
        }
    }
    if (op->kind == KL_OP_REMOVE) {
        drop_loads(r);
    }
}

static void replay_until(replay *r, const kl_step *step)
{
    const kl_model *model = r->w->model;
    for (kl_index s = 0; s <= step->stage; s++) {
        const kl_stage *stage = &model->stages[s];
        const kl_index last = s < step->stage              ? stage->operation_count
                              : step->operation == KL_NONE ? 0
                                                           : step->operation + 1;
        for (kl_index o = 0; o < last; o++) {
            replay_operation(r, &stage->operations[o]);
        }
    }
}

/* What is on after a step. */
static kl_status replay_step(const audit_work *w, const kl_step *step, double *on)
{
    replay r = {.w = w};
    r.on = on;
    r.stands = mem_array((size_t)w->model->member_count + 1, sizeof(bool));
    r.meeting = mem_array((size_t)w->model->node_count + 1, sizeof(kl_index));
    const bool complete = r.stands && r.meeting;
    if (complete) {
        replay_until(&r, step);
    }
    mem_free(r.stands);
    mem_free(r.meeting);
    return complete ? KL_OK : KL_NO_MEMORY;
}

/* ---- states ---------------------------------------------------------------------------------------------- */

/* Add factor times what belongs to both causes; `on` NULL: each load is fully on. */
static void
add_case(audit_work *w, kl_index load_case, double factor, kl_cause cause, const double *on)
{
    for (kl_index i = 0; i < w->model->cases[load_case].load_count; i++) {
        const kl_load *load = &w->model->cases[load_case].loads[i];
        const kl_index at = w->first_load[load_case] + i;
        if (load_belongs(w->state.cause, load, load_case) && load_belongs(cause, load, load_case)) {
            w->on[at] += factor * (on ? on[at] : 1.0);
        }
    }
}

static void add_term(audit_work *w, const kl_factor *term, const double *built)
{
    const kl_cause everything = {KL_CAUSE_ALL, KL_NONE};
    const bool of_case = term->cause.kind == KL_CAUSE_CASE;
    if (of_case && kl_case_is_solved(w->results, term->cause.load_case)) {
        add_case(w, term->cause.load_case, term->factor, everything, NULL);
        return;
    }
    for (kl_index c = 0; c < w->model->case_count; c++) {
        if (!of_case || c == term->cause.load_case) {
            add_case(w, c, term->factor, term->cause, built);
        }
    }
    if (built && audit_belongs(term->cause, KL_CAUSE_WEIGHT, KL_NONE) &&
        audit_belongs(w->state.cause, KL_CAUSE_WEIGHT, KL_NONE)) {
        w->weight_on += term->factor;
    }
}

static kl_status apply_combination(audit_work *w)
{
    const kl_combination *combination = &w->model->combinations[w->state.index];
    const kl_index steps = kl_step_count(w->results);
    double *built = NULL;
    kl_status status = KL_OK;
    if (steps > 0) {
        built = mem_array((size_t)w->first_load[w->model->case_count] + 1, sizeof(double));
        status = built ? replay_step(w, kl_step_at(w->results, steps - 1), built) : KL_NO_MEMORY;
    }
    for (kl_index i = 0; status == KL_OK && i < combination->factor_count; i++) {
        add_term(w, &combination->factors[i], built);
    }
    mem_free(built);
    return status;
}

static kl_status apply_step(audit_work *w)
{
    const kl_cause everything = {KL_CAUSE_ALL, KL_NONE};
    double *built = mem_array((size_t)w->first_load[w->model->case_count] + 1, sizeof(double));
    const kl_status status = built ? replay_step(w, &w->record->step, built) : KL_NO_MEMORY;
    for (kl_index c = 0; status == KL_OK && c < w->model->case_count; c++) {
        add_case(w, c, 1.0, everything, built);
    }
    w->weight_on = audit_belongs(w->state.cause, KL_CAUSE_WEIGHT, KL_NONE) ? 1.0 : 0.0;
    mem_free(built);
    return status;
}

kl_status audit_applied(audit_work *w)
{
    const kl_cause everything = {KL_CAUSE_ALL, KL_NONE};
    switch (w->state.kind) {
    case KL_STATE_STEP:
    case KL_STATE_MOMENT:
        return apply_step(w);
    case KL_STATE_CASE:
        add_case(w, w->state.index, 1.0, everything, NULL);
        return KL_OK;
    case KL_STATE_COMBINATION:
        break;
    }
    return apply_combination(w);
}
