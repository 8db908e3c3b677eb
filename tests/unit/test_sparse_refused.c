/* test_sparse_refused.c - what is too large, wrong or too early is refused; failing memory frees everything, and none is taken
 * once the objects are made.
 * SPDX-License-Identifier: MIT */
#include "solve.h"

#include <stdlib.h>

#include "assert_close.h"
#include "fault.h"
#include "lapack.h"
#include "node_system.h"
#include "pages.h"

/* All leaves hang on node 0. Eliminated first, it joins them all: a full matrix of 300,000 unknowns. */
static void symbolic_create_hopeless_fill_is_too_large(void **state)
{
    (void)state;
    enum { LEAVES = 100000 };
    static kl_index pairs[LEAVES][2];
    static kl_index centre_first[LEAVES + 1];
    for (kl_index i = 0; i < LEAVES; i++) {
        pairs[i][1] = i + 1;
        centre_first[i + 1] = i + 1;
    }
    node_system system = node_system_make(LEAVES + 1, pairs, LEAVES);
    node_solver s;
    assert_int_equal(node_solver_make(&system, centre_first, &s), KL_TOO_LARGE);
    assert_null(s.symbolic);
    /* With the leaves first nothing fills in: 9 numbers a leaf on the diagonal and 9 below (some lines more). */
    assert_int_equal(node_solver_make(&system, NULL, &s), KL_OK);
    assert_in_range(symbolic_entries(s.symbolic), 18 * LEAVES + 9, 18 * LEAVES + 100);
    node_solver_free(&s);
    node_system_free(&system);
}

static void symbolic_create_order_that_is_no_permutation_is_refused(void **state)
{
    (void)state;
    random_source source = {1};
    node_system system = node_system_of_shape(SHAPE_ONE, &source);
    const kl_index wrong[2] = {1, 0};
    node_solver s;
    assert_int_equal(node_solver_make(&system, wrong, &s), KL_MISUSE);
    node_system_free(&system);
    system = node_system_of_shape(SHAPE_LOOSE, &source);
    const kl_index twice[30] = {0};
    assert_int_equal(node_solver_make(&system, twice, &s), KL_MISUSE);
    node_system_free(&system);
    factor_destroy(NULL);
    symbolic_destroy(NULL);
}

static void every_creation_failing_memory_frees_everything(void **state)
{
    (void)state;
    random_source source = {12};
    for (int shape = 0; shape < SHAPE_COUNT; shape++) {
        node_system system = node_system_of_shape((node_shape)shape, &source);
        kl_status status = KL_NO_MEMORY;
        for (long k = 0; status != KL_OK; k++) {
            assert_true(k < 100);
            node_solver s;
            fault_after(k);
            status = node_solver_make(&system, NULL, &s);
            fault_after(-1);
            assert_true(status == KL_OK || status == KL_NO_MEMORY);
            assert_true(status == KL_OK || s.factor == NULL);
            node_solver_free(&s);
        }
        node_system_free(&system);
    }
}

/* Not one block more than at creation: refactoring and solving cannot run out of memory. */
static void factor_and_solve_take_no_memory(void **state)
{
    (void)state;
    enum { COLUMNS = 19 };
    random_source source = {13};
    for (int shape = 0; shape < SHAPE_COUNT; shape++) {
        node_system system = node_system_of_shape((node_shape)shape, &source);
        node_system_fill(&system, 0.5, &source);
        double *x = node_system_columns(&system, COLUMNS, &source);
        node_solver s;
        assert_int_equal(node_solver_make(&system, NULL, &s), KL_OK);
        const factor_pivot first = {.node = symbolic_order(s.symbolic)[0]};
        fault_after(0);
        const kl_status factored = node_solver_run(&system, 0.0, &s);
        const kl_status solved = solve_columns(s.factor, x, COLUMNS);
        const kl_status moved = solve_pivot_mode(s.factor, &first, x);
        const int struck = fault_struck();
        fault_after(-1);
        assert_int_equal(struck, 0);
        assert_true(factored == KL_OK && solved == KL_OK && moved == KL_OK);
        free(x);
        node_solver_free(&s);
        node_system_free(&system);
    }
}

static void solve_before_a_factorization_is_refused(void **state)
{
    (void)state;
    random_source source = {14};
    node_system system = node_system_of_shape(SHAPE_ONE, &source);
    node_solver s;
    assert_int_equal(node_solver_make(&system, NULL, &s), KL_OK);
    double x[3] = {1.0, 2.0, 3.0};
    const factor_pivot second = {.node = 0, .direction = 1};
    assert_int_equal(solve_columns(s.factor, x, 1), KL_MISUSE);
    assert_int_equal(solve_pivot_mode(s.factor, &second, x), KL_MISUSE);
    node_solver_free(&s);
    node_system_free(&system);
}

/* Sizes that the library's 32-bit integers do not hold are refused before anything is touched. */
static void lapack_calls_of_sizes_beyond_its_integers_are_refused(void **state)
{
    (void)state;
    const int64_t huge = (int64_t)INT32_MAX + 1;
    double a[1] = {7.0};
    int64_t stopped = -2;
    assert_int_equal(lapack_band_factor(huge, 0, a, &stopped), KL_TOO_LARGE);
    assert_int_equal(lapack_band_factor(1, huge, a, &stopped), KL_TOO_LARGE);
    assert_int_equal(lapack_dense_solve(huge, a, 1, a, &stopped), KL_TOO_LARGE);
    assert_int_equal(lapack_dense_solve(1, a, -1, a, &stopped), KL_TOO_LARGE);
    assert_int_equal(stopped, -2);
    assert_close(a[0], 7.0, 0.0, 0.0);
}

static void pages_array_of_a_size_beyond_addresses_is_refused(void **state)
{
    (void)state;
    void *memory = &memory;
    assert_null(pages_array(SIZE_MAX / sizeof(double), &memory));
    assert_null(memory);
    assert_null(pages_array(SIZE_MAX, &memory));
}

int main(void)
{
    const struct CMUnitTest tests[] = {
        cmocka_unit_test(symbolic_create_hopeless_fill_is_too_large),
        cmocka_unit_test(symbolic_create_order_that_is_no_permutation_is_refused),
        cmocka_unit_test(every_creation_failing_memory_frees_everything),
        cmocka_unit_test(factor_and_solve_take_no_memory),
        cmocka_unit_test(solve_before_a_factorization_is_refused),
        cmocka_unit_test(lapack_calls_of_sizes_beyond_its_integers_are_refused),
        cmocka_unit_test(pages_array_of_a_size_beyond_addresses_is_refused),
    };
    return cmocka_run_group_tests(tests, NULL, NULL);
}
