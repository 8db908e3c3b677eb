/* plot.c - see plot.h.
 * SPDX-License-Identifier: MIT */
#include "plot.h"

#include <math.h>
#include <stdio.h>

#include "figure.h"
#include "letter_width.h"
#include "mem.h"
#include "near.h"

#define PLOT_TICK       5.0  /* px */
#define PLOT_HATCH      7.0  /* px between strokes beyond a limit, and their length */
#define PLOT_TICK_WIDTH 90.0 /* px that a value along the bottom takes */
#define PLOT_TICK_HIGH  45.0
#define PLOT_SAME       1e-9 /* decades */
#define PLOT_KEY_ROW    15.0
#define PLOT_KEY_UP     25.0 /* px from the field up to the middle of the last row of the key */

static void plot_put_tick(const plot *p, double value, int decimals, double noise, bool upright)
{
    char text[FIGURE_SIZE];
    figure_rounded(text, value, decimals, 6, noise);
    if (upright) {
        const double y = plot_y(p, value);
        drawing_line(p->drawing, "rule", p->left, y, p->right, y);
        drawing_line(p->drawing, "tick", p->left - PLOT_TICK, y, p->left, y);
        drawing_text(p->drawing, "small", p->left - PLOT_TICK - 3.0, y + 3.5, ANCHOR_END, text);
    } else {
        const double x = plot_x(p, value);
        drawing_line(p->drawing, "tick", x, p->bottom, x, p->bottom + PLOT_TICK);
        drawing_text(p->drawing, "small", x, p->bottom + PLOT_TICK + 11.0, ANCHOR_MIDDLE, text);
    }
}

static void plot_put_ticks(const plot *p, const scale *s, int about, bool upright)
{
    const scale_ticks ticks = scale_ticks_of(s, about);
    for (int i = 0; i < ticks.count; i++) {
        plot_put_tick(p, ticks.first + i * ticks.step, ticks.decimals, 1e-6 * ticks.step, upright);
    }
}

/* 1, 2 and 5 of every decade; of many decades only the powers of ten are told. */
static void plot_put_decades(const plot *p, int about)
{
    static const double steps[] = {1.0, 2.0, 5.0};
    const double low = fmin(p->x.from, p->x.to);
    const double high = fmax(p->x.from, p->x.to);
    const bool all = 3.0 * (high - low) <= about;
    for (int decade = (int)floor(low); decade <= (int)ceil(high); decade++) {
        for (int i = 0; i < 3; i++) {
            const double at = decade + log10(steps[i]);
            const double x = plot_x(p, at);
            if (at < low - PLOT_SAME || at > high + PLOT_SAME) {
                continue;
            }
            drawing_line(p->drawing, "tick", x, p->bottom, x, p->bottom + PLOT_TICK);
            if (i == 0) {
                drawing_line(p->drawing, "rule", x, p->top, x, p->bottom);
            }
            if (all || i == 0) {
                const double value = steps[i] * pow(10.0, decade);
                char text[FIGURE_SIZE];
                figure_rounded(text, value, decade < 0 ? -decade : 0, 2, 0.0);
                drawing_text(p->drawing, "small", x, p->bottom + PLOT_TICK + 11.0, ANCHOR_MIDDLE,
                             text);
            }
        }
    }
}

static int plot_about(double length, double each)
{
    return (int)fmax(floor(length / each), 2.0);
}

/* The axes' group tells which values lie where, so that a script can turn a place of the page into a station. */
static void plot_open_axes(const plot *p, const char *key, bool decades)
{
    const scale *x = &p->x;
    const scale *y = &p->y;
    char attributes[400];
    snprintf(attributes, sizeof attributes,
             "data-x0=\"%.12g\" data-x1=\"%.12g\" data-px0=\"%.12g\" data-px1=\"%.12g\" "
             "data-y0=\"%.12g\" data-y1=\"%.12g\" data-py0=\"%.12g\" data-py1=\"%.12g\"%s%s%s%s",
             x->from, x->to, x->at, x->at + x->length, y->from, y->to, y->at, y->at + y->length,
             decades ? " data-decades=\"x\"" : "", key ? " data-quantity=\"" : "", key ? key : "",
             key ? "\"" : "");
    drawing_open(p->drawing, "axes field", attributes);
}

