/* kelvin.c - see kelvin.h.
 * SPDX-License-Identifier: MIT */
#include "kelvin.h"

#include <math.h>

#include "nonnegative.h"

_Static_assert(KELVIN_UNITS <= NONNEGATIVE_MAX, "the fit has room for the units");

#define SHORTEST_DAY        1e-3 /* tau_0: a tenth of the first step of an analysis */
#define SAMPLE_FIRST_DAY    0.005
#define SAMPLES_PER_DECADE  10.0
#define CONTROLS_PER_DECADE 37 /* no multiple of the samples' */
/* Strain still to come that is none. A unit decays like exp(-t / tau), through numbers so small that they have few digits
 * left: forces from them balance nothing. */
#define NOTHING 1e-30

double kelvin_time(int k)
{
    return SHORTEST_DAY * KL_DAY * pow(10.0, k / KELVIN_PER_DECADE);
}

void kelvin_basis_fill(kelvin_basis *basis)
{
    for (int i = 0; i < KELVIN_SAMPLES; i++) {
        basis->since[i] = SAMPLE_FIRST_DAY * KL_DAY * pow(10.0, i / SAMPLES_PER_DECADE);
        for (int k = 0; k < KELVIN_UNITS; k++) {
            basis->value[i][k] = -expm1(-basis->since[i] / kelvin_time(k));
        }
    }
    for (int j = 0; j < KELVIN_UNITS; j++) {
        for (int k = 0; k < KELVIN_UNITS; k++) {
            double sum = 0.0;
            for (int i = 0; i < KELVIN_SAMPLES; i++) {
                sum += basis->value[i][j] * basis->value[i][k];
            }
            basis->gram[j * KELVIN_UNITS + k] = sum;
        }
    }
}

static double last_creep(const kelvin_chain *chain, double loading)
{
    return chain->law.delayed(chain->law.context, loading + KELVIN_LAST_DAY * KL_DAY, loading);
}

/* Fit to the law's creep for one loading age, as a share of its creep at the last day; all 0 where it does not creep. */
static void fit(const kelvin_chain *chain, double loading, double shape[KELVIN_UNITS])
{
    const double last = last_creep(chain, loading);
    double rhs[KELVIN_UNITS] = {0.0};
    if (!(last > 0.0)) {
        for (int k = 0; k < KELVIN_UNITS; k++) {
            shape[k] = 0.0;
        }
        return;
    }
    for (int i = 0; i < KELVIN_SAMPLES; i++) {
        const double age = loading + chain->basis->since[i];
        const double share = chain->law.delayed(chain->law.context, age, loading) / last;
        for (int k = 0; k < KELVIN_UNITS; k++) {
            rhs[k] += chain->basis->value[i][k] * share;
        }
    }
    nonnegative_solve(KELVIN_UNITS, chain->basis->gram, rhs, shape);
}

void kelvin_chain_set(kelvin_chain *chain, const kelvin_basis *basis, const creep_function *law)
{
    *chain = (kelvin_chain){.basis = basis, .law = *law};
    if (law->separable) {
        fit(chain, 28.0 * KL_DAY, chain->shape); /* any loading age would do */
    }
}

void kelvin_weights(const kelvin_chain *chain, double loading, double weights[KELVIN_UNITS])
{
    const double last = last_creep(chain, loading);
    double fitted[KELVIN_UNITS];
    const double *shape = chain->shape;
    if (!chain->law.separable) {
        fit(chain, loading, fitted);
        shape = fitted;
    }
    for (int k = 0; k < KELVIN_UNITS; k++) {
        weights[k] = last * shape[k];
    }
}

