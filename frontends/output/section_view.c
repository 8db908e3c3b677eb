/* section_view.c - see section_view.h.
 * SPDX-License-Identifier: MIT */
#include "section_view.h"

#include <math.h>
#include <stdio.h>

#include "label.h"
#include "mem.h"

#define VIEW_AXIS      14.0 /* px by which the centroid's axis is longer than the section, each side */
#define VIEW_DIMENSION 24.0 /* px between the section and its dimension lines */
#define VIEW_BARS      200  /* circles in one row; more are a line */
#define VIEW_EDGES     64   /* sides of concrete at one level */

static void view_extent(section_view *v)
{
    const kl_polygon *outer = &v->outline->outer;
    v->left = v->bottom = HUGE_VAL;
    v->right = v->top = -HUGE_VAL;
    for (kl_index i = 0; i < outer->count; i++) {
        v->left = fmin(v->left, outer->points[i].x);
        v->right = fmax(v->right, outer->points[i].x);
        v->bottom = fmin(v->bottom, outer->points[i].y);
        v->top = fmax(v->top, outer->points[i].y);
    }
}

kl_status section_view_gather(
    section_view *v, drawing *d, kl_results *results, kl_index member, double station, kl_side side)
{
    *v = (section_view){
        .drawing = d, .results = results, .member = member, .station = station, .side = side};
    KL_TRY(kl_section_at_station(results, member, station, side, &v->values));
    const kl_status status = kl_section_outline_at(results, member, station, side, &v->outline);
    if (status == KL_OK) {
        view_extent(v);
        return KL_OK;
    }
    v->outline = NULL;
    v->bottom = v->values.centroid - v->values.to_bottom;
    v->top = v->values.centroid + v->values.to_top;
    v->right = 0.3 * (v->top - v->bottom);
    v->left = -v->right;
    return status == KL_NOT_THERE ? KL_OK : status;
}

bool section_view_has_size(const section_view *v)
{
    return v->top > v->bottom && v->right > v->left;
}

void section_view_place(section_view *v, double x, double y, double pixels)
{
    v->pixels = pixels;
    v->at_x = x - 0.5 * (v->left + v->right) * pixels;
    v->at_y = y + v->top * pixels;
}

static double view_x(const section_view *v, double x)
{
    return v->at_x + x * v->pixels;
}

double section_view_y(const section_view *v, double height)
{
    return v->at_y - height * v->pixels;
}

/* ---- concrete -------------------------------------------------------------------------------------------- */

static void view_loop(const section_view *v, const char *class, const kl_polygon *loop)
{
    double *points = mem_array(2 * (size_t)loop->count, sizeof(double));
    if (!points) {
        v->drawing->status = v->drawing->status == KL_OK ? KL_NO_MEMORY : v->drawing->status;
        return;
    }
    for (kl_index i = 0; i < loop->count; i++) {
        points[2 * i] = view_x(v, loop->points[i].x);
        points[2 * i + 1] = section_view_y(v, loop->points[i].y);
    }
    drawing_outline(v->drawing, class, points, (int)loop->count);
    mem_free(points);
}

void section_view_concrete(const section_view *v)
{
    if (!v->outline) {
        drawing_box(v->drawing, "before", view_x(v, v->left), section_view_y(v, v->top),
                    (v->right - v->left) * v->pixels, (v->top - v->bottom) * v->pixels);
        return;
    }
    view_loop(v, "concrete", &v->outline->outer);
    for (kl_index i = 0; i < v->outline->void_count; i++) {
        view_loop(v, "void", &v->outline->voids[i]);
    }
}

void section_view_centroid(const section_view *v)
{
    const double y = section_view_y(v, v->values.centroid);
    const double line[] = {view_x(v, v->left) - VIEW_AXIS, y, view_x(v, v->right) + VIEW_AXIS, y};
    drawing_course(v->drawing, "centroid", line, 2);
    drawing_text(v->drawing, "small", line[2] + 4.0, y + 3.5, ANCHOR_START, "centroid");
}

/* ---- what lies in the concrete --------------------------------------------------------------------------- */

/* Stretches of concrete at a level: pairs of sides, from the left. */
typedef struct view_level {
    double edges[VIEW_EDGES];
    int count;
    double total; /* m of concrete */
} view_level;

static void level_add(view_level *l, double x)
{
    int i = l->count;
    if (i == VIEW_EDGES) {
        return;
    }
    for (; i > 0 && l->edges[i - 1] > x; i--) {
        l->edges[i] = l->edges[i - 1];
    }
    l->edges[i] = x;
    l->count++;
}

