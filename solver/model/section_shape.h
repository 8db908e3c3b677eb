/* section_shape.h - the drawn shape of a section somewhere between two like ones: its dimensions and its corners.
 *
 * A shape is one outer loop of points and any number of inner ones (cells, voids). The corners are computed as they
 * are asked for, so that nothing is allocated at the quadrature points. Turned shapes give turned corners. The
 * origin is arbitrary but fixed; inside, coordinates are taken from a corner, so a far origin costs no digits.
 * Circles, pipes and bare sections have no corners.
 * SPDX-License-Identifier: MIT */
#ifndef KERNLINE_SECTION_SHAPE_H
#define KERNLINE_SECTION_SHAPE_H

#include "kernline/model.h"

#define SECTION_SHAPE_CORNERS 8 /* a tee has the most, and a box with wings */

typedef struct section_shape {
    kl_shape kind;
    const kl_section *a, *b;
    double t;
    double width, depth, diameter, thickness, flange_thickness, web_width; /* interpolated */
    double top_slab, bottom_slab, overhang, overhang_edge;                 /* with their defaults */
    kl_index cells;
    double turned, cosine, sine;
    bool is_turned;
    kl_point corners
        [SECTION_SHAPE_CORNERS]; /* of the outer loop, anticlockwise, unturned; not for outlines */
    kl_index corner_count;
} section_shape;

section_shape section_shape_between(const kl_section *a, const kl_section *b, double t);

/* Loops: 0 is the outer one. Points of a loop, in order; the sense of rotation of outlines is the user's. */
kl_index section_shape_loops(const section_shape *shape);
kl_index section_shape_points(const section_shape *shape, kl_index loop);
kl_point section_shape_point(const section_shape *shape, kl_index loop, kl_index i);

/* Width of the box between the outer faces of its outer webs, m. */
double section_shape_box_width(const section_shape *shape);

/* Linear interpolation that gives a exactly when a and b are the same. */
static inline double section_shape_mix(double a, double b, double t)
{
    return a + t * (b - a);
}

#endif
