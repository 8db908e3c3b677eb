/* test_law_grades.c - form grades: the wet form as a frame of its own, the way of a point of the form, mirror and units.
 *
 * Fresh concrete on its form is a chain of simple beams on posts on what stands below. Built as such a frame - hinges at the
 * carriers, posts as members, the concrete as a load - it goes down by what the parts of the grade say, though nothing of
 * pours, shares and stringers takes part in it.
 * SPDX-License-Identifier: MIT */
#include <math.h>
#include <stdio.h>
#include <string.h>

#include "kernline/field.h"
#include "solved.h"

#define COMMON                                                                                     \
    "show si\nmaterial oak { modulus 30 GPa; unit_weight 25 kN/m^3 }\n"                            \
    "material steel { modulus 200 GPa }\n"                                                         \
    "section r { rectangle width 1 m depth 2 m }\n"                                                \
    "section thin { rectangle width 1 m depth 1 m; line top }\n"                                   \
    "section thick { rectangle width 1 m depth 3 m; line top }\n"                                  \
    "section w14 { area 0.01 m^2; inertia 0.0002 m^4 }\n"                                          \
    "section post { area 0.0025 m^2 }\n"                                                           \
    "node A at (0 m, 0 m)\nnode B at (12 m, 0 m)\nnode E at (-1 m, -5 m)\nnode F at (14 m, -5 "    \
    "m)\n"                                                                                         \
    "member d from E to F section r of oak\nnode M on d at 7 m\n"                                  \
    "support E pinned; support M roller; support F roller\nsupport A x fixed\n"

#define UNIFORM "member b from A to B section r of oak\n"
#define TAPERED "member b from A to B of oak { section thin at start; section thick at end }\n"
#define STAGED                                                                                     \
    "falsework f under b at 2 m, 5 m, 9 m on d { stiffness 100 MN/m; takeup 4 mm; stringer w14 "   \
    "of "                                                                                          \
    "steel }\nstage old { place d }\nstage poured { erect f; cast b }\n"                           \
    "grade b { target poured; point 1 m at 0 m }\n"

/* EA/h of a post is 200e9 x 0.0025 / 5 = 100e6 N/m. */
#define CHAIN                                                                                      \
    "member c from A to B section w14 of steel { hinge at 5 m; weightless }\n"                     \
    "node P1 on c at 2 m; node P2 on c at 5 m; node P3 on c at 9 m\n"                              \
    "node Q1 on d at 3 m; node Q2 on d at 6 m; node Q3 on d at 10 m\n"                             \
    "member p1 from Q1 to P1 section post of steel { axial_only }\n"                               \
    "member p2 from Q2 to P2 section post of steel { axial_only }\n"                               \
    "member p3 from Q3 to P3 section post of steel { axial_only }\n"

static kl_form_grade grade_at(const solved *s, double station)
{
    kl_form_grade g;
    assert_int_equal(kl_form_grade_at(s->results, 0, station, &g), KL_OK);
    return g;
}

static void wet_form_goes_down_as_a_chain_of_beams_on_posts(void **state)
{
    (void)state;
    static const char *const members[] = {UNIFORM, TAPERED};
    static const char *const loads[] = {
        "load wet { uniform 50 kN/m on c }\n",
        "load wet { ramp start 25 kN/m end 75 kN/m on c from 0 m to 12 m }\n"};
    for (int i = 0; i < 2; i++) {
        solved staged;
        solved chain;
        char text[4096];
        (void)snprintf(text, sizeof text, "%s%s%s", COMMON, members[i], STAGED);
        solved_open(&staged, text);
        (void)snprintf(text, sizeof text, "%s%s%s", COMMON, CHAIN, loads[i]);
        solved_open(&chain, text);
        for (double x = 0.0; x <= 12.0; x += 0.25) {
            const kl_form_grade g = grade_at(&staged, x);
            assert_close(g.takeup, 4e-3, 1e-12, 0.0);
            assert_close(-(g.posts + g.carrier + g.stringer),
                         solved_value(&chain, solved_under(&chain, "wet"), KL_DEFLECTION, "c", x),
                         1e-9, 1e-11);
        }
        solved_close(&staged);
        solved_close(&chain);
    }
}

/* From the form's grade a point goes down with the pour, then with the member until the target; so it comes to the design
 * grade. The way of the deck below is taken from the results' own steps, that of the rest from forces and stiffnesses. */
