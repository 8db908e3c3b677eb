/* test_profile.c - paths of tendons against closed forms of parabolas and dense sums.
 *
 * Closed forms: the parabola through three equally spaced ordinates (Handbook of Civil Engineering Calculations, 2nd
 * ed., eqs 66-70, p. 2.77) and reverse parabolas between a low and a high point (derived: the inflection lies on the chord).
 * SPDX-License-Identifier: MIT */
#include "assert_close.h"

#include <math.h>

#include "fault.h"
#include "near.h"
#include "path_piece.h"
#include "profile.h"
#include "tendon_frame.h"

#define EXACT      1e-12
#define ROWS(rows) (rows), (kl_index)(sizeof(rows) / sizeof((rows)[0]))

#define ANCHOR(X, Y)                                                                               \
    {                                                                                              \
        .kind = KL_ROW_ANCHOR, .station = (X), .ordinate = (Y), .origin = { 0, __LINE__, 0 }       \
    }
#define HIGH(X, Y)                                                                                 \
    {                                                                                              \
        .kind = KL_ROW_HIGH, .station = (X), .ordinate = (Y), .origin = { 0, __LINE__, 0 }         \
    }
#define LOW(X, Y)                                                                                  \
    {                                                                                              \
        .kind = KL_ROW_LOW, .station = (X), .ordinate = (Y), .origin = { 0, __LINE__, 0 }          \
    }
#define INFLECTION(X)                                                                              \
    {                                                                                              \
        .kind = KL_ROW_INFLECTION, .station = (X), .ordinate = NAN, .origin = { 0, __LINE__, 0 }   \
    }
#define THROUGH(X, Y)                                                                              \
    {                                                                                              \
        .kind = KL_ROW_THROUGH, .station = (X), .ordinate = (Y), .origin = { 0, __LINE__, 0 }      \
    }
#define STRAIGHT_TO(KIND, X, Y)                                                                    \
    {                                                                                              \
        .kind = (KIND), .station = (X), .ordinate = (Y), .straight = true, .origin = {             \
            0,                                                                                     \
            __LINE__,                                                                              \
            0                                                                                      \
        }                                                                                          \
    }

static tendon_path build(tendon_frame *frame)
{
    tendon_path path;
    assert_int_equal(profile_build(&frame->model, 0, &frame->memory, frame->diags, &path), KL_OK);
    assert_int_equal(kl_diags_count(frame->diags), 0);
    return path;
}

/* Angle and length by many short chords of the height itself: error of order (h/n)^2. */
static void assert_dense(const tendon_path *path, double tolerance)
{
    const int n = 40000;
    double alpha = 0.0;
    double length = 0.0;
    for (kl_index i = 0; i < path->piece_count; i++) {
        const path_piece *const p = &path->pieces[i];
        const double h = (p->to - p->from) / n;
        double before = 0.0;
        for (int k = 0; k < n; k++) {
            const double rise =
                path_piece_shape(p, h * (k + 1)).height - path_piece_shape(p, h * k).height;
            const double angle = atan2(rise, h);
            length += hypot(h, rise);
            if (k > 0) {
                alpha += hypot(angle - before, p->bend_rate * h);
            } else { /* from the end of the piece to the first chord's middle, and likewise at the other end */
                alpha +=
                    hypot(angle - atan(path_piece_shape(p, 0.0).slope), 0.5 * p->bend_rate * h);
            }
            before = angle;
        }
        alpha += hypot(before - atan(path_piece_shape(p, p->to - p->from).slope),
                       0.5 * p->bend_rate * h);
        alpha += p->corner;
    }
    assert_close(path->alpha, alpha, tolerance, 0.0);
    assert_close(path->length, length, tolerance, 0.0);
}

