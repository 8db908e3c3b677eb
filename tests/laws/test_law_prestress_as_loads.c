/* test_law_prestress_as_loads.c - prestress as section actions and prestress as loads on the concrete are one thing.
 *
 * As actions the section totals are loads plus secondary, and the concrete carries them less the tendon's action. As
 * loads the tendon is outside of the structure: the section totals are what the concrete carries. The concrete's
 * actions, stresses, movements, posts and reactions must be equal.
 * SPDX-License-Identifier: MIT */
#include <math.h>

#include "readings.h"

#define DIM(array) (sizeof(array) / sizeof((array)[0]))

/* Two tendons with friction, seating and plan bend on a skewed cap with a shallow end, in two steps with girders between. */
static const char cap_text[] =
    "show us\nskew 30 deg\n"
    "concrete mix { strength 6 ksi; transfer_strength 4.5 ksi; unit_weight 150 pcf; modulus aashto "
    "2020 }\n"
    "prestressing strand { ultimate 270 ksi; yield 243 ksi; modulus 28500 ksi }\n"
    "section cap_end { rectangle width 7 ft depth 5.5 ft; line top }\n"
    "section cap_root { rectangle width 7 ft depth 7.5 ft; line top }\n"
    "section column { circle diameter 6 ft }\n"
    "node L at (0 ft, 30 ft); node R at (square 84 ft, 30 ft)\n"
    "node A at (square 14 ft, 0 ft); node B at (square 70 ft, 0 ft)\n"
    "member cap from L to R of mix { section cap_end at start; section cap_root at square 14 ft; "
    "section cap_root at end }\n"
    "node C on cap at square 14 ft\nnode D on cap at square 70 ft\n"
    "member col_1 from A to C section column of mix { rigid end 3.75 ft }\n"
    "member col_2 from B to D section column of mix { rigid end 3.75 ft }\nsupport A fixed; "
    "support B fixed\n"
    "tendon T1 in cap { of strand; strands 19 area 0.217 in^2; count 3; profile from top {\n"
    "    anchor at start depth 3.4 ft; high at square 14 ft depth 3 ft; inflection at square 20 "
    "ft\n"
    "    low at square 42 ft depth 6.5 ft; inflection at square 64 ft; high at square 70 ft depth "
    "3 ft\n"
    "    anchor at end depth 4.75 ft }\n"
    "  bend 0.05 rad from square 30 ft to square 40 ft\n"
    "  friction 0.2; wobble 0.0002 per ft; seating 3/8 in; jack start then end ratio 0.75\n"
    "  duct 4.5 in offset 0.75 in; bonded grouted }\n"
    "tendon T2 in cap { of strand; strands 19 area 0.217 in^2; count 2; profile from top {\n"
    "    anchor at start depth 2 ft; low at square "
    "42 ft depth 5.5 ft\n"
    "    anchor at end depth 3.5 ft }\n"
    "  friction 0.2; wobble 0.0002 per ft; seating 1/4 in; jack end ratio 0.7; duct 4.5 in; bonded "
    "grouted }\n"
    "falsework bents under cap at square 2 ft, square 6 ft, square 10 ft, square 19 ft, square 24 "
    "ft, square 29 ft,\n"
    "    square 34 ft, square 39 ft, square 44 ft, square 49 ft, square 54 ft, square 59 ft, "
    "square 64 ft, square 74 ft,\n"
    "    square 78 ft, square 82 ft {\n  posts 2; stiffness 2500 kip/in; capacity 90 kip }\n"
    "load girders { point 110 kip on cap from square 6 ft to square 78 ft every square 8 ft }\n"
    "stage columns at 0 day { cast col_1 col_2 }\nstage wet at 30 day { erect bents; cast cap }\n"
    "stage step_1 at 44 day { stress T1 to 50 %; stress T1 }\n"
    "stage struck at 46 day { release bents from square 17 ft to square 40 ft; release bents }\n"
    "stage girders_set at 75 day { load girders }\nstage step_2 at 80 day { stress T2 }\n";

