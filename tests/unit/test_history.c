/* test_history.c - superposition against closed forms and against the Volterra equation solved another way (volterra.h): the
 * force of one redundant that is held from a sudden settlement on.
 * SPDX-License-Identifier: MIT */
#include "assert_close.h"

#include "history.h"
#include "kelvin.h"
#include "time_case.h"
#include "time_steps.h"
#include "volterra.h"

/* ---- in steps ------------------------------------------------------------------------------------------ */

/* Each step of time_steps.h is cut in `parts` equal ones. */
typedef struct grid {
    int per_decade, parts;
} grid;

static const grid usual = {TIME_STEPS_PER_DECADE, 1}, halved = {TIME_STEPS_PER_DECADE, 2};

/* The same by plain superposition. */
static double stepped_relaxed(const creep_function *law, double t0, double span, grid cut)
{
    history past = {.n = 1};
    double force = 1 / law->elastic(law->context, t0);
    history_add(&past, t0, t0, &force);
    const int count = time_steps_count(span, cut.per_decade);
    double begun = 0;
    for (int i = 0; i < count; i++) {
        const double end = time_steps_end(span, count, i);
        for (int part = 0; part < cut.parts; part++) {
            const double from = t0 + begun + (end - begun) * part / cut.parts;
            const double to = t0 + begun + (end - begun) * (part + 1) / cut.parts;
            double strain = 0;
            history_strain(&past, law, to, &strain);
            const double mean = (creep_function_compliance(law, to, from) +
                                 creep_function_compliance(law, to, to)) /
                                2;
            const double change = (1 - strain) / mean;
            history_add(&past, from, to, &change);
            force += change;
        }
        begun = end;
    }
    history_free(&past);
    return force;
}

/* And through the Kelvin chain. */
static double
chain_relaxed(const creep_function *law, double t0, double span, grid cut, kelvin_rule rule)
{
    static kelvin_basis basis;
    kelvin_chain chain;
    kelvin_step step;
    kelvin_basis_fill(&basis);
    kelvin_chain_set(&chain, &basis, law);
    chain.rule = rule;
    double force = 1 / law->elastic(law->context, t0);
    double remaining[KELVIN_UNITS] = {0}, weights[KELVIN_UNITS];
    kelvin_weights(&chain, t0, weights);
    kelvin_load(weights, 1, &force, remaining);
    const int count = time_steps_count(span, cut.per_decade);
    double begun = 0;
    for (int i = 0; i < count; i++) {
        const double end = time_steps_end(span, count, i);
        for (int part = 0; part < cut.parts; part++) {
            const double from = t0 + begun + (end - begun) * part / cut.parts;
            const double to = t0 + begun + (end - begun) * (part + 1) / cut.parts;
            double creep = 0;
            kelvin_step_set(&chain, from, to, i + part == 0 ? NULL : &step, &step);
            kelvin_step_creep(&step, 1, remaining, &creep);
            const double change = -creep / step.compliance;
            kelvin_step_advance(&step, 1, &change, remaining);
            force += change;
        }
        begun = end;
    }
    return force;
}

/* ---- tests --------------------------------------------------------------------------------------------- */

/* One spring and one Kelvin unit of the same stiffness and time T: J = (2 - exp(-t / T)) / E, whose relaxation is
 * E (1 + exp(-2 t / T)) / 2. */
static double solid_elastic(const void *context, double loading)
{
    (void)context;
    (void)loading;
    return 1 / (30 * GPA);
}

static double solid_delayed(const void *context, double age, double loading)
{
    return -expm1(-(age - loading) / *(const double *)context) / (30 * GPA);
}

