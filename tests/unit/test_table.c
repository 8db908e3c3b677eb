/* test_table.c - the table in print, and tables that run out of memory.
 * SPDX-License-Identifier: MIT */
#include "assert_close.h"

#include <math.h>
#include <stdlib.h>
#include <string.h>

#include "fault.h"
#include "sample_table.h"
#include "table_text.h"

static void table_write_text_sample_is_aligned_and_rounded(void **state)
{
    (void)state;
    static const char wanted[] = "A sample of 4 rows\n"
                                 "station  place       moment  count  fine\n"
                                 "                    (total)\n"
                                 "     ft              kip-ft\n"
                                 "after pour\n"
                                 "    0.0  L, \"left\"        0      3   yes\n"
                                 "    4.5              1234.6     12    no\n"
                                 "\n"
                                 "after release\n"
                                 "   12.0  Stütze       -99.8      1   yes\n"
                                 "   96.0  R                -      -    no\n"
                                 "Signs: sagging +.\n";
    table t;
    sample_table_fill(&t);
    char *text = sample_table_written(&t, table_write_text);
    table_free(&t);
    assert_non_null(text);
    assert_string_equal(text, wanted);
    free(text);
}

static void table_shown_moment_is_in_display_units(void **state)
{
    (void)state;
    table t;
    sample_table_fill(&t);
    assert_int_equal(table_row_count(&t), 4);
    assert_close(table_shown(&t, 1, 1), 4.5, 1e-14, 0.0);
    assert_close(table_shown(&t, 1, 3), 1234.567, 1e-14, 0.0);
    assert_string_equal(table_unit(&t, 3), "kip-ft");
    assert_string_equal(table_unit(&t, 4), "");
    table_free(&t);
}

static void table_write_text_without_rows_says_so(void **state)
{
    (void)state;
    const kl_display display = {.system = KL_UNITS_SI};
    table t;
    table_start(&t, "empty", &display);
    table_title(&t, "Nothing");
    table_add(&t, COLUMN_FIGURE, "x", "x", KL_MEASURE_FORCE, 5);
    char *text = sample_table_written(&t, table_write_text);
    table_free(&t);
    assert_non_null(text);
    assert_string_equal(text, "Nothing\n(nothing to list)\n");
    free(text);
}

static void table_write_text_no_line_ends_in_a_space(void **state)
{
    (void)state;
    table t;
    sample_table_fill(&t);
    char *text = sample_table_written(&t, table_write_text);
    table_free(&t);
    assert_non_null(text);
    assert_null(strstr(text, " \n"));
    free(text);
}

static void table_fill_short_memory_is_kept_in_the_status(void **state)
{
    (void)state;
    bool done = false;
    for (long k = 0; !done; ++k) {
        assert_true(k < 1000);
        table t;
        fault_after(k);
        sample_table_fill(&t);
        done = fault_struck() == 0;
        fault_after(-1);
        assert_int_equal(t.status, done ? KL_OK : KL_NO_MEMORY);
        table_free(&t);
    }
}

static void text_write_wrapped_breaks_at_spaces(void **state)
{
    (void)state;
    char *text = NULL;
    size_t size = 0;
    FILE *out = open_memstream(&text, &size);
    assert_non_null(out);
    text_write_wrapped(out, "> ", 2, 12, "one two three fourteen-letters x");
    assert_int_equal(fclose(out), 0);
    assert_string_equal(text, "> one two\n  three\n  fourteen-letters\n  x\n");
    free(text);
}

static void text_write_spells_what_nobody_sees(void **state)
{
    (void)state;
    static const struct {
        const char *text, *want;
    } cases[] = {
        {"Bent 7 \xE2\x89\xA5 6", "Bent 7 \xE2\x89\xA5 6"},
        {"\xE2\x80\xAE"
         "12\x1B[2J\n",
         "\xE2\x9F\xA8U+202E\xE2\x9F\xA9"
         "12\xE2\x90\x9B[2J\xE2\x90\x8A"},
        {"\xFFz", "\xEF\xBF\xBDz"},
    };
    for (size_t i = 0; i < sizeof cases / sizeof cases[0]; i++) {
        char *bytes = NULL;
        size_t length = 0;
        FILE *out = open_memstream(&bytes, &length);
        assert_non_null(out);
        text_write(out, cases[i].text);
        text_write_lines(out, "|\n\xE2\x80\x8B");
        fclose(out);
        char want[200];
        snprintf(want, sizeof want, "%s|\n\xE2\x9F\xA8U+200B\xE2\x9F\xA9", cases[i].want);
        assert_string_equal(bytes, want);
        free(bytes);
    }
}

static void text_width_counts_code_points(void **state)
{
    (void)state;
    assert_int_equal(text_width("Stütze"), 6);
    assert_int_equal(text_width(""), 0);
    assert_int_equal(text_width("a\xE2\x80\xAE"), 9); /* a and its number in brackets */
}

int main(void)
{
    const struct CMUnitTest tests[] = {
        cmocka_unit_test(table_write_text_sample_is_aligned_and_rounded),
        cmocka_unit_test(table_shown_moment_is_in_display_units),
        cmocka_unit_test(table_write_text_without_rows_says_so),
        cmocka_unit_test(table_write_text_no_line_ends_in_a_space),
        cmocka_unit_test(table_fill_short_memory_is_kept_in_the_status),
        cmocka_unit_test(text_write_wrapped_breaks_at_spaces),
        cmocka_unit_test(text_write_spells_what_nobody_sees),
        cmocka_unit_test(text_width_counts_code_points),
    };
    return cmocka_run_group_tests(tests, NULL, NULL);
}
