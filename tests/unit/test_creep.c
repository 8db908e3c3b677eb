/* test_creep.c - which modulus each law's phi belongs to, time since loading against age, scope and edges.
 * SPDX-License-Identifier: MIT */
#include "assert_close.h"

#include <string.h>

#include "aci209_1992.h"
#include "mc1999.h"
#include "mc2010.h"
#include "time_case.h"

static bool scope_has(const time_scope *scope, const char *what)
{
    for (int i = 0; i < scope->count; i++) {
        if (strcmp(scope->outside[i], what) == 0) {
            return true;
        }
    }
    return false;
}

/* A modulus that grows: at 7 days E(7) = E(28) (exp(0.25 (1 - 2)))^0.3 by EN 1992-1-1 3.1.3, E(28) = 22 (4.3)^0.3. */
static void creep_reference_modulus_of_a_law_is_its_own(void **state)
{
    (void)state;
    kl_material mix = time_case_mix(35 * MPA);
    mix.modulus_law = KL_LAW_EN1992_2004;
    mix.gain = KL_LAW_EN1992_2004;
    const double e28 = 22 * GPA * pow(4.3, 0.3), e7 = e28 * exp(-0.25 * 0.3);
    const time_concrete c = time_case_concrete(&mix);
    const struct {
        time_law law;
        double modulus;
    } rows[] = {{TIME_LAW_AASHTO_2020, e7},         {TIME_LAW_ACI209_1992, e7},
                {TIME_LAW_MC1990, 1.05 * e28},      {TIME_LAW_MC1999, 1.05 * e28},
                {TIME_LAW_EN1992_2004, 1.05 * e28}, {TIME_LAW_MC2010, 1.05 * e28}};
    for (int i = 0; i < 6; i++) {
        assert_close(creep_reference_modulus(rows[i].law, &c, 7 * DAY), rows[i].modulus, 1e-12, 0);
        /* J = 1 / E(7) + phi / E_phi, term by term. */
        const double phi = creep_coefficient(rows[i].law, &c, 1000 * DAY, 7 * DAY);
        assert_true(phi > 0.5);
        assert_close(creep_compliance(rows[i].law, &c, 1000 * DAY, 7 * DAY),
                     1 / e7 + phi / rows[i].modulus, 1e-12, 0);
    }
}

/* MC 1990's own modulus is the tangent at 28 days: 21.5 (4.3)^(1/3) GPa, nothing to multiply. A value is the engineer's
 * E_c: E_cm for en1992, the tangent for the model codes. */
static void creep_reference_modulus_takes_a_tangent_modulus_as_it_is(void **state)
{
    (void)state;
    kl_material mix = time_case_mix(35 * MPA);
    const time_concrete c = time_case_concrete(&mix);
    assert_close(creep_reference_modulus(TIME_LAW_MC1990, &c, 7 * DAY), 30 * GPA, 1e-12, 0);
    assert_close(creep_reference_modulus(TIME_LAW_EN1992_2004, &c, 7 * DAY), 31.5 * GPA, 1e-12, 0);
    mix.modulus_law = KL_LAW_MC1990;
    mix.gain = KL_LAW_MC1990;
    const double tangent = 21.5 * GPA * cbrt(4.3);
    assert_close(creep_reference_modulus(TIME_LAW_MC2010, &c, 7 * DAY), tangent, 1e-12, 0);
    assert_close(creep_reference_modulus(TIME_LAW_EN1992_2004, &c, 7 * DAY), tangent, 1e-12, 0);
}

/* Half of aashto's, aci209's creep has come when t - t_i is the constant of its course: 12 (100 - 4 f) / (f + 20) days
 * with f = 4 ksi, 42; 10^(1 / 0.6) = 46.4. An age put in place of the time since would miss both. */