static void volterra_reference_of_the_standard_solid_is_its_closed_form(void **state)
{
    (void)state;
    const double time = 100 * DAY;
    const creep_function solid = {&time, solid_elastic, solid_delayed, true};
    for (double span = 10 * DAY; span < 400 * DAY; span *= 3) {
        const double want = 30 * GPA * (1 + exp(-2 * span / time)) / 2;
        assert_close(volterra_relaxed(&solid, 28 * DAY, span, 1), want, 1e-9, 0);
        assert_close(volterra_relaxed(&solid, 28 * DAY, span, 3), want, 1e-7, 0);
    }
}

static void history_relaxes_the_standard_solid_by_its_closed_form(void **state)
{
    (void)state;
    const double time = 100 * DAY, span = 150 * DAY;
    const creep_function solid = {&time, solid_elastic, solid_delayed, true};
    const double want = 30 * GPA * (1 + exp(-2 * span / time)) / 2;
    const double coarse = stepped_relaxed(&solid, 28 * DAY, span, (grid){8, 1}) - want;
    const double fine = stepped_relaxed(&solid, 28 * DAY, span, (grid){8, 2}) - want;
    assert_close(coarse, 0, 0, 0.01 * want);
    assert_close(fine / coarse, 0.25, 0, 0.03); /* second order */
    assert_close(chain_relaxed(&solid, 28 * DAY, span, usual, KELVIN_EVEN), want, 2e-4, 0);
}

/* Constant stress: the sum has one term. */
static void history_strain_of_constant_stress_is_phi_exactly(void **state)
{
    (void)state;
    const kl_material mix = time_case_mix(35 * MPA);
    for (int law = 1; law < TIME_LAW_COUNT; law++) {
        const creep_subject subject = {(time_law)law, time_case_concrete(&mix)};
        const creep_function f = creep_function_of(&subject);
        const double stress[2] = {-10 * MPA, 5 * MPA};
        const double phi = creep_coefficient(subject.law, &subject.concrete, 900 * DAY, 14 * DAY);
        const double e_phi = creep_reference_modulus(subject.law, &subject.concrete, 14 * DAY);
        history past = {.n = 2};
        double strain[2] = {1, 1};
        history_add(&past, 14 * DAY, 14 * DAY, stress);
        history_strain(&past, &f, 10 * DAY, strain);
        assert_close(strain[0], 0, 0, 0); /* not put on yet */
        history_strain(&past, &f, 900 * DAY, strain);
        for (int j = 0; j < 2; j++) {
            assert_close(strain[j], stress[j] * (1 / (30 * GPA) + phi / e_phi), 1e-14, 0);
        }
        history_free(&past);
    }
}

static const struct {
    time_law law;
    double power; /* creep begins like (t - t0)^(1/power) */
} begins[] = {{TIME_LAW_AASHTO_2020, 2},        {TIME_LAW_ACI209_1992, 5 / 3.0},
              {TIME_LAW_MC1990, 10 / 3.0},      {TIME_LAW_MC1999, 10 / 3.0},
              {TIME_LAW_EN1992_2004, 10 / 3.0}, {TIME_LAW_MC2010, 3}};

/* Creep, a modulus that grows, loading at 28 days. */
static void redundant_relaxes_as_the_volterra_equation_says(void **state)
{
    (void)state;
    kl_material mix = time_case_mix(35 * MPA);
    mix.modulus_law = KL_LAW_EN1992_2004;
    mix.gain = KL_LAW_EN1992_2004;
    for (int i = 0; i < 6; i++) {
        const creep_subject subject = {begins[i].law, time_case_concrete(&mix)};
        const creep_function law = creep_function_of(&subject);
        const double t0 = 28 * DAY, span = 1000 * DAY;
        const double want = volterra_relaxed(&law, t0, span, begins[i].power);
        assert_true(want < 0.75 / law.elastic(law.context, t0)); /* it has relaxed */
        assert_close(chain_relaxed(&law, t0, span, usual, KELVIN_EVEN), want, 1e-4, 0);
        assert_close(chain_relaxed(&law, t0, span, (grid){128, 1}, KELVIN_EVEN), want, 1e-5, 0);
        assert_close(stepped_relaxed(&law, t0, span, (grid){128, 1}), want, 1e-4, 0);
    }
}

