/* test_time_published.c - creep, shrinkage and relaxation against printed examples and tables of the models, and against
 * hand calculation where none could be had.
 * SPDX-License-Identifier: MIT */
#include "assert_close.h"

#include "aci209_1992.h"
#include "en1992_2004.h"
#include "loss_estimate.h"
#include "mc1990.h"
#include "mc1999.h"
#include "relaxation.h"
#include "shrinkage.h"
#include "time_case.h"

#define PER_MILLE 1e-3
#define MICRO     1e-6
#define HOUR      3600.0

/* ---- ACI 209.2R-08, appendix C.1: ACI 209R-92 -------------------------------------------------------- */

/* Humidity 0.70, V/S 100 mm, loaded at 14 days, cured 7; slump 75 mm, fines 40 %, cement 409 kg/m^3, air within 6 %
 * (the mix follows from the printed factors). */
static const time_mix printed_mix = {.slump = 75 * MM, .fines = 0.40, .cement = 409, .air = 0.06};

static void aci209_1992_shrinkage_factors_of_the_printed_example_hold(void **state)
{
    (void)state;
    const kl_material mix = time_case_mix(25 * MPA);
    const time_concrete c = {&mix, 0.70, 100 * MM, &printed_mix};
    const aci209_1992_factors f = aci209_1992_shrinkage_factors(&c);
    assert_close(f.humidity, 0.686, 0, 0.0005);
    assert_close(f.size, 0.749, 0, 0.0006);
    assert_close(f.slump, 1.011, 0, 0.0005);
    assert_close(f.fines, 0.860, 0, 0.0005);
    assert_close(f.cement, 0.999, 0, 0.0006);
    assert_close(f.air, 1.0, 0, 1e-12);
    const double product = f.humidity * f.size * f.slump * f.fines * f.cement * f.air;
    assert_close(product * f.age, 0.448, 0, 0.0005); /* printed with f.age, 1.0045 */
    /* Ultimate strain 350e-6, of which 358 / (35 + 358) has come a year and a day after casting. */
    assert_close(shrinkage_strain(TIME_LAW_ACI209_1992, &c, 365 * DAY),
                 -350 * MICRO * 358 / (35 + 358.0), 0.002, 0);
}

static void aci209_1992_creep_of_the_printed_example_holds(void **state)
{
    (void)state;
    const kl_material mix = time_case_mix(25 * MPA);
    const time_concrete c = {&mix, 0.70, 100 * MM, &printed_mix};
    const aci209_1992_factors f = aci209_1992_creep_factors(&c, 14);
    assert_close(f.age, 0.916, 0, 0.0006);
    assert_close(f.humidity, 0.801, 0, 0.0005);
    assert_close(f.size, 0.756, 0, 0.0005);
    assert_close(f.slump, 1.018, 0, 0.0005);
    assert_close(f.fines, 0.976, 0, 0.0005);
    assert_close(f.air, 1.0, 0, 1e-12);
    const double product = f.age * f.humidity * f.size * f.slump * f.fines * f.air;
    assert_close(product, 0.551, 0, 0.0005);
    assert_close(creep_coefficient(TIME_LAW_ACI209_1992, &c, 1e13 * DAY, 14 * DAY), 1.29, 0, 0.006);
    /* Printed with the ultimate 1.295 rounded to 1.29: 0.4 % low. */
    const double days[] = {28, 60, 90, 180, 365}, phi[] = {0.423, 0.643, 0.740, 0.880, 0.995};
    for (int i = 0; i < 5; i++) {
        assert_close(creep_coefficient(TIME_LAW_ACI209_1992, &c, days[i] * DAY, 14 * DAY), phi[i],
                     0.004, 0.0005);
    }
}

/* ---- ACI 209.2R-08, appendix C.3: MC 1990 and its update of 1999 ------------------------------------- */

