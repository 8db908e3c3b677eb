/* diagram_posts.c - the posts of each falsework as bars under their member: what one post of each row carries after a step, and
 * before it; rows that lifted; the rated load and its share.
 *
 * Without a choice of stage the step is drawn in which a post carries most; of a stage the step that changes the posts most.
 * SPDX-License-Identifier: MIT */
#include "diagrams.h"

#include <math.h>
#include <stdio.h>

#include "figure.h"
#include "label.h"
#include "letter_width.h"
#include "plot.h"
#include "post_use.h"

#define POSTS_WIDTH   900.0
#define POSTS_PLOT    232.0 /* px, with its title and axes */
#define POSTS_BELOW   58.0  /* px from the axis to the first line of figures, */
#define POSTS_LINE    14.0  /* and to the next */
#define POSTS_LINE_UP 30.0  /* likewise, of figures that are turned upward */
#define POSTS_WIDE    32.0  /* px that a figure takes along */
#define POSTS_NARROW  12.0  /* px, turned upward */
#define POSTS_PANELS  12
#define POSTS_BAR     5.0 /* px, half the width of a bar at most */

typedef struct posts_work {
    kl_results *results;
    kl_index falsework;
    kl_index step; /* the one that is shown; before it: step - 1 */
} posts_work;

static const kl_falsework *posts_set(const posts_work *w)
{
    return &kl_results_model(w->results)->falsework[w->falsework];
}

/* The least distance between rows, px. */
static double posts_spacing(const posts_work *w)
{
    const kl_falsework *set = posts_set(w);
    const double length = kl_member_length(kl_results_model(w->results), set->member);
    double spacing = length;
    for (kl_index row = 1; row < set->row_count; row++) {
        spacing = fmin(spacing, set->stations[row] - set->stations[row - 1]);
    }
    return spacing / length * (POSTS_WIDTH - PLOT_MARGIN_LEFT - PLOT_MARGIN_RIGHT);
}

static double posts_height(const posts_work *w)
{
    return POSTS_PLOT + 18.0 + 3.0 * (posts_spacing(w) < POSTS_WIDE ? POSTS_LINE_UP : POSTS_LINE);
}

static kl_post_row posts_row(drawing *d, const posts_work *w, kl_index step, kl_index row)
{
    kl_post_row post = {0};
    if (step >= 0 && !diagram_accepts(d, kl_row_state(w->results, kl_state_step(step), w->falsework,
                                                      row, &post))) {
        post = (kl_post_row){0};
    }
    return post;
}

/* ---- which step --------------------------------------------------------------------------------------------- */

/* How much a step has to tell: the largest force of a row; of a chosen stage the change of all, N. */
static double posts_news(drawing *d, const posts_work *w, kl_index step, bool of_stage)
{
    const kl_falsework *set = posts_set(w);
    double news = 0.0;
    for (kl_index row = 0; row < set->row_count; row++) {
        const kl_post_row after = posts_row(d, w, step, row);
        const kl_post_row before = posts_row(d, w, step - 1, row);
        news = of_stage ? news + fabs(after.force - before.force) : fmax(news, after.force);
    }
    return news;
}

/* The first step of most news; of equal ones (to rounding) the first. */
static kl_index posts_choose(drawing *d, const posts_work *w, const selection *s)
{
    double most = 0.0;
    kl_index chosen = KL_NONE;
    for (kl_index i = 0; i < s->state_count; i++) {
        if (s->states[i].kind != KL_STATE_STEP) {
            continue;
        }
        const double news = posts_news(d, w, s->states[i].index, s->stage != KL_NONE);
        if (news > most * (1.0 + POST_USE_ROUNDING)) {
            most = news;
            chosen = s->states[i].index;
        }
    }
    return chosen;
}

/* ---- bars --------------------------------------------------------------------------------------------------- */

typedef struct posts_scene {
    const posts_work *work;
    drawing *drawing;
    plot plot;
    double half;    /* px, of a bar */
    bool up;        /* figures are turned upward, for rows are close */
    double largest; /* force in a post, shown */
    double force_unit, station_unit;
} posts_scene;

static double posts_each(const posts_scene *p, const kl_post_row *row)
{
    return post_use_force(posts_set(p->work), row) / p->force_unit;
}

static double posts_x(const posts_scene *p, kl_index row)
{
    return plot_x(&p->plot, posts_set(p->work)->stations[row] / p->station_unit);
}