static void profile_build_anchor_low_anchor_is_parabola_through_three_ordinates(void **state)
{
    (void)state;
    const double span = 30.0;
    const double y1 = 0.6;
    const double y2 = -0.7;
    const double y3 = 0.2;
    /* eqs 66-70: the vertex */
    const double xs = 0.25 * span * (3 * y1 - 4 * y2 + y3) / (y1 - 2 * y2 + y3);
    const double ys = y1 - 0.125 * pow(3 * y1 - 4 * y2 + y3, 2) / (y1 - 2 * y2 + y3);
    const kl_profile_row rows[] = {ANCHOR(0, y1), LOW(xs, ys), ANCHOR(span, y3)};
    tendon_frame frame;
    tendon_frame_start(&frame, span, ROWS(rows));
    const tendon_path path = build(&frame);
    for (int i = 0; i <= 20; i++) {
        const double x = span * i / 20.0;
        const double y =
            2 * (y1 - 2 * y2 + y3) * x * x / (span * span) - (3 * y1 - 4 * y2 + y3) * x / span + y1;
        const path_point p = profile_at(&path, x, KL_RIGHT);
        assert_close(p.height, y, 0.0, EXACT);
        assert_close(p.curvature, 4 * (y1 - 2 * y2 + y3) / (span * span), EXACT, 0.0);
    }
    const double m1 = -(3 * y1 - 4 * y2 + y3) / span;
    const double m3 = (y1 - 4 * y2 + 3 * y3) / span;
    assert_close(profile_at(&path, 0.0, KL_RIGHT).slope, m1, EXACT, 0.0);
    assert_close(profile_at(&path, span, KL_LEFT).slope, m3, EXACT, 0.0);
    assert_close(path.alpha, atan(m3) - atan(m1), EXACT, 0.0);
    const double c = 2 * (y1 - 2 * y2 + y3) / (span * span);
    const double arc = (m3 * hypot(1, m3) + asinh(m3) - m1 * hypot(1, m1) - asinh(m1)) / (4 * c);
    assert_close(path.length, arc, 1e-13, 0.0);
    tendon_frame_end(&frame);
}

static void profile_build_low_inflection_high_lies_on_the_chord(void **state)
{
    (void)state;
    const double l1 = 12.0;
    const double l2 = 3.0;
    const double l = l1 + l2;
    const double rise = 1.4;
    const double y_low = -0.6;
    const kl_profile_row rows[] = {ANCHOR(0, 0), LOW(10, y_low), INFLECTION(10 + l1),
                                   HIGH(10 + l, y_low + rise), ANCHOR(40, 0)};
    tendon_frame frame;
    tendon_frame_start(&frame, 40.0, ROWS(rows));
    const tendon_path path = build(&frame);
    const path_point at = profile_at(&path, 10 + l1, KL_LEFT);
    assert_close(at.height, y_low + rise * l1 / l, EXACT, 0.0);
    assert_close(at.slope, 2 * rise / l, EXACT, 0.0);
    assert_close(profile_at(&path, 10 + l1, KL_RIGHT).slope, 2 * rise / l, EXACT, 0.0);
    assert_close(profile_least_radius(&path.pieces[1]), l * l1 / (2 * rise), EXACT, 0.0);
    assert_close(profile_least_radius(&path.pieces[2]), l * l2 / (2 * rise), EXACT, 0.0);
    const double turned =
        profile_at(&path, 10 + l, KL_LEFT).alpha - profile_at(&path, 10, KL_LEFT).alpha;
    assert_close(turned, 2 * atan(2 * rise / l), EXACT, 0.0);
    assert_dense(&path, 1e-8);
    tendon_frame_end(&frame);
}

static void profile_build_straight_to_inflection_is_tangent(void **state)
{
    (void)state;
    /* line over x1, then a parabola of length l2 to its flat end: drop = c l2^2 + 2 c l2 x1 */
    const kl_profile_row rows[] = {ANCHOR(1, 0.5), STRAIGHT_TO(KL_ROW_INFLECTION, 3, NAN),
                                   LOW(9, -0.5), STRAIGHT_TO(KL_ROW_LOW, 11, -0.5),
                                   ANCHOR(19, 0.5)};
    tendon_frame frame;
    tendon_frame_start(&frame, 20.0, ROWS(rows));
    const tendon_path path = build(&frame);
    const double c = 1.0 / (6.0 * 6.0 + 2.0 * 6.0 * 2.0);
    assert_close(profile_at(&path, 1.0, KL_RIGHT).slope, -2 * c * 6.0, EXACT, 0.0);
    assert_close(profile_at(&path, 3.0, KL_LEFT).height, 0.5 - 2 * c * 6.0 * 2.0, EXACT, 0.0);
    assert_close(profile_at(&path, 5.0, KL_LEFT).curvature, 2 * c, EXACT, 0.0);
    assert_close(profile_at(&path, 10.0, KL_LEFT).slope, 0.0, 0.0, EXACT);
    assert_close(path.begin, 1.0, 0.0, 0.0);
    assert_close(path.alpha, atan(2 * c * 6.0) + atan(2.0 / 8.0), EXACT, 0.0);
    tendon_frame_end(&frame);
}

