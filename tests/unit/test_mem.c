/* test_mem.c - counts that cannot overflow, growth up to a limit, failing allocations.
 * SPDX-License-Identifier: MIT */
#include "mem.h"

#include "assert_close.h"
#include "fault.h"

static void mem_array_new_is_zeroed(void **state)
{
    (void)state;
    unsigned char *bytes = mem_array(1000, 3);
    assert_non_null(bytes);
    for (int i = 0; i < 3000; i++) {
        assert_int_equal(bytes[i], 0);
    }
    mem_free(bytes);
}

static void mem_array_count_zero_gives_room_for_one(void **state)
{
    (void)state;
    double *one = mem_array(0, sizeof *one);
    assert_non_null(one);
    one[0] = 1.0; /* the sanitizer and valgrind see a step over the end */
    mem_free(one);
}

static void mem_array_overflowing_count_is_refused(void **state)
{
    (void)state;
    assert_null(mem_array(SIZE_MAX / 8 + 1, 8));
    assert_null(mem_array(SIZE_MAX, 2));
    assert_null(mem_array(4, 0));
}

static void mem_grow_keeps_content_and_zeroes_the_rest(void **state)
{
    (void)state;
    void *array = NULL;
    size_t capacity = 0;
    for (size_t count = 1; count <= 5000; count++) {
        assert_int_equal(mem_grow(&array, &capacity, count, sizeof(int), 1000000), KL_OK);
        assert_true(capacity >= count);
        int *numbers = array;
        assert_int_equal(numbers[count - 1], 0);
        numbers[count - 1] = (int)count;
    }
    const int *numbers = array;
    for (int i = 0; i < 5000; i++) {
        assert_int_equal(numbers[i], i + 1);
    }
    mem_free(array);
}

static void mem_grow_beyond_limit_leaves_the_array_as_it_was(void **state)
{
    (void)state;
    void *array = NULL;
    size_t capacity = 0;
    assert_int_equal(mem_grow(&array, &capacity, 100, sizeof(int), 100), KL_OK);
    assert_int_equal(capacity, 100); /* doubling would have gone past the limit */
    void *before = array;
    assert_int_equal(mem_grow(&array, &capacity, 101, sizeof(int), 100), KL_TOO_LARGE);
    assert_ptr_equal(array, before);
    assert_int_equal(capacity, 100);
    mem_free(array);
}

static void mem_grow_bytes_that_overflow_are_refused(void **state)
{
    (void)state;
    void *array = NULL;
    size_t capacity = 0;
    assert_int_equal(mem_grow(&array, &capacity, SIZE_MAX / 2, 16, SIZE_MAX), KL_NO_MEMORY);
    assert_null(array);
}

static void mem_grow_failing_allocation_leaves_the_array_as_it_was(void **state)
{
    (void)state;
    void *array = NULL;
    size_t capacity = 0;
    assert_int_equal(mem_grow(&array, &capacity, 4, sizeof(int), 1000), KL_OK);
    ((int *)array)[3] = 42;
    const size_t before = capacity;
    fault_after(0);
    const kl_status status = mem_grow(&array, &capacity, 500, sizeof(int), 1000);
    void *none = mem_array(1, 1);
    fault_after(-1);
    assert_int_equal(status, KL_NO_MEMORY);
    assert_null(none);
    assert_int_equal(capacity, before);
    assert_int_equal(((int *)array)[3], 42);
    mem_free(array);
}

int main(void)
{
    const struct CMUnitTest tests[] = {
        cmocka_unit_test(mem_array_new_is_zeroed),
        cmocka_unit_test(mem_array_count_zero_gives_room_for_one),
        cmocka_unit_test(mem_array_overflowing_count_is_refused),
        cmocka_unit_test(mem_grow_keeps_content_and_zeroes_the_rest),
        cmocka_unit_test(mem_grow_beyond_limit_leaves_the_array_as_it_was),
        cmocka_unit_test(mem_grow_bytes_that_overflow_are_refused),
        cmocka_unit_test(mem_grow_failing_allocation_leaves_the_array_as_it_was),
    };
    return cmocka_run_group_tests(tests, NULL, NULL);
}
