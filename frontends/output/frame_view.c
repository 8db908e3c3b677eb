/* frame_view.c - see frame_view.h.
 * SPDX-License-Identifier: MIT */
#include "frame_view.h"

#include <math.h>
#include <stdio.h>

#include "diagrams.h"
#include "figure.h"
#include "mem.h"
#include "scale.h"

#define VIEW_WIDTH   900.0
#define VIEW_MOST    620.0 /* px, height of the frame with its margins */
#define VIEW_FLAT    24.0  /* px, of a frame without height */
#define VIEW_HEAD    20.0
#define VIEW_FOOT    84.0 /* px under the frame */
#define VIEW_NOTE    20.0 /* of them at least, under the margin */
#define VIEW_HINGE   4.0
#define VIEW_APART   7.0  /* px from a node to a hinge */
#define VIEW_SUPPORT 34.0 /* px between supports that are drawn in full size */
#define VIEW_SPACING 60.0 /* and between nodes */
#define VIEW_LEAST   0.45 /* of full size */
#define VIEW_CLOSE   2.0  /* px to the support before, like it: nobody could tell the two apart */

static void view_extent(const kl_model *model, double low[2], double high[2])
{
    low[0] = low[1] = HUGE_VAL;
    high[0] = high[1] = -HUGE_VAL;
    for (kl_index i = 0; i < model->node_count; i++) {
        low[0] = fmin(low[0], model->nodes[i].x);
        high[0] = fmax(high[0], model->nodes[i].x);
        low[1] = fmin(low[1], model->nodes[i].y);
        high[1] = fmax(high[1], model->nodes[i].y);
    }
}

double frame_view_height(const kl_model *model, double width, double margin, double most)
{
    double low[2];
    double high[2];
    view_extent(model, low, high);
    const double pixels = (width - 2.0 * margin) / fmax(high[0] - low[0], 1e-9);
    return fmin(fmax(pixels * (high[1] - low[1]), VIEW_FLAT) + 2.0 * margin, most);
}

/* Small where supports or nodes are many. */
static double view_mark(const frame_view *v, double width)
{
    const double each = width / (1.0 + (double)v->model->support_count);
    const double room = fmin(each / VIEW_SUPPORT, frame_view_spacing(v) / VIEW_SPACING);
    return fmax(fmin(room, 1.0), VIEW_LEAST);
}

frame_view frame_view_start(drawing *d, const kl_results *results, label_box region, double margin)
{
    const kl_model *model = kl_results_model(results);
    double low[2];
    double high[2];
    view_extent(model, low, high);
    const double width = fmax(high[0] - low[0], 1e-9);
    const double height = fmax(high[1] - low[1], 1e-9);
    const double pixels =
        fmin((region.width - 2.0 * margin) / width, (region.height - 2.0 * margin) / height);
    frame_view v = {.drawing = d,
                    .model = model,
                    .results = results,
                    .x = 0.5 * (low[0] + high[0]),
                    .y = 0.5 * (low[1] + high[1]),
                    .at_x = region.x + 0.5 * region.width,
                    .at_y = region.y + 0.5 * region.height,
                    .pixels = pixels};
    const page_point corner = frame_view_point(&v, low[0], low[1]);
    const page_point opposite = frame_view_point(&v, high[0], high[1]);
    v.left = corner.x;
    v.bottom = corner.y;
    v.right = opposite.x;
    v.top = opposite.y;
    v.mark = view_mark(&v, region.width);
    return v;
}

frame_view frame_view_page(drawing *d,
                           const kl_results *results,
                           const char *title,
                           const char *description,
                           double margin)
{
    const kl_model *model = kl_results_model(results);
    const double height = frame_view_height(model, VIEW_WIDTH, margin, VIEW_MOST);
    const double foot = fmax(VIEW_FOOT - margin, VIEW_NOTE);
    drawing_start(d, VIEW_WIDTH, VIEW_HEAD + height + foot, title, description);
    drawing_text(d, "strong", 8.0, 16.0, ANCHOR_START, title);
    return frame_view_start(d, results, (label_box){0.0, VIEW_HEAD, VIEW_WIDTH, height}, margin);
}

void frame_view_note(const frame_view *v, const char *text)
{
    drawing_text(v->drawing, "small quiet", VIEW_WIDTH - 8.0, v->drawing->height - 8.0, ANCHOR_END,
                 text);
}

