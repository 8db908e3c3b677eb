/* diagram_deflected.c - the deflected shape of the frame at one moment, so many times as large as it is.
 * SPDX-License-Identifier: MIT */
#include "diagrams.h"

#include <math.h>
#include <stdio.h>

#include "figure.h"
#include "frame_courses.h"
#include "label.h"
#include "mem.h"
#include "scale.h"

#define DEFLECTED_MARGIN 76.0
#define DEFLECTED_MOST   46.0 /* px that the largest movement is drawn as, at most */
#define DEFLECTED_LEAST  12.0
#define DEFLECTED_TELLS  0.02 /* of the largest: smaller movements are not written */
#define DEFLECTED_FEW    12   /* members, of which each has its value written in any case */

typedef struct deflected_work {
    const frame_view *view;
    frame_courses up, right; /* shown units */
    double largest;          /* of the movements, shown */
    double times;            /* as large */
} deflected_work;

static double deflected_size(const deflected_work *w, kl_index member, int i)
{
    return hypot(w->up.of[member].value[i], w->right.of[member].value[i]);
}

static void deflected_find_largest(deflected_work *w)
{
    for (kl_index m = 0; m < w->view->model->member_count; m++) {
        for (int i = 0; i < w->up.of[m].count; i++) {
            w->largest = fmax(w->largest, deflected_size(w, m, i));
        }
    }
}

/* The largest of 1, 2, 5, 10 … with which nothing is drawn as more than `most` px. */
static double deflected_times(const deflected_work *w, double most)
{
    const double unit = kl_show_factor(&w->view->model->display, KL_MEASURE_DEFLECTION);
    return scale_round_down(most / (w->largest * unit * w->view->pixels));
}

static page_point deflected_point(const deflected_work *w, kl_index member, int i)
{
    const kl_model *model = w->view->model;
    const double unit = kl_show_factor(&model->display, KL_MEASURE_DEFLECTION) * w->times;
    const kl_point at = kl_member_point(model, member,
                                        w->up.of[member].station[i] *
                                            kl_show_factor(&model->display, KL_MEASURE_STATION));
    return frame_view_point(w->view, at.x + unit * w->right.of[member].value[i],
                            at.y + unit * w->up.of[member].value[i]);
}

static void deflected_put_course(const deflected_work *w, kl_index member)
{
    const int count = w->up.of[member].count;
    drawing *d = w->view->drawing;
    double *points = frame_courses_points(count);
    if (!points) {
        d->status = d->status == KL_OK ? KL_NO_MEMORY : d->status;
        return;
    }
    for (int i = 0; i < count; i++) {
        const page_point p = deflected_point(w, member, i);
        points[2 * i] = p.x;
        points[2 * i + 1] = p.y;
    }
    drawing_course(d, "shape", points, count);
    mem_free(points);
}

/* "down 0.42": one of the two components, in words, which no sign can blur. */
static void deflected_put_value(const deflected_work *w, kl_index member, int i, bool upright)
{
    const double up = w->up.of[member].value[i];
    const double right = w->right.of[member].value[i];
    const double value = upright ? up : right;
    const char *way = upright ? (up > 0.0 ? "up" : "down") : (right > 0.0 ? "right" : "left");
    const double share = fabs(value) / w->largest;
    if (!(share > DEFLECTED_TELLS)) {
        return;
    }
    char figure[FIGURE_SIZE];
    char text[FIGURE_SIZE + 10];
    figure_rounded(figure, fabs(value), figure_decimals(w->largest, 3), 3, 0.0);
    snprintf(text, sizeof text, "%s %s", way, figure);
    const page_point p = deflected_point(w, member, i);
    if (w->view->model->member_count <= DEFLECTED_FEW) {
        drawing_label(w->view->drawing, "small", p.x, p.y, share, text);
    } else {
        drawing_hint(w->view->drawing, "small", p.x, p.y, share, text);
    }
}

/* Where the member is highest and lowest, and where it moves most. */
static void deflected_put_values(const deflected_work *w, kl_index member)
{
    const member_course *up = &w->up.of[member];
    int low = 0;
    int high = 0;
    int most = 0;
    for (int i = 0; i < up->count; i++) {
        low = up->value[i] < up->value[low] ? i : low;
        high = up->value[i] > up->value[high] ? i : high;
        most = deflected_size(w, member, i) > deflected_size(w, member, most) ? i : most;
    }
    deflected_put_value(w, member, most,
                        fabs(up->value[most]) >= fabs(w->right.of[member].value[most]));
    if (low != most && up->value[low] < 0.0) {
        deflected_put_value(w, member, low, true);
    }
    if (high != most && up->value[high] > 0.0) {
        deflected_put_value(w, member, high, true);
    }
}

static void deflected_put(deflected_work *w, kl_state state)
{
    const frame_view *v = w->view;
    deflected_find_largest(w);
    frame_view_outline(v, state, "before");
    if (!(w->largest > 0.0)) {
        frame_view_note(v, "nothing moves");
        return;
    }
    const double room = 0.4 * frame_view_spacing(v);
    w->times = deflected_times(w, fmax(fmin(room, DEFLECTED_MOST), DEFLECTED_LEAST));
    drawing_open_step(v->drawing, diagram_step(state));
    for (kl_index m = 0; m < v->model->member_count; m++) {
        if (w->up.of[m].count > 0) {
            deflected_put_course(w, m);
            deflected_put_values(w, m);
        }
    }
    drawing_close_step(v->drawing);
    char figure[FIGURE_SIZE];
    char note[200];
    figure_rounded(figure, w->times, figure_exact_decimals(w->times, 6), 3, 0.0);
    snprintf(note, sizeof note,
             "movements drawn %s times as large; each member's count from its set%s", figure,
             v->model->stage_count > 0 ? ", so that joints may gape" : "");
    frame_view_note(v, note);
}

void diagram_deflected(drawing *d, kl_results *results, const selection *s)
{
    const kl_state *state = diagram_state(s);
    char title[DIAGRAM_TITLE];
    diagram_title(title, results, "Deflected shape", state, KL_MEASURE_DEFLECTION);
    const frame_view v = frame_view_page(d, results, title, LABEL_SIGNS_MOVEMENT, DEFLECTED_MARGIN);
    deflected_work w = {.view = &v};
    arena a = {0};
    if (state &&
        diagram_accepts(d, frame_courses_gather(&a, &v, results, *state, KL_DEFLECTION, &w.up)) &&
        diagram_accepts(d, frame_courses_gather(&a, &v, results, *state, KL_SWAY, &w.right))) {
        deflected_put(&w, *state);
    }
    frame_view_scale_bar(&v);
    arena_free(&a);
}