/* Before the step: an outline; after it: filled, or the mark of a row that has lifted. */
static void posts_put_bar(const posts_scene *p, kl_index row, bool after)
{
    const kl_index step = after ? p->work->step : p->work->step - 1;
    const kl_post_row post = posts_row(p->drawing, p->work, step, row);
    if (!post.stands) {
        return;
    }
    const double x = posts_x(p, row) - (after ? 0.0 : p->half);
    const double zero = plot_y(&p->plot, 0.0);
    const double end = plot_y(&p->plot, posts_each(p, &post));
    if (!post.bears && !post.waits && after) {
        drawing_box(p->drawing, "post open", x, zero + 5.0, p->half, 20.0);
        drawing_keep_free(p->drawing, x, zero, p->half, 26.0);
    } else if (end > zero) {
        drawing_box(p->drawing, after ? "post" : "post past", x, zero, p->half, end - zero);
        drawing_keep_free(p->drawing, x, zero, p->half, end - zero);
    }
}

/* ---- figures under the axis, where there is room for them ---------------------------------------------------- */

static void posts_figure(char text[FIGURE_SIZE], const posts_scene *p, const kl_post_row *row)
{
    if (!row->stands) {
        snprintf(text, FIGURE_SIZE, "-");
    } else if (!row->bears && !row->waits) {
        snprintf(text, FIGURE_SIZE, "up");
    } else {
        figure_rounded(text, posts_each(p, row), figure_decimals(p->largest, 3), 3,
                       FIGURE_NOISE * p->largest);
    }
}

/* A text of line 0, 1, 2 under the axis: turned upward where rows are close. */
static void
posts_put_text(const posts_scene *p, const char *class, double x, int line, const char *text)
{
    const double y = p->plot.bottom + POSTS_BELOW + line * (p->up ? POSTS_LINE_UP : POSTS_LINE);
    if (p->up) {
        drawing_text_up(p->drawing, class, x + 3.5, y + POSTS_LINE_UP - POSTS_LINE, ANCHOR_START,
                        text);
    } else {
        drawing_text(p->drawing, class, x, y, ANCHOR_MIDDLE, text);
    }
}

static void posts_put_figures(const posts_scene *p, kl_index row)
{
    const kl_falsework *set = posts_set(p->work);
    const kl_post_row before = posts_row(p->drawing, p->work, p->work->step - 1, row);
    const kl_post_row after = posts_row(p->drawing, p->work, p->work->step, row);
    const double x = posts_x(p, row);
    char text[FIGURE_SIZE];
    posts_figure(text, p, &before);
    posts_put_text(p, "small quiet", x, 0, text);
    posts_figure(text, p, &after);
    posts_put_text(p, "small", x, 1, text);
    if (!isnan(set->capacity) && after.stands) {
        const double share = post_use_force(set, &after) / set->capacity;
        figure_rounded(text, share, 2, 2, 0.0);
        posts_put_text(p, post_use_is_over(share) ? "small strong fails" : "small", x, 2, text);
    }
}

/* Of rows that stand closer than figures are wide the one that carries most is told. */
static void posts_put_all_figures(const posts_scene *p)
{
    const kl_falsework *set = posts_set(p->work);
    const double width = p->up ? POSTS_NARROW : POSTS_WIDE;
    double free_from = -HUGE_VAL;
    for (kl_index row = 0; row < set->row_count;) {
        kl_index told = KL_NONE;
        double most = -1.0;
        const double from = fmax(posts_x(p, row), free_from);
        for (; row < set->row_count && posts_x(p, row) < from + width; row++) {
            const kl_post_row post = posts_row(p->drawing, p->work, p->work->step, row);
            if (posts_x(p, row) >= free_from && post.force > most) {
                most = post.force;
                told = row;
            }
        }
        if (told != KL_NONE) {
            posts_put_figures(p, told);
            free_from = posts_x(p, told) + width;
        }
    }
}

static void posts_put_heads(const posts_scene *p)
{
    const double line = p->up ? POSTS_LINE_UP : POSTS_LINE;
    const double top = p->plot.bottom + POSTS_BELOW + line - POSTS_LINE;
    drawing_text(p->drawing, "small quiet", 6.0, top, ANCHOR_START, "before");
    drawing_text(p->drawing, "small", 6.0, top + line, ANCHOR_START, "after");
    if (!isnan(posts_set(p->work)->capacity)) {
        drawing_text(p->drawing, "small", 6.0, top + 2.0 * line, ANCHOR_START, "of rated");
    }
}

/* ---- one falsework ------------------------------------------------------------------------------------------ */

static void posts_measure(posts_scene *p)
{
    for (kl_index row = 0; row < posts_set(p->work)->row_count; row++) {
        for (int back = 0; back < 2; back++) {
            const kl_post_row post = posts_row(p->drawing, p->work, p->work->step - back, row);
            p->largest = fmax(p->largest, posts_each(p, &post));
        }
    }
    const double spacing = posts_spacing(p->work);
    p->up = spacing < POSTS_WIDE;
    p->half = fmax(fmin(0.4 * spacing, 2.0 * POSTS_BAR), 1.0);
}