page_point frame_view_point(const frame_view *v, double x, double y)
{
    return (page_point){v->at_x + (x - v->x) * v->pixels, v->at_y - (y - v->y) * v->pixels};
}

page_point frame_view_node(const frame_view *v, kl_index node)
{
    return frame_view_point(v, v->model->nodes[node].x, v->model->nodes[node].y);
}

page_point frame_view_on_member(const frame_view *v, kl_index member, double station, double across)
{
    const kl_member *m = &v->model->members[member];
    const page_point from = frame_view_node(v, m->from);
    const page_point to = frame_view_node(v, m->to);
    const double length = hypot(to.x - from.x, to.y - from.y);
    const double share = station / kl_member_length(v->model, member);
    const double ux = length > 0.0 ? (to.x - from.x) / length : 1.0;
    const double uy = length > 0.0 ? (to.y - from.y) / length : 0.0;
    /* on the page y goes down, so the left hand of (ux, uy) is (uy, -ux) */
    return (page_point){from.x + share * (to.x - from.x) + across * uy,
                        from.y + share * (to.y - from.y) - across * ux};
}

double frame_view_spacing(const frame_view *v)
{
    double sum = 0.0; /* of logarithms: one long member does not hide that the others are short */
    for (kl_index m = 0; m < v->model->member_count; m++) {
        sum += log(kl_member_length(v->model, m) * v->pixels);
    }
    return v->model->member_count > 0 ? exp(sum / (double)v->model->member_count) : 0.0;
}

/* ---- supports, in a group whose origin is the node ---------------------------------------------------------- */

static void view_ground(drawing *d, double y, double half)
{
    drawing_line(d, "outline", -half, y, half, y);
    for (int i = 0; 5.0 * i < 2.0 * half; i++) {
        const double at = -half + 5.0 * i;
        drawing_line(d, "tick", at, y + 5.0, at + 4.0, y);
    }
}

/* Down to the ground, or with `side` to the left. */
static void view_spring(drawing *d, bool side)
{
    static const double zigzag[][2] = {{0, 0},  {0, 3},  {5, 5}, {-5, 9},
                                       {5, 13}, {0, 15}, {0, 18}}; /* across, along */
    const int count = (int)(sizeof zigzag / sizeof zigzag[0]);
    for (int i = 0; i + 1 < count; i++) {
        const double *from = zigzag[i];
        const double *to = zigzag[i + 1];
        drawing_line(d, "outline", side ? -from[1] : from[0], side ? from[0] : from[1],
                     side ? -to[1] : to[0], side ? to[0] : to[1]);
    }
    if (side) {
        drawing_line(d, "outline", -18.0, -8.0, -18.0, 8.0);
    } else {
        view_ground(d, 18.0, 9.0);
    }
}

/* A triangle under the node: on rollers when it is free to slide, a little apart when it only pushes. */
static void view_upright_hold(drawing *d, kl_hold_kind kind, bool slides)
{
    if (kind == KL_SPRING) {
        view_spring(d, false);
        return;
    }
    const double top = kind == KL_FIXED ? 0.0 : 4.0;
    const double triangle[] = {0.0, top, -8.0, top + 12.0, 8.0, top + 12.0};
    drawing_area(d, "support", triangle, 3);
    if (slides) {
        drawing_circle(d, "support", -4.0, top + 14.5, 2.3);
        drawing_circle(d, "support", 4.0, top + 14.5, 2.3);
    }
    view_ground(d, top + (slides ? 17.0 : 12.0), 11.0);
}

static void view_side_hold(drawing *d, kl_hold_kind kind)
{
    if (kind == KL_SPRING) {
        view_spring(d, true);
        return;
    }
    const double tip = kind == KL_FIXED ? 0.0 : -4.0;
    const double triangle[] = {tip, 0.0, tip - 12.0, -8.0, tip - 12.0, 8.0};
    drawing_area(d, "support", triangle, 3);
}

