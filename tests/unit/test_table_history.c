/* test_table_history.c - the table of what time does, against the tables of single moments and laws of creep.
 * SPDX-License-Identifier: MIT */
#include "solved.h"

#include <math.h>
#include <string.h>

#include "sample_table.h"
#include "tables.h"

/* A continuous beam with a bonded tendon, creep, shrinkage and relaxation. */
static const char BEAM[] =
    "show si\nsite { humidity 70 % }\n"
    "concrete mix { strength 40 MPa; unit_weight 24 kN/m^3; cement normal\n"
    "  modulus en1992 2004; creep mc1990; shrinkage mc1990 }\n"
    "prestressing strand { ultimate 1860 MPa; yield 1674 MPa; modulus 195 GPa; relaxation low }\n"
    "section r { rectangle width 0.8 m depth 1 m; shear flexible }\n"
    "node L at (0 m, 0 m); node R at (20 m, 0 m)\n"
    "member b from L to R section r of mix { age 3 day }\nnode M on b at 12 m\n"
    "support L pinned; support R roller; support M roller\n"
    "tendon T in b { of strand; strands 12 area 150 mm^2; duct 80 mm; bonded grouted\n"
    "  profile from bottom { anchor at start height 0.5 m; anchor at end height 0.5 m straight }\n"
    "  friction 0.2; wobble 0.003 per m; jack start force 2400 kN; seating 6 mm }\n"
    "stage set at 0 day { place b }\nstage pulled at 7 day { stress T; grout T }\n"
    "stage late at 10000 day\n";

static void build(const solved *s, const char *name, const selection_wish *wish, table *t)
{
    const table_recipe *recipe = table_recipe_find(name);
    selection chosen;
    assert_non_null(recipe);
    assert_int_equal(selection_make(s->results, wish, recipe->span, &chosen), KL_OK);
    assert_int_equal(table_build(t, recipe, s->results, &chosen), KL_OK);
    selection_free(&chosen);
}

static void solve_history(solved *s)
{
    kl_settings settings = kl_settings_default();
    settings.moments_per_decade = 8;
    solved_run(s, BEAM, &settings);
}

/* Each place goes through all moments in order of time, and is one of the few that were wanted. */
static void rows_follow_time_at_each_place(void **state)
{
    (void)state;
    solved s;
    table t;
    const selection_wish wish = selection_wish_none();
    solve_history(&s);
    build(&s, "history", &wish, &t);
    double day = -1.0, station = 0.0;
    kl_index places = 1;
    for (kl_index row = 0; row < table_row_count(&t); ++row) {
        const double here = sample_table_number(&t, row, "station");
        if (here > station) {
            ++places;
            day = -1.0;
        }
        assert_true(here >= station && sample_table_number(&t, row, "day") >= day);
        day = sample_table_number(&t, row, "day");
        station = here;
    }
    assert_int_equal(places, 4); /* two ends, the middle, the node */
    assert_true(table_row_count(&t) >= 4 * (kl_step_count(s.results) + kl_moment_count(s.results)));
    table_free(&t);
    solved_close(&s);
}

/* The rows after the last stage say what the tables of that moment say. */
static void last_rows_are_the_last_stages(void **state)
{
    (void)state;
    static const char *const tables[][2] = {{"deflections", "deflection"},
                                            {"camber", "camber"},
                                            {"stresses", "stress_top"},
                                            {"stresses", "stress_bottom"},
                                            {"actions", "moment_total"}};
    solved s;
    table history;
    const selection_wish wish = selection_wish_none();
    solve_history(&s);
    build(&s, "history", &wish, &history);
    for (size_t i = 0; i < sizeof tables / sizeof tables[0]; ++i) {
        table one;
        kl_index met = 0;
        build(&s, tables[i][0], &wish, &one);
        for (kl_index row = 0; row < table_row_count(&history); ++row) {
            if (strcmp(sample_table_text(&history, row, "state"), "after late") != 0) {
                continue;
            }
            kl_index other = 0;
            while (other < table_row_count(&one) &&
                   (fabs(sample_table_number(&one, other, "station") -
                         sample_table_number(&history, row, "station")) > 1e-9 ||
                    strcmp(sample_table_text(&one, other, "side"),
                           sample_table_text(&history, row, "side")) != 0)) {
                ++other;
            }
            if (other <
                table_row_count(&one)) { /* a pair of sides may be joined in one table only */
                assert_close(sample_table_number(&history, row, tables[i][1]),
                             sample_table_number(&one, other, tables[i][1]), 1e-12, 0.0);
                ++met;
            }
        }
        assert_true(met >= 3); /* the ends and the middle */
        table_free(&one);
    }
    table_free(&history);
    solved_close(&s);
}

/* A straight tendon's force along the member is the tendon's own, and it falls with time once it is seated. */
static void tendon_force_is_the_tendons(void **state)
{
    (void)state;
    solved s;
    table t;
    selection_wish wish = selection_wish_none();
    solve_history(&s);
    wish.stage = solved_index(&s, KL_KIND_STAGE, "late");
    build(&s, "history", &wish, &t);
    const double last = solved_force(&s, solved_after(&s, "late"), "T", 10.0);
    double before = INFINITY;
    kl_index seen = 0;
    for (kl_index row = 0; row < table_row_count(&t); ++row) {
        if (fabs(sample_table_number(&t, row, "station") - 10.0) < 1e-9) {
            const double force = sample_table_number(&t, row, "tendon_force");
            assert_true(force <= before);
            before = force;
            ++seen;
        }
    }
    assert_true(seen > 20);
    assert_close(before, last, 1e-9, 0.0);
    table_free(&t);
    solved_close(&s);
}

int main(void)
{
    const struct CMUnitTest tests[] = {
        cmocka_unit_test(rows_follow_time_at_each_place),
        cmocka_unit_test(last_rows_are_the_last_stages),
        cmocka_unit_test(tendon_force_is_the_tendons),
    };
    return cmocka_run_group_tests(tests, NULL, NULL);
}
