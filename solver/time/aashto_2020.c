/* aashto_2020.c - see aashto_2020.h.
 * SPDX-License-Identifier: MIT */
#include "aashto_2020.h"

#include <math.h>

#define KSI  6894757.293168361 /* Pa */
#define INCH 0.0254            /* m */

/* Drying that begins before five days of curing adds a fifth to the shrinkage: 5.4.2.3.3, last paragraph. */
#define EARLY_DRYING_AGE    5.0
#define EARLY_DRYING_FACTOR 1.20

static double size_factor(const time_concrete *c)
{
    return fmax(1.45 - 0.13 * c->volume_to_surface / INCH, 1.0);
}

static double strength_factor(const time_concrete *c)
{
    return 5.0 / (1.0 + time_concrete_transfer_strength(c) / KSI);
}

/* k_td; the bracket is negative only beyond 25 ksi, far out of scope: there it is 0 and all has happened at once. */
static double time_factor(const time_concrete *c, double since)
{
    if (since <= 0.0) {
        return 0.0;
    }
    const double f = time_concrete_transfer_strength(c) / KSI;
    return since / (fmax(12.0 * (100.0 - 4.0 * f) / (f + 20.0), 0.0) + since);
}

double aashto_2020_creep(const time_concrete *c, double age, double loading)
{
    const double humidity = 1.56 - 0.008 * (100.0 * c->humidity);
    return 1.9 * size_factor(c) * humidity * strength_factor(c) * time_factor(c, age - loading) *
           pow(loading, -0.118);
}

double aashto_2020_drying(const time_concrete *c, double age)
{
    const double cured = time_concrete_cured(c->material) / KL_DAY;
    const double humidity = 2.00 - 0.014 * (100.0 * c->humidity);
    const double early = cured < EARLY_DRYING_AGE ? EARLY_DRYING_FACTOR : 1.0;
    return -0.48e-3 * early * size_factor(c) * humidity * strength_factor(c) *
           time_factor(c, age - cured);
}

void aashto_2020_outside(const time_concrete *c, double loading, time_scope *scope)
{
    time_scope_add(scope, c->material->strength > 15.0 * KSI, "strength above 15 ksi");
    time_scope_add(scope, c->volume_to_surface > 6.0 * INCH, "volume to surface above 6 in");
    time_scope_add(scope, loading < 1.0, "loading before an age of 1 day");
}
