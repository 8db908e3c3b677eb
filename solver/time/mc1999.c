/* mc1999.c - see mc1999.h.
 * SPDX-License-Identifier: MIT */
#include "mc1999.h"

#include <math.h>

#include "mc1990.h"

#define MPA 1e6

mc1999_factors mc1999_creep_factors(const time_concrete *c, double loading, bool capped)
{
    const double ratio = 35.0 * MPA / time_concrete_mean_strength(c);
    const double alpha = capped ? fmin(ratio, 1.0) : ratio;
    const double size = 0.1 * cbrt(time_concrete_notional_size(c));
    return (mc1999_factors){
        .humidity = (1.0 + (1.0 - c->humidity) / size * pow(alpha, 0.7)) * pow(alpha, 0.2),
        .loading_age = 1.0 / (0.1 + pow(time_concrete_effective_age(c, loading), 0.2)),
        .drying_time = mc1990_drying_time(c, sqrt(alpha)),
    };
}

double mc1999_creep(const time_concrete *c, double age, double loading)
{
    const mc1999_factors f = mc1999_creep_factors(c, loading, false);
    const double tens = time_concrete_mean_strength(c) / (10.0 * MPA);
    return f.humidity * 5.3 / sqrt(tens) * f.loading_age *
           mc1990_course(age - loading, f.drying_time, 0.3);
}
