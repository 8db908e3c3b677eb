/* test_loss_estimates.c - the codes' one-line losses through a whole analysis: given what a calculator by hand would take,
 * and beside losses that the steps of time give.
 * SPDX-License-Identifier: MIT */
#include <math.h>

#include "draft.h"
#include "solved.h"

#define MPA 1e6
#define KSI 6894757.293168361
#define IN  0.0254

static kl_loss_estimate
estimate(const solved *s, kl_state state, const char *tendon, double x, kl_loss_code code)
{
    kl_loss_estimate e;
    assert_int_equal(kl_estimate_losses(s->results, state, solved_index(s, KL_KIND_TENDON, tendon),
                                        x, KL_RIGHT, code, &e),
                     KL_OK);
    return e;
}

static kl_status refusal(const solved *s, kl_state state, const char *tendon, kl_loss_code code)
{
    kl_loss_estimate e;
    return kl_estimate_losses(s->results, state, solved_index(s, KL_KIND_TENDON, tendon), 8.0,
                              KL_RIGHT, code, &e);
}

static kl_tendon_losses computed(const solved *s, kl_state state, const char *tendon, double x)
{
    kl_tendon_losses l;
    assert_int_equal(kl_losses_at_station(s->results, state,
                                          solved_index(s, KL_KIND_TENDON, tendon), x, KL_RIGHT, &l),
                     KL_OK);
    return l;
}

/* ---- aashto ----------------------------------------------------------------------------------------------- */

/* The monolithic section worked by hand in test_time_published.c as a beam of 120 ft under 5 klf, 9000 kip-ft at midspan:
 * f_cgp 0.489 ksi, K 0.944; shrinkage 13.15, creep 4.77, relaxation 1.14 ksi. */
static const char MONOLITH[] =
    "show us\nsite { humidity 70 % }\nsections gross\n"
    "concrete mix { strength 5 ksi; transfer_strength 4 ksi; modulus 3834.25 ksi; cured 14 day\n"
    "  creep aashto 2020; shrinkage aashto 2020 }\n"
    "prestressing strand { ultimate 270 ksi; yield 243 ksi; modulus 28500 ksi; relaxation low }\n"
    "section box { area 9000 in^2; inertia 9.0e6 in^4; to_top 36 in; to_bottom 36 in; "
    "volume_to_surface 6 in }\n"
    "node L at (0 ft, 0 ft); node R at (120 ft, 0 ft)\n"
    "member b from L to R section box of mix { age 14 day; weightless }\n"
    "support L pinned; support R roller\n"
    "tendon T in b { of strand; strands 120 area 0.217 in^2; profile from line {\n"
    "    anchor at start height -20 in; anchor at end height -20 in straight }\n"
    "  friction 0; wobble 0 per ft; seating 0 in; jack start stress 180 ksi; bonded grouted }\n"
    "load dead { uniform 5 klf on b }\n"
    "stage pulled at 0 day { place b; load dead; stress T; grout T }\n"
    "stage late at 26986 day\n";

static void aashto_gives_the_worked_losses_of_a_monolithic_section(void **state)
{
    (void)state;
    solved s;
    solved_open(&s, MONOLITH);
    const kl_state late = solved_after(&s, "late");
    const double middle = 60.0 * 12.0 * IN;
    const kl_loss_estimate e = estimate(&s, late, "T", middle, KL_LOSS_AASHTO_2020);
    assert_close(e.area, 9000.0 * IN * IN, 1e-9, 0.0);
    assert_close(e.eccentricity, -20.0 * IN, 1e-9, 0.0);
    assert_close(e.steel_area, 26.04 * IN * IN, 1e-9, 0.0);
    assert_close(e.stress, 180.0 * KSI, 1e-9, 0.0);
    assert_close(e.creep_coefficient, 1.389, 0.0, 0.0005);
    assert_close(e.shrinkage_strain, 489e-6, 0.0, 0.5e-6);
    assert_close(e.concrete_stress / KSI, 0.489, 0.0, 0.0005);
    assert_close(e.factor, 0.944, 0.0, 0.0005);
    assert_close(e.shrinkage / KSI, 13.15, 0.001, 0.0);
    assert_close(e.creep / KSI, 4.77, 0.001, 0.0);
    assert_close(e.relaxation / KSI, 1.14, 0.0, 0.005);
    assert_close(e.later_creep, 0.0, 0.0, 1e-12);
    /* One layer in a beam that nothing restrains is what the formula is for. Creep under what shrinkage and relaxation give
     * back is in its K, in the steps of time it is creep: the two are compared together. */
    const kl_tendon_losses l = computed(&s, late, "T", middle);
    assert_close(l.lost[KL_LOSS_SHRINKAGE] + l.lost[KL_LOSS_CREEP], e.shrinkage + e.creep, 0.02,
                 0.0);
    solved_close(&s);
}

/* ---- a prism ---------------------------------------------------------------------------------------------- */

/* 0.8 m^2, E 30 GPa at any age, phi 2 and 300e-6 in the end; 2000 kN in 1800 mm^2 of 195 GPa at the centroid: 2.5 MPa,
 * n rho 0.014625. */
