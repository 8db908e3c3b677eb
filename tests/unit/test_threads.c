/* test_threads.c - the factor is the same for any number of threads, to the last bit: answers, suspects, where it stops and the
 * mode there. Failing memory, threads that are not to be had, trees as deep or as broad as can be.
 * SPDX-License-Identifier: MIT */
#include <math.h>
#include <stdlib.h>
#include <string.h>

#include "assert_close.h"
#include "fault.h"
#include "node_system.h"
#include "numeric.h"
#include "solve.h"

enum { SIDE = 70, NODES = SIDE * SIDE, MOST_THREADS = 4, COLUMNS = 3 };

/* A grid large enough for several threads, and a solver for each number of them. */
typedef struct grid_case {
    node_system system;
    node_solver solver[MOST_THREADS];
} grid_case;

static grid_case make_grid(void)
{
    random_source source = {70};
    grid_case g = {.system = node_system_of_grid(SIDE, 1e-3, &source)};
    for (int t = 0; t < MOST_THREADS; t++) {
        assert_int_equal(node_solver_make_for(&g.system, NULL, t + 1, &g.solver[t]), KL_OK);
        /* else nothing is tested */
        assert_int_equal(g.solver[t].factor->schedule.threads, t + 1);
        assert_true(t == 0 || g.solver[t].factor->schedule.task_count > t);
        assert_true(t == 0 || g.solver[t].factor->schedule.top_count > 0);
    }
    return g;
}

static void free_grid(grid_case *g)
{
    for (int t = 0; t < MOST_THREADS; t++) {
        node_solver_free(&g->solver[t]);
    }
    node_system_free(&g->system);
}

static void check_same_pivot(factor_pivot a, factor_pivot b)
{
    assert_int_equal(a.node, b.node);
    assert_int_equal(a.direction, b.direction);
    assert_memory_equal(&a.ratio, &b.ratio, sizeof a.ratio);
}

static void check_same_report(const factor_report *a, const factor_report *b)
{
    assert_int_equal(a->complete, b->complete);
    assert_int_equal(a->positive_pivots, b->positive_pivots);
    check_same_pivot(a->stopped, b->stopped);
    assert_int_equal(a->suspect_count, b->suspect_count);
    for (int i = 0; i < a->suspect_count; i++) {
        check_same_pivot(a->suspects[i], b->suspects[i]);
    }
}

/* Run all; every report is that of one thread. */
static void run_all(grid_case *g, double limit)
{
    for (int t = 0; t < MOST_THREADS; t++) {
        assert_int_equal(node_solver_run(&g->system, limit, &g->solver[t]), KL_OK);
        check_same_report(&g->solver[0].report, &g->solver[t].report);
    }
}

static void check_same_answers(grid_case *g)
{
    random_source source = {71};
    const size_t size = 3 * sizeof(double) * NODES * COLUMNS;
    double *b = node_system_columns(&g->system, COLUMNS, &source);
    double *first = node_system_columns(&g->system, COLUMNS, &source);
    double *x = node_system_columns(&g->system, COLUMNS, &source);
    for (int t = 0; t < MOST_THREADS; t++) {
        double *to = t == 0 ? first : x;
        memcpy(to, b, size);
        assert_int_equal(solve_columns(g->solver[t].factor, to, COLUMNS), KL_OK);
        assert_memory_equal(to, first, size);
    }
    assert_true(solve_residual(g->system.graph, g->system.diag, g->system.off, first, b, x,
                               COLUMNS) < 1e-14);
    free(b);
    free(first);
    free(x);
}

static void factor_compute_with_any_number_of_threads_gives_the_same_bits(void **state)
{
    (void)state;
    grid_case g = make_grid();
    for (int round = 0; round < 3; round++) {
        run_all(&g, 1e-14);
        assert_true(g.solver[0].report.complete);
        assert_int_equal(g.solver[0].report.positive_pivots, 3 * NODES);
        check_same_answers(&g);
    }
    free_grid(&g);
}

