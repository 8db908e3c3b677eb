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

/* What end e has moved when its jack has come to a share of the force. */
static double moved(pull *p, int e, double share)
{
    double movement = NAN;
    cell_book book;
    assert_int_equal(cell_book_make(&p->frame.tendons[0], &p->path, &p->frame.memory, &book),
                     KL_OK);
    assert_int_equal(elongation_at(&book, EA, &p->record.draw[e], e == 1, share * PJ,
                                   &p->frame.memory, &movement),
                     KL_OK);
    return movement;
}

static double full(double length)
{
    return PJ * -expm1(-K * length) / K / EA;
}

static void elongation_at_from_slack_is_in_proportion(void **state)
{
    (void)state;
    pull p;
    start(&p, KL_JACK_START);
    p.frame.tendons[0].reference = 0.2;
    stress(&p);
    assert_close(p.record.elongation[0], full(L), EXACT, 0.0);
    assert_close(p.record.at_reference[0], 0.2 * full(L), EXACT, 0.0);
    assert_close(moved(&p, 0, 1.0), full(L), EXACT, 0.0);
    assert_close(moved(&p, 0, 0.6), 0.6 * full(L), EXACT, 0.0);
    assert_close(moved(&p, 0, 0.0), 0.0, 0.0, 0.0);
    tendon_frame_end(&p.frame);
}

/* Two jacks at once: each draws half the length. */
static void elongation_at_both_ends_share_the_length(void **state)
{
    (void)state;
    pull p;
    start(&p, KL_JACK_BOTH);
    stress(&p);
    for (int e = 0; e < 2; e++) {
        assert_close(p.record.elongation[e], full(0.5 * L), 1e-11, 0.0);
        assert_close(moved(&p, e, 0.4), 0.4 * full(0.5 * L), 1e-11, 0.0);
    }
    tendon_frame_end(&p.frame);
}

/* The first end lets back 3 mm over z. At a share s of its force the second jack exceeds what is locked from x on, where
 * s exp(-K (L - x)) = exp(-K x): x = L/2 - ln(s)/(2 K). */
static double second_end(double s)
{
    const double x = 0.5 * L - log(s) / (2.0 * K);
    return x < L ? s * full(L - x) - (full(L) - full(x)) : 0.0;
}

static void elongation_at_second_end_waits_for_what_is_locked(void **state)
{
    (void)state;
    pull p;
    start(&p, KL_JACK_START_THEN_END);
    p.frame.tendons[0].reference = 0.2;
    stress(&p);
    const double z = -log(1 - sqrt(0.003 * EA * K / PJ)) / K;
    assert_true(z < 0.5 * L);
    assert_close(p.record.elongation[0], full(L), EXACT, 0.0);
    assert_close(p.record.elongation[1], second_end(1.0), 1e-11, 0.0);
    assert_close(p.record.at_reference[1], 0.0, 0.0, 0.0);
    assert_close(moved(&p, 1, 1.0), second_end(1.0), 1e-11, 0.0);
    assert_close(moved(&p, 1, 0.96), second_end(0.96), 1e-10, 0.0);
    assert_close(moved(&p, 1, 0.92), 0.0, 0.0, 0.0); /* locked there: exp(-K L) = 0.923 */
    tendon_frame_end(&p.frame);
}

static void elongation_at_memory_short_is_told(void **state)
{
    (void)state;
    kl_status status = KL_NO_MEMORY;
    for (long k = 0; status != KL_OK; k++) {
        pull p;
        cell_book book;
        double movement;
        arena memory = {0};
        start(&p, KL_JACK_START_THEN_END);
        stress(&p);
        fault_after(k);
        status = cell_book_make(&p.frame.tendons[0], &p.path, &memory, &book);
        if (status == KL_OK) {
            status = elongation_at(&book, EA, &p.record.draw[1], true, PJ, &memory, &movement);
        }
        fault_after(-1);
        assert_true(status == KL_OK || status == KL_NO_MEMORY);
        arena_free(&memory);
        tendon_frame_end(&p.frame);
    }
}

int main(void)
{
    const struct CMUnitTest tests[] = {
        cmocka_unit_test(elongation_at_from_slack_is_in_proportion),
        cmocka_unit_test(elongation_at_both_ends_share_the_length),
        cmocka_unit_test(elongation_at_second_end_waits_for_what_is_locked),
        cmocka_unit_test(elongation_at_memory_short_is_told),
    };
    return cmocka_run_group_tests(tests, NULL, NULL);
}
