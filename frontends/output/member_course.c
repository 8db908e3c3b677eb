/* member_course.c - see member_course.h.
 * SPDX-License-Identifier: MIT */
#include "member_course.h"

#include <math.h>

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
    switch (quantity) {
    case KL_MOMENT:
        return "moment";
    case KL_SHEAR:
        return "shear";
    case KL_AXIAL:
        return "axial";
    case KL_DEFLECTION:
        return "deflection";
    case KL_SWAY:
        return "sway";
    case KL_ROTATION:
        return "rotation";
    case KL_STRESS_TOP:
        return "stress_top";
    case KL_STRESS_BOTTOM:
        return "stress_bottom";
    case KL_CAMBER:
        return "camber";
    case KL_REACTION:
        return "reaction";
    case KL_TENDON_FORCE:
        return "tendon_force";
    case KL_ELONGATION:
        return "elongation";
    case KL_POST:
        return "post";
    }
    return "";
}

kl_status member_course_gather(arena *a,
                               kl_results *results,
                               kl_state state,
                               kl_quantity quantity,
                               kl_part part,
                               kl_index member,
                               int pieces,
                               member_course *out)
{
    *out = (member_course){.measure = member_course_measure(quantity)};
    if (!kl_member_stands(results, state, member)) {
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
    const double station_unit = kl_show_factor(&model->display, KL_MEASURE_STATION);
    const double value_unit = kl_show_factor(&model->display, out->measure);
    for (kl_index i = 0; i < count; i++) {
        double value = NAN;
        const kl_status status = kl_value_on_member(results, state, quantity, part, member,
                                                    rows[i].station, rows[i].side, &value);
        if (status != KL_OK && status != KL_NOT_THERE) {
            return status;
        }
        out->station[i] = rows[i].station / station_unit;
        out->value[i] = value / value_unit;
        out->low = fmin(out->low, out->value[i]);
        out->high = fmax(out->high, out->value[i]);
    }
    out->count = (int)count;
    return KL_OK;
}
