/* test_time_curve.c - curves of the user's own: through their points, never falling, level at the end; the standard solid of a
 * final value, whose relaxation and redistribution have closed forms.
 * SPDX-License-Identifier: MIT */
#include "assert_close.h"

#include "kelvin.h"
#include "time_case.h"
#include "time_curve.h"
#include "time_steps.h"

static const kl_time_point measured[] = {
    {.time = 1 * DAY, .value = 0.25},   {.time = 7 * DAY, .value = 0.55},
    {.time = 28 * DAY, .value = 0.90},  {.time = 90 * DAY, .value = 1.25},
    {.time = 365 * DAY, .value = 1.60}, {.time = 1000 * DAY, .value = 1.80}};
enum { MEASURED = sizeof measured / sizeof measured[0] };

static const kl_time_curve test_curve = {.points = measured, .count = MEASURED};

static kl_material mix_of(const kl_time_point *points, kl_index count)
{
    kl_material mix = time_case_mix(35 * MPA);
    mix.creep_curve = (kl_time_curve){.points = points, .count = count};
    return mix;
}

static void time_curve_at_passes_through_its_points(void **state)
{
    (void)state;
    for (int i = 0; i < MEASURED; i++) {
        assert_close(time_curve_at(&test_curve, measured[i].time), measured[i].value, 1e-14, 0);
        /* no jump there, and none in the slope */
        const double h = 1e-6 * measured[i].time;
        const double left = measured[i].value - time_curve_at(&test_curve, measured[i].time - h);
        const double right = time_curve_at(&test_curve, measured[i].time + h) - measured[i].value;
        assert_close(left, right, 0, 1e-4 * left + 1e-10);
    }
}

static void time_curve_at_begins_with_the_root_and_ends_level(void **state)
{
    (void)state;
    assert_close(time_curve_at(&test_curve, -1), 0, 0, 0);
    assert_close(time_curve_at(&test_curve, 0), 0, 0, 0);
    assert_close(time_curve_at(&test_curve, 0.25 * DAY), 0.5 * 0.25, 1e-14, 0);
    assert_close(time_curve_at(&test_curve, 1e5 * DAY), 1.80, 1e-14, 0);
    const kl_time_curve none = {.count = 0};
    assert_close(time_curve_at(&none, 100 * DAY), 0, 0, 0);
}

/* Also over points as badly placed as they come: level stretches, a leap. */
static void time_curve_at_never_falls(void **state)
{
    (void)state;
    const kl_time_point leap[] = {{.time = 7 * DAY, .value = 0},
                                  {.time = 30 * DAY, .value = 0.2},
                                  {.time = 31 * DAY, .value = 1.9},
                                  {.time = 500 * DAY, .value = 1.9},
                                  {.time = 9000 * DAY, .value = 2.0}};
    const kl_time_curve curves[] = {test_curve, {.points = leap, .count = 5}};
    for (int c = 0; c < 2; c++) {
        double before = 0;
        for (double days = 0.001; days < 2e4; days *= 1.01) {
            const double now = time_curve_at(&curves[c], days * DAY);
            assert_true(now >= before - 1e-15);
            before = now;
        }
        assert_true(before <= curves[c].points[curves[c].count - 1].value + 1e-15);
    }
}

static void time_curve_at_of_a_final_value_is_the_standard_solid(void **state)
{
    (void)state;
    const kl_time_curve curve = {.points = &time_case_phi, .count = 1};
    assert_close(time_curve_at(&curve, 100 * DAY), 2 * (1 - exp(-1.0)), 1e-14, 0);
    assert_close(time_curve_at(&curve, 1000 * DAY), 2, 5e-5, 0);
}

/* phi is of the strain at loading, whatever the age: J E(t0) = 1 + phi. */
static void creep_of_the_user_is_of_the_strain_at_loading(void **state)
{
    (void)state;
    kl_material mix = mix_of(measured, MEASURED);
    mix.modulus_law = KL_LAW_EN1992_2004;
    const time_concrete c = time_case_concrete(&mix);
    for (double loading = 1; loading < 4000; loading *= 7) {
        const double at_loading = creep_compliance(TIME_LAW_USER, &c, loading * DAY, loading * DAY);
        const double later =
            creep_compliance(TIME_LAW_USER, &c, (loading + 90) * DAY, loading * DAY);
        assert_close(later / at_loading, 1 + 1.25, 1e-12, 0);
    }
}

/* ---- through the chain ---------------------------------------------------------------------------------- */

