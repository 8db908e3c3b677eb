/* section_shape.c - see section_shape.h.
 * SPDX-License-Identifier: MIT */
#include "section_shape.h"

#include <math.h>

#include "near.h"

static double or_default(double value, double otherwise)
{
    return isnan(value) ? otherwise : value;
}

double section_shape_box_width(const section_shape *shape)
{
    return shape->width - 2.0 * shape->overhang;
}

static void add_corner(section_shape *shape, double x, double y)
{
    shape->corners[shape->corner_count] = (kl_point){x, y};
    shape->corner_count++;
}

/* Both halves of a symmetric outline, from the bottom's left corner anticlockwise; `half` gives the right half
 * from the bottom up. */
static void add_mirrored(section_shape *shape, const kl_point *half, kl_index count)
{
    for (kl_index i = 0; i < count; i++) {
        add_corner(shape, half[i].x, half[i].y);
    }
    for (kl_index i = count; i-- > 0;) {
        add_corner(shape, -half[i].x, half[i].y);
    }
}

static void add_box_corners(section_shape *shape)
{
    const double inner = 0.5 * section_shape_box_width(shape);
    const double outer = 0.5 * shape->width;
    const double top = shape->depth;
    if (shape->overhang > 0.0) {
        const kl_point half[] = {{inner, 0.0},
                                 {inner, top - shape->top_slab},
                                 {outer, top - shape->overhang_edge},
                                 {outer, top}};
        add_mirrored(shape, half, 4);
    } else {
        const kl_point half[] = {{inner, 0.0}, {inner, top}};
        add_mirrored(shape, half, 2);
    }
}

static void add_corners(section_shape *shape)
{
    const double half_width = 0.5 * shape->width;
    if (shape->kind == KL_RECTANGLE) {
        const kl_point half[] = {{half_width, 0.0}, {half_width, shape->depth}};
        add_mirrored(shape, half, 2);
    } else if (shape->kind == KL_TEE) {
        const double half_web = 0.5 * shape->web_width;
        const double soffit = shape->depth - shape->flange_thickness;
        const kl_point half[] = {
            {half_web, 0.0}, {half_web, soffit}, {half_width, soffit}, {half_width, shape->depth}};
        add_mirrored(shape, half, 4);
    } else if (shape->kind == KL_BOX) {
        add_box_corners(shape);
    }
}

section_shape section_shape_between(const kl_section *a, const kl_section *b, double t)
{
    section_shape shape = {.kind = a->shape, .a = a, .b = b, .t = t, .cells = a->cells};
    shape.width = section_shape_mix(a->width, b->width, t);
    shape.depth = section_shape_mix(a->depth, b->depth, t);
    shape.diameter = section_shape_mix(a->diameter, b->diameter, t);
    shape.thickness = section_shape_mix(a->thickness, b->thickness, t);
    shape.flange_thickness = section_shape_mix(a->flange_thickness, b->flange_thickness, t);
    shape.web_width = section_shape_mix(a->web_width, b->web_width, t);
    shape.top_slab = section_shape_mix(a->top_slab, b->top_slab, t);
    shape.bottom_slab = section_shape_mix(a->bottom_slab, b->bottom_slab, t);
    shape.overhang =
        section_shape_mix(or_default(a->overhang, 0.0), or_default(b->overhang, 0.0), t);
    shape.overhang_edge = section_shape_mix(or_default(a->overhang_edge, a->top_slab),
                                            or_default(b->overhang_edge, b->top_slab), t);
    shape.turned = section_shape_mix(or_default(a->turned, 0.0), or_default(b->turned, 0.0), t);
    shape.is_turned = !is_exact_zero(shape.turned);
    shape.cosine = shape.is_turned ? cos(shape.turned) : 1.0;
    shape.sine = shape.is_turned ? sin(shape.turned) : 0.0;
    add_corners(&shape);
    return shape;
}

kl_index section_shape_loops(const section_shape *shape)
{
    switch (shape->kind) {
    case KL_RECTANGLE:
    case KL_TEE:
        return 1;
    case KL_BOX:
        return 1 + shape->cells;
    case KL_OUTLINE:
        return 1 + shape->a->void_count;
    case KL_CIRCLE:
    case KL_PIPE:
    case KL_BARE:
        break;
    }
    return 0;
}

static const kl_polygon *loop_of(const kl_section *section, kl_index loop)
{
    return loop == 0 ? &section->outline : &section->voids[loop - 1];
}

kl_index section_shape_points(const section_shape *shape, kl_index loop)
{
    if (shape->kind == KL_OUTLINE) {
        return loop_of(shape->a, loop)->count;
    }
    return loop == 0 ? shape->corner_count : 4;
}

/* Corner i of a cell, anticlockwise from its lower left. */
static kl_point cell_corner(const section_shape *shape, kl_index cell, kl_index i)
{
    const double box = section_shape_box_width(shape);
    const double webs = (double)(shape->cells + 1) * shape->web_width;
    const double clear = (box - webs) / (double)shape->cells;
    const double left = -0.5 * box + shape->web_width + (double)cell * (clear + shape->web_width);
    const bool right = i == 1 || i == 2;
    return (kl_point){right ? left + clear : left,
                      i >= 2 ? shape->depth - shape->top_slab : shape->bottom_slab};
}

static kl_point drawn_point(const section_shape *shape, kl_index loop, kl_index i)
{
    const kl_polygon *a = loop_of(shape->a, loop);
    const kl_polygon *b = loop_of(shape->b, loop);
    const kl_point origin_a = shape->a->outline.points[0];
    const kl_point origin_b = shape->b->outline.points[0];
    /* From the first point of the outline, which keeps its own path between a and b. */
    const kl_point pa = {a->points[i].x - origin_a.x, a->points[i].y - origin_a.y};
    const kl_point pb = {b->points[i].x - origin_b.x, b->points[i].y - origin_b.y};
    return (kl_point){section_shape_mix(pa.x, pb.x, shape->t),
                      section_shape_mix(pa.y, pb.y, shape->t)};
}

kl_point section_shape_point(const section_shape *shape, kl_index loop, kl_index i)
{
    kl_point p;
    if (shape->kind == KL_OUTLINE) {
        p = drawn_point(shape, loop, i);
    } else {
        p = loop == 0 ? shape->corners[i] : cell_corner(shape, loop - 1, i);
    }
    if (!shape->is_turned) {
        return p;
    }
    return (kl_point){shape->cosine * p.x - shape->sine * p.y,
                      shape->sine * p.x + shape->cosine * p.y};
}
