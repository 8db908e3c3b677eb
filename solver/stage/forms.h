/* forms.h - fresh concrete on its forms: who carries it, and what striking the forms puts where.
 *
 * A member poured over erected rows is wet first: weight without stiffness, carried by simple spans from carrier to
 * carrier (rows, and its nodes that already stand), a piece beyond the last carrier by the lever of the last span.
 * When it sets, the forms go on pressing with its own weight, so that weight and form pressure cancel along it.
 * Striking a span takes its form pressure off the member and its two shares off its carriers.
 * SPDX-License-Identifier: MIT */
#ifndef KERNLINE_FORMS_H
#define KERNLINE_FORMS_H

#include "run.h"

/* Put the wet weight of one line of members (joined end to end, none upright) on its carriers, as loads of cause weight
 * in the increment being prepared, and remember the spans and the pour.
 * @param members kept by the spans: must live as long as the run.
 * @return KL_BAD_MODEL with a diagnostic: fewer than two carriers, or a carrier that the form would pull on. */
kl_status
forms_pour(analysis_run *run, const kl_operation *op, const kl_index *members, kl_index count);

/* Rows that carried or are ready under the line become set, with what they carry now as their force at set. */
void forms_set(analysis_run *run, const kl_index *members, kl_index count);

/* Strike every span beside a row, as part of the increment being prepared. */
kl_status forms_strike_beside(analysis_run *run, kl_index row);

/* Strike the spans between two nodes of a line whose last row has been released. */
kl_status forms_strike_rest(analysis_run *run);

#endif
