/* stress_rule.h - which row of a code's table holds for the concrete of a member: by what the check says, and by the prestress that
 * the member has.
 * SPDX-License-Identifier: MIT */
#ifndef KERNLINE_STRESS_RULE_H
#define KERNLINE_STRESS_RULE_H

#include "arena.h"
#include "rules.h"

/* The prestress of every member of the model, in its order: bonded where each of its tendons is said to be, or is grouted by a
 * stage. In the arena. @return KL_OK, KL_NO_MEMORY. */
kl_status stress_rule_prestress(const kl_model *model, arena *a, const rule_tendons **of_member);

/* The row for a check's members of one kind of prestress; NULL: the rules say nothing there, or there are none. */
const rule_row *stress_rule_of(const kl_check *check, rule_tendons prestress, rule_side side);

/* Tell once, as "bonded-steel-unsaid", when a check leaves `bonded_steel` open, a member of it has bars, and its limit of
 * tension would be another with such steel. */
void stress_rule_warn(const kl_model *model,
                      const kl_check *check,
                      const rule_tendons *of_member,
                      kl_diags *diags);

#endif
