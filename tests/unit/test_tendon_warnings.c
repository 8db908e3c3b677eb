/* test_tendon_warnings.c - each warning about a tendon: a model that draws it and one that does not.
 * SPDX-License-Identifier: MIT */
#include "assert_close.h"

#include <math.h>
#include <stdio.h>
#include <string.h>

#include "fault.h"
#include "tendon_frame.h"
#include "tendon_warnings.h"

#define ROWS(rows) (rows), (kl_index)(sizeof(rows) / sizeof((rows)[0]))
#define ROW(KIND, X, Y)                                                                            \
    {                                                                                              \
        .kind = (KIND), .station = (X), .ordinate = (Y)                                            \
    }
#define STRAIGHT_TO(KIND, X, Y)                                                                    \
    {                                                                                              \
        .kind = (KIND), .station = (X), .ordinate = (Y), .straight = true                          \
    }

/* A sound tendon: sections 2 m deep, 100 mm duct, radius 50 m, stressed to 0.7 of ultimate. */
static const kl_profile_row sound[] = {ROW(KL_ROW_ANCHOR, 0, 0.0), ROW(KL_ROW_LOW, 10, -0.5),
                                       ROW(KL_ROW_ANCHOR, 20, 0.0)};

static void start(tendon_frame *frame, const kl_profile_row *rows, kl_index count)
{
    tendon_frame_start(frame, 20.0, rows, count);
    kl_tendon *const t = &frame->tendons[0];
    t->duct = 0.1;
    t->units = 5.0;
    t->unit_area = 1.5e-4;
    t->jack_force = 0.7 * 1.86e9 * 7.5e-4;
    t->friction = 0.2;
    t->wobble = 0.002;
    t->seating = 0.001;
    t->has_friction = t->has_wobble = t->has_seating = true;
    t->ram_area = 0.02;
}

static void look(tendon_frame *frame)
{
    tendon_path path;
    force_curve before;
    force_curve after;
    force_record record;
    assert_int_equal(profile_build(&frame->model, 0, &frame->memory, frame->diags, &path), KL_OK);
    assert_int_equal(force_stress(&frame->model, 0, &path, 1.0, NULL, &frame->memory, frame->diags,
                                  &before, &after, &record),
                     KL_OK);
    assert_int_equal(tendon_warnings(&frame->model, 0, &path, &after, &record, frame->diags),
                     KL_OK);
}

static void assert_draws(tendon_frame *frame, const char *name)
{
    look(frame);
    assert_int_equal(kl_diags_count(frame->diags), 1);
    assert_string_equal(kl_diags_get(frame->diags, 0)->name, name);
    assert_int_equal(kl_diags_get(frame->diags, 0)->severity, KL_WARNING);
    tendon_frame_end(frame);
}

static void tendon_warnings_sound_tendon_draws_nothing(void **state)
{
    (void)state;
    tendon_frame frame;
    start(&frame, ROWS(sound));
    look(&frame);
    assert_int_equal(kl_diags_count(frame.diags), 0);
    tendon_frame_end(&frame);
}

static void tendon_warnings_duct_against_the_face(void **state)
{
    (void)state;
    const kl_profile_row near[] = {ROW(KL_ROW_ANCHOR, 0, 0.0), ROW(KL_ROW_LOW, 10, -0.92),
                                   ROW(KL_ROW_ANCHOR, 20, 0.0)};
    const kl_profile_row outside[] = {ROW(KL_ROW_ANCHOR, 0, 0.0), ROW(KL_ROW_LOW, 10, -0.96),
                                      ROW(KL_ROW_ANCHOR, 20, 0.0)};
    tendon_frame frame;
    start(&frame, ROWS(near));
    assert_draws(&frame, "duct-near-face");
    start(&frame, ROWS(outside));
    assert_draws(&frame, "duct-outside-section");
}

