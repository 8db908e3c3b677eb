/* test_analysis_run.c - an analysis that runs out of memory at any allocation says so and frees everything.
 * SPDX-License-Identifier: MIT */
#include "kernline/analysis.h"

#include <string.h>

#include "fault.h"
#include "solved.h"

/* A small bent in which everything occurs: casting on rows, a bearing, a tendon with friction and set, grouting, loads of
 * each kind, release in parts, contacts that open, a hinge that opens, removal, cases by themselves, a combination. */
static const char everything[] =
    "show si\nconcrete mix { strength 40 MPa; transfer_strength 30 MPa; unit_weight 24 kN/m^3; "
    "modulus aci 2019; expansion 1e-5 per degC; "
    "creep none; shrinkage none }\n"
    "prestressing strand { ultimate 1860 MPa; yield 1670 MPa; modulus 195 GPa; relaxation none }\n"
    "section r { rectangle width 1 m depth 1.5 m }\nsection s { rectangle width 1 m depth 2 m }\n"
    "node A at (0 m, 0 m)\nnode B at (16 m, 0 m)\nnode F at (4 m, -6 m)\nnode G at (12 m, -6 "
    "m)\nnode K at (12 m, 0 m)\n"
    "member b from A to B of mix { section r at start; section s at 8 m; section r at end }\n"
    "node H on b at 4 m\nnode J on b at 12 m\n"
    "member h from F to H of mix { section r; rigid end 0.75 m }\nmember k from G to K section r "
    "of mix\n"
    "member p from F to G of mix { section r; axial_only; weightless }\n"
    "bearing J on K { x fixed; y push up }\nsupport F fixed\nsupport G fixed\n"
    "tendon T1 in b { of strand; strands 9 area 140 mm^2; jack start then end stress 1300 MPa; "
    "friction 0.2; wobble 0.001 per m\n"
    "seating 6 mm; bonded grouted; duct 80 mm offset 10 mm\nprofile from line { anchor at 0 m "
    "height 0 m; high at 4 m height 0.4 m\n"
    "inflection at 5 m; low at 8 m height -0.7 m; inflection at 11 m; high at 12 m height 0.4 m; "
    "anchor at 16 m height 0 m } }\n"
    "tendon T2 like T1 { count 2; raise 0.15 m }\n"
    "falsework f under b at 1 m, 6 m, 8 m, 10 m, 15 m { posts 2; stiffness 60 MN/m; takeup 5 mm }\n"
    "load live { uniform 20 kN/m on b; point 100 kN on b at 14 m }\nload heat { warm 10 degC on b; "
    "gradient 5 degC on b }\n"
    "load sink { settle 5 mm at G down }\n"
    "stage one at 0 day { cast h k }\nstage two at 20 day { erect f; cast b }\nstage three at 30 "
    "day { stress T1 T2 to 60 % }\n"
    "stage four at 31 day { release f from 7 m to 9 m }\nstage five at 40 day { stress T1 T2; "
    "grout T1; release f; place p }\n"
    "stage six at 60 day { load live times 1.2; grout T2; lose T1 T2 60 MPa; unload live; unlock k "
    "end; lock k end; remove p }\n";

static void kl_analyze_without_memory_frees_everything(void **state)
{
    (void)state;
    solved s;
    solved_read_well(&s, everything);
    kl_status status = KL_NO_MEMORY;
    long k = 0;
    for (; status == KL_NO_MEMORY && k < 100000; k++) {
        kl_results *results = NULL;
        fault_after(k);
        status = kl_analyze(s.model, NULL, NULL, &results);
        const int struck = fault_struck();
        fault_after(-1);
        assert_int_equal(struck, status == KL_NO_MEMORY);
        assert_int_equal(results != NULL, status == KL_OK);
        kl_results_destroy(results);
    }
    assert_int_equal(status, KL_OK);
    assert_true(k > 20);
    solved_close(&s);
}

/* The same model twice gives the same columns bit for bit: no hidden state. */
static void kl_analyze_twice_is_the_same(void **state)
{
    (void)state;
    solved s;
    solved_open(&s, everything);
    kl_results *again = NULL;
    assert_int_equal(kl_analyze(s.model, NULL, s.diags, &again), KL_OK);
    assert_int_equal(kl_step_count(again), kl_step_count(s.results));
    for (kl_index step = 0; step < kl_step_count(again); step++) {
        for (double x = 0.0; x <= 16.0; x += 0.8) {
            double value[2] = {0.0, 0.0};
            const kl_state at = kl_state_step(step);
            const kl_status first =
                kl_value_on_member(s.results, at, KL_MOMENT, KL_TOTAL, 0, x, KL_RIGHT, &value[0]);
            assert_int_equal(
                kl_value_on_member(again, at, KL_MOMENT, KL_TOTAL, 0, x, KL_RIGHT, &value[1]),
                first);
            assert_memory_equal(&value[0], &value[1], sizeof(double));
        }
    }
    kl_results_destroy(again);
    solved_close(&s);
}

int main(void)
{
    const struct CMUnitTest tests[] = {
        cmocka_unit_test(kl_analyze_without_memory_frees_everything),
        cmocka_unit_test(kl_analyze_twice_is_the_same),
    };
    return cmocka_run_group_tests(tests, NULL, NULL);
}
