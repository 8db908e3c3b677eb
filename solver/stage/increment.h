/* increment.h - solve the prepared increment with the contacts that hold at its end.
 *
 * Rows of posts, push supports and push bearings are unilateral. The set of those that bear is found by block
 * principal pivoting: all contradicting ones change at once while their number falls, one at a time (the last in
 * order) otherwise, which cannot cycle (L. F. Portugal, J. J. Judice, L. N. Vicente, Mathematics of Computation 63,
 * 1994; K. G. Murty's least-index rule). From memory; the law is checked by tests that start from every kind of set.
 * SPDX-License-Identifier: MIT */
#ifndef KERNLINE_INCREMENT_H
#define KERNLINE_INCREMENT_H

#include "run.h"

/* Solve and commit: the state's columns, rows, holds, joints and tendons move on; the pending list is empty again.
 * @param kind, load_case the operation's own cause: gaps that close are charged to it.
 * @param excepted a tendon that does not follow (it is being stressed), KL_NONE: none.
 * @return KL_MECHANISM or KL_NO_CONTACT with a diagnostic. */
kl_status increment_solve(analysis_run *run, kl_cause_kind kind, kl_index load_case, kl_index excepted);

#endif
