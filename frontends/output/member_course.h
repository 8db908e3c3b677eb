/* member_course.h - a quantity along a member as points to draw: dense enough to look smooth, with both values at a jump.
 * SPDX-License-Identifier: MIT */
#ifndef KERNLINE_MEMBER_COURSE_H
#define KERNLINE_MEMBER_COURSE_H

#include "arena.h"
#include "kernline/results.h"

#define MEMBER_COURSE_PIECES 80 /* that look smooth on a page's width */

typedef struct member_course {
    const kl_station_row *rows; /* of the results: what stands at each point */
    double *station, *value;    /* shown units; value NAN where there is none */
    int count;
    double low, high; /* of the values; 0 and 0 when there are none */
    kl_measure measure;
} member_course;

/* What a quantity is shown as. */
kl_measure member_course_measure(kl_quantity quantity);

/* What programs call it: "moment", "stress_top". */
const char *member_course_key(kl_quantity quantity);

/* A state, and what all courses of it have in common: found once, for it asks every support. */
typedef struct course_moment {
    kl_state state;
    double reaction; /* N, the largest that a support bears: what forces are rounded by */
} course_moment;

kl_status course_moment_find(const kl_results *results, kl_state state, course_moment *out);

/* Cut from the arena; in `pieces` at least, its own stations besides. @return KL_NOT_THERE when the member does not stand. */
kl_status member_course_gather(arena *a,
                               kl_results *results,
                               const course_moment *moment,
                               kl_quantity quantity,
                               kl_part part,
                               kl_index member,
                               int pieces,
                               member_course *out);

#endif
