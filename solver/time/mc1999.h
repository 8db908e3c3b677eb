/* mc1999.h - the 1999 update of the CEB-FIP Model Code 1990, as ACI 209.2R-08 prints it.
 *
 *     phi_RH = (1 + (1 - RH) a1 / (0.1 h^(1/3))) a2;  a1, a2, a3 = (35 MPa / f_cm)^0.7, ^0.2, ^0.5;
 *     beta_H with 250 a3 <= 1500 a3; all else as mc1990;  on E_ci at 28 days
 *
 * The publication's own example takes the a as they are for f_cm < 35 MPa too, where they are above 1; EN 1992-1-1
 * holds them at 1 there, and shares the rest: hence the cap as an argument. Shrinkage has two parts, drying and
 * autogenous, the same as in mc2010.h.
 * SPDX-License-Identifier: MIT */
#ifndef KERNLINE_MC1999_H
#define KERNLINE_MC1999_H

#include "time_concrete.h"

typedef struct mc1999_factors {
    double humidity;    /* phi_RH */
    double loading_age; /* beta(t0) */
    double drying_time; /* beta_H, days */
} mc1999_factors;

/* @param capped the factors of strength are at most 1. Loading age in days. */
mc1999_factors mc1999_creep_factors(const time_concrete *c, double loading, bool capped);

/* As in aashto_2020.h. The scope is mc1990's. */
double mc1999_creep(const time_concrete *c, double age, double loading);

#endif
