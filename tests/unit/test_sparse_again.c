/* test_sparse_again.c - a factor remembers nothing: whatever was computed in between, the same values give the same bits,
 * those of a factor that never saw others.
 * SPDX-License-Identifier: MIT */
#include "solve.h"

#include <math.h>
#include <stdlib.h>
#include <string.h>

#include "assert_close.h"
#include "node_system.h"

enum { COLUMNS = 21 }; /* some side by side, some alone */

/* A system whose values can be exchanged for others of the same pattern. */
typedef struct trial {
    node_system system;
    size_t numbers; /* of a block of columns */
    double *b;
    double *other_diag, *other_off;
} trial;

static double *copy_of(const double *values, size_t count)
{
    double *copy = malloc((count + 1) * sizeof *copy);
    assert_non_null(copy);
    memcpy(copy, values, count * sizeof *copy);
    return copy;
}

static void trial_open(trial *t, node_shape shape, random_source *source)
{
    t->system = node_system_of_shape(shape, source);
    const size_t diag = 9 * (size_t)t->system.graph->node_count;
    const size_t off = 9 * (size_t)t->system.graph->edge_count;
    node_system_fill(&t->system, 0.5, source);
    t->other_diag = copy_of(t->system.diag, diag);
    t->other_off = copy_of(t->system.off, off);
    node_system_fill(&t->system, 0.7, source); /* on top */
    t->numbers = 3 * (size_t)t->system.graph->node_count * COLUMNS;
    t->b = node_system_columns(&t->system, COLUMNS, source);
}

static void trial_exchange(trial *t)
{
    double *diag = t->system.diag;
    double *off = t->system.off;
    t->system.diag = t->other_diag;
    t->system.off = t->other_off;
    t->other_diag = diag;
    t->other_off = off;
}

static void trial_close(trial *t)
{
    free(t->b);
    free(t->other_diag);
    free(t->other_off);
    node_system_free(&t->system);
}

/* Factor and solve anew. */
static double *answers_of(const trial *t, node_solver *s)
{
    double *x = copy_of(t->b, t->numbers);
    assert_int_equal(node_solver_run(&t->system, 1e-12, s), KL_OK);
    assert_true(s->report.complete);
    assert_int_equal(solve_columns(s->factor, x, COLUMNS), KL_OK);
    return x;
}

static void check_same(const trial *t, node_solver *s, const double *want)
{
    double *x = answers_of(t, s);
    assert_memory_equal(x, want, t->numbers * sizeof *x);
    free(x);
}

/* Leave the factor as badly as can be: stopped half way, asked for a mode, fed what is no number. */
static void spoil(trial *t, node_solver *s, random_source *source)
{
    const kl_index nodes = t->system.graph->node_count;
    double *value = &t->system.diag[9 * (size_t)random_index(source, nodes) + 4];
    const double kept = *value;
    double *mode = node_system_columns(&t->system, 1, source);
    *value = -fabs(kept);
    assert_int_equal(node_solver_run(&t->system, 1e-12, s), KL_OK);
    assert_false(s->report.complete);
    assert_int_equal(solve_pivot_mode(s->factor, &s->report.stopped, mode), KL_OK);
    *value = NAN;
    assert_int_equal(node_solver_run(&t->system, 1e-12, s), KL_NUMERIC);
    *value = kept;
    free(mode);
}

static void factor_compute_after_other_work_gives_the_same_bits(void **state)
{
    (void)state;
    random_source source = {271};
    for (int shape = 0; shape < SHAPE_COUNT; shape++) {
        trial t;
        trial_open(&t, (node_shape)shape, &source);
        node_solver s;
        assert_int_equal(node_solver_make(&t.system, NULL, &s), KL_OK);
        double *first = answers_of(&t, &s);
        check_same(&t, &s, first);
        trial_exchange(&t);
        double *other = answers_of(&t, &s);
        assert_true(memcmp(first, other, t.numbers * sizeof *other) != 0);
        spoil(&t, &s, &source);
        check_same(&t, &s, other);
        trial_exchange(&t);
        spoil(&t, &s, &source);
        check_same(&t, &s, first);
        free(first);
        free(other);
        node_solver_free(&s);
        trial_close(&t);
    }
}

/* The pattern was analysed for other values: the factor of the new ones is that of a pattern analysed for them. */
static void factor_compute_of_new_values_is_that_of_a_fresh_factor(void **state)
{
    (void)state;
    random_source source = {828};
    for (int shape = 0; shape < SHAPE_COUNT; shape++) {
        trial t;
        trial_open(&t, (node_shape)shape, &source);
        node_solver used, fresh;
        assert_int_equal(node_solver_make(&t.system, NULL, &used), KL_OK);
        free(answers_of(&t, &used));
        trial_exchange(&t);
        assert_int_equal(node_solver_make(&t.system, NULL, &fresh), KL_OK);
        double *want = answers_of(&t, &fresh);
        check_same(&t, &used, want);
        assert_int_equal(used.report.positive_pivots, fresh.report.positive_pivots);
        assert_int_equal(used.report.suspect_count, fresh.report.suspect_count);
        free(want);
        node_solver_free(&used);
        node_solver_free(&fresh);
        trial_close(&t);
    }
}

/* Factors share what depends on the pattern alone, and work in turns. */
static void factors_of_one_pattern_do_not_disturb_each_other(void **state)
{
    (void)state;
    random_source source = {182};
    for (int shape = 0; shape < SHAPE_COUNT; shape++) {
        trial t;
        trial_open(&t, (node_shape)shape, &source);
        node_solver one;
        assert_int_equal(node_solver_make(&t.system, NULL, &one), KL_OK);
        node_solver two = {.symbolic = one.symbolic};
        assert_int_equal(factor_create(one.symbolic, 1, &two.factor), KL_OK);
        double *first = answers_of(&t, &one);
        trial_exchange(&t);
        double *other = answers_of(&t, &two);
        double *x = copy_of(t.b, t.numbers);
        assert_int_equal(solve_columns(one.factor, x, COLUMNS), KL_OK);
        assert_memory_equal(x, first, t.numbers * sizeof *x);
        memcpy(x, t.b, t.numbers * sizeof *x);
        assert_int_equal(solve_columns(two.factor, x, COLUMNS), KL_OK);
        assert_memory_equal(x, other, t.numbers * sizeof *x);
        free(x);
        free(first);
        free(other);
        factor_destroy(two.factor);
        node_solver_free(&one);
        trial_close(&t);
    }
}

int main(void)
{
    const struct CMUnitTest tests[] = {
        cmocka_unit_test(factor_compute_after_other_work_gives_the_same_bits),
        cmocka_unit_test(factor_compute_of_new_values_is_that_of_a_fresh_factor),
        cmocka_unit_test(factors_of_one_pattern_do_not_disturb_each_other),
    };
    return cmocka_run_group_tests(tests, NULL, NULL);
}
