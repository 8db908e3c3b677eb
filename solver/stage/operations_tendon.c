/* operations_tendon.c - stressing, slackening, grouting, losing.
 * SPDX-License-Identifier: MIT */
#include <math.h>
#include <string.h>

#include "coupling.h"
#include "increment.h"
#include "near.h"
#include "operations.h"
#include "stressing.h"

static double *trace_array(analysis_run *run, kl_index tendon)
{
    return arena_array(run->a, (size_t)run->traces[tendon].count * QUADRATURE_POINTS,
                       sizeof(double));
}

/* Force of the group at every trace point from a curve. */
static void curve_force(
    const analysis_run *run, kl_index tendon, const force_curve *curve, double uniform, double *out)
{
    const kl_tendon *item = &run->model->tendons[tendon];
    const tendon_trace *trace = &run->traces[tendon];
    for (kl_index i = 0; i < trace->count; i++) {
        for (int p = 0; p < QUADRATURE_POINTS; p++) {
            const double one =
                force_at(item, &run->paths[tendon], curve, trace->elements[i].at[p].x, KL_RIGHT);
            out[i * QUADRATURE_POINTS + p] = item->count * (one + uniform);
        }
    }
}

kl_status operation_tendon_change(analysis_run *run,
                                  kl_index tendon,
                                  const double *change,
                                  kl_cause_kind kind,
                                  kl_index load_case)
{
    pending_column *p = run_pending(run, kind, load_case);
    if (!p) {
        return KL_NO_MEMORY;
    }
    const tendon_trace *trace = &run->traces[tendon];
    double *kept = &p->delta[run->layout.tendon + (size_t)run->first_trace[tendon]];
    for (kl_index i = 0; i < trace->count * QUADRATURE_POINTS; i++) {
        kept[i] += change[i];
    }
    KL_TRY(increment_form(run));
    return coupling_act(run, tendon, change, &p->loads);
}

/* What tendons are stressed, slackened, grouted and lose is refused by kl_model_check where it cannot be; what slips
 * through is the caller's mistake. */
static kl_status need(bool possible)
{
    return possible ? KL_OK : KL_MISUSE;
}

static bool members_stand(const analysis_run *run, kl_index tendon)
{
    const kl_tendon *item = &run->model->tendons[tendon];
    for (kl_index i = 0; i < item->member_count; i++) {
        if (!run->state.members[item->members[i]].stands) {
            return false;
        }
    }
    return true;
}

/* The force that the curve as it stands is locked at, changes since included. */
static force_curve locked_curve(analysis_run *run, const tendon_state *state)
{
    force_piece *pieces =
        arena_copy(run->a, state->curve.pieces, (size_t)state->curve.count, sizeof(force_piece));
    for (kl_index i = 0; pieces && i < state->curve.count; i++) {
        pieces[i].add += state->uniform;
    }
    return (force_curve){pieces, pieces ? state->curve.count : 0};
}

/* Within a group of n the tendons are stressed one after the other: the mean own loss is (n-1)/(2n) of what the whole
 * group's shortening would take (AASHTO LRFD 5.9.3.2.3b, from memory). It acts in the same step, counted once. */
static kl_status own_loss(analysis_run *run, kl_index tendon, double elongation)
{
    const kl_tendon *item = &run->model->tendons[tendon];
    const tendon_trace *trace = &run->traces[tendon];
    const double share = (item->count - 1) / (2.0 * item->count);
    const double loss = share * trace->modulus * trace->area * elongation / trace->length;
    if (item->count < 2) {
        return KL_OK;
    }
    double *change = trace_array(run, tendon);
    if (!change) {
        return KL_NO_MEMORY;
    }
    for (kl_index i = 0; i < trace->count * QUADRATURE_POINTS; i++) {
        change[i] = loss;
    }
    run->state.tendons[tendon].uniform += loss / item->count;
    KL_TRY(operation_tendon_change(run, tendon, change, KL_CAUSE_PRESTRESS, KL_NONE));
    return increment_solve(run, KL_CAUSE_PRESTRESS, KL_NONE, tendon);
}

/* How much the path lengthened since `before` under all causes. */
static double path_elongation(const analysis_run *run, kl_index tendon)
{
    double sum = 0.0;
    for (kl_index i = 0; i < run->state.set.count; i++) {
        sum += action_elongation(&run->mesh, &run->traces[tendon],
                                 run->state.set.columns[i].data + run->layout.field);
    }
    return sum;
}

