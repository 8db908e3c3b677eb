/* test_warnings.c - every warning that needs results: results that draw it, and the same without its cause that do
 * not.
 * SPDX-License-Identifier: MIT */
#include "assert_close.h"

#include <string.h>

#include "fake_results.h"
#include "fault.h"

#define MPA 1e6

static kl_results warnings_results;

static int warnings_setup(void **state)
{
    fake_start(&warnings_results);
    fake_falsework[0].capacity = 150e3;
    fake_falsework[0].carrier = KL_NONE;
    fake_members[0].hinge_end = false;
    kl_diags *diags = kl_diags_create();
    assert_non_null(diags);
    *state = diags;
    return 0;
}

static int warnings_teardown(void **state)
{
    kl_diags_destroy(*state);
    return 0;
}

static int warnings_told(kl_diags *diags, const char *name, const char **text)
{
    assert_int_equal(kl_run_warnings(&warnings_results, NULL, diags), KL_OK);
    return fake_told(diags, name, text);
}

#define assert_says(text, part) assert_non_null(strstr((text), (part)))

/* The plain story draws nothing at all. */
static void kl_run_warnings_sound_structure_is_silent(void **state)
{
    assert_int_equal(kl_run_warnings(&warnings_results, NULL, *state), KL_OK);
    assert_int_equal(kl_diags_count(*state), 0);
}

static void row_overloaded_names_the_worst_row_and_counts_the_others(void **state)
{
    const char *text = NULL;
    fake_row(&warnings_results, 2, 1, 310e3); /* 155 kN a post, above 150 */
    fake_row(&warnings_results, 3, 4, 360e3); /* 180 kN */
    assert_int_equal(warnings_told(*state, "row-overloaded", &text), 1);
    assert_says(text, "at 24 m carries 180 kN a post, above its rated 150 kN");
    assert_says(text, "stress T2");
    assert_says(text, "1 more row");
}

static void row_overloaded_is_silent_at_the_rating_and_without_one(void **state)
{
    fake_row(&warnings_results, 2, 1, 300e3);
    assert_int_equal(warnings_told(*state, "row-overloaded", NULL), 0);
    fake_falsework[0].capacity = fake_none;
    fake_row(&warnings_results, 2, 1, 900e3);
    assert_int_equal(warnings_told(*state, "row-overloaded", NULL), 0);
}

/* Three neighbours of 200 kN lift; 600 kN goes to the outer rows. */
static void lift_off_says_who_lifted_and_where_it_went(void **state)
{
    const char *text = NULL;
    for (kl_index row = 1; row <= 3; row++) {
        fake_row(&warnings_results, 3, row, 0.0);
    }
    fake_row(&warnings_results, 3, 0, 380e3);
    fake_row(&warnings_results, 3, 4, 260e3);
    fake_row(&warnings_results, 3, 5, 560e3);
    assert_int_equal(warnings_told(*state, "lift-off", &text), 1);
    assert_says(text, "lifts cap off the rows from 6 to 18 m");
    assert_says(text, "their 600 kN went to the rows at 3, 24 and 27 m.");
    assert_int_equal(fake_told(*state, "row-gains-load", &text), 1); /* 200 to 560 */
    assert_says(text, "at 27 m goes from 200 kN to 560 kN");
}

static void lift_off_to_the_columns_is_said(void **state)
{
    const char *text = NULL;
    fake_row(&warnings_results, 3, 2, 0.0);
    assert_int_equal(warnings_told(*state, "lift-off", &text), 1);
    assert_says(text, "off the row at 12 m");
    assert_says(text, "went to its columns and supports.");
    assert_int_equal(fake_told(*state, "row-gains-load", NULL), 0);
}

