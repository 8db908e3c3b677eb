/* frame_courses.h - one quantity along every member of the frame, as fine as the page shows it.
 * SPDX-License-Identifier: MIT */
#ifndef KERNLINE_FRAME_COURSES_H
#define KERNLINE_FRAME_COURSES_H

#include "frame_view.h"
#include "member_course.h"

typedef struct frame_courses {
    member_course *of; /* each member's; count 0: it does not stand */
    double largest;    /* of all values without their sign, shown */
} frame_courses;

/* Cut from the arena. */
kl_status frame_courses_gather(arena *a,
                               const frame_view *v,
                               kl_results *results,
                               kl_state state,
                               kl_quantity quantity,
                               frame_courses *out);

/* Points of the page, x, y, x, y …, and room for two more; the caller mem_free's them. NULL: no memory. */
double *frame_courses_points(int count);

#endif
