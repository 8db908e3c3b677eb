/* test_material.c - strength and modulus against tabled values and laws of the formulas.
 * SPDX-License-Identifier: MIT */
#include "assert_close.h"

#include <math.h>
#include <string.h>

#include "material.h"

#define MPA 1e6
#define GPA 1e9
#define PSI 6894.757293168361
#define KSI (1000 * PSI)
#define PCF 157.08746384624618

static kl_material concrete(double strength, kl_law modulus, kl_law gain, kl_cement cement)
{
    kl_material m = {.kind = KL_CONCRETE, .name = "mix", .origin = KL_NOWHERE};
    m.strength = strength;
    m.transfer_strength = m.modulus = m.shear_modulus = m.expansion = m.cured = NAN;
    m.unit_weight = 145 * PCF;
    m.modulus_law = modulus;
    m.gain = gain;
    m.cement = cement;
    return m;
}

/* EN 1992-1-1:2004 table 3.1 (from memory): f_ck, E_cm in whole GPa. */
static void material_modulus_en1992_matches_table_3_1(void **state)
{
    (void)state;
    const double table[][2] = {{12, 27}, {16, 29}, {20, 30}, {25, 31}, {30, 33},
                               {35, 34}, {40, 35}, {45, 36}, {50, 37}, {55, 38},
                               {60, 39}, {70, 41}, {80, 42}, {90, 44}};
    for (size_t i = 0; i < sizeof table / sizeof table[0]; i++) {
        const kl_material m =
            concrete(table[i][0] * MPA, KL_LAW_EN1992_2004, KL_LAW_EN1992_2004, KL_CEMENT_NORMAL);
        assert_close(material_modulus(&m, 28 * KL_DAY) / GPA, table[i][1], 0, 0.51);
    }
}

/* CEB-FIP MC 1990 table 2.1.6 (from memory): E_ci in GPa by grade. */
static void material_modulus_mc1990_matches_table(void **state)
{
    (void)state;
    const double table[][2] = {{12, 27}, {20, 30}, {30, 34}, {40, 36},
                               {50, 39}, {60, 41}, {70, 43}, {80, 44}};
    for (size_t i = 0; i < sizeof table / sizeof table[0]; i++) {
        const kl_material m =
            concrete(table[i][0] * MPA, KL_LAW_MC1990, KL_LAW_MC1990, KL_CEMENT_NORMAL);
        assert_close(material_modulus(&m, 28 * KL_DAY) / GPA, table[i][1], 0, 0.51);
    }
}

/* ACI 209R-92 table 2.2.1 (from memory): f(t) / f(28), types I and III moist cured, to two digits. */
static void material_strength_aci209_matches_table_of_ratios(void **state)
{
    (void)state;
    const double days[] = {3, 7, 14, 21, 28, 56, 91};
    const double normal[] = {0.46, 0.70, 0.88, 0.96, 1.0, 1.08, 1.12};
    const double rapid[] = {0.59, 0.80, 0.92, 0.97, 1.0, 1.04, 1.06};
    const kl_material one = concrete(1.0, KL_LAW_ACI_2019, KL_LAW_UNSET, KL_CEMENT_NORMAL);
    const kl_material three = concrete(1.0, KL_LAW_ACI_2019, KL_LAW_ACI209_1992, KL_CEMENT_RAPID);
    for (int i = 0; i < 7; i++) {
        assert_close(material_strength(&one, days[i] * KL_DAY), normal[i], 0, 0.011);
        assert_close(material_strength(&three, days[i] * KL_DAY), rapid[i], 0, 0.011);
    }
}

static void material_strength_slow_cement_lags_and_meets_at_28_days(void **state)
{
    (void)state;
    const kl_material slow = concrete(1.0, KL_LAW_ACI_2019, KL_LAW_ACI209_1992, KL_CEMENT_SLOW);
    const kl_material normal = concrete(1.0, KL_LAW_ACI_2019, KL_LAW_ACI209_1992, KL_CEMENT_NORMAL);
    assert_close(material_strength(&slow, 28 * KL_DAY), 1.0, 0.005, 0);
    assert_true(material_strength(&slow, 7 * KL_DAY) <
                0.9 * material_strength(&normal, 7 * KL_DAY));
}