static plot posts_axes(const posts_scene *p, label_box region)
{
    const kl_model *model = kl_results_model(p->work->results);
    const kl_falsework *set = posts_set(p->work);
    char along[80];
    char upright[80];
    snprintf(along, sizeof along, "station, %s", kl_show_unit(&model->display, KL_MEASURE_STATION));
    snprintf(upright, sizeof upright, "force in one post, %s",
             kl_show_unit(&model->display, KL_MEASURE_FORCE));
    const double rated = isnan(set->capacity) ? 0.0 : set->capacity / p->force_unit;
    const plot_axis x = {.low = 0.0,
                         .high = kl_member_length(model, set->member) / p->station_unit,
                         .label = along,
                         .tight = true};
    const plot_axis y = {
        .low = 0.0, .high = fmax(p->largest, rated), .label = upright, .downward = true};
    return plot_start(p->drawing, region, &x, &y);
}

static void posts_put_rated(const posts_scene *p)
{
    const kl_falsework *set = posts_set(p->work);
    if (isnan(set->capacity)) {
        return;
    }
    char figure[FIGURE_SIZE];
    char text[FIGURE_SIZE + 20];
    const double rated = set->capacity / p->force_unit;
    figure_given(figure, rated, 2);
    snprintf(text, sizeof text, "rated %s", figure);
    plot_limit(&p->plot, rated, p->plot.x.from, p->plot.x.to, true, text);
}

static void posts_put(drawing *d, const posts_work *w, double top)
{
    const kl_model *model = kl_results_model(w->results);
    const kl_falsework *set = posts_set(w);
    posts_scene p = {.work = w,
                     .drawing = d,
                     .force_unit = kl_show_factor(&model->display, KL_MEASURE_FORCE),
                     .station_unit = kl_show_factor(&model->display, KL_MEASURE_STATION)};
    char when[LABEL_SIZE];
    char title[2 * LABEL_SIZE];
    label_step(when, w->results, w->step);
    snprintf(title, sizeof title, "%s under %s, %s", set->name, model->members[set->member].name,
             when);
    drawing_text(d, "strong", 8.0, top + 14.0, ANCHOR_START, title);
    posts_measure(&p);
    p.plot = posts_axes(&p, (label_box){0.0, top + 16.0, POSTS_WIDTH, POSTS_PLOT - 16.0});
    posts_put_rated(&p);
    for (int after = 0; after < 2; after++) {
        drawing_open_step(d, after ? (int)w->step : (int)w->step - 1);
        for (kl_index row = 0; row < set->row_count; row++) {
            posts_put_bar(&p, row, after);
        }
        drawing_close_step(d);
    }
    drawing_line(d, "member", p.plot.left, plot_y(&p.plot, 0.0), p.plot.right,
                 plot_y(&p.plot, 0.0));
    posts_put_heads(&p);
    posts_put_all_figures(&p);
}

/* What the bars mean, each beside its words, at the foot of the picture. */
static void posts_put_key(drawing *d)
{
    static const struct {
        const char *class, *words;
    } entries[] = {{"post past", "before the step"},
                   {"post", "after it"},
                   {"post open", "lifted off (up) after it"}};
    double x = PLOT_MARGIN_LEFT;
    for (size_t i = 0; i < sizeof entries / sizeof entries[0]; i++) {
        drawing_box(d, entries[i].class, x, d->height - 18.0, 2.0 * POSTS_BAR, 12.0);
        drawing_text(d, "small", x + 16.0, d->height - 8.0, ANCHOR_START, entries[i].words);
        x += 16.0 + letter_width(entries[i].words, DRAWING_SMALL) + 24.0;
    }
}

void diagram_posts(drawing *d, kl_results *results, const selection *s)
{
    const kl_model *model = kl_results_model(results);
    posts_work works[POSTS_PANELS];
    int count = 0;
    for (kl_index f = 0; f < model->falsework_count && count < POSTS_PANELS; f++) {
        posts_work w = {results, f, KL_NONE};
        if (selection_takes(s, model->falsework[f].member)) {
            w.step = posts_choose(d, &w, s);
        }
        if (w.step != KL_NONE) {
            works[count++] = w;
        }
    }
    double height = count > 0 ? 26.0 : 60.0;
    for (int i = 0; i < count; i++) {
        height += posts_height(&works[i]);
    }
    const kl_status status = d->status;
    drawing_start(d, POSTS_WIDTH, height, "Falsework posts",
                  "Force in one post of each row, before and after a step: an outline and a bar.");
    d->status = status;
    d->blank = count == 0;
    double top = 4.0;
    for (int i = 0; i < count; i++) {
        posts_put(d, &works[i], top);
        top += posts_height(&works[i]);
    }
    if (count > 0) {
        posts_put_key(d);
    } else {
        drawing_text(d, "small quiet", POSTS_WIDTH - 8.0, d->height - 8.0, ANCHOR_END,
                     "no post carries anything");
    }
}