/* f_cm 33 MPa, humidity 0.70, V/S 100 mm, drying from 7 days, loaded at 14 days, normal cement. */
static void mc1990_shrinkage_of_the_printed_example_holds(void **state)
{
    (void)state;
    const kl_material mix = time_case_mix(25 * MPA);
    const time_concrete c = {&mix, 0.70, 100 * MM, NULL};
    const double days[] = {14, 28, 60, 90, 180, 365}, strain[] = {32, 55, 87, 107, 150, 205};
    for (int i = 0; i < 6; i++) {
        assert_close(shrinkage_strain(TIME_LAW_MC1990, &c, days[i] * DAY), -strain[i] * MICRO, 0,
                     1 * MICRO);
        assert_close(shrinkage_drying(TIME_LAW_MC1999, &c, days[i] * DAY), -strain[i] * MICRO, 0,
                     1 * MICRO);
    }
    /* Notional: 445e-6 x -1.018 = -453e-6, and -1.018 x 444e-6 by the update. The course: beta_s. */
    const double end = 1e12 * DAY, course[] = {0.071, 0.122, 0.191, 0.237, 0.332, 0.451};
    const double all = shrinkage_drying(TIME_LAW_MC1990, &c, end);
    assert_close(all, -453 * MICRO, 0, 0.5 * MICRO);
    assert_close(all / -1.018, 445 * MICRO, 0, 0.5 * MICRO);
    assert_close(shrinkage_drying(TIME_LAW_MC1999, &c, end), -1.018 * 444 * MICRO, 0, 0.6 * MICRO);
    for (int i = 0; i < 6; i++) {
        assert_close(shrinkage_drying(TIME_LAW_MC1990, &c, days[i] * DAY) / all, course[i], 0,
                     0.0006);
    }
    /* Autogenous by hand: 700 (3.3 / 9.3)^2.5 = 52.5e-6. */
    assert_close(shrinkage_autogenous(TIME_LAW_MC1999, &c, end), -52.5 * MICRO, 0, 0.05 * MICRO);
}

static void mc1999_creep_of_the_printed_example_holds(void **state)
{
    (void)state;
    const kl_material mix = time_case_mix(25 * MPA);
    const time_concrete c = {&mix, 0.70, 100 * MM, NULL};
    const mc1999_factors f = mc1999_creep_factors(&c, 14, false);
    assert_close(f.humidity, 1.553, 0, 0.0005);
    assert_close(f.drying_time, 570.16, 0.001, 0);
    assert_close(creep_coefficient(TIME_LAW_MC1999, &c, 1e12 * DAY, 14 * DAY), 2.524, 0, 0.0006);
    const double days[] = {28, 60, 90, 180, 365}, phi[] = {0.824, 1.159, 1.328, 1.614, 1.890};
    for (int i = 0; i < 5; i++) {
        assert_close(creep_coefficient(TIME_LAW_MC1999, &c, days[i] * DAY, 14 * DAY), phi[i], 0,
                     0.001);
    }
}

/* EN 1992-1-1 B.1 holds the factors of strength at 1 up to f_cm = 35 MPa: (1 + 0.30 / (0.1 x 200^(1/3))) = 1.513. */
static void en1992_creep_factor_is_capped_where_the_update_of_1999_is_not(void **state)
{
    (void)state;
    const kl_material mix = time_case_mix(25 * MPA);
    const time_concrete c = {&mix, 0.70, 100 * MM, NULL};
    assert_close(mc1999_creep_factors(&c, 14, true).humidity, 1.513, 0, 0.0005);
    const double end = 1e9 * DAY;
    assert_close(creep_coefficient(TIME_LAW_EN1992_2004, &c, end, 14 * DAY),
                 1.513 * 16.8 / sqrt(33.0) / (0.1 + pow(14.0, 0.2)), 0.0005, 0);
}

/* ---- tables ------------------------------------------------------------------------------------------ */

