/* time_concrete.c - see time_concrete.h.
 * SPDX-License-Identifier: MIT */
#include "time_concrete.h"

#include <math.h>

#define MEAN_ABOVE_CHARACTERISTIC 8e6 /* Pa */
#define MM_PER_M                  1000.0

time_law time_law_of(kl_law law)
{
    switch (law) {
    case KL_LAW_USER:
        return TIME_LAW_USER;
    case KL_LAW_AASHTO_2020:
        return TIME_LAW_AASHTO_2020;
    case KL_LAW_ACI209_1992:
        return TIME_LAW_ACI209_1992;
    case KL_LAW_EN1992_2004:
        return TIME_LAW_EN1992_2004;
    case KL_LAW_MC1990:
        return TIME_LAW_MC1990;
    case KL_LAW_MC1999:
        return TIME_LAW_MC1999;
    case KL_LAW_MC2010:
        return TIME_LAW_MC2010;
    case KL_LAW_UNSET:
    case KL_LAW_NONE:
    case KL_LAW_VALUE:
    case KL_LAW_ACI_2019:
        break;
    }
    return TIME_LAW_NONE;
}

const char *time_law_name(time_law law)
{
    static const char *const names[] = {
        [TIME_LAW_NONE] = "none",
        [TIME_LAW_USER] = "user",
        [TIME_LAW_AASHTO_2020] = "aashto 2020",
        [TIME_LAW_ACI209_1992] = "aci209 1992",
        [TIME_LAW_MC1990] = "mc1990",
        [TIME_LAW_MC1999] = "mc1999",
        [TIME_LAW_EN1992_2004] = "en1992 2004",
        [TIME_LAW_MC2010] = "mc2010",
    };
    _Static_assert(sizeof names / sizeof names[0] == TIME_LAW_COUNT, "a name for each law");
    return names[law];
}

const char *time_law_source(time_law law)
{
    static const char *const sources[] = {
        [TIME_LAW_NONE] = "none",
        [TIME_LAW_USER] = "given in the model",
        [TIME_LAW_AASHTO_2020] = "aashto 2020 (AASHTO LRFD, 9th edition, 5.4.2.3, from memory)",
        [TIME_LAW_ACI209_1992] = "aci209 1992 (ACI 209R-92 chapter 2, in part from memory)",
        [TIME_LAW_MC1990] = "mc1990 (CEB-FIP Model Code 1990, 2.1.6.4, in part from memory)",
        [TIME_LAW_MC1999] =
            "mc1999 (Model Code 1990 as updated in 1999, ACI 209.2R-08, in part from memory)",
        [TIME_LAW_EN1992_2004] = "en1992 2004 (EN 1992-1-1:2004, 3.1.4 and annex B, from memory)",
        [TIME_LAW_MC2010] = "mc2010 (fib Model Code 2010, 5.1.9.4, from memory)",
    };
    _Static_assert(sizeof sources / sizeof sources[0] == TIME_LAW_COUNT, "a source for each law");
    return sources[law];
}

double time_concrete_transfer_strength(const time_concrete *c)
{
    const double given = c->material->transfer_strength;
    return isnan(given) ? 0.80 * c->material->strength : given;
}

double time_concrete_mean_strength(const time_concrete *c)
{
    return c->material->strength + MEAN_ABOVE_CHARACTERISTIC;
}

double time_concrete_cured(const kl_material *material)
{
    return isnan(material->cured) ? 7.0 * KL_DAY : material->cured;
}

double time_concrete_notional_size(const time_concrete *c)
{
    return 2.0 * c->volume_to_surface * MM_PER_M;
}

double time_concrete_effective_age(const time_concrete *c, double days)
{
    static const double exponents[] = {
        [KL_CEMENT_NORMAL] = 0.0, [KL_CEMENT_SLOW] = -1.0, [KL_CEMENT_RAPID] = 1.0};
    const double speed = 9.0 / (2.0 + pow(days, 1.2)) + 1.0;
    return fmax(days * pow(speed, exponents[c->material->cement]), 0.5);
}
