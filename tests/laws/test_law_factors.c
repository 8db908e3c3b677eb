/* test_law_factors.c - the factors of the settings: friction against its exponential, moduli against what depends on them alone.
 * SPDX-License-Identifier: MIT */
#include <math.h>

#include "draft.h"
#include "material.h"
#include "solved.h"
#include "vary.h"

#define TURN       0.6   /* rad, spread evenly over LENGTH */
#define LENGTH     30.0  /* m */
#define MU         0.25  /* per rad */
#define WOBBLE     0.002 /* per m */
#define JACK       2.4e6 /* N */
#define STEEL_AREA 1800e-6
#define STEEL_E    195e9

/* ---- friction ------------------------------------------------------------------------------------------- */

/* A level tendon that turns evenly in plan, pulled from its start, without set. */
static const char pulled[] =
    "show si\n"
    "concrete mix { strength 40 MPa; unit_weight 24 kN/m^3; modulus 30 GPa }\n"
    "prestressing strand { ultimate 1860 MPa; yield 1674 MPa; modulus 195 GPa; relaxation none }\n"
    "section r { rectangle width 0.8 m depth 1 m }\n"
    "node L at (0 m, 0 m); node R at (30 m, 0 m); support L pinned; support R roller\n"
    "member b from L to R section r of mix\n"
    "tendon T in b { of strand; strands 12 area 150 mm^2; profile from line {\n"
    "    anchor at start height 0 m; anchor at end height 0 m straight }\n"
    "  bend 0.6 rad from 0 m to 30 m; friction 0.25; wobble 0.002 per m; seating 0 mm\n"
    "  jack start force 2400 kN; bonded grouted }\n"
    "load pull { stress T }\n";

/* P = P_j exp(-(mu alpha + K x)), and the elongation is its integral over A E. */
static void expect_friction(double friction, double wobble, double steel)
{
    solved s;
    kl_settings settings = kl_settings_default();
    settings.friction_factor = friction;
    settings.wobble_factor = wobble;
    settings.tendon_modulus_factor = steel;
    solved_run(&s, pulled, &settings);
    const kl_state under = solved_under(&s, "pull");
    const double phi = friction * MU * TURN + wobble * WOBBLE * LENGTH;
    const double mean = phi > 0.0 ? -expm1(-phi) / phi : 1.0;
    kl_stressing g;
    assert_close(solved_force(&s, under, "T", 15.0), JACK * exp(-phi / 2), 1e-9, 0.0);
    assert_close(solved_force(&s, under, "T", LENGTH), JACK * exp(-phi), 1e-9, 0.0);
    assert_int_equal(kl_tendon_stressing(s.results, 0, &g), KL_OK);
    assert_close(g.elongation[0], JACK * LENGTH * mean / (STEEL_AREA * STEEL_E * steel), 1e-9, 0.0);
    solved_close(&s);
}

static void friction_factors_multiply_the_exponent(void **state)
{
    (void)state;
    expect_friction(1.0, 1.0, 1.0);
    expect_friction(0.75, 1.0, 1.0);
    expect_friction(1.25, 1.0, 1.0);
    expect_friction(1.0, 0.5, 1.0);
    expect_friction(1.0, 2.0, 1.0);
    expect_friction(1.0, 1.0, 0.95);
    expect_friction(1.25, 2.0, 1.05);
    expect_friction(0.0, 0.0, 1.0);
}

/* ---- the concrete's modulus ------------------------------------------------------------------------------- */

/* Beams of concrete alone: under load whatever stiffness is counted in cancels out of forces, and divides movements. The fixed
 * one with a roller is redundant, and settles. */
