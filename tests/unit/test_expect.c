/* test_expect.c - expectations on results written by hand: signs, per post and per tendon, extremes, tolerances.
 * SPDX-License-Identifier: MIT */
#include "assert_close.h"

#include <string.h>

#include "expect.h"
#include "fake_results.h"

static kl_results expect_results;

static int expect_setup(void **state)
{
    (void)state;
    kl_results *r = &expect_results;
    fake_start(r);
    r->other[2][0] = (fake_course){1e3, 2e2, -10.0}; /* 1000 + 200 x - 10 x^2: 2000 at 10 m */
    r->other[3][0] = (fake_course){5e3, 0.0, 0.0};
    r->movement[3][1] = -0.012;
    r->reaction[3][2][KL_TURN] = 7e3;
    fake_row(r, 3, 2, 90e3);
    r->tendon[3] = (fake_course){1.8e6, -1e4, 0.0};
    r->pulls[0] = (kl_stressing){.step = 2, .elongation = {0.206, 0.034}, .grip = {0.006, 0.004}};
    r->pull_count = 1;
    return 0;
}

static kl_expectation expect_blank(kl_quantity quantity)
{
    return (kl_expectation){.quantity = quantity,
                            .member = KL_NONE,
                            .node = KL_NONE,
                            .tendon = KL_NONE,
                            .falsework = KL_NONE,
                            .station = fake_none,
                            .when = {KL_WHEN_AFTER, 1, 1},
                            .tolerance = 1e-3,
                            .tolerance_relative = true,
                            .source = ""};
}

static kl_expectation_result expect_run(const kl_expectation *e)
{
    arena memory = {0};
    kl_expectation_result out;
    expect_results.model.expectations = e;
    expect_results.model.expectation_count = 1;
    assert_int_equal(expect_evaluate(&expect_results, 0, &memory, &out), KL_OK);
    arena_free(&memory);
    return out;
}

static void expect_value_on_a_member_after_a_stage_is_its_last_step(void **state)
{
    (void)state;
    kl_expectation e = expect_blank(KL_MOMENT);
    e.member = 0;
    e.station = 10.0;
    e.value = 5e3;
    const kl_expectation_result r = expect_run(&e);
    assert_true(r.known && r.passed);
    assert_close(r.value, 5e3, 1e-12, 0.0);
    assert_int_equal(r.state.index, 3);
}

static void expect_min_during_takes_every_step(void **state)
{
    (void)state;
    kl_expectation e = expect_blank(KL_MOMENT);
    e.member = 0;
    e.station = 10.0;
    e.when.kind = KL_WHEN_DURING;
    e.extreme = KL_SMALLEST;
    e.value = 2e3;
    const kl_expectation_result r = expect_run(&e);
    assert_close(r.value, 2e3, 1e-12, 0.0);
    assert_int_equal(r.state.index, 2);
    assert_true(r.passed);
}

static void expect_max_without_a_station_looks_along_the_member(void **state)
{
    (void)state;
    kl_expectation e = expect_blank(KL_MOMENT);
    e.member = 0;
    e.extreme = KL_SMALLEST;
    e.when.kind = KL_WHEN_DURING;
    e.value = -2e3; /* 1000 + 6000 - 9000 at 30 m after T1 */
    const kl_expectation_result r = expect_run(&e);
    assert_close(r.value, -2e3, 1e-12, 0.0);
    assert_true(r.passed);
}

static void expect_camber_at_a_node_is_minus_its_deflection(void **state)
{
    (void)state;
    kl_expectation e = expect_blank(KL_CAMBER);
    e.node = 1;
    e.value = 0.012;
    assert_close(expect_run(&e).value, 0.012, 1e-12, 0.0);
    e.quantity = KL_DEFLECTION;
    assert_close(expect_run(&e).value, -0.012, 1e-12, 0.0);
}

static void expect_reaction_turn(void **state)
{
    (void)state;
    kl_expectation e = expect_blank(KL_REACTION);
    e.node = 2;
    e.direction = KL_TURN;
    e.value = 7e3;
    assert_true(expect_run(&e).passed);
}

static void expect_post_is_per_post_and_gone_after_release(void **state)
{
    (void)state;
    kl_expectation e = expect_blank(KL_POST);
    e.falsework = 0;
    e.station = 12.0;
    e.value = 45e3; /* 90 kN a row, two posts */
    assert_true(expect_run(&e).passed);
    e.when.first = e.when.last = 2;
    assert_false(expect_run(&e).known);
    assert_false(expect_run(&e).passed);
}

static void expect_largest_post_is_that_of_all_rows(void **state)
{
    (void)state;
    fake_row(&expect_results, 3, 0, 240e3); /* the others 200 and 90 kN, two posts each */
    fake_row(&expect_results, 3, 1, 20e3);
    kl_expectation e = expect_blank(KL_POST);
    e.falsework = 0;
    assert_false(expect_run(&e).known); /* which row? */
    e.extreme = KL_LARGEST;
    assert_close(expect_run(&e).value, 120e3, 1e-12, 0.0);
    e.extreme = KL_SMALLEST;
    assert_close(expect_run(&e).value, 10e3, 1e-12, 0.0);
    e.when.first = e.when.last = 2; /* released */
    assert_false(expect_run(&e).known);
}

static void expect_post_between_rows_is_unknown(void **state)
{
    (void)state;
    kl_expectation e = expect_blank(KL_POST);
    e.falsework = 0;
    e.station = 13.0;
    assert_false(expect_run(&e).known);
}

