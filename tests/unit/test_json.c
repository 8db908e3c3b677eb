/* test_json.c - tables as JSON, read back by jansson.
 * SPDX-License-Identifier: MIT */
#include "assert_close.h"

#include <stdlib.h>
#include <string.h>

#include "json.h"
#include "sample_table.h"

static json_t *sample_document(void)
{
    table t;
    sample_table_fill(&t);
    char *text = sample_table_written(&t, json_write_table);
    table_free(&t);
    assert_non_null(text);
    json_error_t error;
    json_t *document = json_loads(text, JSON_REJECT_DUPLICATES, &error);
    assert_non_null(document);
    free(text);
    return document;
}

static void json_write_table_columns_state_their_units(void **state)
{
    (void)state;
    json_t *document = sample_document();
    assert_string_equal(json_string_value(json_object_get(document, "table")), "sample");
    assert_string_equal(json_string_value(json_object_get(document, "units")), "us");
    const json_t *columns = json_object_get(document, "columns");
    assert_int_equal(json_array_size(columns), 7);
    const json_t *moment = json_array_get(columns, 3);
    assert_string_equal(json_string_value(json_object_get(moment, "key")), "moment_total");
    assert_string_equal(json_string_value(json_object_get(moment, "heading")), "moment (total)");
    assert_string_equal(json_string_value(json_object_get(moment, "unit")), "kip-ft");
    assert_true(json_is_null(json_object_get(json_array_get(columns, 4), "unit")));
    json_decref(document);
}

static void json_write_table_rows_carry_numbers_nulls_and_flags(void **state)
{
    (void)state;
    json_t *document = sample_document();
    const json_t *rows = json_object_get(document, "rows");
    assert_int_equal(json_array_size(rows), 4);
    const json_t *second = json_array_get(rows, 1);
    assert_close(json_real_value(json_object_get(second, "moment_total")), 1234.567, 1e-14, 0.0);
    assert_int_equal(json_integer_value(json_object_get(second, "count")), 12);
    assert_true(json_is_false(json_object_get(second, "fine")));
    const json_t *last = json_array_get(rows, 3);
    assert_true(json_is_null(json_object_get(last, "moment_total")));
    assert_true(json_is_null(json_object_get(last, "count")));
    const json_t *third = json_array_get(rows, 2);
    assert_string_equal(json_string_value(json_object_get(third, "place")), "Stütze");
    json_decref(document);
}

static void json_from_text_bad_bytes_become_question_marks(void **state)
{
    (void)state;
    json_t *value = json_from_text("a\xff"
                                   "b");
    assert_non_null(value);
    assert_string_equal(json_string_value(value), "a?b");
    json_decref(value);
}

static void json_write_nothing_is_no_memory(void **state)
{
    (void)state;
    assert_int_equal(json_write(NULL, stderr), KL_NO_MEMORY);
}

/* jansson's own allocations go through the functions it is given: let the k-th fail. */
static long allocations_left;

static void *failing_malloc(size_t size)
{
    return allocations_left-- > 0 ? malloc(size) : NULL;
}

static void json_from_table_short_memory_gives_null(void **state)
{
    (void)state;
    table t;
    sample_table_fill(&t);
    json_set_alloc_funcs(failing_malloc, free);
    json_t *document = NULL;
    for (long k = 0; document == NULL; ++k) {
        assert_true(k < 2000);
        allocations_left = k;
        document = json_from_table(&t);
    }
    allocations_left = 1000000;
    assert_int_equal(json_array_size(json_object_get(document, "rows")), 4);
    json_decref(document);
    json_set_alloc_funcs(malloc, free);
    table_free(&t);
}

int main(void)
{
    const struct CMUnitTest tests[] = {
        cmocka_unit_test(json_write_table_columns_state_their_units),
        cmocka_unit_test(json_write_table_rows_carry_numbers_nulls_and_flags),
        cmocka_unit_test(json_from_text_bad_bytes_become_question_marks),
        cmocka_unit_test(json_write_nothing_is_no_memory),
        cmocka_unit_test(json_from_table_short_memory_gives_null),
    };
    return cmocka_run_group_tests(tests, NULL, NULL);
}
