/* frame_loads.c - see frame_loads.h.
 * SPDX-License-Identifier: MIT */
#include "frame_loads.h"

#include <math.h>
#include <stdio.h>

#include "diagrams.h"
#include "figure.h"
#include "load_points.h"
#include "load_strips.h"

#define LOADS_SHARE  0.16 /* of the distance between nodes: a strip is no higher */
#define LOADS_LEAST  8.0  /* px, but for this */
#define LOADS_ROOMY  18.0 /* px of strips: in smaller pictures only what has room is told */
#define LOADS_FEW    14
#define LOADS_GAP    3.0  /* px between strips */
#define LOADS_ARROWS 26.0 /* px between the arrows of a strip */
#define LOADS_MANY   12   /* members, beyond which a weight that was just told is not told again */
#define LOADS_PIECES (LOAD_STRIP_POINTS - 1) /* of a strip whose intensity is curved */
#define LOADS_SLANT  0.2  /* sine: a load that flat to its member is drawn beside it */
#define LOADS_TURN   11.0 /* px, radius of a moment's arrow */
#define LOADS_SHORT  14.0 /* px, the shortest arrow of a force */
#define LOADS_TEXT   120

typedef struct loads_work {
    const frame_view *view;
    double size;
    bool values;
    bool few;           /* loads: each value is written in any case */
    double line_most;   /* N/m, the largest of the picture */
    double weight_told; /* N/m, of the member before */
    load_strips strips;
    load_points points;
} loads_work;

static void loads_note(const loads_work *w, kl_status status)
{
    diagram_accepts(w->view->drawing, status);
}

/* A value with its unit and a word before it. */
static void loads_say(
    const loads_work *w, char text[LOADS_TEXT], const char *word, double value, kl_measure measure)
{
    const kl_display *display = &w->view->model->display;
    const double shown = fabs(value) / kl_show_factor(display, measure);
    char figure[FIGURE_SIZE];
    figure_given(figure, shown, 3);
    snprintf(text, LOADS_TEXT, "%s%s %s", word, figure, kl_show_unit(display, measure));
}

static void loads_label(const loads_work *w, page_point at, double weight, const char *text)
{
    if (w->values && w->few) {
        drawing_label(w->view->drawing, "small", at.x, at.y, weight, text);
    } else if (w->values) {
        drawing_hint(w->view->drawing, "small", at.x, at.y, weight, text);
    }
}

/* An arrow that labels keep off. */
static void loads_arrow(const loads_work *w, const char *class, page_point tail, page_point tip)
{
    drawing_arrow(w->view->drawing, class, tail.x, tail.y, tip.x, tip.y);
    drawing_keep_free(w->view->drawing, fmin(tail.x, tip.x) - 2.0, fmin(tail.y, tip.y),
                      fabs(tail.x - tip.x) + 4.0, fabs(tail.y - tip.y) + 2.0);
}

/* ---- the largest of each kind ------------------------------------------------------------------------------- */

static void loads_measure_weight(loads_work *w, kl_index member, double factor)
{
    const double length = kl_member_length(w->view->model, member);
    for (int i = 0; i <= LOADS_PIECES; i++) {
        double weight = 0.0;
        loads_note(w, load_sum_weight_at(w->view->results, member, i * length / LOADS_PIECES,
                                         i == LOADS_PIECES ? KL_LEFT : KL_RIGHT, &weight));
        w->line_most = fmax(w->line_most, fabs(factor * weight));
    }
}

static void loads_measure(loads_work *w, const kl_load *load, double factor)
{
    if (load->kind == KL_LOAD_DISTRIBUTED) {
        w->line_most =
            fmax(w->line_most, fabs(factor) * fmax(fabs(load->value), fabs(load->value_end)));
    } else if (load->kind == KL_LOAD_WEIGHT) {
        for (kl_index m = 0; m < w->view->model->member_count; m++) {
            if (load->member == KL_NONE || load->member == m) {
                loads_measure_weight(w, m, factor);
            }
        }
    }
}

/* ---- strips ------------------------------------------------------------------------------------------------- */

