/* aashto_2020.h - creep and shrinkage by AASHTO LRFD, 9th edition (2020), 5.4.2.3.
 *
 *     psi(t, t_i) = 1.9 k_s k_hc k_f k_td t_i^-0.118             (5.4.2.3.2-1), on the strain at loading: E(t_i)
 *     eps_sh      = k_s k_hs k_f k_td 0.48e-3                    (5.4.2.3.3-1)
 *     k_s = 1.45 - 0.13 V/S >= 1.0 (in);  k_hc = 1.56 - 0.008 H;  k_hs = 2.00 - 0.014 H (H in %);
 *     k_f = 5 / (1 + f'ci);  k_td = t / (12 (100 - 4 f'ci) / (f'ci + 20) + t)  (ksi)
 *
 * The t of k_td is the time SINCE loading, or since the end of curing: not the age. There is no autogenous part. All of it
 * is from memory. Moist curing: with accelerated curing a day counts as seven, and there is no word for that yet.
 * SPDX-License-Identifier: MIT */
#ifndef KERNLINE_AASHTO_2020_H
#define KERNLINE_AASHTO_2020_H

#include "time_concrete.h"
#include "time_scope.h"

/* psi at an age, loaded at an age; days, age >= loading. */
double aashto_2020_creep(const time_concrete *c, double age, double loading);
/* Strain since the end of curing, days; shortening negative. */
double aashto_2020_drying(const time_concrete *c, double age);
/* Loading age in days; NAN: of shrinkage. */
void aashto_2020_outside(const time_concrete *c, double loading, time_scope *scope);

#endif
