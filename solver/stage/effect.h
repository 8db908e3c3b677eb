/* effect.h - what contacts do to an increment, and what an increment does to them.
 *
 * A row of posts carries max(0, phi) with phi = f0 + k c, c its closing since set; phi moves on by k dc whether it
 * bears or not, so one number a row tells force and gap. Within an increment:
 *   bears before and after:  a spring
 *   bears, then open:        its force goes, cause by cause, as a load
 *   open, then bears:        a spring that starts at phi < 0 (the gap to travel), charged to the operation
 *   open before and after:   nothing
 * Push supports and bearings are rigid: held or free, with a gap in metres.
 * SPDX-License-Identifier: MIT */
#ifndef KERNLINE_EFFECT_H
#define KERNLINE_EFFECT_H

#include "run.h"

/* Set the pending loads to what was prepared plus what the changes of contacts bring; gaps that close go to `own`. */
void effect_loads(analysis_run *run, const contact_list *contacts, pending_column *own);

/* Values of all contacts from the responses under the set tried. @return the largest force at hand: in contacts that are
 * closed and inside the elements. */
double effect_evaluate(const analysis_run *run, contact_list *contacts);

/* The largest movement of a node in the responses, m. */
double effect_largest_movement(const analysis_run *run);

/* What a contact carries now, direct changes of the increment included: under one cause, signed as the column keeps it;
 * in all, pushing +. */
double effect_carried(const analysis_run *run, const pending_column *column, const contact *c);
double effect_force(const analysis_run *run, const contact *c);

/* How much a row closes under movements u (3 a node), m. */
double effect_row_closing(const analysis_run *run, kl_index row, const double *u);

/* Add an amount along a hold to its node's vector; the part of a node's vector along a hold. */
void effect_push_hold(const analysis_run *run,
                      const hold_state *hold,
                      double amount,
                      double *node_values);
double
effect_along_hold(const analysis_run *run, const hold_state *hold, const double *node_values);

#endif
