/* tendon_stress.h - the stress in tendons at the jack, at the anchors and along the tendon after seating, in service.
 *
 * Stressing limits are held at each stressing itself, whatever time the check names; the service limit, and a tension
 * given in the model, over the states of the check.
 * SPDX-License-Identifier: MIT */
#ifndef KERNLINE_TENDON_STRESS_H
#define KERNLINE_TENDON_STRESS_H

#include "check_report.h"
#include "rules.h"

/* Evaluate the tendons of check `index`: one row for every limit that the rules have for it. Condition transfer asks
 * for the stressing limits, service and sustained for the service limit at every state, none for all of them, the
 * service limit then at the last state.
 * @return KL_OK, KL_NO_MEMORY, KL_TOO_LARGE. */
kl_status
tendon_stress_check(kl_results *results, kl_index index, kl_diags *diags, kl_check_report *report);

#endif
