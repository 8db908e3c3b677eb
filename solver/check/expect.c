/* expect.c - find the value at a place and time, take the extreme over the states asked for, compare.
 *
 * Camber is minus the deflection. The elongation at an end is the tendon's movement at that jack plus the part
 * beyond the anchor (grip), both at full force before seating; the concrete's shortening and the draw-in of the
 * dead end are not in it. `post of` is the force in one post of a row, `force of` that in one tendon of a group.
 * SPDX-License-Identifier: MIT */
#include "expect.h"

#include <math.h>

#include "near.h"
#include "when.h"

/* A difference that equals the tolerance but for rounding of the written numbers still passes. */
#define EXPECT_ROUNDING 1e-9

kl_index expect_row_at(const kl_model *model, kl_index falsework, double station)
{
    const kl_falsework *f = &model->falsework[falsework];
    const double reach = NEAR_STATION * kl_member_length(model, f->member);
    for (kl_index i = 0; i < f->row_count; i++) {
        if (fabs(f->stations[i] - station) <= reach) {
            return i;
        }
    }
    return KL_NONE;
}

static kl_status expect_row(
    const kl_results *results, kl_state state, const kl_expectation *e, kl_index row, double *value)
{
    kl_post_row post = {0};
    KL_TRY(kl_row_state(results, state, e->falsework, row, &post));
    if (!post.stands) {
        return KL_NOT_THERE;
    }
    *value = post.force / (double)kl_results_model(results)->falsework[e->falsework].posts;
    return KL_OK;
}

/* With max or min and no station: over all rows that stand. */
static kl_status
expect_post(const kl_results *results, kl_state state, const kl_expectation *e, double *value)
{
    const kl_model *model = kl_results_model(results);
    if (!isnan(e->station)) {
        const kl_index row = expect_row_at(model, e->falsework, e->station);
        return row == KL_NONE ? KL_NOT_THERE : expect_row(results, state, e, row, value);
    }
    bool known = false;
    for (kl_index i = 0; e->extreme != KL_VALUE && i < model->falsework[e->falsework].row_count;
         i++) {
        double one = 0.0;
        const kl_status status = expect_row(results, state, e, i, &one);
        if (status == KL_NO_MEMORY) {
            return status;
        }
        if (status == KL_OK &&
            (!known || (e->extreme == KL_LARGEST ? one > *value : one < *value))) {
            known = true;
            *value = one;
        }
    }
    return known ? KL_OK : KL_NOT_THERE;
}

/* The last time that it has been pulled by then. */
static kl_status
expect_last_pull(const kl_results *results, kl_state state, kl_index tendon, kl_stressing *last)
{
    kl_status status = KL_NOT_THERE;
    kl_index of;
    kl_stressing pull;
    for (kl_index i = 0; kl_pull_at(results, i, &of, &pull) == KL_OK; i++) {
        if (of == tendon && (state.kind != KL_STATE_STEP || pull.step <= state.index)) {
            *last = pull;
            status = KL_OK;
        }
    }
    return status;
}

static kl_status
expect_elongation(const kl_results *results, kl_state state, const kl_expectation *e, double *value)
{
    kl_stressing s;
    KL_TRY(expect_last_pull(results, state, e->tendon, &s));
    const kl_jack_ends ends = kl_results_model(results)->tendons[e->tendon].jack_ends;
    const int end = isnan(e->station) || e->station > 0.0 ? 1 : 0;
    const bool jacked = end == 0 ? ends != KL_JACK_END : ends != KL_JACK_START;
    *value = jacked ? s.elongation[end] : 0.0;
    return KL_OK;
}

static kl_status expect_tendon_force(const kl_results *results,
                                     kl_state state,
                                     const kl_expectation *e,
                                     double *value)
{
    KL_TRY(kl_tendon_force(results, state, e->tendon, e->station, e->side, value));
    if (e->tendon_total) {
        *value *= (double)kl_results_model(results)->tendons[e->tendon].count;
    }
    return KL_OK;
}

static kl_status
expect_on_member(const kl_results *results, kl_state state, const kl_expectation *e, double *value)
{
    if (!isnan(e->station)) {
        return kl_value_on_member(results, state, e->quantity, e->part, e->member, e->station,
                                  e->side, value);
    }
    if (e->extreme == KL_VALUE) {
        return KL_NOT_THERE;
    }
    kl_peak peak;
    KL_TRY(kl_peak_on_member(results, state, e->quantity, e->part, e->member, 0.0,
                             kl_member_length(kl_results_model(results), e->member), e->extreme,
                             &peak));
    *value = peak.value;
    return KL_OK;
}

/* Camber at a node counts from when the node first stood, as its deflection does. */
static kl_status
expect_at_node(const kl_results *results, kl_state state, const kl_expectation *e, double *value)
{
    const bool camber = e->quantity == KL_CAMBER;
    KL_TRY(kl_node_movement(results, state, camber ? KL_DEFLECTION : e->quantity, e->node, value));
    *value = camber ? -*value : *value;
    return KL_OK;
}

static kl_status
expect_value(const kl_results *results, kl_state state, const kl_expectation *e, double *value)
{
    switch (e->quantity) {
    case KL_REACTION:
        return kl_reaction(results, state, e->node, e->direction, value);
    case KL_TENDON_FORCE:
        return expect_tendon_force(results, state, e, value);
    case KL_ELONGATION:
        return expect_elongation(results, state, e, value);
    case KL_POST:
        return expect_post(results, state, e, value);
    case KL_MOMENT:
    case KL_SHEAR:
    case KL_AXIAL:
    case KL_DEFLECTION:
    case KL_SWAY:
    case KL_ROTATION:
    case KL_STRESS_TOP:
    case KL_STRESS_BOTTOM:
    case KL_CAMBER:
        break;
    }
    return e->member == KL_NONE ? expect_at_node(results, state, e, value)
                                : expect_on_member(results, state, e, value);
}

/* Over the states; a state in which the thing does not exist does not count. Without max or min the last holds. */
static kl_status expect_over(const kl_results *results,
                             const when_states *states,
                             const kl_expectation *e,
                             kl_expectation_result *out)
{
    for (kl_index i = 0; i < states->count; i++) {
        const kl_state state = kl_state_of_cause(states->items[i], e->cause);
        double value = 0.0;
        const kl_status status = expect_value(results, state, e, &value);
        if (status == KL_NO_MEMORY) {
            return status;
        }
        if (status != KL_OK || isnan(value)) {
            continue;
        }
        const bool better = !out->known || e->extreme == KL_VALUE ||
                            (e->extreme == KL_LARGEST ? value > out->value : value < out->value);
        if (better) {
            out->known = true;
            out->value = value;
            out->state = state;
        }
    }
    return KL_OK;
}

kl_status
expect_evaluate(const kl_results *results, kl_index index, arena *a, kl_expectation_result *out)
{
    const kl_expectation *e = &kl_results_model(results)->expectations[index];
    const double unknown = (double)NAN;
    *out = (kl_expectation_result){index, false, unknown, unknown, kl_state_step(KL_NONE), false};
    when_states states = {0};
    KL_TRY(when_find(results, &e->when, a, &states));
    KL_TRY(expect_over(results, &states, e, out));
    if (!out->known) {
        return KL_OK;
    }
    out->difference = out->value - e->value;
    const double reach = e->tolerance_relative ? e->tolerance * fabs(e->value) : e->tolerance;
    const double rounding = EXPECT_ROUNDING * fmax(reach, fabs(e->value));
    out->passed = fabs(out->difference) <= reach + rounding;
    return KL_OK;
}