/* Sine of the angle from a member to a direction: + toward its left hand. */
static double loads_slant(const loads_work *w, kl_index member, kl_point direction)
{
    const page_point a = frame_view_on_member(w->view, member, 0.0, 0.0);
    const page_point b = frame_view_on_member(w->view, member, 0.0, 1.0); /* across */
    return direction.x * (b.x - a.x) - direction.y * (b.y - a.y);
}

static bool loads_is_along(const loads_work *w, kl_index member, kl_point direction)
{
    return fabs(loads_slant(w, member, direction)) < LOADS_SLANT;
}

/* The side of its member that a load of that sense comes from. */
static int loads_side(const loads_work *w, kl_index member, kl_point direction, double value)
{
    const bool left =
        loads_is_along(w, member, direction) || loads_slant(w, member, direction) * value < 0.0;
    return left ? 1 : -1;
}

static page_point loads_shift(page_point p, kl_point direction, double by)
{
    return (page_point){p.x + by * direction.x, p.y - by * direction.y};
}

static int loads_arrow_count(const loads_work *w, const load_strip *c)
{
    const double length = (c->station[c->count - 1] - c->station[0]) * w->view->pixels;
    return (int)fmax(fmin(floor(length / LOADS_ARROWS), 60.0), 1.0);
}

/* A load along its member: a band beside it with arrows in it. */
static void loads_put_band(const loads_work *w, const load_strip *c, double base)
{
    drawing *d = w->view->drawing;
    double points[4 * LOAD_STRIP_POINTS];
    base += LOADS_GAP;
    for (int i = 0; i < c->count; i++) {
        const double width = w->size * fabs(c->value[i]) / w->line_most;
        const page_point near = frame_view_on_member(w->view, c->member, c->station[i], base);
        const page_point far =
            frame_view_on_member(w->view, c->member, c->station[i], base + width);
        points[2 * i] = near.x;
        points[2 * i + 1] = near.y;
        points[2 * (2 * c->count - 1 - i)] = far.x;
        points[2 * (2 * c->count - 1 - i) + 1] = far.y;
    }
    drawing_area(d, "load strip", points, 2 * c->count);
    const int arrows = loads_arrow_count(w, c);
    const double step = (c->station[c->count - 1] - c->station[0]) / arrows;
    for (int k = 0; k < arrows; k++) {
        const double station = c->station[0] + (k + 0.5) * step;
        const double value = load_strip_value(c, station);
        const double half = (value > 0.0 ? 0.3 : -0.3) * step * w->view->pixels;
        const page_point at = frame_view_on_member(
            w->view, c->member, station, base + 0.5 * w->size * fabs(value) / w->line_most);
        const page_point tail = loads_shift(at, c->direction, -half);
        const page_point tip = loads_shift(at, c->direction, half);
        loads_arrow(w, "load thin", tail, tip);
    }
}

/* A load across its member: its height stands against its direction. */
static void loads_put_across(const loads_work *w, const load_strip *c, double base)
{
    drawing *d = w->view->drawing;
    double points[4 * LOAD_STRIP_POINTS];
    for (int i = 0; i < c->count; i++) {
        const page_point on = frame_view_on_member(w->view, c->member, c->station[i], 0.0);
        const double sense = c->value[i] < 0.0 ? -1.0 : 1.0;
        const page_point near = loads_shift(on, c->direction, -sense * base);
        const page_point far =
            loads_shift(on, c->direction, -sense * base - w->size * c->value[i] / w->line_most);
        points[2 * i] = near.x;
        points[2 * i + 1] = near.y;
        points[2 * (2 * c->count - 1 - i)] = far.x;
        points[2 * (2 * c->count - 1 - i) + 1] = far.y;
    }
    drawing_area(d, "load strip", points, 2 * c->count);
    drawing_course(d, "load thin", points + 2 * c->count, c->count);
    const int arrows = loads_arrow_count(w, c);
    for (int k = 0; k <= arrows; k++) {
        const double station =
            c->station[0] + k * (c->station[c->count - 1] - c->station[0]) / arrows;
        const double value = load_strip_value(c, station);
        const page_point on = frame_view_on_member(w->view, c->member, station, 0.0);
        const double sense = value < 0.0 ? -1.0 : 1.0;
        const page_point tip = loads_shift(on, c->direction, -sense * (base + 1.5));
        const page_point tail =
            loads_shift(on, c->direction, -sense * base - w->size * value / w->line_most);
        loads_arrow(w, "load thin", tail, tip);
    }
}

