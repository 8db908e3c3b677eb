/* test_factor.c - pivots of the factor against closed forms of chains of springs and dense elimination; modes of
 * mechanisms; values that are refused.
 * SPDX-License-Identifier: MIT */
#include "solve.h"

#include <math.h>
#include <stdlib.h>

#include "assert_close.h"
#include "node_system.h"

enum { CHAIN_NODES = 60 };
static kl_index chain_order[CHAIN_NODES];

/* Springs of stiffness 1 from node to node in each direction; node 0 is tied to the ground by one more, the last
 * node is free. Eliminated from node 0 on, the pivots are (k+2)/(k+1) and at the free end 1/n, over diagonals 2
 * and 1: the stiffness of n springs one after the other. */
static node_system make_spring_chain(void)
{
    static kl_index pairs[CHAIN_NODES][2];
    for (kl_index i = 0; i < CHAIN_NODES; i++) {
        chain_order[i] = i;
        pairs[i][0] = i > 0 ? i - 1 : 0;
        pairs[i][1] = i;
    }
    node_system system = node_system_make(CHAIN_NODES, pairs, CHAIN_NODES);
    for (kl_index i = 0; i < CHAIN_NODES; i++) {
        for (int d = 0; d < 3; d++) {
            node_system_add(&system, i, d, i, d, i + 1 < CHAIN_NODES ? 2.0 : 1.0);
            if (i > 0) {
                node_system_add(&system, i - 1, d, i, d, -1.0);
            }
        }
    }
    return system;
}

static void factor_compute_spring_chain_lists_pivots_of_the_closed_form(void **state)
{
    (void)state;
    node_system system = make_spring_chain();
    node_solver s;
    assert_int_equal(node_solver_make(&system, chain_order, &s), KL_OK);
    /* Below 0.1: only the free end. */
    assert_int_equal(node_solver_run(&system, 0.1, &s), KL_OK);
    assert_true(s.report.complete);
    assert_int_equal(s.report.stopped.node, KL_NONE);
    assert_int_equal(s.report.suspect_count, 3);
    for (int d = 0; d < 3; d++) {
        assert_int_equal(s.report.suspects[d].node, CHAIN_NODES - 1);
        assert_close(s.report.suspects[d].ratio, 1.0 / CHAIN_NODES, 1e-12, 0.0);
    }
    /* All below 2: the sixteen smallest, ascending; the ratios of the rest fall with k. */
    assert_int_equal(node_solver_run(&system, 2.0, &s), KL_OK);
    assert_int_equal(s.report.suspect_count, FACTOR_SUSPECTS);
    for (int i = 3; i < FACTOR_SUSPECTS; i++) {
        const kl_index node = CHAIN_NODES - 1 - i / 3;
        assert_int_equal(s.report.suspects[i].node, node);
        assert_close(s.report.suspects[i].ratio, (node + 2.0) / (node + 1.0) / 2.0, 1e-12, 0.0);
    }
    node_solver_free(&s);
    node_system_free(&system);
}

/* Eliminated from the free end on, every pivot is 1: the springs beyond a node carry nothing yet. Of equal ratios the first
 * sixteen count. */
static void factor_compute_equal_suspects_are_the_first_ones(void **state)
{
    (void)state;
    node_system system = make_spring_chain();
    kl_index backwards[CHAIN_NODES];
    for (kl_index i = 0; i < CHAIN_NODES; i++) {
        backwards[i] = CHAIN_NODES - 1 - i;
    }
    node_solver s;
    assert_int_equal(node_solver_make(&system, backwards, &s), KL_OK);
    assert_int_equal(node_solver_run(&system, 2.0, &s), KL_OK);
    assert_true(s.report.complete);
    assert_int_equal(s.report.suspect_count, FACTOR_SUSPECTS);
    for (int i = 0; i < FACTOR_SUSPECTS; i++) {
        assert_int_equal(s.report.suspects[i].node, CHAIN_NODES - 2 - i / 3);
        assert_int_equal(s.report.suspects[i].direction, i % 3);
        assert_close(s.report.suspects[i].ratio, 0.5, 0.0, 0.0);
    }
    node_solver_free(&s);
    node_system_free(&system);
}

