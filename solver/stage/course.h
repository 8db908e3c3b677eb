/* course.h - the course of a quantity along one element as a polynomial, and its extremes.
 *
 * t = 2 xi - 1 runs from -1 to 1 over the flexible part. Actions and stresses are the polynomials of degree 4 through
 * the quadrature points; movements are their integrals, degree 6 at most.
 * SPDX-License-Identifier: MIT */
#ifndef KERNLINE_COURSE_H
#define KERNLINE_COURSE_H

#include "result_store.h"

#define COURSE_TERMS 8

typedef struct course {
    double c[COURSE_TERMS]; /* coefficients of t^k; 0 from `terms` on */
    int terms;
} course;

/* @return KL_NOT_THERE when the quantity does not apply there (stress on a section without extreme fibres). */
kl_status course_make(const kl_results *results,
                      kl_state state,
                      kl_quantity quantity,
                      kl_part part,
                      kl_index element,
                      course *out);

double course_value(const course *c, double t);

/* The values at t = -1 and t = 1. */
typedef struct course_ends {
    double start, end;
} course_ends;

course_ends course_at_ends(const course *c);

/* No more than this does the course leave the chord between two of its points: (2^2/8) max|c''|. */
double course_bulge(const course *c);

/* Points of [from, to] where the course is stationary, rising. @param t room for COURSE_TERMS. @return how many. */
int course_stationary(const course *c, double from, double to, double *t);

#endif