static void expect_tendon_force_one_or_total(void **state)
{
    (void)state;
    kl_expectation e = expect_blank(KL_TENDON_FORCE);
    e.tendon = 0;
    e.station = 15.0;
    assert_close(expect_run(&e).value, 1.65e6, 1e-12, 0.0);
    e.tendon_total = true; /* a group of three */
    assert_close(expect_run(&e).value, 4.95e6, 1e-12, 0.0);
}

static void expect_elongation_has_the_grip_and_only_jacked_ends(void **state)
{
    (void)state;
    kl_expectation e = expect_blank(KL_ELONGATION);
    e.tendon = 0;
    e.station = 0.0;
    assert_close(expect_run(&e).value, 0.206, 1e-12, 0.0);
    e.station = fake_none; /* the end: not jacked */
    assert_close(expect_run(&e).value, 0.0, 0.0, 0.0);
    fake_tendons[0].jack_ends = KL_JACK_START_THEN_END;
    assert_close(expect_run(&e).value, 0.034, 1e-12, 0.0);
    fake_tendons[0].jack_ends = KL_JACK_START;
    e.when.first = e.when.last = 0; /* before it is stressed */
    assert_false(expect_run(&e).known);
}

/* Half the force in step 1, the whole in step 2. */
static void expect_elongation_is_that_of_the_last_pull_till_then(void **state)
{
    (void)state;
    kl_results *r = &expect_results;
    kl_expectation e = expect_blank(KL_ELONGATION);
    r->pulls[0] = (kl_stressing){.step = 1, .share = 0.5, .elongation = {0.103, 0.0}};
    r->pulls[1] = (kl_stressing){.step = 2, .share = 1.0, .elongation = {0.104, 0.0}};
    r->pull_count = 2;
    e.tendon = 0;
    e.station = 0.0;
    assert_close(expect_run(&e).value, 0.104, 1e-12, 0.0);
    e.when.first = e.when.last = 0;
    assert_close(expect_run(&e).value, 0.103, 1e-12, 0.0);
}

static void expect_cause_is_asked_for(void **state)
{
    (void)state;
    kl_expectation e = expect_blank(KL_MOMENT);
    e.member = 0;
    e.station = 0.0;
    e.cause = (kl_cause){KL_CAUSE_WEIGHT, KL_NONE};
    assert_int_equal(expect_run(&e).state.cause.kind, KL_CAUSE_WEIGHT);
}

typedef struct tolerance_case {
    double value, tolerance;
    bool relative, passes;
} tolerance_case;

/* The computed value is 5000. */
static void expect_tolerance_absolute_and_relative(void **state)
{
    (void)state;
    static const tolerance_case cases[] = {
        {5000.0, 0.0, false, true},   {5004.9, 1e-3, true, true},   {5005.0, 1e-3, true, true},
        {5005.1, 1e-3, false, false}, {5010.0, 1e-3, true, false},  {4990.0, 10.0, false, true},
        {4989.0, 10.0, false, false}, {-5000.0, 1e-3, true, false}, {0.0, 1e-3, true, false},
    };
    for (size_t i = 0; i < sizeof cases / sizeof cases[0]; i++) {
        kl_expectation e = expect_blank(KL_MOMENT);
        e.member = 0;
        e.station = 0.0;
        e.value = cases[i].value;
        e.tolerance = cases[i].tolerance;
        e.tolerance_relative = cases[i].relative;
        const kl_expectation_result r = expect_run(&e);
        assert_int_equal(r.passed, cases[i].passes);
        assert_close(r.difference, 5000.0 - cases[i].value, 1e-12, 0.0);
    }
}

static void expect_member_that_does_not_stand_is_unknown(void **state)
{
    (void)state;
    kl_expectation e = expect_blank(KL_MOMENT);
    e.member = 0;
    e.station = 0.0;
    expect_results.absent[3][0] = true;
    assert_false(expect_run(&e).known);
}

int main(void)
{
    const struct CMUnitTest tests[] = {
        cmocka_unit_test_setup(expect_value_on_a_member_after_a_stage_is_its_last_step,
                               expect_setup),
        cmocka_unit_test_setup(expect_min_during_takes_every_step, expect_setup),
        cmocka_unit_test_setup(expect_max_without_a_station_looks_along_the_member, expect_setup),
        cmocka_unit_test_setup(expect_camber_at_a_node_is_minus_its_deflection, expect_setup),
        cmocka_unit_test_setup(expect_reaction_turn, expect_setup),
        cmocka_unit_test_setup(expect_post_is_per_post_and_gone_after_release, expect_setup),
        cmocka_unit_test_setup(expect_largest_post_is_that_of_all_rows, expect_setup),
        cmocka_unit_test_setup(expect_post_between_rows_is_unknown, expect_setup),
        cmocka_unit_test_setup(expect_tendon_force_one_or_total, expect_setup),
        cmocka_unit_test_setup(expect_elongation_has_the_grip_and_only_jacked_ends, expect_setup),
        cmocka_unit_test_setup(expect_elongation_is_that_of_the_last_pull_till_then, expect_setup),
        cmocka_unit_test_setup(expect_cause_is_asked_for, expect_setup),
        cmocka_unit_test_setup(expect_tolerance_absolute_and_relative, expect_setup),
        cmocka_unit_test_setup(expect_member_that_does_not_stand_is_unknown, expect_setup),
    };
    return cmocka_run_group_tests(tests, NULL, NULL);
}
