/* test_law_warm_tendon.c - a grouted tendon warms with its member: concrete and tendon always make up the whole section.
 * SPDX-License-Identifier: MIT */
#include "draft.h"
#include "readings.h"
#include "solved.h"

#define STEEL     1800e-6 /* m^2 */
#define RATIO     (195.0 / 30.0)
#define CONCRETE  (0.8 - STEEL)
#define RIGIDITY  (30e9 * (CONCRETE + RATIO * STEEL))
#define EXPANSION 1e-5
#define WARMER    20.0

static void open_prism(solved *s, const char *far_end)
{
    text_draft t = {0};
    draft_add(
        &t,
        "show si\n"
        "concrete mix { strength 40 MPa; transfer_strength 30 MPa; modulus 30 GPa; expansion 1e-5 "
        "per degC }\n"
        "prestressing strand { ultimate 1860 MPa; yield 1674 MPa; modulus 195 GPa; relaxation none "
        "}\n"
        "section prism { rectangle width 0.8 m depth 1 m }\n"
        "node L at (0 m, 0 m); node R at (20 m, 0 m)\n"
        "support L fixed\n"
        "member b from L to R section prism of mix { age 28 day; weightless }\n"
        "tendon T in b { of strand; strands 12 area 150 mm^2; profile from line {\n"
        "    anchor at start height 0 m; anchor at end height 0 m straight }\n"
        "  friction 0; wobble 0 per m; seating 0 mm; jack start force 2400 kN; bonded grouted }\n"
        "load summer { warm 20 degC on b }\n"
        "stage set at 0 day { place b }\nstage pulled at 2 day { stress T; grout T }\n"
        "stage warmed at 3 day { %sload summer }\n",
        far_end);
    solved_open(s, t.text);
    draft_free(&t);
}

static double change(const solved *s, kl_part part)
{
    return solved_part(s, solved_after(s, "warmed"), part, KL_AXIAL, "b", 10.0) -
           solved_part(s, solved_after(s, "pulled"), part, KL_AXIAL, "b", 10.0);
}

static double force_change(const solved *s)
{
    return solved_force(s, solved_after(s, "warmed"), "T", 10.0) -
           solved_force(s, solved_after(s, "pulled"), "T", 10.0);
}

static void free_member_warms_without_any_force(void **state)
{
    (void)state;
    solved s;
    open_prism(&s, "");
    assert_close(force_change(&s), 0.0, 0.0, 1e-3);
    assert_close(change(&s, KL_CONCRETE_SHARE), 0.0, 0.0, 1e-3);
    solved_close(&s);
}

/* Held at both ends: -expansion x dT on concrete and steel alike, each by its own modulus. */
static void held_member_is_pressed_concrete_and_tendon_alike(void **state)
{
    (void)state;
    solved s;
    open_prism(&s, "support R fixed; ");
    assert_close(change(&s, KL_TOTAL), -RIGIDITY * EXPANSION * WARMER, 1e-9, 0.0);
    assert_close(change(&s, KL_CONCRETE_SHARE), -30e9 * CONCRETE * EXPANSION * WARMER, 1e-9, 0.0);
    assert_close(force_change(&s), -195e9 * STEEL * EXPANSION * WARMER, 1e-9, 1e-3);
    const double stress = solved_value(&s, solved_after(&s, "warmed"), KL_STRESS_TOP, "b", 10.0) -
                          solved_value(&s, solved_after(&s, "pulled"), KL_STRESS_TOP, "b", 10.0);
    assert_close(stress, -30e9 * EXPANSION * WARMER, 1e-9, 0.0);
    solved_close(&s);
}

int main(void)
{
    const struct CMUnitTest tests[] = {
        cmocka_unit_test(free_member_warms_without_any_force),
        cmocka_unit_test(held_member_is_pressed_concrete_and_tendon_alike),
    };
    return cmocka_run_group_tests(tests, NULL, NULL);
}
