/* test_shrinkage.c - where drying begins, how size and humidity act, which models have an autogenous part.
 * SPDX-License-Identifier: MIT */
#include "assert_close.h"

#include <string.h>

#include "shrinkage.h"
#include "time_case.h"

static const time_law laws[] = {TIME_LAW_AASHTO_2020, TIME_LAW_ACI209_1992, TIME_LAW_MC1990,
                                TIME_LAW_MC1999,      TIME_LAW_EN1992_2004, TIME_LAW_MC2010};

static void shrinkage_drying_begins_when_curing_ends(void **state)
{
    (void)state;
    const kl_material mix = time_case_mix(35 * MPA);
    const time_concrete c = time_case_concrete(&mix);
    for (int i = 0; i < 6; i++) {
        assert_close(shrinkage_drying(laws[i], &c, 3 * DAY), 0, 0, 0);
        assert_close(shrinkage_drying(laws[i], &c, 7 * DAY), 0, 0, 0);
        double before = 0.0;
        for (double age = 8; age < 1e5; age *= 1.5) {
            const double now = shrinkage_drying(laws[i], &c, age * DAY);
            assert_true(now < before);
            before = now;
        }
    }
}

/* Half of the drying of aashto, aci209 and en1992 has come after the constant of its course: 12 (100 - 4 f) / (f + 20)
 * = 42 days at f = 4 ksi; 35 days; 0.04 sqrt(500^3) = 447.2 days. A quarter of its square course for mc1990 (half of the
 * strain) after d / (350 x 25 + d) = 1/4: 2916.7 days. */
static void shrinkage_drying_counts_from_the_end_of_curing(void **state)
{
    (void)state;
    kl_material mix = time_case_mix(35 * MPA);
    mix.transfer_strength = 4 * KSI;
    const time_concrete c = time_case_concrete(&mix);
    const struct {
        time_law law;
        double days;
    } rows[] = {{TIME_LAW_AASHTO_2020, 42},
                {TIME_LAW_ACI209_1992, 35},
                {TIME_LAW_EN1992_2004, 0.04 * pow(500, 1.5)},
                {TIME_LAW_MC1990, 350 * 25 / 3.0},
                {TIME_LAW_MC2010, 350 * 25 / 3.0}};
    for (int i = 0; i < 5; i++) {
        const double all = shrinkage_drying(rows[i].law, &c, 1e12 * DAY);
        assert_close(shrinkage_drying(rows[i].law, &c, (7 + rows[i].days) * DAY), all / 2, 1e-6, 0);
    }
}

/* Drying before five days of curing: AASHTO adds 20 %. */
static void shrinkage_of_aashto_dried_early_is_a_fifth_larger(void **state)
{
    (void)state;
    kl_material mix = time_case_mix(35 * MPA);
    const time_concrete c = time_case_concrete(&mix);
    mix.cured = 5 * DAY;
    const double cured = shrinkage_strain(TIME_LAW_AASHTO_2020, &c, 105 * DAY);
    mix.cured = 4 * DAY;
    assert_close(shrinkage_strain(TIME_LAW_AASHTO_2020, &c, 104 * DAY), 1.2 * cured, 1e-12, 0);
}

/* aci209's two lines of humidity meet near 0.80: 1.40 - 0.816 = 0.584 and 3.00 - 2.40 = 0.60; at 1 there is none. */
static void shrinkage_of_aci209_ends_in_water(void **state)
{
    (void)state;
    const kl_material mix = time_case_mix(35 * MPA);
    time_concrete c = time_case_concrete(&mix);
    c.humidity = 1.0;
    assert_close(shrinkage_strain(TIME_LAW_ACI209_1992, &c, 1e4 * DAY), 0, 0, 1e-18);
    c.humidity = 0.80;
    const double below = shrinkage_strain(TIME_LAW_ACI209_1992, &c, 1e4 * DAY);
    c.humidity = 0.80 + 1e-9;
    assert_close(shrinkage_strain(TIME_LAW_ACI209_1992, &c, 1e4 * DAY), below * 0.600 / 0.584, 1e-6,
                 0);
}

