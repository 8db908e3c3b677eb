/* test_json.c - tables as JSON, read back by jansson.
 * SPDX-License-Identifier: MIT */
#include "assert_close.h"

#include <jansson.h>
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

static void json_write_document_bad_bytes_become_question_marks(void **state)
{
    (void)state;
    static const json_text texts[] = {{"title", "a\xff"
                                                "b"},
                                      {"file", "-"}};
    char *text = NULL;
    size_t size = 0;
    FILE *out = open_memstream(&text, &size);
    assert_non_null(out);
    table t;
    sample_table_fill(&t);
    assert_int_equal(json_write_document(texts, 2, &t, 1, out), KL_OK);
    table_free(&t);
    assert_int_equal(fclose(out), 0);
    json_t *document = json_loads(text, JSON_REJECT_DUPLICATES, NULL);
    free(text);
    assert_non_null(document);
    assert_string_equal(json_string_value(json_object_get(document, "title")), "a?b");
    const json_t *sample = json_object_get(json_object_get(document, "tables"), "sample");
    assert_int_equal(json_array_size(json_object_get(sample, "rows")), 4);
    json_decref(document);
}

/* jansson allocates through the functions it is given: let the k-th fail. */
static long allocations_left;

static void *failing_malloc(size_t size)
{
    return allocations_left-- > 0 ? malloc(size) : NULL;
}

static void json_write_table_short_memory_is_told(void **state)
{
    (void)state;
    table t;
    sample_table_fill(&t);
    json_set_alloc_funcs(failing_malloc, free);
    char *text = NULL;
    for (long k = 0; text == NULL; ++k) {
        assert_true(k < 2000);
        allocations_left = k;
        text = sample_table_written(&t, json_write_table);
    }
    json_set_alloc_funcs(malloc, free);
    json_t *document = json_loads(text, 0, NULL);
    assert_int_equal(json_array_size(json_object_get(document, "rows")), 4);
    json_decref(document);
    free(text);
    table_free(&t);
}

int main(void)
{
    const struct CMUnitTest tests[] = {
        cmocka_unit_test(json_write_table_columns_state_their_units),
        cmocka_unit_test(json_write_table_rows_carry_numbers_nulls_and_flags),
        cmocka_unit_test(json_write_document_bad_bytes_become_question_marks),
        cmocka_unit_test(json_write_table_short_memory_is_told),
    };
    return cmocka_run_group_tests(tests, NULL, NULL);
}
