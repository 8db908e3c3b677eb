/* mc1990.c - see mc1990.h.
 * SPDX-License-Identifier: MIT */
#include "mc1990.h"

#include <math.h>

#define MPA 1e6

double mc1990_drying_time(const time_concrete *c, double alpha)
{
    const double h = time_concrete_notional_size(c);
    const double humid = 1.0 + pow(1.2 * c->humidity, 18.0);
    return fmin(1.5 * humid * h + 250.0 * alpha, 1500.0 * alpha);
}

double mc1990_course(double since, double drying_time, double exponent)
{
    return since <= 0.0 ? 0.0 : pow(since / (drying_time + since), exponent);
}

double mc1990_drying_course(const time_concrete *c, double age)
{
    const double h = time_concrete_notional_size(c) / 100.0;
    return mc1990_course(age - time_concrete_cured(c->material) / KL_DAY, 350.0 * h * h, 0.5);
}

double mc1990_creep(const time_concrete *c, double age, double loading)
{
    const double h = time_concrete_notional_size(c) / 100.0;
    const double tens = time_concrete_mean_strength(c) / (10.0 * MPA);
    const double humidity = 1.0 + (1.0 - c->humidity) / (0.46 * cbrt(h));
    const double young = 1.0 / (0.1 + pow(time_concrete_effective_age(c, loading), 0.2));
    return humidity * 5.3 / sqrt(tens) * young *
           mc1990_course(age - loading, mc1990_drying_time(c, 1.0), 0.3);
}

double mc1990_drying(const time_concrete *c, double age)
{
    /* beta_sc: 4 slow, 5 normal and rapid, 8 rapid hardening high strength, which `rapid` is taken to mean. */
    static const double cements[] = {
        [KL_CEMENT_NORMAL] = 5.0, [KL_CEMENT_SLOW] = 4.0, [KL_CEMENT_RAPID] = 8.0};
    const double tens = time_concrete_mean_strength(c) / (10.0 * MPA);
    const double strain = (160.0 + 10.0 * cements[c->material->cement] * (9.0 - tens)) * 1e-6;
    /* In water concrete swells: +0.25 from 99 % on. */
    const double humidity = c->humidity >= 0.99 ? 0.25 : -1.55 * (1.0 - pow(c->humidity, 3.0));
    return strain * humidity * mc1990_drying_course(c, age);
}

void mc1990_outside(const time_concrete *c, double loading, time_scope *scope)
{
    time_scope_add(scope, c->material->strength < 12.0 * MPA, "strength below 12 MPa");
    time_scope_add(scope, c->material->strength > 80.0 * MPA, "strength above 80 MPa");
    time_scope_add(scope, c->humidity < 0.40, "humidity below 40 %");
    time_scope_add(scope, loading < 1.0, "loading before an age of 1 day");
    time_scope_add(scope, isnan(loading) && time_concrete_cured(c->material) > 14.0 * KL_DAY,
                   "curing of more than 14 days");
}
