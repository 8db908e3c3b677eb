/* frame_view.c - see frame_view.h.
 * SPDX-License-Identifier: MIT */
#include "frame_view.h"

#include <math.h>
#include <stdio.h>

#include "figure.h"
#include "scale.h"

#define VIEW_MARGIN 34.0 /* px around the frame, for supports and names */
#define VIEW_HINGE  4.0

frame_view frame_view_start(drawing *d, const kl_results *results, label_box region)
{
    const kl_model *model = kl_results_model(results);
    double low[2] = {HUGE_VAL, HUGE_VAL};
    double high[2] = {-HUGE_VAL, -HUGE_VAL};
    for (kl_index i = 0; i < model->node_count; i++) {
        low[0] = fmin(low[0], model->nodes[i].x);
        high[0] = fmax(high[0], model->nodes[i].x);
        low[1] = fmin(low[1], model->nodes[i].y);
        high[1] = fmax(high[1], model->nodes[i].y);
    }
    const double width = fmax(high[0] - low[0], 1e-9);
    const double height = fmax(high[1] - low[1], 1e-9);
    const double pixels = fmin((region.width - 2.0 * VIEW_MARGIN) / width,
                               (region.height - 2.0 * VIEW_MARGIN) / height);
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
    return v;
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

/* ---- supports ---------------------------------------------------------------------------------------------- */

static void view_ground(drawing *d, double x, double y, double half)
{
    drawing_line(d, "outline", x - half, y, x + half, y);
    for (int i = 0; 5.0 * i < 2.0 * half; i++) {
        const double at = x - half + 5.0 * i;
        drawing_line(d, "tick", at, y + 5.0, at + 4.0, y);
    }
}

/* Down to the ground, or with `side` to the left. */
static void view_spring(drawing *d, double x, double y, bool side)
{
    static const double zigzag[] = {0, 0, 0,  3, 5,  5, -5,
                                    9, 5, 13, 0, 15, 0, 18}; /* across, along */
    double points[sizeof zigzag / sizeof zigzag[0]];
    const int count = (int)(sizeof zigzag / sizeof zigzag[0]) / 2;
    for (int i = 0; i < count; i++) {
        points[2 * i] = x + (side ? -zigzag[2 * i + 1] : zigzag[2 * i]);
        points[2 * i + 1] = y + (side ? zigzag[2 * i] : zigzag[2 * i + 1]);
    }
    drawing_course(d, "outline", points, count);
    if (side) {
        drawing_line(d, "outline", x - 18.0, y - 8.0, x - 18.0, y + 8.0);
    } else {
        view_ground(d, x, y + 18.0, 9.0);
    }
}

/* A triangle under the node: on rollers when it is free to slide, a little apart when it only pushes. */
static void view_upright_hold(drawing *d, double x, double y, kl_hold_kind kind, bool slides)
{
    if (kind == KL_SPRING) {
        view_spring(d, x, y, false);
        return;
    }
    const double top = kind == KL_FIXED ? y : y + 4.0;
    const double triangle[] = {x, top, x - 8.0, top + 12.0, x + 8.0, top + 12.0};
    drawing_area(d, "support", triangle, 3);
    if (slides) {
        drawing_circle(d, "support", x - 4.0, top + 14.5, 2.3);
        drawing_circle(d, "support", x + 4.0, top + 14.5, 2.3);
    }
    view_ground(d, x, top + (slides ? 17.0 : 12.0), 11.0);
}

static void view_side_hold(drawing *d, double x, double y, kl_hold_kind kind)
{
    if (kind == KL_SPRING) {
        view_spring(d, x, y, true);
        return;
    }
    const double tip = kind == KL_FIXED ? x : x - 4.0;
    const double triangle[] = {tip, y, tip - 12.0, y - 8.0, tip - 12.0, y + 8.0};
    drawing_area(d, "support", triangle, 3);
}

static void view_support(const frame_view *v, const kl_support *support)
{
    drawing *d = v->drawing;
    const page_point p = frame_view_node(v, support->node);
    const kl_hold *hold = support->hold;
    char turn[80];
    snprintf(turn, sizeof turn, "transform=\"rotate(%.2f %.2f %.2f)\"",
             -support->slope * 180.0 / 3.14159265358979323846, p.x, p.y);
    drawing_open(d, "held", turn);
    const bool turns = hold[2].kind == KL_FREE;
    if (hold[0].kind == KL_FIXED && hold[1].kind == KL_FIXED && hold[2].kind == KL_FIXED) {
        drawing_box(d, "support", p.x - 9.0, p.y, 18.0, 7.0);
        view_ground(d, p.x, p.y + 7.0, 12.0);
    } else {
        if (hold[1].kind != KL_FREE) {
            view_upright_hold(d, p.x, p.y, hold[1].kind, hold[0].kind != KL_FIXED);
        }
        if (hold[0].kind != KL_FREE && (hold[0].kind != KL_FIXED || hold[1].kind != KL_FIXED)) {
            view_side_hold(d, p.x, p.y, hold[0].kind);
        }
        if (!turns) { /* held or sprung against turning alone */
            drawing_box(d, "support", p.x - 5.0, p.y - 5.0, 10.0, 10.0);
        }
    }
    drawing_close(d);
    drawing_keep_free(d, p.x - 12.0, p.y, 24.0, 26.0);
}

/* ---- members, posts ------------------------------------------------------------------------------------------ */

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
    const double hinge[] = {m->rigid_start, length - m->rigid_end};
    const bool has[] = {m->hinge_start, m->hinge_end};
    for (int i = 0; i < 2; i++) {
        if (has[i]) {
            const double gap = VIEW_HINGE / v->pixels;
            const page_point p =
                frame_view_on_member(v, member, hinge[i] + (i == 0 ? gap : -gap), 0.0);
            drawing_circle(v->drawing, "node", p.x, p.y, VIEW_HINGE);
        }
    }
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
            const page_point top = frame_view_on_member(v, set->member, set->stations[r], 0.0);
            const double open = row.bears || row.waits ? 3.0 : 7.0;
            drawing_box(v->drawing, row.bears || row.waits ? "post" : "post open", top.x - 2.0,
                        top.y + open, 4.0, 22.0);
        }
    }
}

