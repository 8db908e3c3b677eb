/* course_family.h - courses of one quantity along one member, one a moment, and how they are drawn in a plot.
 * SPDX-License-Identifier: MIT */
#ifndef KERNLINE_COURSE_FAMILY_H
#define KERNLINE_COURSE_FAMILY_H

#include "label.h"
#include "member_course.h"
#include "plot.h"
#include "selection.h"

#define COURSE_FAMILY_LIMIT 8 /* courses seen in one picture: each has a look of its own */

typedef struct course_family {
    kl_quantity quantity;
    kl_index member;
    member_course *courses; /* cut from the arena, as the rest is */
    plot_key_entry *key;    /* the class, the name and the number of each */
    int count;
    int folded;       /* the first so many: for a page's script, with no room in the picture */
    int left_out;     /* earlier moments that are not there at all */
    double low, high; /* of all, 0 included; may be widened before drawing */
    double length;    /* of the member, shown */
} course_family;

/* The number by which pictures and the data of a page know a moment: steps from 0, then solved cases, then combinations;
 * KL_NONE for moments between stages. The cause does not count. */
kl_index course_number(const kl_results *results, kl_state state);

/* One course for every state of the selection in which the member stands; of more than COURSE_FAMILY_LIMIT the last, or all
 * of them, the earlier ones folded, when the selection folds. */
kl_status course_family_gather(arena *a,
                               kl_results *results,
                               const selection *s,
                               kl_quantity quantity,
                               kl_index member,
                               course_family *out);

/* Axes in a region, with the member's nodes and column faces marked. `name` is the quantity's: "moment". */
plot course_family_axes(drawing *d,
                        kl_results *results,
                        const course_family *family,
                        label_box region,
                        const char *name,
                        bool downward);

/* The courses, the values at their extremes, and the key. The last one is filled when `fills`. */
void course_family_draw(const plot *p, const course_family *family, bool fills);

#endif