/* The mean of the ends through the chain is plain superposition, step by step. */
static void redundant_relaxes_by_the_chain_as_by_plain_superposition(void **state)
{
    (void)state;
    const kl_material mix = time_case_mix(35 * MPA);
    for (int i = 0; i < 6; i++) {
        const creep_subject subject = {begins[i].law, time_case_concrete(&mix)};
        const creep_function law = creep_function_of(&subject);
        const double plain = stepped_relaxed(&law, 7 * DAY, 20000 * DAY, (grid){6, 1});
        assert_close(chain_relaxed(&law, 7 * DAY, 20000 * DAY, (grid){6, 1}, KELVIN_ENDS), plain,
                     1e-4, 0);
    }
}

/* From 3 days to 30 years, halving every step moves the redundant by less than 0.02 %; and plain superposition in much
 * finer steps comes to the same. */
static void redundant_with_halved_steps_moves_by_less_than_the_limit(void **state)
{
    (void)state;
    kl_material mix = time_case_mix(35 * MPA);
    for (int i = 0; i < 12; i++) {
        mix.modulus_law = i < 6 ? KL_LAW_VALUE : KL_LAW_EN1992_2004;
        mix.gain = KL_LAW_EN1992_2004;
        const creep_subject subject = {begins[i % 6].law, time_case_concrete(&mix)};
        const creep_function law = creep_function_of(&subject);
        const double t0 = 3 * DAY, span = 10000 * DAY;
        const double once = chain_relaxed(&law, t0, span, usual, KELVIN_EVEN);
        assert_close(once, chain_relaxed(&law, t0, span, halved, KELVIN_EVEN), 2e-4, 0);
        if (i % 3 == 2) { /* mc1990 and mc2010: the others begin no steeper */
            assert_close(once, stepped_relaxed(&law, t0, span, (grid){96, 1}), 6e-4, 0);
        }
    }
}

static void time_steps_are_geometric_and_end_at_the_span(void **state)
{
    (void)state;
    assert_int_equal(time_steps_count(0, 8), 0);
    assert_int_equal(time_steps_count(-1, 8), 0);
    assert_int_equal(time_steps_count(0.005 * DAY, 8), 1);
    assert_close(time_steps_end(0.005 * DAY, 1, 0), 0.005 * DAY, 0, 0);
    const double spans[] = {0.02, 1, 3, 10000};
    for (int s = 0; s < 4; s++) {
        const double span = spans[s] * DAY;
        const int count = time_steps_count(span, 8);
        assert_close(time_steps_end(span, count, count - 1), span, 0, 0);
        assert_close(time_steps_end(span, count, 0), 0.01 * DAY, 1e-12, 0);
        for (int i = 1; i < count; i++) {
            const double ratio =
                time_steps_end(span, count, i) / time_steps_end(span, count, i - 1);
            assert_true(ratio > 1 && ratio <= pow(10, 1 / 8.0) * (1 + 1e-12));
        }
    }
}

int main(void)
{
    const struct CMUnitTest tests[] = {
        cmocka_unit_test(volterra_reference_of_the_standard_solid_is_its_closed_form),
        cmocka_unit_test(history_relaxes_the_standard_solid_by_its_closed_form),
        cmocka_unit_test(history_strain_of_constant_stress_is_phi_exactly),
        cmocka_unit_test(redundant_relaxes_as_the_volterra_equation_says),
        cmocka_unit_test(redundant_relaxes_by_the_chain_as_by_plain_superposition),
        cmocka_unit_test(redundant_with_halved_steps_moves_by_less_than_the_limit),
        cmocka_unit_test(time_steps_are_geometric_and_end_at_the_span),
    };
    return cmocka_run_group_tests(tests, NULL, NULL);
}
