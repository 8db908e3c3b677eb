/* test_table_grades.c - the table of form grades: its stations, its columns, and what the field reads.
 * SPDX-License-Identifier: MIT */
#include <math.h>
#include <stdlib.h>
#include <string.h>

#include "fault.h"
#include "field_reading.h"
#include "kernline/field.h"
#include "sample_table.h"
#include "solved.h"
#include "tables.h"

#define BODY                                                                                       \
    "material oak { modulus 30 GPa; unit_weight 25 kN/m^3 }\nmaterial steel { modulus 200 GPa }\n" \
    "section r { rectangle width 1 m depth 2 m }\n"                                                \
    "section deep { rectangle width 1 m depth 3 m }\n"                                             \
    "section w14 { area 0.01 m^2; inertia 0.0002 m^4 }\n"                                          \
    "node A at (0 m, 0 m)\nnode B at (12 m, 0 m)\nnode E at (0 m, 9 m)\nnode F at (12 m, 9 m)\n"   \
    "member b from A to B of oak { section r at 0 m; section r at 7.7 m; section deep at 7.7 m "   \
    "}\n"                                                                                          \
    "member e from E to F section r of oak\n"                                                      \
    "support A pinned; support B roller; support E pinned; support F roller\n"                     \
    "load more { point 1 kN on b at 5.55 m }\n"                                                    \
    "falsework f under b at 3 m, 6 m, 9 m { stiffness 100 MN/m; takeup 6 mm"
#define REST                                                                                       \
    " }\nstage poured { erect f; cast b; place e }\nstage clear { release f; load more }\n"        \
    "grade b { target clear; point 30 m at 2.22 m; point 31 m at 12 m }\n"                         \
    "grade e { target poured; point 39 m at 0 m }\n"

static const char plain[] = "show si\n" BODY REST;
static const char with_stringer[] = "show us\n" BODY "; stringer w14 of steel" REST;
static const char in_inches[] = "show us { station in }\n" BODY "; stringer w14 of steel" REST;

#define INCH 0.0254

static void build(const solved *s, const selection_wish *wish, table *t)
{
    const table_recipe *recipe = table_recipe_find("grades");
    selection chosen;
    assert_non_null(recipe);
    assert_int_equal(selection_make(s->results, wish, recipe->span, &chosen), KL_OK);
    assert_int_equal(table_build(t, recipe, s->results, &chosen), KL_OK);
    selection_free(&chosen);
}

/* Nodes, rows, points of the grade, steps of the section and tenths, each once and under the name that says most; where a load
 * stands does not matter. */
static void rows_are_where_the_field_sets_the_form(void **state)
{
    (void)state;
    static const struct {
        double station;
        const char *place;
    } wanted[] = {{0.0, "A"}, {1.2, ""},  {2.22, "point"}, {2.4, ""},  {3.0, "f"},
                  {3.6, ""},  {4.8, ""},  {6.0, "f"},      {7.2, ""},  {7.7, ""},
                  {8.4, ""},  {9.0, "f"}, {9.6, ""},       {10.8, ""}, {12.0, "B"}};
    const kl_index count = (kl_index)(sizeof wanted / sizeof wanted[0]);
    solved s;
    table t;
    const selection_wish wish = selection_wish_none();
    solved_open(&s, plain);
    build(&s, &wish, &t);
    assert_int_equal(table_row_count(&t), count + 11);
    for (kl_index i = 0; i < count; i++) {
        assert_close(sample_table_number(&t, i, "station"), wanted[i].station, 1e-12, 1e-12);
        assert_string_equal(sample_table_text(&t, i, "place"), wanted[i].place);
        assert_string_equal(sample_table_text(&t, i, "member"), "b");
        assert_string_equal(sample_table_text(&t, i, "state"), "after clear");
    }
    assert_string_equal(sample_table_text(&t, count, "state"), "after poured");
    table_free(&t);
    solved_close(&s);
}

/* "128.42", "1541-1/16", "3/8": what was read. */
static double reading(const char *text)
{
    char *end;
    double value = strtod(text, &end);
    if (*end == '-') {
        const double above = strtod(end + 1, &end);
        value += above / strtod(end + 1, NULL);
    } else if (*end == '/') {
        value /= strtod(end + 1, NULL);
    }
    return value;
}

