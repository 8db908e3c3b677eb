/* mc2010.h - creep and shrinkage by the fib Model Code 2010, 5.1.9.4.
 *
 *     phi = phi_bc + phi_dc, basic and drying creep, on E_ci: the tangent modulus at 28 days
 *     phi_bc = 1.8 / f_cm^0.7 ln((30 / t0 + 0.035)^2 d + 1): it has no end
 *     phi_dc = 412 / f_cm^1.4 (1 - RH) / (0.1 h / 100)^(1/3) / (0.1 + t0^0.2) (d / (beta_h + d))^g,
 *              g = 1 / (2.3 + 3.5 / sqrt(t0)), beta_h = 1.5 h + 250 a <= 1500 a, a = sqrt(35 / f_cm)
 *     eps_cs = eps_cbs + eps_cds, basic (autogenous) and drying
 *
 * t0 in effective days. All from memory. The two parts of shrinkage are also those of mc1999.h.
 * SPDX-License-Identifier: MIT */
#ifndef KERNLINE_MC2010_H
#define KERNLINE_MC2010_H

#include "time_concrete.h"
#include "time_scope.h"

double mc2010_basic_creep(const time_concrete *c, double age, double loading);
double mc2010_drying_creep(const time_concrete *c, double age, double loading);

/* As in aashto_2020.h and en1992_2004.h. */
double mc2010_creep(const time_concrete *c, double age, double loading);
double mc2010_drying(const time_concrete *c, double age);
double mc2010_autogenous(const time_concrete *c, double age);
void mc2010_outside(const time_concrete *c, double loading, time_scope *scope);

#endif
