/* test_grades.c - form grades against statics and beam tables by hand: take-up, posts, carrier, stringer, camber.
 *
 * Unless a case says otherwise the member weighs 50 kN/m (1 m by 2 m, 25 kN/m^3) and has E I = 20e9 N m^2. Formulas of single
 * beams are those of any table of beams, from memory.
 * SPDX-License-Identifier: MIT */
#include "kernline/field.h"

#include <math.h>
#include <stdio.h>
#include <string.h>

#include "solved.h"

#define HEAD                                                                                       \
    "show si\nmaterial oak { modulus 30 GPa; unit_weight 25 kN/m^3 }\n"                            \
    "material steel { modulus 200 GPa }\n"                                                         \
    "section r { rectangle width 1 m depth 2 m }\n"                                                \
    "section thin { rectangle width 1 m depth 1 m; line top }\n"                                   \
    "section thick { rectangle width 1 m depth 3 m; line top }\n"                                  \
    "section w14 { area 0.01 m^2; inertia 0.0002 m^4 }\n"                                          \
    "node A at (0 m, 0 m)\nnode B at (12 m, 0 m)\n"
#define BEAM  "member b from A to B section r of oak\n"
#define ENDS  "support A pinned\nsupport B roller\n"
#define POSTS "stiffness 50 MN/m; posts 2; takeup 6 mm"
#define EI    20e9
#define W     50e3
#define K     100e6 /* of a row */

/* Of the only grade; the sums hold wherever it is asked. */
static kl_form_grade grade_at(const solved *s, double station)
{
    kl_form_grade g;
    assert_int_equal(kl_form_grade_at(s->results, 0, station, &g), KL_OK);
    assert_close(g.raise, g.camber + g.takeup + g.posts + g.carrier + g.stringer, 1e-15, 1e-15);
    assert_close(g.form, g.design + g.raise, 1e-15, 0.0);
    return g;
}

static void expect_parts(
    const solved *s, double station, double takeup, double posts, double carrier, double stringer)
{
    const kl_form_grade g = grade_at(s, station);
    assert_true(g.is_formed);
    assert_close(g.takeup, takeup, 1e-12, 1e-15);
    assert_close(g.posts, posts, 1e-10, 1e-13);
    assert_close(g.carrier, carrier, 1e-9, 1e-12);
    assert_close(g.stringer, stringer, 1e-9, 1e-12);
}

/* ---- posts and camber ------------------------------------------------------------------------------------ */

/* Rows at 3, 6, 9 m carry 150 kN each, the supports at the ends 75 kN. */
static void form_grade_of_a_simple_beam_is_take_up_posts_and_camber(void **state)
{
    (void)state;
    solved s;
    solved_open(&s,
                HEAD BEAM ENDS "falsework f under b at 3 m, 6 m, 9 m { " POSTS " }\n"
                               "stage poured { erect f; cast b }\nstage clear { release f }\n"
                               "grade b { target clear; point 30 m at 0 m; point 31 m at 12 m }\n");
    const double post = 150e3 / K;
    expect_parts(&s, 0.0, 0.0, 0.0, 0.0, 0.0);
    expect_parts(&s, 1.5, 3e-3, 0.5 * post, 0.0, 0.0);
    expect_parts(&s, 3.0, 6e-3, post, 0.0, 0.0);
    expect_parts(&s, 4.4, 6e-3, post, 0.0, 0.0);
    expect_parts(&s, 11.0, 2e-3, post / 3.0, 0.0, 0.0);
    for (double x = 0.0; x <= 12.0; x += 1.25) { /* w x (L^3 - 2 L x^2 + x^3) / 24 E I */
        const kl_form_grade g = grade_at(&s, x);
        assert_close(g.camber, W * x * (1728.0 - 24.0 * x * x + x * x * x) / (24.0 * EI), 1e-9,
                     1e-12);
        assert_close(g.design, 30.0 + x / 12.0, 1e-14, 0.0);
    }
    assert_close(grade_at(&s, 6.0).form, 30.5 + 6e-3 + 1.5e-3 + 5.0 * W * 20736.0 / (384.0 * EI),
                 1e-12, 0.0);
    solved_close(&s);
}