static void tendon_warnings_corner_and_radius(void **state)
{
    (void)state;
    const kl_profile_row harped[] = {ROW(KL_ROW_ANCHOR, 0, 0.0),
                                     STRAIGHT_TO(KL_ROW_THROUGH, 10, -0.5),
                                     STRAIGHT_TO(KL_ROW_ANCHOR, 20, 0.0)};
    /* y = 0.15 t^2: radius 3.33 m, and forty times 100 mm is 4 m */
    const kl_profile_row tight[] = {ROW(KL_ROW_ANCHOR, 8, 0.0), ROW(KL_ROW_LOW, 10, -0.6),
                                    ROW(KL_ROW_ANCHOR, 12, 0.0)};
    tendon_frame frame;
    start(&frame, ROWS(harped));
    frame.tendons[0].jack_force *= 0.9; /* little friction before the corner */
    assert_draws(&frame, "profile-corner");
    start(&frame, ROWS(tight));
    frame.tendons[0].seating = 0.0;
    frame.tendons[0].jack_force *= 0.9;
    assert_draws(&frame, "tight-radius");
    start(&frame, ROWS(tight));
    frame.tendons[0].seating = 0.0;
    frame.tendons[0].duct = 0.08; /* forty times that is 3.2 m */
    look(&frame);
    assert_int_equal(kl_diags_count(frame.diags), 0);
    tendon_frame_end(&frame);
}

static void tendon_warnings_stress_limits(void **state)
{
    (void)state;
    const double area = 7.5e-4;
    tendon_frame frame;
    start(&frame, ROWS(sound)); /* 0.90 f_py = 0.81 f_pu */
    frame.tendons[0].jack_force = 0.82 * 1.86e9 * area;
    frame.tendons[0].wobble = 0.02;
    look(&frame);
    assert_int_equal(tendon_frame_count(&frame, "jack-stress-high"), 1);
    tendon_frame_end(&frame);
    start(&frame, ROWS(sound)); /* no set: the anchor keeps all of 0.72 f_pu */
    frame.tendons[0].jack_force = 0.72 * 1.86e9 * area;
    frame.tendons[0].seating = 0.0;
    assert_draws(&frame, "anchor-stress-high");
    start(&frame, ROWS(sound));
    frame.tendons[0].jack_force = 0.76 * 1.86e9 * area;
    frame.tendons[0].seating = 0.0;
    look(&frame);
    assert_int_equal(tendon_frame_count(&frame, "tendon-stress-high"), 1);
    tendon_frame_end(&frame);
    start(&frame, ROWS(sound)); /* a bar may hold 0.70 along its length */
    frame.tendons[0].jack_force = 0.71 * 1.86e9 * area;
    frame.tendons[0].seating = 0.0;
    frame.tendons[0].is_bar = true;
    look(&frame);
    assert_int_equal(tendon_frame_count(&frame, "tendon-stress-high"), 1);
    tendon_frame_end(&frame);
}

static void tendon_warnings_seating_reaches_everything(void **state)
{
    (void)state;
    const kl_jack_ends ends[] = {KL_JACK_START, KL_JACK_BOTH};
    for (int i = 0; i < 2; i++) {
        tendon_frame frame;
        start(&frame, ROWS(sound));
        frame.tendons[0].seating = 0.02;
        frame.tendons[0].jack_ends = ends[i];
        look(&frame);
        assert_int_equal(kl_diags_count(frame.diags), 1);
        assert_string_equal(kl_diags_get(frame.diags, 0)->name, "seating-takes-whole-tendon");
        assert_non_null(kl_diags_get(frame.diags, 0)->hint);
        tendon_frame_end(&frame);
    }
    /* without friction the share is the set over the elongation: 1 %, also when a second pull brings back what the
     * first set took and seats again */
    const kl_jack_ends without[] = {KL_JACK_START, KL_JACK_START_THEN_END};
    for (int i = 0; i < 2; i++) {
        tendon_frame frame;
        start(&frame, ROWS(sound));
        frame.tendons[0].friction = frame.tendons[0].wobble = 0.0;
        frame.tendons[0].jack_ends = without[i];
        tendon_path path;
        assert_int_equal(profile_build(&frame.model, 0, &frame.memory, frame.diags, &path), KL_OK);
        frame.tendons[0].seating = 0.01 * 0.7 * 1.86e9 / 2e11 * path.length;
        look(&frame);
        assert_int_equal(tendon_frame_count(&frame, "seating-takes-whole-tendon"), 1);
        const kl_index last = kl_diags_count(frame.diags) - 1;
        assert_non_null(strstr(kl_diags_get(frame.diags, last)->message, " 1 %"));
        tendon_frame_end(&frame);
    }
}