/* EN 1992-1-1:2004 table 3.2 (from memory): nominal drying shrinkage, per mille, class N. */
static void en1992_nominal_drying_matches_table_3_2(void **state)
{
    (void)state;
    const double grades[] = {20, 40, 60, 80, 90}, humidity[] = {0.2, 0.4, 0.6, 0.8, 0.9};
    const double table[5][5] = {{.62, .58, .49, .30, .17},
                                {.48, .46, .38, .24, .13},
                                {.38, .36, .30, .19, .10},
                                {.30, .28, .24, .15, .08},
                                {.27, .25, .21, .13, .07}};
    for (int i = 0; i < 5; i++) {
        for (int j = 0; j < 5; j++) {
            const kl_material mix = time_case_mix(grades[i] * MPA);
            const time_concrete c = {&mix, humidity[j], 250 * MM, NULL};
            assert_close(en1992_2004_nominal_drying(&c), table[i][j] * PER_MILLE, 0,
                         0.0075 * PER_MILLE);
        }
    }
}

/* CEB-FIP MC 1990 table 2.1.10 (from memory): creep after 70 years, to 0.1; f_cm = 38 MPa. */
static void mc1990_creep_matches_table_2_1_10(void **state)
{
    (void)state;
    const double loading[] = {1, 7, 28, 90, 365}, size[] = {50, 150, 600};
    const double table[5][6] = {{5.8, 4.8, 3.9, 3.8, 3.4, 3.0},
                                {4.1, 3.3, 2.7, 2.7, 2.4, 2.1},
                                {3.1, 2.6, 2.1, 2.0, 1.8, 1.6},
                                {2.5, 2.1, 1.7, 1.6, 1.4, 1.3},
                                {1.9, 1.6, 1.3, 1.2, 1.1, 1.0}};
    const kl_material mix = time_case_mix(30 * MPA);
    for (int i = 0; i < 5; i++) {
        for (int j = 0; j < 6; j++) {
            const time_concrete c = {&mix, j < 3 ? 0.50 : 0.80, size[j % 3] / 2 * MM, NULL};
            assert_close(creep_coefficient(TIME_LAW_MC1990, &c, 70 * 365 * DAY, loading[i] * DAY),
                         table[i][j], 0, 0.06);
        }
    }
}

/* ---- relaxation -------------------------------------------------------------------------------------- */

/* Worked by hand from EN 1992-1-1 (3.29) and (3.30): class 2, 2.5 % at 1000 hours, and class 3, 4 %. */
static void relaxation_intrinsic_of_en1992_gives_the_worked_values(void **state)
{
    (void)state;
    const double f = 1860 * MPA;
    const relaxation_steel strand = {RELAXATION_EN1992_CLASS_2, f, 1670 * MPA, NAN};
    const relaxation_steel bar = {RELAXATION_EN1992_CLASS_3, f, 1670 * MPA, 0.04};
    const double rows[][3] = {
        {0.70, 1e3, 0.96}, {0.70, 5e5, 3.90}, {0.75, 1e3, 1.52}, {0.75, 5e5, 4.87}};
    for (int i = 0; i < 4; i++) {
        const double initial = rows[i][0] * f;
        assert_close(100 * relaxation_intrinsic(&strand, initial, rows[i][1] * HOUR) / initial,
                     rows[i][2], 0, 0.005);
    }
    assert_close(100 * relaxation_intrinsic(&bar, 0.7 * f, 5e5 * HOUR) / (0.7 * f), 8.67, 0, 0.005);
}

/* 189 ksi of 270, yield 243: 189 (log10(500,000) / 45) (0.7778 - 0.55) = 5.45 ksi. */
static void relaxation_intrinsic_of_the_log_law_gives_the_worked_value(void **state)
{
    (void)state;
    const relaxation_steel strand = {RELAXATION_LOG_LOW, 270 * KSI, 243 * KSI, NAN};
    assert_close(relaxation_intrinsic(&strand, 189 * KSI, 5e5 * HOUR) / KSI, 5.45, 0, 0.005);
    const relaxation_steel old = {RELAXATION_LOG_NORMAL, 270 * KSI, 243 * KSI, NAN};
    assert_close(relaxation_intrinsic(&old, 189 * KSI, 5e5 * HOUR) / KSI, 5.4517 * 4.5, 0.001, 0);
}

