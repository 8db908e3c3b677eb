/* nonnegative.h - least squares with coefficients that may not be negative: min |A x - b|, x >= 0, from A'A and A'b.
 *
 * The active-set method of Lawson and Hanson (Solving Least Squares Problems, 1974, chapter 23). For a few dozen
 * unknowns: nothing is allocated.
 * SPDX-License-Identifier: MIT */
#ifndef KERNLINE_NONNEGATIVE_H
#define KERNLINE_NONNEGATIVE_H

#define NONNEGATIVE_MAX 32

/* @param n unknowns, at most NONNEGATIVE_MAX
 * @param gram A'A, n x n, symmetric
 * @param rhs A'b
 * @param x out: n. The best that was found: the method may stop at the limit of rounding. */
void nonnegative_solve(int n, const double *gram, const double *rhs, double *x);

#endif
