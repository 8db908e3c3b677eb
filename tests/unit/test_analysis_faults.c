/* test_analysis_faults.c - a whole analysis in which the k-th allocation fails, for k = 0, 1, 2, … until it succeeds:
 * each failure is told as such, nothing crashes, and everything is freed (the address sanitizer and valgrind see to
 * that).
 * SPDX-License-Identifier: MIT */
#include "fault.h"
#include "kernline/check.h"
#include "solved.h"

/* Small, but with everything that allocates: posts, contact, two tendons of which one follows, grout, a load, release,
 * hinges, removal, a support of later, creep, shrinkage and relaxation with moments between stages, rebar, a combination,
 * a check and expectations. */
static const char small_text[] =
    "show si\nsite { humidity 70 % }\n"
    "concrete mix { strength 40 MPa; transfer_strength 30 MPa; unit_weight 24 kN/m^3; modulus 31 "
    "GPa; expansion 1e-5 per degC; creep mc1990; shrinkage mc1990 }\n"
    "prestressing strand { ultimate 1860 MPa; yield 1670 MPa; modulus 196 GPa; relaxation low }\n"
    "reinforcing steel { yield 500 MPa; modulus 200 GPa }\n"
    "section cap_section { rectangle width 1 m depth 1 m; rebar 5 area 500 mm^2 depth 0.1 m of "
    "steel }\nsection column { circle diameter 1 m "
    "}\n"
    "node L at (0 m, 4 m); node R at (10 m, 4 m); node A at (2 m, 0 m); node B at (8 m, 0 m)\n"
    "member cap from L to R section cap_section of mix { mesh 10 m }\nnode C on cap at 2 m\nnode D "
    "on cap at 8 m\n"
    "member col_1 from A to C section column of mix { mesh 4 m }\nmember col_2 from B to D section "
    "column of mix { mesh 4 m }\n"
    "support A fixed; support B fixed\n"
    "tendon T1 in cap { of strand; strands 7 area 150 mm^2; count 2; profile from bottom {\n"
    "    anchor at start height 0.5 m; low at 5 m height 0.2 m; anchor at end height 0.5 m }\n"
    "  friction 0.2; wobble 0.001 per m; seating 2 mm; jack start then end ratio 0.75; duct 60 mm; "
    "bonded grouted }\n"
    "tendon T2 like T1 { raise 0.1 m }\n"
    "falsework bents under cap at 0.5 m, 4 m, 6 m, 9.5 m { posts 2; stiffness 300 kN/mm; capacity "
    "900 kN }\n"
    "load girders { point 50 kN on cap at 3 m; warm 5 degC on cap }\nload wind { point 9 kN at R "
    "right }\n"
    "stage columns at 0 day { cast col_1 col_2 }\nstage wet at 28 day { erect bents; cast cap }\n"
    "stage pulled at 40 day { stress T1 T2 }\n"
    "stage last at 50 day { release bents; load girders; unlock col_2 start; grout T1 T2; lose T1 "
    "5 MPa }\n"
    "combination service { factor 1.2 of girders; factor 1 of wind }\n"
    "check limits stress { members cap; from pulled to last; condition service; rules aashto 2020 "
    "}\n"
    "check steel stress { tendons T1; from pulled to last; rules aashto 2020 }\n"
    "expect max moment on cap during last = 0 kN-m within 1e9 kN-m\n"
    "expect force of T1 at mid after last = 0 kN within 1e9 kN\n";

static kl_status analyse(const solved *m, kl_diags *diags)
{
    kl_results *results = NULL;
    kl_check_report *report = NULL;
    const double moment = 33.0 * KL_DAY;
    kl_settings settings = kl_settings_default();
    settings.steps_per_decade = 1; /* they allocate nothing of their own */
    settings.moments_per_decade = 1;
    settings.moments = &moment;
    settings.moment_count = 1;
    settings.friction_factor = 1.1; /* of a copy of the model */
    kl_status status = kl_analyze(m->model, &settings, diags, &results);
    if (status == KL_OK) {
        status = kl_run_checks(results, diags, &report);
    } else {
        assert_null(results);
    }
    if (status == KL_OK) {
        status = kl_run_warnings(results, report, diags);
    }
    kl_check_report_destroy(report);
    kl_results_destroy(results);
    return status;
}

static void analyze_that_runs_out_of_memory_says_so_and_frees_all(void **state)
{
    (void)state;
    solved m;
    solved_read_well(&m, small_text);
    kl_status status = KL_NO_MEMORY;
    long k = 0;
    for (; status != KL_OK; k++) {
        kl_diags *diags = kl_diags_create();
        fault_after(k);
        status = analyse(&m, diags);
        const int struck = fault_struck();
        fault_after(-1);
        /* only the text of a message may be lost in silence, and the list tells */
        const bool lost = kl_diags_lost(diags);
        kl_diags_destroy(diags);
        assert_true(status == KL_NO_MEMORY ? struck : status == KL_OK && (!struck || lost));
        status = struck ? KL_NO_MEMORY : status;
        assert_true(k < 1000000);
    }
    assert_true(k > 20);
    solved_close(&m);
}

int main(void)
{
    const struct CMUnitTest tests[] = {
        cmocka_unit_test(analyze_that_runs_out_of_memory_says_so_and_frees_all)};
    return cmocka_run_group_tests(tests, NULL, NULL);
}
