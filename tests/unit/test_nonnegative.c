/* test_nonnegative.c - the conditions of Kuhn and Tucker, which only the best non-negative solution meets.
 * SPDX-License-Identifier: MIT */
#include "assert_close.h"

#include <math.h>

#include "nonnegative.h"
#include "random.h"

#define ROWS 40

/* x >= 0; gradient A'(b - A x) is 0 where x > 0 and not positive where x = 0. */
static void
check_kuhn_tucker(int n, const double *gram, const double *rhs, const double *x, double noise)
{
    for (int i = 0; i < n; i++) {
        double gradient = rhs[i];
        for (int j = 0; j < n; j++) {
            gradient -= gram[i * n + j] * x[j];
        }
        assert_true(x[i] >= 0);
        assert_true(gradient <= noise);
        assert_true(!(x[i] > 0) || gradient >= -noise);
    }
}

static void
normal_equations(int n, double a[ROWS][NONNEGATIVE_MAX], const double *b, double *gram, double *rhs)
{
    for (int i = 0; i < n; i++) {
        rhs[i] = 0;
        for (int r = 0; r < ROWS; r++) {
            rhs[i] += a[r][i] * b[r];
        }
        for (int j = 0; j < n; j++) {
            gram[i * n + j] = 0;
            for (int r = 0; r < ROWS; r++) {
                gram[i * n + j] += a[r][i] * a[r][j];
            }
        }
    }
}

static void nonnegative_solve_of_random_problems_is_the_best(void **state)
{
    (void)state;
    random_source random = {7};
    int held = 0, loose = 0;
    for (int trial = 0; trial < 200; trial++) {
        double a[ROWS][NONNEGATIVE_MAX], b[ROWS];
        double gram[NONNEGATIVE_MAX * NONNEGATIVE_MAX], rhs[NONNEGATIVE_MAX], x[NONNEGATIVE_MAX];
        const int n = 1 + trial % NONNEGATIVE_MAX;
        for (int r = 0; r < ROWS; r++) {
            b[r] = random_between(&random, -1, 1);
            for (int i = 0; i < n; i++) {
                a[r][i] = random_between(&random, -1, 1);
            }
        }
        normal_equations(n, a, b, gram, rhs);
        nonnegative_solve(n, gram, rhs, x);
        check_kuhn_tucker(n, gram, rhs, x, 1e-8);
        for (int i = 0; i < n; i++) {
            held += x[i] > 0 ? 0 : 1;
            loose += x[i] > 0 ? 1 : 0;
        }
    }
    assert_true(held > 200 && loose > 200);
}

/* Built backwards: where the answer without bounds is positive, it is the answer. */
static void nonnegative_solve_of_a_positive_answer_finds_it(void **state)
{
    (void)state;
    random_source random = {11};
    double a[ROWS][NONNEGATIVE_MAX], b[ROWS] = {0}, want[NONNEGATIVE_MAX];
    double gram[NONNEGATIVE_MAX * NONNEGATIVE_MAX], rhs[NONNEGATIVE_MAX], x[NONNEGATIVE_MAX];
    for (int i = 0; i < 20; i++) {
        want[i] = random_between(&random, 0.1, 1.1);
        for (int r = 0; r < ROWS; r++) {
            a[r][i] = random_between(&random, -1, 1);
            b[r] += a[r][i] * want[i];
        }
    }
    normal_equations(20, a, b, gram, rhs);
    nonnegative_solve(20, gram, rhs, x);
    for (int i = 0; i < 20; i++) {
        assert_close(x[i], want[i], 1e-8, 0);
    }
}

/* Two equal columns: any split is best; none is negative and the residual is gone. */
static void nonnegative_solve_of_equal_columns_stays_sound(void **state)
{
    (void)state;
    const double gram[] = {1, 1, 1, 1}, rhs[] = {2, 2};
    double x[2];
    nonnegative_solve(2, gram, rhs, x);
    assert_close(x[0] + x[1], 2, 1e-9, 0);
    check_kuhn_tucker(2, gram, rhs, x, 1e-9);
}

int main(void)
{
    const struct CMUnitTest tests[] = {
        cmocka_unit_test(nonnegative_solve_of_random_problems_is_the_best),
        cmocka_unit_test(nonnegative_solve_of_a_positive_answer_finds_it),
        cmocka_unit_test(nonnegative_solve_of_equal_columns_stays_sound),
    };
    return cmocka_run_group_tests(tests, NULL, NULL);
}