static void point_of_the_form_ends_at_its_design_grade(void **state)
{
    (void)state;
    solved s;
    solved_open(
        &s, COMMON UNIFORM
        "falsework f under b from 1 m to 11 m every 2 m on d { stiffness 100 MN/m; takeup 4 mm }\n"
        "load girders { point 90 kN on b from 2 m to 10 m every 4 m }\n"
        "stage old { place d }\nstage ready { erect f }\nstage poured { cast b }\n"
        "stage held { support A y fixed; support B y fixed }\n"
        "stage clear { release f }\nstage last { load girders }\n"
        "grade b { target last; point 30 m at 0 m; point 31 m at 5 m; point 30.5 m at 12 m }\n");
    const kl_state before = solved_after(&s, "ready");
    const kl_state poured = solved_after(&s, "poured");
    for (kl_index row = 0; row < 6; row++) {
        const double x = 1.0 + 2.0 * row;
        const kl_form_grade g = grade_at(&s, x);
        const double with_posts = -4e-3 - solved_row(&s, poured, "f", row) / 100e6;
        const double with_deck = solved_value(&s, poured, KL_DEFLECTION, "d", x + 1.0) -
                                 solved_value(&s, before, KL_DEFLECTION, "d", x + 1.0);
        const double with_member =
            solved_value(&s, solved_after(&s, "last"), KL_DEFLECTION, "b", x);
        assert_true(with_deck < -1e-6 && fabs(with_member) > 1e-6);
        assert_close(g.form + with_posts + with_deck + with_member, g.design, 1e-13, 0.0);
    }
    solved_close(&s);
}

/* The same member drawn from its other end, and the frame seen from behind. */
static void form_grades_of_a_mirrored_frame_are_the_mirrored_ones(void **state)
{
    (void)state;
    static const char mirrored[] =
        "show si\nmaterial oak { modulus 30 GPa; unit_weight 25 kN/m^3 }\n"
        "material steel { modulus 200 GPa }\n"
        "section r { rectangle width 1 m depth 2 m }\n"
        "section thin { rectangle width 1 m depth 1 m; line bottom }\n"
        "section thick { rectangle width 1 m depth 3 m; line bottom }\n"
        "section w14 { area 0.01 m^2; inertia 0.0002 m^4 }\n"
        "node A at (0 m, 0 m)\nnode B at (-12 m, 0 m)\nnode E at (1 m, -5 m)\nnode F at (-14 m, -5 "
        "m)\n"
        "member d from E to F section r of oak\nnode M on d at 7 m\n"
        "support E pinned; support M roller; support F roller\nsupport A x fixed\n" TAPERED STAGED;
    solved one;
    solved other;
    solved_open(&one, COMMON TAPERED STAGED);
    solved_open(&other, mirrored);
    for (double x = 0.0; x <= 12.0; x += 0.5) {
        const kl_form_grade g = grade_at(&one, x);
        const kl_form_grade h = grade_at(&other, x);
        assert_close(h.posts, g.posts, 1e-11, 1e-14);
        assert_close(h.carrier, g.carrier, 1e-9, 1e-12);
        assert_close(h.stringer, g.stringer, 1e-10, 1e-13);
        assert_close(h.form, g.form, 1e-12, 0.0);
    }
    solved_close(&one);
    solved_close(&other);
}

/* Lengths and forces in other units. */
static void form_grades_do_not_depend_on_units(void **state)
{
    (void)state;
    static const char in_feet[] =
        "material oak { modulus 30 GPa / 6894757.293168361 Pa * 1 ksi; unit_weight 25 kN/m^3 }\n"
        "section r { rectangle width 100 cm depth 2000 mm }\n"
        "node A at (0 ft, 0 ft)\nnode B at (12 m / 1 ft * 1 ft, 0 in)\n"
        "member b from A to B section r of oak\nsupport A pinned\nsupport B roller\n"
        "falsework f under b at 3000 mm, 600 cm, 9 m { stiffness 100 kN/mm; takeup 0.25 in }\n"
        "stage poured { erect f; cast b }\nstage clear { release f }\n"
        "grade b { target clear; point 100 ft at 0 ft; point 1212 in at end }\n";
    static const char in_metres[] =
        "show si\nmaterial oak { modulus 30 GPa; unit_weight 25 kN/m^3 }\n"
        "section r { rectangle width 1 m depth 2 m }\n"
        "node A at (0 m, 0 m)\nnode B at (12 m, 0 m)\n"
        "member b from A to B section r of oak\nsupport A pinned\nsupport B roller\n"
        "falsework f under b at 3 m, 6 m, 9 m { stiffness 100 MN/m; takeup 6.35 mm }\n"
        "stage poured { erect f; cast b }\nstage clear { release f }\n"
        "grade b { target clear; point 30.48 m at 0 m; point 30.7848 m at 12 m }\n";
    solved one;
    solved other;
    solved_open(&one, in_metres);
    solved_open(&other, in_feet);
    for (double x = 0.0; x <= 12.0; x += 0.75) {
        const kl_form_grade g = grade_at(&one, x);
        const kl_form_grade h = grade_at(&other, x);
        assert_close(h.raise, g.raise, 1e-9, 1e-14);
        assert_close(h.form, g.form, 1e-13, 0.0);
    }
    solved_close(&one);
    solved_close(&other);
}

int main(void)
{
    const struct CMUnitTest tests[] = {
        cmocka_unit_test(wet_form_goes_down_as_a_chain_of_beams_on_posts),
        cmocka_unit_test(point_of_the_form_ends_at_its_design_grade),
        cmocka_unit_test(form_grades_of_a_mirrored_frame_are_the_mirrored_ones),
        cmocka_unit_test(form_grades_do_not_depend_on_units),
    };
    return cmocka_run_group_tests_name("law: form grades", tests, NULL, NULL);
}
