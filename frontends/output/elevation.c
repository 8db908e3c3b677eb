/* elevation.c - see elevation.h.
 * SPDX-License-Identifier: MIT */
#include "elevation.h"

#include <math.h>
#include <stdio.h>

#include "diagrams.h"
#include "mem.h"

#define ELEVATION_DIVISION 80 /* pieces of a member between its own stations */
#define ELEVATION_STEEP                                                                            \
    0.5 /* sine of the angle from which on a member that meets another counts as a column */

/* ---- members in one line ----------------------------------------------------------------------------------- */

static kl_index line_find(const elevation *e, kl_index member)
{
    for (kl_index i = 0; i < e->member_count; i++) {
        if (e->members[i] == member) {
            return i;
        }
    }
    return KL_NONE;
}

/* The place in the line that the tendon's first member has or would have; false: it runs in none of them. */
static bool line_place(const elevation *e, const kl_tendon *t, kl_index *first)
{
    for (kl_index i = 0; i < t->member_count; i++) {
        const kl_index at = line_find(e, t->members[i]);
        if (at != KL_NONE) {
            *first = at - i;
            return true;
        }
    }
    return false;
}

/* Put the tendon's members that are not in the line yet at its ends. @return whether there were any. */
static bool line_extend(elevation *e, const kl_tendon *t, kl_index room)
{
    kl_index first;
    if (!line_place(e, t, &first)) {
        return false;
    }
    const kl_index before = first < 0 ? -first : 0;
    const kl_index end = first + t->member_count;
    const kl_index after = end > e->member_count ? end - e->member_count : 0;
    if (before + after == 0 || e->member_count + before + after > room) {
        return false;
    }
    for (kl_index i = e->member_count - 1; i >= 0; i--) {
        e->members[i + before] = e->members[i];
    }
    for (kl_index i = 0; i < before; i++) {
        e->members[i] = t->members[i];
    }
    for (kl_index i = 0; i < after; i++) {
        e->members[before + e->member_count + i] = t->members[t->member_count - after + i];
    }
    e->member_count += before + after;
    return true;
}

static kl_status line_gather(arena *a, kl_index member, bool joined, elevation *e)
{
    const kl_model *model = kl_results_model(e->results);
    const kl_index room = joined ? model->member_count : 1;
    e->members = arena_array(a, (size_t)room, sizeof *e->members);
    e->begin = arena_array(a, (size_t)room, sizeof *e->begin);
    if (!e->members || !e->begin) {
        return KL_NO_MEMORY;
    }
    e->members[0] = member;
    e->member_count = 1;
    for (bool grew = joined; grew;) {
        grew = false;
        for (kl_index t = 0; t < model->tendon_count; t++) {
            grew = line_extend(e, &model->tendons[t], room) || grew;
        }
    }
    for (kl_index i = 0; i < e->member_count; i++) {
        e->begin[i] = e->length;
        e->length += kl_member_length(model, e->members[i]);
    }
    return KL_OK;
}

double elevation_offset(const elevation *e, kl_index tendon)
{
    const kl_tendon *t = &kl_results_model(e->results)->tendons[tendon];
    kl_index first;
    if (!line_place(e, t, &first) || first < 0 || first + t->member_count > e->member_count) {
        return NAN;
    }
    for (kl_index i = 0; i < t->member_count; i++) {
        if (e->members[first + i] != t->members[i]) {
            return NAN;
        }
    }
    return e->begin[first];
}

/* ---- outline --------------------------------------------------------------------------------------------- */

