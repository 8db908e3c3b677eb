/* volterra.c - see volterra.h.
 *
 * Collocation: X is a polynomial in u, t - t0 = span u^power (Chebyshev polynomials); the integral by Gauss-Legendre, graded
 * toward t' = t.
 * SPDX-License-Identifier: MIT */
#include "volterra.h"

#include <math.h>

#define DEGREE 32
#define POINTS 160
#define GRADE  6.0
#define SCALE  30e9 /* Pa: rows of order one */

/* Nodes and weights of Gauss-Legendre on 0 … 1, by Newton's method on the Legendre polynomials. */
static void gauss_rule(double node[POINTS], double weight[POINTS])
{
    for (int i = 0; i < POINTS; i++) {
        double x = cos(acos(-1.0) * (i + 0.75) / (POINTS + 0.5)), slope = 1;
        for (int round = 0; round < 50; round++) {
            double p = 1, before = 0;
            for (int n = 1; n <= POINTS; n++) {
                const double next = ((2 * n - 1) * x * p - (n - 1) * before) / n;
                before = p;
                p = next;
            }
            slope = POINTS * (x * p - before) / (x * x - 1);
            x -= p / slope;
        }
        node[i] = (1 + x) / 2;
        weight[i] = 1 / ((1 - x * x) * slope * slope);
    }
}

/* T_m(2 u - 1) and its derivative by u, m = 0 … DEGREE. */
static void chebyshev(double u, double value[DEGREE + 1], double slope[DEGREE + 1])
{
    const double x = 2 * u - 1;
    value[0] = 1;
    slope[0] = 0;
    value[1] = x;
    slope[1] = 2;
    for (int m = 2; m <= DEGREE; m++) {
        value[m] = 2 * x * value[m - 1] - value[m - 2];
        slope[m] = 4 * value[m - 1] + 2 * x * slope[m - 1] - slope[m - 2];
    }
}

static void gauss_eliminate(int n, double a[DEGREE + 1][DEGREE + 1], double *b)
{
    for (int k = 0; k < n; k++) {
        int pivot = k;
        for (int i = k + 1; i < n; i++) {
            pivot = fabs(a[i][k]) > fabs(a[pivot][k]) ? i : pivot;
        }
        for (int j = 0; j < n; j++) {
            const double swap = a[k][j];
            a[k][j] = a[pivot][j];
            a[pivot][j] = swap;
        }
        const double swap = b[k];
        b[k] = b[pivot];
        b[pivot] = swap;
        for (int i = 0; i < n; i++) {
            const double factor = i == k ? 0 : a[i][k] / a[k][k];
            for (int j = k; j < n; j++) {
                a[i][j] -= factor * a[k][j];
            }
            b[i] -= factor * b[k];
        }
    }
    for (int k = 0; k < n; k++) {
        b[k] /= a[k][k];
    }
}

double volterra_strained(const creep_function *law,
                         double t0,
                         double span,
                         double power,
                         volterra_strain strain,
                         const void *context)
{
    static double a[DEGREE + 1][DEGREE + 1];
    double node[POINTS], weight[POINTS], value[DEGREE + 1], slope[DEGREE + 1], b[DEGREE + 1];
    gauss_rule(node, weight);
    for (int row = 0; row <= DEGREE; row++) {
        const double u = (1 - cos(acos(-1.0) * row / DEGREE)) / 2;
        const double age = t0 + span * pow(u, power);
        chebyshev(0, value, slope);
        for (int m = 0; m <= DEGREE; m++) {
            a[row][m] = value[m] * creep_function_compliance(law, age, t0) * SCALE;
        }
        for (int q = 0; q < POINTS && row > 0; q++) {
            const double at = u * (1 - pow(node[q], GRADE));
            const double w = weight[q] * u * GRADE * pow(node[q], GRADE - 1);
            const double j = creep_function_compliance(law, age, t0 + span * pow(at, power));
            chebyshev(at, value, slope);
            for (int m = 0; m <= DEGREE; m++) {
                a[row][m] += w * j * slope[m] * SCALE;
            }
        }
        b[row] = SCALE * strain(context, age);
    }
    gauss_eliminate(DEGREE + 1, a, b);
    double sum = 0;
    for (int m = 0; m <= DEGREE; m++) {
        sum += b[m]; /* T_m(1) = 1 */
    }
    return sum;
}

static double unit(const void *context, double age)
{
    (void)context;
    (void)age;
    return 1;
}

double volterra_relaxed(const creep_function *law, double t0, double span, double power)
{
    return volterra_strained(law, t0, span, power, unit, NULL);
}
