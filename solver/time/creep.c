/* creep.c - see creep.h.
 * SPDX-License-Identifier: MIT */
#include "creep.h"

#include <math.h>

#include "aashto_2020.h"
#include "aci209_1992.h"
#include "en1992_2004.h"
#include "material.h"
#include "mc1990.h"
#include "mc1999.h"
#include "mc2010.h"
#include "time_curve.h"

#define YOUNGEST_LOADING    1.0  /* day */
#define TANGENT_OVER_SECANT 1.05 /* EN 1992-1-1:2004 3.1.4 (2) */

double creep_coefficient(time_law law, const time_concrete *c, double age, double loading)
{
    if (age <= loading) {
        return 0.0;
    }
    const double counted = fmax(loading / KL_DAY, YOUNGEST_LOADING);
    const double now = counted + (age - loading) / KL_DAY;
    switch (law) {
    case TIME_LAW_AASHTO_2020:
        return aashto_2020_creep(c, now, counted);
    case TIME_LAW_ACI209_1992:
        return aci209_1992_creep(c, now, counted);
    case TIME_LAW_MC1990:
        return mc1990_creep(c, now, counted);
    case TIME_LAW_MC1999:
        return mc1999_creep(c, now, counted);
    case TIME_LAW_EN1992_2004:
        return en1992_2004_creep(c, now, counted);
    case TIME_LAW_MC2010:
        return mc2010_creep(c, now, counted);
    case TIME_LAW_USER:
        return time_curve_at(&c->material->creep_curve, age - loading);
    case TIME_LAW_NONE:
    case TIME_LAW_COUNT:
        break;
    }
    return 0.0;
}

static double tangent_modulus(time_law law, const kl_material *material)
{
    const double modulus = material_modulus(material, 28.0 * KL_DAY);
    const bool secant = material->modulus_law == KL_LAW_EN1992_2004 ||
                        (law == TIME_LAW_EN1992_2004 && material->modulus_law != KL_LAW_MC1990);
    return secant ? TANGENT_OVER_SECANT * modulus : modulus;
}

double creep_reference_modulus(time_law law, const time_concrete *c, double loading)
{
    switch (law) {
    case TIME_LAW_MC1990:
    case TIME_LAW_MC1999:
    case TIME_LAW_EN1992_2004:
    case TIME_LAW_MC2010:
        return tangent_modulus(law, c->material);
    case TIME_LAW_NONE:
    case TIME_LAW_USER:
    case TIME_LAW_AASHTO_2020:
    case TIME_LAW_ACI209_1992:
    case TIME_LAW_COUNT:
        break;
    }
    return material_modulus(c->material, loading);
}

double creep_compliance(time_law law, const time_concrete *c, double age, double loading)
{
    return 1.0 / material_modulus(c->material, loading) +
           creep_coefficient(law, c, age, loading) / creep_reference_modulus(law, c, loading);
}

double creep_linear_limit(time_law law)
{
    switch (law) {
    case TIME_LAW_EN1992_2004:
        return 0.45; /* 3.1.4 (4), from memory */
    case TIME_LAW_MC1990:
    case TIME_LAW_MC1999:
    case TIME_LAW_MC2010:
        return 0.40; /* MC 1990 2.1.6.4.3 (a), MC 2010 5.1.9.4.3, from memory */
    case TIME_LAW_ACI209_1992:
        return 0.50; /* ACI 209R-92 2.3, from memory */
    case TIME_LAW_NONE:
    case TIME_LAW_USER:
    case TIME_LAW_AASHTO_2020:
    case TIME_LAW_COUNT:
        break;
    }
    return NAN;
}

double creep_linear_stress(time_law law, const kl_material *material, double loading)
{
    const bool of_mean = law == TIME_LAW_MC1990 || law == TIME_LAW_MC1999 || law == TIME_LAW_MC2010;
    const time_concrete c = {.material = material};
    const double mean = of_mean ? time_concrete_mean_strength(&c) / material->strength : 1.0;
    const double counted = fmax(loading, YOUNGEST_LOADING * KL_DAY);
    return creep_linear_limit(law) * mean * material_strength(material, counted);
}

time_scope creep_outside(time_law law, const time_concrete *c, double loading)
{
    time_scope scope = {.count = 0};
    const double days = loading / KL_DAY;
    switch (law) {
    case TIME_LAW_AASHTO_2020:
        aashto_2020_outside(c, days, &scope);
        break;
    case TIME_LAW_ACI209_1992:
        aci209_1992_outside(c, days, &scope);
        break;
    case TIME_LAW_MC1990:
    case TIME_LAW_MC1999:
        mc1990_outside(c, days, &scope);
        break;
    case TIME_LAW_EN1992_2004:
        en1992_2004_outside(c, days, &scope);
        break;
    case TIME_LAW_MC2010:
        mc2010_outside(c, days, &scope);
        break;
    case TIME_LAW_NONE:
    case TIME_LAW_USER:
    case TIME_LAW_COUNT:
        break;
    }
    return scope;
}

static double subject_elastic(const void *context, double loading)
{
    const creep_subject *s = context;
    return 1.0 / material_modulus(s->concrete.material, loading);
}

static double subject_delayed(const void *context, double age, double loading)
{
    const creep_subject *s = context;
    return creep_coefficient(s->law, &s->concrete, age, loading) /
           creep_reference_modulus(s->law, &s->concrete, loading);
}

creep_function creep_function_of(const creep_subject *subject)
{
    return (creep_function){.context = subject,
                            .elastic = subject_elastic,
                            .delayed = subject_delayed,
                            .separable = subject->law != TIME_LAW_MC2010};
}

double creep_function_compliance(const creep_function *f, double age, double loading)
{
    return f->elastic(f->context, loading) + f->delayed(f->context, age, loading);
}
