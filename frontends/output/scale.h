/* scale.h - where a value lies on the page, and the round values that an axis shows.
 * SPDX-License-Identifier: MIT */
#ifndef KERNLINE_SCALE_H
#define KERNLINE_SCALE_H

#include <stdbool.h>

/* Values from … to lie at pixels at … at + length, in proportion; length may be negative (values up, pixels down). */
typedef struct scale {
    double from, to;
    double at, length;
} scale;

/* A scale that holds [low, high] and at least a trifle around a single value; `from` and `to` are as given otherwise. */
scale scale_over(double low, double high, double at, double length);
double scale_place(const scale *s, double value);

/* The largest of 1, 2, 5, 10 times a power of ten that is not above `size`. */
double scale_round_down(double size);

/* Widen [low, high] to round values that are ticks of the wider range. */
void scale_round(double *low, double *high, int about);

/* Round values within a scale: first + i * step, i = 0 … count - 1, step 1, 2 or 5 times a power of ten, `about` of them. */
typedef struct scale_ticks {
    double first, step;
    int count;
    int decimals; /* that show every one as it is */
} scale_ticks;

scale_ticks scale_ticks_of(const scale *s, int about);

#endif
