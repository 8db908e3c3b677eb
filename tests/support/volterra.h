/* volterra.h - the stress of concrete whose strain is given, without steps of time:
 *
 *     X(t0) J(t, t0) + integral from t0 to t of J(t, t') dX(t') = strain(t)
 *
 * X is smooth in (t - t0)^(1/power), as which creep (and here the strain) begins. A reference for what goes in steps.
 * SPDX-License-Identifier: MIT */
#ifndef KERNLINE_VOLTERRA_H
#define KERNLINE_VOLTERRA_H

#include "creep.h"

typedef double (*volterra_strain)(const void *context, double age);

/* X at t0 + span. */
double volterra_strained(const creep_function *law,
                         double t0,
                         double span,
                         double power,
                         volterra_strain strain,
                         const void *context);

/* Of a unit strain put on at t0: the relaxation function R(t0 + span, t0). */
double volterra_relaxed(const creep_function *law, double t0, double span, double power);

#endif