/* Stress of a fibre held at the strain of a unit stress at 28 days, so long after: R(t) / E. */
static double relaxed(const kl_material *mix, double days)
{
    static kelvin_basis basis;
    const creep_subject subject = {TIME_LAW_USER, time_case_concrete(mix)};
    const creep_function law = creep_function_of(&subject);
    kelvin_basis_fill(&basis);
    kelvin_chain chain;
    kelvin_chain_set(&chain, &basis, &law);
    const double loading = 28 * DAY;
    double remaining[KELVIN_UNITS] = {0}, weights[KELVIN_UNITS], stress = 1.0, from = 0;
    kelvin_weights(&chain, loading, weights);
    kelvin_load(weights, 1, &stress, remaining);
    const int count = time_steps_count(days * DAY, TIME_STEPS_PER_DECADE);
    for (int i = 0; i < count; i++) {
        const double to = time_steps_end(days * DAY, count, i);
        kelvin_step step;
        double creep = 0;
        kelvin_step_set(&chain, loading + from, loading + to, NULL, &step);
        kelvin_step_creep(&step, 1, remaining, &creep);
        const double change = -creep / step.compliance;
        kelvin_step_advance(&step, 1, &change, remaining);
        stress += change;
        from = to;
    }
    return stress;
}

/* The standard solid held at length: R / E = (1 + phi exp(-(1 + phi) t / 100 days)) / (1 + phi). In the end the share
 * phi / (1 + phi) is gone, with which moments of a system changed after loading go over: chi = 1 for a solid that does not
 * age, exactly. */
static void creep_of_a_final_value_relaxes_by_the_closed_form(void **state)
{
    (void)state;
    const kl_material mix = mix_of(&time_case_phi, 1);
    const double phi = 2;
    for (double days = 10; days < 20000; days *= 3) {
        assert_close(relaxed(&mix, days), (1 + phi * exp(-(1 + phi) * days / 100)) / (1 + phi), 0,
                     2e-4);
    }
    assert_close(1 - relaxed(&mix, 20000), phi / (1 + phi), 1e-4, 0);
}

/* However the points run: what does not age has R / E = 1 / (1 + phi) once creep is over. */
static void creep_by_points_relaxes_in_the_end_to_the_closed_form(void **state)
{
    (void)state;
    const kl_material mix = mix_of(measured, MEASURED);
    assert_close(relaxed(&mix, 1e6), 1 / 2.8, 2e-3, 0);
}

static double fit_error(const kl_time_point *points, kl_index count)
{
    static kelvin_basis basis;
    const kl_material mix = mix_of(points, count);
    const creep_subject subject = {TIME_LAW_USER, time_case_concrete(&mix)};
    const creep_function law = creep_function_of(&subject);
    kelvin_basis_fill(&basis);
    kelvin_chain chain;
    kelvin_chain_set(&chain, &basis, &law);
    return kelvin_fit_error(&chain, 28 * DAY);
}

static void kelvin_fit_of_sensible_curves_is_good(void **state)
{
    (void)state;
    const kl_time_point two[] = {{.time = 7 * DAY, .value = 0.6},
                                 {.time = 1000 * DAY, .value = 1.8}};
    const kl_time_point leap[] = {{.time = 30 * DAY, .value = 0.2},
                                  {.time = 40 * DAY, .value = 1.8}};
    assert_true(fit_error(&time_case_phi, 1) < 1e-10);
    assert_true(fit_error(measured, MEASURED) < 0.01); /* where it ends all at once */
    assert_true(fit_error(two, 2) < 3e-3);
    assert_true(fit_error(leap, 2) > 0.05); /* which is told: creep-curve-rough */
}

int main(void)
{
    const struct CMUnitTest tests[] = {
        cmocka_unit_test(time_curve_at_passes_through_its_points),
        cmocka_unit_test(time_curve_at_begins_with_the_root_and_ends_level),
        cmocka_unit_test(time_curve_at_never_falls),
        cmocka_unit_test(time_curve_at_of_a_final_value_is_the_standard_solid),
        cmocka_unit_test(creep_of_the_user_is_of_the_strain_at_loading),
        cmocka_unit_test(creep_of_a_final_value_relaxes_by_the_closed_form),
        cmocka_unit_test(creep_by_points_relaxes_in_the_end_to_the_closed_form),
        cmocka_unit_test(kelvin_fit_of_sensible_curves_is_good),
    };
    return cmocka_run_group_tests(tests, NULL, NULL);
}