static void loads_put_strip(loads_work *w, load_strip *c)
{
    if (!(c->station[c->count - 1] > c->station[0])) {
        return;
    }
    double most = 0.0;
    for (int i = 0; i < c->count; i++) {
        most = fabs(c->value[i]) > fabs(most) ? c->value[i] : most;
    }
    c->height = w->size * fabs(most) / w->line_most;
    c->side = loads_side(w, c->member, c->direction, most);
    const load_strip *put = load_strips_push(&w->strips, c);
    if (!put) {
        loads_note(w, KL_NO_MEMORY);
    } else if (loads_is_along(w, c->member, c->direction)) {
        loads_put_band(w, put, put->base);
    } else {
        loads_put_across(w, put, put->base);
    }
}

/* What is told of strips stands just beyond the farthest. */
static void loads_put_value(
    void *context, const load_strip *over, double station, double share, const char *text)
{
    const loads_work *w = context;
    const double edge = load_strip_edge(&w->strips.scale, over, station);
    const bool along = loads_is_along(w, over->member, over->direction);
    const page_point on = frame_view_on_member(w->view, over->member, station, along ? edge : 0.0);
    const double sense = load_strip_value(over, station) < 0.0 ? -1.0 : 1.0;
    loads_label(w, along ? on : loads_shift(on, over->direction, -sense * edge), share, text);
}

static void loads_put_weight(loads_work *w, kl_index member, double factor)
{
    const bool prismatic = w->view->model->members[member].section_count == 1;
    const double length = kl_member_length(w->view->model, member);
    load_strip c = {.member = member,
                    .direction = {0.0, -1.0},
                    .count = prismatic ? 2 : LOADS_PIECES + 1,
                    .word = "weight ",
                    .after = ""};
    double most = 0.0;
    for (int i = 0; i < c.count; i++) {
        c.station[i] = length * i / (c.count - 1);
        loads_note(w, load_sum_weight_at(w->view->results, member, c.station[i],
                                         i == c.count - 1 ? KL_LEFT : KL_RIGHT, &c.value[i]));
        c.value[i] *= factor;
        most = fmax(most, fabs(c.value[i]));
    }
    c.silent =
        w->view->model->member_count > LOADS_MANY && !(fabs(most - w->weight_told) > 1e-6 * most);
    w->weight_told = most;
    if (most > 0.0) {
        loads_put_strip(w, &c);
    }
}

static void loads_put_distributed(loads_work *w, const kl_load *load, double factor)
{
    load_strip c = {.member = load->member,
                    .direction = load_sum_direction(w->view->model, load),
                    .station = {load->from, load_sum_end(w->view->model, load)},
                    .value = {factor * load->value, factor * load->value_end},
                    .count = 2,
                    .word = "",
                    .after = load->per_level ? " level" : ""};
    if (w->line_most > 0.0) {
        loads_put_strip(w, &c);
    }
}

/* ---- arrows ------------------------------------------------------------------------------------------------- */

static page_point loads_place(const loads_work *w, const kl_load *load)
{
    return load->node != KL_NONE ? frame_view_node(w->view, load->node)
                                 : frame_view_on_member(w->view, load->member, load->from, 0.0);
}

static void loads_add_point(loads_work *w, const kl_load *load, double factor)
{
    const double force = factor * load->value;
    if (!(fabs(force) > 0.0)) {
        return;
    }
    const kl_point direction = load_sum_direction(w->view->model, load);
    const double sense = force < 0.0 ? -1.0 : 1.0;
    const page_point on = loads_place(w, load);
    load_point at = {.x = on.x,
                     .y = on.y,
                     .measure = KL_MEASURE_FORCE,
                     .pull = {sense * direction.x, sense * direction.y}};
    if (load->member != KL_NONE) {
        at.under =
            load_strips_top(&w->strips, load->member, loads_side(w, load->member, direction, force),
                            load->from - 1e-9, load->from + 1e-9);
    }
    loads_note(w, load_points_add(&w->points, &at, fabs(force)));
}

