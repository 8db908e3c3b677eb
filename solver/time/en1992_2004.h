/* en1992_2004.h - creep and shrinkage by EN 1992-1-1:2004, 3.1.4 and annex B.
 *
 *     phi(t, t0) = phi_RH 16.8 / sqrt(f_cm) beta(t0) (d / (beta_H + d))^0.3   on E_c = 1.05 E_cm, at 28 days
 *     eps_cs = eps_cd + eps_ca
 *     eps_cd = d / (d + 0.04 sqrt(h0^3)) k_h eps_cd0,  d = t - t_s;  eps_cd0 by (B.11)
 *     eps_ca = 2.5 (f_ck - 10) 1e-6 (1 - exp(-0.2 sqrt(t))),  t the age
 *
 * All from memory; eps_cd0 holds the code's table 3.2. Within 0.45 f_ck(t0) creep is linear.
 * SPDX-License-Identifier: MIT */
#ifndef KERNLINE_EN1992_2004_H
#define KERNLINE_EN1992_2004_H

#include "time_concrete.h"
#include "time_scope.h"

/* As in aashto_2020.h. */
double en1992_2004_creep(const time_concrete *c, double age, double loading);
double en1992_2004_drying(const time_concrete *c, double age);
/* Strain since casting without loss of water, days. */
double en1992_2004_autogenous(const time_concrete *c, double age);
void en1992_2004_outside(const time_concrete *c, double loading, time_scope *scope);

/* eps_cd0 of (B.11) and table 3.2, positive. */
double en1992_2004_nominal_drying(const time_concrete *c);

#endif
