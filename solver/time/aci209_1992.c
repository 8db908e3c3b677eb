/* aci209_1992.c - see aci209_1992.h.
 * SPDX-License-Identifier: MIT */
#include "aci209_1992.h"

#include <math.h>

#define MM_PER_M 1000.0

/* A factor of the mix, 1 where the mix does not say. */
static double or_one(double factor)
{
    return isnan(factor) ? 1.0 : factor;
}

static time_mix mix_of(const time_concrete *c)
{
    return c->mix != NULL ? *c->mix : (time_mix){NAN, NAN, NAN, NAN};
}

static double product(const aci209_1992_factors *f)
{
    return f->age * f->humidity * f->size * f->slump * f->fines * f->cement * f->air;
}

aci209_1992_factors aci209_1992_creep_factors(const time_concrete *c, double loading)
{
    const time_mix mix = mix_of(c);
    return (aci209_1992_factors){
        .age = 1.25 * pow(loading, -0.118),
        .humidity = 1.27 - 0.67 * c->humidity,
        .size = 2.0 / 3.0 * (1.0 + 1.13 * exp(-0.0213 * c->volume_to_surface * MM_PER_M)),
        .slump = or_one(0.82 + 0.00264 * mix.slump * MM_PER_M),
        .fines = or_one(0.88 + 0.0024 * (100.0 * mix.fines)),
        .cement = 1.0, /* creep has no such factor */
        .air = or_one(isnan(mix.air) ? mix.air : fmax(0.46 + 0.09 * (100.0 * mix.air), 1.0)),
    };
}

static double shrinkage_humidity(double humidity)
{
    return humidity > 0.80 ? 3.00 - 3.0 * humidity : 1.40 - 1.02 * humidity;
}

static double shrinkage_fines(double percent)
{
    return percent > 50.0 ? 0.90 + 0.002 * percent : 0.30 + 0.014 * percent;
}

aci209_1992_factors aci209_1992_shrinkage_factors(const time_concrete *c)
{
    const time_mix mix = mix_of(c);
    /* Curing is tabled from one day on (table 2.5.3). */
    const double cured = time_concrete_cured(c->material) / KL_DAY;
    const double counted = cured < 1.0 ? 1.0 : cured;
    return (aci209_1992_factors){
        .age = 1.202 - 0.2337 * log10(counted),
        .humidity = shrinkage_humidity(c->humidity),
        .size = 1.2 * exp(-0.00472 * c->volume_to_surface * MM_PER_M),
        .slump = or_one(0.89 + 0.00161 * mix.slump * MM_PER_M),
        .fines = or_one(shrinkage_fines(100.0 * mix.fines)),
        .cement = or_one(0.75 + 0.00061 * mix.cement),
        .air = or_one(isnan(mix.air) ? mix.air : fmax(0.95 + 0.008 * (100.0 * mix.air), 1.0)),
    };
}

double aci209_1992_creep(const time_concrete *c, double age, double loading)
{
    const aci209_1992_factors f = aci209_1992_creep_factors(c, loading);
    const double power = pow(fmax(age - loading, 0.0), 0.6);
    return power / (10.0 + power) * 2.35 * product(&f);
}

double aci209_1992_drying(const time_concrete *c, double age)
{
    const aci209_1992_factors f = aci209_1992_shrinkage_factors(c);
    const double since = age - time_concrete_cured(c->material) / KL_DAY;
    return since <= 0.0 ? 0.0 : -780e-6 * since / (35.0 + since) * product(&f);
}

void aci209_1992_outside(const time_concrete *c, double loading, time_scope *scope)
{
    time_scope_add(scope, c->humidity < 0.40, "humidity below 40 %");
    time_scope_add(scope, c->material->cement == KL_CEMENT_SLOW, "slow cement");
    time_scope_add(scope, loading < 7.0, "loading before an age of 7 days");
    if (isnan(loading)) {
        time_scope_add(scope, time_concrete_cured(c->material) < 1.0 * KL_DAY,
                       "curing of less than 1 day");
        time_scope_add(scope, time_concrete_cured(c->material) > 28.0 * KL_DAY,
                       "curing of more than 28 days");
    }
}
