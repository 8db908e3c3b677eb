/* time_steps.h - when the steps of an analysis in time end, between one event and the next.
 *
 * Creep goes with the logarithm of the time since loading, so the steps are geometric from each event anew: the first ends
 * TIME_STEPS_FIRST after it, and each decade has the same number.
 * SPDX-License-Identifier: MIT */
#ifndef KERNLINE_TIME_STEPS_H
#define KERNLINE_TIME_STEPS_H

#include "kernline/model.h"

/* Creep by mc1990 has gone 4 % of its way after 0.01 day. */
#define TIME_STEPS_FIRST (0.01 * KL_DAY)
/* Halving every step moves a redundant that creep relaxes by less than 0.02 % at this fineness, for each law. */
#define TIME_STEPS_PER_DECADE 8

/* Number of steps in a span of time; 0 for a span that is not positive. */
int time_steps_count(double span, int per_decade);

/* Time from the event to the end of step i = 0 … count - 1; the last is the span itself. */
double time_steps_end(double span, int count, int i);

#endif
