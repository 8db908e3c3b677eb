/* audit.c - see audit.h: the whole audit of one state, and its figures.
 * SPDX-License-Identifier: MIT */
#include "audit.h"

#include <math.h>

#include "audit_parts.h"
#include "mem.h"
#include "near.h"

/* ---- work ------------------------------------------------------------------------------------------------ */

void audit_printed(const audit_work *w, size_t entry, size_t stride, int count, double *out)
{
    /* It could only say that the state does not exist, which audit_state has seen to. */
    (void)store_sum(w->results, w->state, entry, stride, count, out);
}

static void measure_model(audit_work *w)
{
    double low[2] = {HUGE_VAL, HUGE_VAL};
    double high[2] = {-HUGE_VAL, -HUGE_VAL};
    for (kl_index n = 0; n < w->model->node_count; n++) {
        const double x[2] = {w->model->nodes[n].x, w->model->nodes[n].y};
        for (int d = 0; d < 2; d++) {
            low[d] = fmin(low[d], x[d]);
            high[d] = fmax(high[d], x[d]);
        }
    }
    w->middle = (kl_point){0.5 * (low[0] + high[0]), 0.5 * (low[1] + high[1])};
    w->size = hypot(high[0] - low[0], high[1] - low[1]);
}

static kl_status prepare(audit_work *w)
{
    const kl_model *model = w->model;
    w->node = mem_array(3 * (size_t)model->node_count + 1, sizeof(double));
    w->wet = mem_array((size_t)w->mesh->row_count + 1, sizeof(double));
    w->first_load = mem_array((size_t)model->case_count + 1, sizeof(kl_index));
    if (!w->node || !w->wet || !w->first_load) {
        return KL_NO_MEMORY;
    }
    for (kl_index c = 0; c < model->case_count; c++) {
        w->first_load[c + 1] = w->first_load[c] + model->cases[c].load_count;
    }
    w->on = mem_array((size_t)w->first_load[model->case_count] + 1, sizeof(double));
    if (!w->on) {
        return KL_NO_MEMORY;
    }
    measure_model(w);
    KL_TRY(audit_applied(w));
    return audit_cut(w);
}

static void release(audit_work *w)
{
    mem_free(w->bodies);
    mem_free(w->first_body);
    mem_free(w->node);
    mem_free(w->first_load);
    mem_free(w->on);
    mem_free(w->wet);
}

/* ---- the force at hand ----------------------------------------------------------------------------------- */

static double largest_tendon_force(const audit_work *w)
{
    double largest = 0.0;
    for (size_t i = w->results->run.layout.tendon; i < w->results->run.layout.size; i++) {
        double force;
        audit_printed(w, i, 1, 1, &force);
        largest = fmax(largest, fabs(force));
    }
    return largest;
}

/* What the members' movements would take to hold back, each at its length: where next to nothing is needed (a bar that
 * is free to expand), forces are rounding, and a billionth of this is nothing. */
static double restraint(const audit_work *w)
{
    double largest = 0.0;
    for (kl_index m = 0; m < w->model->member_count; m++) {
        const kl_member *member = &w->model->members[m];
        const kl_index ends[2] = {member->from, member->to};
        double modulus;
        double strength;
        double age;
        kl_section_values section;
        if (!w->record->members[m].stands) {
            continue;
        }
        kl_concrete_of_state(w->results, w->state, m, &modulus, &strength, &age);
        (void)kl_section_at_station(w->results, m, 0.0, KL_RIGHT, &section);
        for (int end = 0; end < 2; end++) {
            double u[2];
            audit_printed(w, w->results->run.layout.node + 3 * (size_t)ends[end], 1, 2, u);
            largest = fmax(largest,
                           modulus * section.area * hypot(u[0], u[1]) / w->mesh->members[m].length);
        }
    }
    return largest;
}

/* Forces there were before leave their rounding behind; a case alone and a combination are differences and sums. */
static double force_before(const audit_work *w)
{
    const kl_results *r = w->results;
    double largest = r->step_count > 0 ? r->steps[r->step_count - 1].largest_force : 0.0;
    if (w->state.kind ==
        KL_STATE_MOMENT) { /* forces as large are there again in the step that follows */
        const kl_index next = r->first_step[w->record->step.stage];
        return fmax(next > 0 ? r->steps[next - 1].largest_force : 0.0, w->record->largest_force);
    }
    if (w->state.kind == KL_STATE_STEP) {
        return w->state.index > 0
                   ? fmax(r->steps[w->state.index - 1].largest_force, w->record->largest_force)
                   : w->record->largest_force;
    }
    if (w->state.kind == KL_STATE_CASE) {
        return fmax(largest, w->record->largest_force);
    }
    const kl_combination *combination = &w->model->combinations[w->state.index];
    for (kl_index i = 0; i < combination->factor_count; i++) {
        const kl_factor *term = &combination->factors[i];
        if (term->cause.kind == KL_CAUSE_CASE && kl_case_is_solved(r, term->cause.load_case)) {
            largest =
                fmax(largest, fabs(term->factor) * r->cases[term->cause.load_case].largest_force);
        }
    }
    return largest;
}

