/* solve.h - solutions for many right-hand sides.
 * SPDX-License-Identifier: MIT */
#ifndef KERNLINE_SOLVE_H
#define KERNLINE_SOLVE_H

#include "factor.h"

/* Solve in place: `columns` columns, each 3*node_count long in the numbering of the graph, stored one after
 * the other. The answer for one column does not depend on how many there are, not in the last bit.
 * @return KL_MISUSE when the factor is not complete, KL_NUMERIC when an answer is not finite. */
kl_status solve_columns(sparse_factor *factor, double *x, kl_index columns);

/* The same, with the right-hand sides left as they are. b and x are apart, or the same. */
kl_status solve_columns_apart(sparse_factor *factor, const double *b, kl_index columns, double *x);

/* The movement a pivot stands for: x is 1 at the pivot's unknown, 0 at what is eliminated after it, and the
 * unknowns before follow without force. Then x'Ax is the pivot, so a mechanism's mode strains nothing.
 * @param pivot one of the suspects, or `stopped` of an incomplete factor.
 * @param mode out, 3*node_count in the numbering of the graph.
 * @return KL_MISUSE when the factor has not got as far as that pivot, KL_NUMERIC when it is not finite. */
kl_status solve_pivot_mode(sparse_factor *factor, const factor_pivot *pivot, double *mode);

/* |Ax-b| / (|A||x|+|b|) in the maximum norm, the worst of the columns; NAN when a number is
 * not finite. `work` holds one column. */
double solve_residual(const sparse_graph *graph,
                      const double *diag,
                      const double *off,
                      const double *x,
                      const double *b,
                      double *work,
                      kl_index columns);

#endif