static void view_support(const frame_view *v, const kl_support *support)
{
    drawing *d = v->drawing;
    const page_point p = frame_view_node(v, support->node);
    const kl_hold *hold = support->hold;
    char place[120];
    snprintf(place, sizeof place, "transform=\"translate(%.2f %.2f) rotate(%.2f) scale(%.3g)\"",
             p.x, p.y, -support->slope * 180.0 / 3.14159265358979323846, v->mark);
    drawing_open(d, "held", place);
    const bool turns = hold[2].kind == KL_FREE;
    if (hold[0].kind == KL_FIXED && hold[1].kind == KL_FIXED && hold[2].kind == KL_FIXED) {
        drawing_box(d, "support", -9.0, 0.0, 18.0, 7.0);
        view_ground(d, 7.0, 12.0);
    } else {
        if (hold[1].kind != KL_FREE) {
            view_upright_hold(d, hold[1].kind, hold[0].kind != KL_FIXED);
        }
        if (hold[0].kind != KL_FREE && (hold[0].kind != KL_FIXED || hold[1].kind != KL_FIXED)) {
            view_side_hold(d, hold[0].kind);
        }
        if (!turns) { /* held or sprung against turning alone */
            drawing_box(d, "support", -5.0, -5.0, 10.0, 10.0);
        }
    }
    drawing_close(d);
    drawing_keep_free(d, p.x - 12.0 * v->mark, p.y, 24.0 * v->mark, 26.0 * v->mark);
}

static bool view_is_held_alike(const kl_support *a, const kl_support *b)
{
    return a->hold[0].kind == b->hold[0].kind && a->hold[1].kind == b->hold[1].kind &&
           a->hold[2].kind == b->hold[2].kind && fabs(a->slope - b->slope) < 1e-6;
}

static bool view_holds(const kl_support *support)
{
    return support->hold[KL_X].kind != KL_FREE || support->hold[KL_Y].kind != KL_FREE ||
           support->hold[KL_TURN].kind != KL_FREE;
}

/* The supports of a node as one: no two of them hold one direction at a time. */
static void view_join_support(kl_support *all, const kl_support *more)
{
    for (int d = KL_X; d <= KL_TURN; d++) {
        all->hold[d] = more->hold[d].kind != KL_FREE ? more->hold[d] : all->hold[d];
    }
}

/* One support of each node that is held in the state, in the order of the model; without a state as declared.
 * @param held  room for one of each support.
 * @param place zeroed, of each node: 1 + where it is in `held`.
 * @return how many nodes are held */
static kl_index
view_gather_supports(const frame_view *v, const kl_state *state, kl_support *held, kl_index *place)
{
    kl_index count = 0;
    for (kl_index i = 0; i < v->model->support_count; i++) {
        kl_support now = v->model->supports[i];
        if (state &&
            !diagram_accepts(v->drawing, kl_support_holds(v->results, *state, i, now.hold))) {
            return 0;
        }
        if (!view_holds(&now)) {
            continue;
        }
        if (place[now.node] > 0) {
            view_join_support(&held[place[now.node] - 1], &now);
        } else {
            held[count++] = now;
            place[now.node] = count;
        }
    }
    return count;
}

static void view_draw_supports(const frame_view *v, const kl_support *held, kl_index count)
{
    const kl_support *drawn = NULL;
    page_point at = {0.0, 0.0};
    for (kl_index i = 0; i < count; i++) {
        const page_point p = frame_view_node(v, held[i].node);
        if (!drawn || hypot(p.x - at.x, p.y - at.y) >= VIEW_CLOSE ||
            !view_is_held_alike(drawn, &held[i])) {
            view_support(v, &held[i]);
            drawn = &held[i];
            at = p;
        }
    }
}

static void view_supports(const frame_view *v, const kl_state *state)
{
    kl_support *held = mem_array((size_t)v->model->support_count, sizeof *held);
    kl_index *place = mem_array((size_t)v->model->node_count, sizeof *place);
    if (held && place) {
        view_draw_supports(v, held, view_gather_supports(v, state, held, place));
    } else {
        diagram_accepts(v->drawing, KL_NO_MEMORY);
    }
    mem_free(held);
    mem_free(place);
}

/* ---- members, posts ------------------------------------------------------------------------------------------ */

static void view_hinge(const frame_view *v, kl_index member, double station)
{
    const page_point p = frame_view_on_member(v, member, station, 0.0);
    drawing_circle(v->drawing, "node", p.x, p.y, VIEW_HINGE * v->mark);
}