/* As in test_forms: 250 - 250/6, 250/6 + 43.75 and 306.25 kN on rows at 2, 5 and 9 m; while they stand there is no camber. */
static void form_grade_goes_on_straight_over_an_overhang(void **state)
{
    (void)state;
    solved s;
    solved_open(&s, HEAD BEAM "support A x fixed\n"
                              "falsework f under b at 2 m, 5 m, 9 m { " POSTS " }\n"
                              "stage poured { erect f; cast b }\n"
                              "grade b { target poured; point -1 m at 4 m }\n");
    const double p[] = {(250e3 - 250e3 / 6.0) / K, (250e3 / 6.0 + 43.75e3) / K, 306.25e3 / K};
    expect_parts(&s, 0.0, 6e-3, p[0] + (p[0] - p[1]) * 2.0 / 3.0, 0.0, 0.0);
    expect_parts(&s, 2.0, 6e-3, p[0], 0.0, 0.0);
    expect_parts(&s, 4.0, 6e-3, (p[0] + 2.0 * p[1]) / 3.0, 0.0, 0.0);
    expect_parts(&s, 9.0, 6e-3, p[2], 0.0, 0.0);
    expect_parts(&s, 12.0, 6e-3, p[2] + (p[2] - p[1]) * 3.0 / 4.0, 0.0, 0.0);
    assert_close(grade_at(&s, 7.0).camber, 0.0, 0.0, 1e-15);
    assert_close(grade_at(&s, 12.0).design, -1.0, 0.0, 0.0);
    solved_close(&s);
}

/* Rows of two kinds under one member: each with its own take-up and stiffness. */
static void form_grade_knows_each_falsework(void **state)
{
    (void)state;
    solved s;
    solved_open(&s, HEAD BEAM ENDS "falsework f under b at 4 m { " POSTS " }\n"
                                   "falsework g under b at 8 m { stiffness 20 MN/m; takeup 1 mm }\n"
                                   "stage poured { erect f g; cast b }\n"
                                   "grade b { target poured; point 1 m at 0 m }\n");
    expect_parts(&s, 4.0, 6e-3, 200e3 / K, 0.0, 0.0);
    expect_parts(&s, 8.0, 1e-3, 200e3 / 20e6, 0.0, 0.0);
    expect_parts(&s, 5.0, 4.75e-3, 0.75 * 2e-3 + 0.25 * 10e-3, 0.0, 0.0);
    solved_close(&s);
}

/* ---- what carries ---------------------------------------------------------------------------------------- */

/* The row at 4 m carries half of the member, 300 kN, onto a beam of 12 m: P a x (L^2 - a^2 - x^2) / 6 E I L there. */
static void form_grade_counts_the_deflection_of_the_lower_deck(void **state)
{
    (void)state;
    solved s;
    solved_open(
        &s, HEAD BEAM ENDS
        "node E at (0 m, -5 m)\nnode F at (12 m, -5 m)\nmember d from E to F section r of oak\n"
        "support E pinned\nsupport F roller\n"
        "falsework f under b at 4 m on d { " POSTS " }\n"
        "stage old { place d }\nstage poured { erect f; cast b }\nstage clear { release f }\n"
        "grade b { target clear; point 1 m at 0 m }\n");
    const double down = 300e3 * 16.0 * 64.0 / (3.0 * EI * 12.0);
    expect_parts(&s, 4.0, 6e-3, 300e3 / K, down, 0.0);
    expect_parts(&s, 2.0, 3e-3, 150e3 / K, 0.5 * down, 0.0);
    expect_parts(&s, 10.0, 1.5e-3, 75e3 / K, 0.25 * down, 0.0);
    expect_parts(&s, 12.0, 0.0, 0.0, 0.0, 0.0);
    solved_close(&s);
}

