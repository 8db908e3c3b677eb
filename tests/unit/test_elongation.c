/* test_elongation.c - elongations and their parts against closed forms of straight tendons.
 *
 * A straight tendon with wobble K, pulled with P: P (1 - exp(-K L))/(K E A).
 * SPDX-License-Identifier: MIT */
#include "assert_close.h"

#include <math.h>

#include "elongation.h"
#include "fault.h"
#include "tendon_frame.h"

#define EXACT 1e-12
#define EA    1e8
#define PJ    1e6
#define L     40.0
#define K     0.002

static const kl_profile_row straight[] = {
    {.kind = KL_ROW_ANCHOR, .station = 0.0, .ordinate = 0.0},
    {.kind = KL_ROW_ANCHOR, .station = L, .ordinate = 0.0, .straight = true}};

typedef struct pull {
    tendon_frame frame;
    tendon_path path;
    force_curve before, after;
    force_record record;
} pull;

static void start(pull *p, kl_jack_ends ends)
{
    tendon_frame_start(&p->frame, L, straight, 2);
    kl_tendon *const t = &p->frame.tendons[0];
    t->wobble = K;
    t->seating = 0.003;
    t->jack_ends = ends;
    assert_int_equal(profile_build(&p->frame.model, 0, &p->frame.memory, p->frame.diags, &p->path),
                     KL_OK);
}

static void stress(pull *p)
{
    assert_int_equal(force_stress(&p->frame.model, 0, &p->path, 1.0, NULL, &p->frame.memory,
                                  p->frame.diags, &p->before, &p->after, &p->record),
                     KL_OK);
}

static void read_both(pull *p, const force_curve *locked, elongation_reading readings[2])
{
    assert_int_equal(elongation_readings(&p->frame.model, 0, &p->path, 1.0, locked,
                                         &p->frame.memory, p->frame.diags, readings),
                     KL_OK);
}

static double full(double length)
{
    return PJ * -expm1(-K * length) / K / EA;
}

static void elongation_between_part_of_a_tendon(void **state)
{
    (void)state;
    pull p;
    start(&p, KL_JACK_START);
    stress(&p);
    double got = 0.0;
    assert_int_equal(elongation_between(&p.frame.model, 0, &p.path, NULL, &p.before, 10.0, 30.0,
                                        &p.frame.memory, &got),
                     KL_OK);
    assert_close(got, full(30.0) - full(10.0), EXACT, 0.0);
    /* what seating took back is the set, with the sign of a loss */
    assert_int_equal(elongation_between(&p.frame.model, 0, &p.path, &p.before, &p.after, 0.0, L,
                                        &p.frame.memory, &got),
                     KL_OK);
    assert_close(got, -0.003, 1e-11, 0.0);
    tendon_frame_end(&p.frame);
}

static void elongation_readings_state_each_part(void **state)
{
    (void)state;
    pull p;
    start(&p, KL_JACK_START);
    kl_tendon *const t = &p.frame.tendons[0];
    t->reference = 0.2;
    t->grip = 0.9;
    t->dead_end = 0.004;
    elongation_reading r[2];
    read_both(&p, NULL, r);
    const double grip = 0.9 * PJ / EA;
    assert_close(r[0].tendon, full(L), EXACT, 0.0);
    assert_close(r[0].grip, grip, EXACT, 0.0);
    assert_close(r[0].before_reference, 0.2 * (full(L) + grip), EXACT, 0.0);
    assert_close(r[0].dead_end, 0.004, EXACT, 0.0);
    assert_close(r[0].expected, 0.8 * (full(L) + grip) + 0.004, EXACT, 0.0);
    assert_close(r[1].expected, 0.0, 0.0, 0.0);
    tendon_frame_end(&p.frame);
}

static void elongation_readings_both_ends_share_the_length(void **state)
{
    (void)state;
    pull p;
    start(&p, KL_JACK_BOTH);
    p.frame.tendons[0].dead_end = 0.004;
    elongation_reading r[2];
    read_both(&p, NULL, r);
    for (int e = 0; e < 2; e++) {
        assert_close(r[e].tendon, full(0.5 * L), 1e-11, 0.0);
        assert_close(r[e].dead_end, 0.0, 0.0,
                     0.0); /* both anchors are pulled: neither draws in unseen */
    }
    tendon_frame_end(&p.frame);
}

static void elongation_readings_second_end_counts_what_is_new(void **state)
{
    (void)state;
    pull p;
    start(&p, KL_JACK_START_THEN_END);
    p.frame.tendons[0].reference = 0.2;
    p.frame.tendons[0].grip = 0.9;
    elongation_reading r[2];
    read_both(&p, NULL, r);
    const double grip = 0.9 * PJ / EA;
    /* the first end lets back 3 mm over z; the second pull gains from where the curves cross (the middle) to its end */
    const double z = -log(1 - sqrt(0.003 * EA * K / PJ)) / K;
    assert_true(z < 0.5 * L);
    assert_close(r[0].tendon, full(L), EXACT, 0.0);
    assert_close(r[1].tendon, full(0.5 * L) - (full(L) - full(0.5 * L)), 1e-11, 0.0);
    /* at the first reading the locked force still holds: nothing but the grip has stretched */
    assert_close(r[1].before_reference, 0.2 * grip, EXACT, 0.0);
    tendon_frame_end(&p.frame);
}

static void elongation_readings_to_a_share_is_that_share(void **state)
{
    (void)state;
    pull p;
    start(&p, KL_JACK_END);
    elongation_reading half[2];
    elongation_reading whole[2];
    assert_int_equal(elongation_readings(&p.frame.model, 0, &p.path, 0.5, NULL, &p.frame.memory,
                                         p.frame.diags, half),
                     KL_OK);
    read_both(&p, NULL, whole);
    assert_close(half[1].expected, 0.5 * whole[1].expected, EXACT, 0.0);
    assert_close(elongation_grip(&p.frame.model, 0, PJ), 0.0, 0.0, 0.0);
    tendon_frame_end(&p.frame);
}

static void elongation_readings_memory_short_is_told(void **state)
{
    (void)state;
    kl_status status = KL_NO_MEMORY;
    for (long k = 0; status != KL_OK; k++) {
        pull p;
        elongation_reading r[2];
        start(&p, KL_JACK_START_THEN_END);
        p.frame.tendons[0].reference = 0.2;
        fault_after(k);
        status = elongation_readings(&p.frame.model, 0, &p.path, 1.0, NULL, &p.frame.memory,
                                     p.frame.diags, r);
        fault_after(-1);
        assert_true(status == KL_OK || status == KL_NO_MEMORY);
        tendon_frame_end(&p.frame);
    }
}

int main(void)
{
    const struct CMUnitTest tests[] = {
        cmocka_unit_test(elongation_between_part_of_a_tendon),
        cmocka_unit_test(elongation_readings_state_each_part),
        cmocka_unit_test(elongation_readings_both_ends_share_the_length),
        cmocka_unit_test(elongation_readings_second_end_counts_what_is_new),
        cmocka_unit_test(elongation_readings_to_a_share_is_that_share),
        cmocka_unit_test(elongation_readings_memory_short_is_told),
    };
    return cmocka_run_group_tests(tests, NULL, NULL);
}