static void profile_build_through_carries_the_slope_on_and_back(void **state)
{
    (void)state;
    const kl_profile_row rows[] = {ANCHOR(0, 0.4), THROUGH(5, 0.1), LOW(10, -0.3), THROUGH(15, 0.0),
                                   ANCHOR(20, 0.5)};
    tendon_frame frame;
    tendon_frame_start(&frame, 20.0, ROWS(rows));
    const tendon_path path = build(&frame);
    /* from the flat point: y' = 2 dy/h at the row; beyond it slope is carried: end slope = 2 dy/h - slope */
    assert_close(profile_at(&path, 15, KL_LEFT).slope, 2 * 0.3 / 5, EXACT, 0.0);
    assert_close(profile_at(&path, 15, KL_RIGHT).slope, 2 * 0.3 / 5, EXACT, 0.0);
    assert_close(profile_at(&path, 20, KL_LEFT).slope, 2 * 0.5 / 5 - 2 * 0.3 / 5, EXACT, 0.0);
    assert_close(profile_at(&path, 5, KL_LEFT).slope, -2 * 0.4 / 5, EXACT, 0.0);
    assert_close(profile_at(&path, 0, KL_LEFT).slope, -2 * 0.3 / 5 + 2 * 0.4 / 5, EXACT, 1e-15);
    tendon_frame_end(&frame);
}

static void profile_build_straight_pieces_give_corners_as_steps(void **state)
{
    (void)state;
    const kl_profile_row rows[] = {ANCHOR(0, 0.0), STRAIGHT_TO(KL_ROW_THROUGH, 8, -0.8),
                                   STRAIGHT_TO(KL_ROW_LOW, 12, -0.8),
                                   STRAIGHT_TO(KL_ROW_ANCHOR, 20, 0.4)};
    tendon_frame frame;
    tendon_frame_start(&frame, 20.0, ROWS(rows));
    const tendon_path path = build(&frame);
    assert_close(profile_at(&path, 8, KL_LEFT).alpha, 0.0, 0.0, 0.0);
    assert_close(profile_at(&path, 8, KL_RIGHT).alpha, atan(0.1), EXACT, 0.0);
    assert_close(path.alpha, atan(0.1) + atan(0.15), EXACT, 0.0);
    assert_close(path.length, hypot(8, 0.8) + 4 + hypot(8, 1.2), EXACT, 0.0);
    assert_true(isinf(profile_least_radius(&path.pieces[0])));
    tendon_frame_end(&frame);
}

static void profile_build_bend_adds_plan_angle(void **state)
{
    (void)state;
    const kl_profile_row straight[] = {ANCHOR(0, 0.0), STRAIGHT_TO(KL_ROW_ANCHOR, 20, 0.0)};
    const kl_profile_row curved[] = {ANCHOR(0, 0.5), LOW(10, -0.5), ANCHOR(20, 0.5)};
    const kl_bend bend = {.angle = -0.12, .from = 4.0, .to = 13.0};
    tendon_frame frame;
    tendon_frame_start(&frame, 20.0, ROWS(straight));
    frame.tendons[0].bends = &bend;
    frame.tendons[0].bend_count = 1;
    tendon_path path = build(&frame);
    assert_int_equal(path.piece_count, 3);
    assert_close(path.alpha, 0.12, EXACT, 0.0);
    assert_close(profile_at(&path, 7.0, KL_LEFT).alpha, 0.04, EXACT, 0.0);
    frame.tendons[0].rows = curved;
    frame.tendons[0].row_count = 3;
    path = build(&frame);
    assert_int_equal(path.piece_count, 4);
    assert_close(profile_at(&path, 4.0, KL_LEFT).height, 0.5 - 1.0 + 0.36, EXACT, 0.0);
    assert_close(profile_at(&path, 4.0, KL_RIGHT).height, 0.5 - 1.0 + 0.36, EXACT, 0.0);
    assert_dense(&path, 1e-8);
    /* Simpson's rule on sqrt(theta'^2 + psi'^2) over the bend, in parts free of kinks */
    const double c = 0.01;
    const double psi = 0.12 / 9.0;
    const int n = 2000;
    double sum = 0.0;
    for (int i = 0; i <= n; i++) {
        const double m = 2 * c * (4.0 + 9.0 * i / n - 10.0);
        const double weight = i == 0 || i == n ? 1.0 : (i % 2 == 1 ? 4.0 : 2.0);
        sum += weight * hypot(2 * c / (1 + m * m), psi);
    }
    const double turned =
        profile_at(&path, 13.0, KL_LEFT).alpha - profile_at(&path, 4.0, KL_LEFT).alpha;
    assert_close(turned, sum * 9.0 / n / 3.0, 1e-13, 0.0);
    tendon_frame_end(&frame);
}

