/* section_outline.c - a section's outline as polygons, for drawings and as a second opinion on the formulas.
 * SPDX-License-Identifier: MIT */
#include <math.h>

#include "section.h"
#include "section_polygon.h"

#define PI 3.14159265358979323846

static kl_status ring(double radius, double level, kl_index sides, arena *a, kl_polygon *out)
{
    kl_point *points = arena_array(a, (size_t)sides, sizeof *points);
    if (points == NULL) {
        return KL_NO_MEMORY;
    }
    for (kl_index i = 0; i < sides; i++) {
        /* A flat side below, so that an even polygon has its top and bottom level. */
        const double angle = 2.0 * PI * ((double)i + 0.5) / (double)sides - 0.5 * PI;
        points[i] = (kl_point){radius * cos(angle), level + radius * sin(angle)};
    }
    *out = (kl_polygon){points, sides};
    return KL_OK;
}

static kl_status round_outline(const section_shape *shape,
                               kl_index sides,
                               arena *a,
                               kl_polygon *outer,
                               kl_polygon **voids,
                               kl_index *void_count)
{
    const double r = 0.5 * shape->diameter;
    KL_TRY(ring(r, r, sides, a, outer));
    const double hole = r - shape->thickness;
    if (shape->kind != KL_PIPE || !(hole > 0.0)) {
        return KL_OK;
    }
    kl_polygon *inner = arena_array(a, 1, sizeof *inner);
    if (inner == NULL) {
        return KL_NO_MEMORY;
    }
    KL_TRY(ring(hole, r, sides, a, inner));
    *voids = inner;
    *void_count = 1;
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

/* One loop with the bottom at zero and the middle at x = 0, anticlockwise. */
static kl_status copy_loop(
    const section_shape *shape, kl_index loop, const section_sums *sums, arena *a, kl_polygon *out)
{
    const kl_index count = section_shape_points(shape, loop);
    kl_point *points = arena_array(a, (size_t)count, sizeof *points);
    if (points == NULL) {
        return KL_NO_MEMORY;
    }
    const double middle = 0.5 * (sums->left + sums->right);
    for (kl_index i = 0; i < count; i++) {
        const kl_point p = section_shape_point(shape, loop, i);
        points[i] = (kl_point){p.x - middle, p.y - sums->bottom};
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

kl_status section_outline(const kl_section *section,
                          kl_index sides,
                          arena *a,
                          kl_polygon *outer,
                          kl_polygon **voids,
                          kl_index *void_count)
{
    *outer = (kl_polygon){NULL, 0};
    *voids = NULL;
    *void_count = 0;
    const section_shape shape = section_shape_between(section, section, 0.0);
    if (shape.kind == KL_BARE) {
        return KL_NOT_THERE;
    }
    if (shape.kind == KL_CIRCLE || shape.kind == KL_PIPE) {
        return round_outline(&shape, sides, a, outer, voids, void_count);
    }
    section_sums sums;
    section_polygon_sums(&shape, &sums);
    KL_TRY(copy_loop(&shape, 0, &sums, a, outer));
    const kl_index inner = section_shape_loops(&shape) - 1;
    if (inner == 0) {
        return KL_OK;
    }
    kl_polygon *loops = arena_array(a, (size_t)inner, sizeof *loops);
    if (loops == NULL) {
        return KL_NO_MEMORY;
    }
    for (kl_index i = 0; i < inner; i++) {
        KL_TRY(copy_loop(&shape, i + 1, &sums, a, &loops[i]));
    }
    *voids = loops;
    *void_count = inner;
    return KL_OK;
}