static void factor_compute_weakened_end_stops_there_with_its_ratio(void **state)
{
    (void)state;
    node_system system = make_spring_chain();
    /* Take 0.25 more than the end has left, in direction 1: its diagonal is 0.75. */
    node_system_add(&system, CHAIN_NODES - 1, 1, CHAIN_NODES - 1, 1, -0.25);
    node_solver s;
    assert_int_equal(node_solver_make(&system, chain_order, &s), KL_OK);
    assert_int_equal(node_solver_run(&system, 1e-9, &s), KL_OK);
    assert_false(s.report.complete);
    assert_int_equal(s.report.stopped.node, CHAIN_NODES - 1);
    assert_int_equal(s.report.stopped.direction, 1);
    assert_close(s.report.stopped.ratio, (1.0 / CHAIN_NODES - 0.25) / 0.75, 1e-12, 0.0);
    assert_int_equal(s.report.positive_pivots, 3 * CHAIN_NODES - 2);
    double x[3 * CHAIN_NODES] = {0.0};
    assert_int_equal(solve_columns(s.factor, x, 1), KL_MISUSE);
    /* The mode moves node k by (k+1)/n: each spring takes the same share. x'Ax is the pivot. */
    assert_int_equal(solve_pivot_mode(s.factor, &s.report.stopped, x), KL_OK);
    for (kl_index k = 0; k < CHAIN_NODES; k++) {
        assert_close(x[3 * k], 0.0, 0.0, 0.0);
        assert_close(x[3 * k + 1], (k + 1.0) / CHAIN_NODES, 1e-12, 0.0);
        assert_close(x[3 * k + 2], 0.0, 0.0, 0.0);
    }
    const factor_pivot beyond = {.node = CHAIN_NODES - 1, .direction = 2};
    assert_int_equal(solve_pivot_mode(s.factor, &beyond, x), KL_MISUSE);
    const factor_pivot nowhere = {.node = KL_NONE};
    assert_int_equal(solve_pivot_mode(s.factor, &nowhere, x), KL_MISUSE);
    node_solver_free(&s);
    node_system_free(&system);
}

static void factor_compute_unknown_without_stiffness_stops_with_ratio_zero(void **state)
{
    (void)state;
    random_source source = {17};
    node_system system = node_system_of_shape(SHAPE_GRID, &source);
    node_system_fill(&system, 0.5, &source);
    node_system_hold(&system, 70, 2);
    node_system_add(&system, 70, 2, 70, 2, -1.0);
    node_solver s;
    assert_int_equal(node_solver_make(&system, NULL, &s), KL_OK);
    assert_int_equal(node_solver_run(&system, 1e-9, &s), KL_OK);
    assert_false(s.report.complete);
    assert_int_equal(s.report.stopped.node, 70);
    assert_int_equal(s.report.stopped.direction, 2);
    assert_close(s.report.stopped.ratio, 0.0, 0.0, 0.0);
    node_solver_free(&s);
    node_system_free(&system);
}

