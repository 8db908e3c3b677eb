/* consistency_hinges.h - which hinges are open, and whether a tendon runs through one.
 *
 * At an open hinge the concrete carries no moment. A tendon that goes on through it has one there, P times its height,
 * which the analysis does not force on the ends of the elements: such a tendon is refused. One that is anchored at the
 * hinge acts on one side of it only and is no matter.
 * SPDX-License-Identifier: MIT */
#ifndef KERNLINE_CONSISTENCY_HINGES_H
#define KERNLINE_CONSISTENCY_HINGES_H

#include "consistency.h"

typedef struct hinge_place {
    double station; /* m along the member: the face of a rigid end, for a hinge at the end */
    bool open;
    kl_index next; /* of the same member; KL_NONE: none */
} hinge_place;

typedef struct hinge_book {
    kl_index *first; /* by member: its first place, or KL_NONE */
    hinge_place *places;
    kl_index count;
} hinge_book;

/* Where a tendon passes what cannot carry its moment. */
typedef struct hinge_crossing {
    kl_index member;
    double station; /* m along the member */
    bool
        apart; /* no hinge: the member before it ends at another node, and no bearing joins the two wholly */
} hinge_crossing;

/* The hinges that members are declared with, all open. @return KL_OK or KL_NO_MEMORY; memory of the consistency. */
kl_status hinges_start(consistency *c, hinge_book *book);

/* Open or close a joint of a member. */
void hinges_turn(
    hinge_book *book, const consistency *c, kl_index member, double station, bool open);

/* Is there an open hinge, or a joint that is not whole, between the anchors of the tendon? The first is told. */
bool hinges_cross(const hinge_book *book,
                  const consistency *c,
                  const kl_tendon *tendon,
                  hinge_crossing *found);

/* "the open hinge of member cap at 75 ft" */
const char *hinges_name(consistency *c, const hinge_crossing *crossing);

#endif
