/* test_law_members_go.c - what goes with a member, and what waits for one: statics of parts that come and go.
 *
 * Each was once wrong and seen by the audit: bearings whose deck is not there, loads and weight on the ends of removed
 * members, loads on a part of an axial member, steps of the section inside a rigid end.
 * SPDX-License-Identifier: MIT */
#include <math.h>

#include "solved.h"

#define PI 3.14159265358979323846
#define MATERIALS                                                                                  \
    "show si\nconcrete mix { strength 35 MPa; modulus 30 GPa; unit_weight 24 kN/m^3 }\n"           \
    "material steel { modulus 200 GPa; unit_weight 77 kN/m^3 }\n"                                  \
    "section col { circle diameter 1.2 m; shear flexible }\nsection rod { circle diameter 0.05 m " \
    "}\n"                                                                                          \
    "section box { rectangle width 1.0 m depth 0.8 m }\n"                                          \
    "section deep { tee width 2 m flange_thickness 0.3 m web_width 0.6 m depth 1.8 m; line top "   \
    "}\n"

/* A pier that stands alone: the spring of a bearing whose deck is not there yet holds nothing. Sway of a cantilever:
 * P h^3 / 3 E I + P h / G A_s, A_s = 0.9 A, G = E / 2.4. */
static void bearing_without_its_deck_holds_nothing(void **state)
{
    (void)state;
    solved m;
    solved_run(&m,
               MATERIALS
               "node G at (0 m, 0 m); node P at (0 m, 5 m); node Q at (0 m, 5 m)\n"
               "node R at (9 m, 5 m)\nmember pier from G to P section col of mix\n"
               "member deck from Q to R section box of mix\n"
               "bearing Q on P { x 50 kN/mm; y fixed }\nsupport G fixed; support R pinned\n"
               "load push { point 100 kN at P right }\n"
               "stage one { place pier; load push }\nstage two { place deck; remove deck }\n",
               NULL);
    const double area = PI * 1.2 * 1.2 / 4.0;
    const double inertia = PI * pow(1.2, 4) / 64.0;
    const double want =
        100e3 * 125.0 / (3.0 * 30e9 * inertia) + 100e3 * 5.0 * 2.4 / (30e9 * 0.9 * area);
    assert_close(solved_node(&m, solved_after(&m, "one"), KL_SWAY, "P"), want, 1e-9, 0.0);
    assert_close(solved_node(&m, solved_after(&m, "two"), KL_SWAY, "P"), want, 1e-9, 0.0);
    assert_close(solved_reaction(&m, solved_after(&m, "two"), "G", KL_Y), 24e3 * area * 5.0, 1e-9,
                 0.0);
    solved_close(&m);
}

/* What is placed, loaded and removed leaves nothing, rigid ends and loads at ends included. */
static void removed_member_leaves_nothing(void **state)
{
    (void)state;
    solved m;
    solved_run(&m,
               MATERIALS
               "node G at (0 m, 0 m); node P at (0 m, 5 m); node E at (6 m, 5 m)\n"
               "member pier from G to P section col of mix\n"
               "member arm from P to E section box of mix { rigid start 0.6 m }\n"
               "support G fixed\nload on_arm { uniform 10 kN/m on arm; point 8 kN on arm at "
               "start; point 5 kN on arm at 0.3 m; point 7 kN at E }\n"
               "stage one { place pier }\nstage two { place arm; load on_arm; remove arm }\n"
               "stage three { place arm; unload on_arm }\nstage four { load on_arm }\n",
               NULL);
    const double pier = 24e3 * PI * 0.36 * 5.0;
    const double arm = 24e3 * 0.8 * 6.0;
    const double want[3][2] = {{pier, 0.0},
                               {pier + arm, arm * 3.0},
                               {pier + arm + 80e3, arm * 3.0 + 180e3 + 1.5e3 + 42e3}};
    static const char *const stage[3] = {"two", "three", "four"};
    for (int i = 0; i < 3; i++) {
        const kl_state after = solved_after(&m, stage[i]);
        assert_close(solved_reaction(&m, after, "G", KL_Y), want[i][0], 1e-9, 0.0);
        assert_close(solved_reaction(&m, after, "G", KL_TURN), want[i][1], 1e-9, 1e-3);
    }
    solved_close(&m);
}

/* A load on a part of an axial member: to its ends by the lever, all of it and no more. */
static void partial_load_on_axial_member_goes_to_its_ends(void **state)
{
    (void)state;
    solved m;
    solved_run(&m,
               MATERIALS "node A at (0 m, 0 m); node B at (10 m, 0 m)\n"
                         "member tie from A to B section rod of steel { axial_only }\n"
                         "support A pinned; support B pinned\n"
                         "load part { uniform 2 kN/m on tie from 2 m to 5 m }\n"
                         "load turn { moment 30 kN-m on tie at 4 m }\n",
               NULL);
    const kl_state part = solved_under(&m, "part");
    assert_close(solved_reaction(&m, part, "A", KL_Y), 6e3 * 0.65, 1e-12, 0.0);
    assert_close(solved_reaction(&m, part, "B", KL_Y), 6e3 * 0.35, 1e-12, 0.0);
    const kl_state turn = solved_under(&m, "turn");
    assert_close(solved_reaction(&m, turn, "A", KL_Y), 3e3, 1e-12, 0.0);
    assert_close(solved_reaction(&m, turn, "B", KL_Y), -3e3, 1e-12, 0.0);
    solved_close(&m);
}

/* The section steps inside the rigid end: 0.8 m^2 for 0.3 m, then a tee of 2 x 0.3 + 0.6 x 1.5 = 1.5 m^2. */
static void section_step_inside_a_rigid_end_is_weighed(void **state)
{
    (void)state;
    solved m;
    solved_run(&m,
               MATERIALS "node A at (0 m, 0 m); node B at (10 m, 0 m)\n"
                         "member beam from A to B of mix { section box at start; section box at "
                         "0.3 m; section deep at 0.3 m; section deep at end; rigid start 1 m }\n"
                         "support A fixed\nload dead { weight }\n",
               NULL);
    const kl_state dead = solved_under(&m, "dead");
    const double first = 24e3 * 0.8 * 0.3;
    const double rest = 24e3 * 1.5 * 9.7;
    assert_close(solved_reaction(&m, dead, "A", KL_Y), first + rest, 1e-12, 0.0);
    assert_close(solved_reaction(&m, dead, "A", KL_TURN), first * 0.15 + rest * 5.15, 1e-12, 0.0);
    solved_close(&m);
}

int main(void)
{
    const struct CMUnitTest tests[] = {
        cmocka_unit_test(bearing_without_its_deck_holds_nothing),
        cmocka_unit_test(removed_member_leaves_nothing),
        cmocka_unit_test(partial_load_on_axial_member_goes_to_its_ends),
        cmocka_unit_test(section_step_inside_a_rigid_end_is_weighed)};
    return cmocka_run_group_tests(tests, NULL, NULL);
}
