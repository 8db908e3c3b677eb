/* test_law_superposition.c - effects of loads add up, in any order, and work done crosswise is equal.
 *
 * Superposition and the reciprocal theorem (E. Betti, 1872; J. C. Maxwell, 1864) hold for every linear structure. In
 * stages they hold as long as no contact changes.
 * SPDX-License-Identifier: MIT */
#include <math.h>
#include <stdio.h>
#include <string.h>

#include "draft.h"
#include "readings.h"

#define DIM(array) (sizeof(array) / sizeof((array)[0]))

/* A lopsided frame with everything linear in it: taper, rigid ends, hinge, spring, bearing, slope, shear, off-line. */
#define FRAME                                                                                      \
    "show si\n"                                                                                    \
    "material stone { modulus 30 GPa; shear_modulus 12 GPa; unit_weight 24 kN/m^3; expansion "     \
    "1e-5 per degC }\n"                                                                            \
    "section shallow { rectangle width 1.2 m depth 1.0 m; line top; shear flexible }\n"            \
    "section deep { rectangle width 1.2 m depth 1.7 m; line top; shear flexible }\n"               \
    "section column { circle diameter 1.1 m }\n"                                                   \
    "node A at (0 m, 0 m); node B at (0.8 m, 7 m); node C at (13 m, 8 m); node D at (14 m, -1 "    \
    "m)\n"                                                                                         \
    "node E at (24 m, 8.5 m); node F at (13 m, 8 m)\n"                                             \
    "member post_1 from A to B section column of stone { rigid end 0.6 m }\n"                      \
    "member cap from B to C of stone { section shallow at start; section deep at 5 m; section "    \
    "shallow at end }\n"                                                                           \
    "member post_2 from D to C section column of stone { hinge start }\n"                          \
    "member tail from F to E section shallow of stone { hinge at 6 m }\n"                          \
    "node on_tail on tail at 8 m\n"                                                                \
    "support A fixed; support D x fixed y 2e5 kN/m turn 4e5 kN-m/rad; support E roller slope 20 "  \
    "deg\n"                                                                                        \
    "support on_tail y 1e4 kN/m\n"                                                                 \
    "bearing F on C { x fixed; y fixed }\n"

#define POUR "uniform 30 kN/m on cap tail; point 90 kN on cap at 3.3 m across"
#define WIND                                                                                       \
    "uniform 4 kN/m right on post_1 post_2; moment 70 kN-m on cap at 2 m; point 40 kN at C right"
#define SUMMER "warm 20 degC on cap; gradient 9 degC on tail; settle 4 mm at A down"

static void loads_together_add_the_loads_apart(void **state)
{
    (void)state;
    solved m;
    solved_run(&m,
               FRAME "load pour { " POUR " }\nload wind { " WIND " }\nload summer { " SUMMER
                     " }\nload all { " POUR "; " WIND "; " SUMMER " }\n",
               NULL);
    readings sum = readings_take(&m, solved_under(&m, "pour"), NULL);
    const char *more[] = {"wind", "summer"};
    for (size_t i = 0; i < DIM(more); i++) {
        readings one = readings_take(&m, solved_under(&m, more[i]), NULL);
        readings_add(&sum, &one, 1.0);
        readings_free(&one);
    }
    readings all = readings_take(&m, solved_under(&m, "all"), NULL);
    readings_agree(&all, &sum, 1e-9);
    assert_true(readings_largest(&all, READING_MOMENT) > 1e5);
    readings_free(&all);
    readings_free(&sum);
    solved_close(&m);
}

static void combination_is_the_factored_sum(void **state)
{
    (void)state;
    solved m;
    solved_run(
        &m,
        FRAME
        "load pour { " POUR " }\nload wind { " WIND " }\nload summer { " SUMMER " }\n"
        "combination ultimate { factor 1.25 of pour; factor -0.5 of wind; factor 1 of summer }\n",
        NULL);
    readings got = readings_take(&m, kl_state_combination(0), NULL);
    readings want = readings_take(&m, solved_under(&m, "summer"), NULL);
    readings pour = readings_take(&m, solved_under(&m, "pour"), NULL);
    readings wind = readings_take(&m, solved_under(&m, "wind"), NULL);
    readings_add(&want, &pour, 1.25);
    readings_add(&want, &wind, -0.5);
    readings_agree(&got, &want, 1e-12);
    readings_free(&got);
    readings_free(&want);
    readings_free(&pour);
    readings_free(&wind);
    solved_close(&m);
}

