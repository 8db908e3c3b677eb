/* result_store.c - see result_store.h.
 * SPDX-License-Identifier: MIT */
#include "result_store.h"

#include <math.h>
#include <string.h>

static bool all_finite(const double *from, const double *to)
{
    bool all = true;
    for (; from < to; from++) {
        all &= isfinite(*from) != 0;
    }
    return all;
}

/* NAN stands for stresses that a bare section does not have. */
static bool column_is_finite(const column_layout *layout, const double *data)
{
    bool all = all_finite(data, data + layout->field) &&
               all_finite(data + layout->row, data + layout->size);
    for (size_t at = layout->field; all && at < layout->row; at += FIELD_COUNT) {
        all = all_finite(data + at, data + at + FIELD_TOP);
        for (size_t k = at + FIELD_TOP; k < at + FIELD_COUNT; k++) {
            all = all && !isinf(data[k]);
        }
    }
    return all;
}

/* Sums of very large numbers can overflow after a solve that was finite. A column that the last step has too was looked
 * at there. */
static bool is_finite(const kl_results *results)
{
    const column_set *set = &results->run.state.set;
    const column_set none = {NULL, 0};
    const column_set *seen =
        results->step_count > 0 ? &results->steps[results->step_count - 1].set : &none;
    for (kl_index i = 0; i < set->count; i++) {
        const double *data = set->columns[i].data;
        const bool is_new = data && !(i < seen->count && seen->columns[i].data == data);
        if (is_new && !column_is_finite(&results->run.layout, data)) {
            return false;
        }
    }
    return true;
}

kl_status store_record(kl_results *results, state_record *record)
{
    const stage_state *s = &results->run.state;
    const frame_mesh *m = &results->run.mesh;
    const kl_model *model = results->run.model;
    arena *a = &results->a;
    for (kl_index i = 0; i < s->set.count; i++) {
        s->set.columns[i].recorded = true;
    }
    record->set.count = s->set.count;
    record->set.columns = arena_copy(a, s->set.columns, (size_t)s->set.count, sizeof(cause_column));
    record->rows = arena_copy(a, s->rows, (size_t)m->row_count, sizeof(row_state));
    record->holds = arena_copy(a, s->holds, (size_t)s->hold_count, sizeof(hold_state));
    record->tendons = arena_copy(a, s->tendons, (size_t)model->tendon_count, sizeof(tendon_state));
    record->members = arena_copy(a, s->members, (size_t)model->member_count, sizeof(member_state));
    record->element_on = arena_copy(a, s->element_on, (size_t)m->element_count, sizeof(bool));
    record->node_stands = arena_copy(a, s->node_stands, (size_t)m->node_count, sizeof(bool));
    record->spans = arena_copy(a, s->spans, s->span_count, sizeof(form_span));
    record->case_factor = arena_copy(a, s->case_factor, (size_t)model->case_count, sizeof(double));
    record->span_count = s->span_count;
    record->time = s->time;
    record->residual = results->run.system.worst_residual;
    record->known = true;
    const bool complete = record->set.columns && record->rows && record->holds && record->tendons &&
                          record->members && record->element_on && record->node_stands &&
                          record->spans && record->case_factor;
    if (!complete) {
        return KL_NO_MEMORY;
    }
    return is_finite(results) ? KL_OK : KL_NUMERIC;
}

const state_record *store_record_of(const kl_results *results, kl_state state)
{
    switch (state.kind) {
    case KL_STATE_STEP:
        return state.index >= 0 && state.index < results->step_count ? &results->steps[state.index]
                                                                     : NULL;
    case KL_STATE_CASE:
        return state.index >= 0 && state.index < results->run.model->case_count &&
                       results->cases[state.index].known
                   ? &results->cases[state.index]
                   : NULL;
    case KL_STATE_MOMENT:
        return state.index >= 0 && state.index < results->moment_count
                   ? &results->moments[state.index]
                   : NULL;
    case KL_STATE_COMBINATION:
        break;
    }
    if (state.index < 0 || state.index >= results->run.model->combination_count) {
        return NULL;
    }
    return results->step_count > 0 ? &results->steps[results->step_count - 1] : &results->bare;
}

/* ---- sums ------------------------------------------------------------------------------------------------ */

typedef struct summation {
    size_t entry, stride;
    int count;
    double *out;
} summation;

static void
add_set(const column_set *set, kl_cause wanted, kl_cause also, double factor, const summation *s)
{
    for (kl_index i = 0; i < set->count; i++) {
        const cause_column *c = &set->columns[i];
        if (!c->data || !state_matches(c, wanted) || !state_matches(c, also)) {
            continue;
        }
        for (int k = 0; k < s->count; k++) {
            s->out[k] += factor * c->data[s->entry + (size_t)k * s->stride];
        }
    }
}

/* Every cause, at the points of an element: what is asked most. */
static inline void
sum_points(const column_set *set, size_t entry, size_t stride, double out[QUADRATURE_POINTS])
{
    double sum[QUADRATURE_POINTS] = {0.0};
    for (kl_index i = 0; i < set->count; i++) {
        const double *data = set->columns[i].data;
        for (size_t k = 0; data && k < QUADRATURE_POINTS; k++) {
            sum[k] += data[entry + k * stride];
        }
    }
    memcpy(out, sum, sizeof sum);
}

/* One term of a combination: a case that has a state of its own brings all of it; any other name is looked for in the
 * final state of the construction, or, without stages, in all cases. */
static void
add_term(const kl_results *results, const kl_factor *factor, kl_cause wanted, const summation *s)
{
    const kl_cause everything = {KL_CAUSE_ALL, KL_NONE};
    const kl_cause cause = factor->cause;
    if (cause.kind == KL_CAUSE_CASE && results->cases[cause.load_case].known) {
        add_set(&results->cases[cause.load_case].set, wanted, everything, factor->factor, s);
    } else if (results->step_count > 0) {
        add_set(&results->steps[results->step_count - 1].set, wanted, cause, factor->factor, s);
    } else {
        for (kl_index i = 0; i < results->run.model->case_count; i++) {
            add_set(&results->cases[i].set, wanted, cause, factor->factor, s);
        }
    }
}

static void sum_combination(const kl_results *results,
                            const kl_combination *combination,
                            kl_cause wanted,
                            const summation *s)
{
    for (kl_index i = 0; i < combination->factor_count; i++) {
        add_term(results, &combination->factors[i], wanted, s);
    }
}

kl_status store_sum(
    const kl_results *results, kl_state state, size_t entry, size_t stride, int count, double *out)
{
    const state_record *record = store_record_of(results, state);
    const bool is_combination = state.kind == KL_STATE_COMBINATION;
    if (record && !is_combination && state.cause.kind == KL_CAUSE_ALL &&
        count == QUADRATURE_POINTS) {
        sum_points(&record->set, entry, stride, out);
        return KL_OK;
    }
    const summation s = {entry, stride, count, out};
    memset(out, 0, (size_t)count * sizeof(double));
    if (record && is_combination) {
        sum_combination(results, &results->run.model->combinations[state.index], state.cause, &s);
    } else if (record) {
        add_set(&record->set, state.cause, (kl_cause){KL_CAUSE_ALL, KL_NONE}, 1.0, &s);
    }
    return record ? KL_OK : KL_NOT_THERE;
}
