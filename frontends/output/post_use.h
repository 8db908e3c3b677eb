/* post_use.h - how much of its rated load each row of posts carries at the step at which it carries most.
 * SPDX-License-Identifier: MIT */
#ifndef KERNLINE_POST_USE_H
#define KERNLINE_POST_USE_H

#include "kernline/results.h"

/* From this share of its rated load on a row is shown as near it, as a check is near its limit. */
#define POST_USE_NEAR 0.95

typedef struct post_use {
    kl_index falsework, row;
    kl_index
        step; /* the first of those at which the row carries most; KL_NONE: it never carries anything */
    double force; /* N, of one post */
    double share; /* of the rated load; NAN: not rated */
} post_use;

/* Of two forces that rounding alone sets apart neither is the larger, and no rated load is exceeded by rounding. */
#define POST_USE_ROUNDING 1e-9

/* N, in one post of a row. */
double post_use_force(const kl_falsework *set, const kl_post_row *row);

/* @return KL_OK, or what the results answered. */
kl_status post_use_of(const kl_results *results, kl_index falsework, kl_index row, post_use *out);

/* A share above the rated load; one that is met exactly is not exceeded. */
bool post_use_is_over(double share);
/* Not above it, but near. */
bool post_use_is_near(double share);

/* Rows of all falsework that is rated. */
typedef struct post_tally {
    kl_index rated, over;
    double worst; /* largest share; 0 without rated rows */
} post_tally;

kl_status post_use_tally(const kl_results *results, post_tally *out);

#endif
