/* test_kelvin.c - the chain against the law it is fitted to and against plain superposition.
 * SPDX-License-Identifier: MIT */
#include "assert_close.h"

#include <string.h>

#include "history.h"
#include "kelvin.h"
#include "random.h"
#include "time_case.h"
#include "time_steps.h"

static kelvin_basis basis;

static int fill_basis(void **state)
{
    (void)state;
    kelvin_basis_fill(&basis);
    return 0;
}

/* Within 0.01 % of J from 0.01 to 110,000 days, for every law, dry to wet, thin to thick, loaded from 1 day to 10 years. */
static void kelvin_fit_error_of_every_law_is_within_a_ten_thousandth(void **state)
{
    (void)state;
    const double humidity[] = {0.40, 0.70, 0.99}, size[] = {30 * MM, 150 * MM, 1000 * MM};
    kl_material mix = time_case_mix(35 * MPA);
    mix.modulus_law = KL_LAW_EN1992_2004;
    for (int row = 0; row < 9 * (TIME_LAW_COUNT - 1); row++) {
        const creep_subject subject = {(time_law)(1 + row / 9),
                                       {&mix, humidity[row % 3], size[row / 3 % 3], NULL}};
        const creep_function law = creep_function_of(&subject);
        kelvin_chain chain;
        kelvin_chain_set(&chain, &basis, &law);
        for (double loading = 1; loading < 4000; loading *= 2.3) {
            double weights[KELVIN_UNITS];
            assert_true(kelvin_fit_error(&chain, loading * DAY) <= 1e-4);
            kelvin_weights(&chain, loading * DAY, weights);
            for (int k = 0; k < KELVIN_UNITS; k++) {
                assert_true(weights[k] >= 0);
            }
        }
    }
}

/* The report is an error: a law of a shape that no sum of Kelvin units has (it comes at once, after ten days) shows. */
static double creep_at_once(const void *context, double age, double loading)
{
    (void)context;
    return age - loading < 10 * DAY ? 0.0 : 1 / (30 * GPA);
}

static double constant_elastic(const void *context, double loading)
{
    (void)context;
    (void)loading;
    return 1 / (30 * GPA);
}

static void kelvin_fit_error_of_a_law_beyond_the_chain_is_told(void **state)
{
    (void)state;
    const creep_function law = {NULL, constant_elastic, creep_at_once, true};
    kelvin_chain chain;
    kelvin_chain_set(&chain, &basis, &law);
    assert_true(kelvin_fit_error(&chain, 28 * DAY) > 0.05);
}

/* ---- the chain as a law, for superposition written out ------------------------------------------------ */

static double chain_elastic(const void *context, double loading)
{
    const kelvin_chain *chain = context;
    return chain->law.elastic(chain->law.context, loading);
}

static double chain_delayed(const void *context, double age, double loading)
{
    double weights[KELVIN_UNITS], sum = 0;
    kelvin_weights(context, loading, weights);
    for (int k = 0; k < KELVIN_UNITS; k++) {
        sum += weights[k] * (1 - exp(-(age - loading) / kelvin_time(k)));
    }
    return sum;
}

typedef struct two_ways {
    double chain[2], superposed_chain[2], superposed_law[2]; /* strain at the end */
    double reference; /* sum of |stress| J: what errors are measured against */
} two_ways;

/* Stress at an even rate, as so many equal parts of it one after the other. */
static void add_spread(history *past, double from, double to, const double *stress, int parts)
{
    for (int i = 0; i < parts; i++) {
        const double part[2] = {stress[0] / parts, stress[1] / parts};
        history_add(past, from + (to - from) * i / parts, from + (to - from) * (i + 1) / parts,
                    part);
    }
}

/* Two components under random stresses: three events on days 7, 30 and 400 with a jump each, and steps with stresses of
 * either sign, up to 20,000 days. */
