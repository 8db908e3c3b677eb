/* figure.h - how numbers are written: rounded for people, in full for programs.
 *
 * For people a column of figures shares its decimals, chosen so that the largest shows a stated number of
 * significant digits: below what rounding in the solution can touch, so that the same model prints the same
 * text everywhere. For programs a number is written with as few digits as read back to the same double.
 * SPDX-License-Identifier: MIT */
#ifndef KERNLINE_FIGURE_H
#define KERNLINE_FIGURE_H

#include <stddef.h>

#define FIGURE_SIZE 40 /* bytes that any figure fits in */

/* Beside the largest of its kind in a table a figure below this share is rounding: it prints as 0. */
#define FIGURE_NOISE 1e-9

/* Decimals that give `largest` so many significant digits; -1: too small for decimals, use exponents. */
int figure_decimals(double largest, int digits);

/* Decimals, at most `limit`, that show `value` as it is (to a millionth of the last place allowed). */
int figure_exact_decimals(double value, int limit);

/* Write `value` with so many decimals (-1: exponents with `digits` digits). NAN gives "-", what is not larger
 * than `noise` gives "0", and there is no minus before a zero. */
void figure_rounded(char text[FIGURE_SIZE], double value, int decimals, int digits, double noise);

/* A `value` as it is, with at most so many decimals: 2.5, 12, 0.125. */
void figure_given(char text[FIGURE_SIZE], double value, int most_decimals);

/* A finite `value` with so many decimals as it is; no minus before a zero. */
void figure_exact(char text[FIGURE_SIZE], double value, int decimals);

/* As figure_rounded, to four digits of the largest of its kind, beside which noise is 0. */
void figure_beside(char text[FIGURE_SIZE], double value, double largest);

/* The shortest of 15, 16 or 17 digits that reads back to the same double; NAN gives "". */
void figure_full(char text[FIGURE_SIZE], double value);

#endif
