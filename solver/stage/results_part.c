/* results_part.c - questions about steps, causes, nodes, supports, posts.
 * SPDX-License-Identifier: MIT */
#include <math.h>

#include "result_store.h"

const kl_model *kl_results_model(const kl_results *results)
{
    return results->run.model;
}

/* ---- steps ----------------------------------------------------------------------------------------------- */

kl_index kl_step_count(const kl_results *results)
{
    return results->step_count;
}

const kl_step *kl_step_at(const kl_results *results, kl_index step)
{
    return &results->steps[step].step;
}

kl_index kl_first_step(const kl_results *results, kl_index stage)
{
    return results->first_step[stage];
}

kl_index kl_last_step(const kl_results *results, kl_index stage)
{
    return results->first_step[stage + 1] - 1;
}

kl_index kl_moment_count(const kl_results *results)
{
    return results->moment_count;
}

const kl_step *kl_moment_at(const kl_results *results, kl_index moment)
{
    return &results->moments[moment].step;
}

bool kl_case_is_solved(const kl_results *results, kl_index load_case)
{
    return results->cases[load_case].known;
}

static void add_cause(kl_cause cause, kl_cause *causes, kl_index capacity, kl_index *count)
{
    for (kl_index i = 0; i < *count; i++) {
        if (causes[i].kind == cause.kind && causes[i].load_case == cause.load_case) {
            return;
        }
    }
    if (*count < capacity) {
        causes[(*count)++] = cause;
    }
}

static void
causes_of_set(const column_set *set, kl_cause *causes, kl_index capacity, kl_index *count)
{
    for (kl_index i = 0; i < set->count; i++) {
        const cause_column *c = &set->columns[i];
        /* what a case brought, of whatever kind, goes under the case: so the causes add up */
        const bool is_case = c->load_case != KL_NONE && c->kind != KL_CAUSE_CREEP;
        if (c->data) {
            add_cause(is_case ? (kl_cause){KL_CAUSE_CASE, c->load_case}
                              : (kl_cause){c->kind, KL_NONE},
                      causes, capacity, count);
        }
    }
}

void kl_state_causes(const kl_results *results, kl_state state, kl_cause *causes, kl_index *count)
{
    const kl_index capacity = *count;
    const state_record *record = store_record_of(results, state);
    *count = 0;
    if (!record) {
        return;
    }
    causes_of_set(&record->set, causes, capacity, count);
    for (kl_index i = 0; state.kind == KL_STATE_COMBINATION && i < results->run.model->case_count;
         i++) {
        causes_of_set(&results->cases[i].set, causes, capacity, count);
    }
}

/* ---- nodes and supports ---------------------------------------------------------------------------------- */

kl_status kl_node_movement(
    const kl_results *results, kl_state state, kl_quantity quantity, kl_index node, double *value)
{
    const state_record *record = store_record_of(results, state);
    if (!record || !record->node_stands[node]) {
        return KL_NOT_THERE;
    }
    const size_t direction = quantity == KL_SWAY ? 0 : quantity == KL_ROTATION ? 2 : 1;
    KL_TRY(store_sum(results, state, results->run.layout.node + 3 * (size_t)node + direction, 1, 1,
                     value));
    *value = quantity == KL_CAMBER ? -*value : *value;
    return KL_OK;
}

kl_status kl_reaction(
    const kl_results *results, kl_state state, kl_index node, kl_direction direction, double *value)
{
    if (!results->supported[node]) {
        return KL_NOT_THERE;
    }
    const size_t entry = results->run.layout.reaction + 3 * (size_t)node + (size_t)direction;
    return store_sum(results, state, entry, 1, 1, value);
}

kl_status kl_bearing_force(const kl_results *results,
                           kl_state state,
                           kl_index bearing,
                           kl_direction direction,
                           double *value)
{
    const size_t entry = results->run.layout.bearing + 3 * (size_t)bearing + (size_t)direction;
    return store_sum(results, state, entry, 1, 1, value);
}

/* The first of a support's holds: they are listed in the order of the supports. */
static kl_index first_hold(const stage_state *s, kl_index support)
{
    kl_index low = 0;
    kl_index high = s->hold_count;
    while (low < high) {
        const kl_index middle = low + (high - low) / 2;
        if (s->holds[middle].support < support) {
            low = middle + 1;
        } else {
            high = middle;
        }
    }
    return low;
}

kl_status
kl_support_holds(const kl_results *results, kl_state state, kl_index support, kl_hold hold[3])
{
    const stage_state *s = &results->run.state;
    const state_record *record = store_record_of(results, state);
    if (!record) {
        return KL_NOT_THERE;
    }
    hold[KL_X] = hold[KL_Y] = hold[KL_TURN] = (kl_hold){.kind = KL_FREE};
    for (kl_index i = first_hold(s, support); i < s->hold_count && s->holds[i].support == support;
         i++) {
        const hold_state *h = &record->holds[i];
        if (h->active) {
            hold[h->direction] = results->run.model->supports[support].hold[h->direction];
        }
    }
    return KL_OK;
}

/* ---- posts ----------------------------------------------------------------------------------------------- */

kl_status kl_row_state(
    const kl_results *results, kl_state state, kl_index falsework, kl_index row, kl_post_row *out)
{
    const state_record *record = store_record_of(results, state);
    const kl_index index = results->run.mesh.first_row[falsework] + row;
    if (!record) {
        return KL_NOT_THERE;
    }
    const row_state *r = &record->rows[index];
    *out = (kl_post_row){.stands = r->phase == ROW_SET || r->phase == ROW_READY,
                         .bears = r->phase == ROW_SET && r->bears,
                         .waits = r->phase == ROW_READY};
    if (r->phase == ROW_SET && !r->bears) {
        out->gap = fmax(0.0, -r->virtual_force / results->run.mesh.rows[index].stiffness);
    }
    return store_sum(results, state, results->run.layout.row + (size_t)index, 1, 1, &out->force);
}
