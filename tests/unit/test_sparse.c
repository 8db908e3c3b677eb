/* test_sparse.c - answers of the sparse solver against dense LAPACK and a band solver, and laws: the order does not matter,
 * an answer is the same bit for bit in every company, the residual is rounding.
 * SPDX-License-Identifier: MIT */
#include "solve.h"

#include <math.h>
#include <stdlib.h>
#include <string.h>

#include "assert_close.h"
#include "band_solver.h"
#include "lapack.h"
#include "node_system.h"
#include "rcm.h"

/* Both answers of the same system, column by column. */
static void check_close(const double *x, const double *y, size_t count)
{
    double largest = 0.0;
    for (size_t i = 0; i < count; i++) {
        largest = fmax(largest, fabs(y[i]));
    }
    for (size_t i = 0; i < count; i++) {
        assert_close(x[i], y[i], 0.0, 1e-9 * largest);
    }
}

/* The answers x for the columns b against another elimination in another order. */
static void
check_against_band(const node_system *system, const double *x, const double *b, kl_index columns)
{
    const size_t count = 3 * (size_t)system->graph->node_count * (size_t)columns;
    double *y = malloc(count * sizeof *y);
    assert_non_null(y);
    memcpy(y, b, count * sizeof *y);
    band_solver *band = NULL;
    assert_int_equal(band_create(system->graph, &band), KL_OK);
    assert_int_equal(band_factor(band, system->diag, system->off), KL_OK);
    band_solve(band, y, columns);
    check_close(x, y, count);
    band_destroy(band);
    free(y);
}

static void check_against_dense(node_system *system, random_source *source)
{
    enum { COLUMNS = 11 };
    node_solver s;
    assert_int_equal(node_solver_make(system, NULL, &s), KL_OK);
    assert_int_equal(node_solver_run(system, 1e-9, &s), KL_OK);
    assert_true(s.report.complete);
    const kl_index unknowns = 3 * system->graph->node_count;
    assert_int_equal(s.report.positive_pivots, unknowns);
    assert_int_equal(s.report.suspect_count, 0);

    const size_t size = (size_t)unknowns * COLUMNS * sizeof(double);
    double *b = node_system_columns(system, COLUMNS, source);
    double *x = malloc(size);
    double *reference = malloc(size);
    double *work = calloc((size_t)unknowns, sizeof *work);
    assert_true(x != NULL && reference != NULL && work != NULL);
    memcpy(x, b, size);
    memcpy(reference, b, size);
    assert_int_equal(solve_columns(s.factor, x, COLUMNS), KL_OK);
    const double residual =
        solve_residual(system->graph, system->diag, system->off, x, b, work, COLUMNS);
    assert_true(residual < 1e-14);
    check_against_band(system, x, b, COLUMNS);
    int64_t stopped = 0;
    assert_int_equal(lapack_dense_solve(unknowns, system->dense, COLUMNS, reference, &stopped),
                     KL_OK);
    assert_int_equal(stopped, -1);
    for (kl_index i = 0; i < unknowns * COLUMNS; i++) {
        assert_close(x[i], reference[i], 1e-9, 1e-10);
    }
    free(b);
    free(x);
    free(reference);
    free(work);
    node_solver_free(&s);
}

static void solve_columns_every_shape_agrees_with_dense_solution(void **state)
{
    (void)state;
    random_source source = {2024};
    for (int shape_of = 0; shape_of < SHAPE_COUNT; shape_of++) {
        for (int round = 0; round < 3; round++) {
            node_system system = node_system_of_shape((node_shape)shape_of, &source);
            node_system_fill(&system, 0.5, &source);
            check_against_dense(&system, &source);
            node_system_free(&system);
        }
    }
}

static void solve_columns_held_unknowns_stay_and_the_rest_agrees(void **state)
{
    (void)state;
    random_source source = {99};
    for (int shape_of = 0; shape_of < SHAPE_COUNT; shape_of++) {
        node_system system = node_system_of_shape((node_shape)shape_of, &source);
        node_system_fill(&system, 0.5, &source);
        for (kl_index node = 0; node < system.graph->node_count; node += 3) {
            node_system_hold(&system, node, random_index(&source, 3));
        }
        check_against_dense(&system, &source);
        node_system_free(&system);
    }
}

