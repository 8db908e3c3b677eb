/* section_check.c - whether the dimensions of one section fit together, and its outline for drawings.
 * SPDX-License-Identifier: MIT */
#include <math.h>

#include "section.h"
#include "section_polygon.h"

/* Points of an outline and its voids: crossing tests take the square of this. */
#define SECTION_MOST_POINTS 2000

/* Cells of a box: no deck has nearly as many, and each costs a loop. */
#define SECTION_MOST_CELLS 100

/* Corners and edges nearer to each other than this share of the outline's size touch: input has six digits or so. */
#define NEAR_EDGE 1e-7

static void complain(const kl_section *section, kl_diags *diags, const char *name, const char *what)
{
    kl_diags_add(diags, KL_ERROR, name, section->origin, "Section %s: %s.", section->name, what);
}

/* A dimension that the shape cannot do without. */
static bool positive(const kl_section *section, double value, const char *word, kl_diags *diags)
{
    if (isfinite(value) && value > 0.0) {
        return true;
    }
    kl_diags_add(diags, KL_ERROR, "section-dimension", section->origin,
                 isnan(value) ? "Section %s has no `%s`." : "Section %s: `%s` must be above zero.",
                 section->name, word);
    return false;
}

/* A dimension that may be left out or be zero. */
static bool not_negative(const kl_section *section, double value, const char *word, kl_diags *diags)
{
    if (isnan(value) || (isfinite(value) && value >= 0.0)) {
        return true;
    }
    kl_diags_add(diags, KL_ERROR, "section-dimension", section->origin,
                 "Section %s: `%s` must not be negative.", section->name, word);
    return false;
}

static bool check_pipe(const kl_section *s, kl_diags *diags)
{
    if (!positive(s, s->diameter, "diameter", diags) ||
        !positive(s, s->thickness, "thickness", diags)) {
        return false;
    }
    if (s->thickness > 0.5 * s->diameter) {
        complain(s, diags, "section-pipe-wall", "the wall is thicker than half the diameter");
        return false;
    }
    return true;
}

static bool check_tee(const kl_section *s, kl_diags *diags)
{
    if (!positive(s, s->width, "width", diags) || !positive(s, s->depth, "depth", diags) ||
        !positive(s, s->flange_thickness, "flange_thickness", diags) ||
        !positive(s, s->web_width, "web_width", diags)) {
        return false;
    }
    if (s->flange_thickness >= s->depth) {
        complain(s, diags, "section-flange", "the flange is as thick as the section is deep");
        return false;
    }
    if (s->web_width > s->width) {
        complain(s, diags, "section-web", "the web is wider than the flange");
        return false;
    }
    return true;
}

static bool box_dimensions(const kl_section *s, kl_diags *diags)
{
    return positive(s, s->width, "width", diags) && positive(s, s->depth, "depth", diags) &&
           positive(s, (double)s->cells, "cells", diags) &&
           positive(s, s->top_slab, "top_slab", diags) &&
           positive(s, s->bottom_slab, "bottom_slab", diags) &&
           positive(s, s->web_width, "web_width", diags) &&
           not_negative(s, s->overhang, "overhang", diags) &&
           (isnan(s->overhang_edge) || positive(s, s->overhang_edge, "overhang_edge", diags));
}

static bool check_box(const kl_section *s, kl_diags *diags)
{
    if (!box_dimensions(s, diags)) {
        return false;
    }
    if (s->cells > SECTION_MOST_CELLS) {
        complain(s, diags, "section-cells", "it has more than a hundred cells");
        return false;
    }
    const double overhang = isnan(s->overhang) ? 0.0 : s->overhang;
    const double webs = (double)(s->cells + 1) * s->web_width;
    if (s->top_slab + s->bottom_slab >= s->depth) {
        complain(s, diags, "section-slabs", "its slabs leave no height for the cells");
        return false;
    }
    if (webs >= s->width - 2.0 * overhang) {
        complain(s, diags, "section-webs", "its webs and overhangs leave no width for the cells");
        return false;
    }
    if (s->overhang_edge > s->depth) {
        complain(s, diags, "section-overhang",
                 "the overhang's edge is thicker than the section is deep");
        return false;
    }
    return true;
}

static bool check_bare(const kl_section *s, kl_diags *diags)
{
    if (!positive(s, s->area, "area", diags)) {
        return false;
    }
    bool good = isnan(s->inertia) || positive(s, s->inertia, "inertia", diags);
    good = (isnan(s->to_top) || positive(s, s->to_top, "to_top", diags)) && good;
    good = (isnan(s->to_bottom) || positive(s, s->to_bottom, "to_bottom", diags)) && good;
    if (s->line == KL_LINE_TOP && isnan(s->to_top + s->to_bottom)) {
        complain(s, diags, "section-line", "`line top` needs `to_top` and `to_bottom`");
        good = false;
    }
    if (s->line == KL_LINE_BOTTOM && isnan(s->to_bottom)) {
        complain(s, diags, "section-line", "`line bottom` needs `to_bottom`");
        good = false;
    }
    if (fabs(s->turned) > 0.0) {
        complain(s, diags, "section-turned",
                 "a section given by numbers cannot be turned; give the turned values");
        good = false;
    }
    return good;
}

