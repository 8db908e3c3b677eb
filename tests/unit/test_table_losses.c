/* test_table_losses.c - the tables of losses: which places and moments they show, and short memory.
 * SPDX-License-Identifier: MIT */
#include "solved.h"

#include <math.h>
#include <string.h>

#include "fault.h"
#include "sample_table.h"
#include "tables.h"

/* Two spans in two members; T drapes over both, S is straight in the second alone and stays unbonded. */
static const char UNIT[] =
    "show si\nsite { humidity 70 % }\n"
    "concrete mix { strength 40 MPa; transfer_strength 25 MPa; unit_weight 24 kN/m^3\n"
    "  modulus en1992 2004; creep en1992 2004; shrinkage en1992 2004 }\n"
    "prestressing strand { ultimate 1860 MPa; yield 1674 MPa; modulus 195 GPa; relaxation low }\n"
    "section r { rectangle width 0.8 m depth 1 m }\n"
    "node L at (0 m, 0 m); node M at (20 m, 0 m); node R at (45 m, 0 m)\n"
    "member b from L to M section r of mix { age 10 day }\n"
    "member c from M to R section r of mix { age 10 day }\n"
    "support L pinned; support M roller; support R roller\n"
    "tendon T in b c { of strand; strands 12 area 150 mm^2; duct 80 mm; bonded grouted\n"
    "  profile from bottom {\n"
    "    anchor at start height 0.5 m; low at 8 m height 0.15 m; inflection at 17 m\n"
    "    high at 20 m height 0.85 m; inflection at 23 m; low at 34 m height 0.15 m\n"
    "    anchor at end height 0.5 m }\n"
    "  friction 0.2; wobble 0.003 per m; jack both force 2400 kN; seating 6 mm }\n"
    "tendon S in c { of strand; strands 4 area 150 mm^2; unbonded\n"
    "  profile from bottom { anchor at start height 0.5 m; anchor at end height 0.5 m straight }\n"
    "  friction 0.06; wobble 0.001 per m; jack start force 800 kN; seating 6 mm }\n"
    "stage set at 0 day { place b c }\nstage pulled at 7 day { stress T S; grout T }\n"
    "stage late at 10000 day\n";

static kl_status build(const solved *s, const char *name, const selection_wish *wish, table *t)
{
    const table_recipe *recipe = table_recipe_find(name);
    selection chosen;
    assert_non_null(recipe);
    table_start(t, name, &s->model->display);
    kl_status status = selection_make(s->results, wish, recipe->span, &chosen);
    if (status == KL_OK) {
        table_free(t);
        status = table_build(t, recipe, s->results, &chosen);
        selection_free(&chosen);
    }
    return status;
}

/* Rows of a tendon in a state that begins so. */
static kl_index rows_of(const table *t, const char *state, const char *tendon, kl_index *first)
{
    kl_index count = 0;
    for (kl_index row = 0; row < table_row_count(t); ++row) {
        if (strcmp(sample_table_text(t, row, "state"), state) == 0 &&
            strcmp(sample_table_text(t, row, "tendon"), tendon) == 0 && count++ == 0) {
            *first = row;
        }
    }
    return count;
}

static void losses_show_the_ends_of_stages_at_the_places_that_govern(void **state)
{
    (void)state;
    solved s;
    table t;
    const selection_wish wish = selection_wish_none();
    kl_index first = 0;
    solved_open(&s, UNIT);
    assert_int_equal(build(&s, "losses", &wish, &t), KL_OK);
    assert_int_equal(rows_of(&t, "after set", "T", &first), 0);
    static const char *const labels[] = {"start", "low point", "high point", "low point", "end"};
    static const double stations[] = {0.0, 8.0, 20.0, 34.0, 45.0};
    const kl_index count = rows_of(&t, "after late", "T", &first);
    int at = 0;
    bool least = false, largest = false;
    for (kl_index row = first; row < first + count - 1; ++row) {
        const char *label = sample_table_text(&t, row, "place");
        if (at < 5 && fabs(sample_table_number(&t, row, "station") - stations[at]) < 1e-9) {
            assert_memory_equal(label, labels[at], strlen(labels[at]));
            ++at;
        }
        least = least || strstr(label, "least") != NULL;
        largest = largest || strstr(label, "largest") != NULL;
    }
    assert_true(at == 5 && least && largest);
    assert_string_equal(sample_table_text(&t, first + count - 1, "place"), "mean");
    assert_true(isnan(sample_table_number(&t, first + count - 1, "station")));
    assert_true(rows_of(&t, "after late", "S", &first) >= 4);
    assert_string_equal(sample_table_text(&t, first + 1, "place"), "middle");
    assert_true(t.columns[sample_table_column(&t, "lump")].is_detail); /* nothing was lost so */
    assert_false(t.columns[sample_table_column(&t, "creep")].is_detail);
    table_free(&t);
    solved_close(&s);
}

/* Least and largest are: of all places, the mean between them. */
static void least_and_largest_bound_every_division(void **state)
{
    (void)state;
    solved s;
    table all, governing;
    selection_wish wish = selection_wish_none();
    solved_open(&s, UNIT);
    assert_int_equal(build(&s, "losses", &wish, &governing), KL_OK);
    wish.every = 0.37;
    assert_int_equal(build(&s, "losses", &wish, &all), KL_OK);
    static const char *const tendons[] = {"T", "S"};
    for (int k = 0; k < 2; ++k) {
        kl_index first = 0, from = 0;
        double bound[2] = {INFINITY, -INFINITY};
        const kl_index few = rows_of(&governing, "after late", tendons[k], &first);
        for (kl_index row = first; row < first + few; ++row) {
            bound[0] = fmin(bound[0], sample_table_number(&governing, row, "stress"));
            bound[1] = fmax(bound[1], sample_table_number(&governing, row, "stress"));
        }
        const kl_index many = rows_of(&all, "after late", tendons[k], &from);
        assert_true(many > 60);
        for (kl_index row = from; row < from + many; ++row) {
            const double here = sample_table_number(&all, row, "stress");
            assert_true(here >= bound[0] * (1.0 - 1e-9) && here <= bound[1] * (1.0 + 1e-9));
        }
    }
    table_free(&all);
    table_free(&governing);
    solved_close(&s);
}

