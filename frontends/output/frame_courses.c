/* frame_courses.c - see frame_courses.h.
 * SPDX-License-Identifier: MIT */
#include "frame_courses.h"

#include <math.h>

#include "mem.h"

#define COURSES_PIECE 5.0 /* px; but whole tenths, so that the values are those of the tables */

kl_status frame_courses_gather(arena *a,
                               const frame_view *v,
                               kl_results *results,
                               kl_state state,
                               kl_quantity quantity,
                               frame_courses *out)
{
    const kl_index count = v->model->member_count;
    *out = (frame_courses){arena_array(a, (size_t)count, sizeof *out->of), 0.0};
    if (!out->of) {
        return KL_NO_MEMORY;
    }
    course_moment moment;
    KL_TRY(course_moment_find(results, state, &moment));
    for (kl_index m = 0; m < count; m++) {
        const double pixels = kl_member_length(v->model, m) * v->pixels;
        const int pieces =
            10 * (int)ceil(0.1 * fmax(fmin(pixels / COURSES_PIECE, MEMBER_COURSE_PIECES), 1.0));
        const kl_status status =
            member_course_gather(a, results, &moment, quantity, KL_TOTAL, m, pieces, &out->of[m]);
        if (status != KL_OK && status != KL_NOT_THERE) {
            return status;
        }
        out->largest = fmax(out->largest, fmax(out->of[m].high, -out->of[m].low));
    }
    return KL_OK;
}

double *frame_courses_points(int count)
{
    return mem_array(2 * (size_t)count + 4, sizeof(double));
}
