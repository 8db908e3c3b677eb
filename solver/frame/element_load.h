/* element_load.h - one load of the model as what it does to nodes and elements.
 * SPDX-License-Identifier: MIT */
#ifndef KERNLINE_ELEMENT_LOAD_H
#define KERNLINE_ELEMENT_LOAD_H

#include "element.h"

/* Free strain of the concrete, which its stress does not see: at the extreme fibres, and of the plane closest to it. */
typedef struct fibre_strain {
    double top[QUADRATURE_POINTS], bottom[QUADRATURE_POINTS];
    section_strain plane[QUADRATURE_POINTS];
} fibre_strain;

/* Everything that acts in one column of a solve, increments. */
typedef struct frame_loads {
    double *node;          /* 3 a mesh node: N, N, N·m, global axes */
    double *moved;         /* 3 a mesh node: movement forced on held unknowns, global axes */
    element_load *element; /* one an element */
    fibre_strain *fibre;   /* one an element */
} frame_loads;

/* Zeroed loads for a mesh. */
kl_status loads_create(const frame_mesh *mesh, arena *a, frame_loads *out);
void loads_clear(const frame_mesh *mesh, frame_loads *loads);
/* Is there nothing to answer? (Free strains of the concrete alone ask for nothing: they come with a section's.) */
bool loads_are_none(const frame_mesh *mesh, const frame_loads *loads);

/* Add factor times a load. KL_LOAD_WEIGHT with member KL_NONE means every member; KL_LOAD_TENDON is not one of
 * these (the stage layer applies it). Temperatures need the materials' expansion (checked by the model). */
void loads_add(const frame_mesh *mesh, const kl_load *load, double factor, frame_loads *loads);

/* Add factor times the weight of a member, node to node. */
void loads_add_weight(const frame_mesh *mesh, kl_index member, double factor, frame_loads *loads);

/* Add factor times the weight of a member between two stations, as loads along its elements. `from` and `to` must be
 * element ends or lie in rigid parts. */
void loads_add_weight_between(const frame_mesh *mesh,
                              kl_index member,
                              double from,
                              double to,
                              double factor,
                              frame_loads *loads);

/* Weight of a member between two stations that are element ends: total N and its moment about x = 0, N·m (force down
 * times x). */
void loads_weight_resultant(const frame_mesh *mesh,
                            kl_index member,
                            double from,
                            double to,
                            double *weight,
                            double *moment);

#endif
