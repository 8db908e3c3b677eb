/* test_force.c - forces along tendons against closed forms, dense integration of each end's set, and symmetry.
 *
 * Closed form of a straight tendon (phi = K x): the set taken by exact reversal up to z is P (1 - exp(-K z))^2/(K E A).
 * SPDX-License-Identifier: MIT */
#include "assert_close.h"

#include <math.h>

#include "fault.h"
#include "force.h"
#include "near.h"
#include "tendon_frame.h"

#define EXACT      1e-12
#define EA         1e8 /* of tendon_frame */
#define PJ         1e6
#define ROWS(rows) (rows), (kl_index)(sizeof(rows) / sizeof((rows)[0]))

#define ANCHOR(X, Y)                                                                               \
    {                                                                                              \
        .kind = KL_ROW_ANCHOR, .station = (X), .ordinate = (Y)                                     \
    }
#define HIGH(X, Y)                                                                                 \
    {                                                                                              \
        .kind = KL_ROW_HIGH, .station = (X), .ordinate = (Y)                                       \
    }
#define LOW(X, Y)                                                                                  \
    {                                                                                              \
        .kind = KL_ROW_LOW, .station = (X), .ordinate = (Y)                                        \
    }
#define INFLECTION(X)                                                                              \
    {                                                                                              \
        .kind = KL_ROW_INFLECTION, .station = (X), .ordinate = NAN                                 \
    }
#define STRAIGHT_TO(KIND, X, Y)                                                                    \
    {                                                                                              \
        .kind = (KIND), .station = (X), .ordinate = (Y), .straight = true                          \
    }

static const kl_profile_row straight[] = {ANCHOR(0, 0.0), STRAIGHT_TO(KL_ROW_ANCHOR, 40, 0.0)};
static const kl_profile_row harped[] = {ANCHOR(0, 0.0), STRAIGHT_TO(KL_ROW_THROUGH, 10, -1.0),
                                        STRAIGHT_TO(KL_ROW_ANCHOR, 40, -1.0)};
static const kl_profile_row draped[] = {ANCHOR(0, 0.2), LOW(16, -0.8),  INFLECTION(32),
                                        HIGH(36, 0.8),  INFLECTION(40), LOW(56, -0.8),
                                        ANCHOR(80, 0.3)};
static const kl_profile_row drape_image[] = {ANCHOR(0, 0.3), LOW(24, -0.8),  INFLECTION(40),
                                             HIGH(44, 0.8),  INFLECTION(48), LOW(64, -0.8),
                                             ANCHOR(80, 0.2)};
static const kl_profile_row even[] = {ANCHOR(0, 0.2), LOW(16, -0.8), INFLECTION(32), HIGH(40, 0.8),
                                      INFLECTION(48), LOW(64, -0.8), ANCHOR(80, 0.2)};

typedef struct stressing {
    tendon_frame frame;
    tendon_path path;
    force_curve before, after;
    force_record record;
} stressing;

static void start(stressing *s,
                  const kl_profile_row *rows,
                  kl_index count,
                  double mu,
                  double wobble,
                  double set,
                  kl_jack_ends ends)
{
    tendon_frame_start(&s->frame, rows[count - 1].station, rows, count);
    kl_tendon *const t = &s->frame.tendons[0];
    t->friction = mu;
    t->wobble = wobble;
    t->seating = set;
    t->jack_ends = ends;
    assert_int_equal(profile_build(&s->frame.model, 0, &s->frame.memory, s->frame.diags, &s->path),
                     KL_OK);
}

static kl_status stress(stressing *s, double share, const force_curve *locked)
{
    return force_stress(&s->frame.model, 0, &s->path, share, locked, &s->frame.memory,
                        s->frame.diags, &s->before, &s->after, &s->record);
}

static void run(stressing *s,
                const kl_profile_row *rows,
                kl_index count,
                double mu,
                double wobble,
                double set,
                kl_jack_ends ends)
{
    start(s, rows, count, mu, wobble, set, ends);
    assert_int_equal(stress(s, 1.0, NULL), KL_OK);
}