/* ---- the reciprocal theorem -------------------------------------------------------------------------------- */

/* A unit load and the movement it works on. */
typedef struct unit_load {
    const char *text;   /* of a load phrase */
    const char *member; /* moved there, or NULL: a node */
    double station;
    const char *node;
    kl_quantity movement;
} unit_load;

static const unit_load units[] = {
    {"point 1 kN on cap at 2.2 m up", "cap", 2.2, NULL, KL_DEFLECTION},
    {"point 1 kN on cap at 9.1 m right", "cap", 9.1, NULL, KL_SWAY},
    {"moment 1 kN-m on cap at 6 m", "cap", 6.0, NULL, KL_ROTATION},
    {"point 1 kN on tail at 3 m up", "tail", 3.0, NULL, KL_DEFLECTION},
    {"moment 1 kN-m on tail at 7 m", "tail", 7.0, NULL, KL_ROTATION},
    {"point 1 kN at C right", NULL, 0.0, "C", KL_SWAY},
    {"point 1 kN at F up", NULL, 0.0, "F", KL_DEFLECTION},
    {"moment 1 kN-m at B", NULL, 0.0, "B", KL_ROTATION},
    {"moment 1 kN-m at D", NULL, 0.0, "D", KL_ROTATION},
    {"point 1 kN at E right", NULL, 0.0, "E", KL_SWAY},
    {"point 1 kN on post_1 at 3.2 m right", "post_1", 3.2, NULL, KL_SWAY},
    {"moment 1 kN-m on post_2 at 5 m", "post_2", 5.0, NULL, KL_ROTATION},
};

static double work_on(const solved *m, kl_index case_of, const unit_load *u)
{
    const kl_state state = kl_state_case(case_of);
    return u->member ? solved_part(m, state, KL_TOTAL, u->movement, u->member, u->station)
                     : solved_node(m, state, u->movement, u->node);
}

static void movement_at_one_load_by_another_is_mutual(void **state)
{
    (void)state;
    text_draft draft = {0};
    draft_add(&draft, "%s", FRAME);
    for (size_t i = 0; i < DIM(units); i++) {
        draft_add(&draft, "load unit_%d { %s }\n", (int)i, units[i].text);
    }
    solved m;
    solved_run(&m, draft.text, NULL);
    for (size_t i = 0; i < DIM(units); i++) {
        const double own = work_on(&m, (kl_index)i, &units[i]);
        assert_true(own >
                    0.0); /* the theorem of least work: a load moves its own place its own way */
        for (size_t j = 0; j < i; j++) {
            const double other = work_on(&m, (kl_index)j, &units[j]);
            assert_close(work_on(&m, (kl_index)i, &units[j]), work_on(&m, (kl_index)j, &units[i]),
                         1e-9, 1e-9 * sqrt(own * other));
        }
    }
    solved_close(&m);
    draft_free(&draft);
}

/* Land, 1887: a support's reaction to a load is minus the movement of the load's place for a unit movement of it. */
static void reaction_is_the_movement_by_its_support(void **state)
{
    (void)state;
    text_draft draft = {0};
    draft_add(&draft, "%sload down { settle 1 m at A down }\nload turned { turn 1 rad at A }\n",
              FRAME);
    for (size_t i = 0; i < DIM(units); i++) {
        draft_add(&draft, "load unit_%d { %s }\n", (int)i, units[i].text);
    }
    solved m;
    solved_run(&m, draft.text, NULL);
    for (size_t i = 0; i < DIM(units); i++) {
        const kl_state unit = kl_state_case((kl_index)i + 2);
        assert_close(solved_reaction(&m, unit, "A", KL_Y), 1e3 * work_on(&m, 0, &units[i]), 1e-9,
                     1e-6);
        assert_close(solved_reaction(&m, unit, "A", KL_TURN), -1e3 * work_on(&m, 1, &units[i]),
                     1e-9, 1e-6);
    }
    solved_close(&m);
    draft_free(&draft);
}

