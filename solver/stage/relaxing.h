/* relaxing.h - tendons lose stress by relaxation while time passes.
 *
 * At each trace point the steel goes its own way from the day of its stressing (relaxation.h), under the stress that its
 * present length alone would give it: what it has now and what relaxation has taken. Where the tendon is grouted it loses
 * there what the steel there loses; before, or unbonded, it slips until the force has changed by the same all along, the
 * mean over its length. The loss is put in like any other (cause relaxation): the concrete gives way, and the tendon follows.
 * A tendon that is stressed again begins anew with its new stress: what it lost before is pulled back by the jack.
 * SPDX-License-Identifier: MIT */
#ifndef KERNLINE_RELAXING_H
#define KERNLINE_RELAXING_H

#include "action.h"
#include "relaxation.h"
#include "state.h"

typedef struct relaxing_point {
    relaxation_state state;
    double reference; /* Pa at the start of the last step */
} relaxing_point;

typedef struct relaxing {
    const frame_mesh *mesh;
    const tendon_trace *traces;
    const kl_index *first_trace;
    relaxing_point *points; /* at each trace point of each tendon */
    double *change;         /* workspace: at the trace points of one tendon, N in the group */
    double
        pace; /* of the last step: length on the scale of log time since the event; 0: none yet */
    double pace_ratio; /* the step's at hand to the last one's; 0: unknown */
} relaxing;

kl_status relaxing_create(const frame_mesh *mesh,
                          const tendon_trace *traces,
                          const kl_index *first_trace,
                          arena *a,
                          relaxing *out);

/* A tendon has been stressed. */
void relaxing_begin(relaxing *r, kl_index tendon);
/* An event: from now on time counts from here. */
void relaxing_interrupt(relaxing *r);
/* A step begins so long after the event. */
void relaxing_pace(relaxing *r, double since, double duration);

/* Does a tendon relax now? */
bool relaxing_is_under_way(const relaxing *r, const stage_state *state, kl_index tendon);

/* Turn the force of a tendon at its trace points (r->change, N in the group) into its change by relaxation in a step of
 * time, the same all along when it slips. The points move on. */
void relaxing_step(relaxing *r, kl_index tendon, double duration, bool slips);

#endif