static void factor_compute_with_any_number_of_threads_lists_the_same_suspects(void **state)
{
    (void)state;
    grid_case g = make_grid();
    run_all(&g, 2.0); /* every pivot is one: the smallest of all are listed */
    assert_int_equal(g.solver[0].report.suspect_count, FACTOR_SUSPECTS);
    /* The identity: all ratios are 1, and the first in the order of elimination are listed. */
    memset(g.system.off, 0, sizeof(double) * 9 * (size_t)g.system.graph->edge_count);
    for (size_t i = 0; i < (size_t)9 * NODES; i++) {
        g.system.diag[i] = i % 9 % 4 == 0 ? 1.0 : 0.0;
    }
    run_all(&g, 2.0);
    for (int i = 0; i < FACTOR_SUSPECTS; i++) {
        const factor_pivot *pivot = &g.solver[0].report.suspects[i];
        assert_int_equal(pivot->node, symbolic_order(g.solver[0].symbolic)[i / 3]);
        assert_int_equal(pivot->direction, i % 3);
    }
    free_grid(&g);
}

/* Make the diagonal of the unknown at a place negative, so that no elimination before it can help: the pivot there is too. */
static void weaken(grid_case *g, kl_index place, int direction)
{
    const kl_index node = symbolic_order(g->solver[0].symbolic)[place];
    double *diagonal = &g->system.diag[9 * (size_t)node + 4 * (size_t)direction];
    *diagonal = -fabs(*diagonal);
}

static void check_same_modes(grid_case *g)
{
    random_source source = {72};
    double *first = node_system_columns(&g->system, 1, &source);
    double *mode = node_system_columns(&g->system, 1, &source);
    for (int t = 0; t < MOST_THREADS; t++) {
        double *to = t == 0 ? first : mode;
        const factor_report *report = &g->solver[t].report;
        assert_int_equal(solve_pivot_mode(g->solver[t].factor, &report->stopped, to), KL_OK);
        assert_memory_equal(to, first, sizeof(double) * 3 * NODES);
    }
    free(first);
    free(mode);
}

static void factor_compute_with_any_number_of_threads_stops_at_the_first_bad_pivot(void **state)
{
    (void)state;
    grid_case g = make_grid();
    const size_t size = sizeof(double) * 9 * NODES;
    double *sound = malloc(size);
    assert_non_null(sound);
    memcpy(sound, g.system.diag, size);
    /* In tasks, in the top, at the ends; the other bad pivot comes later and may be met earlier. */
    const kl_index places[][2] = {
        {0, NODES / 2},           {NODES / 3, NODES - 1}, {NODES / 2, NODES / 2 + 700},
        {NODES - 40, NODES - 10}, {NODES - 1, NODES - 1}, {777, 4000}};
    for (size_t i = 0; i < sizeof places / sizeof places[0]; i++) {
        memcpy(g.system.diag, sound, size);
        weaken(&g, places[i][0], 1);
        weaken(&g, places[i][1], 2);
        run_all(&g, 0.9);
        const factor_report *report = &g.solver[0].report;
        assert_false(report->complete);
        assert_int_equal(report->stopped.node, symbolic_order(g.solver[0].symbolic)[places[i][0]]);
        assert_int_equal(report->stopped.direction, 1);
        assert_int_equal(report->positive_pivots, 3 * places[i][0] + 1);
        check_same_modes(&g);
    }
    memcpy(g.system.diag, sound, size);
    run_all(&g, 1e-14); /* none of it is left behind */
    assert_true(g.solver[0].report.complete);
    check_same_answers(&g);
    free(sound);
    free_grid(&g);
}

static void factor_compute_value_that_is_not_finite_is_refused_by_all(void **state)
{
    (void)state;
    grid_case g = make_grid();
    double *const values[] = {&g.system.diag[9 * 100], &g.system.off[9 * 4000],
                              &g.system.diag[9 * (NODES - 1) + 8]};
    for (int i = 0; i < 3; i++) {
        const double kept = *values[i];
        *values[i] = NAN;
        for (int t = 0; t < MOST_THREADS; t++) {
            assert_int_equal(node_solver_run(&g.system, 0.0, &g.solver[t]), KL_NUMERIC);
            assert_false(g.solver[t].report.complete);
        }
        *values[i] = kept;
    }
    run_all(&g, 1e-14);
    assert_true(g.solver[0].report.complete);
    free_grid(&g);
}

