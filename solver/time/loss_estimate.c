/* loss_estimate.c - see loss_estimate.h.
 * SPDX-License-Identifier: MIT */
#include "loss_estimate.h"

#include <math.h>

/* How much of a free strain the steel takes as loss: the concrete gives way to the steel, the more so the more it creeps. */
static double steel_share(const loss_place *p, double ageing)
{
    const double n = p->steel_modulus / p->concrete_modulus;
    const double e = p->eccentricity;
    const double steel = p->steel_area / p->area * (1.0 + p->area * e * e / p->inertia);
    return 1.0 / (1.0 + n * steel * (1.0 + ageing * p->creep));
}

static loss_parts strain_losses(const loss_place *p, double share)
{
    return (loss_parts){
        .factor = share,
        .shrinkage = p->shrinkage * p->steel_modulus * share,
        .creep = p->steel_modulus * share *
                 (p->concrete_stress / p->concrete_modulus * p->creep + p->later_creep),
    };
}

loss_parts
loss_estimate_aashto_2020(const loss_place *place, double stress, double yield, bool low_relaxation)
{
    loss_parts parts = strain_losses(place, steel_share(place, 0.7));
    parts.relaxation = fmax(stress / (low_relaxation ? 30.0 : 7.0) * (stress / yield - 0.55), 0.0);
    return parts;
}

loss_parts loss_estimate_en1992_2004(const loss_place *place, double relaxation)
{
    const double share = steel_share(place, 0.8);
    loss_parts parts = strain_losses(place, share);
    parts.relaxation = 0.8 * relaxation * share;
    return parts;
}