/* EN 1992-1-1 3.1.2: beta_cc(7) = exp(s (1 - 2)) and beta_cc(28) = 1; f_cm = f_ck + 8. C30, class N. */
static void material_strength_en1992_is_mean_less_8_until_28_days(void **state)
{
    (void)state;
    const double s[] = {0.25, 0.38, 0.20};
    const kl_cement cement[] = {KL_CEMENT_NORMAL, KL_CEMENT_SLOW, KL_CEMENT_RAPID};
    for (int i = 0; i < 3; i++) {
        const kl_material m = concrete(30 * MPA, KL_LAW_EN1992_2004, KL_LAW_EN1992_2004, cement[i]);
        assert_close(material_strength(&m, 7 * KL_DAY) / MPA, 38 * exp(-s[i]) - 8, 1e-12, 0);
        assert_close(material_strength(&m, 28 * KL_DAY) / MPA, 30, 1e-12, 0);
        assert_close(material_strength(&m, 365 * KL_DAY) / MPA, 30, 1e-12, 0);
        assert_close(material_strength(&m, 0.01 * KL_DAY), 0, 0, 0);
        const double ratio = material_modulus(&m, 7 * KL_DAY) / material_modulus(&m, 28 * KL_DAY);
        assert_close(ratio, exp(-0.3 * s[i]), 1e-12, 0);
    }
}

static void material_strength_mc1990_grows_beyond_28_days(void **state)
{
    (void)state;
    const kl_material m = concrete(40 * MPA, KL_LAW_MC1990, KL_LAW_MC1990, KL_CEMENT_SLOW);
    assert_close(material_strength(&m, 7 * KL_DAY) / MPA, 40 * exp(-0.38), 1e-12, 0);
    assert_close(material_strength(&m, 112 * KL_DAY) / MPA, 40 * exp(0.19), 1e-12, 0);
    const double ratio = material_modulus(&m, 7 * KL_DAY) / material_modulus(&m, 28 * KL_DAY);
    assert_close(ratio, exp(-0.19), 1e-12, 0);
}

/* ACI 318-19 19.2.2.1 (b): 57000 sqrt(f'c) stands for normal weight, within the 1.2 % that 33 x 145^1.5 is above;
 * AASHTO C5.4.2.4: 2500 f'c^0.33 ksi (2523 at 145 pcf), from memory. */
static void material_modulus_american_laws_meet_their_short_forms(void **state)
{
    (void)state;
    const double psi[] = {3000, 4000, 5000, 8000};
    for (int i = 0; i < 4; i++) {
        kl_material m = concrete(psi[i] * PSI, KL_LAW_ACI_2019, KL_LAW_NONE, KL_CEMENT_NORMAL);
        assert_close(material_modulus(&m, 28 * KL_DAY) / PSI, 57000 * sqrt(psi[i]), 0.012, 0);
        assert_close(material_modulus(&m, 28 * KL_DAY) / PSI, 33 * pow(145, 1.5) * sqrt(psi[i]),
                     1e-9, 0);
        m.modulus_law = KL_LAW_AASHTO_2020;
        assert_close(material_modulus(&m, 28 * KL_DAY) / KSI, 2500 * pow(psi[i] / 1000, 0.33), 0.01,
                     0);
    }
}

/* A law of the formula: with aci209 the modulus goes as the square root of the strength of that age. */
static void material_modulus_aci_takes_strength_of_its_age(void **state)
{
    (void)state;
    const kl_material m = concrete(35 * MPA, KL_LAW_ACI_2019, KL_LAW_UNSET, KL_CEMENT_NORMAL);
    const double e = material_modulus(&m, 3 * KL_DAY) / material_modulus(&m, 90 * KL_DAY);
    const double f = material_strength(&m, 3 * KL_DAY) / material_strength(&m, 90 * KL_DAY);
    assert_close(e * e, f, 1e-12, 0);
    assert_true(material_modulus(&m, 0) > 0); /* set concrete is not without stiffness */
    assert_close(material_modulus(&m, 0), material_modulus(&m, KL_DAY), 0, 0);
    assert_close(material_strength(&m, 0), 0, 0, 0);
}

static void material_age_of_strength_inverts_strength(void **state)
{
    (void)state;
    const kl_law gains[] = {KL_LAW_UNSET, KL_LAW_EN1992_2004, KL_LAW_MC1990};
    const double days[] = {2, 5, 14, 27};
    for (int g = 0; g < 3; g++) {
        for (int c = 0; c < 3; c++) {
            const kl_material m = concrete(35 * MPA, KL_LAW_EN1992_2004, gains[g], (kl_cement)c);
            for (int d = 0; d < 4; d++) {
                const double f = material_strength(&m, days[d] * KL_DAY);
                assert_close(material_age_of_strength(&m, f) / KL_DAY, days[d], 1e-9, 0);
            }
            assert_true(isinf(material_age_of_strength(&m, 60 * MPA)));
            assert_close(material_age_of_strength(&m, 0), 0, 0, 0);
        }
    }
    const kl_material en =
        concrete(35 * MPA, KL_LAW_EN1992_2004, KL_LAW_EN1992_2004, KL_CEMENT_NORMAL);
    assert_true(isinf(material_age_of_strength(&en, 36 * MPA))); /* f_ck is the most it counts */
}

