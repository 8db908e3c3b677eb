/* loads.h - everything that acts on a frame in one column of a solve.
 * SPDX-License-Identifier: MIT */
#ifndef KERNLINE_LOADS_H
#define KERNLINE_LOADS_H

#include "element.h"

/* Free strain of the concrete, which its stress does not see: at the extreme fibres, and of the plane closest to it. */
typedef struct fibre_strain {
    double top[QUADRATURE_POINTS], bottom[QUADRATURE_POINTS];
    section_strain plane[QUADRATURE_POINTS];
} fibre_strain;

/* Increments. Most causes bring few kinds of loads: but for those on nodes, what there is nothing of is NULL; who brings
 * the first of a kind opens it, which makes an array of zeros. */
typedef struct frame_loads {
    double *node;    /* 3 a mesh node: N, N, N·m, global axes */
    double *moved;   /* 3 a mesh node: movement forced on held unknowns, global axes */
    line_load *line; /* one an element, as all that follow */
    line_couple *couple;
    section_strain (*strain)[QUADRATURE_POINTS]; /* initial strains */
    fibre_strain *fibre;
    arena *a;
} frame_loads;

/* Loads of a mesh, none yet. All functions that return a status: KL_NO_MEMORY. */
kl_status loads_create(const frame_mesh *mesh, arena *a, frame_loads *out);
void loads_clear(const frame_mesh *mesh, frame_loads *loads);

kl_status loads_open_moved(const frame_mesh *mesh, frame_loads *loads);
kl_status loads_open_line(const frame_mesh *mesh, frame_loads *loads);
kl_status loads_open_couple(const frame_mesh *mesh, frame_loads *loads);
kl_status loads_open_strain(const frame_mesh *mesh, frame_loads *loads);
/* Initial strains and the free ones of the concrete that they come from. */
kl_status loads_open_fibre(const frame_mesh *mesh, frame_loads *loads);

/* What acts on one element, and the free strain of its concrete; zeros where there is none. */
element_load loads_on(const frame_loads *loads, kl_index element);
const fibre_strain *loads_fibre(const fibre_strain *fibre, kl_index element);

/* Is there nothing to answer? (Free strains of the concrete alone ask for nothing: they come with a section's.) */
bool loads_are_none(const frame_mesh *mesh, const frame_loads *loads);

#endif
