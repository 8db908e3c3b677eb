/* test_law_determinism.c - one model, one answer: to the last bit, from run to run and whatever the number of threads
 * that the dense linear algebra library may use.
 * SPDX-License-Identifier: MIT */
#include <string.h>

#include "draft.h"
#include "readings.h"

void openblas_set_num_threads(int count); /* of OpenBLAS */

/* A frame wide enough for blocks worth sharing out: storeys of bays, of many elements each. */
static void add_building(text_draft *t, int storeys, int bays)
{
    draft_add(t, "show si\nmaterial stone { modulus 30 GPa; unit_weight 24 kN/m^3 }\nsection plain "
                 "{ rectangle width 0.5 m depth 0.7 m }\n");
    for (int s = 0; s <= storeys; s++) {
        for (int b = 0; b <= bays; b++) {
            draft_add(t, "node n_%d_%d at (%d m, %d m)\n", s, b, 6 * b, 4 * s);
        }
    }
    for (int s = 0; s <= storeys; s++) {
        for (int b = 0; b <= bays; b++) {
            if (s > 0) {
                draft_add(t, "member c_%d_%d from n_%d_%d to n_%d_%d section plain of stone\n", s,
                          b, s - 1, b, s, b);
            }
            if (s > 0 && b > 0) {
                draft_add(t, "member b_%d_%d from n_%d_%d to n_%d_%d section plain of stone\n", s,
                          b, s, b - 1, s, b);
            }
        }
    }
    for (int b = 0; b <= bays; b++) {
        draft_add(t, "support n_0_%d fixed\n", b);
    }
    draft_add(t, "load all { weight; point 10 kN at n_%d_0 right }\n", storeys);
}

static void add_cap(text_draft *t)
{
    draft_add(
        t,
        "show si\n"
        "concrete mix { strength 40 MPa; transfer_strength 30 MPa; unit_weight 24 kN/m^3; modulus "
        "aashto 2020 }\n"
        "prestressing strand { ultimate 1860 MPa; yield 1670 MPa; modulus 196 GPa }\n"
        "section cap_section { rectangle width 1.8 m depth 1.9 m }\nsection column { circle "
        "diameter 1.5 m }\n"
        "node L at (0 m, 8 m); node R at (22 m, 8 m); node A at (4 m, 0 m); node B at (17 m, 0 m)\n"
        "member cap from L to R section cap_section of mix\nnode C on cap at 4 m\nnode D on cap at "
        "17 m\n"
        "member col_1 from A to C section column of mix { rigid end 0.95 m }\n"
        "member col_2 from B to D section column of mix { rigid end 0.95 m }\nsupport A fixed; "
        "support B fixed\n"
        "tendon T1 in cap { of strand; strands 12 area 150 mm^2; count 2; profile from bottom {\n"
        "    anchor at start height 0.8 m; high at 4 m height 1.5 m; inflection at 6 m; low at 10 "
        "m height 0.3 m\n"
        "    inflection at 15 m; high at 17 m height 1.5 m; anchor at end height 0.8 m }\n"
        "  friction 0.2; wobble 0.001 per m; seating 6 mm; jack start ratio 0.75; duct 80 mm; "
        "bonded grouted }\n"
        "tendon T2 like T1 { raise 0.15 m; jack end ratio 0.7 }\n"
        "falsework bents under cap from 0.5 m to 21.5 m every 1.5 m { posts 2; stiffness 300 "
        "kN/mm; capacity 900 kN }\n"
        "load girders { point 150 kN on cap at 2 m; point 210 kN on cap at 11 m }\n"
        "stage columns at 0 day { cast col_1 col_2 }\nstage wet at 28 day { erect bents; cast cap "
        "}\n"
        "stage pulled at 40 day { stress T1 T2 }\nstage struck at 41 day { release bents from 5 m "
        "to 12 m; release bents }\n"
        "stage done at 60 day { load girders; grout T1 T2 }\n");
}

static void assert_same_bits(const solved *a, const solved *b)
{
    assert_int_equal(states_count(a), states_count(b));
    for (kl_index i = 0; i < states_count(a); i++) {
        readings x = readings_take(a, states_at(a, i), NULL);
        readings y = readings_take(b, states_at(b, i), NULL);
        assert_int_equal(x.count, y.count);
        for (kl_index k = 0; k < x.count; k++) {
            assert_memory_equal(&x.items[k].value, &y.items[k].value, sizeof(double));
        }
        readings_free(&x);
        readings_free(&y);
    }
}

static void compare_runs(const char *text)
{
    solved first;
    openblas_set_num_threads(1);
    solved_run(&first, text, NULL);
    for (int threads = 1; threads <= 2; threads++) {
        for (int again = 0; again < 3; again++) {
            solved m;
            openblas_set_num_threads(threads);
            solved_run(&m, text, NULL);
            assert_same_bits(&m, &first);
            solved_close(&m);
        }
    }
    openblas_set_num_threads(1);
    solved_close(&first);
}

static void staged_cap_is_the_same_to_the_last_bit(void **state)
{
    (void)state;
    text_draft t = {0};
    add_cap(&t);
    compare_runs(t.text);
    draft_free(&t);
}

static void building_is_the_same_to_the_last_bit(void **state)
{
    (void)state;
    text_draft t = {0};
    add_building(&t, 14, 14);
    compare_runs(t.text);
    draft_free(&t);
}

int main(void)
{
    const struct CMUnitTest tests[] = {
        cmocka_unit_test(staged_cap_is_the_same_to_the_last_bit),
        cmocka_unit_test(building_is_the_same_to_the_last_bit),
    };
    return cmocka_run_group_tests(tests, NULL, NULL);
}
