/* test_law_give_back.c - what a part carried goes back to the structure when it goes: afterwards all is as if it had
 * never been, and the causes add up to the total at every step.
 *
 * On a linear structure (contact included, which has no friction and so no memory) a state follows from what stands
 * and what acts, not from the way there; but a joint that is locked keeps what it holds.
 * SPDX-License-Identifier: MIT */
#include <math.h>
#include <string.h>

#include "readings.h"

#define DIM(array) (sizeof(array) / sizeof((array)[0]))

/* A bent with a knee brace, a hanger of a deck, cap on posts. `more` goes into the frame: supports, hinges. */
#define FRAME                                                                                      \
    "show si\n"                                                                                    \
    "concrete mix { strength 40 MPa; transfer_strength 30 MPa; unit_weight 24 kN/m^3; modulus 31 " \
    "GPa; expansion 1e-5 per degC }\n"                                                             \
    "material steel { modulus 200 GPa; unit_weight 77 kN/m^3 }\n"                                  \
    "prestressing strand { ultimate 1860 MPa; yield 1670 MPa; modulus 196 GPa }\n"                 \
    "section cap_section { rectangle width 1.8 m depth 1.9 m }\nsection column { circle diameter " \
    "1.5 m }\n"                                                                                    \
    "section rod { area 0.03 m^2 }\nsection strut { pipe diameter 500 mm thickness 20 mm }\n"      \
    "node L at (0 m, 8 m); node R at (22 m, 8 m); node A at (4 m, 0 m); node B at (17 m, 0 m)\n"   \
    "member cap from L to R section cap_section of mix\nnode C on cap at 4 m\nnode D on cap at "   \
    "17 m\n"                                                                                       \
    "node M on cap at 11 m\n"                                                                      \
    "member col_1 from A to C section column of mix { rigid end 0.95 m }\n"                        \
    "member brace from A to M section strut of steel\nmember tie from A to D section rod of "      \
    "steel { axial_only }\n"                                                                       \
    "tendon T in cap { of strand; strands 12 area 150 mm^2; count 2; profile from bottom {\n"      \
    "    anchor at start height 0.8 m; high at 4 m height 1.5 m; inflection at 6 m; low at 10 m "  \
    "height 0.3 m\n"                                                                               \
    "    inflection at 15 m; high at 17 m height 1.5 m; anchor at end height 0.8 m }\n"            \
    "  friction 0.2; wobble 0.001 per m; seating 6 mm; jack start ratio 0.75; duct 80 mm; "        \
    "unbonded }\n"                                                                                 \
    "falsework bents under cap at 1 m, 3 m, 6 m, 8.5 m, 13.5 m, 19 m, 21 m {\n  posts 2; "         \
    "stiffness 300 kN/mm; capacity 900 kN }\n"                                                     \
    "load girders { point 300 kN on cap at 2 m; point 250 kN on cap at 14 m; point 40 kN at R "    \
    "right }\n"                                                                                    \
    "load summer { warm 15 degC on cap; gradient 11 degC on cap }\n"                               \
    "load uplift { point 900 kN on cap at 9 m up }\n"
#define COL_2 "member col_2 from B to D section column of mix { rigid end 0.95 m }\n"
#define FIXED "support A fixed; support B fixed\n"
#define CAST                                                                                       \
    "stage columns at 0 day { cast col_1 col_2 }\nstage wet at 28 day { erect bents; cast cap }\n"

/* Two ways to one end. */
static const struct {
    const char *title, *way, *straight;
} pairs[] = {
    {"unload",
     FRAME COL_2 FIXED CAST
     "stage last at 40 day { load girders; load uplift; unload uplift; unload girders }\n",
     FRAME COL_2 FIXED CAST "stage last at 40 day { }\n"},
    {"unload what warms",
     FRAME COL_2 FIXED CAST "stage last at 40 day { load summer; load girders; unload summer }\n",
     FRAME COL_2 FIXED CAST "stage last at 40 day { load girders }\n"},
    {"remove a brace and a tie",
     FRAME COL_2 FIXED CAST "stage last at 40 day { place brace tie; release bents; load girders; "
                            "load summer; remove brace; remove tie }\n",
     FRAME COL_2 FIXED CAST "stage last at 40 day { release bents; load girders; load summer }\n"},
    {"slacken",
     FRAME COL_2 FIXED CAST "stage last at 40 day { stress T; load girders; slacken T }\n",
     FRAME COL_2 FIXED CAST "stage last at 40 day { load girders }\n"},
    {"free a support's turn",
     FRAME COL_2 FIXED CAST
     "stage last at 40 day { release bents; load girders; load summer; free B turn }\n",
     FRAME COL_2 FIXED CAST
     "stage last at 40 day { free B turn; release bents; load girders; load summer }\n"},
    {"free a support's x",
     FRAME COL_2 FIXED CAST
     "stage last at 40 day { load girders; free B x turn; release bents; load summer }\n",
     FRAME COL_2 FIXED CAST
     "stage last at 40 day { release bents; free B x turn; load summer; load girders }\n"},
    {"unlock",
     FRAME COL_2 FIXED CAST "stage last at 40 day { release bents; load girders; load summer; "
                            "unlock col_2 start; unlock cap at 14 m }\n",
     FRAME COL_2 FIXED CAST "stage last at 40 day { unlock col_2 start; unlock cap at 14 m; load "
                            "summer; release bents; load girders }\n"},
};

