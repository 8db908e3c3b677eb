/* section_polygon.h - integrals over a shape with corners (Green's theorem), widths by level, and whether loops
 * cross themselves or each other.
 *
 * The area integral of f(y) is the loop integral of f(y) x dy; each edge gives a polynomial in y. Inner loops count
 * negative whatever their sense of rotation.
 * SPDX-License-Identifier: MIT */
#ifndef KERNLINE_SECTION_POLYGON_H
#define KERNLINE_SECTION_POLYGON_H

#include "section_shape.h"

typedef struct section_sums {
    double area;         /* m^2 */
    double centroid;     /* m above the bottom */
    double inertia;      /* m^4 about the horizontal axis through the centroid */
    double outer, inner; /* m: perimeters of the outer loop and of all inner ones */
    double bottom,
        top; /* m, levels of the lowest and highest corner in the shape's own coordinates */
    double left, right; /* m, likewise across */
} section_sums;

void section_polygon_sums(const section_shape *shape, section_sums *sums);

/* Width of concrete (inner loops taken out) at a level of the shape's own coordinates, m. Between two corners; at
 * the level of one the widths above and below may differ. */
double section_polygon_width(const section_shape *shape, double level);

/* Do the segments p1-p2 and q1-q2 cross or touch, to within a distance `near`? */
bool section_polygon_segments_touch(
    kl_point p1, kl_point p2, kl_point q1, kl_point q2, double near);

/* First edge that crosses or touches another edge of its loop (but for the corner it shares with its neighbours),
 * or that has no length; KL_NONE when the loop is simple. Edge i runs from point i to the next. */
kl_index section_polygon_bad_edge(const kl_polygon *loop, double near);

/* Does an edge of one loop cross or touch an edge of the other? */
bool section_polygon_loops_touch(const kl_polygon *a, const kl_polygon *b, double near);

/* Is the point inside the loop? Not defined for points on an edge. */
bool section_polygon_contains(const kl_polygon *loop, kl_point p);

#endif
