/* test_law_mesh.c - halving the elements changes nothing: prismatic members are exact, tapered ones near enough.
 *
 * The flexibility element integrates polynomial courses without error; a tapered section's flexibility is no
 * polynomial, nor is the force of a tendon that loses by exp(-(mu a + K x)).
 * SPDX-License-Identifier: MIT */
#include "draft.h"
#include "readings.h"

static void run(solved *m, double mesh, bool tapered, bool staged)
{
    text_draft t = {0};
    draft_add(&t, "show si\nconcrete mix { strength 40 MPa; transfer_strength 30 MPa; unit_weight "
                  "24 kN/m^3; modulus 31 GPa\n"
                  "    shear_modulus 13 GPa; expansion 1e-5 per degC }\n"
                  "prestressing strand { ultimate 1860 MPa; yield 1670 MPa; modulus 196 GPa }\n"
                  "section tip { rectangle width 1.8 m depth 1.2 m; line top; shear flexible }\n"
                  "section root { rectangle width 1.8 m depth 2.0 m; line top; shear flexible }\n"
                  "section column { circle diameter 1.5 m }\n"
                  "node L at (0 m, 8 m); node R at (22 m, 8 m); node A at (4 m, 0 m); node B at "
                  "(17 m, 0 m)\n");
    draft_add(&t,
              "member cap from L to R of mix { mesh %.17g m; section %s at start; section root at "
              "6 m; section root at end }\n",
              mesh, tapered ? "tip" : "root");
    draft_add(
        &t,
        "node C on cap at 4 m\nnode D on cap at 17 m\n"
        "member col_1 from A to C section column of mix { rigid end 1 m; mesh %.17g m }\n"
        "member col_2 from B to D section column of mix { rigid end 1 m; mesh %.17g m }\nsupport A "
        "fixed; support B fixed\n"
        "load mixed { point 150 kN on cap at 2 m; ramp start 3 kN/m end 30 kN/m on cap from 5 m to "
        "20 m\n"
        "    uniform 7 kN/m right on col_1; moment 90 kN-m on cap at 9 m; settle 3 mm at B down\n"
        "    warm 12 degC on cap; gradient 9 degC on cap }\n",
        mesh, mesh);
    if (staged) {
        draft_add(
            &t, "tendon T in cap { of strand; strands 12 area 150 mm^2; count 2; profile from "
                "bottom {\n"
                "    anchor at start height 0.8 m; high at 4 m height 1.5 m; inflection at 6 m; "
                "low at 10 m height 0.3 m\n"
                "    inflection at 15 m; high at 17 m height 1.5 m; anchor at end height 0.8 m }\n"
                "  friction 0.2; wobble 0.001 per m; seating 6 mm; jack start ratio 0.75; duct 80 "
                "mm; unbonded }\n"
                "falsework bents under cap at 1 m, 3 m, 6 m, 8.5 m, 11 m, 13.5 m, 19 m, 21 m {\n"
                "  posts 2; stiffness 300 kN/mm; capacity 900 kN }\n"
                "stage columns at 0 day { cast col_1 col_2 }\nstage wet at 28 day { erect bents; "
                "cast cap }\n"
                "stage pulled at 40 day { stress T }\nstage struck at 41 day { release bents }\n"
                "stage last at 50 day { load mixed }\n");
    } else {
        draft_add(&t, "load own { weight }\n");
    }
    solved_run(m, t.text, NULL);
    draft_free(&t);
}

static void compare_halved(double mesh, bool tapered, bool staged, double tolerance)
{
    solved whole, halved;
    run(&whole, mesh, tapered, staged);
    run(&halved, mesh / 2.0, tapered, staged);
    for (kl_index i = 0; i < states_count(&whole); i++) {
        readings want = readings_take(&halved, states_at(&halved, i), NULL);
        readings got = readings_take(&whole, states_at(&whole, i), NULL);
        readings_agree(&got, &want, tolerance);
        readings_free(&got);
        readings_free(&want);
    }
    solved_close(&whole);
    solved_close(&halved);
}

static void halved_prismatic_members_change_nothing(void **state)
{
    (void)state;
    compare_halved(4.0, false, false, 1e-9);
    compare_halved(0.5, false, false, 1e-9);
}

static void halved_tapered_member_changes_less_than_a_millionth(void **state)
{
    (void)state;
    compare_halved(22.0 / 20.0, true, false, 1e-6); /* the default mesh */
}

static void halved_staged_cap_changes_by_a_millionth(void **state)
{
    (void)state;
    compare_halved(22.0 / 20.0, false, true, 1e-6);
    compare_halved(22.0 / 20.0, true, true, 2e-6); /* a stress at the tapered tip is the worst */
}

int main(void)
{
    const struct CMUnitTest tests[] = {
        cmocka_unit_test(halved_prismatic_members_change_nothing),
        cmocka_unit_test(halved_tapered_member_changes_less_than_a_millionth),
        cmocka_unit_test(halved_staged_cap_changes_by_a_millionth),
    };
    return cmocka_run_group_tests(tests, NULL, NULL);
}
