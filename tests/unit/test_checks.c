/* test_checks.c - stress and tendon checks on results written by hand: limits, worst place and moment, what is told.
 * SPDX-License-Identifier: MIT */
#include "assert_close.h"

#include <string.h>

#include "fake_results.h"
#include "fault.h"

#define MPA 1e6

typedef struct checks_fixture {
    kl_results results;
    kl_check check;
    kl_diags *diags;
    kl_check_report *report;
} checks_fixture;

static const kl_index checks_cap[] = {0};

static int checks_setup(void **state)
{
    static checks_fixture f;
    memset(&f, 0, sizeof f);
    fake_start(&f.results);
    f.check = (kl_check){.name = "transfer",
                         .members = {checks_cap, 1},
                         .when = {KL_WHEN_DURING, 1, 1},
                         .condition = KL_AT_TRANSFER,
                         .compression = fake_none,
                         .tension = fake_none,
                         .uncracked_class = 'u'};
    f.results.model.checks = &f.check;
    f.results.model.check_count = 1;
    f.diags = kl_diags_create();
    assert_non_null(f.diags);
    *state = &f;
    return 0;
}

static int checks_teardown(void **state)
{
    checks_fixture *f = *state;
    kl_check_report_destroy(f->report);
    kl_diags_destroy(f->diags);
    return 0;
}

static void checks_run(checks_fixture *f)
{
    assert_int_equal(kl_run_checks(&f->results, f->diags, &f->report), KL_OK);
}

static const kl_check_result *checks_row(const checks_fixture *f, const char *limit, kl_face face)
{
    for (kl_index i = 0; i < kl_check_result_count(f->report); i++) {
        const kl_check_result *r = kl_check_result_at(f->report, i);
        if (strcmp(r->limit_name, limit) == 0 && r->face == face) {
            return r;
        }
    }
    fail_msg("no row %s", limit);
    return NULL;
}

/* ---- concrete ------------------------------------------------------------------------------------------- */

/* Bottom after the first tendon: -19.6 + 0.4 x - 0.01 x^2 … the least is at the far end; top: parabola with its vertex
 * -21 MPa at x = 10 after the second. 0.65 x 30 = 19.5 MPa: the top fails by 21/19.5. */
static void kl_run_checks_parabola_governs_at_its_vertex(void **state)
{
    checks_fixture *f = *state;
    f->check.rules = KL_RULES_AASHTO_2020;
    f->results.top[3][0] = (fake_course){-20.0 * MPA, -0.2 * MPA, 0.01 * MPA};
    f->results.bottom[2][0] = (fake_course){-5.0 * MPA, -0.1 * MPA, 0.0};
    checks_run(f);
    assert_int_equal(kl_check_result_count(f->report), 4);
    const kl_check_result *top = checks_row(f, "compression", KL_FACE_TOP);
    assert_close(top->station, 10.0, 1e-12, 0.0);
    assert_close(top->demand, -21.0 * MPA, 1e-12, 0.0);
    assert_close(top->limit, -19.5 * MPA, 1e-12, 0.0);
    assert_close(top->ratio, 21.0 / 19.5, 1e-12, 0.0);
    assert_int_equal(top->state.index, 3);
    assert_false(top->passed);
    assert_close(top->strength, 30.0 * MPA, 0.0, 0.0);
    assert_close(top->strength_age, 14.0 * KL_DAY, 0.0, 0.0);
    assert_string_equal(top->strength_name, "f'ci");
    assert_string_equal(top->numbers, "0.65 x 30 MPa = 19.5 MPa");
    assert_true(top->from_memory);
    const kl_check_result *bottom = checks_row(f, "compression", KL_FACE_BOTTOM);
    assert_close(bottom->station, 30.0, 1e-12, 0.0);
    assert_close(bottom->demand, -8.0 * MPA, 1e-12, 0.0);
    assert_int_equal(bottom->state.index, 2);
    assert_true(bottom->passed);
    assert_int_equal(kl_failed_count(f->report), 1);
}

/* fck(t) of the day: 0.60 x 20 = 12 after the first tendon, 0.60 x 30 = 18 after the second. 13 fails first, although
 * 17 is the larger stress. */
static void kl_run_checks_strength_of_the_day_governs_by_ratio(void **state)
{
    checks_fixture *f = *state;
    f->check.rules = KL_RULES_EN1992_2004;
    f->results.strength[2] = 20.0 * MPA;
    f->results.strength[3] = 30.0 * MPA;
    f->results.top[2][0].a = -13.0 * MPA;
    f->results.top[3][0].a = -17.0 * MPA;
    checks_run(f);
    const kl_check_result *top = checks_row(f, "compression", KL_FACE_TOP);
    assert_int_equal(top->state.index, 2);
    assert_close(top->limit, -12.0 * MPA, 1e-12, 0.0);
    assert_close(top->ratio, 13.0 / 12.0, 1e-12, 0.0);
    assert_string_equal(top->strength_name, "fck(t)");
    assert_true(top->ends_stage_well);
}

