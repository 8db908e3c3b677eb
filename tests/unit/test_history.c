/* test_history.c - superposition against closed forms and against the Volterra equation solved another way: the force of
 * one redundant that is held from a sudden settlement on.
 *
 *     X(t0) J(t, t0) + integral from t0 to t of J(t, t') dX(t') = 1
 *
 * Here by collocation: X is a polynomial in u, t - t0 = span u^power (Chebyshev polynomials), which suits creep that
 * begins like (t - t0)^(1/power); the integral by Gauss-Legendre, graded toward t' = t.
 * SPDX-License-Identifier: MIT */
#include "assert_close.h"

#include "fault.h"
#include "history.h"
#include "kelvin.h"
#include "time_case.h"
#include "time_steps.h"

#define DEGREE 32
#define POINTS 160
#define GRADE  6.0

/* ---- the reference ------------------------------------------------------------------------------------- */

/* Nodes and weights of Gauss-Legendre on 0 … 1, by Newton's method on the Legendre polynomials. */
static void gauss_rule(double node[POINTS], double weight[POINTS])
{
    for (int i = 0; i < POINTS; i++) {
        double x = cos(acos(-1.0) * (i + 0.75) / (POINTS + 0.5)), slope = 1;
        for (int round = 0; round < 50; round++) {
            double p = 1, before = 0;
            for (int n = 1; n <= POINTS; n++) {
                const double next = ((2 * n - 1) * x * p - (n - 1) * before) / n;
                before = p;
                p = next;
            }
            slope = POINTS * (x * p - before) / (x * x - 1);
            x -= p / slope;
        }
        node[i] = (1 + x) / 2;
        weight[i] = 1 / ((1 - x * x) * slope * slope);
    }
}

/* T_m(2 u - 1) and its derivative by u, m = 0 … DEGREE. */
static void chebyshev(double u, double value[DEGREE + 1], double slope[DEGREE + 1])
{
    const double x = 2 * u - 1;
    value[0] = 1;
    slope[0] = 0;
    value[1] = x;
    slope[1] = 2;
    for (int m = 2; m <= DEGREE; m++) {
        value[m] = 2 * x * value[m - 1] - value[m - 2];
        slope[m] = 4 * value[m - 1] + 2 * x * slope[m - 1] - slope[m - 2];
    }
}

static void gauss_eliminate(int n, double a[DEGREE + 1][DEGREE + 1], double *b)
{
    for (int k = 0; k < n; k++) {
        int pivot = k;
        for (int i = k + 1; i < n; i++) {
            pivot = fabs(a[i][k]) > fabs(a[pivot][k]) ? i : pivot;
        }
        for (int j = 0; j < n; j++) {
            const double swap = a[k][j];
            a[k][j] = a[pivot][j];
            a[pivot][j] = swap;
        }
        const double swap = b[k];
        b[k] = b[pivot];
        b[pivot] = swap;
        for (int i = 0; i < n; i++) {
            const double factor = i == k ? 0 : a[i][k] / a[k][k];
            for (int j = k; j < n; j++) {
                a[i][j] -= factor * a[k][j];
            }
            b[i] -= factor * b[k];
        }
    }
    for (int k = 0; k < n; k++) {
        b[k] /= a[k][k];
    }
}

/* X at t0 + span; stress of a unit strain. */
static double volterra_relaxed(const creep_function *law, double t0, double span, double power)
{
    static double a[DEGREE + 1][DEGREE + 1];
    double node[POINTS], weight[POINTS], value[DEGREE + 1], slope[DEGREE + 1], b[DEGREE + 1];
    gauss_rule(node, weight);
    for (int row = 0; row <= DEGREE; row++) {
        const double u = (1 - cos(acos(-1.0) * row / DEGREE)) / 2;
        const double age = t0 + span * pow(u, power);
        const double scale = 30 * GPA; /* rows of order one */
        chebyshev(0, value, slope);
        for (int m = 0; m <= DEGREE; m++) {
            a[row][m] = value[m] * creep_function_compliance(law, age, t0) * scale;
        }
        for (int q = 0; q < POINTS && row > 0; q++) {
            const double at = u * (1 - pow(node[q], GRADE));
            const double w = weight[q] * u * GRADE * pow(node[q], GRADE - 1);
            const double j = creep_function_compliance(law, age, t0 + span * pow(at, power));
            chebyshev(at, value, slope);
            for (int m = 0; m <= DEGREE; m++) {
                a[row][m] += w * j * slope[m] * scale;
            }
        }
        b[row] = scale;
    }
    gauss_eliminate(DEGREE + 1, a, b);
    double sum = 0;
    for (int m = 0; m <= DEGREE; m++) {
        sum += b[m]; /* T_m(1) = 1 */
    }
    return sum;
}

/* ---- in steps ------------------------------------------------------------------------------------------ */