/* ---- AASHTO 5.9.3.4 for a monolithic cast-in-place section ------------------------------------------- */

/* Concrete at the steel shortens by `free` and comes back by `give` for each Pa that the steel loses; the steel follows it, and
 * loses `relaxed` besides. */
static double loss_by_compatibility(double free, double give, double modulus, double relaxed)
{
    double loss = 0.0;
    for (int i = 0; i < 200; i++) {
        loss = modulus * (free - loss * give) + relaxed;
    }
    return loss;
}

/* Worked by hand: H 70 %, V/S 6 in, f'ci 4 ksi, loaded at 14 days, seen at 27,000. A 9000 in^2, I 9.0e6 in^4, e 20 in,
 * 26.04 in^2 at 180 ksi, self-weight 9000 kip-ft. E_ci = 33,000 x 0.150^1.5 sqrt(4) = 3834 ksi, E_p 28,500 ksi.
 * Loss from shrinkage 13.15, from creep 4.77 and from relaxation 1.14 ksi, 19.06 in all, with K = 0.944. */
static void creep_and_shrinkage_of_aashto_give_the_worked_losses(void **state)
{
    (void)state;
    kl_material mix = time_case_mix(5 * KSI);
    mix.transfer_strength = 4 * KSI;
    mix.modulus = 33000 * pow(0.150, 1.5) * sqrt(4.0) * KSI;
    const time_concrete c = {&mix, 0.70, 6 * INCH, NULL};
    const double end = 27000 * DAY, loading = 14 * DAY;
    const double psi = creep_coefficient(TIME_LAW_AASHTO_2020, &c, end, loading);
    const double strain = -shrinkage_strain(TIME_LAW_AASHTO_2020, &c, end);
    assert_close(psi, 1.389, 0, 0.0005);
    assert_close(strain, 489 * MICRO, 0, 0.5 * MICRO);

    const double area = 9000, inertia = 9.0e6, e = 20, steel = 26.04, force = steel * 180;
    const double at_steel = 1 / area + e * e / inertia;
    const double stress = force * at_steel - 9000 * 12 * e / inertia; /* ksi */
    const double ratio = 28500 * KSI / creep_reference_modulus(TIME_LAW_AASHTO_2020, &c, loading);
    const double k = 1 / (1 + ratio * steel * at_steel * (1 + 0.7 * psi));
    assert_close(stress, 0.489, 0, 0.0005);
    assert_close(k, 0.944, 0, 0.0005);
    const loss_place place = {
        .area = area * INCH * INCH,
        .inertia = inertia * pow(INCH, 4),
        .steel_area = steel * INCH * INCH,
        .eccentricity = e * INCH,
        .concrete_stress = stress * KSI,
        .concrete_modulus = creep_reference_modulus(TIME_LAW_AASHTO_2020, &c, loading),
        .steel_modulus = 28500 * KSI,
        .creep = psi,
        .shrinkage = strain,
    };
    const loss_parts loss = loss_estimate_aashto_2020(&place, 180 * KSI, 243 * KSI, true);
    assert_close(loss.shrinkage / KSI, 13.15, 0.001, 0);
    assert_close(loss.creep / KSI, 4.77, 0.001, 0);
    assert_close(loss.relaxation / KSI, 1.14, 0, 0.005);
    assert_close((loss.shrinkage + loss.creep + loss.relaxation) / KSI, 19.06, 0.001, 0);

    /* The same loss from compatibility, with the law's own J: E_ci (J - 1 / E_ci) is psi. */
    const double elastic = 1 / mix.modulus;
    const double j = creep_compliance(TIME_LAW_AASHTO_2020, &c, end, loading);
    const double free = strain + stress * KSI * (j - elastic);
    const double adjusted = elastic + 0.7 * (j - elastic);
    assert_close(loss_by_compatibility(free, steel * at_steel * adjusted, 28500 * KSI, 0.0),
                 loss.shrinkage + loss.creep, 1e-10, 0);
}