static two_ways random_history(time_law which, kelvin_rule rule, bool is_by_component)
{
    random_source random = {(uint64_t)which};
    kl_material mix = time_case_mix(35 * MPA);
    mix.modulus_law = KL_LAW_EN1992_2004;
    const creep_subject subject = {which, time_case_concrete(&mix)};
    const creep_function law = creep_function_of(&subject);
    kelvin_chain chain;
    kelvin_chain_set(&chain, &basis, &law);
    chain.rule = rule;
    const creep_function as_law = {&chain, chain_elastic, chain_delayed, false};

    const double events[] = {7 * DAY, 30 * DAY, 400 * DAY, 20000 * DAY};
    history past = {.n = 2};
    double remaining[KELVIN_UNITS * 2] = {0}, weights[KELVIN_UNITS];
    two_ways w = {.reference = 0};
    for (int e = 0; e < 3; e++) {
        const double jump[2] = {random_between(&random, -1, 1),
                                is_by_component ? 0 : random_between(&random, -1, 1)};
        kelvin_weights(&chain, events[e], weights);
        kelvin_load(weights, 2, jump, remaining);
        history_add(&past, events[e], events[e], jump);
        for (int j = 0; j < 2; j++) {
            w.chain[j] += jump[j] * law.elastic(law.context, events[e]);
            w.reference += fabs(jump[j]) * creep_function_compliance(&law, events[3], events[e]);
        }
        const int count = time_steps_count(events[e + 1] - events[e], 4);
        kelvin_step step;
        for (int i = 0; i < count; i++) {
            const double from =
                events[e] + (i == 0 ? 0 : time_steps_end(events[e + 1] - events[e], count, i - 1));
            const double to = events[e] + time_steps_end(events[e + 1] - events[e], count, i);
            const double stress[2] = {random_between(&random, -0.2, 0.2),
                                      is_by_component ? 0 : random_between(&random, -0.2, 0.2)};
            double creep[2];
            kelvin_step_set(&chain, from, to, i == 0 ? NULL : &step, &step);
            kelvin_step_creep(&step, 2, remaining, creep);
            kelvin_step_advance(&step, 2, stress, remaining);
            add_spread(&past, from, to, stress, rule == KELVIN_EVEN ? 100 : 1);
            for (int j = 0; j < 2; j++) {
                w.chain[j] += creep[j] + step.compliance * stress[j];
                w.reference += fabs(stress[j]) * creep_function_compliance(&law, events[3], to);
            }
        }
    }
    if (rule == KELVIN_ENDS) {
        history_strain(&past, &as_law, events[3], w.superposed_chain);
    }
    history_strain(&past, &law, events[3], w.superposed_law);
    history_free(&past);
    return w;
}

static void kelvin_steps_are_superposition_of_the_chain_exactly(void **state)
{
    (void)state;
    for (int law = 1; law < TIME_LAW_COUNT; law++) {
        const two_ways w = random_history((time_law)law, KELVIN_ENDS, false);
        for (int j = 0; j < 2; j++) {
            assert_close(w.chain[j], w.superposed_chain[j], 0, 1e-11 * w.reference);
        }
    }
}

static void kelvin_steps_are_superposition_of_the_law_within_the_fit(void **state)
{
    (void)state;
    for (int law = 1; law < TIME_LAW_COUNT; law++) {
        const two_ways w = random_history((time_law)law, KELVIN_ENDS, false);
        for (int j = 0; j < 2; j++) {
            assert_true(fabs(w.superposed_law[j]) > 1e-3 * w.reference);
            assert_close(w.chain[j], w.superposed_law[j], 0, 1e-4 * w.reference);
        }
    }
}

/* The even rate is the limit of ever smaller parts: 100 of them leave an error of order 1/100 of the last step's share. */
static void kelvin_steps_at_an_even_rate_are_superposition_of_many_parts(void **state)
{
    (void)state;
    for (int law = 1; law < TIME_LAW_COUNT; law++) {
        const two_ways w = random_history((time_law)law, KELVIN_EVEN, false);
        for (int j = 0; j < 2; j++) {
            assert_close(w.chain[j], w.superposed_law[j], 0, 3e-4 * w.reference);
        }
    }
}

static void kelvin_steps_keep_components_apart(void **state)
{
    (void)state;
    const two_ways w = random_history(TIME_LAW_MC1990, KELVIN_EVEN, true);
    assert_close(w.chain[1], 0, 0, 0);
    assert_true(fabs(w.chain[0]) > 0);
}

/* ---- a fibre under constant stress --------------------------------------------------------------------- */