static void level_cross(view_level *l, const kl_polygon *loop, double y)
{
    for (kl_index i = 0; i < loop->count; i++) {
        const kl_point *p = &loop->points[i];
        const kl_point *q = &loop->points[i + 1 < loop->count ? i + 1 : 0];
        if ((p->y <= y) != (q->y <= y)) {
            level_add(l, p->x + (y - p->y) / (q->y - p->y) * (q->x - p->x));
        }
    }
}

/* Where there is no concrete, outside or in a void, the section's whole width: what lies wrongly is seen to. */
static view_level view_level_at(const section_view *v, double y)
{
    view_level l = {0};
    if (v->outline) {
        level_cross(&l, &v->outline->outer, y);
    }
    for (kl_index i = 0; v->outline && i < v->outline->void_count; i++) {
        level_cross(&l, &v->outline->voids[i], y);
    }
    l.count -= l.count % 2;
    for (int i = 0; i < l.count; i += 2) {
        l.total += l.edges[i + 1] - l.edges[i];
    }
    if (!(l.total > 0.0)) {
        l = (view_level){.edges = {v->left, v->right}, .count = 2, .total = v->right - v->left};
    }
    return l;
}

/* x at a share of the concrete, from the left. */
static double level_place(const view_level *l, double share)
{
    double rest = share * l->total;
    for (int i = 0; i + 2 < l->count; i += 2) {
        const double width = l->edges[i + 1] - l->edges[i];
        if (rest <= width) {
            return l->edges[i] + rest;
        }
        rest -= width;
    }
    return l->edges[l->count - 2] + rest;
}

static void view_put_layer(const section_view *v, const kl_rebar_layer *layer)
{
    const double y = v->top - layer->depth;
    const view_level level = view_level_at(v, y);
    const double page_y = section_view_y(v, y);
    const double radius = fmax(sqrt(layer->bar_area / 3.14159265358979323846) * v->pixels, 1.3);
    char text[LABEL_SIZE];
    char area[LABEL_SIZE];
    label_value(area, &kl_results_model(v->results)->display, KL_MEASURE_STEEL_AREA,
                layer->bar_area, 4);
    snprintf(text, sizeof text, "%.6g bars, %.60s each", layer->count, area);
    const double from = view_x(v, level_place(&level, 0.0));
    const double to = view_x(v, level_place(&level, 1.0));
    drawing_keep_free(v->drawing, from, page_y - radius, to - from, 2.0 * radius);
    drawing_label(v->drawing, "small", from + 0.1 * (to - from), page_y, 0.5, text);
    if (layer->count > VIEW_BARS || layer->count * 2.0 * radius > level.total * v->pixels) {
        drawing_line(v->drawing, "bar-row", from, page_y, to, page_y);
        return;
    }
    const int count = (int)fmax(round(layer->count), 1.0);
    for (int i = 0; i < count; i++) {
        const double x = level_place(&level, (i + 0.5) / count);
        drawing_circle(v->drawing, "bar", view_x(v, x), page_y, radius);
    }
}

void section_view_bars(const section_view *v)
{
    const kl_model *model = kl_results_model(v->results);
    const kl_section_mix mix = kl_section_mix_at(model, v->member, v->station, v->side);
    const kl_section *section = &model->sections[mix.share > 0.5 ? mix.b : mix.a];
    for (kl_index i = 0; i < section->rebar_count && !isnan(v->top); i++) {
        view_put_layer(v, &section->rebar[i]);
    }
}

/* ---- ducts ------------------------------------------------------------------------------------------------- */

/* Tendons of one group where they pass the section. */
typedef struct view_group {
    kl_index tendon;
    double duct, steel; /* m above the line: the duct's middle, the steel's centroid */
    double size;        /* m */
    kl_index count;
} view_group;

#define VIEW_GROUPS 64

static kl_status view_group_at(const section_view *v, kl_index tendon, view_group *g)
{
    const kl_model *model = kl_results_model(v->results);
    const kl_tendon *t = &model->tendons[tendon];
    double x = v->station;
    for (kl_index i = 0; i < t->member_count; i++) {
        if (t->members[i] == v->member) {
            kl_tendon_point p;
            KL_TRY(kl_tendon_point_at(v->results, tendon, x, v->side, &p));
            const double steel = sqrt(t->units * t->unit_area / 3.14159265358979323846) * 2.0;
            *g = (view_group){tendon, p.duct_height, p.height, fmax(t->duct, steel), t->count};
            return KL_OK;
        }
        x += kl_member_length(model, t->members[i]);
    }
    return KL_NOT_THERE;
}

/* From the lowest up. */
static kl_status view_groups(const section_view *v, view_group *groups, int *count)
{
    *count = 0;
    const kl_index tendons = kl_results_model(v->results)->tendon_count;
    for (kl_index t = 0; t < tendons && *count < VIEW_GROUPS; t++) {
        view_group g;
        const kl_status status = view_group_at(v, t, &g);
        if (status == KL_NOT_THERE) {
            continue;
        }
        KL_TRY(status);
        int i = (*count)++;
        for (; i > 0 && groups[i - 1].duct > g.duct; i--) {
            groups[i] = groups[i - 1];
        }
        groups[i] = g;
    }
    return KL_OK;
}