static void open_prism(solved *s, const char *bond, const char *relaxation, const char *stages)
{
    text_draft t = {0};
    draft_add(
        &t,
        "show si\nsections gross\n"
        "concrete mix { strength 40 MPa; modulus 30 GPa; cured 28 day; creep user { phi 2.0 }\n"
        "  shrinkage user { strain 300e-6 } }\n"
        "prestressing strand { ultimate 1860 MPa; yield 1674 MPa; modulus 195 GPa; relaxation "
        "%s }\nsection prism { rectangle width 0.8 m depth 1 m }\n"
        "node L at (0 m, 0 m); node R at (20 m, 0 m)\n"
        "member b from L to R section prism of mix { age 28 day; weightless }\n"
        "support L fixed\nload push { point 8000 kN left at R }\n"
        "tendon T in b { of strand; strands 12 area 150 mm^2; profile from line {\n"
        "    anchor at start height 0 m; anchor at end height 0 m straight }\n"
        "  friction 0; wobble 0 per m; seating 0 mm; jack start force 2000 kN; %s }\n%s",
        relaxation, bond, stages);
    solved_open(s, t.text);
    draft_free(&t);
}

/* By hand: en1992 K = 1 / (1 + 0.014625 (1 + 0.8 x 2)) = 0.96337, aashto with 0.7 0.96609; shrinkage 58.5 K, creep
 * 6.5 x 2.5 x 2 K. The log law's relaxation of 1111.1 MPa in 4000 days: 1111.1 / 45 log10(96000) (1111.1 / 1674 - 0.55) =
 * 13.993 MPa; aashto 1111.1 / 30 (...) = 4.2128 MPa. */
static void both_formulas_give_the_hand_values_of_a_prism(void **state)
{
    (void)state;
    solved s;
    open_prism(&s, "bonded grouted", "low",
               "stage set at 0 day { place b; stress T }\nstage late at 4000 day\n");
    const kl_state late = solved_after(&s, "late");
    kl_loss_estimate e = estimate(&s, late, "T", 8.0, KL_LOSS_EN1992_2004);
    assert_close(e.duration, 4000.0 * KL_DAY, 1e-12, 0.0);
    assert_close(e.concrete_stress, 2.5 * MPA, 1e-9, 0.0);
    assert_close(e.factor, 0.96337, 1e-5, 0.0);
    assert_close(e.shrinkage, 58.5 * 0.96337 * MPA, 1e-4, 0.0);
    assert_close(e.creep, 32.5 * 0.96337 * MPA, 1e-4, 0.0);
    assert_close(e.relaxation, 0.8 * 13.993 * 0.96337 * MPA, 1e-3, 0.0);
    e = estimate(&s, late, "T", 8.0, KL_LOSS_AASHTO_2020);
    assert_close(e.factor, 0.96609, 1e-5, 0.0);
    assert_close(e.shrinkage, 58.5 * 0.96609 * MPA, 1e-4, 0.0);
    assert_close(e.creep, 32.5 * 0.96609 * MPA, 1e-4, 0.0);
    assert_close(e.relaxation, 4.2128 * MPA, 1e-3, 0.0);
    solved_close(&s);
}

/* 10 MPa more from the tenth day: aashto counts its creep apart, 10 MPa x 2 / 30 GPa, en1992 with the rest. Nothing of what
 * time itself does to the stresses is in either. */
static void loads_that_come_later_creep_by_their_own_age_or_with_the_rest(void **state)
{
    (void)state;
    solved s;
    open_prism(&s, "bonded grouted", "none",
               "stage set at 0 day { place b; stress T }\nstage pushed at 10 day { load push }\n"
               "stage late at 4000 day\n");
    const kl_state late = solved_after(&s, "late");
    /* what the tendon takes off the load it gives back to the concrete: 8000 kN / (1 + n rho) reach it */
    const double push = 10.0 * MPA;
    kl_loss_estimate e = estimate(&s, late, "T", 8.0, KL_LOSS_AASHTO_2020);
    assert_close(e.concrete_stress, 2.5 * MPA, 1e-9, 0.0);
    assert_close(e.later_creep, push / 1.014625 * 2.0 / 30e9, 1e-9, 0.0);
    assert_close(e.creep, e.factor * 195e9 * (2.5 * MPA * 2.0 / 30e9 + e.later_creep), 1e-9, 0.0);
    assert_true(isnan(e.relaxation)); /* a steel without a law is neither low nor normal */
    e = estimate(&s, late, "T", 8.0, KL_LOSS_EN1992_2004);
    assert_close(e.concrete_stress, 2.5 * MPA + push / 1.014625, 1e-9, 0.0);
    assert_close(e.later_creep, 0.0, 0.0, 1e-15);
    solved_close(&s);
}

static void no_estimate_without_days_between_or_bond(void **state)
{
    (void)state;
    solved s;
    open_prism(&s, "bonded grouted", "low",
               "stage set at 0 day { place b; stress T }\nstage late at 4000 day { slacken T }\n");
    assert_int_equal(refusal(&s, solved_after(&s, "set"), "T", KL_LOSS_AASHTO_2020), KL_NOT_THERE);
    assert_int_equal(refusal(&s, solved_after(&s, "late"), "T", KL_LOSS_EN1992_2004), KL_NOT_THERE);
    solved_close(&s);
    open_prism(&s, "unbonded", "low",
               "stage set at 0 day { place b; stress T }\nstage late at 4000 day\n");
    assert_int_equal(refusal(&s, solved_after(&s, "late"), "T", KL_LOSS_EN1992_2004), KL_NOT_THERE);
    solved_close(&s);
}

int main(void)
{
    const struct CMUnitTest tests[] = {
        cmocka_unit_test(aashto_gives_the_worked_losses_of_a_monolithic_section),
        cmocka_unit_test(both_formulas_give_the_hand_values_of_a_prism),
        cmocka_unit_test(loads_that_come_later_creep_by_their_own_age_or_with_the_rest),
        cmocka_unit_test(no_estimate_without_days_between_or_bond),
    };
    return cmocka_run_group_tests(tests, NULL, NULL);
}
