/* tendon_places.h - where along a tendon a table of its stresses looks.
 * SPDX-License-Identifier: MIT */
#ifndef KERNLINE_TENDON_PLACES_H
#define KERNLINE_TENDON_PLACES_H

#include "selection.h"
#include "table.h"

typedef struct tendon_place {
    double station; /* along the tendon's members */
    kl_side side;
    const char *label; /* "start", "low point, largest", ""; lives as long as the table */
} tendon_place;

typedef struct tendon_places {
    tendon_place *items; /* rising; live as long as the table */
    kl_index count;
} tendon_places;

/* The station that was asked for, or the divisions; else what governs: both anchors, high and low points (the middle of a
 * tendon that has none), and where the state's force is least and largest. A tendon that carries nothing has no places.
 * A failure goes to the table's status. */
tendon_places tendon_places_find(
    table *t, kl_results *results, const selection *s, kl_state state, kl_index tendon);

#endif
