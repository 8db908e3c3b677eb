/* factor.h - the numeric Cholesky factor of a block matrix.
 *
 * Each pivot is compared with the original diagonal of its own unknown. One that is not positive stops the
 * factorization there; one that is positive but far below is only a suspect (long sound cantilevers have
 * such): what it means is for frame/mechanism to say.
 * SPDX-License-Identifier: MIT */
#ifndef KERNLINE_FACTOR_H
#define KERNLINE_FACTOR_H

#include "symbolic.h"

typedef struct sparse_factor sparse_factor; /* factor.c */

typedef struct factor_pivot {
    kl_index node;
    int direction; /* 0, 1, 2 within the node's block */
    double ratio;  /* pivot over its own original diagonal; 0 when that is not positive */
} factor_pivot;

#define FACTOR_SUSPECTS 16

typedef struct factor_report {
    bool complete; /* false: stopped at `stopped` */
    factor_pivot stopped;
    factor_pivot suspects[FACTOR_SUSPECTS]; /* the smallest ratios below the limit, ascending */
    int suspect_count;
    kl_index positive_pivots; /* the inertia: equals 3 * node_count when complete,
                                    else those before `stopped` in the order */
} factor_report;

/* Workspace for one symbolic pattern; numeric passes reuse it.
 * @param threads a numeric pass may take, where that pays; answers and reports are the same to the last bit for any number. */
kl_status factor_create(const sparse_symbolic *symbolic, int threads, sparse_factor **out);
void factor_destroy(sparse_factor *factor);

/* Factor the matrix given by diag and off (see graph.h); of a diagonal block the lower triangle is read.
 * @param suspect_limit pivots with a smaller ratio are listed.
 * @return KL_OK even when not complete (see report); KL_NUMERIC when a value is not finite. */
kl_status factor_compute(sparse_factor *factor,
                         const double *diag,
                         const double *off,
                         double suspect_limit,
                         factor_report *report);

#endif