double kelvin_fit_error(const kelvin_chain *chain, double loading)
{
    double weights[KELVIN_UNITS], largest = 0.0;
    kelvin_weights(chain, loading, weights);
    const int count = (int)(CONTROLS_PER_DECADE * log10(KELVIN_LAST_DAY / KELVIN_FIRST_DAY)) + 1;
    for (int i = 0; i <= count; i++) {
        const double since =
            KELVIN_FIRST_DAY * KL_DAY * pow(KELVIN_LAST_DAY / KELVIN_FIRST_DAY, (double)i / count);
        const double j = creep_function_compliance(&chain->law, loading + since, loading);
        double chained = chain->law.elastic(chain->law.context, loading);
        for (int k = 0; k < KELVIN_UNITS; k++) {
            chained += weights[k] * -expm1(-since / kelvin_time(k));
        }
        largest = fmax(largest, fabs(chained - j) / j);
    }
    return largest;
}

/* Parts of stress that came at an even rate and are still to act at the end of a step of x retardation times: with
 * weights that are constant in the step,  m = (1/x) integral of exp(-s), s = 0 … x;  and that grow from 0 to 1,
 * late = (1 - m) / x. */
static double even_share(double x, double share, double *late)
{
    if (x < 1e-3) { /* the differences would cancel; the next term of the series is x^3 / 120 */
        *late = 0.5 - x / 6.0 + x * x / 24.0;
        return 1.0 - x * *late;
    }
    const double mean = share / x;
    *late = (1.0 - mean) / x;
    return mean;
}

static void fill_enters(const kelvin_chain *chain, const double *first, kelvin_step *step)
{
    for (int k = 0; k < KELVIN_UNITS; k++) {
        const double last = step->weights[k];
        double late = 0.0;
        if (chain->rule == KELVIN_ENDS) {
            step->enters[k] = 0.5 * (first[k] * step->decay[k] + last);
        } else {
            const double x = (step->to - step->from) / kelvin_time(k);
            const double all = even_share(x, step->share[k], &late);
            step->enters[k] = first[k] * (all - late) + last * late;
        }
    }
}

void kelvin_step_set(
    const kelvin_chain *chain, double from, double to, const kelvin_step *before, kelvin_step *step)
{
    double first[KELVIN_UNITS];
    if (before == NULL) {
        kelvin_weights(chain, from, first);
    } else {
        for (int k = 0; k < KELVIN_UNITS; k++) {
            first[k] = before->weights[k];
        }
    }
    step->from = from;
    step->to = to;
    kelvin_weights(chain, to, step->weights);
    for (int k = 0; k < KELVIN_UNITS; k++) {
        const double power = -(to - from) / kelvin_time(k);
        step->decay[k] = exp(power);
        step->share[k] = -expm1(power);
    }
    fill_enters(chain, first, step);
    /* What has acted by the end of the step: all of it less what is still to come. */
    step->compliance = 0.5 * (chain->law.elastic(chain->law.context, from) +
                              chain->law.elastic(chain->law.context, to));
    for (int k = 0; k < KELVIN_UNITS; k++) {
        step->compliance += 0.5 * (first[k] + step->weights[k]) - step->enters[k];
    }
}

void kelvin_step_creep(const kelvin_step *step, int n, const double *remaining, double *strain)
{
    for (int j = 0; j < n; j++) {
        strain[j] = 0.0;
    }
    for (int k = 0; k < KELVIN_UNITS; k++) {
        for (int j = 0; j < n; j++) {
            strain[j] += step->share[k] * remaining[k * n + j];
        }
    }
}

void kelvin_step_advance(const kelvin_step *step, int n, const double *stress, double *remaining)
{
    for (int k = 0; k < KELVIN_UNITS; k++) {
        for (int j = 0; j < n; j++) {
            const double kept = step->decay[k] * remaining[k * n + j];
            const double left = stress == NULL ? kept : kept + step->enters[k] * stress[j];
            remaining[k * n + j] = fabs(left) < NOTHING ? 0.0 : left;
        }
    }
}

void kelvin_load(const double weights[KELVIN_UNITS], int n, const double *stress, double *remaining)
{
    for (int k = 0; k < KELVIN_UNITS; k++) {
        for (int j = 0; j < n; j++) {
            remaining[k * n + j] += weights[k] * stress[j];
        }
    }
}
