/* rival_cholmod.h - CHOLMOD in its configurations.
 *
 * The packaged CHOLMOD opens an OpenMP region in every supernode, which costs it more than the region's work on matrices like
 * these. GOMP_parallel in rival_cholmod.c stands before the library's own and runs the region at once, on the calling thread, so
 * that CHOLMOD is at its best; a rival of 0 threads goes through to the real one.
 * SPDX-License-Identifier: MIT */
#ifndef KERNLINE_RIVAL_CHOLMOD_H
#define KERNLINE_RIVAL_CHOLMOD_H

#include "rivals.h"

/* Methods; else simplicial. */
enum { RIVAL_BY_AMD, RIVAL_BY_NODES, RIVAL_BY_METIS, RIVAL_IN_SUPERNODES = 4 };

/* The matrix in CHOLMOD's form, once for all configurations. */
void rival_cholmod_open(const frame_matrix *matrix);
void rival_cholmod_close(void);

void rival_cholmod_analyze(rival *r, const frame_matrix *m);
void rival_cholmod_factor(rival *r, const frame_matrix *m);
const double *rival_cholmod_solve(rival *r, const double *b, double *x, int columns);
rival_cost rival_cholmod_cost(const rival *r);
void rival_cholmod_release(rival *r);

#endif
