/* course_family.h - courses of one quantity along one member, one a moment, and how they are drawn in a plot.
 * SPDX-License-Identifier: MIT */
#ifndef KERNLINE_COURSE_FAMILY_H
#define KERNLINE_COURSE_FAMILY_H

#include "label.h"
#include "member_course.h"
#include "plot.h"
#include "selection.h"

#define COURSE_FAMILY_LIMIT 8 /* courses in one picture: each has a look of its own */

/* A course that a picture has no room for, for a page's script to show. */
typedef struct folded_course {
    member_course course;
    int step;
} folded_course;

typedef struct course_family {
    kl_quantity quantity;
    kl_cause_kind cause; /* of its states */
    kl_index member;
    member_course courses[COURSE_FAMILY_LIMIT];
    int steps[COURSE_FAMILY_LIMIT]; /* number in the results, DRAWING_NO_STEP: of a case … */
    char names[COURSE_FAMILY_LIMIT][LABEL_SIZE];
    plot_key_entry key[COURSE_FAMILY_LIMIT]; /* the class and the name of each */
    int count;
    int left_out;          /* earlier moments for which there was no room */
    folded_course *folded; /* those of them that are folded, cut from the arena */
    int folded_count;
    double low, high; /* of all, 0 included; may be widened before drawing */
    double length;    /* of the member, shown */
} course_family;

/* Nothing but zeros, or nothing at all: a stress of a section without depth. */
bool course_family_is_zero(const course_family *family);

/* One course for every state of the selection in which the member stands; of more than COURSE_FAMILY_LIMIT the last; the
 * steps before them are folded when the selection folds. */
kl_status course_family_gather(arena *a,
                               kl_results *results,
                               const selection *s,
                               kl_quantity quantity,
                               kl_index member,
                               course_family *out);

/* What a plot's data-quantity says: the name under which a page's script finds the courses (html_data.c); NULL: nowhere. */
const char *course_family_key(kl_quantity quantity, kl_cause_kind cause);

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
