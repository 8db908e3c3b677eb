/* reference_system.h - the dense system of one increment of the reference frame: between its own files only.
 * SPDX-License-Identifier: MIT */
#ifndef KERNLINE_REFERENCE_SYSTEM_H
#define KERNLINE_REFERENCE_SYSTEM_H

#include "reference_frame.h"

enum { UNKNOWNS = 3 * REF_NODES + REF_TIES + REF_TENDONS, COLUMNS = REF_CAUSES };

/* One element ready for the system: its bubbles condensed, about its own ends. g: action of a unit force in each
 * tendon of a group; gf, gg: what the bubbles leave of g'u. */
typedef struct ready {
    double k[6][6], f[COLUMNS][6], g[REF_TENDONS][6];
    double gf[REF_TENDONS][COLUMNS], gg[REF_TENDONS][REF_TENDONS];
} ready;

/* Unknowns: nodes, forces of ties, changes of tendons. After the build b holds the answers. */
typedef struct system {
    int size, first_tie, first_tendon;
    double *a; /* UNKNOWNS x UNKNOWNS */
    double b[COLUMNS][UNKNOWNS];
    ready elements[REF_ELEMENTS];
} system_of;

void reference_system_prepare(const ref_frame *f, const ref_step *s, ready *elements);
/* `closed`: of each tie at the end of the increment. */
void reference_system_build(const ref_frame *f,
                            const ref_step *st,
                            const bool *closed,
                            system_of *s);

/* Rows: displacements of an element's ends in its axes from the nodes' unknowns. */
void reference_to_nodes(const ref_frame *f, const ref_element *el, double t[6][6]);
/* Action of one tendon of force one: N, M about the line, V. */
void reference_unit_action(const ref_tendon *t, double x, bool left, double a[3]);
void reference_initial_strain(
    const ref_frame *f, const ref_step *s, int member, double x, double e[2]);

#endif