static double force(const stressing *s, const force_curve *curve, double x, kl_side side)
{
    return force_at(&s->frame.tendons[0], &s->path, curve, x, side);
}

/* The loss of elongation over from … to by a dense midpoint sum between all breaks: knows nothing of closed forms. */
static double dense_movement(stressing *s, double from, double to)
{
    double breaks[64];
    kl_index n = 0;
    const force_curve *const curves[] = {&s->before, &s->after};
    for (int c = 0; c < 2; c++) {
        const double *x = NULL;
        kl_index count = 0;
        assert_int_equal(force_breaks(&s->path, curves[c], &s->frame.memory, &x, &count), KL_OK);
        for (kl_index i = 0; i < count; i++) {
            breaks[n++] = x[i];
        }
    }
    double sum = 0.0;
    double low = from;
    while (low < to) {
        double high = to;
        for (kl_index i = 0; i < n; i++) {
            high = breaks[i] > low && breaks[i] < high ? breaks[i] : high;
        }
        const int steps = 4000;
        const double h = (high - low) / steps;
        for (int i = 0; i < steps; i++) {
            const double x = low + (i + 0.5) * h;
            const path_point p = profile_at(&s->path, x, KL_LEFT);
            sum += (force(s, &s->before, x, KL_LEFT) - force(s, &s->after, x, KL_LEFT)) *
                   hypot(1, p.slope) * h;
        }
        low = high;
    }
    return sum / EA;
}

static void force_stress_one_end_loses_by_friction(void **state)
{
    (void)state;
    stressing s;
    run(&s, ROWS(draped), 0.2, 0.001, 0.0, KL_JACK_START);
    for (int i = 0; i <= 40; i++) {
        const path_point p = profile_at(&s.path, 2.0 * i, KL_LEFT);
        const double want = PJ * exp(-(0.2 * p.alpha + 0.001 * p.length));
        assert_close(force(&s, &s.after, 2.0 * i, KL_LEFT), want, EXACT, 0.0);
    }
    assert_close(s.record.force_at[0], PJ, EXACT, 0.0);
    assert_close(s.record.seating_length[0], 0.0, 0.0, 0.0);
    assert_true(isnan(s.record.seating_length[1]));
    tendon_frame_end(&s.frame);
}

static void force_stress_straight_wobble_seats_by_closed_form(void **state)
{
    (void)state;
    const double k = 0.004;
    const double set = 0.004;
    stressing s;
    run(&s, ROWS(straight), 0.3, k, set, KL_JACK_START);
    const double z = -log(1 - sqrt(set * EA * k / PJ)) / k;
    assert_true(z < 40.0);
    assert_close(s.record.seating_length[0], z, EXACT, 0.0);
    assert_close(s.record.still[0], z, EXACT, 0.0);
    assert_close(s.record.force_at[0], PJ * exp(-2 * k * z), 1e-13, 0.0);
    assert_close(force(&s, &s.after, 0.5 * z, KL_LEFT), PJ * exp(-1.5 * k * z), 1e-13, 0.0);
    assert_close(force(&s, &s.after, 35.0, KL_LEFT), PJ * exp(-k * 35.0), 1e-13, 0.0);
    assert_false(s.record.reaches_far_end);
    assert_close(s.record.elongation[0], PJ * (1 - exp(-k * 40)) / k / EA, EXACT, 0.0);
    tendon_frame_end(&s.frame);
}

static void force_stress_short_tendon_slips_to_the_far_anchor(void **state)
{
    (void)state;
    const double k = 0.001;
    const double set = 0.02; /* up to the far anchor 0.0154 */
    stressing s;
    run(&s, ROWS(straight), 0.3, k, set, KL_JACK_END);
    const double level = (PJ * (1 - exp(-k * 40)) / k - set * EA) / (expm1(k * 40) / k);
    assert_true(s.record.reaches_far_end);
    assert_close(s.record.seating_length[1], 40.0, EXACT, 0.0);
    assert_close(s.record.force_at[1], level, EXACT, 0.0);
    assert_close(s.record.force_at[0], level * exp(k * 40), EXACT, 0.0);
    assert_true(s.record.force_at[0] < PJ * exp(-k * 40));
    tendon_frame_end(&s.frame);
}

