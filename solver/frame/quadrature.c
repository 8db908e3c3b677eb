/* quadrature.c - see quadrature.h.
 * SPDX-License-Identifier: MIT */
#include "quadrature.h"

#include <math.h>
#include <string.h>

/* Antiderivative in t from -1 of sum c_k t^k. */
static double antiderivative(const double *c, double t)
{
    double sum = 0.0;
    double power = t;
    double sign = -1.0; /* (-1)^(k+1) */
    for (int k = 0; k < QUADRATURE_POINTS; k++) {
        sum += c[k] * (power - sign) / (k + 1);
        power *= t;
        sign = -sign;
    }
    return sum;
}

double quadrature_value(const double c[QUADRATURE_POINTS], double xi)
{
    const double t = 2.0 * xi - 1.0;
    double value = 0.0;
    for (int k = QUADRATURE_POINTS - 1; k >= 0; k--) {
        value = value * t + c[k];
    }
    return value;
}

double quadrature_integral(const double c[QUADRATURE_POINTS], double xi)
{
    return 0.5 * antiderivative(c, 2.0 * xi - 1.0);
}

/* Integral of (t - s) s^k over -1 … t is (t^(k+2) - (k+2) t (-1)^(k+1) + (k+1) (-1)^k … ) / ((k+1)(k+2));
 * it is taken as the antiderivative of the antiderivative, term by term. */
double quadrature_twice(const double c[QUADRATURE_POINTS], double xi)
{
    const double t = 2.0 * xi - 1.0;
    double sum = 0.0;
    double power = t * t; /* t^(k+2) */
    double sign = -1.0;   /* (-1)^(k+1) */
    for (int k = 0; k < QUADRATURE_POINTS; k++) {
        const double outer = (power + sign) / (k + 2); /* (t^(k+2) - (-1)^(k+2)) / (k+2) */
        sum += c[k] * (outer - sign * (t + 1.0)) / (k + 1);
        power *= t;
        sign = -sign;
    }
    return 0.25 * sum;
}

void quadrature_fit(const quadrature *q,
                    const double *values,
                    int stride,
                    double c[QUADRATURE_POINTS])
{
    double sum[QUADRATURE_POINTS] = {0.0};
    for (int p = 0; p < QUADRATURE_POINTS; p++) {
        for (int k = 0; k < QUADRATURE_POINTS; k++) {
            sum[k] += q->lagrange[p][k] * values[p * stride];
        }
    }
    memcpy(c, sum, sizeof sum);
}

/* Coefficients in t of the Lagrange polynomial of one point. */
static void lagrange(const double *t, int point, double *c)
{
    double denominator = 1.0;
    for (int k = 0; k < QUADRATURE_POINTS; k++) {
        c[k] = 0.0;
    }
    c[0] = 1.0;
    int degree = 0;
    for (int p = 0; p < QUADRATURE_POINTS; p++) {
        if (p == point) {
            continue;
        }
        degree++;
        for (int k = degree; k >= 1; k--) {
            c[k] = c[k - 1] - t[p] * c[k];
        }
        c[0] *= -t[p];
        denominator *= t[point] - t[p];
    }
    for (int k = 0; k < QUADRATURE_POINTS; k++) {
        c[k] /= denominator;
    }
}

quadrature quadrature_make(void)
{
    quadrature q;
    const double root = sqrt(10.0 / 7.0);
    const double inner = sqrt(5.0 - 2.0 * root) / 3.0;
    const double outer = sqrt(5.0 + 2.0 * root) / 3.0;
    const double t[QUADRATURE_POINTS] = {-outer, -inner, 0.0, inner, outer};
    const double w_inner = (322.0 + 13.0 * sqrt(70.0)) / 1800.0;
    const double w_outer = (322.0 - 13.0 * sqrt(70.0)) / 1800.0;
    const double w[QUADRATURE_POINTS] = {w_outer, w_inner, 64.0 / 225.0, w_inner, w_outer};
    for (int p = 0; p < QUADRATURE_POINTS; p++) {
        q.xi[p] = 0.5 * (1.0 + t[p]);
        q.weight[p] = w[p];
    }
    for (int p = 0; p < QUADRATURE_POINTS; p++) {
        double *const c = q.lagrange[p];
        lagrange(t, p, c);
        for (int at = 0; at < QUADRATURE_POINTS; at++) {
            q.integral[at][p] = quadrature_integral(c, q.xi[at]);
            q.twice[at][p] = quadrature_twice(c, q.xi[at]);
        }
        q.lever[p] = quadrature_twice(c, 1.0);
    }
    return q;
}