static const char beams[] =
    "show si\nsite { humidity 70 %% }\n"
    "concrete mix { strength 40 MPa; unit_weight 24 kN/m^3; modulus %s; creep %s }\n"
    "section r { rectangle width 0.8 m depth 1 m; shear flexible }\n"
    "node A at (0 m, 0 m); node B at (20 m, 0 m); node C at (30 m, 0 m); node D at (50 m, 0 m)\n"
    "support A pinned; support B roller; support C fixed; support D roller\n"
    "member simple   from A to B section r of mix { age 7 day }\n"
    "member propped  from C to D section r of mix { age 7 day; weightless }\n"
    "load down { point 100 kN down on propped at 10 m }\n"
    "load sinks { settle 10 mm down at D }\n"
    "stage set  at 0 day { place simple propped }\n"
    "stage put  at 1 day { load down }\n"
    "stage late at 1000 day\n"
    "stage sunk at 1000 day { load sinks }\n";

typedef struct beam_values {
    double first, late;      /* m, of the simple beam */
    double moment;           /* N m there */
    double prop, crept;      /* N from the point load, at first and late */
    double settled, modulus; /* N that settling brings; Pa of the late day */
} beam_values;

static beam_values beam_values_of(const char *modulus, const char *creep, double factor)
{
    text_draft t = {0};
    solved s;
    beam_values v;
    double strength, age;
    kl_settings settings = kl_settings_default();
    settings.modulus_factor = factor;
    draft_add(&t, beams, modulus, creep);
    solved_run(&s, t.text, &settings);
    const kl_state set = solved_after(&s, "set"), put = solved_after(&s, "put"),
                   late = solved_after(&s, "late"), sunk = solved_after(&s, "sunk");
    v.first = solved_value(&s, set, KL_DEFLECTION, "simple", 10.0);
    v.late = solved_value(&s, late, KL_DEFLECTION, "simple", 10.0);
    v.moment = solved_value(&s, late, KL_MOMENT, "simple", 10.0);
    v.prop = solved_reaction(&s, put, "D", KL_Y);
    v.crept = solved_reaction(&s, late, "D", KL_Y);
    v.settled = solved_reaction(&s, sunk, "D", KL_Y) - v.crept;
    kl_concrete_of_state(s.results, late, 0, &v.modulus, &strength, &age);
    solved_close(&s);
    draft_free(&t);
    return v;
}

static void expect_modulus(const char *modulus, const char *creep)
{
    const beam_values as_is = beam_values_of(modulus, creep, 1.0);
    assert_close(as_is.moment, 0.8 * 24e3 * 20.0 * 20.0 / 8.0, 1e-9, 0.0);
    assert_true(as_is.first < -0.01 && as_is.late <= as_is.first && as_is.settled < -1e3);
    for (double factor = 0.8; factor < 1.3; factor += 0.4) {
        const beam_values v = beam_values_of(modulus, creep, factor);
        assert_close(v.first, as_is.first / factor, 1e-9, 0.0);
        assert_close(v.late, as_is.late / factor, 1e-9, 0.0);
        assert_close(v.moment, as_is.moment, 1e-9, 0.0);
        assert_close(v.prop, as_is.prop, 1e-9, 0.0);
        assert_close(v.crept, as_is.crept, 1e-9, 0.0);
        assert_close(v.settled, factor * as_is.settled, 1e-9, 0.0);
        assert_close(v.modulus, factor * as_is.modulus, 1e-12, 0.0);
    }
}

static void modulus_factor_divides_movements_and_leaves_moments(void **state)
{
    (void)state;
    static const char *const moduli[] = {"30 GPa", "aashto 2020", "aci 2019", "en1992 2004",
                                         "mc1990"};
    static const char *const laws[] = {"none",   "aashto 2020", "aci209 1992", "mc1990",
                                       "mc1999", "mc2010",      "en1992 2004", "user { phi 2.2 }"};
    for (size_t i = 0; i < sizeof moduli / sizeof moduli[0]; i++) {
        expect_modulus(moduli[i], "none");
    }
    for (size_t i = 0; i < sizeof laws / sizeof laws[0]; i++) {
        expect_modulus("en1992 2004", laws[i]);
    }
}

