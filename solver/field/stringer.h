/* stringer.h - sag of a stringer under fresh concrete.
 *
 * A span of form between two carriers at x0 and x1 is a simple beam; at an end of the line it overhangs as far as the
 * concrete goes. With w(x) the weight from the beam's end `from` on, R0 and R1 what it puts on the carriers,
 *
 *     E I sag(x) = F(x) - F(x0) - R0 <x - x0>^3 / 6 - R1 <x - x1>^3 / 6 + C (x - x0),   F(x) = integral of w(s) (x - s)^3 / 6,
 *
 * <a> being a where it is positive, else 0, and C such that the sag is 0 at x1 (Macaulay's method).
 * SPDX-License-Identifier: MIT */
#ifndef KERNLINE_STRINGER_H
#define KERNLINE_STRINGER_H

#include "result_store.h"

/* The falsework whose stringer carries the form between carriers `span` and `span` + 1 of a pour; KL_NONE: none does. It
 * goes from row to row of one falsework, and from its row to a node beside it. */
kl_index stringer_under(const frame_mesh *mesh, const form_pour *pour, kl_index span);

/* Sag at x, m, + down. */
double stringer_sag(
    const frame_mesh *mesh, const form_pour *pour, kl_index span, kl_index falsework, double x);

#endif