static void figures_are_those_of_the_library_and_their_readings(void **state)
{
    (void)state;
    static const struct {
        const char *text;
        double unit; /* m, of stations */
        double per;  /* readings in it */
    } cases[] = {{plain, 1.0, 1000.0}, {with_stringer, 0.3048, 100.0}, {in_inches, INCH, 16.0}};
    for (int i = 0; i < 3; i++) {
        solved s;
        table t;
        const selection_wish wish = selection_wish_none();
        solved_open(&s, cases[i].text);
        build(&s, &wish, &t);
        for (kl_index row = 0; row < table_row_count(&t); row++) {
            const kl_index grade = strcmp(sample_table_text(&t, row, "member"), "e") == 0;
            kl_form_grade g;
            assert_int_equal(
                kl_form_grade_at(s.results, grade, sample_table_number(&t, row, "station"), &g),
                KL_OK);
            assert_close(sample_table_number(&t, row, "design"), g.design, 1e-15, 0.0);
            assert_close(sample_table_number(&t, row, "camber"), g.camber, 1e-12, 1e-10);
            assert_close(sample_table_number(&t, row, "raise"), g.raise, 1e-12, 1e-10);
            assert_close(sample_table_number(&t, row, "form"), g.form, 1e-15, 0.0);
            if (grade == 1) { /* placed: no form, nothing to say */
                assert_true(isnan(sample_table_number(&t, row, "takeup")));
            } else {
                assert_close(sample_table_number(&t, row, "takeup"), g.takeup, 1e-12, 1e-10);
                assert_close(sample_table_number(&t, row, "posts"), g.posts, 1e-12, 1e-10);
                assert_close(sample_table_number(&t, row, "carrier"), g.carrier, 1e-12, 1e-10);
            }
            if (i > 0 && grade == 0) {
                assert_close(sample_table_number(&t, row, "stringer"), g.stringer, 1e-12, 1e-10);
            }
            const double read = reading(sample_table_text(&t, row, "form_read")) * cases[i].per;
            assert_true(fabs(read - g.form / cases[i].unit * cases[i].per) <= 0.5 * (1.0 + 1e-9));
            assert_close(read, round(read), 1e-12, 0.0);
        }
        assert_int_equal(t.column_count, i == 0 ? 13 : 14); /* the stringer's, where there is one */
        table_free(&t);
        solved_close(&s);
    }
}

static void one_station_and_divisions_can_be_asked_for(void **state)
{
    (void)state;
    solved s;
    table t;
    selection_wish wish = selection_wish_none();
    solved_open(&s, plain);
    wish.at = 4.5;
    wish.member = 0;
    build(&s, &wish, &t);
    assert_int_equal(table_row_count(&t), 1);
    assert_close(sample_table_number(&t, 0, "station"), 4.5, 1e-15, 0.0);
    assert_close(sample_table_number(&t, 0, "takeup"), 6e-3, 1e-12, 0.0);
    table_free(&t);
    wish.at = NAN;
    wish.every = 4.0;
    wish.member = 1;
    build(&s, &wish, &t);
    assert_int_equal(table_row_count(&t), 4); /* 0, 4, 8, 12 */
    assert_close(sample_table_number(&t, 1, "station"), 4.0, 1e-15, 0.0);
    table_free(&t);
    solved_close(&s);
}

/* ---- readings -------------------------------------------------------------------------------------------- */

static void field_reading_write_gives_what_a_rule_shows(void **state)
{
    (void)state;
    static const struct {
        kl_unit_system system;
        const char *unit; /* of deflections; NULL: the system's */
        double metres;
        const char *text;
    } cases[] = {
        {KL_UNITS_US, NULL, 0.0, "0"},
        {KL_UNITS_US, NULL, 1.3125 * INCH, "1-5/16"},
        {KL_UNITS_US, NULL, -0.375 * INCH, "-3/8"},
        {KL_UNITS_US, NULL, 0.5 * INCH, "1/2"},
        {KL_UNITS_US, NULL, -2.0 * INCH, "-2"},
        {KL_UNITS_US, NULL, 0.9999 * INCH, "1"},
        {KL_UNITS_US, NULL, 0.03125 * INCH, "1/16"}, /* half way: away from 0 */
        {KL_UNITS_US, NULL, -0.03124 * INCH, "0"},
        {KL_UNITS_US, NULL, 12.1875 * INCH, "12-3/16"},
        {KL_UNITS_US, "ft", 0.1254 * 0.3048, "0.13"},
        {KL_UNITS_SI, NULL, 0.0334, "33"},
        {KL_UNITS_SI, NULL, -0.0004, "0"},
        {KL_UNITS_SI, NULL, -0.0126, "-13"},
        {KL_UNITS_SI, "cm", 0.0334, "3.3"},
        {KL_UNITS_SI, "m", 0.0334, "0.033"},
        {KL_UNITS_SI, "km", 0.0334, "0.000033"},
        {KL_UNITS_SI, NULL, 1e300, "1e+303"},
    };
    for (size_t i = 0; i < sizeof cases / sizeof cases[0]; i++) {
        kl_display display = {.system = cases[i].system};
        char text[FIGURE_SIZE];
        display.unit_of[KL_MEASURE_DEFLECTION] = cases[i].unit;
        field_reading_write(text, &display, KL_MEASURE_DEFLECTION, cases[i].metres);
        assert_string_equal(text, cases[i].text);
    }
}

