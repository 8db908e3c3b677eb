/* member_course.c - see member_course.h.
 * SPDX-License-Identifier: MIT */
#include "member_course.h"

#include <math.h>

#include "figure.h"
#include "force_scale.h"

kl_measure member_course_measure(kl_quantity quantity)
{
    switch (quantity) {
    case KL_MOMENT:
        return KL_MEASURE_MOMENT;
    case KL_SHEAR:
    case KL_AXIAL:
    case KL_REACTION:
    case KL_TENDON_FORCE:
    case KL_POST:
        return KL_MEASURE_FORCE;
    case KL_DEFLECTION:
    case KL_SWAY:
    case KL_CAMBER:
    case KL_ELONGATION:
        return KL_MEASURE_DEFLECTION;
    case KL_ROTATION:
        return KL_MEASURE_ROTATION;
    case KL_STRESS_TOP:
    case KL_STRESS_BOTTOM:
        return KL_MEASURE_STRESS;
    }
    return KL_MEASURE_NUMBER;
}

const char *member_course_key(kl_quantity quantity)
{
    if (quantity == KL_STRESS_TOP) {
        return "stress_top";
    }
    return quantity == KL_STRESS_BOTTOM ? "stress_bottom" : kl_quantity_name(quantity);
}

/* The larger of *scale and of an action's part at a place, in N: moments over the member's length. */
static kl_status course_scale(const kl_results *results,
                              kl_state state,
                              kl_index member,
                              kl_part part,
                              const kl_station_row *row,
                              double *scale)
{
    static const kl_quantity actions[] = {KL_MOMENT, KL_SHEAR, KL_AXIAL};
    const double length = kl_member_length(kl_results_model(results), member);
    for (int i = 0; i < 3; i++) {
        double value;
        KL_TRY(kl_value_on_member(results, state, actions[i], part, member, row->station, row->side,
                                  &value));
        *scale = fmax(*scale, fabs(value) / (actions[i] == KL_MOMENT ? length : 1.0));
    }
    return KL_OK;
}

kl_status course_moment_find(const kl_results *results, kl_state state, course_moment *out)
{
    *out = (course_moment){.state = state};
    return force_scale_widen(results, state, &out->reaction);
}

/* Of a stress: what the action's rounding makes on the member's first section; NAN when there is none. */
static kl_status
course_per_force(const kl_results *results, kl_quantity quantity, kl_index member, double *per)
{
    const double length = kl_member_length(kl_results_model(results), member);
    kl_section_values v;
    *per = quantity == KL_MOMENT ? length : 1.0;
    if (quantity == KL_STRESS_TOP || quantity == KL_STRESS_BOTTOM) {
        KL_TRY(kl_section_at_station(results, member, 0.0, KL_RIGHT, &v));
        *per = 1.0 / v.area + length * fmax(v.to_top, v.to_bottom) / v.inertia;
    }
    return KL_OK;
}

/* What is rounding in an action or a stress along the member: where a tendon's thrust cancels against itself, as in a beam that may shorten, or a
 * column carries no shear, the total is left with what the large forces in it were rounded by. Base units; 0 of others. */
static kl_status course_noise(const kl_results *results,
                              const course_moment *moment,
                              kl_quantity quantity,
                              kl_index member,
                              const kl_station_row *rows,
                              kl_index count,
                              double *noise)
{
    const kl_model *model = kl_results_model(results);
    /* a member in which nothing acts is left with what the forces of the supports were rounded by */
    double scale = moment->reaction;
    *noise = 0.0;
    if (quantity != KL_MOMENT && quantity != KL_SHEAR && quantity != KL_AXIAL &&
        quantity != KL_STRESS_TOP && quantity != KL_STRESS_BOTTOM) {
        return KL_OK;
    }
    for (kl_index i = 0; i < count; i++) {
        KL_TRY(course_scale(results, moment->state, member, KL_TOTAL, &rows[i], &scale));
        if (model->tendon_count > 0) {
            KL_TRY(course_scale(results, moment->state, member, KL_PRIMARY, &rows[i], &scale));
        }
    }
    double per;
    KL_TRY(course_per_force(results, quantity, member, &per));
    *noise = FIGURE_NOISE * scale * per;
    return KL_OK;
}

kl_status member_course_gather(arena *a,
                               kl_results *results,
                               const course_moment *moment,
                               kl_quantity quantity,
                               kl_part part,
                               kl_index member,
                               int pieces,
                               member_course *out)
{
    *out = (member_course){.measure = member_course_measure(quantity)};
    if (!kl_member_stands(results, moment->state, member)) {
        return KL_NOT_THERE;
    }
    const kl_model *model = kl_results_model(results);
    const kl_station_row *rows;
    kl_index count;
    KL_TRY(
        kl_station_rows(results, member, kl_member_length(model, member) / pieces, &rows, &count));
    out->rows = rows;
    out->station = arena_array(a, (size_t)count, sizeof(double));
    out->value = arena_array(a, (size_t)count, sizeof(double));
    if (!out->station || !out->value) {
        return KL_NO_MEMORY;
    }
    double noise;
    KL_TRY(course_noise(results, moment, quantity, member, rows, count, &noise));
    const double station_unit = kl_show_factor(&model->display, KL_MEASURE_STATION);
    const double value_unit = kl_show_factor(&model->display, out->measure);
    for (kl_index i = 0; i < count; i++) {
        double value = NAN;
        const kl_status status = kl_value_on_member(results, moment->state, quantity, part, member,
                                                    rows[i].station, rows[i].side, &value);
        if (status != KL_OK && status != KL_NOT_THERE) {
            return status;
        }
        out->station[i] = rows[i].station / station_unit;
        out->value[i] = fabs(value) < noise ? 0.0 : value / value_unit;
        out->low = fmin(out->low, out->value[i]);
        out->high = fmax(out->high, out->value[i]);
    }
    out->count = (int)count;
    return KL_OK;
}