static void view_member(const frame_view *v, kl_index member, bool stands)
{
    const kl_member *m = &v->model->members[member];
    const double length = kl_member_length(v->model, member);
    const double stations[] = {0.0, m->rigid_start, length - m->rigid_end, length};
    for (int i = 0; i < 3; i++) {
        if (!(stations[i + 1] > stations[i])) {
            continue;
        }
        const page_point from = frame_view_on_member(v, member, stations[i], 0.0);
        const page_point to = frame_view_on_member(v, member, stations[i + 1], 0.0);
        const double line[] = {from.x, from.y, to.x, to.y};
        drawing_course(v->drawing,
                       !stands  ? "member absent"
                       : i == 1 ? "member"
                                : "member rigid",
                       line, 2);
    }
    if (!stands) {
        return;
    }
    if (m->hinge_start) {
        view_hinge(v, member, m->rigid_start + VIEW_APART * v->mark / v->pixels);
    }
    if (m->hinge_end) {
        view_hinge(v, member, length - m->rigid_end - VIEW_APART * v->mark / v->pixels);
    }
    for (kl_index i = 0; i < m->hinge_count; i++) {
        view_hinge(v, member, m->hinges[i]);
    }
}

static void view_post(const frame_view *v, page_point top, bool touches)
{
    const double width = 4.0 * v->mark;
    const double x = top.x - 0.5 * width;
    const double y = top.y + (touches ? 3.0 : 7.0) * v->mark;
    drawing_box(v->drawing, touches ? "post" : "post open", x, y, width, 22.0 * v->mark);
    drawing_keep_free(v->drawing, x, y, width, 22.0 * v->mark);
}

static void view_posts(const frame_view *v, kl_state state)
{
    for (kl_index f = 0; f < v->model->falsework_count; f++) {
        const kl_falsework *set = &v->model->falsework[f];
        for (kl_index r = 0; r < set->row_count; r++) {
            kl_post_row row;
            if (kl_row_state(v->results, state, f, r, &row) != KL_OK || !row.stands) {
                continue;
            }
            view_post(v, frame_view_on_member(v, set->member, set->stations[r], 0.0),
                      row.bears || row.waits);
        }
    }
}

void frame_view_names(const frame_view *v)
{
    const kl_model *model = v->model;
    for (kl_index m = 0; m < model->member_count; m++) {
        const page_point middle = frame_view_on_member(v, m, 0.5 * kl_member_length(model, m), 0.0);
        drawing_hint(v->drawing, "quiet", middle.x, middle.y, 0.0, model->members[m].name);
    }
    for (kl_index n = 0; n < model->node_count; n++) {
        const page_point p = frame_view_node(v, n);
        drawing_circle(v->drawing, "node", p.x, p.y, 2.6 * v->mark);
        drawing_hint(v->drawing, "strong", p.x, p.y, 1e-6, model->nodes[n].name);
    }
}

void frame_view_draw(const frame_view *v, const kl_state *state)
{
    if (state) {
        view_posts(v, *state);
    }
    view_supports(v, state);
    for (kl_index m = 0; m < v->model->member_count; m++) {
        view_member(v, m, !state || kl_member_stands(v->results, *state, m));
    }
}

void frame_view_outline(const frame_view *v, kl_state state, const char *class)
{
    view_supports(v, &state);
    for (kl_index m = 0; m < v->model->member_count; m++) {
        if (kl_member_stands(v->results, state, m)) {
            const page_point from = frame_view_node(v, v->model->members[m].from);
            const page_point to = frame_view_node(v, v->model->members[m].to);
            const double line[] = {from.x, from.y, to.x, to.y};
            drawing_course(v->drawing, class, line, 2);
        }
    }
}

void frame_view_bar(const frame_view *v, double x, double y, double pixels, kl_measure measure)
{
    const kl_display *display = &v->model->display;
    const double unit = kl_show_factor(display, measure);
    const scale s = scale_over(0.0, 160.0 / pixels / unit, 0.0, 160.0);
    const scale_ticks ticks = scale_ticks_of(&s, 3);
    const double length = ticks.step * unit * pixels;
    char text[FIGURE_SIZE + 20];
    char figure[FIGURE_SIZE];
    figure_rounded(figure, ticks.step, ticks.decimals, 4, 0.0);
    snprintf(text, sizeof text, "%s %s", figure, kl_show_unit(display, measure));
    drawing_line(v->drawing, "outline", x, y, x + length, y);
    drawing_line(v->drawing, "outline", x, y - 4.0, x, y + 4.0);
    drawing_line(v->drawing, "outline", x + length, y - 4.0, x + length, y + 4.0);
    drawing_text(v->drawing, "small", x + length + 6.0, y + 3.5, ANCHOR_START, text);
}

void frame_view_scale_bar(const frame_view *v)
{
    frame_view_bar(v, 34.0, v->drawing->height - 24.0, v->pixels, KL_MEASURE_STATION);
}