static void view_names(const frame_view *v)
{
    const kl_model *model = v->model;
    for (kl_index m = 0; m < model->member_count; m++) {
        const page_point middle = frame_view_on_member(v, m, 0.5 * kl_member_length(model, m), 0.0);
        drawing_label(v->drawing, "quiet", middle.x, middle.y, 0.0, model->members[m].name);
    }
    for (kl_index n = 0; n < model->node_count; n++) {
        const page_point p = frame_view_node(v, n);
        drawing_circle(v->drawing, "node", p.x, p.y, 2.6);
        drawing_label(v->drawing, "strong", p.x, p.y, 0.0, model->nodes[n].name);
    }
}

void frame_view_draw(const frame_view *v, kl_state state, bool names)
{
    view_posts(v, state);
    for (kl_index i = 0; i < v->model->support_count; i++) {
        view_support(v, &v->model->supports[i]);
    }
    for (kl_index m = 0; m < v->model->member_count; m++) {
        view_member(v, m, kl_member_stands(v->results, state, m));
    }
    if (names) {
        view_names(v);
    }
}

void frame_view_scale_bar(const frame_view *v)
{
    const kl_display *display = &v->model->display;
    const double unit = kl_show_factor(display, KL_MEASURE_STATION);
    const scale s = scale_over(0.0, 160.0 / v->pixels / unit, 0.0, 160.0);
    const scale_ticks ticks = scale_ticks_of(&s, 3);
    const double length = ticks.step * unit * v->pixels;
    const double x = v->left;
    const double y = v->bottom + 46.0;
    char text[FIGURE_SIZE + 20];
    char figure[FIGURE_SIZE];
    figure_rounded(figure, ticks.step, ticks.decimals, 4, 0.0);
    snprintf(text, sizeof text, "%s %s", figure, kl_show_unit(display, KL_MEASURE_STATION));
    drawing_line(v->drawing, "outline", x, y, x + length, y);
    drawing_line(v->drawing, "outline", x, y - 4.0, x, y + 4.0);
    drawing_line(v->drawing, "outline", x + length, y - 4.0, x + length, y + 4.0);
    drawing_text(v->drawing, "small", x + length + 6.0, y + 3.5, ANCHOR_START, text);
}
