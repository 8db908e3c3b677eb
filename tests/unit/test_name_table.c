/* test_name_table.c - names against a plain list; edit distances against counted edits.
 * SPDX-License-Identifier: MIT */
#include "name_table.h"

#include <stdio.h>
#include <string.h>

#include "assert_close.h"
#include "fault.h"
#include "str.h"

enum { NAMES = 20000 };
static char names[NAMES][32];

static void make_names(void)
{
    for (int i = 0; i < NAMES; i++) {
        snprintf(names[i], sizeof names[i], "post_%d_%c", i / 3, 'a' + i % 3);
    }
}

static void name_table_many_names_are_all_found(void **state)
{
    (void)state;
    make_names();
    name_table table = {0};
    for (int i = 0; i < NAMES; i++) {
        assert_int_equal(name_table_find(&table, names[i], strlen(names[i])), KL_NONE);
        assert_int_equal(name_table_add(&table, names[i], strlen(names[i]), i), KL_OK);
    }
    for (int i = 0; i < NAMES; i++) {
        assert_int_equal(name_table_find(&table, names[i], strlen(names[i])), i);
    }
    assert_int_equal(name_table_find(&table, "post_1", 6), KL_NONE);
    assert_int_equal(name_table_find(&table, "", 0), KL_NONE);
    name_table_free(&table);
    assert_int_equal(name_table_find(&table, "post_1_a", 8), KL_NONE);
}

static void name_table_add_twice_keeps_the_first(void **state)
{
    (void)state;
    name_table table = {0};
    assert_int_equal(name_table_add(&table, "cap", 3, 5), KL_OK);
    assert_int_equal(name_table_add(&table, "cap and more", 3, 6), KL_MISUSE);
    assert_int_equal(name_table_add(&table, "Cap", 3, 7), KL_OK);
    assert_int_equal(name_table_add(&table, "ca", 2, 8), KL_OK);
    assert_int_equal(name_table_find(&table, "cap", 3), 5);
    assert_int_equal(name_table_find(&table, "Cap", 3), 7);
    assert_int_equal(name_table_find(&table, "cap", 2), 8);
    assert_int_equal(table.count, 3);
    name_table_free(&table);
}

static void name_table_failing_memory_keeps_what_is_there(void **state)
{
    (void)state;
    make_names();
    for (long k = 0; k < 8; k++) {
        name_table table = {0};
        int added = 0;
        kl_status status = KL_OK;
        fault_after(k);
        while (added < 1000 && status == KL_OK) {
            status = name_table_add(&table, names[added], strlen(names[added]), added);
            added += status == KL_OK;
        }
        const bool struck = fault_struck() != 0;
        fault_after(-1);
        assert_int_equal(status, struck ? KL_NO_MEMORY : KL_OK);
        assert_int_equal(table.count, added);
        for (int i = 0; i < added; i++) {
            assert_int_equal(name_table_find(&table, names[i], strlen(names[i])), i);
        }
        name_table_free(&table);
    }
}

static void str_distance_counts_edits(void **state)
{
    (void)state;
    static const struct {
        const char *a, *b;
        int edits;
    } cases[] = {
        {"", "", 0},
        {"width", "width", 0},
        {"widht", "width", 1},  /* two neighbours swapped */
        {"dept", "depth", 1},   /* one left out */
        {"deepth", "depth", 1}, /* one too many */
        {"depth", "dapth", 1},  /* one changed */
        {"", "pin", 3},
        {"kitten", "sitting", 3}, /* the example of most textbooks */
        {"ca", "abc", 3},         /* restricted distance: no edit within a swapped pair */
        {"Depth", "depth", 1},
    };
    for (size_t i = 0; i < sizeof cases / sizeof cases[0]; i++) {
        const char *a = cases[i].a;
        const char *b = cases[i].b;
        assert_int_equal(str_distance(a, strlen(a), b, strlen(b)), cases[i].edits);
        assert_int_equal(str_distance(b, strlen(b), a, strlen(a)), cases[i].edits);
    }
}

static void str_distance_long_texts_are_far(void **state)
{
    (void)state;
    char text[200];
    memset(text, 'x', sizeof text);
    assert_int_equal(str_distance(text, 64, text, 64), 0);
    assert_int_equal(str_distance(text, 0, text, 64), 64);
    assert_int_equal(str_distance(text, 65, text, 3), STR_FAR);
    assert_int_equal(str_distance(text, 3, text, 200), STR_FAR);
}

int main(void)
{
    const struct CMUnitTest tests[] = {
        cmocka_unit_test(name_table_many_names_are_all_found),
        cmocka_unit_test(name_table_add_twice_keeps_the_first),
        cmocka_unit_test(name_table_failing_memory_keeps_what_is_there),
        cmocka_unit_test(str_distance_counts_edits),
        cmocka_unit_test(str_distance_long_texts_are_far),
    };
    return cmocka_run_group_tests(tests, NULL, NULL);
}
