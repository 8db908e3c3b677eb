/* kelvin.h - creep of concrete with a memory of fixed size: a chain of Kelvin units fitted to the compliance.
 *
 *     J(t, t0) = 1 / E(t0) + sum over k of a_k(t0) (1 - exp(-(t - t0) / tau_k)),   a_k >= 0
 *
 * The tau_k are fixed, KELVIN_PER_DECADE to a decade. The a_k of a loading age come from non-negative least squares on
 * the law, once for a law whose creep has one shape for all loading ages (all but mc2010), else at every age.
 * Of all loads so far a unit needs only one number a component: what is still to come, r_k = sum of dS_j a_k(t_j)
 * exp(-(t - t_j) / tau_k). So a step costs the same however long the past is, and superposition over all steps is exact
 * for the chain.
 *
 * Stresses come in sets of n components (any: section forces, causes) in rows of one chain; strains likewise.
 * Ages in s. SPDX-License-Identifier: MIT */
#ifndef KERNLINE_KELVIN_H
#define KERNLINE_KELVIN_H

#include "creep.h"

#define KELVIN_UNITS      26
#define KELVIN_PER_DECADE 3.0

/* The fit is made for times since loading from 0.005 to 158,000 days; it is good from 0.01 to 110,000, more than the
 * 300 years after day 0 in which the stages of a model must be. */
#define KELVIN_SAMPLES   76
#define KELVIN_FIRST_DAY 0.01
#define KELVIN_LAST_DAY  110000.0

/* What all chains share: fill once. */
typedef struct kelvin_basis {
    double since[KELVIN_SAMPLES];               /* s */
    double value[KELVIN_SAMPLES][KELVIN_UNITS]; /* 1 - exp(-since / tau) */
    double gram[KELVIN_UNITS * KELVIN_UNITS];
} kelvin_basis;

/* How the stress of a step is spread over it. Both are of second order where J is smooth. But creep begins like
 * (t - t0)^0.3 in the model codes: there the mean of the ends falls to order 1.3, and wants eight times the steps for an
 * error of 0.02 %; the even rate keeps its order. */
typedef enum kelvin_rule {
    KELVIN_EVEN, /* at an even rate, integrated exactly (a_k linear in the step) */
    KELVIN_ENDS  /* half at the start, half at the end: the mean of the two J */
} kelvin_rule;

typedef struct kelvin_chain {
    kelvin_rule rule;
    const kelvin_basis *basis;  /* borrowed */
    creep_function law;         /* what its context points to is borrowed */
    double shape[KELVIN_UNITS]; /* separable law: a_k for 1/Pa of creep at KELVIN_LAST_DAY */
} kelvin_chain;

void kelvin_basis_fill(kelvin_basis *basis);

/* Retardation time of unit k, s. */
double kelvin_time(int k);

/* The rule is KELVIN_EVEN; set `rule` for the other. */
void kelvin_chain_set(kelvin_chain *chain, const kelvin_basis *basis, const creep_function *law);

/* a_k for a load put on at that age, 1/Pa. */
void kelvin_weights(const kelvin_chain *chain, double loading, double weights[KELVIN_UNITS]);

/* Largest difference of the chain's J and the law's over KELVIN_FIRST_DAY … KELVIN_LAST_DAY since loading, as a share of
 * the law's J, at times other than the fit's. */
double kelvin_fit_error(const kelvin_chain *chain, double loading);

/* ---- steps ------------------------------------------------------------------------------------------- */

/* A step from one age to another, for every section of the chain. */
typedef struct kelvin_step {
    double from, to;
    double compliance;            /* strain in the step per stress that comes evenly in it, 1/Pa */
    double decay[KELVIN_UNITS];   /* exp(-(to - from) / tau) */
    double share[KELVIN_UNITS];   /* 1 - decay */
    double enters[KELVIN_UNITS];  /* what is still to come, at `to`, of a unit stress of the step */
    double weights[KELVIN_UNITS]; /* at `to`: the next step's at `from` */
} kelvin_step;

/* @param before the step that ended at `from`, whose weights are taken over; NULL: none. May be `step` itself. */
void kelvin_step_set(const kelvin_chain *chain,
                     double from,
                     double to,
                     const kelvin_step *before,
                     kelvin_step *step);

/* Strain that comes in the step from what is already there.
 * @param remaining KELVIN_UNITS rows of n, r_k at `from`
 * @param strain out: n */
void kelvin_step_creep(const kelvin_step *step, int n, const double *remaining, double *strain);

/* Go to the end of the step, in which these stresses came evenly (NULL: none). Updates `remaining`. */
void kelvin_step_advance(const kelvin_step *step, int n, const double *stress, double *remaining);

/* A stress put on at once, at an age with these weights. Its immediate strain is stress / E(t0). */
void kelvin_load(const double weights[KELVIN_UNITS],
                 int n,
                 const double *stress,
                 double *remaining);

#endif
