/* increment.h - solve the prepared increment with the contacts that hold at its end.
 * SPDX-License-Identifier: MIT */
#ifndef KERNLINE_INCREMENT_H
#define KERNLINE_INCREMENT_H

#include "run.h"

/* Solve and commit: the state's columns, rows, holds, joints and tendons move on; the pending list is empty again.
 * @param kind, load_case the operation's own cause: gaps that close are charged to it.
 * @param excepted a tendon that does not follow (it is being stressed), KL_NONE: none.
 * @return KL_MECHANISM or KL_NO_CONTACT with a diagnostic. */
kl_status
increment_solve(analysis_run *run, kl_cause_kind kind, kl_index load_case, kl_index excepted);

/* Form the elements where the structure has changed, so that tendon actions can be prepared on its sections. */
kl_status increment_form(analysis_run *run);

#endif