/* Column heads take 135 kN each, as in test_forms, and go down by P h / E A; they have no take-up and no posts. */
static void form_grade_goes_down_with_columns_that_stand(void **state)
{
    (void)state;
    solved s;
    solved_open(&s, HEAD
                "node F at (3 m, -8 m)\nnode G at (9 m, -8 m)\n" BEAM
                "node H on b at 3 m\nnode K on b at 9 m\n"
                "member h from F to H section r of oak\nmember k from G to K section r of oak\n"
                "support F fixed\nsupport G fixed\n"
                "falsework f under b at 0.5 m, 6 m, 11.5 m { " POSTS " }\n"
                "stage columns { cast h k }\nstage poured { erect f; cast b }\n"
                "grade b { target poured; point 1 m at 0 m }\n");
    const double down = 135e3 * 8.0 / (30e9 * 2.0);
    expect_parts(&s, 3.0, 0.0, 0.0, down, 0.0);
    expect_parts(&s, 0.5, 6e-3, 90e3 / K, 0.0, 0.0);
    expect_parts(&s, 4.0, 2e-3, 150e3 / K / 3.0, 2.0 * down / 3.0, 0.0);
    expect_parts(&s, 6.0, 6e-3, 150e3 / K, 0.0, 0.0);
    solved_close(&s);
}

/* Columns of the same cast are set first: what their own weight did to them is no matter of the form. */
static void form_grade_leaves_out_what_came_before_the_concrete(void **state)
{
    (void)state;
    const char *const orders[] = {"stage poured { cast h; erect f; cast b }\n",
                                  "stage poured { erect f; cast h b }\n"};
    for (int i = 0; i < 2; i++) {
        solved s;
        char text[2048];
        (void)snprintf(text, sizeof text, "%s%s%s", HEAD,
                       "node F at (0 m, -8 m)\n" BEAM "member h from F to A section r of oak\n"
                       "support F fixed\nsupport B roller\n"
                       "falsework f under b at 6 m { " POSTS " }\n",
                       orders[i]);
        strcat(text, "grade b { target poured; point 1 m at 0 m }\n");
        solved_open(&s, text);
        expect_parts(&s, 0.0, 0.0, 0.0, 150e3 * 8.0 / (30e9 * 2.0), 0.0);
        solved_close(&s);
    }
}

/* 75 kN on a spring of 50 MN/m, and through a bearing of 25 MN/m onto one. */
static void form_grade_goes_down_with_springs(void **state)
{
    (void)state;
    solved s;
    solved_open(&s, HEAD BEAM "node Q at (12 m, 0 m)\n"
                              "support A { x fixed; y 50 MN/m }\nsupport Q { x fixed; y 50 MN/m }\n"
                              "bearing B on Q { x free; y 25 MN/m }\n"
                              "falsework f under b at 3 m, 6 m, 9 m { " POSTS " }\n"
                              "stage poured { erect f; cast b }\n"
                              "grade b { target poured; point 1 m at 0 m }\n");
    expect_parts(&s, 0.0, 0.0, 0.0, 1.5e-3, 0.0);
    expect_parts(&s, 12.0, 0.0, 0.0, 4.5e-3, 0.0);
    expect_parts(&s, 11.0, 2e-3, 0.5e-3, 3e-3, 0.0);
    solved_close(&s);
}