static void material_constant_moduli_do_not_age(void **state)
{
    (void)state;
    kl_material m = concrete(35 * MPA, KL_LAW_VALUE, KL_LAW_UNSET, KL_CEMENT_NORMAL);
    m.modulus = 24 * GPA;
    assert_false(material_ages(&m));
    assert_close(material_modulus(&m, KL_DAY), 24 * GPA, 0, 0);
    assert_close(material_shear_modulus(&m, KL_DAY), 10 * GPA, 1e-12, 0); /* E / 2.4 */
    m.modulus_law = KL_LAW_ACI_2019;
    assert_true(material_ages(&m));
    m.gain = KL_LAW_NONE;
    assert_false(material_ages(&m));
    m.kind = KL_ELASTIC;
    m.modulus_law = KL_LAW_VALUE;
    assert_true(isnan(material_shear_modulus(&m, KL_DAY)));
    assert_true(isnan(material_strength(&m, KL_DAY)));
    m.shear_modulus = 9 * GPA;
    assert_close(material_shear_modulus(&m, KL_DAY), 9 * GPA, 0, 0);
    m.modulus_law = KL_LAW_UNSET;
    assert_true(isnan(material_modulus(&m, KL_DAY)));
}

/* Reports name the law that was asked for, by the words of the model language. */
static void material_sources_name_their_law(void **state)
{
    (void)state;
    const struct {
        kl_law law;
        const char *modulus, *gain; /* NULL: not a law of that property */
    } rows[] = {{KL_LAW_VALUE, "given", NULL},
                {KL_LAW_AASHTO_2020, "aashto 2020", NULL},
                {KL_LAW_ACI_2019, "aci 2019", NULL},
                {KL_LAW_ACI209_1992, NULL, "aci209 1992"},
                {KL_LAW_EN1992_2004, "en1992 2004", "en1992 2004"},
                {KL_LAW_MC1990, "mc1990", "mc1990"},
                {KL_LAW_NONE, NULL, "none"},
                {KL_LAW_UNSET, "not given", "aci209 1992"}};
    for (size_t i = 0; i < sizeof rows / sizeof rows[0]; i++) {
        const kl_material m = concrete(30 * MPA, rows[i].law, rows[i].law, KL_CEMENT_NORMAL);
        if (rows[i].modulus != NULL) {
            assert_non_null(strstr(material_modulus_source(&m), rows[i].modulus));
        }
        if (rows[i].gain != NULL) {
            assert_non_null(strstr(material_gain_source(&m), rows[i].gain));
        }
    }
    const kl_material slow = concrete(30 * MPA, KL_LAW_VALUE, KL_LAW_UNSET, KL_CEMENT_SLOW);
    assert_non_null(strstr(material_gain_source(&slow), "own")); /* not the publication's */
}

/* `gain none`: the strength is there from the start and never more. */
static void material_strength_without_gain_is_constant(void **state)
{
    (void)state;
    const kl_material m = concrete(30 * MPA, KL_LAW_VALUE, KL_LAW_NONE, KL_CEMENT_NORMAL);
    assert_close(material_strength(&m, KL_DAY), 30 * MPA, 0, 0);
    assert_close(material_strength(&m, 1000 * KL_DAY), 30 * MPA, 0, 0);
    assert_close(material_age_of_strength(&m, 30 * MPA), 0, 0, 0);
    assert_true(isinf(material_age_of_strength(&m, 31 * MPA)));
}

int main(void)
{
    const struct CMUnitTest tests[] = {
        cmocka_unit_test(material_modulus_en1992_matches_table_3_1),
        cmocka_unit_test(material_modulus_mc1990_matches_table),
        cmocka_unit_test(material_strength_aci209_matches_table_of_ratios),
        cmocka_unit_test(material_strength_slow_cement_lags_and_meets_at_28_days),
        cmocka_unit_test(material_strength_en1992_is_mean_less_8_until_28_days),
        cmocka_unit_test(material_strength_mc1990_grows_beyond_28_days),
        cmocka_unit_test(material_modulus_american_laws_meet_their_short_forms),
        cmocka_unit_test(material_modulus_aci_takes_strength_of_its_age),
        cmocka_unit_test(material_age_of_strength_inverts_strength),
        cmocka_unit_test(material_constant_moduli_do_not_age),
        cmocka_unit_test(material_sources_name_their_law),
        cmocka_unit_test(material_strength_without_gain_is_constant),
    };
    return cmocka_run_group_tests(tests, NULL, NULL);
}
