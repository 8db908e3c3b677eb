/* mc1990.h - creep and shrinkage by the CEB-FIP Model Code 1990, 2.1.6.4.
 *
 *     phi(t, t0) = phi_RH beta(f_cm) beta(t0) beta_c(t - t0)      on E_ci: the tangent modulus at 28 days
 *     phi_RH = 1 + (1 - RH) / (0.46 (h / 100 mm)^(1/3));  beta(f_cm) = 5.3 / sqrt(f_cm / 10 MPa);
 *     beta(t0) = 1 / (0.1 + t0^0.2);  beta_c = (d / (beta_H + d))^0.3;
 *     beta_H = 150 (1 + (1.2 RH)^18) (h / 100 mm) + 250 <= 1500 days
 *     eps_s = (160 + 10 beta_sc (9 - f_cm / 10 MPa)) 1e-6 beta_RH beta_s(t - t_s)
 *
 * The shrinkage formula and its example were read in ACI 209.2R-08 appendix C.3, the rest is from memory and holds the
 * code's table 2.1.10. There is no autogenous part.
 * SPDX-License-Identifier: MIT */
#ifndef KERNLINE_MC1990_H
#define KERNLINE_MC1990_H

#include "time_concrete.h"
#include "time_scope.h"

/* As in aashto_2020.h. */
double mc1990_creep(const time_concrete *c, double age, double loading);
double mc1990_drying(const time_concrete *c, double age);
void mc1990_outside(const time_concrete *c, double loading, time_scope *scope);

/* beta_H without and with the strength factor alpha_3 of later editions: (shape + 250 alpha) <= 1500 alpha, days. */
double mc1990_drying_time(const time_concrete *c, double alpha);
/* (d / (beta_H + d))^exponent, 0 for d <= 0. */
double mc1990_course(double since, double drying_time, double exponent);
/* sqrt(d / (350 (h / 100 mm)^2 + d)): 0.035 h^2 of later editions is the same. */
double mc1990_drying_course(const time_concrete *c, double age);

#endif