/* Without stages and with a modulus of shear of its own: P L^3 / 48 E I + P L / 4 G A_s, both over the factor. */
static void modulus_factor_holds_without_stages(void **state)
{
    (void)state;
    const double p = 100e3, l = 20.0, area = 0.8, inertia = 0.8 / 12.0;
    const double bends = p * l * l * l / (48.0 * 30e9 * inertia);
    const double shears = p * l / (4.0 * 10e9 * area * 5.0 / 6.0);
    for (double factor = 0.8; factor < 1.3; factor += 0.2) {
        solved s;
        kl_settings settings = kl_settings_default();
        settings.modulus_factor = factor;
        solved_run(&s,
                   "show si\nconcrete mix { modulus 30 GPa; shear_modulus 10 GPa }\n"
                   "section r { rectangle width 0.8 m depth 1 m; shear flexible }\n"
                   "node A at (0 m, 0 m); node B at (20 m, 0 m)\n"
                   "support A pinned; support B roller; member b from A to B section r of mix\n"
                   "load down { point 100 kN down on b at 10 m }\n",
                   &settings);
        assert_close(solved_value(&s, solved_under(&s, "down"), KL_DEFLECTION, "b", 10.0),
                     -(bends + shears) / factor, 1e-9, 0.0);
        solved_close(&s);
    }
}

/* What is not concrete keeps its modulus: a beam of steel beside a factor of concrete, and of prestressing steel. */
static void factors_leave_other_materials_alone(void **state)
{
    (void)state;
    solved s;
    kl_settings settings = kl_settings_default();
    settings.modulus_factor = 0.8;
    settings.tendon_modulus_factor = 1.05;
    solved_run(&s,
               "show si\nmaterial steel { modulus 200 GPa }\n"
               "section r { area 0.01 m^2; inertia 1e-4 m^4 }\n"
               "node A at (0 m, 0 m); node B at (10 m, 0 m)\n"
               "support A pinned; support B roller; member b from A to B section r of steel\n"
               "load down { point 10 kN down on b at 5 m }\n",
               &settings);
    assert_close(solved_value(&s, solved_under(&s, "down"), KL_DEFLECTION, "b", 5.0),
                 -10e3 * 1000.0 / (48.0 * 200e9 * 1e-4), 1e-9, 0.0);
    solved_close(&s);
}

/* ---- concrete and tendon together ------------------------------------------------------------------------- */

/* A straight grouted tendon on the axis of a free prism that shrinks by e: with n = E_p / E_c (grouted: concrete less the steel)
 * the tendon loses E_p e A_c / (A_c + n A_p). */
static void moduli_share_shrinkage_by_their_ratio(void **state)
{
    (void)state;
    static const double factors[][2] = {{1.0, 1.0}, {0.8, 1.0}, {1.2, 1.0}, {1.0, 0.95}};
    for (size_t i = 0; i < sizeof factors / sizeof factors[0]; i++) {
        solved s;
        kl_settings settings = kl_settings_default();
        settings.modulus_factor = factors[i][0];
        settings.tendon_modulus_factor = factors[i][1];
        solved_run(&s,
                   "show si\nsite { humidity 70 % }\n"
                   "concrete mix { strength 40 MPa; transfer_strength 30 MPa; modulus 30 GPa\n"
                   "  creep none; shrinkage user { strain 300e-6 }; cured 0 day }\n"
                   "prestressing strand { ultimate 1860 MPa; yield 1674 MPa; modulus 195 GPa\n"
                   "  relaxation none }\n"
                   "section r { rectangle width 0.8 m depth 1 m }\n"
                   "node L at (0 m, 0 m); node R at (30 m, 0 m); support L pinned\n"
                   "support R roller\n"
                   "member b from L to R section r of mix { age 0 day; weightless }\n"
                   "tendon T in b { of strand; strands 12 area 150 mm^2; profile from line {\n"
                   "    anchor at start height 0 m; anchor at end height 0 m straight }\n"
                   "  friction 0; wobble 0 per m; seating 0 mm; jack start force 2400 kN\n"
                   "  bonded grouted }\n"
                   "stage pull at 0 day { place b; stress T; grout T }\n"
                   "stage late at 20000 day\n",
                   &settings);
        const double concrete = 0.8 - STEEL_AREA, steel = STEEL_E * factors[i][1];
        const double ratio = steel / (30e9 * factors[i][0]);
        const double loss =
            steel * 300e-6 * concrete / (concrete + ratio * STEEL_AREA) * STEEL_AREA;
        assert_close(solved_force(&s, solved_after(&s, "pull"), "T", 10.0) -
                         solved_force(&s, solved_after(&s, "late"), "T", 10.0),
                     loss, 1e-6, 0.0);
        solved_close(&s);
    }
}

