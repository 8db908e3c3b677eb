/* force_seating.h - wedges draw in: friction turns round near an anchor, exactly.
 *
 * Seating at the start leaves A = min(B, a exp(+phi)), at the end A = min(B, b exp(-phi)), with the level a or b such that
 * the integral of (B - A)/(E A) ds is the set. When both ends seat and their zones would meet, A is a exp(+phi) up to a
 * still point and b exp(-phi) beyond it, equal there (or within a corner's friction), each side having its own set.
 * SPDX-License-Identifier: MIT */
#ifndef KERNLINE_FORCE_SEATING_H
#define KERNLINE_FORCE_SEATING_H

#include "force_cells.h"

typedef struct force_zone {
    double level; /* N, of the branch */
    double still; /* X where the movement is used up */
    bool whole;   /* it reaches the far anchor */
} force_zone;

/* Seat one end (at_end: the last anchor) of the curve in `cells`.
 * @param need set times E A, N·m, not negative.
 * @return false when the set would leave no force. */
bool force_seat_one(const force_cells *cells, bool at_end, double need, force_zone *zone);

/* Both ends at once. @return false when the sets would leave no force. */
bool force_seat_both(const force_cells *cells, const double need[2], force_zone zone[2]);

#endif