static void force_stress_without_friction_loses_set_over_length(void **state)
{
    (void)state;
    stressing s;
    run(&s, ROWS(straight), 0.0, 0.0, 0.006, KL_JACK_START);
    assert_close(s.record.force_at[0], PJ - EA * 0.006 / 40, EXACT, 0.0);
    assert_close(s.record.force_at[1], PJ - EA * 0.006 / 40, EXACT, 0.0);
    tendon_frame_end(&s.frame);
    run(&s, ROWS(straight), 0.0, 0.0, 0.006, KL_JACK_BOTH);
    assert_close(s.record.force_at[0], PJ - EA * 0.012 / 40, EXACT, 0.0);
    assert_close(s.record.force_at[1], PJ - EA * 0.012 / 40, EXACT, 0.0);
    assert_close(s.record.elongation[0], 0.5 * PJ * 40 / EA, EXACT, 0.0);
    assert_close(s.record.elongation[1], 0.5 * PJ * 40 / EA, EXACT, 0.0);
    assert_close(s.record.still[0], 20.0, 1e-6, 0.0);
    tendon_frame_end(&s.frame);
}

static void force_stress_harped_still_point_inside_the_step(void **state)
{
    (void)state;
    const double mu = 0.25;
    const double theta = atan(0.1);
    const double a = hypot(10, 1);
    const double step = exp(-mu * theta);
    const double most = PJ * (1 - step * step) * a / EA; /* set that turns the whole step round */
    stressing s;
    run(&s, ROWS(harped), mu, 0.0, 0.6 * most, KL_JACK_START);
    assert_close(s.record.force_at[0], PJ - 0.6 * most * EA / a, EXACT, 0.0);
    assert_close(force(&s, &s.after, 10, KL_LEFT), PJ - 0.6 * most * EA / a, EXACT, 0.0);
    assert_close(force(&s, &s.after, 10, KL_RIGHT), PJ * step, EXACT, 0.0);
    assert_close(s.record.still[0], 10.0, EXACT, 0.0);
    assert_false(s.record.reaches_far_end);
    tendon_frame_end(&s.frame);
    /* more: nothing holds beyond the corner, the slip runs to the far anchor */
    const double set = 2.0 * most;
    run(&s, ROWS(harped), mu, 0.0, set, KL_JACK_START);
    const double level = (PJ * a + PJ * step * 30 - set * EA) / (a + 30 / step);
    assert_close(s.record.force_at[0], level, EXACT, 0.0);
    assert_close(s.record.force_at[1], level / step, EXACT, 0.0);
    assert_true(s.record.reaches_far_end);
    tendon_frame_end(&s.frame);
}

static void force_stress_set_is_met_by_dense_integration(void **state)
{
    (void)state;
    const double sets[] = {1e-4, 2e-3, 6e-3, 2e-2, 8e-2};
    for (int i = 0; i < 5; i++) {
        for (int end = 0; end < 2; end++) {
            stressing s;
            run(&s, ROWS(draped), 0.2, 0.001, sets[i], end == 0 ? KL_JACK_START : KL_JACK_END);
            assert_close(dense_movement(&s, 0, 80), sets[i], 1e-6, 0.0);
            const double z = s.record.still[end];
            const double product = force(&s, &s.after, end == 0 ? 0.0 : 80.0, KL_RIGHT) * PJ;
            if (!s.record.reaches_far_end) { /* A = P(z)^2/P on the tendon's own pulling curve */
                assert_close(product, pow(force(&s, &s.before, z, KL_LEFT), 2), EXACT, 0.0);
            }
            tendon_frame_end(&s.frame);
        }
    }
}