/* ---- settings ------------------------------------------------------------------------------------------- */

static void factors_of_one_are_the_model_itself(void **state)
{
    (void)state;
    solved s;
    const kl_settings settings = kl_settings_default();
    solved_run(&s, pulled, &settings);
    assert_ptr_equal(kl_results_model(s.results), s.model);
    solved_close(&s);
}

static void factor_of_the_material_and_of_the_settings_multiply(void **state)
{
    (void)state;
    arena memory = {0};
    kl_diags *diags = kl_diags_create();
    kl_model *model = kl_model_create(diags);
    kl_settings settings = kl_settings_default();
    settings.modulus_factor = 0.8;
    kl_material mix = {.kind = KL_CONCRETE,
                       .name = "mix",
                       .strength = 40e6,
                       .transfer_strength = (double)NAN,
                       .modulus_law = KL_LAW_VALUE,
                       .modulus = 30e9,
                       .modulus_factor = 1.5,
                       .shear_modulus = (double)NAN,
                       .cured = (double)NAN,
                       .ultimate = (double)NAN,
                       .yield = (double)NAN};
    kl_index added;
    const kl_model *varied;
    assert_int_equal(kl_model_add_material(model, &mix, &added), KL_OK);
    assert_int_equal(vary_model(model, &settings, &memory, &varied), KL_OK);
    assert_close(material_modulus(&varied->materials[0], 1e6), 1.5 * 0.8 * 30e9, 1e-12, 0.0);
    assert_close(material_shear_modulus(&varied->materials[0], 1e6), 15e9, 1e-12, 0.0);
    assert_close(material_modulus(&model->materials[0], 1e6), 1.5 * 30e9, 1e-12, 0.0);
    mix.name = "other";
    mix.modulus_factor = -1.0;
    assert_int_equal(kl_model_add_material(model, &mix, &added), KL_BAD_MODEL);
    kl_model_destroy(model);
    kl_diags_destroy(diags);
    arena_free(&memory);
}

static void factors_that_are_none_are_refused(void **state)
{
    (void)state;
    solved s;
    solved_read_well(&s, pulled);
    kl_settings settings = kl_settings_default();
    double *const factors[] = {&settings.creep_factor,    &settings.shrinkage_factor,
                               &settings.friction_factor, &settings.wobble_factor,
                               &settings.modulus_factor,  &settings.tendon_modulus_factor};
    const double wrong[] = {-0.1, (double)NAN, (double)INFINITY, 0.0};
    for (int i = 0; i < 6; i++) {
        for (int k = 0; k < (i < 4 ? 3 : 4); k++) { /* only a modulus must not be 0 */
            *factors[i] = wrong[k];
            assert_int_equal(kl_analyze(s.model, &settings, s.diags, &s.results), KL_MISUSE);
            assert_null(s.results);
        }
        *factors[i] = 1.0;
    }
    solved_close(&s);
}

int main(void)
{
    const struct CMUnitTest tests[] = {
        cmocka_unit_test(friction_factors_multiply_the_exponent),
        cmocka_unit_test(modulus_factor_divides_movements_and_leaves_moments),
        cmocka_unit_test(modulus_factor_holds_without_stages),
        cmocka_unit_test(factors_leave_other_materials_alone),
        cmocka_unit_test(moduli_share_shrinkage_by_their_ratio),
        cmocka_unit_test(factors_of_one_are_the_model_itself),
        cmocka_unit_test(factor_of_the_material_and_of_the_settings_multiply),
        cmocka_unit_test(factors_that_are_none_are_refused),
    };
    return cmocka_run_group_tests(tests, NULL, NULL);
}
