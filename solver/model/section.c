/* section.c - see section.h. Closed formulas where a shape has one, Green's theorem for outlines and for turned
 * shapes.
 * SPDX-License-Identifier: MIT */
#include "section.h"

#include <math.h>

#include "near.h"
#include "pi.h"
#include "section_polygon.h"

/* Shear areas: Timoshenko's 5/6 for a solid rectangle, 0.9 for a solid circle, 0.5 for a thin pipe. */
#define SHEAR_SHARE_RECTANGLE (5.0 / 6.0)
#define SHEAR_SHARE_CIRCLE    0.9
#define SHEAR_SHARE_PIPE      0.5

/* Widths are taken this share of the depth beside a corner's level, so that corners which rounding has put at two
 * levels (a section turned by a right angle) count as one. */
#define BESIDE_CORNER 1e-9

/* A part of a section: area, centroid above the bottom, inertia about its own centroid. */
typedef struct section_part {
    double area, level, inertia;
} section_part;

static section_part part_rectangle(double width, double bottom, double top)
{
    const double height = top - bottom;
    return (section_part){width * height, 0.5 * (bottom + top),
                          width * height * height * height / 12.0};
}

/* Sum of parts by the parallel axis theorem. */
static void add_parts(const section_part *parts, int count, section_value *value)
{
    double area = 0.0;
    double first = 0.0;
    for (int i = 0; i < count; i++) {
        area += parts[i].area;
        first += parts[i].area * parts[i].level;
    }
    const double centroid = first / area;
    double inertia = 0.0;
    for (int i = 0; i < count; i++) {
        const double arm = parts[i].level - centroid;
        inertia += parts[i].inertia + parts[i].area * arm * arm;
    }
    value->area = area;
    value->centroid = centroid;
    value->inertia = inertia;
}

static void evaluate_rectangle(const section_shape *shape, section_value *value)
{
    const section_part part = part_rectangle(shape->width, 0.0, shape->depth);
    add_parts(&part, 1, value);
    value->depth = shape->depth;
    value->perimeter_exposed = 2.0 * (shape->width + shape->depth);
    value->width_bottom = shape->width;
}

static void evaluate_tee(const section_shape *shape, section_value *value)
{
    const double soffit = shape->depth - shape->flange_thickness;
    const section_part parts[] = {part_rectangle(shape->web_width, 0.0, soffit),
                                  part_rectangle(shape->width, soffit, shape->depth)};
    add_parts(parts, 2, value);
    value->depth = shape->depth;
    value->perimeter_exposed = 2.0 * (shape->width + shape->depth);
    value->width_bottom = shape->web_width;
}

/* Outer faces whole, inner faces of cells half. */
static double box_perimeter(const section_shape *shape, double box, double webs)
{
    const double height = shape->depth - shape->top_slab - shape->bottom_slab;
    const double cells = 2.0 * (box - webs) + 2.0 * (double)shape->cells * height;
    double outer = 2.0 * (box + shape->depth);
    if (shape->overhang > 0.0) {
        const double soffit = hypot(shape->overhang, shape->overhang_edge - shape->top_slab);
        const double side = shape->depth - shape->top_slab;
        outer = shape->width + box + 2.0 * (side + soffit + shape->overhang_edge);
    }
    return outer + 0.5 * cells;
}

static void evaluate_box(const section_shape *shape, section_value *value)
{
    const double box = section_shape_box_width(shape);
    const double webs = (double)(shape->cells + 1) * shape->web_width;
    const double soffit = shape->depth - shape->top_slab;
    const double thin = fmin(shape->top_slab, shape->overhang_edge);
    const double rise = fabs(shape->top_slab - shape->overhang_edge);
    const double wings = 2.0 * shape->overhang;
    const section_part parts[] = {
        part_rectangle(box, 0.0, shape->bottom_slab),
        part_rectangle(webs, shape->bottom_slab, soffit),
        part_rectangle(box, soffit, shape->depth),
        part_rectangle(wings, shape->depth - thin, shape->depth),
        /* the triangles of both wings' soffits */
        {0.5 * wings * rise, shape->depth - thin - rise / 3.0, wings * rise * rise * rise / 36.0}};
    add_parts(parts, 5, value);
    value->depth = shape->depth;
    value->perimeter_exposed = box_perimeter(shape, box, webs);
    value->width_bottom = box;
}

static void evaluate_round(const section_shape *shape, section_value *value)
{
    const double outer = shape->diameter;
    const double inner = shape->kind == KL_PIPE ? outer - 2.0 * shape->thickness : 0.0;
    /* (D^2 - d^2) (D^2 + d^2): no digits lost on thin walls */
    const double squares = (outer - inner) * (outer + inner);
    value->area = 0.25 * PI * squares;
    value->inertia = PI / 64.0 * squares * (outer * outer + inner * inner);
    value->centroid = 0.5 * outer;
    value->depth = outer;
    value->perimeter_exposed = PI * (outer + 0.5 * inner);
    value->width_bottom = 0.0;
}