/* The part of the tendon beyond an anchor stretches at full force. */
static double grip_elongation(const kl_model *model, const kl_tendon *item, double force)
{
    return force * item->grip /
           (model->materials[item->material].modulus * item->units * item->unit_area);
}

static void
extreme_forces(const analysis_run *run, kl_index tendon, const force_curve *curve, kl_stressing *to)
{
    const kl_tendon *item = &run->model->tendons[tendon];
    const tendon_path *path = &run->paths[tendon];
    to->smallest_force = HUGE_VAL;
    to->largest_force = -HUGE_VAL;
    for (kl_index i = 0; i < curve->count; i++) { /* every piece is monotone */
        const double x[2] = {curve->pieces[i].from, curve->pieces[i].to};
        for (int end = 0; end < 2; end++) {
            const double force = force_at(item, path, curve, x[end], end == 0 ? KL_RIGHT : KL_LEFT);
            if (force < to->smallest_force) {
                to->smallest_force = force;
                to->smallest_station = x[end];
            }
            if (force > to->largest_force) {
                to->largest_force = force;
                to->largest_station = x[end];
            }
        }
    }
}

static kl_status make_room(analysis_run *run)
{
    if (run->pull_count < run->pull_room) {
        return KL_OK;
    }
    const kl_index room = run->pull_room > 0 ? 2 * run->pull_room : 8;
    pull_record *pulls = arena_array(run->a, (size_t)room, sizeof *pulls);
    if (!pulls) {
        return KL_NO_MEMORY;
    }
    for (kl_index i = 0; i < run->pull_count; i++) {
        pulls[i] = run->pulls[i];
    }
    run->pulls = pulls;
    run->pull_room = room;
    return KL_OK;
}

/* Does the dead end draw in while this end is pulled? Only while the far anchor carries nothing yet. */
static bool draws_in(const kl_tendon *item, const stressing_pull *pull, int end)
{
    const bool from_end =
        item->jack_ends == KL_JACK_END || item->jack_ends == KL_JACK_END_THEN_START;
    return item->jack_ends != KL_JACK_BOTH && end == (from_end ? 1 : 0) && !pull->was_seated;
}

static kl_stressing what_was_done(const analysis_run *run,
                                  const stressing_pull *pull,
                                  const force_record *r,
                                  const force_curve *curve)
{
    const kl_tendon *item = &run->model->tendons[pull->tendon];
    const double force = pull->share * item->jack_force;
    const double grip = grip_elongation(run->model, item, force);
    const double reference = item->reference > 0.0 ? item->reference : 0.0;
    kl_stressing done = {.step = run->step,
                         .load_case = pull->load_case,
                         .share = pull->share,
                         .was_seated = pull->was_seated,
                         .jack_force = force,
                         .jack_stress = force / (item->units * item->unit_area),
                         .seating_reaches_far_end = r->reaches_far_end,
                         .concrete_shortening = pull->shortening};
    for (int end = 0; end < 2; end++) {
        const bool moved = r->elongation[end] > 0.0;
        done.force_at[end] = r->force_at[end];
        done.seated_at[end] = r->seated_at[end];
        done.grip[end] = moved ? grip : 0.0;
        done.elongation[end] = r->elongation[end] + done.grip[end];
        done.before_reference[end] = moved ? r->at_reference[end] + reference * grip : 0.0;
        done.dead_end[end] = moved && draws_in(item, pull, end) ? item->dead_end : 0.0;
        done.seating_length[end] = r->seating_length[end];
        done.still_station[end] = r->still[end];
    }
    extreme_forces(run, pull->tendon, curve, &done);
    return done;
}

kl_status operation_record(analysis_run *run,
                           const stressing_pull *pull,
                           const force_record *r,
                           const force_curve *before,
                           const force_curve *after)
{
    const kl_index tendon = pull->tendon;
    const kl_stressing done = what_was_done(run, pull, r, after);
    if (run->step != KL_NONE || is_exact_zero(run->stressed_share[tendon])) {
        KL_TRY(make_room(run));
        run->pulls[run->pull_count++] =
            (pull_record){tendon, done, {r->draw[0], r->draw[1]}, r->unseated, *after, *before};
    }
    if (pull->share >= run->stressed_share[tendon]) { /* the fullest is the tendon's own */
        run->stressed_share[tendon] = pull->share;
        run->stressing[tendon] = done;
    }
    return KL_OK;
}

