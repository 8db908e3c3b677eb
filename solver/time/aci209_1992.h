/* aci209_1992.h - creep and shrinkage by ACI 209R-92, chapter 2, moist cured.
 *
 *     phi(t, t0) = d^0.6 / (10 + d^0.6) 2.35 gamma_c,   d = t - t0 days;  on the strain at loading: E(t0)
 *     eps_sh     = d / (35 + d) 780e-6 gamma_sh,        d = t - t_c days, t_c the end of curing
 *
 * gamma are products of factors: loading age or curing, humidity, volume to surface, slump, fines, cement, air. The
 * factors were read in ACI 209.2R-08 appendix C.1; 35 days, 1.25 t0^-0.118 and 1.202 - 0.2337 log10(t_c) are from
 * memory. There is no autogenous part.
 * SPDX-License-Identifier: MIT */
#ifndef KERNLINE_ACI209_1992_H
#define KERNLINE_ACI209_1992_H

#include "time_concrete.h"
#include "time_scope.h"

/* The factors one by one, as the publication's examples print them. */
typedef struct aci209_1992_factors {
    double age; /* of loading, or the length of curing */
    double humidity, size, slump, fines, cement, air;
} aci209_1992_factors;

aci209_1992_factors aci209_1992_creep_factors(const time_concrete *c, double loading);
aci209_1992_factors aci209_1992_shrinkage_factors(const time_concrete *c);

/* As in aashto_2020.h. */
double aci209_1992_creep(const time_concrete *c, double age, double loading);
double aci209_1992_drying(const time_concrete *c, double age);
void aci209_1992_outside(const time_concrete *c, double loading, time_scope *scope);

#endif