/* Gaps are not shared out by cause. */
static void forget_gaps(readings *r)
{
    for (kl_index i = 0; i < r->count; i++) {
        if (strcmp(r->items[i].what, "gap of the row") == 0) {
            r->items[i].value = 0.0;
        }
    }
}

static void assert_causes_add_up(const solved *m, kl_state state)
{
    kl_cause causes[16];
    kl_index count = DIM(causes);
    kl_state_causes(m->results, state, causes, &count);
    assert_true(count > 0);
    readings total = readings_take(m, state, NULL);
    readings sum = readings_take(m, kl_state_of_cause(state, causes[0]), NULL);
    for (kl_index i = 1; i < count; i++) {
        readings one = readings_take(m, kl_state_of_cause(state, causes[i]), NULL);
        readings_add(&sum, &one, 1.0);
        readings_free(&one);
    }
    forget_gaps(&total);
    forget_gaps(&sum);
    readings_agree(&sum, &total, 1e-11);
    readings_free(&total);
    readings_free(&sum);
}

static void assert_sound_at_every_step(const solved *m)
{
    for (kl_index i = 0; i < kl_step_count(m->results); i++) {
        kl_audit audit;
        assert_int_equal(kl_audit_of_state(m->results, kl_state_step(i), &audit), KL_OK);
        assert_true(audit.passed);
        assert_causes_add_up(m, kl_state_step(i));
    }
}

static void what_has_gone_leaves_no_trace(void **state)
{
    (void)state;
    for (size_t i = 0; i < DIM(pairs); i++) {
        solved way, straight;
        solved_run(&way, pairs[i].way, NULL);
        solved_run(&straight, pairs[i].straight, NULL);
        assert_sound_at_every_step(&way);
        readings got = readings_take(&way, solved_after(&way, "last"), NULL);
        readings want = readings_take(&straight, solved_after(&straight, "last"), NULL);
        print_message("           %s\n", pairs[i].title);
        readings_agree(&got, &want, 1e-9);
        readings_free(&got);
        readings_free(&want);
        solved_close(&way);
        solved_close(&straight);
    }
}

/* Unlock, load, lock, load: the hinge holds nothing while open and nothing new comes of locking; the second load finds
 * the joint rigid and adds what it adds to the structure without a hinge. */
static void locked_joint_keeps_what_it_holds_and_is_rigid_from_then_on(void **state)
{
    (void)state;
    solved m, rigid;
    solved_run(&m,
               FRAME COL_2 FIXED CAST "stage struck at 40 day { release bents }\n"
                                      "stage open at 41 day { unlock col_2 start; load girders }\n"
                                      "stage shut at 42 day { lock col_2 start }\n"
                                      "stage last at 43 day { load uplift }\n",
               NULL);
    solved_run(&rigid,
               FRAME COL_2 FIXED CAST "stage struck at 40 day { release bents }\n"
                                      "stage last at 43 day { load uplift }\n",
               NULL);
    assert_sound_at_every_step(&m);
    assert_close(solved_part(&m, solved_after(&m, "open"), KL_TOTAL, KL_MOMENT, "col_2", 0.0), 0.0,
                 0.0, 1e-3);
    assert_true(
        fabs(solved_part(&m, solved_after(&m, "struck"), KL_TOTAL, KL_MOMENT, "col_2", 0.0)) > 1e4);
    readings open = readings_take(&m, solved_after(&m, "open"), NULL);
    readings shut = readings_take(&m, solved_after(&m, "shut"), NULL);
    readings_agree(&shut, &open, 1e-12);
    readings got = readings_take(&m, solved_after(&m, "last"), NULL);
    readings want = readings_take(&rigid, solved_after(&rigid, "last"), NULL);
    readings before = readings_take(&rigid, solved_after(&rigid, "struck"), NULL);
    readings_add(&want, &before, -1.0);
    readings_add(&want, &shut, 1.0);
    readings_agree(&got, &want, 1e-9);
    readings_free(&open);
    readings_free(&shut);
    readings_free(&got);
    readings_free(&want);
    readings_free(&before);
    solved_close(&m);
    solved_close(&rigid);
}

int main(void)
{
    const struct CMUnitTest tests[] = {
        cmocka_unit_test(what_has_gone_leaves_no_trace),
        cmocka_unit_test(locked_joint_keeps_what_it_holds_and_is_rigid_from_then_on),
    };
    return cmocka_run_group_tests(tests, NULL, NULL);
}
