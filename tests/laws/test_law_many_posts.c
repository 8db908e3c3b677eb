/* test_law_many_posts.c - a long cap on many posts lifts off them from the middle as it is stressed, whatever set of
 * contacts the search begins with.
 *
 * Contact without friction on a linear structure is a linear complementarity problem with a positive definite matrix:
 * it has one answer (R. W. Cottle, J.-S. Pang, R. E. Stone, The Linear Complementarity Problem, 1992, theorem 3.1.6).
 * SPDX-License-Identifier: MIT */
#include <math.h>
#include <stdio.h>

#include "draft.h"
#include "readings.h"

#define CAP_WEIGHT (24e3 * 2.1 * 2.2 * 32.0)
#define COLUMNS    (2.0 * 24e3 * 3.14159265358979323846 * 1.8 * 1.8 / 4.0 * 9.0)

enum { SHARES = 5, ROWS = 33 };

static void add_model(text_draft *t)
{
    draft_add(t, "show si\n"
                 "concrete mix { strength 45 MPa; transfer_strength 34 MPa; unit_weight 24 kN/m^3; "
                 "modulus aashto 2020 }\n"
                 "prestressing strand { ultimate 1860 MPa; yield 1670 MPa; modulus 196 GPa }\n"
                 "section cap_section { rectangle width 2.1 m depth 2.2 m }\nsection column { "
                 "circle diameter 1.8 m }\n"
                 "node L at (0 m, 9 m); node R at (32 m, 9 m); node A at (4.5 m, 0 m); node B at "
                 "(27.5 m, 0 m)\n"
                 "member cap from L to R section cap_section of mix\nnode C on cap at 4.5 m\nnode "
                 "D on cap at 27.5 m\n"
                 "member col_1 from A to C section column of mix { rigid end 1.1 m }\n"
                 "member col_2 from B to D section column of mix { rigid end 1.1 m }\nsupport A "
                 "fixed; support B fixed\n");
    draft_add(
        t, "tendon T in cap { of strand; strands 19 area 140 mm^2; count 4; profile from bottom {\n"
           "    anchor at start height 1.1 m; high at 4.5 m height 1.8 m; inflection at 8 m; low "
           "at 16 m height 0.3 m\n"
           "    inflection at 24 m; high at 27.5 m height 1.8 m; anchor at end height 1.1 m }\n"
           "  friction 0.2; wobble 0.001 per m; seating 6 mm; jack start then end ratio 0.75; duct "
           "100 mm\n"
           "  bonded grouted }\n");
    draft_add(t, "falsework bents under cap at ");
    for (int i = 0; i < ROWS; i++) { /* 0.4 m to 31.6 m; none just at a column */
        draft_add(t, "%.17g m%s", 0.4 + 31.2 * i / (ROWS - 1), i < ROWS - 1 ? ", " : " {\n");
    }
    draft_add(t, "  posts 3; stiffness 90 kN/mm; capacity 300 kN }\n"
                 "load girders { point 400 kN on cap at 8 m; point 400 kN on cap at 16 m; point "
                 "400 kN on cap at 24 m }\n"
                 "stage columns at 0 day { cast col_1 col_2 }\nstage wet at 28 day { erect bents; "
                 "cast cap }\n");
    for (int i = 1; i <= SHARES; i++) {
        draft_add(t, "stage pull_%d at 40 day { stress T to %d %% }\n", i, 100 * i / SHARES);
    }
    draft_add(
        t, "stage loaded at 41 day { load girders }\nstage lighter at 42 day { unload girders }\n"
           "stage struck at 43 day { release bents from 20 m to 27 m; release bents }\n");
}

static void run(solved *m, const kl_settings *settings)
{
    text_draft t = {0};
    add_model(&t);
    solved_run(m, t.text, settings);
    draft_free(&t);
}

static kl_state after_pull(const solved *m, int pull)
{
    char name[24];
    snprintf(name, sizeof name, "pull_%d", pull);
    return solved_after(m, name);
}

static void middle_posts_lift_one_after_the_other(void **state)
{
    (void)state;
    solved m;
    run(&m, NULL);
    bool open_before[ROWS] = {false};
    int lifted = 0, grown = 0;
    for (int pull = 1; pull <= SHARES; pull++) {
        const kl_state pulled = after_pull(&m, pull);
        int open = 0, gaps = 0;
        double on_rows = 0.0;
        for (int i = 0; i < ROWS; i++) {
            const kl_post_row row = solved_post(&m, pulled, "bents", i);
            assert_true(row.bears ? row.force >= 0.0 && row.gap <= 0.0
                                  : fabs(row.force) <= 0.0 && row.gap > 0.0);
            assert_false(row.bears &&
                         open_before[i]); /* what has lifted stays up while the force grows */
            gaps += i > 8 && i < 24 && row.bears && open > 0 &&
                            !solved_post(&m, pulled, "bents", i + 1).bears
                        ? 1
                        : 0;
            open += i > 8 && i < 24 && !row.bears ? 1 : 0;
            open_before[i] = !row.bears;
            on_rows += row.force;
        }
        assert_int_equal(gaps, 0); /* in the span one stretch is up, without islands */
        assert_true(open == 0 || !solved_post(&m, pulled, "bents", ROWS / 2).bears);
        grown += open > lifted ? 1 : 0;
        lifted = open;
        const double ground = on_rows + solved_reaction(&m, pulled, "A", KL_Y) +
                              solved_reaction(&m, pulled, "B", KL_Y);
        assert_close(ground, CAP_WEIGHT + COLUMNS, 1e-9, 0.0);
    }
    assert_true(grown >= 2);
    solved_close(&m);
}

static void compare_start(const solved *want, kl_contact_start start, uint64_t seed)
{
    kl_settings settings = kl_settings_default();
    settings.contact_start = start;
    settings.seed = seed;
    solved m;
    run(&m, &settings);
    for (kl_index i = 0; i < states_count(want); i++) {
        readings a = readings_take(want, states_at(want, i), NULL);
        readings b = readings_take(&m, states_at(&m, i), NULL);
        readings_agree(&b, &a, 1e-12);
        readings_free(&a);
        readings_free(&b);
    }
    solved_close(&m);
}

static void contacts_found_do_not_depend_on_the_set_begun_with(void **state)
{
    (void)state;
    solved want;
    run(&want, NULL);
    compare_start(&want, KL_CONTACT_ALL_OPEN, 0);
    compare_start(&want, KL_CONTACT_ALL_CLOSED, 0);
    for (uint64_t seed = 1; seed <= 20; seed++) {
        compare_start(&want, KL_CONTACT_SEEDED, seed);
    }
    solved_close(&want);
}

int main(void)
{
    const struct CMUnitTest tests[] = {
        cmocka_unit_test(middle_posts_lift_one_after_the_other),
        cmocka_unit_test(contacts_found_do_not_depend_on_the_set_begun_with),
    };
    return cmocka_run_group_tests(tests, NULL, NULL);
}