static void options_choose_member_station_and_steps(void **state)
{
    (void)state;
    solved s;
    table t;
    selection_wish wish = selection_wish_none();
    kl_index first = 0;
    solved_open(&s, UNIT);
    wish.member = solved_index(&s, KL_KIND_MEMBER, "b"); /* T alone runs there */
    assert_int_equal(build(&s, "losses", &wish, &t), KL_OK);
    assert_true(rows_of(&t, "after late", "T", &first) > 0);
    assert_int_equal(rows_of(&t, "after late", "S", &first), 0);
    table_free(&t);
    wish = selection_wish_none();
    wish.every_step = true;
    wish.at = 30.0; /* beyond the 25 m of S */
    assert_int_equal(build(&s, "losses", &wish, &t), KL_OK);
    assert_int_equal(rows_of(&t, "during pulled, after stress T", "T", &first), 1);
    assert_close(sample_table_number(&t, first, "station"), 30.0, 1e-12, 0.0);
    assert_int_equal(rows_of(&t, "after late", "S", &first), 0);
    table_free(&t);
    solved_close(&s);
}

/* Two rows a place, of the bonded tendon only; the sums and differences are those of the columns. */
static void estimates_stand_beside_for_each_code(void **state)
{
    (void)state;
    solved s;
    table t, losses;
    const selection_wish wish = selection_wish_none();
    kl_index first = 0, from = 0;
    solved_open(&s, UNIT);
    assert_int_equal(build(&s, "loss_estimates", &wish, &t), KL_OK);
    assert_int_equal(build(&s, "losses", &wish, &losses), KL_OK);
    assert_int_equal(rows_of(&t, "after late", "S", &first), 0);
    const kl_index count = rows_of(&t, "after late", "T", &first);
    assert_int_equal(count, 2 * (rows_of(&losses, "after late", "T", &from) - 1));
    for (kl_index i = 0; i < count; ++i) {
        const kl_index row = first + i, beside = from + i / 2;
        static const char *const keys[] = {"creep", "shrinkage", "relaxation"};
        static const char *const codes[] = {"creep_code", "shrinkage_code", "relaxation_code"};
        double all = 0.0, by_code = 0.0;
        assert_string_equal(sample_table_text(&t, row, "code"),
                            i % 2 == 0 ? "aashto 2020" : "en1992 2004");
        for (int k = 0; k < 3; ++k) {
            assert_close(sample_table_number(&t, row, keys[k]),
                         sample_table_number(&losses, beside, keys[k]), 1e-12, 0.0);
            all += sample_table_number(&t, row, keys[k]);
            by_code += sample_table_number(&t, row, codes[k]);
        }
        assert_close(sample_table_number(&t, row, "all"), all, 1e-12, 0.0);
        assert_close(sample_table_number(&t, row, "all_code"), by_code, 1e-12, 0.0);
        assert_close(sample_table_number(&t, row, "difference"), by_code - all, 1e-9, 0.0);
        assert_close(sample_table_number(&t, row, "difference_ratio"), by_code / all - 1.0, 1e-9,
                     0.0);
    }
    table_free(&losses);
    table_free(&t);
    solved_close(&s);
}

/* No load's own age without days: told, not left blank. */
static void estimates_tell_why_there_are_none(void **state)
{
    (void)state;
    solved s;
    table t;
    selection_wish wish = selection_wish_none();
    solved_open(&s, UNIT);
    wish.stage = solved_index(&s, KL_KIND_STAGE, "pulled");
    assert_int_equal(build(&s, "loss_estimates", &wish, &t), KL_OK);
    assert_int_equal(table_row_count(&t), 0);
    assert_memory_equal(t.notes[t.note_count - 1], "No row", 6);
    table_free(&t);
    solved_close(&s);
}

static void short_memory_is_told(void **state)
{
    (void)state;
    static const char *const names[] = {"losses", "loss_estimates"};
    solved s;
    selection_wish wish = selection_wish_none();
    solved_open(&s, UNIT);
    for (int k = 0; k < 4; ++k) {
        wish.every = k < 2 ? (double)NAN : 5.0;
        bool done = false;
        for (long n = 0; !done; ++n) {
            assert_true(n < 10000);
            table t;
            fault_after(n);
            const kl_status status = build(&s, names[k % 2], &wish, &t);
            done = fault_struck() == 0;
            fault_after(-1);
            assert_int_equal(status, done ? KL_OK : KL_NO_MEMORY);
            table_free(&t);
        }
    }
    solved_close(&s);
}

int main(void)
{
    const struct CMUnitTest tests[] = {
        cmocka_unit_test(losses_show_the_ends_of_stages_at_the_places_that_govern),
        cmocka_unit_test(least_and_largest_bound_every_division),
        cmocka_unit_test(options_choose_member_station_and_steps),
        cmocka_unit_test(estimates_stand_beside_for_each_code),
        cmocka_unit_test(estimates_tell_why_there_are_none),
        cmocka_unit_test(short_memory_is_told),
    };
    return cmocka_run_group_tests(tests, NULL, NULL);
}