static void loads_add_moment(loads_work *w, const kl_load *load, double factor)
{
    const double moment = factor * load->value;
    if (!(fabs(moment) > 0.0)) {
        return;
    }
    const page_point on = loads_place(w, load);
    const load_point at = {.x = on.x,
                           .y = on.y,
                           .measure = KL_MEASURE_MOMENT,
                           .pull = {0.0, moment > 0.0 ? 1.0 : -1.0}};
    loads_note(w, load_points_add(&w->points, &at, fabs(moment)));
}

static void loads_put_force(const loads_work *w, const load_point *force, double most)
{
    const double share = force->sum / most;
    const double length = LOADS_SHORT + (1.5 * w->size - LOADS_SHORT) * share;
    const page_point tip = loads_shift((page_point){force->x, force->y}, force->pull, -2.0);
    const page_point tail = loads_shift(tip, force->pull, -length - force->under);
    loads_arrow(w, "load", tail, tip);
    char text[LOAD_POINTS_TEXT];
    load_points_text(force, &w->view->model->display, text);
    loads_label(w, tail, 2.0 + share, text);
}

/* Three quarters of a circle with a head at its end; y goes down on the page. */
static void loads_put_turn(const loads_work *w, page_point at, bool anticlockwise, const char *text)
{
    drawing *d = w->view->drawing;
    double points[2 * 13];
    for (int i = 0; i < 13; i++) {
        const double angle = -0.8 + i * (4.7 / 12.0);
        points[2 * i] = at.x + LOADS_TURN * cos(angle);
        points[2 * i + 1] = at.y + (anticlockwise ? -LOADS_TURN : LOADS_TURN) * sin(angle);
    }
    drawing_course(d, "load", points, 13);
    drawing_arrow(d, "load", points[22], points[23], points[24], points[25]);
    loads_label(w, (page_point){at.x, at.y - LOADS_TURN}, 3.0, text);
}

/* Forces and moments, those that act alike at one place as one. */
static void loads_put_points(loads_work *w)
{
    loads_note(w, load_points_join(&w->points));
    double most = 0.0; /* N */
    for (kl_index i = 0; i < w->points.count; i++) {
        const load_point *p = &w->points.points[i];
        most = p->measure == KL_MEASURE_FORCE ? fmax(most, p->sum) : most;
    }
    for (kl_index i = 0; i < w->points.count; i++) {
        const load_point *p = &w->points.points[i];
        if (p->measure == KL_MEASURE_FORCE) {
            loads_put_force(w, p, most);
        } else {
            char text[LOAD_POINTS_TEXT];
            load_points_text(p, &w->view->model->display, text);
            loads_put_turn(w, (page_point){p->x, p->y}, p->pull.y > 0.0, text);
        }
    }
}

/* ---- movements and temperatures ------------------------------------------------------------------------------ */

static void loads_put_settle(const loads_work *w, const kl_load *load, double factor)
{
    const double value = factor * load->value;
    const kl_point way = {value < 0.0 ? -load->dx : load->dx, value < 0.0 ? -load->dy : load->dy};
    const page_point node = frame_view_node(w->view, load->node);
    const page_point tail = {node.x + 18.0, node.y};
    const page_point tip = loads_shift(tail, way, 24.0);
    loads_arrow(w, "load", tail, tip);
    char text[LOADS_TEXT];
    loads_say(w, text, "moves ", value, KL_MEASURE_DEFLECTION);
    loads_label(w, tip, 3.0, text);
}

static void loads_put_rotation(const loads_work *w, const kl_load *load, double factor)
{
    char text[LOADS_TEXT];
    loads_say(w, text, "turns ", factor * load->value, KL_MEASURE_ROTATION);
    loads_put_turn(w, frame_view_node(w->view, load->node), factor * load->value > 0.0, text);
}

