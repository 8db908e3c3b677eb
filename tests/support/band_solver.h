/* band_solver.h - another solver for node-block matrices: reverse Cuthill-McKee and LAPACK's band factorization. Tests take it
 * as a second opinion, the bench as something to beat.
 * SPDX-License-Identifier: MIT */
#ifndef KERNLINE_BAND_SOLVER_H
#define KERNLINE_BAND_SOLVER_H

#include "graph.h"

typedef struct band_solver band_solver;

/* @return KL_NO_MEMORY; KL_TOO_LARGE beyond eight gigabytes of bands. The graph is borrowed. */
kl_status band_create(const sparse_graph *graph, band_solver **out);
void band_destroy(band_solver *solver);

/* @return KL_NUMERIC when the matrix is not positive definite. */
kl_status band_factor(band_solver *solver, const double *diag, const double *off);

/* In place, after band_factor; columns of 3 * node_count one after the other. */
void band_solve(band_solver *solver, double *x, kl_index columns);

int64_t band_entries(const band_solver *solver);

#endif
