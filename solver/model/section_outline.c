/* section_outline.c - a section's outline as polygons, for drawings and as a second opinion on the formulas.
 * SPDX-License-Identifier: MIT */
#include <math.h>

#include "pi.h"
#include "section.h"
#include "section_polygon.h"

static kl_status ring(double radius, double level, kl_index sides, arena *a, kl_polygon *out)
{
    kl_point *points = arena_array(a, (size_t)sides, sizeof *points);
    if (points == NULL) {
        return KL_NO_MEMORY;
    }
    for (kl_index i = 0; i < sides; i++) {
        /* From the lowest point: with a number that four divides the polygon is as high and as wide as the circle. */
        const double angle = 2.0 * PI * (double)i / (double)sides - 0.5 * PI;
        points[i] = (kl_point){radius * cos(angle), level + radius * sin(angle)};
    }
    *out = (kl_polygon){points, sides};
    return KL_OK;
}

static kl_status round_outline(
    const section_shape *shape, double datum, kl_index sides, arena *a, kl_section_outline *out)
{
    const double r = 0.5 * shape->diameter;
    KL_TRY(ring(r, r - datum, sides, a, &out->outer));
    const double hole = r - shape->thickness;
    if (shape->kind != KL_PIPE || !(hole > 0.0)) {
        return KL_OK;
    }
    kl_polygon *inner = arena_array(a, 1, sizeof *inner);
    if (inner == NULL) {
        return KL_NO_MEMORY;
    }
    KL_TRY(ring(hole, r - datum, sides, a, inner));
    out->voids = inner;
    out->void_count = 1;
    return KL_OK;
}

static double twice_area(const kl_point *points, kl_index count)
{
    double sum = 0.0;
    kl_point p = points[count - 1];
    for (kl_index i = 0; i < count; i++) {
        sum += p.x * points[i].y - points[i].x * p.y;
        p = points[i];
    }
    return sum;
}

/* One loop from an origin of the shape's own coordinates, anticlockwise. */
static kl_status
copy_loop(const section_shape *shape, kl_index loop, kl_point origin, arena *a, kl_polygon *out)
{
    const kl_index count = section_shape_points(shape, loop);
    kl_point *points = arena_array(a, (size_t)count, sizeof *points);
    if (points == NULL) {
        return KL_NO_MEMORY;
    }
    for (kl_index i = 0; i < count; i++) {
        const kl_point p = section_shape_point(shape, loop, i);
        points[i] = (kl_point){p.x - origin.x, p.y - origin.y};
    }
    if (twice_area(points, count) < 0.0) {
        for (kl_index i = 0; i < count / 2; i++) {
            const kl_point swap = points[i];
            points[i] = points[count - 1 - i];
            points[count - 1 - i] = swap;
        }
    }
    *out = (kl_polygon){points, count};
    return KL_OK;
}

kl_status section_outline(const kl_section *a,
                          const kl_section *b,
                          double t,
                          double datum,
                          kl_index sides,
                          arena *memory,
                          kl_section_outline *outline)
{
    *outline = (kl_section_outline){0};
    const section_shape shape = section_shape_between(a, b, t);
    if (shape.kind == KL_BARE) {
        return KL_NOT_THERE;
    }
    if (shape.kind == KL_CIRCLE || shape.kind == KL_PIPE) {
        return round_outline(&shape, datum, sides, memory, outline);
    }
    section_sums sums;
    section_polygon_sums(&shape, &sums);
    const kl_point origin = {0.5 * (sums.left + sums.right), sums.bottom + datum};
    KL_TRY(copy_loop(&shape, 0, origin, memory, &outline->outer));
    const kl_index inner = section_shape_loops(&shape) - 1;
    if (inner == 0) {
        return KL_OK;
    }
    kl_polygon *loops = arena_array(memory, (size_t)inner, sizeof *loops);
    if (loops == NULL) {
        return KL_NO_MEMORY;
    }
    for (kl_index i = 0; i < inner; i++) {
        KL_TRY(copy_loop(&shape, i + 1, origin, memory, &loops[i]));
    }
    outline->voids = loops;
    outline->void_count = inner;
    return KL_OK;
}
