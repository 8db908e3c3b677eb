/* test_law_order.c - the order in which a model tells its nodes, members, supports, loads does not matter.
 *
 * The phrases of a model are dealt like cards; only the order of stages, and of what is in them, means something.
 * SPDX-License-Identifier: MIT */
#include "draft.h"
#include "random.h"
#include "readings.h"

#define DIM(array) (sizeof(array) / sizeof((array)[0]))

static const char *const frame[] = {
    "material stone { modulus 30 GPa; shear_modulus 12 GPa; unit_weight 24 kN/m^3; expansion 1e-5 "
    "per degC }",
    "section shallow { rectangle width 1.2 m depth 1.0 m; line top; shear flexible }",
    "section deep { rectangle width 1.2 m depth 1.7 m; line top; shear flexible }",
    "section column { circle diameter 1.1 m }",
    "node A at (0 m, 0 m)",
    "node B at (0.8 m, 7 m)",
    "node C at (13 m, 8 m)",
    "node D at (14 m, -1 m)",
    "node E at (24 m, 8.5 m)",
    "node F at (13 m, 8 m)",
    "member post_1 from A to B section column of stone { rigid end 0.6 m }",
    "member cap from B to C of stone { section shallow at start; section deep at 5 m; section "
    "shallow at end }",
    "member post_2 from D to C section column of stone { hinge start }",
    "member tail from F to E section shallow of stone",
    "node on_tail on tail at 8 m",
    "node on_cap on cap at 5 m",
    "node G at (6 m, -2 m)",
    "member prop from G to on_cap section column of stone { hinge end }",
    "support A fixed",
    "support D x fixed y 2e5 kN/m turn 4e5 kN-m/rad",
    "support E roller slope 20 deg",
    "support G fixed",
    "support on_tail y push up",
    "bearing F on C { x fixed; y push up }",
    "load pour { weight; point 90 kN on cap at 3.3 m across }",
    "load wind { uniform 4 kN/m right on post_1 post_2; moment 70 kN-m on cap at 2 m; point 40 kN "
    "at C right }",
    "load summer { warm 20 degC on cap; gradient 9 degC on tail; settle 4 mm at A down }",
    "load upward { weight; point 300 kN on tail at 8 m up }",
};

static const char *const bent[] = {
    "concrete mix { strength 40 MPa; transfer_strength 30 MPa; unit_weight 24 kN/m^3; modulus "
    "aashto 2020 }",
    "prestressing strand { ultimate 1860 MPa; yield 1670 MPa; modulus 196 GPa }",
    "section cap_section { rectangle width 1.8 m depth 1.9 m }",
    "section column { circle diameter 1.5 m }",
    "node L at (0 m, 8 m)",
    "node R at (22 m, 8 m)",
    "node A at (4 m, 0 m)",
    "node B at (17 m, 0 m)",
    "member cap from L to R section cap_section of mix",
    "node C on cap at 4 m",
    "node D on cap at 17 m",
    "member col_1 from A to C section column of mix { rigid end 0.95 m }",
    "member col_2 from B to D section column of mix { rigid end 0.95 m }",
    "support A fixed",
    "support B fixed",
    "tendon T1 in cap { of strand; strands 12 area 150 mm^2; count 2\n"
    "  profile from bottom { anchor at start height 0.8 m; high at 4 m height 1.5 m; inflection at "
    "6 m\n"
    "    low at 10 m height 0.3 m; inflection at 15 m; high at 17 m height 1.5 m; anchor at end "
    "height 0.8 m }\n"
    "  friction 0.2; wobble 0.001 per m; seating 6 mm; jack start ratio 0.75; duct 80 mm; bonded "
    "grouted }",
    "tendon T2 like T1 { raise 0.15 m; jack end ratio 0.7 }",
    "falsework bents under cap at 1 m, 3 m, 6 m, 8.5 m, 11 m, 13.5 m, 19 m, 21 m {\n"
    "  posts 2; stiffness 600 kN/mm; capacity 500 kN }",
    "load girders { point 150 kN on cap at 2 m; point 210 kN on cap at 11 m }",
    "load wind { point 30 kN at R right; moment 80 kN-m on cap at 12 m }",
};
static const char *const bent_stages =
    "stage columns at 0 day { cast col_1 col_2 }\n"
    "stage wet at 28 day { erect bents; cast cap }\n"
    "stage pulled at 40 day { stress T1 }\n"
    "stage struck at 41 day { release bents from 5 m to 12 m; release bents }\n"
    "stage done at 60 day { load girders; stress T2; grout T1 T2; load wind }\n";

static void
deal(const char *const *phrases, size_t count, uint64_t seed, const char *stages, text_draft *t)
{
    random_source source = {seed};
    size_t order[64];
    assert_true(count <= DIM(order));
    for (size_t i = 0; i < count; i++) {
        order[i] = i;
    }
    for (size_t i = count - 1; seed > 0 && i > 0; i--) { /* Fisher and Yates; seed 0: as written */
        const size_t k = (size_t)random_index(&source, (int32_t)i + 1);
        const size_t kept = order[i];
        order[i] = order[k];
        order[k] = kept;
    }
    draft_add(t, "show si\n");
    for (size_t i = 0; i < count; i++) {
        draft_add(t, "%s\n", phrases[order[i]]);
    }
    draft_add(t, "%s", stages);
}

static void
run(const char *const *phrases, size_t count, uint64_t seed, const char *stages, solved *m)
{
    text_draft t = {0};
    deal(phrases, count, seed, stages, &t);
    solved_run(m, t.text, NULL);
    draft_free(&t);
}

/* The case of the same name, or the same step. */
static kl_state same_state(const solved *m, const solved *first, kl_state state)
{
    return state.kind == KL_STATE_CASE ? solved_under(m, first->model->cases[state.index].name)
                                       : state;
}

static void compare_deals(const char *const *phrases, size_t count, const char *stages)
{
    solved first;
    run(phrases, count, 0, stages, &first);
    for (uint64_t seed = 1; seed <= 12; seed++) {
        solved m;
        run(phrases, count, seed, stages, &m);
        for (kl_index i = 0; i < states_count(&first); i++) {
            const kl_state state = states_at(&first, i);
            readings want = readings_take(&first, state, NULL);
            readings got = readings_take(&m, same_state(&m, &first, state), &first);
            readings_agree(&got, &want, 1e-9);
            readings_free(&want);
            readings_free(&got);
        }
        solved_close(&m);
    }
    solved_close(&first);
}

static void order_of_phrases_of_a_frame_does_not_matter(void **state)
{
    (void)state;
    compare_deals(frame, DIM(frame), "");
}

static void order_of_phrases_of_a_staged_bent_does_not_matter(void **state)
{
    (void)state;
    compare_deals(bent, DIM(bent), bent_stages);
}

int main(void)
{
    const struct CMUnitTest tests[] = {
        cmocka_unit_test(order_of_phrases_of_a_frame_does_not_matter),
        cmocka_unit_test(order_of_phrases_of_a_staged_bent_does_not_matter),
    };
    return cmocka_run_group_tests(tests, NULL, NULL);
}
