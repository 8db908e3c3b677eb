/* places.h - the few places of a member that a checker looks at: faces of columns and the middles of spans.
 * SPDX-License-Identifier: MIT */
#ifndef KERNLINE_PLACES_H
#define KERNLINE_PLACES_H

#include "kernline/results.h"

#define PLACE_LIMIT 24

typedef struct member_place {
    double station;
    kl_side side;
    const char *name; /* "face", "midspan", a node's name */
} member_place;

/* Rising. A member without columns or supports between its ends has its quarter points' middle alone.
 * @param count out. @return a failure of the results. */
kl_status places_of_member(kl_results *results,
                           kl_index member,
                           member_place places[PLACE_LIMIT],
                           int *count);

#endif