/* The model codes let concrete swell in water, en1992 stops at 0. */
static void shrinkage_drying_in_water_turns_to_swelling_in_the_model_codes(void **state)
{
    (void)state;
    const kl_material mix = time_case_mix(35 * MPA);
    time_concrete c = time_case_concrete(&mix);
    c.humidity = 1.0;
    assert_true(shrinkage_drying(TIME_LAW_MC1990, &c, 1e4 * DAY) > 0);
    assert_true(shrinkage_drying(TIME_LAW_MC2010, &c, 1e4 * DAY) > 0);
    assert_close(shrinkage_drying(TIME_LAW_EN1992_2004, &c, 1e4 * DAY), 0, 0, 1e-18);
}

/* EN 1992-1-1 table 3.3: k_h = 1.0, 0.85, 0.75, 0.70 at h0 = 100, 200, 300, 500 mm; 0.80 half-way between 200 and 300. */
static void shrinkage_of_en1992_takes_size_from_table_3_3(void **state)
{
    (void)state;
    const kl_material mix = time_case_mix(35 * MPA);
    time_concrete c = time_case_concrete(&mix);
    const double sizes[] = {50, 100, 200, 250, 300, 500, 900};
    const double factors[] = {1.0, 1.0, 0.85, 0.80, 0.75, 0.70, 0.70};
    c.volume_to_surface = 50 * MM;
    const double whole = shrinkage_drying(TIME_LAW_EN1992_2004, &c, 1e12 * DAY);
    for (int i = 0; i < 7; i++) {
        c.volume_to_surface = sizes[i] / 2 * MM;
        assert_close(shrinkage_drying(TIME_LAW_EN1992_2004, &c, 1e12 * DAY), whole * factors[i],
                     1e-6, 0);
    }
}

/* 2.5 (35 - 10) = 62.5e-6 for en1992; 700 (4.3 / 10.3)^2.5 = 78.83e-6 for mc2010; both go by 1 - exp(-0.2 sqrt(t)) of
 * the AGE: after 25 days 1 - 1/e. */
static void shrinkage_autogenous_counts_from_casting(void **state)
{
    (void)state;
    const kl_material mix = time_case_mix(35 * MPA);
    const time_concrete c = time_case_concrete(&mix);
    const double gone = 1 - exp(-1.0);
    assert_close(shrinkage_autogenous(TIME_LAW_EN1992_2004, &c, 25 * DAY), -62.5e-6 * gone, 1e-12,
                 0);
    assert_close(shrinkage_autogenous(TIME_LAW_MC2010, &c, 25 * DAY), -78.83e-6 * gone, 2e-4, 0);
    for (int i = 0; i < 6; i++) {
        const double part = shrinkage_autogenous(laws[i], &c, 1000 * DAY);
        assert_true(shrinkage_has_autogenous(laws[i]) ? part < 0 : fabs(part) <= 0);
        assert_close(shrinkage_strain(laws[i], &c, 1000 * DAY),
                     part + shrinkage_drying(laws[i], &c, 1000 * DAY), 1e-14, 0);
    }
}

static void shrinkage_outside_names_curing(void **state)
{
    (void)state;
    kl_material mix = time_case_mix(35 * MPA);
    const time_concrete c = {&mix, 0.70, 5 * INCH, NULL};
    for (int i = 0; i < 6; i++) {
        assert_int_equal(shrinkage_outside(laws[i], &c).count, 0);
    }
    mix.cured = 20 * DAY;
    assert_string_equal(shrinkage_outside(TIME_LAW_MC1990, &c).outside[0],
                        "curing of more than 14 days");
    mix.cured = 30 * DAY;
    assert_string_equal(shrinkage_outside(TIME_LAW_ACI209_1992, &c).outside[0],
                        "curing of more than 28 days");
}

/* ACI 209R-92 takes concrete that was moist for seven days as the standard case. */
static void shrinkage_without_curing_is_that_of_seven_days(void **state)
{
    (void)state;
    const kl_material given = time_case_mix(35 * MPA); /* 7 days */
    kl_material mix = given;
    mix.cured = NAN;
    const time_concrete a = time_case_concrete(&given), b = time_case_concrete(&mix);
    for (int i = 0; i < 6; i++) {
        assert_close(shrinkage_strain(laws[i], &b, 100 * DAY),
                     shrinkage_strain(laws[i], &a, 100 * DAY), 1e-15, 0);
    }
}

