/* section_places.h - where sections are worth drawing: each section of each member once, where its tendons lie lowest and highest.
 * SPDX-License-Identifier: MIT */
#ifndef KERNLINE_SECTION_PLACES_H
#define KERNLINE_SECTION_PLACES_H

#include "selection.h"

#define SECTION_PLACES_LIMIT 12 /* in one picture */

typedef struct section_place {
    kl_index member;
    double station;
    kl_side side;
    kl_index section; /* of the row; at --at the nearer one */
    kl_index
        like; /* further members with this section, or these sections, and no tendon, which are not drawn */
    bool is_prismatic; /* the section holds along the whole member */
} section_place;

typedef struct section_places {
    section_place items[SECTION_PLACES_LIMIT];
    int count;
    bool more; /* for which there was no room */
} section_places;

/* The first wanted member that has the same sections at the same stations as this one, neither with tendons; the member itself when
 * there is none before it. */
kl_index section_places_twin(const kl_model *model, const selection *s, kl_index member);

/* The station of --at on every wanted member that reaches so far; without it the sections of the wanted members. */
void section_places_gather(const kl_model *model, const selection *s, section_places *out);

#endif