static void solve_columns_of_large_grid_leave_a_residual_of_rounding(void **state)
{
    (void)state;
    enum { SIDE = 60, COLUMNS = 3 };
    random_source source = {60};
    node_system system = node_system_of_grid(SIDE, 1e-3, &source);
    node_solver s;
    assert_int_equal(node_solver_make(&system, NULL, &s), KL_OK);
    assert_int_equal(node_solver_run(&system, 1e-12, &s), KL_OK);
    assert_true(s.report.complete);
    double *b = node_system_columns(&system, COLUMNS, &source);
    double *x = node_system_columns(&system, COLUMNS, &source);
    double *work = node_system_columns(&system, 1, &source);
    memcpy(x, b, sizeof *x * 3 * SIDE * SIDE * COLUMNS);
    assert_int_equal(solve_columns(s.factor, x, COLUMNS), KL_OK);
    const double residual =
        solve_residual(system.graph, system.diag, system.off, x, b, work, COLUMNS);
    assert_true(residual < 1e-14);
    free(b);
    free(x);
    free(work);
    node_solver_free(&s);
    node_system_free(&system);
}

enum { RANDOM_MOST = 700 };

/* A chain or a tree of many nodes with some more links, near or far, and a hub now and then; numbered at random. */
static node_system random_system(int kind, random_source *source)
{
    static kl_index pairs[3 * RANDOM_MOST][2];
    static kl_index number[RANDOM_MOST];
    const kl_index nodes = 2 + random_index(source, RANDOM_MOST - 2);
    for (kl_index i = 0; i < nodes; i++) {
        const kl_index j = random_index(source, i + 1);
        number[i] = number[j];
        number[j] = i;
    }
    int64_t count = 0;
    for (kl_index i = 1; i < nodes; i++) {
        const bool hub = kind >= 4 && random_index(source, 10) == 0;
        const kl_index to = hub ? 0 : kind % 2 == 0 ? i - 1 : random_index(source, i);
        pairs[count][0] = number[i];
        pairs[count++][1] = number[to];
    }
    const kl_index more = kind < 2 ? 3 : nodes / (kind < 4 ? 20 : 60);
    for (kl_index i = 0; i < more; i++) {
        const kl_index from = random_index(source, nodes);
        const kl_index reach = 1 + random_index(source, i % 8 == 0 ? nodes : 30);
        pairs[count][0] = number[from];
        pairs[count++][1] = number[(from + reach) % nodes];
    }
    node_system system = node_system_make(nodes, pairs, count);
    node_system_fill(&system, 0.5, source);
    return system;
}

static void solve_columns_of_random_frames_agree_with_the_band_solver(void **state)
{
    (void)state;
    enum { COLUMNS = 9 };
    random_source source = {77};
    for (int round = 0; round < 36; round++) {
        node_system system = random_system(round % 6, &source);
        const size_t count = 3 * (size_t)system.graph->node_count * COLUMNS;
        double *b = node_system_columns(&system, COLUMNS, &source);
        double *x = node_system_columns(&system, COLUMNS, &source);
        memcpy(x, b, count * sizeof *x);
        node_solver s;
        assert_int_equal(node_solver_make(&system, NULL, &s), KL_OK);
        assert_int_equal(node_solver_run(&system, 1e-12, &s), KL_OK);
        assert_int_equal(solve_columns(s.factor, x, COLUMNS), KL_OK);
        check_against_band(&system, x, b, COLUMNS);
        node_solver_free(&s);
        free(b);
        free(x);
        node_system_free(&system);
    }
}

static void reverse(kl_index *order, kl_index count)
{
    for (kl_index i = 0, j = count - 1; i < j; i++, j--) {
        const kl_index kept = order[i];
        order[i] = order[j];
        order[j] = kept;
    }
}

/* In the numbering, backwards, at random, along a narrow band. */
static void make_order(const node_system *system, int kind, random_source *source, kl_index *order)
{
    const kl_index nodes = system->graph->node_count;
    for (kl_index i = 0; i < nodes; i++) {
        const kl_index j = kind == 2 ? random_index(source, i + 1) : i;
        order[i] = order[j];
        order[j] = i;
    }
    if (kind == 3) {
        assert_int_equal(rcm_nodes(system->graph, order), KL_OK);
    }
    if (kind == 1) {
        reverse(order, nodes);
    }
}

