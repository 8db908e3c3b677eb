/* quadrature.h - five Gauss points on an element and polynomials through them.
 *
 * Every course along an element (action, strain, stress, load) is kept as its values at the five points and
 * is the polynomial of degree 4 through them: exact for all the actions that constant, linear and quadratic
 * loads can give, and integrated exactly once and twice. xi = x/L runs from 0 to 1.
 * Points and weights: Abramowitz & Stegun, Handbook of Mathematical Functions, 25.4.30 (closed form for n = 5).
 * SPDX-License-Identifier: MIT */
#ifndef KERNLINE_QUADRATURE_H
#define KERNLINE_QUADRATURE_H

#define QUADRATURE_POINTS 5

typedef struct quadrature {
    double xi[QUADRATURE_POINTS];
    double weight[QUADRATURE_POINTS];                      /* sum 1 */
    double lagrange[QUADRATURE_POINTS][QUADRATURE_POINTS]; /* [point][power of 2 xi - 1] */
    double integral[QUADRATURE_POINTS]
                   [QUADRATURE_POINTS]; /* [at][point]: values -> integral 0 … xi_at */
    double twice[QUADRATURE_POINTS]
                [QUADRATURE_POINTS]; /* [at][point]: values -> integral of (xi_at - s) f(s) ds */
    double lever[QUADRATURE_POINTS]; /* values -> integral 0 … 1 of (1 - s) f(s) ds */
} quadrature;

quadrature quadrature_make(void);

/* Coefficients c of the polynomial in t = 2 xi - 1 through five values that lie `stride` apart. */
void quadrature_fit(const quadrature *q,
                    const double *values,
                    int stride,
                    double c[QUADRATURE_POINTS]);
/* Value at xi. */
double quadrature_value(const double c[QUADRATURE_POINTS], double xi);
/* Integral over 0 … xi, and twice: integral of (xi - s) f(s) ds over 0 … xi. */
double quadrature_integral(const double c[QUADRATURE_POINTS], double xi);
double quadrature_twice(const double c[QUADRATURE_POINTS], double xi);

#endif