static void view_name_group(const section_view *v, const view_group *g, double x)
{
    const kl_model *model = kl_results_model(v->results);
    char text[LABEL_SIZE];
    char height[LABEL_SIZE];
    label_value(height, &model->display, KL_MEASURE_SIZE, g->duct - v->bottom, 4);
    snprintf(text, sizeof text, "%.120s, %.60s up", model->tendons[g->tendon].name, height);
    drawing_label(v->drawing, "small", x, section_view_y(v, g->duct), 1.0, text);
}

/* The groups first … end - 1 lie at one height and share the width: their ducts side by side, group after group. */
static void
view_put_row(const section_view *v, const view_group *groups, int first, int end, bool names)
{
    double total = 0.0;
    for (int i = first; i < end; i++) {
        total += groups[i].count;
    }
    const view_level level = view_level_at(v, groups[first].duct);
    double done = 0.0;
    for (int i = first; i < end; i++) {
        const view_group *g = &groups[i];
        const double radius = fmax(0.5 * g->size * v->pixels, 2.0);
        double x = 0.0;
        for (int k = 0; k < g->count && k < VIEW_BARS; k++) {
            x = view_x(v, level_place(&level, (done + k + 0.5) / total));
            drawing_circle(v->drawing, "duct", x, section_view_y(v, g->duct), radius);
            drawing_circle(v->drawing, "steel", x, section_view_y(v, g->steel),
                           fmax(0.35 * radius, 1.2));
            drawing_keep_free(v->drawing, x - radius, section_view_y(v, g->duct) - radius,
                              2.0 * radius, 2.0 * radius);
        }
        done += g->count;
        if (names) {
            view_name_group(v, g, x + radius);
        }
    }
}

void section_view_ducts(const section_view *v, bool names)
{
    view_group groups[VIEW_GROUPS];
    int count;
    const kl_status status = view_groups(v, groups, &count);
    if (status != KL_OK) {
        v->drawing->status = v->drawing->status == KL_OK ? status : v->drawing->status;
        return;
    }
    for (int first = 0, end; first < count; first = end) {
        end = first + 1;
        while (end < count && groups[end].duct - groups[first].duct < groups[first].size) {
            end++;
        }
        view_put_row(v, groups, first, end, names);
    }
}

/* ---- dimensions ------------------------------------------------------------------------------------------- */

/* Arrows from the middle to both ends, and lines that lead there from the section. */
static void
view_put_dimension(const section_view *v, const double from[2], const double to[2], bool upright)
{
    drawing *d = v->drawing;
    const double middle[] = {0.5 * (from[0] + to[0]), 0.5 * (from[1] + to[1])};
    const double *ends[] = {from, to};
    for (int i = 0; i < 2; i++) {
        const double *end = ends[i];
        drawing_arrow(d, "dimension", middle[0], middle[1], end[0], end[1]);
        const double line[] = {end[0] - (upright ? 4.0 : 0.0), end[1] + (upright ? 0.0 : 4.0),
                               end[0] + (upright ? VIEW_DIMENSION - 4.0 : 0.0),
                               end[1] - (upright ? 0.0 : VIEW_DIMENSION - 4.0)};
        drawing_course(d, "leader", line, 2);
    }
    drawing_keep_free(d, fmin(from[0], to[0]) - 2.0, fmin(from[1], to[1]) - 2.0,
                      fabs(to[0] - from[0]) + 4.0, fabs(to[1] - from[1]) + 4.0);
}

void section_view_dimensions(const section_view *v)
{
    const kl_display *display = &kl_results_model(v->results)->display;
    char text[LABEL_SIZE];
    const double left = view_x(v, v->left);
    const double right = view_x(v, v->right);
    const double top = section_view_y(v, v->top);
    const double bottom = section_view_y(v, v->bottom);
    const double x = left - VIEW_DIMENSION;
    const double y = bottom + VIEW_DIMENSION;
    view_put_dimension(v, (double[]){x, top}, (double[]){x, bottom}, true);
    label_value(text, display, KL_MEASURE_SIZE, v->top - v->bottom, 5);
    drawing_text_up(v->drawing, "small", x - 5.0, 0.5 * (top + bottom), ANCHOR_MIDDLE, text);
    if (v->outline) {
        view_put_dimension(v, (double[]){left, y}, (double[]){right, y}, false);
        label_value(text, display, KL_MEASURE_SIZE, v->right - v->left, 5);
        drawing_text(v->drawing, "small", 0.5 * (left + right), y + 13.0, ANCHOR_MIDDLE, text);
    }
}