/* The same by plain superposition; each step of the grid is cut in `parts` equal ones. */
static double
stepped_relaxed(const creep_function *law, double t0, double span, int per_decade, int parts)
{
    history past = {.n = 1};
    double force = 1 / law->elastic(law->context, t0);
    assert_int_equal(history_add(&past, t0, t0, &force), KL_OK);
    const int count = time_steps_count(span, per_decade);
    double begun = 0;
    for (int i = 0; i < count; i++) {
        const double end = time_steps_end(span, count, i);
        for (int part = 0; part < parts; part++) {
            const double from = t0 + begun + (end - begun) * part / parts;
            const double to = t0 + begun + (end - begun) * (part + 1) / parts;
            double strain = 0;
            history_strain(&past, law, to, &strain);
            const double mean = (creep_function_compliance(law, to, from) +
                                 creep_function_compliance(law, to, to)) /
                                2;
            const double change = (1 - strain) / mean;
            assert_int_equal(history_add(&past, from, to, &change), KL_OK);
            force += change;
        }
        begun = end;
    }
    history_free(&past);
    return force;
}

/* And through the Kelvin chain. */
static double chain_relaxed(const creep_function *law, double t0, double span, int per_decade)
{
    static kelvin_basis basis;
    kelvin_chain chain;
    kelvin_step step;
    kelvin_basis_fill(&basis);
    kelvin_chain_set(&chain, &basis, law);
    double force = 1 / law->elastic(law->context, t0);
    double remaining[KELVIN_UNITS] = {0}, weights[KELVIN_UNITS];
    kelvin_weights(&chain, t0, weights);
    kelvin_load(weights, 1, &force, remaining);
    const int count = time_steps_count(span, per_decade);
    double begun = 0;
    for (int i = 0; i < count; i++) {
        const double end = time_steps_end(span, count, i);
        double creep = 0;
        kelvin_step_set(&chain, t0 + begun, t0 + end, i == 0 ? NULL : &step, &step);
        kelvin_step_creep(&step, 1, remaining, &creep);
        const double change = -creep / step.compliance;
        kelvin_step_advance(&step, 1, &change, remaining);
        force += change;
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
    const double coarse = stepped_relaxed(&solid, 28 * DAY, span, 8, 1) - want;
    const double fine = stepped_relaxed(&solid, 28 * DAY, span, 8, 2) - want;
    assert_close(coarse, 0, 0, 0.01 * want);
    assert_close(fine / coarse, 0.25, 0, 0.03); /* second order */
    assert_close(chain_relaxed(&solid, 28 * DAY, span, 32), want, 5e-4, 0);
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
        assert_int_equal(history_add(&past, 14 * DAY, 14 * DAY, stress), KL_OK);
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

/* Creep, an ageing modulus, and loading at 28 days. */
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
        const double plain = stepped_relaxed(&law, t0, span, TIME_STEPS_PER_DECADE, 1);
        assert_true(want < 0.75 / law.elastic(law.context, t0)); /* it has relaxed */
        assert_close(plain, want, 2e-4, 0);
        assert_close(chain_relaxed(&law, t0, span, TIME_STEPS_PER_DECADE), want, 3e-4, 0);
        assert_close(stepped_relaxed(&law, t0, span, 4 * TIME_STEPS_PER_DECADE, 1), want, 2e-5, 0);
    }
}

/* From 3 days to 30 years, halving every step moves the redundant by less than 0.02 %. */
static void halving_the_steps_moves_a_redundant_by_less_than_the_limit(void **state)
{
    (void)state;
    const kl_material mix = time_case_mix(35 * MPA);
    for (int i = 0; i < 6; i++) {
        const creep_subject subject = {begins[i].law, time_case_concrete(&mix)};
        const creep_function law = creep_function_of(&subject);
        const double once = stepped_relaxed(&law, 3 * DAY, 10000 * DAY, TIME_STEPS_PER_DECADE, 1);
        const double twice = stepped_relaxed(&law, 3 * DAY, 10000 * DAY, TIME_STEPS_PER_DECADE, 2);
        assert_close(once, twice, 2e-4, 0);
    }
}

static void history_add_without_memory_adds_nothing(void **state)
{
    (void)state;
    const double stress = 1;
    for (long k = 0;; k++) {
        history past = {.n = 1};
        fault_after(k);
        kl_status status = KL_OK;
        int added = 0;
        for (; added < 100 && status == KL_OK; added++) {
            status = history_add(&past, added, added, &stress);
        }
        const int struck = fault_struck();
        fault_after(-1);
        assert_int_equal(past.count, status == KL_OK ? 100 : added - 1);
        assert_int_equal(status, struck ? KL_NO_MEMORY : KL_OK);
        history_free(&past);
        if (!struck) {
            assert_true(k > 2);
            return;
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
        cmocka_unit_test(halving_the_steps_moves_a_redundant_by_less_than_the_limit),
        cmocka_unit_test(history_add_without_memory_adds_nothing),
        cmocka_unit_test(time_steps_are_geometric_and_end_at_the_span),
    };
    return cmocka_run_group_tests(tests, NULL, NULL);
}