static kl_status outline_add(elevation *e, kl_index i, const kl_station_row *rows, kl_index count)
{
    const kl_display *display = &kl_results_model(e->results)->display;
    const double station = kl_show_factor(display, KL_MEASURE_STATION);
    const double size = kl_show_factor(display, KL_MEASURE_SIZE);
    for (kl_index r = 0; r < count; r++) {
        kl_section_values v;
        KL_TRY(kl_section_at_station(e->results, e->members[i], rows[r].station, rows[r].side, &v));
        const int at = e->count++;
        e->station[at] = (e->begin[i] + rows[r].station) / station;
        e->top[at] = (v.centroid + v.to_top) / size;
        e->bottom[at] = (v.centroid - v.to_bottom) / size;
        e->centroid[at] = v.centroid / size;
        e->low = fmin(e->low, e->bottom[at]);
        e->high = fmax(e->high, e->top[at]);
    }
    return KL_OK;
}

static kl_status
outline_rows(const elevation *e, kl_index i, const kl_station_row **rows, kl_index *count)
{
    const double every =
        kl_member_length(kl_results_model(e->results), e->members[i]) / ELEVATION_DIVISION;
    return kl_station_rows(e->results, e->members[i], every, rows, count);
}

kl_status
elevation_gather(arena *a, kl_results *results, kl_index member, bool joined, elevation *out)
{
    *out = (elevation){.results = results};
    KL_TRY(line_gather(a, member, joined, out));
    size_t room = 0;
    for (kl_index i = 0; i < out->member_count; i++) {
        const kl_station_row *rows;
        kl_index count;
        KL_TRY(outline_rows(out, i, &rows, &count));
        room += (size_t)count;
    }
    double **arrays[] = {&out->station, &out->top, &out->bottom, &out->centroid};
    for (int k = 0; k < 4; k++) {
        *arrays[k] = arena_array(a, room, sizeof(double));
        if (!*arrays[k]) {
            return KL_NO_MEMORY;
        }
    }
    for (kl_index i = 0; i < out->member_count; i++) {
        const kl_station_row *rows;
        kl_index count;
        KL_TRY(outline_rows(out, i, &rows, &count));
        KL_TRY(outline_add(out, i, rows, count));
    }
    return KL_OK;
}

plot elevation_axes(drawing *d, const elevation *e, label_box region, double below, double beyond)
{
    const kl_display *display = &kl_results_model(e->results)->display;
    const double length = e->length / kl_show_factor(display, KL_MEASURE_STATION);
    const double height = fmax(e->high - e->low, 1e-6 * length);
    char along[80];
    char upright[80];
    snprintf(along, sizeof along, "station, %s", kl_show_unit(display, KL_MEASURE_STATION));
    snprintf(upright, sizeof upright, "above the line, %s", kl_show_unit(display, KL_MEASURE_SIZE));
    const plot_axis x = {
        .low = -beyond * length, .high = (1.0 + beyond) * length, .label = along, .tight = true};
    const plot_axis y = {.low = e->low - below * height,
                         .high = e->high + 0.12 * height,
                         .label = upright,
                         .tight = true};
    return plot_start(d, region, &x, &y);
}

double elevation_stretch(const plot *p, const elevation *e)
{
    const kl_display *display = &kl_results_model(e->results)->display;
    const double along = p->x.length / (p->x.to - p->x.from);
    const double upright = fabs(p->y.length) / (p->y.to - p->y.from);
    return upright / kl_show_factor(display, KL_MEASURE_SIZE) /
           (along / kl_show_factor(display, KL_MEASURE_STATION));
}

/* From `begin` on, how many places in a row have a top and a bottom. */
static int outline_run(const elevation *e, int begin)
{
    int end = begin;
    while (end < e->count && !isnan(e->top[end]) && !isnan(e->bottom[end])) {
        end++;
    }
    return end - begin;
}

static void concrete_put(const plot *p, const elevation *e, int begin, int run)
{
    double *points = mem_array(4 * (size_t)run, sizeof(double));
    if (!points) {
        diagram_accepts(p->drawing, KL_NO_MEMORY);
        return;
    }
    for (int i = 0; i < run; i++) {
        double *top = points + 2 * (size_t)i;
        double *bottom = points + 2 * (size_t)(2 * run - 1 - i);
        top[0] = bottom[0] = plot_x(p, e->station[begin + i]);
        top[1] = plot_y(p, e->top[begin + i]);
        bottom[1] = plot_y(p, e->bottom[begin + i]);
    }
    drawing_outline(p->drawing, "concrete", points, 2 * run);
    mem_free(points);
}