static double outline_size(const kl_polygon *outline)
{
    double size = 0.0;
    for (kl_index i = 1; i < outline->count; i++) {
        size = fmax(size, hypot(outline->points[i].x - outline->points[0].x,
                                outline->points[i].y - outline->points[0].y));
    }
    return size;
}

/* Points there, finite, not too many. */
static bool outline_points(const kl_section *s, kl_diags *diags)
{
    int64_t total = 0;
    for (kl_index loop = -1; loop < s->void_count; loop++) {
        const kl_polygon *polygon = loop < 0 ? &s->outline : &s->voids[loop];
        if (polygon->count < 3) {
            complain(s, diags, "outline-points", "an outline or void needs at least three points");
            return false;
        }
        total += polygon->count;
        if (total > SECTION_MOST_POINTS) {
            kl_diags_add(diags, KL_ERROR, "outline-points", s->origin,
                         "Section %s: outline and voids have more than %d points.", s->name,
                         SECTION_MOST_POINTS);
            return false;
        }
        for (kl_index i = 0; i < polygon->count; i++) {
            if (!isfinite(polygon->points[i].x) || !isfinite(polygon->points[i].y)) {
                complain(s, diags, "outline-points", "a point is not a finite number");
                return false;
            }
        }
    }
    return true;
}

/* A loop that does not cross, touch or fold back on itself. */
static bool loop_simple(const kl_section *s, kl_index loop, double near, kl_diags *diags)
{
    const kl_polygon *polygon = loop < 0 ? &s->outline : &s->voids[loop];
    const kl_index edge = section_polygon_bad_edge(polygon, near);
    if (edge == KL_NONE) {
        return true;
    }
    const kl_point a = polygon->points[edge];
    const kl_point b = polygon->points[edge + 1 < polygon->count ? edge + 1 : 0];
    const bool point = hypot(b.x - a.x, b.y - a.y) <= near;
    kl_diags_add(diags, KL_ERROR, point ? "outline-point-doubled" : "outline-crosses", s->origin,
                 point ? "Section %s: points %d and %d of the %s are at one place."
                       : "Section %s: the edge from point %d to point %d of the %s crosses or "
                         "touches another.",
                 s->name, (int)edge + 1, edge + 1 < polygon->count ? (int)edge + 2 : 1,
                 loop < 0 ? "outline" : "void");
    if (point && edge + 1 == polygon->count) {
        kl_diags_hint(diags, "leave the last point out: an outline closes by itself");
    }
    return false;
}

/* Void i against the outline and the voids before it. */
static bool void_fits(const kl_section *s, kl_index i, double near, kl_diags *diags)
{
    const kl_polygon *hole = &s->voids[i];
    const char *trouble = NULL;
    if (section_polygon_loops_touch(hole, &s->outline, near)) {
        trouble = "crosses or touches the outline";
    } else if (!section_polygon_contains(&s->outline, hole->points[0])) {
        trouble = "lies outside the outline";
    }
    for (kl_index j = 0; j < i && trouble == NULL; j++) {
        const kl_polygon *other = &s->voids[j];
        if (section_polygon_loops_touch(hole, other, near)) {
            trouble = "crosses or touches another void";
        } else if (section_polygon_contains(other, hole->points[0]) ||
                   section_polygon_contains(hole, other->points[0])) {
            trouble = "and another void lie one inside the other";
        }
    }
    if (trouble == NULL) {
        return true;
    }
    kl_diags_add(diags, KL_ERROR, "void-misplaced", s->origin, "Section %s: void %d %s.", s->name,
                 (int)i + 1, trouble);
    return false;
}

static bool check_outline(const kl_section *s, kl_diags *diags)
{
    if (!outline_points(s, diags)) {
        return false;
    }
    const double size = outline_size(&s->outline);
    if (!(size > 0.0)) {
        complain(s, diags, "outline-points", "all points of the outline are at one place");
        return false;
    }
    const double near = NEAR_EDGE * size;
    bool good = true;
    for (kl_index loop = -1; loop < s->void_count; loop++) {
        good = loop_simple(s, loop, near, diags) && good;
    }
    for (kl_index i = 0; i < s->void_count && good; i++) {
        good = void_fits(s, i, near, diags);
    }
    return good;
}

static bool check_shape(const kl_section *s, kl_diags *diags)
{
    switch (s->shape) {
    case KL_RECTANGLE:
        return positive(s, s->width, "width", diags) && positive(s, s->depth, "depth", diags);
    case KL_CIRCLE:
        return positive(s, s->diameter, "diameter", diags);
    case KL_PIPE:
        return check_pipe(s, diags);
    case KL_TEE:
        return check_tee(s, diags);
    case KL_BOX:
        return check_box(s, diags);
    case KL_OUTLINE:
        return check_outline(s, diags);
    case KL_BARE:
        return check_bare(s, diags);
    }
    return false;
}

kl_status section_check(const kl_section *section, kl_diags *diags)
{
    bool good = check_shape(section, diags);
    if (!isnan(section->shear_area)) {
        good = positive(section, section->shear_area, "shear_area", diags) && good;
    }
    if (!isnan(section->volume_to_surface)) {
        good = positive(section, section->volume_to_surface, "volume_to_surface", diags) && good;
    }
    if (isinf(section->turned)) {
        complain(section, diags, "section-turned", "`turned` must be a finite angle");
        good = false;
    }
    return good ? KL_OK : KL_BAD_MODEL;
}
