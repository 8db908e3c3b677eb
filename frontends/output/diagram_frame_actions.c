/* diagram_frame_actions.c - moment, shear and axial force of one moment of the construction, drawn on the whole frame.
 *
 * Ordinates stand across the members. Moments are on the side that is stretched; shear and axial force + are on the top side of
 * a member. Every value carries its sign, so that nothing hangs on knowing which side is which.
 * SPDX-License-Identifier: MIT */
#include "diagrams.h"

#include <math.h>
#include <stdio.h>

#include "figure.h"
#include "frame_courses.h"
#include "label.h"
#include "mem.h"

#define ACTION_MARGIN 76.0 /* px, for ordinates and their values */
#define ACTION_MOST   58.0 /* px, the largest ordinate */
#define ACTION_LEAST  14.0
#define ACTION_TELLS  0.005 /* of the largest: smaller values are not written */
#define ACTION_SAME   1e-6  /* of the largest: rounding */
#define ACTION_FEW    12    /* members, of which each has its extremes written in any case */

typedef struct frame_action {
    kl_quantity quantity;
    const char *name;
    double side; /* 1: values + are on the member's top side; -1: on its bottom side */
    const char *note;
} frame_action;

typedef struct action_work {
    const frame_view *view;
    const frame_action *action;
    frame_courses courses;
    double pixels; /* to one shown unit */
} action_work;

static page_point action_point(const action_work *w, kl_index member, int i, double value)
{
    const kl_display *display = &w->view->model->display;
    const double station =
        w->courses.of[member].station[i] * kl_show_factor(display, KL_MEASURE_STATION);
    return frame_view_on_member(w->view, member, station, w->action->side * w->pixels * value);
}

static void action_put_course(const action_work *w, kl_index member)
{
    const member_course *c = &w->courses.of[member];
    drawing *d = w->view->drawing;
    double *points = frame_courses_points(c->count);
    if (!points) {
        d->status = d->status == KL_OK ? KL_NO_MEMORY : d->status;
        return;
    }
    for (int i = 0; i < c->count + 2; i++) { /* from the member's line and back to it */
        const bool on_line = i == 0 || i == c->count + 1;
        const int at = i == 0 ? 0 : i > c->count ? c->count - 1 : i - 1;
        const page_point p = action_point(w, member, at, on_line ? 0.0 : c->value[at]);
        points[2 * i] = p.x;
        points[2 * i + 1] = p.y;
    }
    drawing_area(d, "area", points, c->count + 2);
    drawing_course(d, "c0 fine", points, c->count + 2);
    mem_free(points);
}

/* Rows come in pairs wherever there may be a jump; here only one that can be seen counts. */
static bool action_jumps(const action_work *w, const member_course *c, int i, int other)
{
    return other >= 0 && other < c->count && !(fabs(c->station[i] - c->station[other]) > 0.0) &&
           fabs(c->value[i] - c->value[other]) > ACTION_TELLS * w->courses.largest;
}

/* Both values at a jump, the ends, and faces of columns. */
static bool action_is_place(const action_work *w, const member_course *c, int i)
{
    return i == 0 || i == c->count - 1 || c->rows[i].is_face || action_jumps(w, c, i, i - 1) ||
           action_jumps(w, c, i, i + 1);
}

static void action_put_values(const action_work *w, kl_index member)
{
    const member_course *c = &w->courses.of[member];
    const double largest = w->courses.largest;
    const bool few = w->view->model->member_count <= ACTION_FEW;
    int low = 0;
    int high = 0;
    for (int i = 0; i < c->count; i++) {
        low = c->value[i] < c->value[low] ? i : low;
        high = c->value[i] > c->value[high] ? i : high;
    }
    const bool level = c->value[high] - c->value[low] <= ACTION_SAME * largest; /* said once */
    if (level) {
        low = high = c->count / 2;
    }
    for (int i = 0; i < c->count; i++) {
        const bool extreme = i == low || i == high;
        const double share = fabs(c->value[i]) / largest;
        if (!(share > ACTION_TELLS) || !(extreme || (!level && action_is_place(w, c, i)))) {
            continue;
        }
        const page_point p = action_point(w, member, i, c->value[i]);
        char text[FIGURE_SIZE];
        figure_beside(text, c->value[i], largest);
        if (extreme && few) {
            drawing_label(w->view->drawing, "small", p.x, p.y, 1.0 + share, text);
        } else {
            drawing_hint(w->view->drawing, "small", p.x, p.y, extreme ? 1.0 + share : share, text);
        }
    }
}

static void action_put(action_work *w, kl_state state)
{
    const frame_view *v = w->view;
    const kl_measure measure = member_course_measure(w->action->quantity);
    const double most = fmax(fmin(0.42 * frame_view_spacing(v), ACTION_MOST), ACTION_LEAST);
    w->pixels = w->courses.largest > 0.0 ? most / w->courses.largest : 0.0;
    drawing_open_step(v->drawing, diagram_step(state));
    for (kl_index m = 0; m < v->model->member_count && w->courses.largest > 0.0; m++) {
        if (w->courses.of[m].count > 0) {
            action_put_course(w, m);
            action_put_values(w, m);
        }
    }
    drawing_close_step(v->drawing);
    v->drawing->blank = !(w->courses.largest > 0.0);
    if (w->courses.largest > 0.0) {
        frame_view_bar(v, 300.0, v->drawing->height - 24.0,
                       w->pixels / kl_show_factor(&v->model->display, measure), measure);
    }
}

static void
action_build(drawing *d, kl_results *results, const selection *s, const frame_action *action)
{
    const kl_state *state = diagram_state(s);
    char title[DIAGRAM_TITLE];
    diagram_title(title, results, action->name, state, member_course_measure(action->quantity));
    const frame_view v = frame_view_page(d, results, title, action->note, ACTION_MARGIN);
    action_work w = {.view = &v, .action = action};
    arena a = {0};
    frame_view_draw(&v, state);
    if (state && diagram_accepts(d, frame_courses_gather(&a, &v, results, *state, action->quantity,
                                                         &w.courses))) {
        action_put(&w, *state);
    }
    frame_view_scale_bar(&v);
    frame_view_note(&v, action->note);
    arena_free(&a);
}

void diagram_frame_moment(drawing *d, kl_results *results, const selection *s)
{
    action_build(d, results, s,
                 &(frame_action){KL_MOMENT, "Moment", -1.0,
                                 "drawn on the side that is stretched; + stretches the bottom of a "
                                 "member"});
}

void diagram_frame_shear(drawing *d, kl_results *results, const selection *s)
{
    action_build(d, results, s,
                 &(frame_action){KL_SHEAR, "Shear", 1.0,
                                 "+ is dM/dx, drawn on the top side: the left hand from a member's "
                                 "start"});
}

void diagram_frame_axial(drawing *d, kl_results *results, const selection *s)
{
    action_build(d, results, s,
                 &(frame_action){KL_AXIAL, "Axial force", 1.0,
                                 "+ is tension, drawn on the top side: the left hand from a "
                                 "member's start"});
}