/* A straight tendon, wobble only, one end after the other. A set runs over x where s E A = P (1 - exp(-K x))^2 / K. When x
 * is less than half the length, the second pull raises the second half alone and both sets leave a part as friction had
 * it. When it is more, the second pull draws all of the tendon and what is left of the first set is that it pulled from
 * the other end: nothing is as friction alone, the larger of both pulls, would leave it, whose sum is 2 P (1 - exp(-K L / 2)) / K.
 * What is there is P (1 - exp(-K L)) / K less s E A. */
static void tendon_warnings_seating_one_after_the_other(void **state)
{
    (void)state;
    const kl_profile_row level[] = {ROW(KL_ROW_ANCHOR, 0, 0.0),
                                    STRAIGHT_TO(KL_ROW_ANCHOR, 20, 0.0)};
    const double reaches[] = {0.3, 0.49, 0.51, 0.6, 0.99};
    const kl_jack_ends ends[] = {KL_JACK_START_THEN_END, KL_JACK_END_THEN_START};
    for (int i = 0; i < 10; i++) {
        tendon_frame frame;
        start(&frame, ROWS(level));
        kl_tendon *const t = &frame.tendons[0];
        const double reach = reaches[i / 2];
        const double k = t->wobble;
        const double sum = pow(1.0 - exp(-k * 20.0 * reach), 2.0) / k; /* s E A / P */
        t->seating = t->jack_force * sum / (2e11 * t->units * t->unit_area);
        t->jack_ends = ends[i % 2];
        look(&frame);
        assert_int_equal(tendon_frame_count(&frame, "seating-takes-whole-tendon"),
                         reach > 0.5 ? 1 : 0);
        if (reach > 0.5) {
            const double most = 2.0 * (1.0 - exp(-k * 10.0)) / k;
            const double left = (1.0 - exp(-k * 20.0)) / k - sum;
            char share[100];
            snprintf(share, sizeof share,
                     "both anchors together reaches all of tendon T1 and takes %.3g %%",
                     100.0 * (most - left) / most);
            const kl_index last = kl_diags_count(frame.diags) - 1;
            assert_non_null(strstr(kl_diags_get(frame.diags, last)->message, share));
        }
        tendon_frame_end(&frame);
    }
}

/* What is left out is named, all of it in one warning: friction where the tendon turns, seating where it has wedges. */
static void tendon_warnings_losses_not_given(void **state)
{
    (void)state;
    const kl_profile_row level[] = {ROW(KL_ROW_ANCHOR, 0, 0.0),
                                    STRAIGHT_TO(KL_ROW_ANCHOR, 20, 0.0)};
    const struct {
        bool is_straight, is_bar, friction, wobble, seating;
        const char *words; /* NULL: nothing is told */
    } cases[] = {
        {false, false, false, false, false, " says nothing of `friction`, `wobble` and `seating`:"},
        {false, false, true, false, false, " says nothing of `wobble` and `seating`:"},
        {false, false, false, true, false, " says nothing of `friction` and `seating`:"},
        {false, false, false, false, true, " says nothing of `friction` and `wobble`:"},
        {false, false, true, true, false, " says nothing of `seating`:"},
        {false, true, false, false, false, " says nothing of `friction` and `wobble`:"},
        {true, true, false, false, false, " says nothing of `wobble`:"},
        {true, false, false, true, false, " says nothing of `seating`:"},
        {true, true, false, true, false, NULL},
        {false, false, true, true, true, NULL},
    };
    for (size_t i = 0; i < sizeof cases / sizeof cases[0]; i++) {
        tendon_frame frame;
        if (cases[i].is_straight) {
            start(&frame, ROWS(level));
        } else {
            start(&frame, ROWS(sound));
        }
        kl_tendon *const t = &frame.tendons[0];
        t->friction = t->wobble = t->seating = 0.0;
        t->jack_force *= 0.9; /* nothing is lost: below the limits at the anchors all the same */
        t->ram_area *= 0.9;
        t->is_bar = cases[i].is_bar;
        t->has_friction = cases[i].friction;
        t->has_wobble = cases[i].wobble;
        t->has_seating = cases[i].seating;
        look(&frame);
        assert_int_equal(kl_diags_count(frame.diags), cases[i].words == NULL ? 0 : 1);
        if (cases[i].words != NULL) {
            assert_string_equal(kl_diags_get(frame.diags, 0)->name, "loss-not-given");
            assert_non_null(strstr(kl_diags_get(frame.diags, 0)->message, cases[i].words));
        }
        tendon_frame_end(&frame);
    }
}

