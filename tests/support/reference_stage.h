/* reference_stage.h - pouring on forms and striking them, for the reference frame.
 * SPDX-License-Identifier: MIT */
#ifndef KERNLINE_REFERENCE_STAGE_H
#define KERNLINE_REFERENCE_STAGE_H

#include "reference_frame.h"

enum { REF_CARRIERS = 32, REF_WEIGHT = 0 };

/* Carriers of a line of forms in rising station: a row of posts (`tie`), or a node that stood (tie -1). */
typedef struct ref_forms {
    int member, count;
    double at[REF_CARRIERS];
    int tie[REF_CARRIERS], node[REF_CARRIERS];
    double share[REF_CARRIERS]
                [2]; /* of each span (the one that begins here): to its start, its end */
    bool struck[REF_CARRIERS];
} ref_forms;

/* A line load of the member's weight between two stations: `factor` 1 weighs, -1 carries. */
void reference_weigh(
    const ref_frame *f, ref_step *s, int member, double from, double to, double factor);
/* Wet on the carriers, then set: the member stands, its rows carry their shares. */
void reference_pour(ref_frame *f, ref_forms *forms, ref_step *s);
/* Arrives hard and weighs on what stands. */
void reference_place(ref_frame *f, int member);
/* Put on `s` what releasing the rows between two stations does, and take them away. Then solve. */
void reference_release(ref_frame *f, ref_forms *forms, double from, double to, ref_step *s);

#endif