static void force_stress_both_ends_meet_and_each_set_is_met(void **state)
{
    (void)state;
    const double sets[] = {4e-3, 1.2e-2, 3e-2, 8e-2}; /* apart, and three that meet */
    for (int i = 0; i < 4; i++) {
        stressing s;
        run(&s, ROWS(draped), 0.2, 0.001, sets[i], KL_JACK_BOTH);
        const double z[2] = {s.record.still[0], s.record.still[1]};
        assert_true(z[0] <= z[1]);
        assert_close(dense_movement(&s, 0, z[0]), sets[i], 1e-6, 0.0);
        assert_close(dense_movement(&s, z[1], 80), sets[i], 1e-6, 0.0);
        assert_close(dense_movement(&s, z[0], z[1]), 0.0, 0.0, 1e-12);
        assert_close(force(&s, &s.after, z[0], KL_LEFT), force(&s, &s.after, z[0], KL_RIGHT), EXACT,
                     0.0);
        assert_false(s.record.reaches_far_end);
        tendon_frame_end(&s.frame);
    }
}

static void force_stress_both_ends_meet_inside_a_corner(void **state)
{
    (void)state;
    const kl_profile_row rows[] = {ANCHOR(0, 0.0), STRAIGHT_TO(KL_ROW_THROUGH, 20, -2.0),
                                   STRAIGHT_TO(KL_ROW_ANCHOR, 42, 0.0)};
    stressing s;
    run(&s, ROWS(rows), 0.2, 0.0, 0.02, KL_JACK_BOTH);
    /* nothing but the corner holds: each side loses its own set evenly */
    const double drop[2] = {0.02 * EA / hypot(20, 2), 0.02 * EA / hypot(22, 2)};
    assert_close(s.record.still[0], 20.0, EXACT, 0.0);
    assert_close(s.record.still[1], 20.0, EXACT, 0.0);
    assert_close(s.record.force_at[0], PJ - drop[0], EXACT, 0.0);
    assert_close(s.record.force_at[1], PJ - drop[1], EXACT, 0.0);
    tendon_frame_end(&s.frame);
}

static void force_stress_both_is_the_larger_of_two(void **state)
{
    (void)state;
    stressing s;
    run(&s, ROWS(draped), 0.2, 0.001, 0.0, KL_JACK_BOTH);
    const double whole = 0.2 * s.path.alpha + 0.001 * s.path.length;
    for (int i = 0; i <= 160; i++) {
        const path_point p = profile_at(&s.path, 0.5 * i, KL_LEFT);
        const double phi = 0.2 * p.alpha + 0.001 * p.length;
        assert_close(force(&s, &s.after, 0.5 * i, KL_LEFT), PJ * exp(-fmin(phi, whole - phi)),
                     EXACT, 0.0);
    }
    tendon_frame_end(&s.frame);
}

static void force_stress_symmetric_tendon_stays_symmetric(void **state)
{
    (void)state;
    const double sets[] = {0.0, 4e-3, 3e-2};
    for (int k = 0; k < 3; k++) {
        stressing s;
        run(&s, ROWS(even), 0.2, 0.001, sets[k], KL_JACK_BOTH);
        for (int i = 0; i <= 40; i++) {
            assert_close(force(&s, &s.after, i, KL_RIGHT), force(&s, &s.after, 80 - i, KL_LEFT),
                         EXACT, 0.0);
        }
        assert_close(s.record.elongation[0], s.record.elongation[1], EXACT, 0.0);
        assert_close(s.record.seating_length[0], s.record.seating_length[1], 1e-11, 0.0);
        tendon_frame_end(&s.frame);
    }
}

static void force_stress_mirror_image_mirrors_the_force(void **state)
{
    (void)state;
    const kl_jack_ends ends[] = {KL_JACK_START, KL_JACK_BOTH, KL_JACK_START_THEN_END};
    const kl_jack_ends image[] = {KL_JACK_END, KL_JACK_BOTH, KL_JACK_END_THEN_START};
    const double sets[] = {6e-3, 3e-2, 6e-3};
    for (int k = 0; k < 3; k++) {
        stressing a;
        stressing b;
        run(&a, ROWS(draped), 0.2, 0.001, sets[k], ends[k]);
        run(&b, ROWS(drape_image), 0.2, 0.001, sets[k], image[k]);
        for (int i = 0; i <= 80; i++) {
            assert_close(force(&a, &a.after, i, KL_RIGHT), force(&b, &b.after, 80 - i, KL_LEFT),
                         EXACT, 0.0);
        }
        assert_close(a.record.elongation[0], b.record.elongation[1], EXACT, 0.0);
        assert_close(a.record.elongation[1], b.record.elongation[0], EXACT, 0.0);
        tendon_frame_end(&a.frame);
        tendon_frame_end(&b.frame);
    }
}

