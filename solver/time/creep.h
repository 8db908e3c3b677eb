/* creep.h - creep of concrete: the coefficient phi of each published model or of the user's own curve, the modulus it belongs
 * to, and the compliance J(t, t0), the strain at age t of a unit stress put on at age t0.
 *
 *     J(t, t0) = 1 / E(t0) + phi(t, t0) / E_phi
 *
 * E(t0) is the material's own modulus of that age. E_phi is what the model's phi is a multiple of the strain of:
 *
 *     aashto 2020, aci209 1992    the modulus at loading, E(t0)
 *     a curve of the user's       likewise: phi is what a test gives, creep over the strain at loading; it is the same
 *                                 curve for every age of loading
 *     mc1990, mc1999, mc2010      the tangent modulus at 28 days
 *     en1992 2004                 the tangent modulus at 28 days, 1.05 E_cm
 *
 * The tangent modulus is the material's modulus at 28 days, times 1.05 where that is a secant modulus by EN 1992
 * (3.1.4 (2)): by `modulus en1992`, or of any other source than mc1990 under the creep of en1992.
 *
 * Units: s, Pa. Ages count from casting. A loading age below one day counts as one day here, as it does for the modulus;
 * the time since loading is kept.
 * SPDX-License-Identifier: MIT */
#ifndef KERNLINE_CREEP_H
#define KERNLINE_CREEP_H

#include <stdbool.h>

#include "time_concrete.h"
#include "time_scope.h"

/* phi(t, t0), 0 for age <= loading and for TIME_LAW_NONE. */
double creep_coefficient(time_law law, const time_concrete *c, double age, double loading);

/* E_phi of the table above, Pa. */
double creep_reference_modulus(time_law law, const time_concrete *c, double loading);

/* J(t, t0), 1/Pa. */
double creep_compliance(time_law law, const time_concrete *c, double age, double loading);

/* Greatest stress, as a share of the strength at loading (f_ck(t0) for en1992, f_cm(t0) for the model codes, f'c(t0)
 * for aci209), up to which the model calls creep proportional to stress; NAN where it does not say. */
double creep_linear_limit(time_law law);

/* That limit of a concrete loaded at an age, Pa; NAN where the law does not say. f_cm(t0) is f_cm times the gain of f'c. */
double creep_linear_stress(time_law law, const kl_material *material, double loading);

/* What is outside the stated scope of the law for creep of a load put on at that age. */
time_scope creep_outside(time_law law, const time_concrete *c, double loading);

/* A compliance in two parts, for those who only superpose: of a published model, or any other. */
typedef struct creep_function {
    const void *context;                                                /* borrowed */
    double (*elastic)(const void *context, double loading);             /* 1 / E(t0), 1/Pa */
    double (*delayed)(const void *context, double age, double loading); /* J - 1 / E(t0), 1/Pa */
    bool separable; /* delayed is a(t0) f(t - t0): one shape for all ages of loading */
} creep_function;

typedef struct creep_subject {
    time_law law;
    time_concrete concrete;
} creep_subject;

/* The creep function of a law and a concrete, which must outlive it. */
creep_function creep_function_of(const creep_subject *subject);

double creep_function_compliance(const creep_function *f, double age, double loading);

#endif