static double force_at_hand(const audit_work *w)
{
    const double force = fmax(w->largest_force, largest_tendon_force(w));
    const double largest = fmax(fmax(force, w->largest_moment / w->size), force_before(w));
    return fmax(largest, NEAR_BALANCE * restraint(w));
}

/* ---- figures --------------------------------------------------------------------------------------------- */

static double ratio(double value, double scale)
{
    return is_exact_zero(value) ? 0.0 : fabs(value) / scale;
}

static double worst_ratio(audit_worst worst, double force, double size)
{
    return fmax(ratio(worst.force, force), ratio(worst.moment, force * size));
}

/* Totals about the middle of the model, told about the origin. */
static void about_origin(const audit_work *w, const double total[3], double out[3])
{
    out[0] = total[0];
    out[1] = total[1];
    out[2] = total[2] + w->middle.x * total[1] - w->middle.y * total[0];
}

static bool within(double error)
{
    return error <= NEAR_BALANCE;
}

static void figure(audit_work *w, kl_audit *audit)
{
    const bool whole_only = w->results->run.settings.tendons_as_loads;
    const audit_worst bodies = audit_balance_bodies(w);
    const audit_worst nodes = audit_balance_nodes(w);
    const double force = w->force_at_hand = force_at_hand(w);
    double load[3];
    double reaction[3];
    double sum[3];
    audit_sum_value(&w->load, load);
    audit_sum_value(&w->reaction, reaction);
    audit_sum_value(&w->form, sum);
    for (int d = 0; d < 3; d++) {
        sum[d] = load[d] + reaction[d] + sum[d];
    }
    about_origin(w, load, audit->load);
    about_origin(w, reaction, audit->reaction);
    audit->weight = w->weight;
    audit->force_error = ratio(hypot(sum[0], sum[1]), force);
    audit->moment_error = ratio(sum[2], force * w->size);
    const double nothing = NAN;
    audit->node_error = whole_only ? nothing : worst_ratio(nodes, force, w->size);
    audit->member_error = whole_only ? nothing : worst_ratio(bodies, force, w->size);
    audit->residual = w->record->residual;
    audit->passed = within(audit->force_error) && within(audit->moment_error) &&
                    within(audit->residual) &&
                    (whole_only || (within(audit->node_error) && within(audit->member_error)));
}

kl_status audit_state(const kl_results *results, kl_state state, kl_audit *audit, double *force)
{
    audit_work w = {.results = results,
                    .model = results->run.model,
                    .mesh = &results->run.mesh,
                    .record = store_record_of(results, state),
                    .state = state};
    *audit = (kl_audit){.passed = false};
    if (!w.record) {
        return KL_NOT_THERE;
    }
    kl_status status = prepare(&w);
    if (status == KL_OK) {
        status = audit_load_all(&w);
    }
    if (status == KL_OK) {
        figure(&w, audit);
    }
    *force = w.force_at_hand;
    release(&w);
    return status;
}

kl_status kl_audit_of_state(const kl_results *results, kl_state state, kl_audit *audit)
{
    const state_record *record = store_record_of(results, state);
    double force;
    const bool is_whole = state.kind != KL_STATE_COMBINATION && state.cause.kind == KL_CAUSE_ALL;
    if (record && record->audited && is_whole) {
        *audit = record->audit;
        return KL_OK;
    }
    return audit_state(results, state, audit, &force);
}

/* ---- refusing -------------------------------------------------------------------------------------------- */

kl_status audit_require(kl_results *results, kl_state state, kl_origin origin)
{
    state_record *record = state.kind == KL_STATE_STEP     ? &results->steps[state.index]
                           : state.kind == KL_STATE_MOMENT ? &results->moments[state.index]
                                                           : &results->cases[state.index];
    kl_audit audit;
    double force;
    KL_TRY(audit_state(results, state, &audit, &force));
    record->largest_force = force;
    record->audit = audit;
    record->audited = true;
    if (audit.passed) {
        return KL_OK;
    }
    const double error[5] = {audit.force_error, audit.moment_error, audit.node_error,
                             audit.member_error, audit.residual};
    static const char *const name[5] = {"the sum of all forces", "the sum of all moments", "a node",
                                        "a member", "the solution of the equations"};
    int worst = 0;
    for (int i = 1; i < 5; i++) {
        worst = error[i] > error[worst] || isnan(error[worst]) ? i : worst;
    }
    kl_diags_add(results->run.diags, KL_ERROR, "audit-failed", origin,
                 "The results do not balance: %s is off by %.2g of the largest force at hand.",
                 name[worst], error[worst]);
    return KL_NUMERIC;
}