static void kl_run_checks_service_takes_the_strength_at_28_days(void **state)
{
    checks_fixture *f = *state;
    f->check.rules = KL_RULES_AASHTO_2020;
    f->check.condition = KL_IN_SERVICE;
    f->results.phase[2] = f->results.phase[3] = KL_TENDON_GROUTED;
    checks_run(f);
    const kl_check_result *top = checks_row(f, "compression", KL_FACE_TOP);
    assert_close(top->limit, -24.0 * MPA, 1e-12, 0.0); /* 0.60 x 40 */
    assert_close(top->strength_age, 28.0 * KL_DAY, 0.0, 0.0);
    /* bonded tendons, severe by default: 0.0948 sqrt(5.8015 ksi) = 0.22834 ksi = 1.5743 MPa */
    const kl_check_result *tension = checks_row(f, "tension", KL_FACE_TOP);
    assert_close(tension->limit, 1.5743 * MPA, 1e-4, 0.0);
    assert_non_null(strstr(tension->rule, "severe exposure (default)"));
}

/* Stressed in the second step and grouted by the third: 1.0 MPa fails first, 1.5 MPa passes under 1.5743 MPa. */
static void kl_run_checks_tendon_is_bonded_from_its_grout_on(void **state)
{
    checks_fixture *f = *state;
    f->check.rules = KL_RULES_AASHTO_2020;
    f->check.condition = KL_IN_SERVICE;
    f->results.phase[3] = KL_TENDON_GROUTED;
    f->results.top[2][0].a = -1.0 * MPA;
    f->results.top[3][0].a = 1.5 * MPA;
    f->results.bottom[2][0].a = 1.0 * MPA;
    f->results.bottom[3][0].a = 1.5 * MPA;
    checks_run(f);
    const kl_check_result *top = checks_row(f, "tension", KL_FACE_TOP);
    assert_close(top->limit, 1.5743 * MPA, 1e-4, 0.0);
    assert_int_equal(top->state.index, 3);
    assert_true(top->passed);
    assert_non_null(strstr(top->rule, "; bonded tendons"));
    const kl_check_result *bottom = checks_row(f, "tension", KL_FACE_BOTTOM);
    assert_close(bottom->limit, 0.0, 0.0, 0.0);
    assert_int_equal(bottom->state.index, 2);
    assert_false(bottom->passed);
    assert_non_null(strstr(bottom->rule, "tendons not grouted by then"));
}

static void kl_run_checks_unbonded_tendon_allows_no_tension(void **state)
{
    checks_fixture *f = *state;
    f->check.rules = KL_RULES_AASHTO_2020;
    f->check.condition = KL_IN_SERVICE;
    fake_tendons[0].bond = KL_UNBONDED;
    f->results.top[2][0].a = 0.3 * MPA;
    checks_run(f);
    fake_tendons[0].bond = KL_GROUTED;
    const kl_check_result *tension = checks_row(f, "tension", KL_FACE_TOP);
    assert_close(tension->limit, 0.0, 0.0, 0.0);
    assert_true(isinf(tension->ratio));
    assert_false(tension->passed);
    assert_true(checks_row(f, "tension", KL_FACE_BOTTOM)->passed);
    assert_close(checks_row(f, "tension", KL_FACE_BOTTOM)->ratio, 0.0, 0.0, 0.0);
}

static void kl_run_checks_given_limits_and_one_face(void **state)
{
    checks_fixture *f = *state;
    f->check.compression = 9.0 * MPA;
    f->check.tension = 0.0;
    f->check.face = KL_FACE_BOTTOM;
    f->results.bottom[2][0].a = -8.0 * MPA;
    f->results.bottom[3][0].a = -9.5 * MPA;
    checks_run(f);
    assert_int_equal(kl_check_result_count(f->report), 2);
    const kl_check_result *bottom = checks_row(f, "compression", KL_FACE_BOTTOM);
    assert_close(bottom->ratio, 9.5 / 9.0, 1e-12, 0.0);
    assert_true(isnan(bottom->strength));
    assert_string_equal(bottom->rule, "given in the model");
    assert_false(bottom->from_memory);
    assert_true(checks_row(f, "tension", KL_FACE_BOTTOM)->passed);
}

