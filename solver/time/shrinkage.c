/* shrinkage.c - see shrinkage.h.
 * SPDX-License-Identifier: MIT */
#include "shrinkage.h"

#include <math.h>

#include "aashto_2020.h"
#include "aci209_1992.h"
#include "creep.h"
#include "en1992_2004.h"
#include "mc1990.h"
#include "mc2010.h"
#include "time_curve.h"

double shrinkage_drying(time_law law, const time_concrete *c, double age)
{
    const double days = age / KL_DAY;
    switch (law) {
    case TIME_LAW_AASHTO_2020:
        return aashto_2020_drying(c, days);
    case TIME_LAW_ACI209_1992:
        return aci209_1992_drying(c, days);
    case TIME_LAW_MC1990:
        return mc1990_drying(c, days);
    case TIME_LAW_EN1992_2004:
        return en1992_2004_drying(c, days);
    case TIME_LAW_MC1999: /* the same formula and constants */
    case TIME_LAW_MC2010:
        return mc2010_drying(c, days);
    case TIME_LAW_USER:
        return -time_curve_at(&c->material->shrinkage_curve,
                              age - time_concrete_cured(c->material));
    case TIME_LAW_NONE:
    case TIME_LAW_COUNT:
        break;
    }
    return 0.0;
}

double shrinkage_autogenous(time_law law, const time_concrete *c, double age)
{
    const double days = age / KL_DAY;
    switch (law) {
    case TIME_LAW_EN1992_2004:
        return en1992_2004_autogenous(c, days);
    case TIME_LAW_MC1999:
    case TIME_LAW_MC2010:
        return mc2010_autogenous(c, days);
    case TIME_LAW_NONE:
    case TIME_LAW_USER:
    case TIME_LAW_AASHTO_2020:
    case TIME_LAW_ACI209_1992:
    case TIME_LAW_MC1990:
    case TIME_LAW_COUNT:
        break;
    }
    return 0.0;
}

bool shrinkage_has_autogenous(time_law law)
{
    return law == TIME_LAW_EN1992_2004 || law == TIME_LAW_MC1999 || law == TIME_LAW_MC2010;
}

double shrinkage_strain(time_law law, const time_concrete *c, double age)
{
    return shrinkage_drying(law, c, age) + shrinkage_autogenous(law, c, age);
}

time_scope shrinkage_outside(time_law law, const time_concrete *c)
{
    return creep_outside(law, c, NAN); /* no load: what concerns curing instead */
}