static void evaluate_bare(const kl_section *section, section_value *value)
{
    value->area = section->area;
    value->inertia = section->inertia;
    value->centroid = isnan(section->to_bottom) ? 0.0 : section->to_bottom;
    value->depth = section->to_top + section->to_bottom;
    value->perimeter_exposed = NAN;
    value->width_bottom = section->width;
}

static void evaluate_corners(const section_shape *shape, section_value *value)
{
    section_sums sums;
    section_polygon_sums(shape, &sums);
    value->area = sums.area;
    value->inertia = sums.inertia;
    value->centroid = sums.centroid;
    value->depth = sums.top - sums.bottom;
    value->perimeter_exposed = sums.outer + 0.5 * sums.inner;
    value->width_bottom = section_polygon_width(shape, sums.bottom + BESIDE_CORNER * value->depth);
}

/* Shear areas along the shape's own depth and across it: webs over the full depth, slabs over the full width. */
static void shear_areas(const section_shape *shape, double area, double *down, double *across)
{
    *down = *across = NAN;
    if (shape->kind == KL_RECTANGLE) {
        *down = *across = SHEAR_SHARE_RECTANGLE * area;
    } else if (shape->kind == KL_CIRCLE) {
        *down = *across = SHEAR_SHARE_CIRCLE * area;
    } else if (shape->kind == KL_PIPE) {
        *down = *across = SHEAR_SHARE_PIPE * area;
    } else if (shape->kind == KL_TEE) {
        *down = shape->web_width * shape->depth;
        *across = shape->flange_thickness * shape->width;
    } else if (shape->kind == KL_BOX) {
        *down = (double)(shape->cells + 1) * shape->web_width * shape->depth;
        *across =
            shape->top_slab * shape->width + shape->bottom_slab * section_shape_box_width(shape);
    }
}

/* With movement out of the frame held, a turned section's shear strain has the parts cos and sin along its own
 * axes, as its curvature has: A_s = A_down cos^2 + A_across sin^2. A given shear area is of the section as it
 * stands. */
static double shear_area(const section_shape *shape, double area)
{
    double down;
    double across;
    shear_areas(shape, area, &down, &across);
    double own = down;
    if (shape->is_turned) {
        own = down * shape->cosine * shape->cosine + across * shape->sine * shape->sine;
    }
    const double at_a = isnan(shape->a->shear_area) ? own : shape->a->shear_area;
    const double at_b = isnan(shape->b->shear_area) ? own : shape->b->shear_area;
    return section_shape_mix(at_a, at_b, shape->t);
}

static void evaluate_shape(const section_shape *shape, section_value *value)
{
    switch (shape->kind) {
    case KL_CIRCLE:
    case KL_PIPE:
        evaluate_round(shape, value);
        return;
    case KL_BARE:
        evaluate_bare(shape->a, value);
        return;
    case KL_RECTANGLE:
    case KL_TEE:
    case KL_BOX:
    case KL_OUTLINE:
        break;
    }
    if (shape->is_turned || shape->kind == KL_OUTLINE) {
        evaluate_corners(shape, value);
    } else if (shape->kind == KL_RECTANGLE) {
        evaluate_rectangle(shape, value);
    } else if (shape->kind == KL_TEE) {
        evaluate_tee(shape, value);
    } else {
        evaluate_box(shape, value);
    }
}

void section_evaluate(const kl_section *a, const kl_section *b, double t, section_value *value)
{
    const section_shape shape = section_shape_between(a, b, t);
    evaluate_shape(&shape, value);
    const bool bare = shape.kind == KL_BARE;
    value->to_top = bare ? a->to_top : value->depth - value->centroid;
    value->to_bottom = bare ? a->to_bottom : value->centroid;
    value->shear_area = shear_area(&shape, value->area);
    value->line = value->centroid;
    if (a->line == KL_LINE_TOP) {
        value->line = value->depth;
    } else if (a->line == KL_LINE_BOTTOM) {
        value->line = 0.0;
    }
}

/* Of the shape itself, whatever is given. */
static double drying_size(const kl_section *a, const kl_section *b, double t)
{
    section_value value;
    section_evaluate(a, b, t, &value);
    return value.area / value.perimeter_exposed;
}

double section_volume_to_surface(const kl_section *a, const kl_section *b, double t)
{
    const double from = a->volume_to_surface, to = b->volume_to_surface;
    if (isnan(from) && isnan(to)) {
        return drying_size(a, b, t);
    }
    const double first = isnan(from) ? drying_size(a, a, 0.0) : from;
    const double last = isnan(to) ? drying_size(b, b, 0.0) : to;
    return (1.0 - t) * first + t * last;
}

bool section_can_vary(const kl_section *a, const kl_section *b)
{
    if (a == b) {
        return true;
    }
    if (a->shape != b->shape || a->shape == KL_BARE || a->line != b->line ||
        a->shear_flexible != b->shear_flexible) {
        return false;
    }
    if (a->shape == KL_BOX) {
        return a->cells == b->cells;
    }
    if (a->shape != KL_OUTLINE) {
        return true;
    }
    if (a->outline.count != b->outline.count || a->void_count != b->void_count) {
        return false;
    }
    for (kl_index i = 0; i < a->void_count; i++) {
        if (a->voids[i].count != b->voids[i].count) {
            return false;
        }
    }
    return true;
}