static void force_stress_unintended_angle_is_a_bend_in_plan(void **state)
{
    (void)state;
    /* K = mu k is the friction of k radians a metre */
    const double mu = 0.2;
    const double k = 0.0075;
    const kl_bend bend = {.angle = k * 40, .from = 0, .to = 40};
    stressing a;
    stressing b;
    run(&a, ROWS(straight), mu, mu * k, 0.004, KL_JACK_START);
    start(&b, ROWS(straight), mu, 0.0, 0.004, KL_JACK_START);
    b.frame.tendons[0].bends = &bend;
    b.frame.tendons[0].bend_count = 1;
    assert_int_equal(profile_build(&b.frame.model, 0, &b.frame.memory, b.frame.diags, &b.path),
                     KL_OK);
    assert_int_equal(stress(&b, 1.0, NULL), KL_OK);
    for (int i = 0; i <= 40; i++) {
        assert_close(force(&a, &a.after, i, KL_LEFT), force(&b, &b.after, i, KL_LEFT), EXACT, 0.0);
    }
    tendon_frame_end(&a.frame);
    tendon_frame_end(&b.frame);
}

static void force_stress_second_end_takes_the_larger(void **state)
{
    (void)state;
    stressing one;
    stressing two;
    run(&one, ROWS(draped), 0.2, 0.001, 4e-3, KL_JACK_START);
    run(&two, ROWS(draped), 0.2, 0.001, 4e-3, KL_JACK_START_THEN_END);
    const double whole = 0.2 * two.path.alpha + 0.001 * two.path.length;
    for (int i = 0; i <= 160; i++) {
        const double x = 0.5 * i;
        const path_point p = profile_at(&two.path, x, KL_LEFT);
        const double second = PJ * exp(-(whole - 0.2 * p.alpha - 0.001 * p.length));
        const double locked = force(&one, &one.after, x, KL_LEFT);
        assert_close(force(&two, &two.before, x, KL_LEFT), fmax(second, locked), EXACT, 0.0);
    }
    assert_close(dense_movement(&two, 0, 80), 4e-3, 1e-6, 0.0);
    assert_close(two.record.elongation[0], one.record.elongation[0], EXACT, 0.0);
    assert_true(two.record.elongation[1] > 0.0);
    tendon_frame_end(&one.frame);
    tendon_frame_end(&two.frame);
}

/* A set that runs to the far anchor: the pull there then raises what the first anchor holds, after it has been read. */
static void force_stress_tells_what_each_anchor_held_when_it_seated(void **state)
{
    (void)state;
    stressing one;
    stressing two;
    run(&one, ROWS(draped), 0.2, 0.001, 0.2, KL_JACK_START);
    run(&two, ROWS(draped), 0.2, 0.001, 0.2, KL_JACK_START_THEN_END);
    assert_true(one.record.reaches_far_end);
    assert_close(one.record.seated_at[0], one.record.force_at[0], EXACT, 0.0);
    assert_true(isnan(one.record.seated_at[1]));
    assert_close(two.record.seated_at[0], one.record.force_at[0], EXACT, 0.0);
    assert_true(two.record.force_at[0] > 1.01 * two.record.seated_at[0]);
    assert_close(two.record.seated_at[1], two.record.force_at[1], EXACT, 0.0);
    tendon_frame_end(&one.frame);
    tendon_frame_end(&two.frame);
}