/* Two beams of one pour on one spring: it carries 75 kN of each, and both go down by all of it. */
static void form_grade_knows_all_that_a_spring_carries(void **state)
{
    (void)state;
    solved s;
    solved_open(&s,
                HEAD BEAM "node Q at (12 m, 0 m)\nnode R at (12 m, 0 m)\nnode S at (24 m, 0 m)\n"
                          "member c from R to S section r of oak\n"
                          "support A pinned\nsupport S pinned\nsupport Q { x fixed; y 50 MN/m }\n"
                          "bearing B on Q { x free; y fixed }\nbearing R on Q { x free; y fixed }\n"
                          "falsework f under b at 3 m, 6 m, 9 m { " POSTS " }\n"
                          "falsework g under c at 3 m, 6 m, 9 m { " POSTS " }\n"
                          "stage poured { erect f g; cast b c }\n"
                          "grade b { target poured; point 1 m at 0 m }\n");
    expect_parts(&s, 12.0, 0.0, 0.0, 150e3 / 50e6, 0.0);
    expect_parts(&s, 9.0, 6e-3, 150e3 / K, 0.0, 0.0);
    solved_close(&s);
}

/* ---- stringers ------------------------------------------------------------------------------------------- */

#define STRINGER "stringer w14 of steel"
#define EJ       40e6

/* Between rows 2 m apart: w x (L^3 - 2 L x^2 + x^3) / 24 E I, 5 w L^4 / 384 E I at the middle; also beside a node. */
static void stringer_sags_as_a_simple_beam(void **state)
{
    (void)state;
    solved s;
    solved_open(&s, HEAD BEAM ENDS "falsework f under b from 2 m to 10 m every 2 m { " POSTS
                                   "; " STRINGER " }\n"
                                   "stage poured { erect f; cast b }\n"
                                   "grade b { target poured; point 1 m at 0 m }\n");
    assert_true(kl_grade_has_stringer(s.model, &s.model->grades[0]));
    assert_close(grade_at(&s, 5.0).stringer, 5.0 * W * 16.0 / (384.0 * EJ), 1e-11, 0.0);
    for (double x = 0.0; x <= 12.0; x += 0.375) {
        const double a = fmod(x, 2.0);
        assert_close(grade_at(&s, x).stringer,
                     W * a * (8.0 - 4.0 * a * a + a * a * a) / (24.0 * EJ), 1e-9, 1e-12);
    }
    solved_close(&s);
}

/* One span of 6 m from 3 to 9 m that overhangs by 3 m at both ends: by symmetry half of each overhang's moment
 * w a^2 / 2 lies on both, so that the middle goes down by 5 w L^4 / 384 E I - w a^2 L^2 / 16 E I, and the end by
 * w a^4 / 8 E I less a times the turn w L^3 / 24 E I - w a^2 L / 4 E I at the row. */
static void stringer_overhangs_with_the_concrete(void **state)
{
    (void)state;
    solved s;
    solved_open(&s, HEAD BEAM "support A x fixed\n"
                              "falsework f under b at 3 m, 9 m { " POSTS "; " STRINGER " }\n"
                              "stage poured { erect f; cast b }\n"
                              "grade b { target poured; point 1 m at 0 m }\n");
    const double a = 3.0;
    const double l = 6.0;
    const double turn = W * l * l * l / (24.0 * EJ) - W * a * a * l / (4.0 * EJ);
    assert_close(grade_at(&s, 6.0).stringer,
                 5.0 * W * pow(l, 4) / (384.0 * EJ) - W * a * a * l * l / (16.0 * EJ), 1e-10, 0.0);
    assert_close(grade_at(&s, 0.0).stringer, W * pow(a, 4) / (8.0 * EJ) - a * turn, 1e-10, 0.0);
    assert_close(grade_at(&s, 12.0).stringer, grade_at(&s, 0.0).stringer, 1e-10, 0.0);
    assert_close(grade_at(&s, 3.0).stringer, 0.0, 0.0, 1e-12);
    solved_close(&s);
}

/* Sag of a simple beam from 2 to 8 m under 25 (1 + x/6) kN/m at c from its left end, by a unit load there: integral of
 * M m / E I by Simpson's rule, M by hand from the ends' forces. */