/* Eliminate in the given order, densely, down to the first pivot that is not positive: the textbook's way. */
static factor_pivot eliminate_densely(const node_system *system, const kl_index *order)
{
    const size_t n = 3 * (size_t)system->graph->node_count;
    double *a = malloc(n * n * sizeof *a);
    assert_non_null(a);
    for (size_t i = 0; i < n; i++) {
        for (size_t j = 0; j < n; j++) {
            const size_t row = 3 * (size_t)order[i / 3] + i % 3;
            const size_t column = 3 * (size_t)order[j / 3] + j % 3;
            a[i + n * j] = system->dense[row + n * column];
        }
    }
    factor_pivot pivot = {.node = KL_NONE};
    for (size_t k = 0; k < n && pivot.node == KL_NONE; k++) {
        if (a[k + n * k] <= 0.0) {
            pivot.node = order[k / 3];
            pivot.direction = (int)(k % 3);
            pivot.ratio = a[k + n * k] / system->diag[9 * pivot.node + 4 * pivot.direction];
        }
        for (size_t j = k + 1; j < n; j++) {
            const double share = a[k + n * j] / a[k + n * k];
            for (size_t i = k + 1; i < n; i++) {
                a[i + n * j] -= a[i + n * k] * share;
            }
        }
    }
    free(a);
    return pivot;
}

static void check_stop(const factor_report *report, const factor_pivot *want)
{
    assert_int_equal(report->complete, want->node == KL_NONE);
    if (want->node != KL_NONE) {
        assert_int_equal(report->stopped.node, want->node);
        assert_int_equal(report->stopped.direction, want->direction);
        assert_close(report->stopped.ratio, want->ratio, 1e-8, 1e-10);
    }
}

static void factor_compute_indefinite_matrix_stops_where_elimination_does(void **state)
{
    (void)state;
    static const node_shape shapes[] = {SHAPE_CHAIN, SHAPE_RING, SHAPE_TREE,
                                        SHAPE_GRID,  SHAPE_FULL, SHAPE_CLIQUES};
    random_source source = {41};
    int stops = 0;
    for (size_t i = 0; i < 6 * 6; i++) {
        node_system system = node_system_of_shape(shapes[i % 6], &source);
        node_system_fill(&system, 0.5, &source);
        const kl_index weak = random_index(&source, system.graph->node_count);
        /* Most of one unknown's own stiffness is taken away: the matrix is no longer definite, and yet its
         * diagonal stays positive. */
        const int d = random_index(&source, 3);
        node_system_add(&system, weak, d, weak, d, -0.999 * system.diag[9 * weak + 4 * d]);
        node_solver s;
        assert_int_equal(node_solver_make(&system, NULL, &s), KL_OK);
        const factor_pivot want = eliminate_densely(&system, symbolic_order(s.symbolic));
        for (int p = 0; node_solver_passes(p); p++) {
            s.factor->passes = node_solver_passes(p);
            assert_int_equal(node_solver_run(&system, 1e-9, &s), KL_OK);
            check_stop(&s.report, &want);
        }
        stops += want.node != KL_NONE ? 1 : 0;
        node_solver_free(&s);
        node_system_free(&system);
    }
    assert_true(stops > 15); /* else the matrices do not test what they are for */
}

/* x'Ax over |x|'|D||x|, D the diagonal: the energy of a movement against that of its parts held apart. */
static double strain_of(const node_system *system, const double *x, double *work)
{
    const kl_index nodes = system->graph->node_count;
    double energy = 0.0;
    double apart = 0.0;
    graph_multiply(system->graph, system->diag, system->off, x, work, 1);
    for (kl_index i = 0; i < 3 * nodes; i++) {
        energy += x[i] * work[i];
        apart += x[i] * x[i] * system->diag[9 * (i / 3) + 4 * (i % 3)];
    }
    return energy / apart;
}