static void loads_put_warmth(const loads_work *w, const kl_load *load, double factor)
{
    const double value = factor * load->value;
    char text[LOADS_TEXT];
    if (load->kind == KL_LOAD_PROFILE) {
        loads_say(w, text, "top warmer by ", factor * load->points[0].temperature,
                  KL_MEASURE_TEMPERATURE);
    } else if (load->kind == KL_LOAD_GRADIENT) {
        loads_say(w, text, value < 0.0 ? "bottom warmer by " : "top warmer by ", value,
                  KL_MEASURE_TEMPERATURE);
    } else {
        loads_say(w, text, value < 0.0 ? "cooler by " : "warmer by ", value,
                  KL_MEASURE_TEMPERATURE);
    }
    const kl_index members = w->view->model->member_count;
    for (kl_index m = 0; m < members; m++) {
        if (load->member == KL_NONE || load->member == m) {
            const page_point at =
                frame_view_on_member(w->view, m, 0.5 * kl_member_length(w->view->model, m), 0.0);
            loads_label(w, at, 1.0, text);
        }
    }
}

/* ---- all of them -------------------------------------------------------------------------------------------- */

/* Strips first, so that arrows know what they must reach over. */
static void loads_put_strips(loads_work *w, const kl_load *load, double factor)
{
    if (load->kind == KL_LOAD_DISTRIBUTED) {
        loads_put_distributed(w, load, factor);
    } else if (load->kind == KL_LOAD_WEIGHT) {
        for (kl_index m = 0; m < w->view->model->member_count; m++) {
            if (load->member == KL_NONE || load->member == m) {
                loads_put_weight(w, m, factor);
            }
        }
    }
}

static void loads_put_others(loads_work *w, const kl_load *load, double factor)
{
    switch (load->kind) {
    case KL_LOAD_POINT:
        loads_add_point(w, load, factor);
        return;
    case KL_LOAD_MOMENT:
        loads_add_moment(w, load, factor);
        return;
    case KL_LOAD_SETTLE:
        loads_put_settle(w, load, factor);
        return;
    case KL_LOAD_TURN:
        loads_put_rotation(w, load, factor);
        return;
    case KL_LOAD_TEMPERATURE:
    case KL_LOAD_GRADIENT:
    case KL_LOAD_PROFILE:
        loads_put_warmth(w, load, factor);
        return;
    case KL_LOAD_WEIGHT:
    case KL_LOAD_DISTRIBUTED:
    case KL_LOAD_TENDON:
        return;
    }
}

typedef void loads_visit(loads_work *w, const kl_load *load, double factor);

static void loads_each(loads_work *w, const load_share *shares, kl_index count, loads_visit *visit)
{
    for (kl_index i = 0; i < count; i++) {
        const kl_case *c = &w->view->model->cases[shares[i].load_case];
        for (kl_index k = 0; k < c->load_count; k++) {
            visit(w, &c->loads[k], shares[i].factor);
        }
    }
}

void frame_loads_draw(
    const frame_view *v, const load_share *shares, kl_index count, double size, bool values)
{
    const double room = LOADS_SHARE * frame_view_spacing(v);
    kl_index total = 0;
    for (kl_index i = 0; i < count; i++) {
        total += v->model->cases[shares[i].load_case].load_count;
    }
    loads_work w = {.view = v,
                    .size = fmax(fmin(size, room), LOADS_LEAST),
                    .values = values,
                    .few = total <= LOADS_FEW && size >= LOADS_ROOMY};
    drawing_open(v->drawing, "loads", NULL);
    loads_each(&w, shares, count, loads_measure);
    const load_scale scale = {&v->model->display, v->pixels, w.size, w.line_most};
    const kl_status status = load_strips_start(&w.strips, &scale, v->model->member_count);
    if (status == KL_OK) {
        loads_each(&w, shares, count, loads_put_strips);
        loads_each(&w, shares, count, loads_put_others);
        loads_put_points(&w);
        load_strips_tell(&w.strips, loads_put_value, &w);
    }
    loads_note(&w, status);
    drawing_close(v->drawing);
    load_strips_free(&w.strips);
    load_points_free(&w.points);
}