static void creep_coefficient_counts_from_loading(void **state)
{
    (void)state;
    kl_material mix = time_case_mix(5 * KSI);
    mix.transfer_strength = 4 * KSI;
    const time_concrete c = time_case_concrete(&mix);
    const struct {
        time_law law;
        double days;
    } rows[] = {{TIME_LAW_AASHTO_2020, 42}, {TIME_LAW_ACI209_1992, pow(10, 1 / 0.6)}};
    for (int i = 0; i < 2; i++) {
        const double loading = 500 * DAY;
        const double all = creep_coefficient(rows[i].law, &c, 1e13 * DAY, loading);
        assert_close(creep_coefficient(rows[i].law, &c, loading + rows[i].days * DAY, loading),
                     all / 2, 1e-6, 0);
    }
}

/* Strength at transfer that is not given is 0.80 f'c. */
static void creep_coefficient_of_aashto_without_transfer_strength_takes_four_fifths(void **state)
{
    (void)state;
    kl_material given = time_case_mix(5 * KSI);
    given.transfer_strength = 4 * KSI;
    const kl_material not_given = time_case_mix(5 * KSI);
    const time_concrete a = time_case_concrete(&given), b = time_case_concrete(&not_given);
    assert_close(creep_coefficient(TIME_LAW_AASHTO_2020, &a, 1e4 * DAY, 14 * DAY),
                 creep_coefficient(TIME_LAW_AASHTO_2020, &b, 1e4 * DAY, 14 * DAY), 1e-12, 0);
}

/* The same case as in test_time_published.c: 1.483 basic, 0.442 drying. */
static void mc2010_creep_splits_into_basic_and_drying(void **state)
{
    (void)state;
    const kl_material mix = time_case_mix(35 * MPA);
    const time_concrete c = time_case_concrete(&mix);
    assert_close(mc2010_basic_creep(&c, 20000, 14), 1.483, 0, 0.0006);
    assert_close(mc2010_drying_creep(&c, 20000, 14), 0.442, 0, 0.0006);
    time_concrete wet = c;
    wet.humidity = 1.0;
    assert_close(mc2010_drying_creep(&wet, 20000, 14), 0.0, 0, 1e-15);
}

/* B.9 at 7 days: 7^1.2 = 10.330, 9 / 12.330 + 1 = 1.7299; slow cement makes 4.0465 days of 7, rapid 12.109. */
static void creep_coefficient_of_slow_cement_is_that_of_an_earlier_age(void **state)
{
    (void)state;
    kl_material mix = time_case_mix(35 * MPA);
    const time_concrete c = time_case_concrete(&mix);
    mix.cement = KL_CEMENT_SLOW;
    assert_close(time_concrete_effective_age(&c, 7), 4.0465, 0, 0.0005);
    mix.cement = KL_CEMENT_RAPID;
    assert_close(time_concrete_effective_age(&c, 7), 12.109, 0, 0.001);
    mix.cement = KL_CEMENT_NORMAL;
    assert_close(time_concrete_effective_age(&c, 0.1), 0.5, 1e-12, 0);
}

static void creep_coefficient_is_nothing_at_loading_and_finite_from_age_0(void **state)
{
    (void)state;
    const kl_material mix = time_case_mix(35 * MPA);
    const time_concrete c = time_case_concrete(&mix);
    for (int law = TIME_LAW_NONE; law < TIME_LAW_COUNT; law++) {
        const time_law l = (time_law)law;
        assert_close(creep_coefficient(l, &c, 5 * DAY, 5 * DAY), 0, 0, 0);
        assert_close(creep_coefficient(l, &c, 4 * DAY, 5 * DAY), 0, 0, 0);
        const double young = creep_coefficient(l, &c, 100 * DAY, 0);
        assert_true(isfinite(young));
        /* A day old: the time since loading is kept. */
        assert_close(young, creep_coefficient(l, &c, 101 * DAY, 1 * DAY), 1e-12, 0);
        const bool ageless = law == TIME_LAW_NONE || law == TIME_LAW_USER;
        assert_true(ageless || young > creep_coefficient(l, &c, 107 * DAY, 7 * DAY));
    }
}