static void profile_build_two_bends_at_one_place_add_up(void **state)
{
    (void)state;
    const kl_profile_row rows[] = {ANCHOR(0, 0.0), STRAIGHT_TO(KL_ROW_ANCHOR, 20, 0.0)};
    const kl_bend bends[] = {{.angle = 0.1, .from = 0.0, .to = 10.0},
                             {.angle = -0.1, .from = 5.0, .to = 15.0}};
    tendon_frame frame;
    tendon_frame_start(&frame, 20.0, ROWS(rows));
    frame.tendons[0].bends = bends;
    frame.tendons[0].bend_count = 2;
    const tendon_path path = build(&frame);
    assert_close(path.alpha, 0.1, EXACT,
                 0.0); /* they cancel from 5 to 10, where the tendon is straight */
    tendon_frame_end(&frame);
}

static void profile_build_measures_from_the_section_at_each_row(void **state)
{
    (void)state;
    kl_profile_row rows[] = {ANCHOR(0, 0.5), LOW(10, 0.25), ANCHOR(20, 0.5)};
    tendon_frame frame;
    tendon_frame_start(&frame, 20.0, ROWS(rows));
    frame.sections[1].depth = 3.0; /* 2 m deep at the start, 3 m at the end, about its centroid */
    frame.sections_at[0] = (kl_section_at){.section = 0, .station = 0.0};
    frame.sections_at[1] = (kl_section_at){.section = 1, .station = 20.0};
    frame.members[0].section_count = 2;
    rows[0].datum = rows[1].datum = KL_FROM_BOTTOM;
    rows[2].datum = KL_FROM_TOP;
    const tendon_path path = build(&frame);
    assert_close(profile_at(&path, 0, KL_RIGHT).height, -1.0 + 0.5, EXACT, 0.0);
    assert_close(profile_at(&path, 10, KL_RIGHT).height, -1.25 + 0.25, EXACT, 0.0);
    assert_close(profile_at(&path, 20, KL_RIGHT).height, 1.5 - 0.5, EXACT, 0.0);
    tendon_frame_end(&frame);
}

static void profile_build_line_at_top_counts_heights_below_it(void **state)
{
    (void)state;
    kl_profile_row rows[] = {ANCHOR(0, 0.5), STRAIGHT_TO(KL_ROW_ANCHOR, 20, 0.5)};
    tendon_frame frame;
    tendon_frame_start(&frame, 20.0, ROWS(rows));
    frame.sections[0].line = KL_LINE_TOP;
    rows[0].datum = KL_FROM_BOTTOM;
    rows[1].datum = KL_FROM_TOP;
    const tendon_path path = build(&frame);
    assert_close(profile_at(&path, 0, KL_RIGHT).height, -1.5, EXACT, 0.0);
    assert_close(profile_at(&path, 20, KL_RIGHT).height, -0.5, EXACT, 0.0);
    tendon_frame_end(&frame);
}