void elevation_concrete(const plot *p, const elevation *e)
{
    for (int begin = 0; begin < e->count; begin++) {
        const int run = outline_run(e, begin);
        if (run > 1) {
            concrete_put(p, e, begin, run);
        }
        begin += run;
    }
}

void elevation_centroid(const plot *p, const elevation *e)
{
    plot_course(p, "centroid", e->station, e->centroid, e->count);
}

/* ---- what holds it ----------------------------------------------------------------------------------------- */

/* A place of the line on the page: soffit and top. */
typedef struct line_spot {
    double x, top, bottom; /* px */
} line_spot;

static line_spot spot_at(const plot *p, const elevation *e, kl_index i, double station)
{
    const kl_display *display = &kl_results_model(e->results)->display;
    const double size = kl_show_factor(display, KL_MEASURE_SIZE);
    kl_section_values v;
    line_spot s = {
        .x = plot_x(p, (e->begin[i] + station) / kl_show_factor(display, KL_MEASURE_STATION)),
        .top = plot_y(p, 0.0),
        .bottom = plot_y(p, 0.0)};
    if (kl_section_at_station(e->results, e->members[i], station, KL_RIGHT, &v) == KL_OK &&
        !isnan(v.to_top)) {
        s.top = plot_y(p, (v.centroid + v.to_top) / size);
        s.bottom = plot_y(p, (v.centroid - v.to_bottom) / size);
    }
    return s;
}

/* Sine of the angle from the line to a member that meets it at a node: + to the line's left hand, its top. */
static double column_sine(const kl_model *model, kl_index line, kl_index other, kl_index node)
{
    const kl_member *l = &model->members[line];
    const kl_member *m = &model->members[other];
    const kl_node *at = &model->nodes[node];
    const kl_node *far = &model->nodes[m->from == node ? m->to : m->from];
    const double dx = model->nodes[l->to].x - model->nodes[l->from].x;
    const double dy = model->nodes[l->to].y - model->nodes[l->from].y;
    const double x = far->x - at->x;
    const double y = far->y - at->y;
    return (dx * y - dy * x) / (hypot(dx, dy) * hypot(x, y));
}

/* As wide as it is and as far as there is room, broken off there. */
static void column_put(
    const plot *p, const elevation *e, kl_index other, line_spot spot, bool at_start, double sine)
{
    const kl_model *model = kl_results_model(e->results);
    drawing *d = p->drawing;
    kl_section_values v;
    const double station = at_start ? 0.0 : kl_member_length(model, other);
    const double metre =
        (plot_x(p, 1.0) - plot_x(p, 0.0)) / kl_show_factor(&model->display, KL_MEASURE_STATION);
    const bool known = !model->members[other].axial_only &&
                       kl_section_at_station(e->results, other, station,
                                             at_start ? KL_RIGHT : KL_LEFT, &v) == KL_OK &&
                       !isnan(v.to_top);
    const double half = known ? 0.5 * (v.to_top + v.to_bottom) / fabs(sine) * metre : 1.0;
    const double near = sine < 0.0 ? spot.bottom : spot.top;
    const double far = sine < 0.0 ? p->bottom - 6.0 : p->top + 6.0;
    const double area[] = {spot.x - half, near, spot.x - half, far,
                           spot.x + half, far,  spot.x + half, near};
    const double middle = 0.5 * half;
    const double cut[] = {spot.x - half - 4.0, far,       spot.x - middle,     far,
                          spot.x - 0.2 * half, far - 5.0, spot.x + 0.2 * half, far + 5.0,
                          spot.x + middle,     far,       spot.x + half + 4.0, far};
    drawing_area(d, "support", area, 4);
    drawing_course(d, "tick", cut, 6);
    drawing_keep_free(d, spot.x - half, fmin(near, far), 2.0 * half, fabs(far - near));
    drawing_hint(d, "small quiet", spot.x + half, 0.5 * (near + far), 0.0,
                 model->members[other].name);
}