/* Beyond 25 ksi the bracket of k_td turns negative: no division by nothing, no creep above its end. */
static void creep_coefficient_of_aashto_stays_finite_far_out_of_scope(void **state)
{
    (void)state;
    kl_material mix = time_case_mix(40 * KSI);
    const time_concrete c = time_case_concrete(&mix);
    for (double since = 1e-6; since < 1e5; since *= 10) {
        const double phi = creep_coefficient(TIME_LAW_AASHTO_2020, &c, 14 * DAY + since, 14 * DAY);
        assert_true(isfinite(phi) && phi >= 0);
    }
}

static void creep_outside_names_what_is_outside(void **state)
{
    (void)state;
    kl_material mix = time_case_mix(35 * MPA);
    time_concrete c = {&mix, 0.70, 5 * INCH, NULL};
    for (int law = TIME_LAW_NONE; law < TIME_LAW_COUNT; law++) {
        assert_int_equal(creep_outside((time_law)law, &c, 14 * DAY).count, 0);
    }
    c.humidity = 0.30;
    c.volume_to_surface = 7 * INCH;
    mix.strength = 110 * MPA;
    const time_scope aashto = creep_outside(TIME_LAW_AASHTO_2020, &c, 0.5 * DAY);
    assert_true(scope_has(&aashto, "strength above 15 ksi"));
    assert_true(scope_has(&aashto, "volume to surface above 6 in"));
    assert_true(scope_has(&aashto, "loading before an age of 1 day"));
    const time_scope aci = creep_outside(TIME_LAW_ACI209_1992, &c, 5 * DAY);
    assert_true(scope_has(&aci, "humidity below 40 %"));
    assert_true(scope_has(&aci, "loading before an age of 7 days"));
    const time_scope mc = creep_outside(TIME_LAW_MC1990, &c, 5 * DAY);
    assert_true(scope_has(&mc, "strength above 80 MPa"));
    const time_scope en = creep_outside(TIME_LAW_EN1992_2004, &c, 5 * DAY);
    assert_true(scope_has(&en, "strength above 90 MPa"));
    assert_int_equal(creep_outside(TIME_LAW_MC2010, &c, 5 * DAY).count, 1); /* humidity alone */
}

/* f_ck 35 MPa at 28 days by aci209 (t / (4 + 0.85 t)) = 7 / 9.95 of it at 7 days; f_cm = 43 MPa. */
static void creep_linear_stress_is_a_share_of_the_strength_at_loading(void **state)
{
    (void)state;
    const kl_material mix = time_case_mix(35 * MPA);
    const double gain = 7 / 9.95;
    assert_close(creep_linear_stress(TIME_LAW_EN1992_2004, &mix, 7 * DAY), 0.45 * 35 * MPA * gain,
                 1e-12, 0);
    assert_close(creep_linear_stress(TIME_LAW_MC1990, &mix, 7 * DAY), 0.40 * 43 * MPA * gain, 1e-12,
                 0);
    assert_close(creep_linear_stress(TIME_LAW_ACI209_1992, &mix, 0), 0.50 * 35 * MPA / 4.85, 1e-12,
                 0);
    assert_true(isnan(creep_linear_stress(TIME_LAW_AASHTO_2020, &mix, 7 * DAY)));
    assert_true(isnan(creep_linear_stress(TIME_LAW_USER, &mix, 7 * DAY)));
}

static void time_law_of_the_language_finds_its_law_and_source(void **state)
{
    (void)state;
    assert_int_equal(time_law_of(KL_LAW_AASHTO_2020), TIME_LAW_AASHTO_2020);
    assert_int_equal(time_law_of(KL_LAW_ACI209_1992), TIME_LAW_ACI209_1992);
    assert_int_equal(time_law_of(KL_LAW_MC1990), TIME_LAW_MC1990);
    assert_int_equal(time_law_of(KL_LAW_EN1992_2004), TIME_LAW_EN1992_2004);
    assert_int_equal(time_law_of(KL_LAW_MC1999), TIME_LAW_MC1999);
    assert_int_equal(time_law_of(KL_LAW_MC2010), TIME_LAW_MC2010);
    assert_int_equal(time_law_of(KL_LAW_USER), TIME_LAW_USER);
    assert_string_equal(time_law_name(TIME_LAW_EN1992_2004), "en1992 2004");
    assert_int_equal(time_law_of(KL_LAW_NONE), TIME_LAW_NONE);
    assert_int_equal(time_law_of(KL_LAW_ACI_2019), TIME_LAW_NONE);
    assert_non_null(strstr(time_law_source(TIME_LAW_AASHTO_2020), "5.4.2.3"));
    assert_non_null(strstr(time_law_source(TIME_LAW_EN1992_2004), "annex B"));
}