static void row_gains_load_away_from_the_hinge_does_not_name_it(void **state)
{
    const char *text = NULL;
    fake_members[0].hinge_end = true;
    fake_row(&warnings_results, 3, 5, 900e3);
    fake_row(&warnings_results, 3, 1, 190e3);
    assert_int_equal(warnings_told(*state, "row-gains-load", &text), 1);
    /* the last row is 3 m from the hinge and 3 m from its neighbour: not under it */
    assert_null(strstr(text, "under the hinge"));
    fake_members[0].hinge_end = false;
}

static void row_gains_load_under_an_inner_hinge(void **state)
{
    static const double hinge[] = {13.0};
    const char *text = NULL;
    fake_members[0].hinges = hinge;
    fake_members[0].hinge_count = 1;
    fake_row(&warnings_results, 3, 2, 900e3);
    const int told = warnings_told(*state, "row-gains-load", &text);
    fake_members[0].hinge_count = 0;
    assert_int_equal(told, 1);
    assert_says(text, "under the hinge at 12 m goes from 200 kN to 900 kN");
}

/* 2 posts of 80 MN/m: 800 kN more on one row is 5 mm; 3 m apart that is 1/600, 6 m apart less; 1000 kN is 1/480. */
static void uneven_settlement_by_the_posts(void **state)
{
    const char *text = NULL;
    fake_falsework[0].capacity = fake_none;
    for (kl_index step = 1; step < 4; step++) {
        fake_row(&warnings_results, step, 1, 1000e3);
    }
    assert_int_equal(warnings_told(*state, "uneven-settlement", &text), 0);
    for (kl_index step = 1; step < 4; step++) {
        fake_row(&warnings_results, step, 1, 1200e3);
    }
    assert_int_equal(warnings_told(*state, "uneven-settlement", &text), 1);
    assert_says(text, "at 3 and 6 m settle 1.25 mm and 7.5 mm");
}

/* The carrying member (here drawn as the cap itself) goes down by 3 mm a metre during the pour. */
static void uneven_settlement_by_the_carrier(void **state)
{
    fake_falsework[0].carrier = 0;
    warnings_results.other[1][0] = (fake_course){0.0, -0.003, 0.0};
    assert_int_equal(warnings_told(*state, "uneven-settlement", NULL), 1);
    /* sag that was there before the pour does not count */
    warnings_results.other[0][0] = (fake_course){0.0, -0.003, 0.0};
    kl_diags *fresh = kl_diags_create();
    assert_int_equal(warnings_told(fresh, "uneven-settlement", NULL), 0);
    kl_diags_destroy(fresh);
}

static void still_bearing_when_never_released(void **state)
{
    const char *text = NULL;
    warnings_results.step_count = 4;
    fake_row(&warnings_results, 3, 0, 0.0);
    assert_int_equal(warnings_told(*state, "still-bearing", &text), 1);
    assert_says(text, "6 rows of bents still stand at the last stage; 5 bear and carry 1000 kN");
}

static void support_pulls_at_its_worst_moment(void **state)
{
    const char *text = NULL;
    warnings_results.reaction[2][3][KL_Y] = -20e3;
    warnings_results.reaction[4][3][KL_Y] = -35e3;
    assert_int_equal(warnings_told(*state, "support-pulls", &text), 1);
    assert_says(text, "The support at B holds the structure down with 35 kN during released");
}

static void support_pulls_not_for_one_that_only_pushes_or_for_rounding(void **state)
{
    warnings_results.reaction[2][3][KL_Y] = -1e-6;
    assert_int_equal(warnings_told(*state, "support-pulls", NULL), 0);
    warnings_results.reaction[2][3][KL_Y] = -20e3;
    fake_supports[1].hold[1].kind = KL_SPRING;
    const int told = warnings_told(*state, "support-pulls", NULL);
    fake_supports[1].hold[1].kind = KL_FIXED;
    assert_int_equal(told, 0);
}