static void solve_columns_in_every_order_give_the_same_answer(void **state)
{
    (void)state;
    random_source source = {5150};
    for (int shape_of = 0; shape_of < SHAPE_COUNT; shape_of++) {
        node_system system = node_system_of_shape((node_shape)shape_of, &source);
        node_system_fill(&system, 0.5, &source);
        const size_t count = 3 * (size_t)system.graph->node_count;
        double *b = node_system_columns(&system, 1, &source);
        double *x = node_system_columns(&system, 1, &source);
        memcpy(x, b, count * sizeof *x);
        node_solver s;
        assert_int_equal(node_solver_make(&system, NULL, &s), KL_OK);
        assert_int_equal(node_solver_run(&system, 1e-12, &s), KL_OK);
        assert_int_equal(solve_columns(s.factor, x, 1), KL_OK);
        node_solver_free(&s);
        for (int kind = 0; kind < 4; kind++) {
            kl_index order[200];
            make_order(&system, kind, &source, order);
            double *y = node_system_columns(&system, 1, &source);
            memcpy(y, b, count * sizeof *y);
            assert_int_equal(node_solver_make(&system, order, &s), KL_OK);
            assert_int_equal(node_solver_run(&system, 1e-12, &s), KL_OK);
            assert_true(s.report.complete);
            assert_int_equal(solve_columns(s.factor, y, 1), KL_OK);
            check_close(y, x, count);
            node_solver_free(&s);
            free(y);
        }
        free(b);
        free(x);
        node_system_free(&system);
    }
}

/* The inner loops are compiled for several vectors. Each that this machine can run must give the same answer, and for each an
 * answer in company is that of a column alone. */
static void solve_columns_with_every_vector_width_give_the_same_answer(void **state)
{
    (void)state;
    enum { COLUMNS = 11 };
    random_source source = {31};
    for (int shape_of = 0; shape_of < SHAPE_COUNT; shape_of++) {
        node_system system = node_system_of_shape((node_shape)shape_of, &source);
        node_system_fill(&system, 0.5, &source);
        const size_t column = 3 * (size_t)system.graph->node_count;
        double *b = node_system_columns(&system, COLUMNS, &source);
        double *first = node_system_columns(&system, COLUMNS, &source);
        double *x = node_system_columns(&system, COLUMNS, &source);
        for (int p = 0; node_solver_passes(p); p++) {
            node_solver s;
            assert_int_equal(node_solver_make(&system, NULL, &s), KL_OK);
            s.factor->passes = node_solver_passes(p);
            assert_int_equal(node_solver_run(&system, 1e-12, &s), KL_OK);
            memcpy(x, b, column * COLUMNS * sizeof *x);
            assert_int_equal(solve_columns(s.factor, x, COLUMNS), KL_OK);
            memcpy(p == 0 ? first : x, x, column * COLUMNS * sizeof *x);
            check_close(x, first, column * COLUMNS);
            double *alone = node_system_columns(&system, 1, &source);
            memcpy(alone, b + column, column * sizeof *alone);
            assert_int_equal(solve_columns(s.factor, alone, 1), KL_OK);
            assert_memory_equal(alone, x + column, column * sizeof *alone);
            free(alone);
            node_solver_free(&s);
        }
        free(b);
        free(first);
        free(x);
        node_system_free(&system);
    }
}