static double sag_by_unit_load(double c)
{
    enum { PIECES = 2000 };
    const double l = 6.0;
    const double w0 = 25e3 * (1.0 + 2.0 / 6.0);
    const double rise = 25e3 / 6.0;
    const double left = w0 * l / 2.0 + rise * l * l / 6.0;
    const double cuts[] = {0.0, c, l};
    double sum = 0.0;
    for (int half = 0; half < 2; half++) {
        const double h = (cuts[half + 1] - cuts[half]) / PIECES;
        for (int i = 0; i <= PIECES; i++) {
            const double u = cuts[half] + i * h;
            const double m = u < c ? u * (l - c) / l : c * (l - u) / l;
            const double moment = left * u - w0 * u * u / 2.0 - rise * u * u * u / 6.0;
            const double share = i == 0 || i == PIECES ? 1.0 : i % 2 == 1 ? 4.0 : 2.0;
            sum += share * h / 3.0 * m * moment;
        }
    }
    return sum / EJ;
}

static void stringer_sags_under_a_tapered_member(void **state)
{
    (void)state;
    solved s;
    solved_open(&s, HEAD
                "member b from A to B of oak { section thin at start; section thick at end }\n" ENDS
                "falsework f under b at 2 m, 8 m { " POSTS "; " STRINGER " }\n"
                "stage poured { erect f; cast b }\n"
                "grade b { target poured; point 1 m at 0 m }\n");
    for (double c = 0.5; c < 6.0; c += 0.7) {
        assert_close(grade_at(&s, 2.0 + c).stringer, sag_by_unit_load(c), 1e-10, 0.0);
    }
    solved_close(&s);
}

/* From row to row of one falsework only: two that meet have no beam between them, nor has a falsework without one. */
static void stringer_ends_with_its_falsework(void **state)
{
    (void)state;
    solved s;
    solved_open(&s, HEAD BEAM ENDS "falsework f under b at 2 m, 4 m { " POSTS "; " STRINGER " }\n"
                                   "falsework g under b at 6 m, 8 m { " POSTS "; " STRINGER " }\n"
                                   "falsework h under b at 10 m { " POSTS " }\n"
                                   "stage poured { erect f g h; cast b }\n"
                                   "grade b { target poured; point 1 m at 0 m }\n");
    const double sag = 5.0 * W * 16.0 / (384.0 * EJ);
    const double sags[] = {sag, sag, 0.0, sag, 0.0, 0.0};
    for (int i = 0; i < 6; i++) {
        assert_close(grade_at(&s, 1.0 + 2.0 * i).stringer, sags[i], 1e-10, 1e-15);
    }
    solved_close(&s);
}

/* ---- members without forms, and slopes ------------------------------------------------------------------- */

static void form_grade_of_a_placed_member_is_camber_alone(void **state)
{
    (void)state;
    solved s;
    solved_open(&s, HEAD BEAM ENDS "stage set { place b }\nload more { uniform 10 kN/m on b }\n"
                                   "stage later { load more }\n"
                                   "grade b { target later; point 1 m at 0 m }\n");
    const kl_form_grade g = grade_at(&s, 6.0);
    assert_false(g.is_formed);
    assert_false(kl_grade_has_stringer(s.model, &s.model->grades[0]));
    assert_close(g.camber, 5.0 * 60e3 * 20736.0 / (384.0 * EI), 1e-9, 0.0);
    assert_close(g.raise, g.camber, 0.0, 0.0);
    solved_close(&s);
}

/* Poured, taken away and placed again: what the first form did is past. */
static void form_grade_forgets_the_form_of_a_member_that_was_removed(void **state)
{
    (void)state;
    solved s;
    solved_open(&s, HEAD BEAM ENDS "falsework f under b at 6 m { " POSTS " }\n"
                                   "stage poured { erect f; cast b }\nstage clear { release f }\n"
                                   "stage gone { remove b }\nstage back { place b }\n"
                                   "grade b { target back; point 1 m at 0 m }\n");
    assert_false(grade_at(&s, 6.0).is_formed);
    solved_close(&s);
}

