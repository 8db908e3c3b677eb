/* test_table_settle.c - rounding becomes 0, and what is the same on both sides of a place is one row.
 * SPDX-License-Identifier: MIT */
#include "assert_close.h"

#include <math.h>

#include "table_settle.h"

typedef struct settle_row {
    const char *place, *side;
    double force, moment;
} settle_row;

static void fill(table *t, const settle_row *rows, int count)
{
    const kl_display display = {.system = KL_UNITS_SI};
    table_start(t, "sides", &display);
    table_add_words(t, COLUMN_WORD, "place", "place");
    table_add_words(t, COLUMN_WORD, "side", "side");
    table_add(t, COLUMN_FIGURE, "shear", "shear", KL_MEASURE_FORCE, 5);
    table_add(t, COLUMN_FIGURE, "moment", "moment", KL_MEASURE_MOMENT, 5);
    for (int i = 0; i < count; i++) {
        table_put_text(t, rows[i].place);
        table_put_text(t, rows[i].side);
        table_put(t, rows[i].force);
        table_put(t, rows[i].moment);
    }
    assert_int_equal(t->status, KL_OK);
}

static void settle_rounding_beside_the_largest_is_zero(void **state)
{
    (void)state;
    static const settle_row rows[] = {
        {"A", "", 1e6, -3e-4}, {"B", "", 2e-4, 1e-2}, {"C", "", -0.0, (double)NAN}};
    table t;
    fill(&t, rows, 3);
    table_settle(&t);
    assert_close(table_cell_at(&t, 0, 3)->number, 0.0, 0.0, 0.0); /* 3e-4 N m beside 1e6 N */
    assert_close(table_cell_at(&t, 1, 2)->number, 0.0, 0.0, 0.0);
    assert_close(table_cell_at(&t, 1, 3)->number, 1e-2, 0.0, 0.0);
    assert_close(table_cell_at(&t, 0, 2)->number, 1e6, 0.0, 0.0);
    assert_true(isnan(table_cell_at(&t, 2, 3)->number));
    table_free(&t);
}

/* A table that is nothing but rounding beside the forces at work in the model. */
static void settle_rounding_beside_the_force_scale_is_zero(void **state)
{
    (void)state;
    static const settle_row rows[] = {{"A", "", 2e-13, -5e-14}, {"B", "", 1e-3, 5e-4}};
    for (int known = 0; known < 2; known++) {
        table t;
        fill(&t, rows, 2);
        t.force_scale = known ? 2e6 : 0.0; /* rounding up to 2e-3 N */
        table_settle(&t);
        for (kl_index column = 2; column < 4; column++) {
            const double kept = column == 2 ? rows[1].force : rows[1].moment;
            assert_close(table_cell_at(&t, 0, column)->number, 0.0, 0.0, 0.0);
            assert_close(table_cell_at(&t, 1, column)->number, known ? 0.0 : kept, 0.0, 0.0);
        }
        table_free(&t);
    }
}

static void settle_two_like_sides_are_one_row(void **state)
{
    (void)state;
    static const settle_row rows[] = {
        {"A", "", 5.0, 1.0},       {"B", "left", 7.0, 2.0},  {"B", "right", 7.0 + 1e-7, 2.0},
        {"C", "left", 4.0, 2.0},   {"C", "right", 3.0, 2.0}, {"D", "left", 1.0, (double)NAN},
        {"D", "right", 1.0, 30.0}, {"E", "left", 1.0, 1.0},  {"F", "right", 1.0, 1.0}};
    static const char *const sides[] = {"", "", "left", "right", "left", "right", "left", "right"};
    static const char *const places[] = {"A", "B", "C", "C", "D", "D", "E", "F"};
    table t;
    fill(&t, rows, 9);
    table_settle(&t);
    assert_int_equal(table_row_count(&t), 8);
    for (kl_index i = 0; i < 8; i++) {
        assert_string_equal(table_cell_at(&t, i, 0)->text, places[i]);
        assert_string_equal(table_cell_at(&t, i, 1)->text, sides[i]);
    }
    assert_close(table_cell_at(&t, 7, 3)->number, 1.0, 0.0, 0.0);
    table_free(&t);
}

int main(void)
{
    const struct CMUnitTest tests[] = {
        cmocka_unit_test(settle_rounding_beside_the_largest_is_zero),
        cmocka_unit_test(settle_rounding_beside_the_force_scale_is_zero),
        cmocka_unit_test(settle_two_like_sides_are_one_row),
    };
    return cmocka_run_group_tests(tests, NULL, NULL);
}