static void profile_build_members_in_line_make_one_path(void **state)
{
    (void)state;
    const kl_profile_row rows[] = {ANCHOR(0, 0.5), LOW(8, -0.5), INFLECTION(14), HIGH(18, 0.7),
                                   ANCHOR(30, 0.0)};
    const double lengths[] = {9.0, 9.0, 12.0};
    tendon_frame one;
    tendon_frame three;
    tendon_frame_start(&one, 30.0, ROWS(rows));
    tendon_frame_start(&three, 30.0, ROWS(rows));
    tendon_frame_divide(&three, lengths, 3);
    for (int i = 0; i < 4; i++) { /* and upright: a path knows its members' axes only */
        three.nodes[i].y = three.nodes[i].x;
        three.nodes[i].x = 2.0;
    }
    const tendon_path a = build(&one);
    const tendon_path b = build(&three);
    assert_int_equal(a.piece_count, 4);
    assert_int_equal(b.piece_count,
                     5); /* the joint at 9 divides one; that at 18 is a row already */
    for (int i = 0; i <= 60; i++) {
        const path_point p = profile_at(&a, 0.5 * i, KL_LEFT);
        const path_point q = profile_at(&b, 0.5 * i, KL_LEFT);
        assert_close(q.height, p.height, 0.0, EXACT);
        assert_close(q.slope, p.slope, 0.0, EXACT);
        assert_close(q.alpha, p.alpha, 0.0, EXACT);
        assert_close(q.length, p.length, 0.0, EXACT * 30);
    }
    tendon_frame_end(&one);
    tendon_frame_end(&three);
}

static const kl_profile_row draped[] = {ANCHOR(0, 0.2), THROUGH(4, -0.5), LOW(10, -0.8),
                                        INFLECTION(17), HIGH(20, 0.8),    INFLECTION(23),
                                        LOW(30, -0.8),  ANCHOR(40, 0.2)};

static void profile_build_offset_lies_inside_each_curve(void **state)
{
    (void)state;
    const double z = 0.025;
    tendon_frame frame;
    tendon_frame_start(&frame, 40.0, ROWS(draped));
    frame.tendons[0].offset = z;
    const tendon_path path = build(&frame);
    const double at[] = {0, 10, 17, 20, 23, 30, 40};
    const double want[] = {0, z, 0, -z, 0, z, 0};
    for (int i = 0; i < 7; i++) {
        for (int side = 0; side < 2; side++) {
            const path_point p = profile_at(&path, at[i], side == 0 ? KL_LEFT : KL_RIGHT);
            assert_close(p.height - p.duct, want[i], 0.0, EXACT);
        }
    }
    /* half of a curve's angle from its flat point: half the offset. From 30 to 40: y = -0.8 + 0.01 t^2 */
    const double half_slope = tan(0.5 * atan(0.2));
    const path_point p = profile_at(&path, 30 + half_slope / 0.02, KL_LEFT);
    assert_close(p.height - p.duct, 0.5 * z, 1e-11, 0.0);
    /* a `through` row inside a curve of one sense does not stop it: linear in the angle from 0 to 10 */
    const path_piece *const first = &path.pieces[0];
    const double m0 = first->m0;
    const double m1 = m0 + 2 * first->c * 4.0;
    const path_point q = profile_at(&path, 4, KL_LEFT);
    assert_close(q.height - q.duct, z * (atan(m1) - atan(m0)) / (0.0 - atan(m0)), 1e-11, 0.0);
    tendon_frame_end(&frame);
}

static void profile_at_slope_and_curvature_are_derivatives_of_height(void **state)
{
    (void)state;
    tendon_frame frame;
    tendon_frame_start(&frame, 40.0, ROWS(draped));
    frame.tendons[0].offset = 0.05;
    const tendon_path path = build(&frame);
    const double h = 1e-3;
    for (int i = 0; i < 40; i++) {
        const double x = 0.5 + i;
        const path_point left = profile_at(&path, x - h, KL_LEFT);
        const path_point middle = profile_at(&path, x, KL_LEFT);
        const path_point right = profile_at(&path, x + h, KL_LEFT);
        assert_close(middle.slope, (right.height - left.height) / (2 * h), 0.0, 1e-8);
        assert_close(middle.curvature, (right.slope - left.slope) / (2 * h), 0.0, 1e-8);
    }
    assert_dense(&path, 1e-8);
    tendon_frame_end(&frame);
}