/* Strain = stress (1 / E + phi / E_phi), whatever the steps: within 0.01 % of J through the chain. */
static void kelvin_fibre_under_constant_stress_creeps_by_phi(void **state)
{
    (void)state;
    const kl_material mix = time_case_mix(35 * MPA);
    for (int law = 1; law < TIME_LAW_COUNT; law++) {
        const creep_subject subject = {(time_law)law, time_case_concrete(&mix)};
        const creep_function f = creep_function_of(&subject);
        kelvin_chain chain;
        kelvin_chain_set(&chain, &basis, &f);
        const double loading = 14 * DAY, stress = -10 * MPA;
        double remaining[KELVIN_UNITS] = {0}, weights[KELVIN_UNITS], strain = stress / (30 * GPA);
        kelvin_weights(&chain, loading, weights);
        kelvin_load(weights, 1, &stress, remaining);
        const int count = time_steps_count(110000 * DAY, 3);
        double from = 0;
        for (int i = 0; i < count; i++) {
            const double to = time_steps_end(110000 * DAY, count, i);
            kelvin_step step;
            double creep = 0;
            kelvin_step_set(&chain, loading + from, loading + to, NULL, &step);
            kelvin_step_creep(&step, 1, remaining, &creep);
            kelvin_step_advance(&step, 1, NULL, remaining);
            strain += creep;
            from = to;
            const double phi =
                creep_coefficient(subject.law, &subject.concrete, loading + to, loading);
            const double e_phi = creep_reference_modulus(subject.law, &subject.concrete, loading);
            assert_close(strain, stress * (1 / (30 * GPA) + phi / e_phi), 1e-4, 0);
        }
    }
}

/* Under a chain of one unit with a time between two of the basis', no creep comes from no stress. */
static void kelvin_step_without_stress_gives_no_strain(void **state)
{
    (void)state;
    const kl_material mix = time_case_mix(35 * MPA);
    const creep_subject subject = {TIME_LAW_MC2010, time_case_concrete(&mix)};
    const creep_function law = creep_function_of(&subject);
    kelvin_chain chain;
    kelvin_chain_set(&chain, &basis, &law);
    double remaining[KELVIN_UNITS] = {0}, creep = 1;
    kelvin_step step;
    kelvin_step_set(&chain, 7 * DAY, 100 * DAY, NULL, &step);
    kelvin_step_advance(&step, 1, NULL, remaining);
    kelvin_step_creep(&step, 1, remaining, &creep);
    assert_close(creep, 0, 0, 0);
}

/* No law of creep: J = 1 / E and nothing else. */
static void kelvin_chain_of_no_law_only_strains_elastically(void **state)
{
    (void)state;
    const kl_material mix = time_case_mix(35 * MPA);
    const creep_subject subject = {TIME_LAW_NONE, time_case_concrete(&mix)};
    const creep_function law = creep_function_of(&subject);
    kelvin_chain chain;
    kelvin_chain_set(&chain, &basis, &law);
    kelvin_step step;
    kelvin_step_set(&chain, 7 * DAY, 100 * DAY, NULL, &step);
    assert_close(step.compliance, 1 / (30 * GPA), 1e-14, 0);
    assert_close(kelvin_fit_error(&chain, 7 * DAY), 0, 0, 1e-14);
}

int main(void)
{
    const struct CMUnitTest tests[] = {
        cmocka_unit_test(kelvin_fit_error_of_every_law_is_within_a_ten_thousandth),
        cmocka_unit_test(kelvin_fit_error_of_a_law_beyond_the_chain_is_told),
        cmocka_unit_test(kelvin_steps_are_superposition_of_the_chain_exactly),
        cmocka_unit_test(kelvin_steps_are_superposition_of_the_law_within_the_fit),
        cmocka_unit_test(kelvin_steps_at_an_even_rate_are_superposition_of_many_parts),
        cmocka_unit_test(kelvin_steps_keep_components_apart),
        cmocka_unit_test(kelvin_fibre_under_constant_stress_creeps_by_phi),
        cmocka_unit_test(kelvin_step_without_stress_gives_no_strain),
        cmocka_unit_test(kelvin_chain_of_no_law_only_strains_elastically),
    };
    return cmocka_run_group_tests(tests, fill_basis, NULL);
}