static void kl_run_checks_column_face_is_marked(void **state)
{
    checks_fixture *f = *state;
    f->check.compression = 9.0 * MPA;
    f->results.top[3][0] = (fake_course){-6.0 * MPA, -0.2 * MPA, 0.01 * MPA}; /* least at 10 m */
    f->results.bottom[3][0].b = -0.1 * MPA;                                   /* least at 30 m */
    f->results.faces[0] = (kl_station_row){10.0, KL_RIGHT, KL_NONE, true};
    f->results.faces[1] = (kl_station_row){30.0, KL_RIGHT, KL_NONE, false};
    f->results.face_count = 2;
    checks_run(f);
    assert_int_equal(checks_row(f, "compression", KL_FACE_TOP)->column_face, 1);
    assert_int_equal(checks_row(f, "compression", KL_FACE_BOTTOM)->column_face, 0);
}

/* ---- what cannot be held -------------------------------------------------------------------------------- */

static void kl_run_checks_missing_transfer_strength_fails_and_is_told(void **state)
{
    checks_fixture *f = *state;
    f->check.rules = KL_RULES_AASHTO_2020;
    fake_materials[0].transfer_strength = fake_none;
    checks_run(f);
    assert_int_equal(kl_failed_count(f->report), 4);
    assert_int_equal(fake_told(f->diags, "check-without-strength", NULL), 4);
    assert_true(isnan(checks_row(f, "compression", KL_FACE_TOP)->ratio));
}

static void kl_run_checks_member_that_never_stands_fails_and_is_told(void **state)
{
    checks_fixture *f = *state;
    f->check.compression = 9.0 * MPA;
    f->results.absent[2][0] = f->results.absent[3][0] = true;
    checks_run(f);
    assert_int_equal(kl_failed_count(f->report), 2);
    assert_int_equal(fake_told(f->diags, "check-sees-nothing", NULL), 2);
}

static void kl_run_checks_bare_section_fails_and_is_told(void **state)
{
    checks_fixture *f = *state;
    f->check.compression = 9.0 * MPA;
    f->results.no_stress = true;
    checks_run(f);
    assert_int_equal(kl_failed_count(f->report), 2);
    assert_int_equal(fake_told(f->diags, "check-without-stress", NULL), 2);
}

static void kl_run_checks_with_strength_and_stress_tells_neither(void **state)
{
    checks_fixture *f = *state;
    f->check.rules = KL_RULES_AASHTO_2020;
    checks_run(f);
    assert_int_equal(fake_told(f->diags, "check-without-strength", NULL), 0);
    assert_int_equal(fake_told(f->diags, "check-without-stress", NULL), 0);
}

/* ---- on the way ----------------------------------------------------------------------------------------- */

static void kl_run_checks_failure_on_the_way_is_told_for_after(void **state)
{
    checks_fixture *f = *state;
    const char *text = NULL;
    f->check.compression = 9.0 * MPA;
    f->check.when = (kl_when){KL_WHEN_AFTER, 1, 1};
    f->results.top[2][0].a = -9.4 * MPA; /* after the first tendon */
    f->results.top[3][0].a = -8.0 * MPA; /* at the end */
    checks_run(f);
    assert_int_equal(kl_failed_count(f->report), 0);
    assert_int_equal(fake_told(f->diags, "passes-only-at-stage-end", &text), 1);
    assert_non_null(strstr(text, "-9.4 MPa"));
    assert_non_null(strstr(text, "stress T1"));
    assert_non_null(strstr(text, "-8 MPa"));
}

static void kl_run_checks_failure_at_the_end_too_is_no_warning(void **state)
{
    checks_fixture *f = *state;
    f->check.compression = 9.0 * MPA;
    f->results.top[2][0].a = -9.4 * MPA;
    f->results.top[3][0].a = -9.2 * MPA;
    checks_run(f);
    assert_int_equal(kl_failed_count(f->report), 1);
    assert_false(checks_row(f, "compression", KL_FACE_TOP)->ends_stage_well);
    assert_int_equal(fake_told(f->diags, "passes-only-at-stage-end", NULL), 0);
}

/* ---- tendons -------------------------------------------------------------------------------------------- */

/* A = 10 x 140 mm^2 = 1400 mm^2. Jack 1490 MPa; anchor 1 820 400 N / 1400 = 1300.3; along 1 932 000 / 1400 = 1380. */
static void checks_stress_tendon(checks_fixture *f)
{
    f->check.members = (kl_list){NULL, 0};
    f->check.tendons = (kl_list){checks_cap, 1};
    f->check.rules = KL_RULES_AASHTO_2020;
    f->results.pulls[0] = (kl_stressing){.step = 2,
                                         .jack_stress = 1490.0 * MPA,
                                         .force_at = {1820400.0, 1700000.0},
                                         .largest_force = 1932000.0,
                                         .largest_station = 9.0};
    f->results.pull_count = 1;
    f->results.tendon[3] = (fake_course){1800000.0, 2000.0, 0.0}; /* largest at 30 m: 1 860 000 N */
}