static void factor_create_for_threads_failing_memory_frees_everything(void **state)
{
    (void)state;
    random_source source = {5};
    node_system system = node_system_of_grid(SIDE, 1e-3, &source);
    node_solver whole;
    assert_int_equal(node_solver_make(&system, NULL, &whole), KL_OK);
    kl_status status = KL_NO_MEMORY;
    for (long k = 0; status != KL_OK; k++) {
        assert_true(k < 30);
        sparse_factor *factor = NULL;
        fault_after(k);
        status = factor_create(whole.symbolic, 3, &factor);
        fault_after(-1);
        assert_true(status == KL_OK || (status == KL_NO_MEMORY && factor == NULL));
        factor_destroy(factor);
    }
    node_solver_free(&whole);
    node_system_free(&system);
}

static void factor_compute_without_threads_to_be_had_gives_the_same_bits(void **state)
{
    (void)state;
    grid_case g = make_grid();
    for (long k = 0; k < 3; k++) {
        for (int t = 0; t < MOST_THREADS; t++) {
            fault_after(k);
            assert_int_equal(node_solver_run(&g.system, 1e-14, &g.solver[t]), KL_OK);
            assert_int_equal(fault_struck(), t > k);
            fault_after(-1);
            check_same_report(&g.solver[0].report, &g.solver[t].report);
        }
        check_same_answers(&g);
    }
    free_grid(&g);
}

/* Factor and solve with four threads and with one. */
static void check_alike(const node_system *system, const kl_index *order)
{
    random_source source = {9};
    const size_t size = 3 * sizeof(double) * (size_t)system->graph->node_count;
    double *x = node_system_columns(system, 1, &source);
    double *y = node_system_columns(system, 1, &source);
    memcpy(y, x, size);
    for (int t = 0; t < 2; t++) {
        node_solver s;
        assert_int_equal(node_solver_make_for(system, order, t == 0 ? 1 : 4, &s), KL_OK);
        assert_int_equal(node_solver_run(system, 1e-300, &s), KL_OK);
        assert_true(s.report.complete);
        assert_int_equal(solve_columns(s.factor, t == 0 ? x : y, 1), KL_OK);
        node_solver_free(&s);
    }
    assert_memory_equal(x, y, size);
    free(x);
    free(y);
}

/* A line eliminated from one end, whose tree is as deep as it has nodes; and a star, whose tree is as broad. */
static void factor_compute_of_deep_and_broad_trees_is_as_with_one_thread(void **state)
{
    (void)state;
    enum { MANY = 200000 };
    static kl_index pairs[MANY][2];
    static kl_index order[MANY + 1];
    for (int star = 0; star < 2; star++) {
        for (kl_index i = 0; i < MANY; i++) {
            pairs[i][0] = star ? MANY : i;
            pairs[i][1] = star ? i : i + 1;
            order[i] = i;
        }
        order[MANY] = MANY;
        random_source source = {10};
        node_system system = node_system_make(MANY + 1, pairs, MANY);
        node_system_fill(&system, 0.5, &source);
        check_alike(&system, order);
        node_system_free(&system);
    }
}

int main(void)
{
    const struct CMUnitTest tests[] = {
        cmocka_unit_test(factor_compute_with_any_number_of_threads_gives_the_same_bits),
        cmocka_unit_test(factor_compute_with_any_number_of_threads_lists_the_same_suspects),
        cmocka_unit_test(factor_compute_with_any_number_of_threads_stops_at_the_first_bad_pivot),
        cmocka_unit_test(factor_compute_value_that_is_not_finite_is_refused_by_all),
        cmocka_unit_test(factor_create_for_threads_failing_memory_frees_everything),
        cmocka_unit_test(factor_compute_without_threads_to_be_had_gives_the_same_bits),
        cmocka_unit_test(factor_compute_of_deep_and_broad_trees_is_as_with_one_thread),
    };
    return cmocka_run_group_tests(tests, NULL, NULL);
}