/* Values of the concrete under both ways. */
static const struct {
    kl_quantity quantity;
    kl_part part; /* of the actions' way; of the loads' way always the total */
} asked[] = {{KL_MOMENT, KL_CONCRETE_SHARE},
             {KL_AXIAL, KL_CONCRETE_SHARE},
             {KL_SHEAR, KL_CONCRETE_SHARE},
             {KL_STRESS_TOP, KL_TOTAL},
             {KL_STRESS_BOTTOM, KL_TOTAL},
             {KL_DEFLECTION, KL_TOTAL},
             {KL_SWAY, KL_TOTAL},
             {KL_ROTATION, KL_TOTAL}};

static void
compare_member(const solved *actions, const solved *loads, kl_state state, const char *member)
{
    const double length = solved_length(actions, member);
    for (size_t q = 0; q < DIM(asked); q++) {
        double largest = 0.0, worst = 0.0;
        for (int k = 0; k <= 173; k++) {
            const double x = length * k / 173.0;
            const double a =
                solved_part(actions, state, asked[q].part, asked[q].quantity, member, x);
            const double b = solved_part(loads, state, KL_TOTAL, asked[q].quantity, member, x);
            largest = fmax(largest, fabs(a));
            worst = fmax(worst, fabs(a - b));
        }
        if (worst > 1e-9 * largest) {
            print_error("%s of %s at step %d\n", kl_quantity_name(asked[q].quantity), member,
                        (int)state.index);
        }
        assert_close(worst, 0.0, 0.0, 1e-9 * largest);
    }
}

static void compare_ground(const solved *actions, const solved *loads, kl_state state)
{
    const double scale = 1e6; /* N: a row carries some 3e5, a column 5e6 */
    for (kl_index i = 0; i < actions->model->falsework[0].row_count; i++) {
        const kl_post_row a = solved_post(actions, state, "bents", i);
        const kl_post_row b = solved_post(loads, state, "bents", i);
        assert_int_equal(a.bears, b.bears);
        assert_close(b.force, a.force, 0.0, 1e-9 * scale);
        assert_close(b.gap, a.gap, 0.0, 1e-9 * 1e-3);
    }
    for (int d = 0; d < 3; d++) {
        assert_close(solved_reaction(loads, state, "A", (kl_direction)d),
                     solved_reaction(actions, state, "A", (kl_direction)d), 0.0, 1e-9 * scale);
        assert_close(solved_reaction(loads, state, "B", (kl_direction)d),
                     solved_reaction(actions, state, "B", (kl_direction)d), 0.0, 1e-9 * scale);
    }
}

static void prestress_as_loads_strains_the_concrete_as_actions_do(void **state)
{
    (void)state;
    solved actions, loads;
    kl_settings settings = kl_settings_default();
    solved_run(&actions, cap_text, &settings);
    settings.tendons_as_loads = true;
    solved_run(&loads, cap_text, &settings);
    for (kl_index i = solved_after(&actions, "wet").index; i < kl_step_count(actions.results);
         i++) {
        const kl_state step = kl_state_step(i);
        compare_member(&actions, &loads, step, "cap");
        compare_ground(&actions, &loads, step);
        for (kl_index t = 0; t < 2; t++) {
            double a = 0.0, b = 0.0;
            const kl_status status = kl_tendon_force(actions.results, step, t, 7.0, KL_RIGHT, &a);
            assert_int_equal(status, kl_tendon_force(loads.results, step, t, 7.0, KL_RIGHT, &b));
            assert_close(b, a, 1e-9, 0.0);
        }
    }
    const kl_state pulled = solved_after(&actions, "step_1");
    int lifted = 0;
    for (kl_index i = 0; i < actions.model->falsework[0].row_count; i++) {
        lifted += solved_post(&actions, pulled, "bents", i).bears ? 0 : 1;
    }
    assert_true(lifted > 0);
    assert_true(fabs(solved_part(&actions, pulled, KL_PRIMARY, KL_MOMENT, "cap", 15.0)) > 1e6);
    solved_close(&actions);
    solved_close(&loads);
}

int main(void)
{
    const struct CMUnitTest tests[] = {
        cmocka_unit_test(prestress_as_loads_strains_the_concrete_as_actions_do)};
    return cmocka_run_group_tests(tests, NULL, NULL);
}