/* EN 1992-1-1:2004 (5.46) is that compatibility too, with 0.8 phi for the ageing and 0.8 of the intrinsic relaxation; its
 * terms, from memory, are held against the steel following the concrete step by step. Round numbers of our own. */
static void one_line_loss_of_en1992_is_compatibility_with_aged_creep(void **state)
{
    (void)state;
    const loss_place place = {.area = 1.2,
                              .inertia = 0.25,
                              .steel_area = 0.006,
                              .eccentricity = 0.4,
                              .concrete_stress = 5 * MPA,
                              .concrete_modulus = 34 * GPA,
                              .steel_modulus = 195 * GPA,
                              .creep = 1.8,
                              .shrinkage = 300 * MICRO};
    const double relaxation = 55 * MPA;
    const loss_parts loss = loss_estimate_en1992_2004(&place, relaxation);
    const double elastic = 1 / place.concrete_modulus;
    const double at_steel = 1 / place.area + 0.4 * 0.4 / place.inertia;
    const double give = 0.006 * at_steel * elastic * (1 + 0.8 * 1.8);
    const double free = 300 * MICRO + 5 * MPA * elastic * 1.8;
    assert_close(loss.shrinkage + loss.creep + loss.relaxation,
                 loss_by_compatibility(free, give, 195 * GPA, 0.8 * relaxation), 1e-10, 0);
    assert_close(loss.creep / loss.shrinkage, 5 * MPA * elastic * 1.8 / (300 * MICRO), 1e-12, 0);
}

/* ---- one case through five models --------------------------------------------------------------------- */

/* f_ck 35 (f_cm 43) MPa, 70 %, h0 500 mm, loaded at 14 days, drying from 7, seen at 20,000 days, normal cement: worked
 * apart from the program. aci209 with the factors of the mix and of 7 days' curing at 1 (1.0045 here). */
static void five_models_of_one_concrete_give_the_worked_values(void **state)
{
    (void)state;
    const kl_material mix = time_case_mix(35 * MPA);
    const time_concrete c = time_case_concrete(&mix);
    const struct {
        time_law law;
        double phi, strain;
    } rows[] = {{TIME_LAW_EN1992_2004, 1.791, 296},
                {TIME_LAW_MC1990, 1.937, 335},
                {TIME_LAW_MC2010, 1.924, 413},
                {TIME_LAW_ACI209_1992, 1.126, 197 * 1.0045},
                {TIME_LAW_AASHTO_2020, 1.372, 483}};
    for (int i = 0; i < 5; i++) {
        assert_close(creep_coefficient(rows[i].law, &c, 20000 * DAY, 14 * DAY), rows[i].phi, 0,
                     0.0006);
        assert_close(shrinkage_strain(rows[i].law, &c, 20000 * DAY), -rows[i].strain * MICRO, 0,
                     0.6 * MICRO);
    }
}

int main(void)
{
    const struct CMUnitTest tests[] = {
        cmocka_unit_test(aci209_1992_shrinkage_factors_of_the_printed_example_hold),
        cmocka_unit_test(aci209_1992_creep_of_the_printed_example_holds),
        cmocka_unit_test(mc1990_shrinkage_of_the_printed_example_holds),
        cmocka_unit_test(mc1999_creep_of_the_printed_example_holds),
        cmocka_unit_test(en1992_creep_factor_is_capped_where_the_update_of_1999_is_not),
        cmocka_unit_test(en1992_nominal_drying_matches_table_3_2),
        cmocka_unit_test(mc1990_creep_matches_table_2_1_10),
        cmocka_unit_test(relaxation_intrinsic_of_en1992_gives_the_worked_values),
        cmocka_unit_test(relaxation_intrinsic_of_the_log_law_gives_the_worked_value),
        cmocka_unit_test(creep_and_shrinkage_of_aashto_give_the_worked_losses),
        cmocka_unit_test(one_line_loss_of_en1992_is_compatibility_with_aged_creep),
        cmocka_unit_test(five_models_of_one_concrete_give_the_worked_values),
    };
    return cmocka_run_group_tests(tests, NULL, NULL);
}