static void kl_run_checks_tendon_limits_at_stressing(void **state)
{
    checks_fixture *f = *state;
    checks_stress_tendon(f);
    checks_run(f);
    assert_int_equal(kl_check_result_count(f->report), 3);
    const kl_check_result *jack = checks_row(f, "at the jack", KL_FACE_BOTH);
    assert_close(jack->ratio, 1490.0 / (0.90 * 1674.0), 1e-12, 0.0);
    assert_true(jack->passed);
    const kl_check_result *anchor = checks_row(f, "at the anchor after seating", KL_FACE_BOTH);
    assert_close(anchor->demand, 1820400.0 / 1400e-6, 1e-12, 0.0);
    assert_close(anchor->limit, 0.70 * 1860.0 * MPA, 1e-12, 0.0);
    assert_true(anchor->passed); /* 1300.3 under 1302 */
    const kl_check_result *along = checks_row(f, "along the tendon after seating", KL_FACE_BOTH);
    assert_close(along->limit, 0.74 * 1860.0 * MPA, 1e-12, 0.0); /* low relaxation by its yield */
    assert_false(along->passed);                                 /* 1380 over 1376.4 */
    assert_close(along->station, 9.0, 0.0, 0.0);
    assert_int_equal(kl_failed_count(f->report), 1);
}

/* The first pull has the jack's largest, the second leaves most along the tendon, the third, the fullest, most at an anchor. */
static void kl_run_checks_tendon_limits_take_the_worst_of_all_pulls(void **state)
{
    checks_fixture *f = *state;
    checks_stress_tendon(f);
    f->results.pulls[0].step = 1;
    f->results.pulls[1] = (kl_stressing){.step = 2,
                                         .jack_stress = 1300.0 * MPA,
                                         .force_at = {1750000.0, 1820400.0},
                                         .largest_force = 1946000.0,
                                         .largest_station = 21.0};
    f->results.pulls[2] = (kl_stressing){.step = 3,
                                         .jack_stress = 1490.0 * MPA,
                                         .force_at = {1700000.0, 1827000.0},
                                         .largest_force = 1900000.0,
                                         .largest_station = 12.0};
    f->results.pull_count = 3;
    checks_run(f);
    const kl_check_result *jack = checks_row(f, "at the jack", KL_FACE_BOTH);
    assert_int_equal(jack->state.index, 1); /* the first of two that are the same */
    const kl_check_result *along = checks_row(f, "along the tendon after seating", KL_FACE_BOTH);
    assert_int_equal(along->state.index, 2);
    assert_close(along->demand, 1946000.0 / 1400e-6, 1e-12, 0.0);
    assert_close(along->station, 21.0, 0.0, 0.0);
    const kl_check_result *anchor = checks_row(f, "at the anchor after seating", KL_FACE_BOTH);
    assert_int_equal(anchor->state.index, 3);
    assert_close(anchor->demand, 1827000.0 / 1400e-6, 1e-12, 0.0);
    assert_int_equal(anchor->side, KL_LEFT);
    assert_false(anchor->passed); /* 1305 over 1302 */
}

static void kl_run_checks_tendon_in_service_takes_the_largest_of_the_range(void **state)
{
    checks_fixture *f = *state;
    checks_stress_tendon(f);
    f->check.condition = KL_IN_SERVICE;
    f->results.tendon[2] = (fake_course){1700000.0, 0.0, 0.0};
    checks_run(f);
    assert_int_equal(kl_check_result_count(f->report), 1);
    const kl_check_result *service = checks_row(f, "in service", KL_FACE_BOTH);
    assert_close(service->station, 30.0, 0.0, 0.0);
    assert_int_equal(service->state.index, 3);
    assert_close(service->demand, 1860000.0 / 1400e-6, 1e-12, 0.0);
    assert_close(service->limit, 0.80 * 1674.0 * MPA, 1e-12, 0.0);
    assert_true(service->passed);
}

