/* test_law_release.c - what happens when falsework is struck: nothing gets lost, and the way does not matter.
 *
 * Forces and moments about the origin of reactions and feet balance the weight before and after every release. As long
 * as no contact changes, striking all at once and row by row end alike, and the end is what superposition tells: the
 * pour's shares of nodes on what stood then, the rest of the weight on the finished structure.
 * SPDX-License-Identifier: MIT */
#include <math.h>

#include "draft.h"
#include "readings.h"

#define DIM(array)  (sizeof(array) / sizeof((array)[0]))
#define UNIT_WEIGHT 24e3 /* N/m^3 */
#define PI          3.14159265358979323846
#define CAP_LENGTH  22.0
#define CAP_LINE    (UNIT_WEIGHT * 1.8 * 1.9) /* N/m */
#define COLUMN      (UNIT_WEIGHT * PI * 1.5 * 1.5 / 4.0 * 8.0)

static const double row_at[] = {1.0, 3.0, 6.0, 8.5, 11.0, 13.5, 19.0, 21.0};

#define FRAME                                                                                      \
    "show si\n"                                                                                    \
    "concrete mix { strength 40 MPa; transfer_strength 30 MPa; unit_weight 24 kN/m^3; modulus 31 " \
    "GPa }\n"                                                                                      \
    "prestressing strand { ultimate 1860 MPa; yield 1670 MPa; modulus 196 GPa }\n"                 \
    "section cap_section { rectangle width 1.8 m depth 1.9 m }\nsection column { circle diameter " \
    "1.5 m }\n"                                                                                    \
    "node L at (0 m, 8 m); node R at (22 m, 8 m); node A at (4 m, 0 m); node B at (17 m, 0 m)\n"   \
    "member cap from L to R section cap_section of mix\nnode C on cap at 4 m\nnode D on cap at "   \
    "17 m\n"                                                                                       \
    "member col_1 from A to C section column of mix { rigid end 0.95 m }\n"                        \
    "member col_2 from B to D section column of mix { rigid end 0.95 m }\n"                        \
    "support A fixed; support B fixed\n"
#define BENTS                                                                                      \
    "falsework bents under cap at 1 m, 3 m, 6 m, 8.5 m, 11 m, 13.5 m, 19 m, 21 m {\n"              \
    "  posts 2; stiffness 300 kN/mm; capacity 900 kN }\n"
#define TENDON                                                                                     \
    "tendon T in cap { of strand; strands 12 area 150 mm^2; count 2; profile from bottom {\n"      \
    "    anchor at start height 0.8 m; high at 4 m height 1.5 m; inflection at 6 m; low at 10 m "  \
    "height 0.3 m\n"                                                                               \
    "    inflection at 15 m; high at 17 m height 1.5 m; anchor at end height 0.8 m }\n"            \
    "  friction 0.2; wobble 0.001 per m; seating 6 mm; jack start ratio 0.75; duct 80 mm; bonded " \
    "grouted }\n"
#define POUR                                                                                       \
    "stage columns at 0 day { cast col_1 col_2 }\nstage wet at 28 day { erect bents; cast cap }\n"

/* Rows of a release, in this order, each a statement of its own. */
static void add_releases(text_draft *t, const kl_index *order, size_t count)
{
    draft_add(t, "stage struck at 42 day {\n");
    for (size_t i = 0; i < count; i++) {
        draft_add(t, "  release bents from %.17g m to %.17g m\n", row_at[order[i]] - 0.5,
                  row_at[order[i]] + 0.5);
    }
    draft_add(t, "}\n");
}

static const kl_index inward[] = {0, 7, 1, 6, 2, 5, 3, 4};
static const kl_index onward[] = {0, 1, 2, 3, 4, 5, 6, 7};
static const kl_index scattered[] = {4, 1, 6, 3, 0, 7, 2, 5};
static const kl_index *const orders[] = {inward, onward, scattered};

/* Upward force and moment about the origin that the ground gives. */
typedef struct ground {
    double force, level, moment;
} ground;

static ground ground_of(const solved *m, kl_state state)
{
    ground g = {0.0, 0.0, 0.0};
    static const char *const feet[] = {"A", "B"};
    static const double x[] = {4.0, 17.0};
    for (int i = 0; i < 2; i++) {
        const double up = solved_reaction(m, state, feet[i], KL_Y);
        g.force += up;
        g.level += solved_reaction(m, state, feet[i], KL_X);
        g.moment += up * x[i] + solved_reaction(m, state, feet[i], KL_TURN);
    }
    for (size_t i = 0; i < DIM(row_at); i++) {
        const kl_post_row row = solved_post(m, state, "bents", (kl_index)i);
        g.force += row.stands ? row.force : 0.0;
        g.moment += row.stands ? row.force * row_at[i] : 0.0;
    }
    return g;
}