static void support_put(const plot *p, line_spot spot)
{
    const double triangle[] = {spot.x,       spot.bottom,       spot.x - 8.0, spot.bottom + 12.0,
                               spot.x + 8.0, spot.bottom + 12.0};
    drawing_area(p->drawing, "support", triangle, 3);
    drawing_line(p->drawing, "outline", spot.x - 11.0, spot.bottom + 12.0, spot.x + 11.0,
                 spot.bottom + 12.0);
    drawing_keep_free(p->drawing, spot.x - 11.0, spot.bottom, 22.0, 13.0);
}

/* Does a support hold the node then, in any direction? */
static bool node_is_supported(const elevation *e, const kl_state *state, kl_index node)
{
    const kl_model *model = kl_results_model(e->results);
    for (kl_index i = 0; i < model->support_count; i++) {
        kl_hold hold[3];
        if (model->supports[i].node != node) {
            continue;
        }
        if (!state || (kl_support_holds(e->results, *state, i, hold) == KL_OK &&
                       (hold[KL_X].kind != KL_FREE || hold[KL_Y].kind != KL_FREE ||
                        hold[KL_TURN].kind != KL_FREE))) {
            return true;
        }
    }
    return false;
}

/* All that meets the line at a node. */
static void columns_at(
    const plot *p, const elevation *e, const kl_state *state, kl_index i, const kl_station_row *row)
{
    const kl_model *model = kl_results_model(e->results);
    const line_spot spot = spot_at(p, e, i, row->station);
    bool stands = false;
    for (kl_index m = 0; m < model->member_count; m++) {
        const bool meets = model->members[m].from == row->node || model->members[m].to == row->node;
        if (!meets || line_find(e, m) != KL_NONE) {
            continue;
        }
        const double sine = column_sine(model, e->members[i], m, row->node);
        if (fabs(sine) > ELEVATION_STEEP) {
            column_put(p, e, m, spot, model->members[m].from == row->node, sine);
            stands = stands || sine < 0.0;
        }
    }
    if (!stands && node_is_supported(e, state, row->node)) {
        support_put(p, spot);
    }
}

void elevation_columns(const plot *p, const elevation *e, const kl_state *state)
{
    kl_index last = KL_NONE;
    for (kl_index i = 0; i < e->member_count; i++) {
        const kl_station_row *rows;
        kl_index count;
        if (!diagram_accepts(p->drawing, outline_rows(e, i, &rows, &count))) {
            return;
        }
        for (kl_index r = 0; r < count; r++) {
            if (rows[r].node != KL_NONE && rows[r].node != last) {
                last = rows[r].node;
                columns_at(p, e, state, i, &rows[r]);
            }
        }
    }
}

static void post_put(const plot *p, line_spot spot, bool bears)
{
    const double open = bears ? 2.0 : 6.0;
    drawing_box(p->drawing, bears ? "post" : "post open", spot.x - 2.0, spot.bottom + open, 4.0,
                20.0);
    drawing_keep_free(p->drawing, spot.x - 2.0, spot.bottom, 4.0, 26.0);
}

void elevation_posts(const plot *p, const elevation *e, const kl_state *state)
{
    const kl_model *model = kl_results_model(e->results);
    for (kl_index f = 0; f < model->falsework_count && state; f++) {
        const kl_falsework *set = &model->falsework[f];
        const kl_index i = line_find(e, set->member);
        for (kl_index r = 0; r < set->row_count && i != KL_NONE; r++) {
            kl_post_row row;
            if (kl_row_state(e->results, *state, f, r, &row) == KL_OK && row.stands) {
                post_put(p, spot_at(p, e, i, set->stations[r]), row.bears || row.waits);
            }
        }
    }
}
