/* test_columns.c - right-hand sides side by side: in every number of them, in every vector width, each answer is bit for bit the
 * one of its column alone; nothing is written beside the columns; a number that is not finite is found in every place.
 * SPDX-License-Identifier: MIT */
#include <math.h>
#include <stdlib.h>
#include <string.h>

#include "assert_close.h"
#include "node_system.h"
#include "numeric.h"
#include "solve.h"

/* Full panels, and all there is beside: twice the widest and three more. */
enum { MOST = 2 * NUMERIC_LANES + 3, FULL = 90 };

static void *copy_of(const void *from, size_t bytes)
{
    void *copy = malloc(bytes);
    assert_non_null(copy);
    memcpy(copy, from, bytes);
    return copy;
}

static node_solver solver_of(const node_system *system, int passes)
{
    node_solver s;
    assert_int_equal(node_solver_make(system, NULL, &s), KL_OK);
    s.factor->passes = node_solver_passes(passes);
    assert_int_equal(node_solver_run(system, 0.0, &s), KL_OK);
    assert_true(s.report.complete);
    return s;
}

/* `count` columns in place and apart, with numbers behind them that must stay. */
static void
check_count(node_solver *s, const double *b, const double *alone, size_t column, kl_index count)
{
    const size_t all = column * MOST * sizeof *b;
    const size_t solved = column * (size_t)count * sizeof *b;
    const size_t begin = column * (size_t)count;
    double *kept = copy_of(b, all);
    double *x = copy_of(b, all);
    assert_int_equal(solve_columns(s->factor, x, count), KL_OK);
    assert_memory_equal(x, alone, solved);
    assert_memory_equal(x + begin, b + begin, all - solved);
    double *y = copy_of(b, all);
    assert_int_equal(solve_columns_apart(s->factor, kept, count, y), KL_OK);
    assert_memory_equal(y, alone, solved);
    assert_memory_equal(y + begin, b + begin, all - solved);
    assert_memory_equal(kept, b, all);
    free(kept);
    free(x);
    free(y);
}

static void check_system(const node_system *system, random_source *source)
{
    const size_t column = 3 * (size_t)system->graph->node_count;
    double *b = node_system_columns(system, MOST, source);
    double *work = node_system_columns(system, 1, source);
    for (int p = 0; node_solver_passes(p); p++) {
        node_solver s = solver_of(system, p);
        double *alone = copy_of(b, column * MOST * sizeof *b);
        for (size_t c = 0; c < MOST; c++) {
            assert_int_equal(solve_columns(s.factor, alone + c * column, 1), KL_OK);
        }
        const double residual =
            solve_residual(system->graph, system->diag, system->off, alone, b, work, MOST);
        assert_true(residual < 1e-14);
        for (kl_index count = 0; count <= MOST; count++) {
            check_count(&s, b, alone, column, count);
        }
        free(alone);
        node_solver_free(&s);
    }
    free(b);
    free(work);
}

static void solve_columns_every_number_of_them_gives_the_bits_of_each_alone(void **state)
{
    (void)state;
    random_source source = {1616};
    for (int shape = 0; shape < SHAPE_COUNT; shape++) {
        node_system system = node_system_of_shape((node_shape)shape, &source);
        node_system_fill(&system, 0.1, &source);
        check_system(&system, &source);
        node_system_free(&system);
    }
}

/* Fronts of many blocks of columns, and of more rows than are taken at a time. */
static void solve_columns_wide_and_tall_fronts_give_the_bits_of_each_alone(void **state)
{
    (void)state;
    static kl_index pairs[FULL * FULL][2];
    random_source source = {90};
    int64_t count = 0;
    for (kl_index i = 0; i < FULL; i++) {
        for (kl_index j = 0; j < i; j++) {
            pairs[count][0] = i;
            pairs[count++][1] = j;
        }
    }
    node_system full = node_system_make(FULL, pairs, count);
    node_system_fill(&full, 0.1, &source);
    check_system(&full, &source);
    node_system_free(&full);
    node_system grid = node_system_of_grid(32, 0.1, &source);
    check_system(&grid, &source);
    node_system_free(&grid);
}

/* One number of one column. What a solution has left behind must not be found in the next. */
static void solve_columns_not_finite_in_any_column_is_told(void **state)
{
    (void)state;
    static const node_shape shapes[] = {SHAPE_ONE, SHAPE_CHAIN, SHAPE_GRID};
    static const double wrong[] = {NAN, HUGE_VAL, -HUGE_VAL};
    random_source source = {404};
    for (size_t i = 0; i < sizeof shapes / sizeof shapes[0]; i++) {
        node_system system = node_system_of_shape(shapes[i], &source);
        node_system_fill(&system, 0.1, &source);
        for (int d = 0; d < 3; d++) {
            node_system_add(&system, 0, d, 0, d, 1.0); /* a single node has no edge */
        }
        const size_t column = 3 * (size_t)system.graph->node_count;
        double *b = node_system_columns(&system, MOST, &source);
        double *x = node_system_columns(&system, MOST, &source);
        for (int p = 0; node_solver_passes(p); p++) {
            node_solver s = solver_of(&system, p);
            for (kl_index count = 1; count <= MOST; count++) {
                const size_t at = column * (size_t)random_index(&source, count) +
                                  (size_t)random_index(&source, (kl_index)column);
                const double before = b[at];
                b[at] = wrong[random_index(&source, 3)];
                assert_int_equal(solve_columns_apart(s.factor, b, count, x), KL_NUMERIC);
                b[at] = before;
                assert_int_equal(solve_columns_apart(s.factor, b, count, x), KL_OK);
                assert_int_equal(solve_columns_apart(s.factor, b, (count + 2) / 3, x), KL_OK);
            }
            for (kl_index c = 0; c < MOST; c++) {
                b[column * (size_t)c] = NAN;
                assert_int_equal(solve_columns_apart(s.factor, b, MOST, x), KL_NUMERIC);
                b[column * (size_t)c] = 1.0;
            }
            node_solver_free(&s);
        }
        free(b);
        free(x);
        node_system_free(&system);
    }
}

/* The answer to nothing is nothing, in company of something too. */
static void solve_columns_of_zero_are_zero(void **state)
{
    (void)state;
    random_source source = {7};
    node_system system = node_system_of_shape(SHAPE_GRID, &source);
    node_system_fill(&system, 0.1, &source);
    const size_t column = 3 * (size_t)system.graph->node_count;
    double *x = node_system_columns(&system, MOST, &source);
    memset(x + column, 0, column * sizeof *x);
    for (int p = 0; node_solver_passes(p); p++) {
        node_solver s = solver_of(&system, p);
        assert_int_equal(solve_columns(s.factor, x, MOST), KL_OK);
        for (size_t i = column; i < 2 * column; i++) {
            assert_close(x[i], 0.0, 0.0, 0.0);
        }
        node_solver_free(&s);
    }
    free(x);
    node_system_free(&system);
}

int main(void)
{
    const struct CMUnitTest tests[] = {
        cmocka_unit_test(solve_columns_every_number_of_them_gives_the_bits_of_each_alone),
        cmocka_unit_test(solve_columns_wide_and_tall_fronts_give_the_bits_of_each_alone),
        cmocka_unit_test(solve_columns_not_finite_in_any_column_is_told),
        cmocka_unit_test(solve_columns_of_zero_are_zero),
    };
    return cmocka_run_group_tests(tests, NULL, NULL);
}