static void tendon_warnings_ram(void **state)
{
    (void)state;
    tendon_frame frame;
    start(&frame, ROWS(sound)); /* 976.5 kN: 10.28 MPa, and 10.5 with what the anchorage takes */
    frame.tendons[0].ram_area = 0.095;
    assert_draws(&frame, "ram-too-large");
    start(&frame, ROWS(sound));
    frame.tendons[0].ram_area = 0.095;
    frame.tendons[0].jack_friction = 0.02;
    look(&frame);
    assert_int_equal(kl_diags_count(frame.diags), 0);
    frame.tendons[0].ram_area = NAN;
    look(&frame);
    assert_int_equal(kl_diags_count(frame.diags), 0);
    tendon_frame_end(&frame);
}

/* The second tendon as the first, with a profile of its own. */
static void start_pair(tendon_frame *frame, const kl_profile_row *other, kl_index count)
{
    start(frame, ROWS(sound));
    frame->tendons[1] = frame->tendons[0];
    frame->tendons[1].rows = other;
    frame->tendons[1].row_count = count;
    frame->model.tendon_count = 2;
}

static void look_at_ducts(tendon_frame *frame)
{
    tendon_path paths[2];
    for (kl_index i = 0; i < 2; i++) {
        assert_int_equal(profile_build(&frame->model, i, &frame->memory, frame->diags, &paths[i]),
                         KL_OK);
    }
    member_tendons through;
    assert_int_equal(member_tendons_make(&frame->model, &frame->memory, &through), KL_OK);
    assert_int_equal(tendon_warn_ducts(&frame->model, paths, &through, frame->diags), KL_OK);
}

static kl_index ducts_that_meet(const kl_profile_row *other, kl_index count)
{
    tendon_frame frame;
    start_pair(&frame, other, count);
    look_at_ducts(&frame);
    const kl_index met = tendon_frame_count(&frame, "ducts-meet");
    tendon_frame_end(&frame);
    return met;
}

static void assert_meet_at(tendon_frame *frame, const char *where)
{
    look_at_ducts(frame);
    assert_int_equal(kl_diags_count(frame->diags), 1);
    assert_non_null(strstr(kl_diags_get(frame->diags, 0)->message, where));
    tendon_frame_end(frame);
}

static void tendon_warn_ducts_crossing_and_not(void **state)
{
    (void)state;
    const kl_profile_row above[] = {ROW(KL_ROW_ANCHOR, 0, 0.2), ROW(KL_ROW_LOW, 10, -0.3),
                                    ROW(KL_ROW_ANCHOR, 20, 0.2)};
    const kl_profile_row across[] = {ROW(KL_ROW_ANCHOR, 0, -0.3),
                                     STRAIGHT_TO(KL_ROW_ANCHOR, 20, -0.3)};
    const kl_profile_row grazing[] = {ROW(KL_ROW_ANCHOR, 0, 0.3), ROW(KL_ROW_LOW, 10, -0.41),
                                      ROW(KL_ROW_ANCHOR, 20, 0.3)};
    assert_int_equal(ducts_that_meet(ROWS(above)), 0);
    assert_int_equal(ducts_that_meet(ROWS(sound)), 0); /* side by side all along */
    assert_int_equal(ducts_that_meet(ROWS(across)), 1);
    assert_int_equal(ducts_that_meet(ROWS(grazing)), 1);
}

/* 0.005 (s - 10)^2 - 0.5 m and -0.3 m cross where (s - 10)^2 = 40; a parabola 0.09 m above the lowest point there is
 * nearest there. */
