/* tendon_course.c - see tendon_course.h.
 * SPDX-License-Identifier: MIT */
#include "tendon_course.h"

#include <math.h>

#include "near.h"

void tendon_course_range(const kl_results *results,
                         const trace_element *element,
                         double *from,
                         double *to)
{
    const frame_mesh *mesh = &results->run.mesh;
    const mesh_element *e = &mesh->elements[element->element];
    const double length = e->to - e->from;
    *from = element->at[0].x - mesh->rule.xi[0] * length;
    *to = *from + length;
}

kl_status tendon_course_find(
    const kl_results *results, kl_index tendon, double station, kl_side side, tendon_spot *spot)
{
    const tendon_trace *trace = &results->run.traces[tendon];
    const double tolerance = NEAR_STATION * kl_tendon_range(results->run.model, tendon);
    double from;
    double to;
    if (trace->count == 0) {
        return KL_NOT_THERE;
    }
    spot->element = 0;
    for (kl_index i = 1; i < trace->count; i++) {
        tendon_course_range(results, &trace->elements[i], &from, &to);
        if (side == KL_LEFT ? from < station - tolerance : from <= station + tolerance) {
            spot->element = i;
        }
    }
    tendon_course_range(results, &trace->elements[spot->element], &from, &to);
    spot->xi = fmin(fmax((station - from) / (to - from), 0.0), 1.0);
    return KL_OK;
}

kl_status tendon_course_force(const kl_results *results,
                              kl_state state,
                              kl_index tendon,
                              kl_index i,
                              double c[QUADRATURE_POINTS])
{
    const analysis_run *run = &results->run;
    double force[QUADRATURE_POINTS];
    const size_t at =
        run->layout.tendon + (size_t)run->first_trace[tendon] + (size_t)i * QUADRATURE_POINTS;
    KL_TRY(store_sum(results, state, at, 1, QUADRATURE_POINTS, force));
    quadrature_fit(&run->mesh.rule, force, 1, c);
    return KL_OK;
}

void tendon_course_member(
    const kl_results *results, kl_index tendon, double x, kl_index *member, double *station)
{
    const kl_tendon *item = &results->run.model->tendons[tendon];
    for (kl_index k = 0; k < item->member_count; k++) {
        const double length = results->run.mesh.members[item->members[k]].length;
        *member = item->members[k];
        *station = fmin(x, length);
        if (x <= length * (1.0 + NEAR_STATION)) {
            return;
        }
        x -= length;
    }
}
