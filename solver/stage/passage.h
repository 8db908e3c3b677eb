/* passage.h - the passage of time from one event to the next.
 *
 * Where something that stands creeps, shrinks or relaxes, time goes in steps that are geometric from the event on
 * (time_steps.h). A step is one increment like any other, contacts included, on sections whose concrete has the step's
 * modulus, one over the compliance of a stress that comes evenly in it. Initial strains of the concrete are its creep
 * from what it remembers, a column for each source (creep_memory.h), and its shrinkage; tendons lose by relaxation
 * (relaxing.h). A gap that closes is charged to creep of weight.
 * SPDX-License-Identifier: MIT */
#ifndef KERNLINE_PASSAGE_H
#define KERNLINE_PASSAGE_H

#include "run.h"

typedef struct passage {
    double event, end; /* s since day 0 */
    int count, next;   /* steps in all; the first whose end has not been reached */
    bool acts;         /* does time bring forces or movements? */
} passage;

/* Begin at the time of the state. */
kl_status passage_begin(analysis_run *run, double end, passage *p);

/* Go on to a time not beyond the end, or just get there where time does nothing but age the concrete. */
kl_status passage_go(analysis_run *run, passage *p, double time);

#endif
