/* test_law_rotation.c - a frame turned as a whole, with its loads and supports, carries them as before.
 *
 * Nothing weighs here and no load has a direction of its own: forces at nodes and along members are given along and
 * across, or by components that turn with the frame. Section actions and stresses stay; movements and reactions turn.
 * SPDX-License-Identifier: MIT */
#include <math.h>

#include "draft.h"
#include "readings.h"

#define DIM(array) (sizeof(array) / sizeof((array)[0]))
#define DEGREE     (3.14159265358979323846 / 180.0)

static const char *const members[] = {"post_1", "cap", "post_2", "arm", "brace"};
static const char *const nodes[] = {"A", "B", "C", "D", "E"};
static const double at[][2] = {{0.0, 0.0}, {1.0, 7.0}, {12.0, 8.0}, {13.0, -1.0}, {19.0, 9.5}};

/* The vector (x, y) turned. */
static kl_point turned(double angle, double x, double y)
{
    return (kl_point){x * cos(angle) - y * sin(angle), x * sin(angle) + y * cos(angle)};
}

/* "12 kN right on cap at 3 m" and the like: a value is written without its sign, which goes into the direction. */
static void add_part(
    text_draft *t, const char *what, double value, const char *unit, const char *place, bool level)
{
    const char *direction =
        level ? (value < 0.0 ? "left" : "right") : (value < 0.0 ? "down" : "up");
    draft_add(t, "    %s %.17g %s %s %s\n", what, fabs(value), unit, place, direction);
}

static void
add_vector(text_draft *t, const char *what, kl_point v, const char *unit, const char *place)
{
    add_part(t, what, v.x, unit, place, true);
    add_part(t, what, v.y, unit, place, false);
}

static void run(solved *m, double angle, const char *left, double slope)
{
    text_draft t = {0};
    draft_add(&t,
              "show si\nmaterial stone { modulus 30 GPa; shear_modulus 12 GPa; expansion 1e-5 per "
              "degC }\n"
              "section shallow { rectangle width 1.2 m depth 1.0 m; line top; shear flexible }\n"
              "section deep { rectangle width 1.2 m depth 1.7 m; line top; shear flexible }\n"
              "section column { circle diameter 1.1 m }\nsection rod { area 0.004 m^2 }\n");
    for (size_t i = 0; i < DIM(nodes); i++) {
        const kl_point p = turned(angle, at[i][0], at[i][1]);
        draft_add(&t, "node %s at (%.17g m, %.17g m)\n", nodes[i], p.x, p.y);
    }
    draft_add(&t, "member post_1 from A to B section column of stone { rigid end 0.6 m }\n"
                  "member cap from B to C of stone { section shallow at start; section deep at 5 "
                  "m; section shallow at end }\n"
                  "member post_2 from D to C section column of stone { hinge end }\n"
                  "member arm from C to E section shallow of stone { hinge at 4 m }\n"
                  "member brace from A to C section rod of stone { axial_only }\n");
    draft_add(&t, "support A %s\nsupport D fixed\nsupport E roller slope %.17g deg\n", left,
              slope + angle / DEGREE);
    draft_add(&t, "load mixed {\n");
    add_vector(&t, "point", turned(angle, 40.0, -75.0), "kN", "at B");
    add_vector(&t, "point", turned(angle, 10.0, -90.0), "kN", "on cap at 3.3 m");
    add_vector(&t, "uniform", turned(angle, 2.0, -20.0), "kN/m", "on cap");
    add_vector(&t, "settle", turned(angle, 1.0, -3.0), "mm", "at D");
    draft_add(&t, "    uniform 12 kN/m across on post_1 from 1 m to 5 m; ramp start 0 kN/m end 9 "
                  "kN/m along on post_2\n"
                  "    point 33 kN on arm at 2 m across; moment 60 kN-m on cap at 7 m; moment 25 "
                  "kN-m at C clockwise\n"
                  "    warm 15 degC on arm cap; gradient 8 degC on cap\n");
    draft_add(&t, "    turn 0.0005 rad at D\n}\n");
    solved_run(m, t.text, NULL);
    draft_free(&t);
}