/* 1 800 000 + 4000 x - 100 x^2 is largest at 20 m, where no row of the profile is: 1 840 000 N. */
static void kl_run_checks_tendon_in_service_finds_the_largest_between_points(void **state)
{
    checks_fixture *f = *state;
    checks_stress_tendon(f);
    f->check.condition = KL_IN_SERVICE;
    f->results.tendon[2] = (fake_course){1700000.0, 0.0, 0.0};
    f->results.tendon[3] = (fake_course){1800000.0, 4000.0, -100.0};
    checks_run(f);
    const kl_check_result *service = checks_row(f, "in service", KL_FACE_BOTH);
    assert_close(service->station, 20.0, 1e-12, 0.0);
    assert_close(service->demand, 1840000.0 / 1400e-6, 1e-12, 0.0);
}

/* Without a condition every limit is held; in service only at the end, after the losses. */
static void kl_run_checks_tendon_without_condition_takes_service_at_the_end(void **state)
{
    checks_fixture *f = *state;
    checks_stress_tendon(f);
    f->check.condition = KL_CONDITION_UNSET;
    f->results.tendon[2] = (fake_course){1900000.0, 0.0, 0.0};
    checks_run(f);
    assert_int_equal(kl_check_result_count(f->report), 4);
    const kl_check_result *service = checks_row(f, "in service", KL_FACE_BOTH);
    assert_int_equal(service->state.index, 3);
    assert_close(service->demand, 1860000.0 / 1400e-6, 1e-12, 0.0);
}

static void kl_run_checks_tendon_given_limit(void **state)
{
    checks_fixture *f = *state;
    checks_stress_tendon(f);
    f->check.rules = KL_RULES_NONE;
    f->check.tension = 1300.0 * MPA;
    checks_run(f);
    assert_int_equal(kl_check_result_count(f->report), 1);
    const kl_check_result *row = checks_row(f, "tension", KL_FACE_BOTH);
    assert_close(row->ratio, 1860000.0 / 1400e-6 / (1300.0 * MPA), 1e-12, 0.0);
    assert_false(row->passed);
}

/* ---- memory --------------------------------------------------------------------------------------------- */

static void kl_run_checks_any_allocation_may_fail(void **state)
{
    checks_fixture *f = *state;
    f->check.rules = KL_RULES_AASHTO_2020;
    f->results.top[2][0].a = -25.0 * MPA;
    kl_status status = KL_NO_MEMORY;
    long k = 0;
    for (; status != KL_OK; k++) {
        assert_true(k < 1000);
        fault_after(k);
        status = kl_run_checks(&f->results, f->diags, &f->report);
        const bool struck = fault_struck() != 0;
        fault_after(-1);
        if (status != KL_OK) {
            assert_true(struck);
            assert_int_equal(status, KL_NO_MEMORY);
            assert_null(f->report);
        }
    }
    assert_true(k > 2);
}

int main(void)
{
#define CHECKS_TEST(name) cmocka_unit_test_setup_teardown(name, checks_setup, checks_teardown)
    const struct CMUnitTest tests[] = {
        CHECKS_TEST(kl_run_checks_parabola_governs_at_its_vertex),
        CHECKS_TEST(kl_run_checks_strength_of_the_day_governs_by_ratio),
        CHECKS_TEST(kl_run_checks_service_takes_the_strength_at_28_days),
        CHECKS_TEST(kl_run_checks_tendon_is_bonded_from_its_grout_on),
        CHECKS_TEST(kl_run_checks_unbonded_tendon_allows_no_tension),
        CHECKS_TEST(kl_run_checks_given_limits_and_one_face),
        CHECKS_TEST(kl_run_checks_column_face_is_marked),
        CHECKS_TEST(kl_run_checks_missing_transfer_strength_fails_and_is_told),
        CHECKS_TEST(kl_run_checks_member_that_never_stands_fails_and_is_told),
        CHECKS_TEST(kl_run_checks_bare_section_fails_and_is_told),
        CHECKS_TEST(kl_run_checks_with_strength_and_stress_tells_neither),
        CHECKS_TEST(kl_run_checks_failure_on_the_way_is_told_for_after),
        CHECKS_TEST(kl_run_checks_failure_at_the_end_too_is_no_warning),
        CHECKS_TEST(kl_run_checks_tendon_limits_at_stressing),
        CHECKS_TEST(kl_run_checks_tendon_limits_take_the_worst_of_all_pulls),
        CHECKS_TEST(kl_run_checks_tendon_in_service_takes_the_largest_of_the_range),
        CHECKS_TEST(kl_run_checks_tendon_in_service_finds_the_largest_between_points),
        CHECKS_TEST(kl_run_checks_tendon_without_condition_takes_service_at_the_end),
        CHECKS_TEST(kl_run_checks_tendon_given_limit),
        CHECKS_TEST(kl_run_checks_any_allocation_may_fail),
    };
    return cmocka_run_group_tests(tests, NULL, NULL);
}