static void profile_build_offset_on_straight_pieces(void **state)
{
    (void)state;
    /* full along the flat bottom between two low points, falling evenly to the anchor on a straight end */
    const kl_profile_row rows[] = {ANCHOR(0, 0.5), LOW(8, -0.5), STRAIGHT_TO(KL_ROW_LOW, 12, -0.5),
                                   STRAIGHT_TO(KL_ROW_ANCHOR, 20, -0.5)};
    tendon_frame frame;
    tendon_frame_start(&frame, 20.0, ROWS(rows));
    frame.tendons[0].offset = 0.02;
    const tendon_path path = build(&frame);
    assert_close(profile_at(&path, 10, KL_LEFT).height, -0.48, EXACT, 0.0);
    assert_close(profile_at(&path, 16, KL_LEFT).height, -0.49, EXACT, 0.0);
    assert_close(profile_at(&path, 16, KL_LEFT).slope, -0.02 / 8, EXACT, 0.0);
    tendon_frame_end(&frame);
}

static void profile_build_mirror_image_mirrors_the_path(void **state)
{
    (void)state;
    const kl_profile_row rows[] = {ANCHOR(0, 0.5), STRAIGHT_TO(KL_ROW_INFLECTION, 3, NAN),
                                   LOW(9, -0.5),   INFLECTION(14),
                                   HIGH(18, 0.7),  ANCHOR(30, 0.0)};
    const kl_profile_row image[] = {ANCHOR(0, 0.0), HIGH(12, 0.7),
                                    INFLECTION(16), LOW(21, -0.5),
                                    INFLECTION(27), STRAIGHT_TO(KL_ROW_ANCHOR, 30, 0.5)};
    tendon_frame a;
    tendon_frame b;
    tendon_frame_start(&a, 30.0, ROWS(rows));
    tendon_frame_start(&b, 30.0, ROWS(image));
    a.tendons[0].offset = b.tendons[0].offset = 0.02;
    const tendon_path p = build(&a);
    const tendon_path q = build(&b);
    for (int i = 0; i <= 60; i++) {
        const double x = 0.5 * i;
        const path_point there = profile_at(&p, x, KL_LEFT);
        const path_point here = profile_at(&q, 30.0 - x, KL_RIGHT);
        assert_close(here.height, there.height, 0.0, EXACT);
        assert_close(here.slope, -there.slope, 0.0, EXACT);
        assert_close(q.alpha - here.alpha, there.alpha, 0.0, EXACT);
    }
    tendon_frame_end(&a);
    tendon_frame_end(&b);
}

typedef struct bad_profile {
    const char *name;
    int row; /* the row the message is about */
    kl_index count;
    kl_profile_row rows[8];
} bad_profile;

static const bad_profile bad_profiles[] = {
    {"profile-too-few-facts", 1, 2, {ANCHOR(0, 0), ANCHOR(20, 0)}},
    {"profile-too-few-facts", 2, 3, {ANCHOR(0, 0), THROUGH(10, 1), ANCHOR(20, 0)}},
    {"profile-too-few-facts", 1, 4, {ANCHOR(0, 0), INFLECTION(5), LOW(10, -1), ANCHOR(20, 0)}},
    {"profile-too-few-facts",
     2,
     5,
     {ANCHOR(0, 0), LOW(8, -1), INFLECTION(10), INFLECTION(12), ANCHOR(20, 0)}},
    {"profile-too-many-facts", 2, 4, {ANCHOR(0, 0), LOW(8, -1), HIGH(12, 1), ANCHOR(20, 0)}},
    {"profile-too-many-facts",
     2,
     5,
     {ANCHOR(0, 0), LOW(8, -1), THROUGH(10, 0.2), HIGH(12, 1), ANCHOR(20, 0)}},
    {"profile-too-many-facts",
     1,
     4,
     {ANCHOR(0, 0), STRAIGHT_TO(KL_ROW_THROUGH, 5, -0.4), LOW(10, -1), ANCHOR(20, 0)}},
    {"profile-too-many-facts",
     2,
     5,
     {ANCHOR(0, 0),
      LOW(8, -1),
      {.kind = KL_ROW_INFLECTION, .station = 10, .ordinate = 0.1, .origin = {0, 0, 0}},
      HIGH(12, 1),
      ANCHOR(20, 0)}},
    /* as many facts as unknowns, but twice as many as needed at the left and too few at the right */
    {"profile-too-many-facts",
     2,
     7,
     {ANCHOR(0, 0), LOW(3, -1), THROUGH(5, 0), STRAIGHT_TO(KL_ROW_THROUGH, 7, 1), INFLECTION(9),
      INFLECTION(11), ANCHOR(20, 0)}},
};

