/* corner.h - distances, in edges, from two corners of a connected graph.
 *
 * Of a grid: the two ends of a side, the shorter one if there is one.
 * SPDX-License-Identifier: MIT */
#ifndef KERNLINE_CORNER_H
#define KERNLINE_CORNER_H

#include "core.h"

typedef struct corner_distances {
    kl_index *a;    /* from the first corner, by node of the core */
    kl_index *b;    /* from the second */
    kl_index apart; /* from one corner to the other */
    /* Work, as long as `a` and `b`. */
    kl_index *c;
    kl_index *queue; /* one longer */
} corner_distances;

/* @return KL_NO_MEMORY */
kl_status corner_create(const core_graph *core, arena *a, corner_distances *d);

/* Fill in a piece of the core. */
void corner_measure(const core_graph *core, kl_index piece, corner_distances *d);

#endif