static void field_reading_write_gives_what_a_rod_shows(void **state)
{
    (void)state;
    static const struct {
        kl_unit_system system;
        double metres;
        const char *text;
    } cases[] = {{KL_UNITS_US, 128.4194 * 0.3048, "128.42"},
                 {KL_UNITS_US, -3.126 * 0.3048, "-3.13"},
                 {KL_UNITS_SI, 39.14149, "39.141"},
                 {KL_UNITS_SI, -1e308, "-1e+308"}};
    for (size_t i = 0; i < sizeof cases / sizeof cases[0]; i++) {
        const kl_display display = {.system = cases[i].system};
        char text[FIGURE_SIZE];
        field_reading_write(text, &display, KL_MEASURE_STATION, cases[i].metres);
        assert_string_equal(text, cases[i].text);
    }
}

/* ---- memory ---------------------------------------------------------------------------------------------- */

static void table_that_runs_out_of_memory_says_so_and_frees_all(void **state)
{
    (void)state;
    solved s;
    selection chosen;
    const table_recipe *recipe = table_recipe_find("grades");
    const selection_wish wish = selection_wish_none();
    solved_open(&s, with_stringer);
    assert_int_equal(selection_make(s.results, &wish, recipe->span, &chosen), KL_OK);
    kl_status status = KL_NO_MEMORY;
    for (long k = 0; status != KL_OK; k++) {
        table t;
        assert_true(k < 5000);
        fault_after(k);
        status = table_build(&t, recipe, s.results, &chosen);
        const int struck = fault_struck();
        fault_after(-1);
        assert_int_equal(status, struck != 0 ? KL_NO_MEMORY : KL_OK);
        table_free(&t);
    }
    selection_free(&chosen);
    solved_close(&s);
}

/* The model with its grades in it, likewise: one is copied and checked like everything else. */
static void grade_that_finds_no_memory_is_not_added(void **state)
{
    (void)state;
    const kl_grade_point point = {1.0, 30.0, KL_NOWHERE};
    kl_status status = KL_NO_MEMORY;
    for (long k = 0; status != KL_OK; k++) {
        solved s;
        solved_read_well(&s, plain);
        const kl_grade again = {KL_NOWHERE, 2, 0, &point, 1};
        const kl_node from = {.name = "G", .origin = KL_NOWHERE, .y = 20.0, .member = KL_NONE};
        const kl_node to = {
            .name = "H", .origin = KL_NOWHERE, .x = 9.0, .y = 20.0, .member = KL_NONE};
        kl_member member = s.model->members[1];
        member.name = "g";
        assert_int_equal(kl_model_add_node(s.model, &from, &member.from), KL_OK);
        assert_int_equal(kl_model_add_node(s.model, &to, &member.to), KL_OK);
        assert_int_equal(kl_model_add_member(s.model, &member, NULL), KL_OK);
        fault_after(k);
        status = kl_model_add_grade(s.model, &again, NULL);
        const int struck = fault_struck();
        fault_after(-1);
        assert_int_equal(status, struck != 0 ? KL_NO_MEMORY : KL_OK);
        assert_int_equal(s.model->grade_count, status == KL_OK ? 3 : 2);
        solved_close(&s);
    }
}

int main(void)
{
    const struct CMUnitTest tests[] = {
        cmocka_unit_test(rows_are_where_the_field_sets_the_form),
        cmocka_unit_test(figures_are_those_of_the_library_and_their_readings),
        cmocka_unit_test(one_station_and_divisions_can_be_asked_for),
        cmocka_unit_test(field_reading_write_gives_what_a_rule_shows),
        cmocka_unit_test(field_reading_write_gives_what_a_rod_shows),
        cmocka_unit_test(table_that_runs_out_of_memory_says_so_and_frees_all),
        cmocka_unit_test(grade_that_finds_no_memory_is_not_added),
    };
    return cmocka_run_group_tests_name("table of form grades", tests, NULL, NULL);
}