static void profile_build_wrong_number_of_facts_names_the_row(void **state)
{
    (void)state;
    for (size_t i = 0; i < sizeof bad_profiles / sizeof bad_profiles[0]; i++) {
        const bad_profile *const bad = &bad_profiles[i];
        tendon_frame frame;
        tendon_path path;
        kl_profile_row rows[8];
        for (kl_index k = 0; k < bad->count; k++) {
            rows[k] = bad->rows[k];
            rows[k].origin.end = k;
        }
        tendon_frame_start(&frame, 20.0, rows, bad->count);
        assert_int_equal(profile_build(&frame.model, 0, &frame.memory, frame.diags, &path),
                         KL_BAD_MODEL);
        assert_true(kl_diags_count(frame.diags) > 0);
        const kl_diag *const told = kl_diags_get(frame.diags, 0);
        assert_string_equal(told->name, bad->name);
        assert_int_equal(told->origin.end, bad->row);
        assert_non_null(told->hint);
        tendon_frame_end(&frame);
    }
}

static void profile_build_inflection_with_ordinate_settles_an_anchor_piece(void **state)
{
    (void)state;
    const kl_profile_row rows[] = {ANCHOR(0, 0.0),
                                   {.kind = KL_ROW_INFLECTION, .station = 5, .ordinate = -0.4},
                                   LOW(10, -1),
                                   ANCHOR(20, 0)};
    tendon_frame frame;
    tendon_frame_start(&frame, 20.0, ROWS(rows));
    const tendon_path path = build(&frame);
    assert_close(profile_at(&path, 5, KL_LEFT).slope, -2 * 0.6 / 5, EXACT, 0.0);
    assert_close(profile_at(&path, 0, KL_LEFT).slope, -2 * 0.4 / 5 + 2 * 0.6 / 5, EXACT, 0.0);
    tendon_frame_end(&frame);
}

static void profile_build_low_that_is_a_peak_is_doubted(void **state)
{
    (void)state;
    const kl_profile_row rows[] = {ANCHOR(0, 0.0), LOW(10, 1.0), ANCHOR(20, 0.0)};
    tendon_frame frame;
    tendon_path path;
    tendon_frame_start(&frame, 20.0, ROWS(rows));
    assert_int_equal(profile_build(&frame.model, 0, &frame.memory, frame.diags, &path), KL_OK);
    assert_int_equal(tendon_frame_count(&frame, "profile-upside-down"), 1);
    tendon_frame_end(&frame);
}

static void profile_build_refuses_what_it_cannot_place(void **state)
{
    (void)state;
    kl_profile_row rows[] = {ANCHOR(2, 0.0), STRAIGHT_TO(KL_ROW_ANCHOR, 18, 0.0)};
    const kl_bend bend = {.angle = 0.1, .from = 0.0, .to = 5.0};
    tendon_frame frame;
    tendon_path path;
    tendon_frame_start(&frame, 20.0, ROWS(rows));
    frame.tendons[0].bends = &bend;
    frame.tendons[0].bend_count = 1;
    assert_int_equal(profile_build(&frame.model, 0, &frame.memory, frame.diags, &path),
                     KL_BAD_MODEL);
    assert_int_equal(tendon_frame_count(&frame, "profile-bend-outside"), 1);
    frame.tendons[0].bend_count = 0;
    rows[0].datum = KL_FROM_BOTTOM;
    frame.sections[0].shape = KL_BARE;
    frame.sections[0].area = 1.0;
    frame.sections[0].inertia = 1.0;
    assert_int_equal(profile_build(&frame.model, 0, &frame.memory, frame.diags, &path),
                     KL_BAD_MODEL);
    assert_int_equal(tendon_frame_count(&frame, "profile-no-datum"), 1);
    tendon_frame_end(&frame);
}

