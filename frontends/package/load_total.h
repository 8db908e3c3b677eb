/* load_total.h - the resultant of a load case, summed from the model alone.
 * SPDX-License-Identifier: MIT */
#ifndef KERNLINE_LOAD_TOTAL_H
#define KERNLINE_LOAD_TOTAL_H

#include "kernline/model.h"

typedef struct load_total {
    double x, y;  /* N */
    double about; /* N·m about the origin, anticlockwise + */
} load_total;

/* Direct forces and moments; temperatures, movements and tendons have no resultant. */
load_total load_total_of_case(const kl_model *model, kl_index load_case);

#endif
