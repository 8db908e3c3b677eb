/* mc2010.c - see mc2010.h.
 * SPDX-License-Identifier: MIT */
#include "mc2010.h"

#include <math.h>

#include "mc1990.h"

#define MPA 1e6

/* Tables of 5.1.9.4.4 by cement: alpha_bs of basic, alpha_ds1 and alpha_ds2 of drying shrinkage. */
typedef struct mc2010_cement {
    double basic, drying_1, drying_2;
} mc2010_cement;

static mc2010_cement cement_of(const time_concrete *c)
{
    static const mc2010_cement cements[] = {
        [KL_CEMENT_NORMAL] = {700.0, 4.0, 0.012},
        [KL_CEMENT_SLOW] = {800.0, 3.0, 0.013},
        [KL_CEMENT_RAPID] = {600.0, 6.0, 0.012},
    };
    return cements[c->material->cement];
}

static double mean_strength(const time_concrete *c)
{
    return time_concrete_mean_strength(c) / MPA;
}

double mc2010_basic_creep(const time_concrete *c, double age, double loading)
{
    const double speed = 30.0 / time_concrete_effective_age(c, loading) + 0.035;
    return 1.8 / pow(mean_strength(c), 0.7) * log1p(speed * speed * fmax(age - loading, 0.0));
}

double mc2010_drying_creep(const time_concrete *c, double age, double loading)
{
    const double f = mean_strength(c), t0 = time_concrete_effective_age(c, loading);
    const double h = time_concrete_notional_size(c);
    const double alpha = sqrt(35.0 / f);
    const double drying_time = fmin(1.5 * h + 250.0 * alpha, 1500.0 * alpha);
    const double humidity = (1.0 - c->humidity) / cbrt(0.1 * h / 100.0);
    return 412.0 / pow(f, 1.4) * humidity / (0.1 + pow(t0, 0.2)) *
           mc1990_course(age - loading, drying_time, 1.0 / (2.3 + 3.5 / sqrt(t0)));
}

double mc2010_creep(const time_concrete *c, double age, double loading)
{
    return mc2010_basic_creep(c, age, loading) + mc2010_drying_creep(c, age, loading);
}

double mc2010_drying(const time_concrete *c, double age)
{
    const mc2010_cement cement = cement_of(c);
    const double f = mean_strength(c);
    const double strain = (220.0 + 110.0 * cement.drying_1) * exp(-cement.drying_2 * f) * 1e-6;
    /* Strong concrete dries itself, and swells from a lower humidity on: beta_s1 = (35 / f_cm)^0.1 <= 1. */
    const double swelling = 0.99 * fmin(pow(35.0 / f, 0.1), 1.0);
    const double humidity = c->humidity >= swelling ? 0.25 : -1.55 * (1.0 - pow(c->humidity, 3.0));
    return strain * humidity * mc1990_drying_course(c, age);
}

double mc2010_autogenous(const time_concrete *c, double age)
{
    const double tens = mean_strength(c) / 10.0;
    const double final = cement_of(c).basic * pow(tens / (6.0 + tens), 2.5) * 1e-6;
    return -final * -expm1(-0.2 * sqrt(fmax(age, 0.0)));
}

void mc2010_outside(const time_concrete *c, double loading, time_scope *scope)
{
    time_scope_add(scope, mean_strength(c) < 20.0, "mean strength below 20 MPa");
    time_scope_add(scope, mean_strength(c) > 130.0, "mean strength above 130 MPa");
    time_scope_add(scope, c->humidity < 0.40, "humidity below 40 %");
    time_scope_add(scope, loading < 1.0, "loading before an age of 1 day");
    time_scope_add(scope, isnan(loading) && time_concrete_cured(c->material) > 14.0 * KL_DAY,
                   "curing of more than 14 days");
}