/* Strength of the day 36 MPa = 5221.4 psi: 7.5 x 72.26 = 541.9 psi = 3.737 MPa. */
static void cracked_section_beyond_the_modulus_of_rupture(void **state)
{
    const char *text = NULL;
    warnings_results.bottom[3][0] =
        (fake_course){0.0, 0.5 * MPA, -0.0172 * MPA}; /* vertex 3.634 MPa */
    assert_int_equal(warnings_told(*state, "cracked-section", &text), 0);
    warnings_results.bottom[3][0].c = -0.0160 * MPA; /* vertex 3.906 MPa at 15.625 m */
    assert_int_equal(warnings_told(*state, "cracked-section", &text), 1);
    assert_says(text, "The bottom of cap at 15.62 m is in tension by 3.906 MPa");
    assert_says(text, "beyond the 3.737 MPa");
}

static void cracked_section_not_for_steel(void **state)
{
    warnings_results.bottom[3][0].a = 30.0 * MPA;
    fake_materials[0].kind = KL_ELASTIC;
    const int told = warnings_told(*state, "cracked-section", NULL);
    fake_materials[0].kind = KL_CONCRETE;
    assert_int_equal(told, 0);
}

/* ---- laws of creep and shrinkage --------------------------------------------------------------------------- */

static const kl_time_point warnings_leap[] = {{.time = 30 * KL_DAY, .value = 0.2},
                                              {.time = 31 * KL_DAY, .value = 2.0}};

/* By mc1990 in dry air; the release is a hundred days after the stressing. */
static void warnings_by_law(double humidity)
{
    fake_materials[0].creep = fake_materials[0].shrinkage = KL_LAW_MC1990;
    warnings_results.model.humidity = humidity;
    warnings_results.steps[4].time = 100 * KL_DAY;
}

static void law_out_of_scope_counts_members_that_are_so_alike(void **state)
{
    const char *text = NULL;
    warnings_by_law(0.35);
    assert_int_equal(warnings_told(*state, "law-out-of-scope", &text), 1);
    assert_string_equal(text, "cap and 2 more, of mix: outside the scope that mc1990 states for "
                              "shrinkage (humidity below 40 %).");
}

/* A load of half a day's age is out of scope too, in the one member that has it, also where air and size are not. */
static void law_out_of_scope_looks_at_the_age_at_loading(void **state)
{
    const char *text = NULL;
    warnings_by_law(0.40);
    for (int s = 2; s < 5; s++) {
        warnings_results.top[s][1].a = -5 * MPA;
    }
    assert_int_equal(warnings_told(*state, "law-out-of-scope", NULL), 0);
    warnings_results.age[2] = 0.5 * KL_DAY;
    assert_int_equal(warnings_told(*state, "law-out-of-scope", &text), 1);
    assert_string_equal(text, "left, of mix: outside the scope that mc1990 states for creep and "
                              "shrinkage (loading before an age of 1 day).");
}

/* 0.40 f_cm (48 MPa) of 14 / (4 + 0.85 x 14) at 14 days: 16.91 MPa. */
static void creep_not_linear_where_the_stress_stays(void **state)
{
    const char *text = NULL;
    warnings_by_law(0.70);
    warnings_results.top[3][0].a = -16.8 * MPA;
    assert_int_equal(warnings_told(*state, "creep-not-linear", NULL), 0);
    warnings_results.top[3][0].a = -17.0 * MPA;
    assert_int_equal(warnings_told(*state, "creep-not-linear", &text), 1);
    assert_says(text,
                "The top of cap at 0 m stays compressed by 17 MPa during step_1 after `stress "
                "T2`; mc1990 has creep proportional to stress up to 16.91 MPa");
}

static void creep_not_linear_is_silent_while_no_time_passes(void **state)
{
    warnings_by_law(0.70);
    warnings_results.top[2][0].a = -30 * MPA;
    assert_int_equal(warnings_told(*state, "creep-not-linear", NULL), 0);
}