static void profile_build_almost_square_to_the_member_is_refused(void **state)
{
    (void)state;
    kl_profile_row rows[] = {ANCHOR(0, 0.0), LOW(10, -74.0), ANCHOR(20, 0.0)}; /* slope 14.8 */
    tendon_frame frame;
    tendon_path path;
    tendon_frame_start(&frame, 20.0, ROWS(rows));
    path = build(&frame);
    assert_dense(&path, 1e-6);
    const double heights[] = {-76.0, -1e300};
    for (int i = 0; i < 2; i++) {
        rows[1].ordinate = heights[i];
        assert_int_equal(profile_build(&frame.model, 0, &frame.memory, frame.diags, &path),
                         KL_BAD_MODEL);
        assert_int_equal(tendon_frame_count(&frame, "profile-too-steep"), i + 1);
    }
    tendon_frame_end(&frame);
}

static void profile_build_many_rows_are_limited(void **state)
{
    (void)state;
    static kl_profile_row rows[500];
    for (int i = 0; i < 500; i++) {
        rows[i] = (kl_profile_row){.kind = KL_ROW_THROUGH, .station = i, .ordinate = sin(0.1 * i)};
    }
    rows[0].kind = rows[499].kind = KL_ROW_ANCHOR;
    tendon_frame frame;
    tendon_path path;
    tendon_frame_start(&frame, 500.0, ROWS(rows));
    assert_int_equal(profile_build(&frame.model, 0, &frame.memory, frame.diags, &path),
                     KL_BAD_MODEL);
    assert_int_equal(tendon_frame_count(&frame, "profile-too-long"), 1);
    tendon_frame_end(&frame);
}

static void profile_build_memory_short_frees_everything(void **state)
{
    (void)state;
    long k = 0;
    kl_status status = KL_NO_MEMORY;
    for (; status != KL_OK; k++) {
        tendon_frame frame;
        tendon_path path;
        tendon_frame_start(&frame, 40.0, ROWS(draped));
        fault_after(k);
        status = profile_build(&frame.model, 0, &frame.memory, frame.diags, &path);
        fault_after(-1);
        assert_true(status == KL_OK || status == KL_NO_MEMORY);
        tendon_frame_end(&frame);
    }
    assert_true(k > 5);
}

int main(void)
{
    const struct CMUnitTest tests[] = {
        cmocka_unit_test(profile_build_anchor_low_anchor_is_parabola_through_three_ordinates),
        cmocka_unit_test(profile_build_low_inflection_high_lies_on_the_chord),
        cmocka_unit_test(profile_build_straight_to_inflection_is_tangent),
        cmocka_unit_test(profile_build_through_carries_the_slope_on_and_back),
        cmocka_unit_test(profile_build_straight_pieces_give_corners_as_steps),
        cmocka_unit_test(profile_build_bend_adds_plan_angle),
        cmocka_unit_test(profile_build_two_bends_at_one_place_add_up),
        cmocka_unit_test(profile_build_measures_from_the_section_at_each_row),
        cmocka_unit_test(profile_build_line_at_top_counts_heights_below_it),
        cmocka_unit_test(profile_build_members_in_line_make_one_path),
        cmocka_unit_test(profile_build_offset_lies_inside_each_curve),
        cmocka_unit_test(profile_at_slope_and_curvature_are_derivatives_of_height),
        cmocka_unit_test(profile_build_offset_on_straight_pieces),
        cmocka_unit_test(profile_build_mirror_image_mirrors_the_path),
        cmocka_unit_test(profile_build_wrong_number_of_facts_names_the_row),
        cmocka_unit_test(profile_build_inflection_with_ordinate_settles_an_anchor_piece),
        cmocka_unit_test(profile_build_low_that_is_a_peak_is_doubted),
        cmocka_unit_test(profile_build_refuses_what_it_cannot_place),
        cmocka_unit_test(profile_build_almost_square_to_the_member_is_refused),
        cmocka_unit_test(profile_build_many_rows_are_limited),
        cmocka_unit_test(profile_build_memory_short_frees_everything),
    };
    return cmocka_run_group_tests(tests, NULL, NULL);
}
