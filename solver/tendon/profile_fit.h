/* profile_fit.h - from points to parabolas and lines: every piece of a profile from the facts its rows give.
 *
 * A straight piece has two unknowns, a curve three. A row with an ordinate fixes the piece on either side there; `high`
 * and `low` give each curve beside them a flat end; an inflection lets both pieces share height and slope; a `through`
 * row lets them share the slope unless both are straight (a corner). Rows that share tie pieces into a run; each run is
 * one small linear system, and must have exactly as many independent facts as unknowns.
 * SPDX-License-Identifier: MIT */
#ifndef KERNLINE_PROFILE_FIT_H
#define KERNLINE_PROFILE_FIT_H

#include "profile_rows.h"

/* Most pieces tied to one another without a flat point, an anchor or a corner between. */
#define PROFILE_RUN_LIMIT 400

/* y = y0 + m0 t + c t^2, t = X - knot's x. */
typedef struct profile_curve {
    double y0, m0, c;
} profile_curve;

/* Fit the count - 1 pieces between the knots; the heights of inflections are filled in.
 * @param curves count - 1 of them, out.
 * @return KL_BAD_MODEL with profile-too-few-facts, profile-too-many-facts, profile-too-long; KL_NO_MEMORY. */
kl_status profile_fit(const kl_model *model,
                      profile_knot *knots,
                      kl_index count,
                      kl_diags *diags,
                      profile_curve *curves);

#endif