static void compare_course(const solved *got, const solved *want, kl_quantity quantity)
{
    const kl_state mixed = kl_state_case(0);
    double largest = 0.0;
    double worst = 0.0;
    for (size_t i = 0; i < DIM(members); i++) {
        const double length = solved_length(want, members[i]);
        if (quantity != KL_AXIAL && i + 1 == DIM(members)) {
            continue; /* the brace has axial force only */
        }
        for (int k = 0; k <= 40; k++) {
            const double a =
                solved_part(want, mixed, KL_TOTAL, quantity, members[i], length * k / 40.0);
            const double b =
                solved_part(got, mixed, KL_TOTAL, quantity, members[i], length * k / 40.0);
            largest = fmax(largest, fabs(a));
            worst = fmax(worst, fabs(a - b));
        }
    }
    assert_true(largest > 0.0);
    assert_close(worst, 0.0, 0.0, 1e-9 * largest);
}

/* A vector of `want`, turned, against that of `got`. */
static void compare_vector(double angle, const double want[2], const double got[2], double scale)
{
    const kl_point v = turned(angle, want[0], want[1]);
    assert_close(got[0], v.x, 0.0, 1e-9 * scale);
    assert_close(got[1], v.y, 0.0, 1e-9 * scale);
}

static void compare_nodes(double angle, const solved *got, const solved *want)
{
    const kl_state mixed = kl_state_case(0);
    static const char *const supported[] = {"A", "D", "E"};
    for (size_t i = 0; i < DIM(nodes); i++) {
        const double a[2] = {solved_node(want, mixed, KL_SWAY, nodes[i]),
                             solved_node(want, mixed, KL_DEFLECTION, nodes[i])};
        const double b[2] = {solved_node(got, mixed, KL_SWAY, nodes[i]),
                             solved_node(got, mixed, KL_DEFLECTION, nodes[i])};
        compare_vector(angle, a, b, 0.01);
        assert_close(solved_node(got, mixed, KL_ROTATION, nodes[i]),
                     solved_node(want, mixed, KL_ROTATION, nodes[i]), 0.0, 1e-9 * 0.01);
    }
    for (size_t i = 0; i < DIM(supported); i++) {
        const double a[2] = {solved_reaction(want, mixed, supported[i], KL_X),
                             solved_reaction(want, mixed, supported[i], KL_Y)};
        const double b[2] = {solved_reaction(got, mixed, supported[i], KL_X),
                             solved_reaction(got, mixed, supported[i], KL_Y)};
        compare_vector(angle, a, b, 1e6);
        assert_close(solved_reaction(got, mixed, supported[i], KL_TURN),
                     solved_reaction(want, mixed, supported[i], KL_TURN), 0.0, 1e-9 * 1e6);
    }
}

static void turned_frame_carries_its_loads_as_before(void **state)
{
    (void)state;
    static const double angles[] = {37.3, 90.0, -123.7, 180.0};
    static const char *const left[] = {"fixed", "pinned"};
    static const kl_quantity courses[] = {KL_MOMENT,     KL_SHEAR,         KL_AXIAL,
                                          KL_STRESS_TOP, KL_STRESS_BOTTOM, KL_ROTATION};
    for (size_t s = 0; s < DIM(left); s++) {
        solved upright;
        run(&upright, 0.0, left[s], 20.0);
        for (size_t i = 0; i < DIM(angles); i++) {
            solved m;
            run(&m, angles[i] * DEGREE, left[s], 20.0);
            for (size_t k = 0; k < DIM(courses); k++) {
                compare_course(&m, &upright, courses[k]);
            }
            compare_nodes(angles[i] * DEGREE, &m, &upright);
            solved_close(&m);
        }
        solved_close(&upright);
    }
}

int main(void)
{
    const struct CMUnitTest tests[] = {cmocka_unit_test(turned_frame_carries_its_loads_as_before)};
    return cmocka_run_group_tests(tests, NULL, NULL);
}