static void force_stress_again_takes_the_larger_and_seats(void **state)
{
    (void)state;
    stressing fresh;
    stressing s;
    run(&fresh, ROWS(draped), 0.2, 0.001, 6e-3, KL_JACK_START);
    start(&s, ROWS(draped), 0.2, 0.001, 6e-3, KL_JACK_START);
    assert_int_equal(stress(&s, 0.6, NULL), KL_OK);
    const double seated = s.record.elongation[0] - 6e-3;
    const force_curve locked = s.after;
    assert_int_equal(stress(&s, 1.0, &locked), KL_OK);
    for (int i = 0; i <= 80; i++) {
        assert_close(force(&s, &s.after, i, KL_LEFT), force(&fresh, &fresh.after, i, KL_LEFT),
                     EXACT, 0.0);
    }
    /* what the second pull moves is what was not there yet */
    assert_close(s.record.elongation[0], fresh.record.elongation[0] - seated, EXACT, 0.0);
    tendon_frame_end(&fresh.frame);
    tendon_frame_end(&s.frame);
}

static void force_stress_weaker_than_what_is_locked_moves_nothing(void **state)
{
    (void)state;
    stressing s;
    run(&s, ROWS(draped), 0.2, 0.001, 6e-3, KL_JACK_START);
    const force_curve locked = s.after;
    assert_int_equal(stress(&s, 0.5, &locked), KL_OK);
    assert_close(s.record.elongation[0], 0.0, 0.0, 0.0);
    assert_int_equal(tendon_frame_count(&s.frame, "stress-moves-nothing"), 1);
    for (int i = 0; i <= 80; i++) {
        assert_close(force(&s, &s.after, i, KL_LEFT), force(&s, &locked, i, KL_LEFT), 0.0, 0.0);
    }
    tendon_frame_end(&s.frame);
}

static void force_stress_again_after_losses_keeps_the_far_part(void **state)
{
    (void)state;
    stressing s;
    run(&s, ROWS(draped), 0.2, 0.001, 6e-3, KL_JACK_START);
    force_piece pieces[16];
    assert_true(s.after.count <= 16);
    for (kl_index i = 0; i < s.after.count; i++) { /* 2 % of the jacking force lost since */
        pieces[i] = s.after.pieces[i];
        pieces[i].add = -0.02 * PJ;
    }
    const force_curve locked = {pieces, s.after.count};
    assert_int_equal(stress(&s, 0.985, &locked), KL_OK);
    for (int i = 0; i <= 80; i++) {
        const path_point p = profile_at(&s.path, i, KL_LEFT);
        const double pull = 0.985 * PJ * exp(-(0.2 * p.alpha + 0.001 * p.length));
        const double want = fmax(pull, force(&s, &locked, i, KL_LEFT));
        assert_close(force(&s, &s.before, i, KL_LEFT), want, EXACT, 0.0);
    }
    assert_close(dense_movement(&s, 0, 80), 6e-3, 1e-6, 0.0);
    tendon_frame_end(&s.frame);
}

static void force_stress_set_that_leaves_no_force_is_an_error(void **state)
{
    (void)state;
    const kl_jack_ends ends[] = {KL_JACK_START, KL_JACK_BOTH};
    for (int i = 0; i < 2; i++) {
        stressing s;
        start(&s, ROWS(straight), 0.2, 0.001, 0.41 / (i + 1), ends[i]); /* PJ 40 / EA = 0.4 m */
        assert_int_equal(stress(&s, 1.0, NULL), KL_BAD_MODEL);
        assert_int_equal(tendon_frame_count(&s.frame, "seating-leaves-no-force"), 1);
        tendon_frame_end(&s.frame);
    }
}

static void force_stress_endless_friction_is_an_error(void **state)
{
    (void)state;
    stressing s;
    start(&s, ROWS(straight), 0.2, 20.0, 0.0, KL_JACK_START);
    assert_int_equal(stress(&s, 1.0, NULL), KL_BAD_MODEL);
    assert_int_equal(tendon_frame_count(&s.frame, "friction-leaves-no-force"), 1);
    s.frame.tendons[0].wobble = 0.0;
    assert_int_equal(stress(&s, 0.0, NULL), KL_BAD_MODEL);
    assert_int_equal(tendon_frame_count(&s.frame, "tendon-no-force"), 1);
    tendon_frame_end(&s.frame);
}