static void solve_columns_alone_or_in_company_answers_are_the_same_bits(void **state)
{
    (void)state;
    enum { MOST = 21 };
    static const node_shape shapes[] = {SHAPE_CHAIN, SHAPE_GRID, SHAPE_FULL, SHAPE_APART};
    random_source source = {3};
    for (size_t i = 0; i < sizeof shapes / sizeof shapes[0]; i++) {
        node_system system = node_system_of_shape(shapes[i], &source);
        node_system_fill(&system, 0.1, &source);
        const size_t column = 3 * (size_t)system.graph->node_count;
        double *b = node_system_columns(&system, MOST, &source);
        double *alone = node_system_columns(&system, MOST, &source);
        double *together = node_system_columns(&system, MOST, &source);
        memcpy(alone, b, column * MOST * sizeof *b);
        node_solver s;
        assert_int_equal(node_solver_make(&system, NULL, &s), KL_OK);
        assert_int_equal(node_solver_run(&system, 0.0, &s), KL_OK);
        for (size_t c = 0; c < MOST; c++) {
            assert_int_equal(solve_columns(s.factor, alone + c * column, 1), KL_OK);
        }
        node_solver_free(&s);
        /* Another factor of the same matrix, computed twice. */
        assert_int_equal(node_solver_make(&system, NULL, &s), KL_OK);
        assert_int_equal(node_solver_run(&system, 0.0, &s), KL_OK);
        assert_int_equal(node_solver_run(&system, 0.0, &s), KL_OK);
        for (kl_index columns = 1; columns <= MOST; columns++) {
            memcpy(together, b, column * (size_t)columns * sizeof *b);
            assert_int_equal(solve_columns(s.factor, together, columns), KL_OK);
            assert_memory_equal(together, alone, column * (size_t)columns * sizeof *b);
        }
        node_solver_free(&s);
        free(b);
        free(alone);
        free(together);
        node_system_free(&system);
    }
}

static void solve_columns_answer_that_is_not_finite_is_told(void **state)
{
    (void)state;
    random_source source = {6};
    node_system system = node_system_of_shape(SHAPE_ONE, &source);
    for (int d = 0; d < 3; d++) {
        node_system_add(&system, 0, d, 0, d, 1e-10);
    }
    node_solver s;
    assert_int_equal(node_solver_make(&system, NULL, &s), KL_OK);
    assert_int_equal(node_solver_run(&system, 0.0, &s), KL_OK);
    double x[3] = {1.0, 1e300, 1.0};
    assert_int_equal(solve_columns(s.factor, x, 1), KL_NUMERIC);
    double y[3] = {1.0, 2.0, 3.0};
    assert_int_equal(solve_columns(s.factor, y, 1), KL_OK);
    assert_close(y[2], 3e10, 1e-15, 0.0);
    assert_int_equal(solve_columns(s.factor, y, -1), KL_MISUSE);
    assert_int_equal(solve_columns(s.factor, y, 0), KL_OK);
    node_solver_free(&s);
    node_system_free(&system);
}

static void solve_residual_of_known_error_is_its_share(void **state)
{
    (void)state;
    random_source source = {1};
    node_system system = node_system_of_shape(SHAPE_ONE, &source);
    for (int d = 0; d < 3; d++) {
        node_system_add(&system, 0, d, 0, d, 1.0);
    }
    const double x[6] = {1.0, 1.0, 1.0, 0.0, 0.0, 0.0};
    double b[6] = {1.0, 1.0, 2.0, 0.0, 0.0, 0.0};
    double work[3];
    /* |r| = 1, |A| |x| + |b| = 1 + 2; the second column is exact */
    assert_close(solve_residual(system.graph, system.diag, system.off, x, b, work, 2), 1.0 / 3.0,
                 1e-15, 0.0);
    b[4] = NAN;
    assert_true(isnan(solve_residual(system.graph, system.diag, system.off, x, b, work, 2)));
    node_system_free(&system);
}

int main(void)
{
    const struct CMUnitTest tests[] = {
        cmocka_unit_test(solve_columns_every_shape_agrees_with_dense_solution),
        cmocka_unit_test(solve_columns_held_unknowns_stay_and_the_rest_agrees),
        cmocka_unit_test(solve_columns_of_large_grid_leave_a_residual_of_rounding),
        cmocka_unit_test(solve_columns_of_random_frames_agree_with_the_band_solver),
        cmocka_unit_test(solve_columns_in_every_order_give_the_same_answer),
        cmocka_unit_test(solve_columns_with_every_vector_width_give_the_same_answer),
        cmocka_unit_test(solve_columns_alone_or_in_company_answers_are_the_same_bits),
        cmocka_unit_test(solve_columns_answer_that_is_not_finite_is_told),
        cmocka_unit_test(solve_residual_of_known_error_is_its_share),
    };
    return cmocka_run_group_tests(tests, NULL, NULL);
}