static void weight_stays_on_the_ground_at_every_release(void **state)
{
    (void)state;
    const double weight = CAP_LINE * CAP_LENGTH + 2.0 * COLUMN;
    const double moment = CAP_LINE * CAP_LENGTH * CAP_LENGTH / 2.0 + COLUMN * (4.0 + 17.0);
    for (size_t k = 0; k < DIM(orders); k++) {
        text_draft t = {0};
        draft_add(&t, "%s%s%s%sstage pulled at 40 day { stress T }\n", FRAME, BENTS, TENDON, POUR);
        add_releases(&t, orders[k], DIM(row_at));
        solved m;
        solved_run(&m, t.text, NULL);
        const kl_index poured = solved_after(&m, "wet").index;
        int lifted = 0;
        for (kl_index i = poured; i < kl_step_count(m.results); i++) {
            const ground g = ground_of(&m, kl_state_step(i));
            assert_close(g.force, weight, 1e-9, 0.0);
            assert_close(g.moment, moment, 1e-9, 0.0);
            assert_close(g.level, 0.0, 0.0, 1e-9 * weight);
        }
        for (kl_index i = 0; i < (kl_index)DIM(row_at); i++) {
            const kl_post_row row = solved_post(&m, solved_after(&m, "pulled"), "bents", i);
            lifted += row.bears ? 0 : 1;
            assert_false(solved_post(&m, solved_after(&m, "struck"), "bents", i).stands);
        }
        assert_true(lifted > 0); /* the law holds also where contacts change */
        solved_close(&m);
        draft_free(&t);
    }
}

/* Every row that stands bears, at every step from the pour on. */
static void assert_no_contact_changes(const solved *m)
{
    for (kl_index s = solved_after(m, "wet").index; s < kl_step_count(m->results); s++) {
        for (kl_index i = 0; i < (kl_index)DIM(row_at); i++) {
            const kl_post_row row = solved_post(m, kl_state_step(s), "bents", i);
            assert_true(!row.stands || row.bears);
        }
    }
}

static void run_weight_only(solved *m, const kl_index *order)
{
    text_draft t = {0};
    draft_add(&t, "%s%s%s", FRAME, BENTS, POUR);
    if (order) {
        add_releases(&t, order, DIM(row_at));
    } else {
        draft_add(&t, "stage struck at 42 day { release bents }\n");
    }
    solved_run(m, t.text, NULL);
    assert_no_contact_changes(m);
    draft_free(&t);
}

static void rows_struck_one_by_one_end_as_all_at_once(void **state)
{
    (void)state;
    solved at_once;
    run_weight_only(&at_once, NULL);
    readings want = readings_take(&at_once, solved_after(&at_once, "struck"), NULL);
    static const kl_index *const safe[] = {inward, scattered};
    for (size_t k = 0; k < DIM(safe); k++) {
        solved m;
        run_weight_only(&m, safe[k]);
        readings got = readings_take(&m, solved_after(&m, "struck"), NULL);
        readings_agree(&got, &want, 1e-9);
        readings_free(&got);
        solved_close(&m);
    }
    readings_free(&want);
    solved_close(&at_once);
}

/* Simple spans from carrier to carrier: 3 m | 4 m (C) | 6 m and 13.5 m | 17 m (D) | 19 m. */
#define SHARE_C (CAP_LINE * (6.0 - 3.0) / 2.0)
#define SHARE_D (CAP_LINE * (19.0 - 13.5) / 2.0)

