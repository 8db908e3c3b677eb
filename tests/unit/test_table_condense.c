/* test_table_condense.c - what a table along members need not say: nothing, zeros, level runs, and the moment before again.
 * SPDX-License-Identifier: MIT */
#include "assert_close.h"

#include <math.h>
#include <string.h>

#include "table_condense.h"

typedef struct condense_row {
    const char *state, *member;
    double station;
    const char *place;
    double moment, axial;
} condense_row;

static void fill(table *t, const condense_row *rows, int count)
{
    const kl_display display = {.system = KL_UNITS_SI};
    table_start(t, "along", &display);
    table_add_words(t, COLUMN_GROUP, "state", "");
    table_add_words(t, COLUMN_GROUP, "member", "member");
    table_add(t, COLUMN_EXACT, "station", "station", KL_MEASURE_STATION, 4);
    table_add_words(t, COLUMN_WORD, "place", "place");
    table_add(t, COLUMN_FIGURE, "moment", "moment", KL_MEASURE_MOMENT, 5);
    table_add(t, COLUMN_FIGURE, "axial", "axial", KL_MEASURE_FORCE, 5);
    for (int i = 0; i < count; i++) {
        table_put_text(t, rows[i].state);
        table_put_text(t, rows[i].member);
        table_put(t, rows[i].station);
        table_put_text(t, rows[i].place);
        table_put(t, rows[i].moment);
        table_put(t, rows[i].axial);
    }
    assert_int_equal(t->status, KL_OK);
}

static void assert_stations(const table *t, const double *stations, kl_index count)
{
    assert_int_equal(table_row_count(t), count);
    for (kl_index i = 0; i < count; i++) {
        assert_close(table_cell_at(t, i, 2)->number, stations[i], 0.0, 0.0);
    }
}

static void condense_level_run_keeps_its_ends_and_named_places(void **state)
{
    (void)state;
    static const condense_row rows[] = {
        {"wind", "leg", 0.0, "A", 0.0, -90.0},    {"wind", "leg", 1.0, "", 0.0, -90.0},
        {"wind", "leg", 2.0, "face", 0.0, -90.0}, {"wind", "leg", 3.0, "", 0.0, -90.0},
        {"wind", "leg", 4.0, "", 0.0, -90.0},     {"wind", "leg", 5.0, "", 0.0, -50.0},
        {"wind", "leg", 6.0, "B", 0.0, -50.0},
    };
    /* 1 and 3 stand between equals; 4 is the last before the change; 2 has a name */
    static const double left[] = {0.0, 2.0, 4.0, 5.0, 6.0};
    table t;
    fill(&t, rows, 7);
    table_condense(&t);
    assert_stations(&t, left, 5);
    assert_int_equal(t.note_count, 1);
    assert_non_null(strstr(t.notes[0], "nothing changes"));
    table_free(&t);
}

static void condense_zero_group_is_named_and_gone(void **state)
{
    (void)state;
    static const condense_row rows[] = {
        {"wind", "leg", 0.0, "A", 0.0, 0.0},
        {"wind", "leg", 1.0, "B", 0.0, (double)NAN},
        {"wind", "beam", 10.0, "B", 7.0, 0.0},
        {"wind", "beam", 11.0, "C", 0.0, 0.0},
    };
    static const double left[] = {10.0, 11.0};
    table t;
    fill(&t, rows, 4);
    table_condense(&t);
    assert_stations(&t, left, 2);
    assert_string_equal(t.notes[0], "Left out, being 0 throughout: wind, leg.");
    table_free(&t);
}

static void condense_rows_without_figures_are_gone(void **state)
{
    (void)state;
    static const condense_row rows[] = {
        {"wind", "rod", 0.0, "A", (double)NAN, (double)NAN},
        {"wind", "rod", 1.0, "B", (double)NAN, (double)NAN},
    };
    table t;
    fill(&t, rows, 2);
    table_condense(&t);
    assert_int_equal(table_row_count(&t), 0);
    table_free(&t);
}

/* The same moment after moment is told once; but another member, or other stations, are no repetition. */
static void condense_repeated_moment_is_told_once(void **state)
{
    (void)state;
    static const condense_row rows[] = {
        {"stress", "cap", 0.0, "L", 3.0, 1.0}, {"stress", "cap", 1.0, "R", 4.0, 1.0},
        {"stress", "rib", 0.0, "L", 3.0, 1.0}, {"stress", "rib", 1.0, "R", 4.0, 1.0},
        {"grout", "cap", 0.0, "L", 3.0, 1.0},  {"grout", "cap", 1.0, "R", 4.0, 1.0},
        {"grout", "rib", 0.0, "L", 0.0, 0.0},  {"grout", "rib", 1.0, "R", 0.0, 0.0},
        {"load", "rib", 0.0, "L", 3.0, 1.0},   {"load", "rib", 1.0, "R", 4.0, 1.0}, /* 0 between */
        {"lift", "rib", 0.0, "L", 3.0, 1.0},   {"lift", "rib", 2.0, "R", 4.0, 1.0},
    };
    static const double left[] = {0.0, 1.0, 0.0, 1.0, 0.0, 1.0, 0.0, 2.0};
    table t;
    fill(&t, rows, 12);
    table_condense(&t);
    assert_stations(&t, left, 8);
    assert_string_equal(t.notes[0], "Left out, being 0 throughout: grout, rib.");
    assert_string_equal(t.notes[1], "Left out, being as in the state before: grout, cap.");
    table_free(&t);
}

int main(void)
{
    const struct CMUnitTest tests[] = {
        cmocka_unit_test(condense_level_run_keeps_its_ends_and_named_places),
        cmocka_unit_test(condense_zero_group_is_named_and_gone),
        cmocka_unit_test(condense_rows_without_figures_are_gone),
        cmocka_unit_test(condense_repeated_moment_is_told_once),
    };
    return cmocka_run_group_tests(tests, NULL, NULL);
}
