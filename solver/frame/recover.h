/* recover.h - from movements back to actions, strains and forces along the elements.
 * SPDX-License-Identifier: MIT */
#ifndef KERNLINE_RECOVER_H
#define KERNLINE_RECOVER_H

#include "response.h"

/* Courses along an element, values at each quadrature point: actions and strains of the member's line, stresses of
 * the extreme concrete fibres. field[(element * QUADRATURE_POINTS + point) * FIELD_COUNT + FIELD_…]. */
enum field_entry {
    FIELD_N,
    FIELD_M,
    FIELD_V,
    FIELD_E,
    FIELD_K,
    FIELD_G,
    FIELD_TOP,
    FIELD_BOTTOM,
    FIELD_COUNT
};

#define FIELD_AT(element, point)                                                                   \
    (((size_t)(element)*QUADRATURE_POINTS + (size_t)(point)) * FIELD_COUNT)

/* Actions and strains of every element that is on, under one column of loads with its movements u and basic forces q
 * (response.h).
 * @param field out, all elements (elements that are off get zeros; stresses are left at zero).
 * @param start out, 3 an element: movement of the flexible part's start in local axes.
 * @param turn out, 2 a member: how its two nodes turn, and its rigid ends with them; members that are off get zeros.
 * @param sum out, 3 a node: what elements and struts take from each node minus what the loads give it: the support's
 * (or bearing's) force on the node, global axes. */
void recover_elements(const frame_system *system,
                      const frame_structure *structure,
                      const frame_loads *loads,
                      const double *u,
                      const double *q,
                      double *field,
                      double *start,
                      double *turn,
                      double *sum);

#endif