plot plot_start(drawing *d, label_box region, const plot_axis *x, const plot_axis *y)
{
    plot p = {.drawing = d,
              .left = region.x + PLOT_MARGIN_LEFT,
              .top = region.y + PLOT_MARGIN_TOP,
              .right = region.x + region.width - PLOT_MARGIN_RIGHT,
              .bottom = region.y + region.height - PLOT_MARGIN_BOTTOM};
    const int upright = plot_about(p.bottom - p.top, PLOT_TICK_HIGH);
    const int along = plot_about(p.right - p.left, PLOT_TICK_WIDTH);
    double low[2] = {x->low, y->low};
    double high[2] = {x->high, y->high};
    if (!x->tight) {
        scale_round(&low[0], &high[0], along);
    }
    if (!y->tight) {
        scale_round(&low[1], &high[1], upright);
    }
    p.x = scale_over(low[0], high[0], p.left, p.right - p.left);
    p.y = y->downward ? scale_over(low[1], high[1], p.top, p.bottom - p.top)
                      : scale_over(low[1], high[1], p.bottom, p.top - p.bottom);
    plot_open_axes(&p, y->key, x->decades);
    plot_put_ticks(&p, &p.y, upright, true);
    if (x->decades) {
        plot_put_decades(&p, along);
    } else {
        plot_put_ticks(&p, &p.x, along, false);
    }
    const double corner[] = {p.left, p.top, p.left, p.bottom, p.right, p.bottom};
    drawing_course(d, "axis", corner, 3);
    if (p.y.from < 0.0 && p.y.to > 0.0) {
        const double zero[] = {p.left, plot_y(&p, 0.0), p.right, plot_y(&p, 0.0)};
        drawing_course(d, "axis", zero, 2);
    }
    drawing_keep_free(d, region.x, p.top, p.left - region.x - 1.0, p.bottom - p.top);
    drawing_text(d, "", 0.5 * (p.left + p.right), p.bottom + 36.0, ANCHOR_MIDDLE, x->label);
    drawing_text_up(d, "", region.x + 14.0, 0.5 * (p.top + p.bottom), ANCHOR_MIDDLE, y->label);
    drawing_close(d);
    return p;
}

void plot_right_axis(const plot *p, double factor, const char *label)
{
    drawing *d = p->drawing;
    const scale beside = scale_over(p->y.from * factor, p->y.to * factor, p->y.at, p->y.length);
    const scale_ticks ticks =
        scale_ticks_of(&beside, plot_about(p->bottom - p->top, PLOT_TICK_HIGH));
    const double line[] = {p->right, p->top, p->right, p->bottom};
    drawing_open(d, "axes", NULL);
    drawing_course(d, "axis", line, 2);
    for (int i = 0; i < ticks.count; i++) {
        const double value = ticks.first + i * ticks.step;
        const double y = scale_place(&beside, value);
        char text[FIGURE_SIZE];
        figure_rounded(text, value, ticks.decimals, 6, 1e-6 * ticks.step);
        drawing_line(d, "tick", p->right, y, p->right + PLOT_TICK, y);
        drawing_text(d, "small", p->right + PLOT_TICK + 3.0, y + 3.5, ANCHOR_START, text);
    }
    drawing_text_up(d, "", p->right + PLOT_MARGIN_LEFT - 6.0, 0.5 * (p->top + p->bottom),
                    ANCHOR_MIDDLE, label);
    drawing_close(d);
}

double plot_x(const plot *p, double x)
{
    return scale_place(&p->x, x);
}

double plot_y(const plot *p, double y)
{
    return scale_place(&p->y, y);
}

/* Points of the page for pairs begin … begin + count - 1, and room for two more; NULL: no memory. */
static double *plot_points(const plot *p, const double *x, const double *y, int count)
{
    double *points = mem_array(2 * (size_t)count + 4, sizeof(double));
    if (!points) {
        p->drawing->status = p->drawing->status == KL_OK ? KL_NO_MEMORY : p->drawing->status;
        return NULL;
    }
    for (int i = 0; i < count; i++) {
        points[2 * i] = plot_x(p, x[i]);
        points[2 * i + 1] = plot_y(p, y[i]);
    }
    return points;
}

/* The length of the run from `begin` on that has no NAN. */
static int plot_run(const double *y, int begin, int count)
{
    int end = begin;
    while (end < count && !isnan(y[end])) {
        end++;
    }
    return end - begin;
}

void plot_course(const plot *p, const char *class, const double *x, const double *y, int count)
{
    for (int begin = 0; begin < count; begin++) {
        const int run = plot_run(y, begin, count);
        double *points = run > 0 ? plot_points(p, x + begin, y + begin, run) : NULL;
        if (points) {
            drawing_course(p->drawing, class, points, run);
        }
        mem_free(points);
        begin += run;
    }
}

void plot_fill(const plot *p, const char *class, const double *x, const double *y, int count)
{
    const double zero = plot_y(p, fmax(fmin(0.0, p->y.to), p->y.from));
    for (int begin = 0; begin < count; begin++) {
        const int run = plot_run(y, begin, count);
        double *points = run > 1 ? plot_points(p, x + begin, y + begin, run) : NULL;
        if (points) {
            points[2 * run] = points[2 * run - 2];
            points[2 * run + 1] = zero;
            points[2 * run + 2] = points[0];
            points[2 * run + 3] = zero;
            drawing_area(p->drawing, class, points, run + 2);
        }
        mem_free(points);
        begin += run;
    }
}