/* ---- in stages --------------------------------------------------------------------------------------------- */

#define STAGED                                                                                     \
    "show si\n"                                                                                    \
    "concrete mix { strength 40 MPa; transfer_strength 30 MPa; unit_weight 24 kN/m^3; modulus 31 " \
    "GPa }\n"                                                                                      \
    "prestressing strand { ultimate 1860 MPa; yield 1670 MPa; modulus 196 GPa }\n"                 \
    "section cap { rectangle width 1.8 m depth 1.9 m }\nsection column { circle diameter 1.5 m "   \
    "}\n"                                                                                          \
    "node L at (0 m, 8 m); node R at (22 m, 8 m); node A at (4 m, 0 m); node B at (17 m, 0 m)\n"   \
    "member cap from L to R section cap of mix\nnode C on cap at 4 m\nnode D on cap at 17 m\n"     \
    "member col_1 from A to C section column of mix { rigid end 0.95 m }\n"                        \
    "member col_2 from B to D section column of mix { rigid end 0.95 m }\n"                        \
    "support A fixed; support B fixed\n"                                                           \
    "tendon T in cap { of strand; strands 12 area 150 mm^2; count 2\n"                             \
    "  profile from bottom { anchor at start height 0.95 m; high at 4 m height 1.6 m; inflection " \
    "at 6 m\n"                                                                                     \
    "    low at 10 m height 0.35 m; inflection at 15 m; high at 17 m height 1.6 m; anchor at end " \
    "height 0.95 m }\n"                                                                            \
    "  friction 0.2; wobble 0.001 per m; seating 6 mm; jack start ratio 0.75; duct 80 mm; bonded " \
    "grouted }\n"                                                                                  \
    "falsework bents under cap at 1 m, 3 m, 6 m, 8.5 m, 11 m, 13.5 m, 19 m, 21 m { posts 2; "      \
    "stiffness 60 kN/mm; capacity 500 kN }\n"                                                      \
    "load one { point 150 kN on cap at 2 m }\nload two { uniform 12 kN/m on cap from 7 m to 20 m " \
    "}\n"                                                                                          \
    "load three { point 30 kN at R right; moment 80 kN-m on cap at 12 m }\n"

static const char *const orders[] = {"one two three", "three one two", "two three one",
                                     "three two one"};

/* `loads` after everything else has happened, or while the posts stand. */
static void run_order(solved *m, bool on_posts, const char *loads)
{
    text_draft draft = {0};
    draft_add(&draft,
              "%sstage cols at 0 day { cast col_1 col_2 }\nstage cast at 28 day { erect bents; "
              "cast cap }\n",
              STAGED);
    if (on_posts) {
        draft_add(&draft, "stage last at 40 day { load %s }\n", loads);
    } else {
        draft_add(&draft,
                  "stage pulled at 40 day { stress T }\nstage struck at 41 day { release bents }\n"
                  "stage last at 50 day { load %s }\n",
                  loads);
    }
    solved_run(m, draft.text, NULL);
    draft_free(&draft);
}

static void order_of_loads_does_not_matter(void **state)
{
    (void)state;
    for (int on_posts = 0; on_posts < 2; on_posts++) {
        solved first;
        run_order(&first, on_posts, orders[0]);
        readings want = readings_take(&first, solved_after(&first, "last"), NULL);
        for (size_t i = 1; i < DIM(orders); i++) {
            solved other;
            run_order(&other, on_posts, orders[i]);
            readings got = readings_take(&other, solved_after(&other, "last"), NULL);
            readings_agree(&got, &want, 1e-9);
            readings_free(&got);
            solved_close(&other);
        }
        readings_free(&want);
        solved_close(&first);
    }
}

int main(void)
{
    const struct CMUnitTest tests[] = {
        cmocka_unit_test(loads_together_add_the_loads_apart),
        cmocka_unit_test(combination_is_the_factored_sum),
        cmocka_unit_test(movement_at_one_load_by_another_is_mutual),
        cmocka_unit_test(reaction_is_the_movement_by_its_support),
        cmocka_unit_test(order_of_loads_does_not_matter),
    };
    return cmocka_run_group_tests(tests, NULL, NULL);
}
