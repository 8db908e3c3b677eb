/* test_quadrature.c - the five points against their table, and integrals of polynomials against their closed forms.
 * SPDX-License-Identifier: MIT */
#include "quadrature.h"

#include <math.h>

#include "assert_close.h"

static double weighted(const double *weights, const double *values)
{
    double sum = 0.0;
    for (int p = 0; p < QUADRATURE_POINTS; p++) {
        sum += weights[p] * values[p];
    }
    return sum;
}

/* Abramowitz & Stegun, Handbook of Mathematical Functions, Table 25.4, n = 5: abscissas and weights on [-1, 1]. */
static void quadrature_make_points_are_those_of_the_table(void **state)
{
    (void)state;
    const double x[] = {-0.906179845938664, -0.538469310105683, 0.0, 0.538469310105683,
                        0.906179845938664};
    const double w[] = {0.236926885056189, 0.478628670499366, 0.568888888888889, 0.478628670499366,
                        0.236926885056189};
    const quadrature q = quadrature_make();
    for (int p = 0; p < QUADRATURE_POINTS; p++) {
        assert_close(2.0 * q.xi[p] - 1.0, x[p], 0.0, 6e-16);
        assert_close(2.0 * q.weight[p], w[p], 0.0, 6e-16);
    }
}

/* Exact to degree 2 n - 1 = 9, and not beyond. */
static void quadrature_make_weights_are_exact_to_degree_nine(void **state)
{
    (void)state;
    const quadrature q = quadrature_make();
    for (int k = 0; k <= 10; k++) {
        double value[QUADRATURE_POINTS];
        for (int p = 0; p < QUADRATURE_POINTS; p++) {
            value[p] = pow(q.xi[p], k);
        }
        const double error = weighted(q.weight, value) - 1.0 / (k + 1);
        if (k <= 9) {
            assert_close(error, 0.0, 0.0, 4e-16);
        } else {
            /* the error term of 25.4.29 for x^10 on [0, 1]: (n!)^4 / ((2n + 1) ((2n)!)^2) */
            assert_close(-error, pow(120.0, 4) / (11.0 * pow(3628800.0, 2)), 1e-8, 0.0);
        }
    }
}

/* Through five values of x^k, k up to 4: value, integral, second integral, all in closed form. */
static void quadrature_fit_carries_polynomials_of_degree_four(void **state)
{
    (void)state;
    const quadrature q = quadrature_make();
    const double at[] = {0.0, 0.123, 0.5, 0.77, 1.0};
    for (int k = 0; k <= 4; k++) {
        double pair[2 * QUADRATURE_POINTS]; /* every second entry: the stride */
        double value[QUADRATURE_POINTS];
        double c[QUADRATURE_POINTS];
        for (int p = 0; p < QUADRATURE_POINTS; p++) {
            value[p] = pair[2 * p] = pow(q.xi[p], k);
            pair[2 * p + 1] = NAN;
        }
        quadrature_fit(&q, pair, 2, c);
        for (int i = 0; i < 5; i++) {
            const double x = at[i];
            assert_close(quadrature_value(c, x), pow(x, k), 0.0, 1e-14);
            assert_close(quadrature_integral(c, x), pow(x, k + 1) / (k + 1), 0.0, 1e-15);
            assert_close(quadrature_twice(c, x), pow(x, k + 2) / ((k + 1) * (k + 2)), 0.0, 1e-15);
        }
        for (int p = 0; p < QUADRATURE_POINTS; p++) {
            const double x = q.xi[p];
            assert_close(weighted(q.integral[p], value), pow(x, k + 1) / (k + 1), 0.0, 1e-15);
            assert_close(weighted(q.twice[p], value), pow(x, k + 2) / ((k + 1) * (k + 2)), 0.0,
                         1e-15);
        }
        assert_close(weighted(q.lever, value), 1.0 / ((k + 1) * (k + 2)), 1e-14, 0.0);
    }
}

int main(void)
{
    const struct CMUnitTest tests[] = {
        cmocka_unit_test(quadrature_make_points_are_those_of_the_table),
        cmocka_unit_test(quadrature_make_weights_are_exact_to_degree_nine),
        cmocka_unit_test(quadrature_fit_carries_polynomials_of_degree_four),
    };
    return cmocka_run_group_tests(tests, NULL, NULL);
}
