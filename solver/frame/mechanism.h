/* mechanism.h - is a poor pivot a mechanism, and what moves?
 *
 * A pivot far below its own diagonal is only a suspect: long sound cantilevers have such. The mode it gives, x from
 * (K + d e e^T) x = d e with d the unknown's own diagonal, is the mechanism when it strains no element, spring or
 * contact beyond rounding.
 * SPDX-License-Identifier: MIT */
#ifndef KERNLINE_MECHANISM_H
#define KERNLINE_MECHANISM_H

#include "assemble.h"

/* Factor the assembled system and look into poor pivots. On return with KL_OK the factor is complete and sound.
 * @param quiet do not report (a contact search that tries sets).
 * @return KL_MECHANISM after naming what moves, by node or place and direction, with the line of the input;
 * KL_NUMERIC when the stiffness is too uneven to solve. */
kl_status mechanism_factor(frame_system *system,
                           const frame_structure *structure,
                           bool quiet,
                           kl_diags *diags);

#endif