static void solve_pivot_mode_floating_structure_moves_without_strain(void **state)
{
    (void)state;
    static const node_shape shapes[] = {SHAPE_CHAIN, SHAPE_RING, SHAPE_TREE,
                                        SHAPE_GRID,  SHAPE_FULL, SHAPE_APART};
    random_source source = {8};
    for (size_t i = 0; i < sizeof shapes / sizeof shapes[0]; i++) {
        node_system system = node_system_of_shape(shapes[i], &source);
        /* Random springs between neighbours and none to the ground: each direction can float. */
        for (kl_index a = 0; a < system.graph->node_count; a++) {
            for (kl_index k = system.graph->first[a]; k < system.graph->first[a + 1]; k++) {
                const kl_index b = system.graph->neighbour[k];
                for (int d = 0; a < b && d < 3; d++) {
                    const double stiffness = random_between(&source, 1.0, 9.0);
                    node_system_add(&system, a, d, a, d, stiffness);
                    node_system_add(&system, b, d, b, d, stiffness);
                    node_system_add(&system, a, d, b, d, -stiffness);
                }
            }
        }
        node_solver s;
        assert_int_equal(node_solver_make(&system, NULL, &s), KL_OK);
        assert_int_equal(node_solver_run(&system, 1e-10, &s), KL_OK);
        /* Rounding decides whether the last pivot is a little above or below zero; either way it is told. */
        const factor_pivot *pivot = s.report.complete ? &s.report.suspects[0] : &s.report.stopped;
        assert_true(!s.report.complete || s.report.suspect_count > 0);
        assert_true(fabs(pivot->ratio) < 1e-10);
        double *mode = node_system_columns(&system, 1, &source);
        double *work = node_system_columns(&system, 1, &source);
        assert_int_equal(solve_pivot_mode(s.factor, pivot, mode), KL_OK);
        assert_true(fabs(strain_of(&system, mode, work)) < 1e-12);
        assert_close(mode[3 * pivot->node + pivot->direction], 1.0, 0.0, 0.0);
        if (shapes[i] != SHAPE_APART) {
            for (kl_index n = 0; n < system.graph->node_count; n++) {
                assert_close(mode[3 * n + pivot->direction], 1.0, 1e-8, 0.0);
            }
        }
        free(mode);
        free(work);
        node_solver_free(&s);
        node_system_free(&system);
    }
}

static void check_not_finite(const node_system *system, node_solver *s)
{
    const double bad[] = {NAN, INFINITY, -INFINITY, 1e200 /* its square is not finite */};
    for (int i = 0; i < 7; i++) {
        double *value = i < 3 ? &system->diag[100] : &system->off[100];
        const double kept = *value;
        *value = bad[i < 3 ? i : i - 3];
        assert_int_equal(node_solver_run(system, 0.0, s), KL_NUMERIC);
        assert_false(s->report.complete);
        *value = kept;
    }
    assert_int_equal(node_solver_run(system, 0.0, s), KL_OK);
    assert_true(s->report.complete);
}

static void factor_compute_values_that_are_not_finite_are_refused(void **state)
{
    (void)state;
    static const node_shape shapes[] = {SHAPE_CHAIN, SHAPE_GRID, SHAPE_FULL, SHAPE_CLIQUES};
    random_source source = {6};
    for (size_t i = 0; i < sizeof shapes / sizeof shapes[0]; i++) {
        node_system system = node_system_of_shape(shapes[i], &source);
        node_system_fill(&system, 0.5, &source);
        node_solver s;
        assert_int_equal(node_solver_make(&system, NULL, &s), KL_OK);
        for (int p = 0; node_solver_passes(p); p++) {
            s.factor->passes = node_solver_passes(p);
            check_not_finite(&system, &s);
        }
        node_solver_free(&s);
        node_system_free(&system);
    }
}

int main(void)
{
    const struct CMUnitTest tests[] = {
        cmocka_unit_test(factor_compute_spring_chain_lists_pivots_of_the_closed_form),
        cmocka_unit_test(factor_compute_equal_suspects_are_the_first_ones),
        cmocka_unit_test(factor_compute_weakened_end_stops_there_with_its_ratio),
        cmocka_unit_test(factor_compute_unknown_without_stiffness_stops_with_ratio_zero),
        cmocka_unit_test(factor_compute_indefinite_matrix_stops_where_elimination_does),
        cmocka_unit_test(solve_pivot_mode_floating_structure_moves_without_strain),
        cmocka_unit_test(factor_compute_values_that_are_not_finite_are_refused),
    };
    return cmocka_run_group_tests(tests, NULL, NULL);
}