kl_status operation_stress(analysis_run *run, const kl_operation *op, kl_index tendon)
{
    tendon_state *state = &run->state.tendons[tendon];
    const bool seated = state->phase == KL_TENDON_STRESSED;
    const force_curve old = seated ? locked_curve(run, state) : (force_curve){NULL, 0};
    KL_TRY(need(members_stand(run, tendon) && state->phase != KL_TENDON_GROUTED));
    stressing s;
    /* what there is to say about this stressing was said when the mesh was made */
    KL_TRY(stressing_find(run, tendon, op->factor, seated ? &old : NULL, NULL, &s));
    double *change = trace_array(run, tendon);
    double *now = trace_array(run, tendon);
    if (!change || !now) {
        return KL_NO_MEMORY;
    }
    curve_force(run, tendon, &s.after, 0.0, change);
    if (seated) {
        curve_force(run, tendon, &old, 0.0, now);
        for (kl_index i = 0; i < run->traces[tendon].count * QUADRATURE_POINTS; i++) {
            change[i] -= now[i];
        }
    }
    const double length_before = path_elongation(run, tendon);
    KL_TRY(operation_tendon_change(run, tendon, change, KL_CAUSE_PRESTRESS, KL_NONE));
    KL_TRY(increment_solve(run, KL_CAUSE_PRESTRESS, KL_NONE, tendon));
    *state = (tendon_state){.phase = KL_TENDON_STRESSED, .curve = s.after};
    relaxing_begin(&run->relaxing, tendon);
    const double elongation = path_elongation(run, tendon) - length_before;
    const stressing_pull pull = {tendon, op->factor, seated, -elongation, KL_NONE};
    KL_TRY(operation_record(run, &pull, &s.record, &s.before, &s.after));
    return own_loss(run, tendon, elongation);
}

kl_status operation_slacken(analysis_run *run, kl_index tendon)
{
    tendon_state *state = &run->state.tendons[tendon];
    KL_TRY(need(state->phase == KL_TENDON_STRESSED));
    const kl_index points = run->traces[tendon].count * QUADRATURE_POINTS;
    for (kl_index i = 0; i < run->state.set.count; i++) {
        const cause_column *c = &run->state.set.columns[i];
        double *change = trace_array(run, tendon);
        if (!change) {
            return KL_NO_MEMORY;
        }
        double largest = 0.0;
        for (kl_index k = 0; k < points; k++) {
            change[k] = -c->data[run->layout.tendon + (size_t)run->first_trace[tendon] + (size_t)k];
            largest = fmax(largest, fabs(change[k]));
        }
        if (largest > 0.0) {
            KL_TRY(operation_tendon_change(run, tendon, change, c->kind, c->load_case));
        }
    }
    KL_TRY(increment_solve(run, KL_CAUSE_PRESTRESS, KL_NONE, tendon));
    *state = (tendon_state){.phase = KL_TENDON_SLACK};
    return KL_OK;
}

kl_status operation_grout(analysis_run *run, kl_index tendon)
{
    tendon_state *state = &run->state.tendons[tendon];
    KL_TRY(need(state->phase == KL_TENDON_STRESSED &&
                run->model->tendons[tendon].bond != KL_UNBONDED));
    state->phase = KL_TENDON_GROUTED;
    run->phase = STRUCTURE_CHANGED;
    return KL_OK;
}

/* The loss is put in; grouted or not, the tendon then follows what the concrete does when it gives way, like every
 * tendon in every increment but its own stressing. */
kl_status operation_lose(analysis_run *run, kl_index tendon, const kl_operation *op)
{
    const tendon_trace *trace = &run->traces[tendon];
    tendon_state *state = &run->state.tendons[tendon];
    KL_TRY(need(state->phase == KL_TENDON_STRESSED || state->phase == KL_TENDON_GROUTED));
    double *change = trace_array(run, tendon);
    if (!change) {
        return KL_NO_MEMORY;
    }
    for (kl_index i = 0; i < trace->count * QUADRATURE_POINTS; i++) {
        change[i] = -op->value * trace->area;
    }
    if (state->phase == KL_TENDON_STRESSED) {
        state->uniform -= op->value * trace->area / run->model->tendons[tendon].count;
    }
    KL_TRY(operation_tendon_change(run, tendon, change, KL_CAUSE_LOSSES, KL_NONE));
    return increment_solve(run, KL_CAUSE_LOSSES, KL_NONE, KL_NONE);
}