static void struck_cap_is_the_pour_on_columns_and_the_rest_on_the_frame(void **state)
{
    (void)state;
    solved staged, columns, frame;
    run_weight_only(&staged, NULL);
    text_draft t = {0};
    draft_add(
        &t,
        "show si\nconcrete mix { strength 40 MPa; unit_weight 24 kN/m^3; modulus 31 GPa }\n"
        "section column { circle diameter 1.5 m }\nnode A at (4 m, 0 m); node B at (17 m, 0 m)\n"
        "node C at (4 m, 8 m); node D at (17 m, 8 m)\n"
        "member col_1 from A to C section column of mix { rigid end 0.95 m }\n"
        "member col_2 from B to D section column of mix { rigid end 0.95 m }\nsupport A fixed; "
        "support B fixed\n"
        "load pour { weight; point %.17g N at C; point %.17g N at D }\n",
        SHARE_C, SHARE_D);
    solved_run(&columns, t.text, NULL);
    draft_free(&t);
    draft_add(&t, "%sload rest { weight of cap; point %.17g N at C up; point %.17g N at D up }\n",
              FRAME, SHARE_C, SHARE_D);
    solved_run(&frame, t.text, NULL);
    draft_free(&t);
    const kl_state struck = solved_after(&staged, "struck");
    const kl_state one = kl_state_case(0);
    static const kl_quantity asked[] = {KL_MOMENT, KL_SHEAR, KL_AXIAL};
    for (size_t q = 0; q < DIM(asked); q++) {
        for (int i = 0; i < 22; i++) {
            assert_close(solved_part(&staged, struck, KL_TOTAL, asked[q], "cap", i),
                         solved_part(&frame, one, KL_TOTAL, asked[q], "cap", i), 0.0, 1e-9 * 1e6);
        }
        for (int i = 0; i < 8; i++) {
            assert_close(solved_part(&staged, struck, KL_TOTAL, asked[q], "col_2", i),
                         solved_part(&frame, one, KL_TOTAL, asked[q], "col_2", i) +
                             solved_part(&columns, one, KL_TOTAL, asked[q], "col_2", i),
                         0.0, 1e-9 * 1e6);
        }
    }
    for (int i = 0; i < 22;
         i++) { /* counted from the cap's set, when the pour's part had happened */
        assert_close(solved_part(&staged, struck, KL_TOTAL, KL_DEFLECTION, "cap", i),
                     solved_part(&frame, one, KL_TOTAL, KL_DEFLECTION, "cap", i), 0.0, 1e-9 * 1e-3);
    }
    assert_close(solved_reaction(&staged, struck, "A", KL_TURN),
                 solved_reaction(&frame, one, "A", KL_TURN), 0.0, 1e-9 * 1e6);
    solved_close(&staged);
    solved_close(&columns);
    solved_close(&frame);
}

#define BEAM                                                                                       \
    "show si\nconcrete mix { strength 40 MPa; unit_weight 24 kN/m^3; modulus 31 GPa }\n"           \
    "section deep { rectangle width 1 m depth 1.6 m; line bottom }\nsection flat { rectangle "     \
    "width 1 m depth 1.1 m; line bottom }\n"                                                       \
    "node L at (0 m, 0 m); node R at (30 m, 0 m)\n"                                                \
    "member deck from L to R of mix { mesh 0.4 m; section deep at start; section flat at 8 m; "    \
    "section deep "                                                                                \
    "at 18 m; section deep at end }\n"                                                             \
    "node M on deck at 17 m\n"

static void deck_that_only_rows_carried_ends_as_if_cast_at_once(void **state)
{
    (void)state;
    solved staged, at_once;
    solved_run(&staged,
               BEAM "falsework rows under deck from 0.5 m to 29.5 m every 2.9 m { stiffness 90 "
                    "kN/mm; capacity 900 kN }\n"
                    "stage wet at 0 day { erect rows; cast deck }\n"
                    "stage propped at 20 day { support L pinned; support M y fixed; support R "
                    "y fixed turn fixed }\n"
                    "stage struck at 21 day { release rows }\n",
               NULL);
    solved_run(
        &at_once,
        BEAM
        "support L pinned; support M y fixed; support R y fixed turn fixed\nload all { weight }\n",
        NULL);
    const kl_state struck = solved_after(&staged, "struck");
    readings got = readings_take(&staged, struck, &at_once);
    readings want = readings_take(&at_once, kl_state_case(0), NULL);
    readings_agree(&got, &want, 1e-9);
    readings_free(&got);
    readings_free(&want);
    solved_close(&staged);
    solved_close(&at_once);
}

int main(void)
{
    const struct CMUnitTest tests[] = {
        cmocka_unit_test(weight_stays_on_the_ground_at_every_release),
        cmocka_unit_test(rows_struck_one_by_one_end_as_all_at_once),
        cmocka_unit_test(struck_cap_is_the_pour_on_columns_and_the_rest_on_the_frame),
        cmocka_unit_test(deck_that_only_rows_carried_ends_as_if_cast_at_once),
    };
    return cmocka_run_group_tests(tests, NULL, NULL);
}
