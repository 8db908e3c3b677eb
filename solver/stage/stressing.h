/* stressing.h - the stressing of a tendon from slack, worked out once: the mesh wants its breaks, the stage its force,
 * who asks for the tendon its curves.
 * SPDX-License-Identifier: MIT */
#ifndef KERNLINE_STRESSING_H
#define KERNLINE_STRESSING_H

#include "run.h"

/* What force_stress gives; kept when the tendon was slack (locked NULL). */
typedef struct stressing {
    double share; /* of the jacking force; 0: nothing kept */
    force_curve before, after;
    force_record record;
} stressing;

/* Stress tendon t to `share` of its jacking force (force_stress tells how, and what it says to diags when it is not
 * known yet). */
kl_status stressing_find(analysis_run *run,
                         kl_index t,
                         double share,
                         const force_curve *locked,
                         kl_diags *diags,
                         stressing *out);

#endif
