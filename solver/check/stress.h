/* stress.h - the stresses of concrete members held against rules or given limits.
 *
 * Every state of the check's range, the whole course of both faces (rigid parts and column faces included), and
 * both signs. One row for each (member, limit, face): its worst place and moment.
 * SPDX-License-Identifier: MIT */
#ifndef KERNLINE_STRESS_H
#define KERNLINE_STRESS_H

#include "check_report.h"
#include "rules.h"

/* Evaluate the members of check `index`. A limit that cannot be held (no strength stated, no section depth, the
 * member never stands) is told to diags and its row fails. A place that fails on the way but passes at the end of
 * the stage draws the warning "passes-only-at-stage-end"; for `after` checks the steps before are looked at too.
 * @return KL_OK, KL_NO_MEMORY, KL_TOO_LARGE. */
kl_status
stress_check(kl_results *results, kl_index index, kl_diags *diags, kl_check_report *report);

/* demand / limit; for a limit of 0: INFINITY beyond it, else 0. Both signed alike. */
double stress_ratio(double demand, double limit);
/* Does the demand keep within the limit (same sign: at most it; rounding allowed for)? */
bool stress_holds(double demand, double limit);

#endif