static void creep_curve_rough_tells_the_error(void **state)
{
    const char *text = NULL;
    fake_materials[0].creep = KL_LAW_USER;
    fake_materials[0].creep_curve = (kl_time_curve){.points = warnings_leap, .count = 2};
    fake_materials[0].modulus_law = KL_LAW_VALUE;
    fake_materials[0].modulus = 30e9;
    assert_int_equal(warnings_told(*state, "creep-curve-rough", &text), 1);
    assert_says(text, "The creep curve of mix is followed within");
}

static void kl_warning_names_lists_each_once_with_help(void **state)
{
    (void)state;
    size_t count = 0;
    const kl_warning_name *names = kl_warning_names(&count);
    assert_true(count > 8);
    for (size_t i = 0; i < count; i++) {
        assert_true(strlen(names[i].name) > 3 && strlen(names[i].help) > 10);
        for (size_t j = 0; j < i; j++) {
            assert_string_not_equal(names[i].name, names[j].name);
        }
    }
}

static void kl_run_warnings_any_allocation_may_fail(void **state)
{
    warnings_results.bottom[3][0].a = 30.0 * MPA;
    warnings_results.reaction[2][3][KL_Y] = -20e3;
    warnings_results.step_count = 4;
    fake_row(&warnings_results, 2, 1, 310e3);
    fake_row(&warnings_results, 3, 2, 0.0);
    warnings_by_law(0.35);
    warnings_results.top[3][0].a = -30.0 * MPA;
    kl_status status = KL_NO_MEMORY;
    long k = 0;
    bool struck = true;
    for (; struck; k++) {
        assert_true(k < 1000);
        fault_after(k);
        status = kl_run_warnings(&warnings_results, NULL, *state);
        struck = fault_struck() != 0;
        fault_after(-1);
        /* a message may get lost for want of memory without the call failing */
        assert_true(status == KL_OK || (struck && status == KL_NO_MEMORY));
    }
    assert_int_equal(status, KL_OK);
    assert_true(k > 2);
}

int main(void)
{
#define WARNINGS_TEST(name) cmocka_unit_test_setup_teardown(name, warnings_setup, warnings_teardown)
    const struct CMUnitTest tests[] = {
        WARNINGS_TEST(kl_run_warnings_sound_structure_is_silent),
        WARNINGS_TEST(row_overloaded_names_the_worst_row_and_counts_the_others),
        WARNINGS_TEST(row_overloaded_is_silent_at_the_rating_and_without_one),
        WARNINGS_TEST(lift_off_says_who_lifted_and_where_it_went),
        WARNINGS_TEST(lift_off_to_the_columns_is_said),
        WARNINGS_TEST(row_gains_load_away_from_the_hinge_does_not_name_it),
        WARNINGS_TEST(row_gains_load_under_an_inner_hinge),
        WARNINGS_TEST(uneven_settlement_by_the_posts),
        WARNINGS_TEST(uneven_settlement_by_the_carrier),
        WARNINGS_TEST(still_bearing_when_never_released),
        WARNINGS_TEST(support_pulls_at_its_worst_moment),
        WARNINGS_TEST(support_pulls_not_for_one_that_only_pushes_or_for_rounding),
        WARNINGS_TEST(cracked_section_beyond_the_modulus_of_rupture),
        WARNINGS_TEST(cracked_section_not_for_steel),
        WARNINGS_TEST(law_out_of_scope_counts_members_that_are_so_alike),
        WARNINGS_TEST(law_out_of_scope_looks_at_the_age_at_loading),
        WARNINGS_TEST(creep_not_linear_where_the_stress_stays),
        WARNINGS_TEST(creep_not_linear_is_silent_while_no_time_passes),
        WARNINGS_TEST(creep_curve_rough_tells_the_error),
        WARNINGS_TEST(kl_warning_names_lists_each_once_with_help),
        WARNINGS_TEST(kl_run_warnings_any_allocation_may_fail),
    };
    return cmocka_run_group_tests(tests, NULL, NULL);
}
