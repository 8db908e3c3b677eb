/* rebar.h - what the reinforcing bars of a section add to it, and the concrete they take the place of.
 *
 * A layer lies at its depth below the section's top at that station and works as a grouted tendon that runs along the
 * member: it adds E_s A_s [[1, -y], [-y, y^2]] and displaces A_s of concrete. Between two sections each layer of either
 * counts by the section's share, so that equal layers make one. A bare section that does not say where its top is has
 * none.
 * SPDX-License-Identifier: MIT */
#ifndef KERNLINE_REBAR_H
#define KERNLINE_REBAR_H

#include "element.h"

/* About the member's line. */
typedef struct rebar_sums {
    double area, first, second; /* of the bars, m^2, m^3, m^4 */
    double ea, es, ei;          /* times their moduli, N, N·m, N·m^2 */
} rebar_sums;

/* @param top height of the section's top above the member's line. */
rebar_sums rebar_at(const kl_model *model, const member_section *where, double top);

/* Does any member of the model have rebar that counts? */
bool rebar_counts(const kl_model *model);

#endif
