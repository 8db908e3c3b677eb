/* solve.h - solutions for many right-hand sides.
 * SPDX-License-Identifier: MIT */
#ifndef KERNLINE_SOLVE_H
#define KERNLINE_SOLVE_H

#include "factor.h"

/* Solve in place: `columns` columns, each 3*node_count long in the numbering of the graph, stored one after
 * the other. The factor must be complete. The answer for one column does not depend on how many there are. */
kl_status solve_columns(sparse_factor *factor, double *x, kl_index columns);

/* |Ax-b| / (|A||x|+|b|) in the maximum norm, the worst of the columns. `work` holds one column. */
double solve_residual(const sparse_graph *graph, const double *diag, const double *off, const double *x,
                      const double *b, double *work, kl_index columns);

#endif