/* Up a slope of 3 to 4 rows stand 4 m apart in plan and carry 250 kN; between them the station runs 5 m. */
static void form_grade_on_a_slope_is_vertical(void **state)
{
    (void)state;
    solved s;
    solved_open(&s, HEAD "node E at (12 m, 9 m)\nmember b from A to E section r of oak\n"
                         "support A pinned\nsupport E roller\n"
                         "falsework f under b at 5 m, 10 m { " POSTS "; " STRINGER " }\n"
                         "stage poured { erect f; cast b }\n"
                         "grade b { target poured; point 10 m at 0 m; point 19 m at 15 m }\n");
    expect_parts(&s, 5.0, 6e-3, 250e3 / K, 0.0, 0.0);
    expect_parts(&s, 2.5, 3e-3, 125e3 / K, 0.0, 5.0 * (W / 0.8) * 256.0 / (384.0 * EJ));
    expect_parts(&s, 7.5, 6e-3, 250e3 / K, 0.0, 5.0 * (W / 0.8) * 256.0 / (384.0 * EJ));
    assert_close(grade_at(&s, 7.5).design, 14.5, 1e-14, 0.0);
    solved_close(&s);
}

static void grade_design_is_straight_between_points_and_beyond(void **state)
{
    (void)state;
    const kl_grade_point points[] = {
        {2.0, 10.0, KL_NOWHERE}, {6.0, 12.0, KL_NOWHERE}, {8.0, 11.0, KL_NOWHERE}};
    const kl_grade grade = {KL_NOWHERE, 0, 0, points, 3};
    const kl_grade level = {KL_NOWHERE, 0, 0, points, 1};
    const double wanted[][2] = {{0.0, 9.0},   {2.0, 10.0}, {5.0, 11.5}, {6.0, 12.0},
                                {7.5, 11.25}, {8.0, 11.0}, {10.0, 10.0}};
    for (size_t i = 0; i < sizeof wanted / sizeof wanted[0]; i++) {
        assert_close(kl_grade_design(&grade, wanted[i][0]), wanted[i][1], 1e-15, 0.0);
        assert_close(kl_grade_design(&level, wanted[i][0]), 10.0, 0.0, 0.0);
    }
}

int main(void)
{
    const struct CMUnitTest tests[] = {
        cmocka_unit_test(form_grade_of_a_simple_beam_is_take_up_posts_and_camber),
        cmocka_unit_test(form_grade_goes_on_straight_over_an_overhang),
        cmocka_unit_test(form_grade_knows_each_falsework),
        cmocka_unit_test(form_grade_counts_the_deflection_of_the_lower_deck),
        cmocka_unit_test(form_grade_goes_down_with_columns_that_stand),
        cmocka_unit_test(form_grade_leaves_out_what_came_before_the_concrete),
        cmocka_unit_test(form_grade_goes_down_with_springs),
        cmocka_unit_test(form_grade_knows_all_that_a_spring_carries),
        cmocka_unit_test(stringer_sags_as_a_simple_beam),
        cmocka_unit_test(stringer_overhangs_with_the_concrete),
        cmocka_unit_test(stringer_sags_under_a_tapered_member),
        cmocka_unit_test(stringer_ends_with_its_falsework),
        cmocka_unit_test(form_grade_of_a_placed_member_is_camber_alone),
        cmocka_unit_test(form_grade_forgets_the_form_of_a_member_that_was_removed),
        cmocka_unit_test(form_grade_on_a_slope_is_vertical),
        cmocka_unit_test(grade_design_is_straight_between_points_and_beyond),
    };
    return cmocka_run_group_tests_name("form grades", tests, NULL, NULL);
}