static void force_stress_jack_pulls_outside_the_anchor(void **state)
{
    (void)state;
    stressing s;
    start(&s, ROWS(straight), 0.2, 0.001, 0.0, KL_JACK_START);
    s.frame.tendons[0].anchorage_friction = 0.02; /* PJ is at the jack, outside the anchor */
    s.frame.tendons[0].grip = 1.0;                /* not between the anchors */
    assert_int_equal(stress(&s, 1.0, NULL), KL_OK);
    assert_close(s.record.force_at[0], 0.98 * PJ, EXACT, 0.0);
    assert_close(s.record.elongation[0], 0.98 * PJ * -expm1(-0.04) / 0.001 / EA, EXACT, 0.0);
    tendon_frame_end(&s.frame);
}

/* A repeatable number in 0 … 1 (linear congruence, Knuth's multiplier). */
static double draw(uint64_t *seed)
{
    *seed = *seed * 6364136223846793005u + 1442695040888963407u;
    return (double)(*seed >> 11) / 9007199254740992.0;
}

/* Rows that always fit: flat points with inflections between, straight ends or curved ones. */
static kl_index draw_rows(uint64_t *seed, kl_profile_row *rows)
{
    kl_index n = 0;
    double x = 0.0;
    rows[n++] = (kl_profile_row){.kind = KL_ROW_ANCHOR, .station = x, .ordinate = draw(seed) - 0.5};
    const int flats = 1 + (int)(3.0 * draw(seed));
    for (int i = 0; i < flats; i++) {
        x += 4.0 + 20.0 * draw(seed);
        rows[n++] = (kl_profile_row){.kind = i % 2 == 0 ? KL_ROW_LOW : KL_ROW_HIGH,
                                     .station = x,
                                     .ordinate = (i % 2 == 0 ? -0.6 : 0.6) - draw(seed) * 0.1};
        if (i < flats - 1) {
            x += 2.0 + 10.0 * draw(seed);
            rows[n++] =
                (kl_profile_row){.kind = KL_ROW_INFLECTION, .station = x, .ordinate = (double)NAN};
        }
    }
    x += 4.0 + 20.0 * draw(seed);
    rows[n++] = (kl_profile_row){
        .kind = KL_ROW_ANCHOR, .station = x, .ordinate = 0.4, .straight = draw(seed) < 0.3};
    return n;
}

/* Whatever the tendon: no force rises at seating, none exceeds the jack's, friction is never more than full, and each
 * end's movement is its set. */
static void force_stress_drawn_tendons_obey_friction_and_set(void **state)
{
    (void)state;
    uint64_t seed = 20240607;
    for (int k = 0; k < 60; k++) {
        kl_profile_row rows[16];
        const kl_index count = draw_rows(&seed, rows);
        const kl_jack_ends ends = (kl_jack_ends)(k % 5);
        const double set = 0.02 * draw(&seed) * draw(&seed);
        stressing s;
        start(&s, rows, count, 0.3 * draw(&seed), 0.004 * draw(&seed), set, ends);
        s.frame.tendons[0].offset = 0.02 * draw(&seed);
        assert_int_equal(profile_build(&s.frame.model, 0, &s.frame.memory, s.frame.diags, &s.path),
                         KL_OK);
        assert_int_equal(stress(&s, 1.0, NULL), KL_OK);
        const double length = s.path.end;
        const kl_tendon *const t = &s.frame.tendons[0];
        double was = force(&s, &s.after, 0.0, KL_RIGHT);
        path_point before = profile_at(&s.path, 0.0, KL_RIGHT);
        for (int i = 1; i <= 200; i++) {
            const double x = length * i / 200.0;
            const double is = force(&s, &s.after, x, KL_LEFT);
            const path_point p = profile_at(&s.path, x, KL_LEFT);
            const double phi =
                t->friction * (p.alpha - before.alpha) + t->wobble * (p.length - before.length);
            assert_true(fabs(log(is / was)) <= phi * (1 + 1e-9) + 1e-12);
            assert_true(is <= force(&s, &s.before, x, KL_LEFT) * (1 + 1e-13) &&
                        is < PJ * (1 + 1e-13));
            was = is;
            before = p;
        }
        if (ends == KL_JACK_BOTH) {
            assert_close(dense_movement(&s, 0, s.record.still[0]), set, 1e-6, 1e-12);
            assert_close(dense_movement(&s, s.record.still[1], length), set, 1e-6, 1e-12);
        } else {
            assert_close(dense_movement(&s, 0, length), set, 1e-6, 1e-12);
        }
        tendon_frame_end(&s.frame);
    }
}