void plot_band(const plot *p,
               const char *class,
               const double *x,
               const double *upper,
               const double *lower,
               int count)
{
    for (int begin = 0; begin < count; begin++) {
        const int first = plot_run(upper, begin, count);
        const int second = plot_run(lower, begin, count);
        const int run = first < second ? first : second;
        double *points = run > 1 ? mem_array(4 * (size_t)run, sizeof(double)) : NULL;
        if (run > 1 && !points) {
            p->drawing->status = p->drawing->status == KL_OK ? KL_NO_MEMORY : p->drawing->status;
        }
        for (int i = 0; points && i < run; i++) { /* along the upper one and back along the lower */
            double *back = points + 2 * (2 * run - 1 - i);
            points[2 * i] = back[0] = plot_x(p, x[begin + i]);
            points[2 * i + 1] = plot_y(p, upper[begin + i]);
            back[1] = plot_y(p, lower[begin + i]);
        }
        if (points) {
            drawing_area(p->drawing, class, points, 2 * run);
        }
        mem_free(points);
        begin += run;
    }
}

void plot_limit(const plot *p, double y, double x1, double x2, bool above, const char *text)
{
    const double at = plot_y(p, y);
    const double from = plot_x(p, x1);
    const double to = plot_x(p, x2);
    const bool page_up = above == (p->y.length < 0.0); /* larger values are higher on the page */
    const double stroke = page_up ? -PLOT_HATCH : PLOT_HATCH;
    const double line[] = {from, at, to, at};
    drawing_course(p->drawing, "limit", line, 2);
    drawing_hatch(p->drawing, "beyond", from, at, PLOT_HATCH, stroke,
                  (int)((to - from + PLOT_HATCH) / (2.0 * PLOT_HATCH)));
    drawing_keep_hatch(p->drawing, from, fmin(at, at + stroke), to - from, PLOT_HATCH);
    if (text[0] != '\0') {
        drawing_label(p->drawing, "small", to - 0.5 * letter_width(text, DRAWING_SMALL), at, 2.0,
                      text);
    }
}

void plot_place(const plot *p, double x, const char *name)
{
    const double at = plot_x(p, x);
    drawing_line(p->drawing, "rule", at, p->top, at, p->bottom);
    drawing_hint(p->drawing, "small quiet", at, p->top, 0.0, name);
}

void plot_value(const plot *p, double x, double y, double weight, const char *text)
{
    drawing_circle(p->drawing, "node", plot_x(p, x), plot_y(p, y), 2.2);
    drawing_label(p->drawing, "small", plot_x(p, x), plot_y(p, y), weight, text);
}

void plot_value_if_room(const plot *p, double x, double y, double weight, const char *text)
{
    drawing_circle(p->drawing, "node", plot_x(p, x), plot_y(p, y), 2.2);
    drawing_hint_beside(p->drawing, "small", plot_x(p, x), plot_y(p, y), weight, text);
}

static double plot_key_width(const plot_key_entry *entry)
{
    return 30.0 + letter_width(entry->name, 10.5) + 16.0;
}

/* How many entries from `first` on stand in one row of a field so wide. */
static int plot_key_row(const plot_key_entry *entries, int first, int count, double width)
{
    double used = plot_key_width(&entries[first]);
    int end = first + 1;
    while (end < count && used + plot_key_width(&entries[end]) <= width) {
        used += plot_key_width(&entries[end++]);
    }
    return end - first;
}

static int plot_key_rows(const plot_key_entry *entries, int count, double width)
{
    int rows = 0;
    for (int first = 0; first < count; rows++) {
        first += plot_key_row(entries, first, count, width);
    }
    return rows;
}

double plot_key_height(const plot_key_entry *entries, int count, double region_width)
{
    const double width = region_width - PLOT_MARGIN_LEFT - PLOT_MARGIN_RIGHT;
    return PLOT_KEY_ROW * fmax(plot_key_rows(entries, count, width) - 1.0, 0.0);
}

void plot_key_of_steps(const plot *p, const plot_key_entry *entries, const int *steps, int count)
{
    const double width = p->right - p->left;
    const int rows = plot_key_rows(entries, count, width);
    int first = 0;
    drawing_keep_free(p->drawing, p->left, p->top - PLOT_KEY_UP - PLOT_KEY_ROW * (rows - 0.5),
                      width, PLOT_KEY_ROW * rows);
    for (int row = 0; row < rows; row++) {
        const double y = p->top - PLOT_KEY_UP - PLOT_KEY_ROW * (rows - 1 - row);
        const int end = first + plot_key_row(entries, first, count, width);
        double x = p->left + 4.0;
        for (; first < end; first++) {
            const double line[] = {x, y, x + 24.0, y};
            drawing_open_step(p->drawing, steps ? steps[first] : DRAWING_NO_STEP);
            drawing_course(p->drawing, entries[first].class, line, 2);
            drawing_text(p->drawing, "small", x + 29.0, y + 3.5, ANCHOR_START, entries[first].name);
            drawing_close_step(p->drawing);
            x += plot_key_width(&entries[first]);
        }
    }
}

void plot_key(const plot *p, const plot_key_entry *entries, int count)
{
    plot_key_of_steps(p, entries, NULL, count);
}