/* 300e-6 in the end, 1 - 1/e of it 100 days after a curing of 7, nothing before. */
static void shrinkage_of_the_user_begins_when_curing_ends(void **state)
{
    (void)state;
    const kl_material mix = time_case_mix(35 * MPA);
    const time_concrete c = time_case_concrete(&mix);
    assert_close(shrinkage_strain(TIME_LAW_USER, &c, 7 * DAY), 0, 0, 0);
    assert_close(shrinkage_strain(TIME_LAW_USER, &c, 107 * DAY), -300e-6 * (1 - exp(-1.0)), 1e-12,
                 0);
    assert_close(shrinkage_strain(TIME_LAW_USER, &c, 1e5 * DAY), -300e-6, 1e-12, 0);
    assert_false(shrinkage_has_autogenous(TIME_LAW_USER));
}

/* Strains of slow and rapid cement over those of normal, f_cm = 43 MPa, from the tables of the codes:
 * mc1990        160 + 10 b (9 - 4.3), b = 4, 5, 8
 * en1992        (220 + 110 a1) exp(-4.3 a2), a = 3 0.13, 4 0.12, 6 0.11
 * mc2010        the same with exp(-43 a2), a2 = 0.013, 0.012, 0.012; autogenous 800, 700, 600 */
static void shrinkage_of_other_cements_is_that_of_the_tables(void **state)
{
    (void)state;
    kl_material mix = time_case_mix(35 * MPA);
    const time_concrete c = time_case_concrete(&mix);
    const double age = 1000 * DAY;
    const struct {
        double (*strain)(time_law law, const time_concrete *c, double age);
        time_law law;
        double slow, rapid; /* over normal */
    } rows[] = {
        {shrinkage_drying, TIME_LAW_MC1990, 348 / 395.0, 536 / 395.0},
        {shrinkage_drying, TIME_LAW_EN1992_2004, 550 / 660.0 * exp(-0.043),
         880 / 660.0 * exp(0.043)},
        {shrinkage_drying, TIME_LAW_MC2010, 550 / 660.0 * exp(-0.043), 880 / 660.0},
        {shrinkage_autogenous, TIME_LAW_MC2010, 8 / 7.0, 6 / 7.0},
    };
    for (int i = 0; i < 4; i++) {
        mix.cement = KL_CEMENT_NORMAL;
        const double normal = rows[i].strain(rows[i].law, &c, age);
        mix.cement = KL_CEMENT_SLOW;
        assert_close(rows[i].strain(rows[i].law, &c, age), rows[i].slow * normal, 1e-12, 0);
        mix.cement = KL_CEMENT_RAPID;
        assert_close(rows[i].strain(rows[i].law, &c, age), rows[i].rapid * normal, 1e-12, 0);
    }
}

int main(void)
{
    const struct CMUnitTest tests[] = {
        cmocka_unit_test(shrinkage_drying_begins_when_curing_ends),
        cmocka_unit_test(shrinkage_drying_counts_from_the_end_of_curing),
        cmocka_unit_test(shrinkage_of_aashto_dried_early_is_a_fifth_larger),
        cmocka_unit_test(shrinkage_of_aci209_ends_in_water),
        cmocka_unit_test(shrinkage_drying_in_water_turns_to_swelling_in_the_model_codes),
        cmocka_unit_test(shrinkage_of_en1992_takes_size_from_table_3_3),
        cmocka_unit_test(shrinkage_autogenous_counts_from_casting),
        cmocka_unit_test(shrinkage_outside_names_curing),
        cmocka_unit_test(shrinkage_without_curing_is_that_of_seven_days),
        cmocka_unit_test(shrinkage_of_the_user_begins_when_curing_ends),
        cmocka_unit_test(shrinkage_of_other_cements_is_that_of_the_tables),
    };
    return cmocka_run_group_tests(tests, NULL, NULL);
}