/* k_s = 1.45 - 0.13 x 2 = 1.19 at 2 in, 1 from 3.46 in on. */
static void creep_coefficient_of_aashto_grows_in_thin_members(void **state)
{
    (void)state;
    const kl_material mix = time_case_mix(5 * KSI);
    time_concrete c = time_case_concrete(&mix);
    const double thick = creep_coefficient(TIME_LAW_AASHTO_2020, &c, 1e4 * DAY, 14 * DAY);
    c.volume_to_surface = 2 * INCH;
    assert_close(creep_coefficient(TIME_LAW_AASHTO_2020, &c, 1e4 * DAY, 14 * DAY), 1.19 * thick,
                 1e-12, 0);
}

/* Massive members dry no slower than beta_H = 1500 (35 / f_cm)^0.5 days, here 1500 x 0.9022 = 1353.3; 1500 for mc1990. */
static void mc1999_drying_time_is_capped(void **state)
{
    (void)state;
    const kl_material mix = time_case_mix(35 * MPA);
    time_concrete c = time_case_concrete(&mix);
    c.volume_to_surface = 1.0;
    assert_close(mc1999_creep_factors(&c, 14, true).drying_time, 1353.3, 1e-4, 0);
    const double half = pow(0.5, 0.3); /* of the end, beta_H days after loading */
    const double end = creep_coefficient(TIME_LAW_MC1990, &c, 1e12 * DAY, 14 * DAY);
    assert_close(creep_coefficient(TIME_LAW_MC1990, &c, 1514 * DAY, 14 * DAY), half * end, 1e-6, 0);
}

/* 0.30 + 0.014 F up to F = 50 %, 0.90 + 0.002 F above: 1.00 and 1.02 at 60 %. */
static void aci209_1992_fines_above_half_take_the_flat_line(void **state)
{
    (void)state;
    const kl_material mix = time_case_mix(35 * MPA);
    time_mix parts = {NAN, 0.60, NAN, NAN};
    const time_concrete c = {&mix, 0.70, 100 * MM, &parts};
    assert_close(aci209_1992_shrinkage_factors(&c).fines, 1.02, 1e-12, 0);
    parts.fines = 0.50;
    assert_close(aci209_1992_shrinkage_factors(&c).fines, 1.00, 1e-12, 0);
}

int main(void)
{
    const struct CMUnitTest tests[] = {
        cmocka_unit_test(creep_reference_modulus_of_a_law_is_its_own),
        cmocka_unit_test(creep_reference_modulus_takes_a_tangent_modulus_as_it_is),
        cmocka_unit_test(creep_coefficient_counts_from_loading),
        cmocka_unit_test(creep_coefficient_of_aashto_without_transfer_strength_takes_four_fifths),
        cmocka_unit_test(mc2010_creep_splits_into_basic_and_drying),
        cmocka_unit_test(creep_coefficient_of_slow_cement_is_that_of_an_earlier_age),
        cmocka_unit_test(creep_coefficient_is_nothing_at_loading_and_finite_from_age_0),
        cmocka_unit_test(creep_coefficient_of_aashto_stays_finite_far_out_of_scope),
        cmocka_unit_test(creep_linear_stress_is_a_share_of_the_strength_at_loading),
        cmocka_unit_test(creep_outside_names_what_is_outside),
        cmocka_unit_test(time_law_of_the_language_finds_its_law_and_source),
        cmocka_unit_test(creep_coefficient_of_aashto_grows_in_thin_members),
        cmocka_unit_test(mc1999_drying_time_is_capped),
        cmocka_unit_test(aci209_1992_fines_above_half_take_the_flat_line),
    };
    return cmocka_run_group_tests(tests, NULL, NULL);
}