static void tendon_warn_ducts_tells_where(void **state)
{
    (void)state;
    tendon_frame frame;
    const kl_profile_row across[] = {ROW(KL_ROW_ANCHOR, 0, -0.3),
                                     STRAIGHT_TO(KL_ROW_ANCHOR, 20, -0.3)};
    const kl_profile_row grazing[] = {ROW(KL_ROW_ANCHOR, 0, 0.3), ROW(KL_ROW_LOW, 10, -0.41),
                                      ROW(KL_ROW_ANCHOR, 20, 0.3)};
    start_pair(&frame, ROWS(across));
    frame.model.display.system = KL_UNITS_SI;
    assert_meet_at(&frame, "at 3.67544 m on");
    start_pair(&frame, ROWS(grazing));
    frame.model.display.system = KL_UNITS_SI;
    assert_meet_at(&frame, "at 10 m on");
}

/* The first runs down through members 0 and 1, the second up through 1 and 2: on member 1, 20 m long, they are at
 * 0.3 - 0.015 (20 + s) and -0.3 + 0.015 s. */
static void tendon_warn_ducts_on_the_member_they_share(void **state)
{
    (void)state;
    const double lengths[] = {20.0, 20.0, 20.0};
    const kl_index second[] = {1, 2};
    const kl_profile_row down[] = {ROW(KL_ROW_ANCHOR, 0, 0.3),
                                   STRAIGHT_TO(KL_ROW_ANCHOR, 40, -0.3)};
    const kl_profile_row up[] = {ROW(KL_ROW_ANCHOR, 0, -0.3), STRAIGHT_TO(KL_ROW_ANCHOR, 40, 0.3)};
    tendon_frame frame;
    start_pair(&frame, ROWS(up));
    tendon_frame_divide(&frame, lengths, 3);
    frame.members[1].name = "middle";
    frame.model.display.system = KL_UNITS_SI;
    frame.tendons[0].rows = down;
    frame.tendons[0].row_count = 2;
    frame.tendons[0].member_count = frame.tendons[1].member_count = 2;
    frame.tendons[1].members = second;
    assert_meet_at(&frame, "at 10 m on member middle");
    start_pair(&frame, ROWS(up)); /* they share no member */
    tendon_frame_divide(&frame, lengths, 3);
    frame.tendons[0].member_count = 1;
    frame.tendons[1].members = second;
    frame.tendons[1].member_count = 2;
    look_at_ducts(&frame);
    assert_int_equal(kl_diags_count(frame.diags), 0);
    tendon_frame_end(&frame);
}

static void tendon_warn_ducts_memory_short_is_told(void **state)
{
    (void)state;
    kl_status status = KL_NO_MEMORY;
    for (long k = 0; status != KL_OK; k++) {
        tendon_frame frame;
        tendon_path paths[2];
        member_tendons through;
        start_pair(&frame, ROWS(sound));
        for (kl_index i = 0; i < 2; i++) {
            assert_int_equal(profile_build(&frame.model, i, &frame.memory, frame.diags, &paths[i]),
                             KL_OK);
        }
        fault_after(k);
        status = member_tendons_make(&frame.model, &frame.memory, &through);
        if (status == KL_OK) {
            status = tendon_warn_ducts(&frame.model, paths, &through, frame.diags);
        }
        fault_after(-1);
        assert_true(status == KL_OK || status == KL_NO_MEMORY);
        tendon_frame_end(&frame);
    }
}

int main(void)
{
    const struct CMUnitTest tests[] = {
        cmocka_unit_test(tendon_warnings_sound_tendon_draws_nothing),
        cmocka_unit_test(tendon_warnings_duct_against_the_face),
        cmocka_unit_test(tendon_warnings_corner_and_radius),
        cmocka_unit_test(tendon_warnings_stress_limits),
        cmocka_unit_test(tendon_warnings_seating_reaches_everything),
        cmocka_unit_test(tendon_warnings_seating_one_after_the_other),
        cmocka_unit_test(tendon_warnings_losses_not_given),
        cmocka_unit_test(tendon_warnings_ram),
        cmocka_unit_test(tendon_warn_ducts_crossing_and_not),
        cmocka_unit_test(tendon_warn_ducts_tells_where),
        cmocka_unit_test(tendon_warn_ducts_on_the_member_they_share),
        cmocka_unit_test(tendon_warn_ducts_memory_short_is_told),
    };
    return cmocka_run_group_tests(tests, NULL, NULL);
}
