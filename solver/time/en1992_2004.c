/* en1992_2004.c - see en1992_2004.h.
 * SPDX-License-Identifier: MIT */
#include "en1992_2004.h"

#include <math.h>

#include "mc1990.h"
#include "mc1999.h"

#define MPA 1e6

double en1992_2004_creep(const time_concrete *c, double age, double loading)
{
    const mc1999_factors f = mc1999_creep_factors(c, loading, true);
    return f.humidity * 16.8 / sqrt(time_concrete_mean_strength(c) / MPA) * f.loading_age *
           mc1990_course(age - loading, f.drying_time, 0.3);
}

double en1992_2004_nominal_drying(const time_concrete *c)
{
    /* alpha_ds1, alpha_ds2 of classes N, S, R: B.2. */
    static const double cements[][2] = {[KL_CEMENT_NORMAL] = {4.0, 0.12},
                                        [KL_CEMENT_SLOW] = {3.0, 0.13},
                                        [KL_CEMENT_RAPID] = {6.0, 0.11}};
    const double *alpha = cements[c->material->cement];
    const double tens = time_concrete_mean_strength(c) / (10.0 * MPA);
    const double humidity = 1.55 * (1.0 - pow(c->humidity, 3.0));
    return 0.85 * (220.0 + 110.0 * alpha[0]) * exp(-alpha[1] * tens) * 1e-6 * humidity;
}

/* k_h of table 3.3: 1.0, 0.85, 0.75, 0.70 at h0 = 100, 200, 300, 500 mm and beyond; linear between. */
static double size_factor(double h)
{
    static const double sizes[] = {100.0, 200.0, 300.0, 500.0};
    static const double factors[] = {1.0, 0.85, 0.75, 0.70};
    if (h <= sizes[0]) {
        return factors[0];
    }
    for (int i = 1; i < 4; i++) {
        if (h < sizes[i]) {
            const double share = (h - sizes[i - 1]) / (sizes[i] - sizes[i - 1]);
            return factors[i - 1] + share * (factors[i] - factors[i - 1]);
        }
    }
    return isnan(h) ? h : factors[3];
}

double en1992_2004_drying(const time_concrete *c, double age)
{
    const double h = time_concrete_notional_size(c);
    const double since = age - time_concrete_cured(c->material) / KL_DAY;
    if (since <= 0.0) {
        return 0.0;
    }
    const double course = since / (since + 0.04 * sqrt(h * h * h));
    return -course * size_factor(h) * en1992_2004_nominal_drying(c);
}

double en1992_2004_autogenous(const time_concrete *c, double age)
{
    const double final = 2.5 * fmax(c->material->strength / MPA - 10.0, 0.0) * 1e-6;
    return -final * -expm1(-0.2 * sqrt(fmax(age, 0.0)));
}

void en1992_2004_outside(const time_concrete *c, double loading, time_scope *scope)
{
    time_scope_add(scope, c->material->strength < 12.0 * MPA, "strength below 12 MPa");
    time_scope_add(scope, c->material->strength > 90.0 * MPA, "strength above 90 MPa");
    time_scope_add(scope, c->humidity < 0.40, "humidity below 40 %");
    time_scope_add(scope, loading < 1.0, "loading before an age of 1 day");
}
