/* near.h - tolerances, each with its reason, and comparisons that use them.
 * SPDX-License-Identifier: MIT */
#ifndef KERNLINE_NEAR_H
#define KERNLINE_NEAR_H

#include <math.h>
#include <stdbool.h>

/* Two stations closer than this share of the member are one place: input is typed to six digits or so, and
 * chains of sums (6 x 8.5 ft) carry rounding of 1e-15. */
#define NEAR_STATION 1e-6

/* Nodes closer than this share of the model's size stand at one place. */
#define NEAR_PLACE 1e-6

/* Equilibrium must hold to this share of the largest force at hand: double rounding through a few thousand
 * operations stays below 1e-11, an error of assembly does not. */
#define NEAR_BALANCE 1e-9

/* Values of one course closer than this share of its largest are equals: a hundred times the rounding of its sums. */
#define NEAR_ROUNDING 1e-12

/* |a - b| <= rtol * max(|a|, |b|) + atol; atol carries the unit. */
static inline bool near_equal(double a, double b, double rtol, double atol)
{
    const double largest = fmax(fabs(a), fabs(b));
    return fabs(a - b) <= rtol * largest + atol;
}

/* Exactly zero: for structural zeros and values that were never set, where a tolerance would be wrong. */
static inline bool is_exact_zero(double a)
{
    return !(a < 0.0) && !(a > 0.0) && !isnan(a);
}

#endif
