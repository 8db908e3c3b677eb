/* force_scale.h - the largest forces at work in a model, beside which what is left where they cancel is rounding.
 *
 * An action that ought to be 0, as the secondary one of a beam that no support restrains, is computed from the forces of tendons,
 * loads and supports, and comes out as large as these were rounded by.
 * SPDX-License-Identifier: MIT */
#ifndef KERNLINE_FORCE_SCALE_H
#define KERNLINE_FORCE_SCALE_H

#include "selection.h"

/* N: the largest of the jacking forces of the tendon groups, of what the loads of a case come to without their signs (moments at a
 * lever of one metre), and of the forces of the supports in the state. @return KL_OK, or what the results
 * answered. */
kl_status force_scale_of_state(const kl_results *results, kl_state state, double *scale);

/* The same over all states of a selection; without states that of tendons and loads. */
kl_status force_scale_of(const kl_results *results, const selection *s, double *scale);

/* Make *scale the forces of the supports in the state, where these are larger. @return likewise */
kl_status force_scale_widen(const kl_results *results, kl_state state, double *scale);

#endif