static void force_breaks_lists_every_change_once(void **state)
{
    (void)state;
    stressing s;
    run(&s, ROWS(harped), 0.25, 0.002, 2e-3, KL_JACK_START);
    const double *x = NULL;
    kl_index count = 0;
    assert_int_equal(force_breaks(&s.path, &s.after, &s.frame.memory, &x, &count), KL_OK);
    assert_int_equal(count, s.record.still[0] < 10.0 || s.record.still[0] > 10.0 ? 4 : 3);
    assert_close(x[0], 0.0, 0.0, 0.0);
    assert_close(x[count - 1], 40.0, 0.0, 0.0);
    for (kl_index i = 1; i < count; i++) {
        assert_true(x[i] > x[i - 1]);
    }
    tendon_frame_end(&s.frame);
}

static void force_stress_memory_short_is_told(void **state)
{
    (void)state;
    long k = 0;
    kl_status status = KL_NO_MEMORY;
    for (; status != KL_OK; k++) {
        stressing s;
        start(&s, ROWS(draped), 0.2, 0.001, 3e-2, KL_JACK_BOTH);
        fault_after(k);
        status = stress(&s, 1.0, NULL);
        fault_after(-1);
        assert_true(status == KL_OK || status == KL_NO_MEMORY);
        tendon_frame_end(&s.frame);
    }
}

int main(void)
{
    const struct CMUnitTest tests[] = {
        cmocka_unit_test(force_stress_one_end_loses_by_friction),
        cmocka_unit_test(force_stress_straight_wobble_seats_by_closed_form),
        cmocka_unit_test(force_stress_short_tendon_slips_to_the_far_anchor),
        cmocka_unit_test(force_stress_without_friction_loses_set_over_length),
        cmocka_unit_test(force_stress_harped_still_point_inside_the_step),
        cmocka_unit_test(force_stress_set_is_met_by_dense_integration),
        cmocka_unit_test(force_stress_both_ends_meet_and_each_set_is_met),
        cmocka_unit_test(force_stress_both_ends_meet_inside_a_corner),
        cmocka_unit_test(force_stress_both_is_the_larger_of_two),
        cmocka_unit_test(force_stress_symmetric_tendon_stays_symmetric),
        cmocka_unit_test(force_stress_mirror_image_mirrors_the_force),
        cmocka_unit_test(force_stress_unintended_angle_is_a_bend_in_plan),
        cmocka_unit_test(force_stress_second_end_takes_the_larger),
        cmocka_unit_test(force_stress_tells_what_each_anchor_held_when_it_seated),
        cmocka_unit_test(force_stress_again_takes_the_larger_and_seats),
        cmocka_unit_test(force_stress_weaker_than_what_is_locked_moves_nothing),
        cmocka_unit_test(force_stress_again_after_losses_keeps_the_far_part),
        cmocka_unit_test(force_stress_set_that_leaves_no_force_is_an_error),
        cmocka_unit_test(force_stress_endless_friction_is_an_error),
        cmocka_unit_test(force_stress_jack_pulls_outside_the_anchor),
        cmocka_unit_test(force_stress_drawn_tendons_obey_friction_and_set),
        cmocka_unit_test(force_breaks_lists_every_change_once),
        cmocka_unit_test(force_stress_memory_short_is_told),
    };
    return cmocka_run_group_tests(tests, NULL, NULL);
}
