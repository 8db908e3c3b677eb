/* diagram_section_stress.c - the stress through the height of one section, part by part (stress_split.h): what each cause brings,
 * side by side, and what they come to. Between top and bottom the parts are drawn straight.
 * SPDX-License-Identifier: MIT */
#include "diagrams.h"

#include <math.h>
#include <stdio.h>
#include <stdlib.h>
#include <string.h>

#include "figure.h"
#include "label.h"
#include "letter_width.h"
#include "section_view.h"
#include "stress_split.h"

#define STRESS_WIDTH   900.0
#define STRESS_ROW     270.0
#define STRESS_HEIGHT  150.0 /* px, of the section in the strips */
#define STRESS_LEFT    230.0 /* px, where strips begin; the section is to the left */
#define STRESS_HATCH   6.0   /* px between lines */
#define STRESS_ROWS    4
#define STRESS_PARTS   10   /* the last is the whole */
#define STRESS_NOTHING 2e-4 /* of the largest: a part so small is not drawn */

/* What is drawn of a split. */
typedef struct stress_strips {
    split_part parts[STRESS_PARTS];
    int count;
    double largest; /* Pa */
} stress_strips;

/* A place and a moment to be asked about. */
typedef struct stress_place {
    kl_results *results;
    const kl_model *model;
    kl_index member;
    double station;
    kl_side side;
} stress_place;

/* ---- the parts --------------------------------------------------------------------------------------------------- */

static double stress_size(const split_part *part)
{
    return fmax(fabs(part->top), fabs(part->bottom));
}

/* One more part; when there is no room but for the whole, it is added to the last. */
static void stress_add(stress_strips *strips, const split_part *part)
{
    if (strips->count < STRESS_PARTS - 1) {
        strips->parts[strips->count++] = *part;
    } else {
        split_part *last = &strips->parts[STRESS_PARTS - 2];
        last->name = "others";
        last->top += part->top;
        last->bottom += part->bottom;
    }
}

static void stress_choose(const stress_split *split, stress_strips *strips)
{
    *strips = (stress_strips){.largest = stress_size(&split->whole)};
    for (int i = 0; i < split->count; i++) {
        strips->largest = fmax(strips->largest, stress_size(&split->parts[i]));
    }
    for (int i = 0; i < split->count; i++) {
        if (stress_size(&split->parts[i]) > STRESS_NOTHING * strips->largest) {
            stress_add(strips, &split->parts[i]);
        }
    }
    strips->parts[strips->count++] = split->whole;
}

/* ---- strips ------------------------------------------------------------------------------------------------------ */

/* Width that values from zero take, px to the Pa being 1. */
static double stress_range(const split_part *part)
{
    return fmax(fmax(part->top, part->bottom), 0.0) - fmin(fmin(part->top, part->bottom), 0.0);
}

/* An area between zero and the stress: filled where it is pressed, hatched with level lines where it is pulled. */
static void stress_put_area(
    drawing *d, const split_part *part, double zero, double y, double pixels, const double share[2])
{
    const double from = part->top + share[0] * (part->bottom - part->top);
    const double to = part->top + share[1] * (part->bottom - part->top);
    const double top = y + share[0] * STRESS_HEIGHT;
    const double bottom = y + share[1] * STRESS_HEIGHT;
    const bool pulls = from + to > 0.0;
    const double area[] = {zero, top,   zero + from * pixels, top, zero + to * pixels, bottom,
                           zero, bottom};
    drawing_outline(d, pulls ? "pulls" : "presses", area, 4);
    const int lines = pulls ? (int)ceil((bottom - top - STRESS_HATCH) / STRESS_HATCH) : 0;
    for (int i = 1; i <= lines; i++) {
        const double at = top + STRESS_HATCH * i;
        const double here = from + (to - from) * (at - top) / (bottom - top);
        drawing_line(d, "tick", zero, at, zero + here * pixels, at);
    }
}

/* + and - apart when the stress changes its sign. */
static void
stress_put_shape(drawing *d, const split_part *part, double zero, double y, double pixels)
{
    const bool changes =
        (part->top > 0.0 && part->bottom < 0.0) || (part->top < 0.0 && part->bottom > 0.0);
    if (!changes) {
        stress_put_area(d, part, zero, y, pixels, (double[]){0.0, 1.0});
        return;
    }
    const double at = part->top / (part->top - part->bottom);
    stress_put_area(d, part, zero, y, pixels, (double[]){0.0, at});
    stress_put_area(d, part, zero, y, pixels, (double[]){at, 1.0});
}

static void stress_put_strip(drawing *d,
                             const stress_place *at,
                             const split_part *part,
                             double x,
                             double y,
                             double pixels,
                             const stress_strips *strips)
{
    const double unit = kl_show_factor(&at->model->display, KL_MEASURE_STRESS);
    const double leftmost = fmin(fmin(part->top, part->bottom), 0.0);
    const double zero = x - (leftmost + 0.5 * stress_range(part)) * pixels;
    const double ends[] = {part->top, part->bottom};
    const double largest = strips->largest;
    const split_part *whole = &strips->parts[strips->count - 1];
    stress_put_shape(d, part, zero, y, pixels);
    drawing_line(d, "axis", zero, y - 4.0, zero, y + STRESS_HEIGHT + 4.0);
    for (int i = 0; i < 2; i++) {
        char figure[FIGURE_SIZE];
        char text[FIGURE_SIZE + 1];
        figure_rounded(figure, ends[i] / unit, figure_decimals(largest / unit, 4), 4,
                       FIGURE_NOISE * largest / unit);
        snprintf(text, sizeof text, "%s%s", strcmp(figure, "0") != 0 && ends[i] > 0.0 ? "+" : "",
                 figure);
        const double half = 0.5 * letter_width(text, DRAWING_SMALL) + 2.0;
        const double middle = fmax(fmin(zero + 0.5 * ends[i] * pixels, STRESS_WIDTH - half), half);
        drawing_text(d, part == whole ? "small strong" : "small", middle,
                     i == 0 ? y - 8.0 : y + STRESS_HEIGHT + 16.0, ANCHOR_MIDDLE, text);
    }
}

/* As much of a text as there is room for. */
static void stress_put_line(
    drawing *d, const char *class, double x, double y, double width, const char *line, int length)
{
    char text[LABEL_SIZE];
    length =
        snprintf(text, sizeof text, "%.*s", length < LABEL_SIZE ? length : LABEL_SIZE - 1, line);
    while (length > 1 && letter_width(text, DRAWING_SMALL) > width - 4.0) {
        text[--length] = '\0';
    }
    drawing_text(d, class, x, y, ANCHOR_MIDDLE, text);
}

/* The name under its strip, in two lines where it has two words and is long. */
static void
stress_put_name(drawing *d, const char *class, const char *name, double x, double y, double width)
{
    const int length = (int)strlen(name);
    int cut = length;
    for (int i = 0; i < length && letter_width(name, DRAWING_SMALL) > width - 4.0; i++) {
        const bool nearer = abs(2 * i - length) < abs(2 * cut - length);
        cut = name[i] == ' ' && nearer ? i : cut;
    }
    stress_put_line(d, class, x, y, width, name, cut);
    if (cut < length) {
        stress_put_line(d, class, x, y + 13.0, width, name + cut + 1, length - cut - 1);
    }
}

/* "=" before the whole, "+" before the others. */
static void
stress_put_strips(drawing *d, const stress_place *at, const stress_strips *split, double y)
{
    const double width = (STRESS_WIDTH - STRESS_LEFT - 10.0) / split->count;
    double pixels = HUGE_VAL;
    for (int i = 0; i < split->count; i++) {
        const double range = stress_range(&split->parts[i]);
        pixels = range > 0.0 ? fmin(pixels, (width - 22.0) / range) : pixels;
    }
    pixels = pixels < HUGE_VAL ? pixels : 0.0;
    for (int i = 0; i < split->count; i++) {
        const split_part *part = &split->parts[i];
        const bool whole = i + 1 == split->count;
        const double x = STRESS_LEFT + width * (i + 0.5);
        stress_put_strip(d, at, part, x, y, pixels, split);
        if (i > 0) {
            drawing_text(d, "", STRESS_LEFT + width * i, y + 0.5 * STRESS_HEIGHT, ANCHOR_MIDDLE,
                         whole ? "=" : "+");
        }
        stress_put_name(d, whole ? "small strong" : "small quiet", part->name, x,
                        y + STRESS_HEIGHT + 34.0, width);
    }
}

/* The section as high as the strips, or, when it is wide, smaller with lines that lead to them. */
static void stress_put_section(drawing *d, const stress_place *at, double y)
{
    section_view v;
    const kl_status status =
        section_view_gather(&v, d, at->results, at->member, at->station, at->side);
    if (!diagram_accepts(d, status) || !section_view_has_size(&v)) {
        return;
    }
    const double pixels =
        fmin(STRESS_HEIGHT / (v.top - v.bottom), (STRESS_LEFT - 70.0) / (v.right - v.left));
    const double height = pixels * (v.top - v.bottom);
    const double top = y + 0.5 * (STRESS_HEIGHT - height);
    const double middle = 0.5 * (STRESS_LEFT - 20.0);
    const double right = middle + 0.5 * (v.right - v.left) * pixels + 4.0;
    section_view_place(&v, middle, top, pixels);
    section_view_concrete(&v);
    section_view_ducts(&v, false);
    drawing_line(d, "leader", right, top, STRESS_LEFT - 8.0, y);
    drawing_line(d, "leader", right, top + height, STRESS_LEFT - 8.0, y + STRESS_HEIGHT);
    const double line[] = {right - (v.right - v.left) * pixels - 12.0,
                           section_view_y(&v, v.values.centroid), right + 4.0,
                           section_view_y(&v, v.values.centroid)};
    drawing_course(d, "centroid", line, 2);
}

static void stress_put_row(drawing *d, const stress_place *at, kl_state state, double y)
{
    char when[LABEL_SIZE];
    stress_split split;
    label_state(when, at->results, state);
    drawing_text(d, "strong", 24.0, y + 14.0, ANCHOR_START, when);
    stress_strips strips;
    const kl_status status =
        split_make(at->results, state, at->member, at->station, at->side, &split);
    if (status == KL_NOT_THERE) {
        drawing_text(d, "quiet", 24.0, y + 34.0, ANCHOR_START, "the member does not stand");
    } else if (diagram_accepts(d, status)) {
        stress_put_section(d, at, y + 50.0);
        stress_choose(&split, &strips);
        stress_put_strips(d, at, &strips, y + 50.0);
    }
}

/* ---- which place, which moments ----------------------------------------------------------------------------------- */

/* The station asked for, else that of the member's worst check, else its middle. */
static void stress_find(const selection *s, stress_place *at)
{
    const double length = kl_member_length(at->model, at->member);
    double worst = -HUGE_VAL;
    at->station = 0.5 * length;
    for (kl_index i = 0; s->report && i < kl_check_result_count(s->report) && isnan(s->at); i++) {
        const kl_check_result *r = kl_check_result_at(s->report, i);
        if (r->member == at->member && r->ratio > worst) {
            worst = r->ratio;
            at->station = r->station;
            at->side = r->side;
        }
    }
    if (!isnan(s->at)) {
        at->station = fmin(s->at, length);
        at->side = s->at < length ? KL_RIGHT : KL_LEFT;
    }
}

/* The last few steps, or, when there are none, the last few states. */
static int stress_states(const selection *s, kl_state states[STRESS_ROWS])
{
    const kl_state *one = diagram_state(s);
    int count = 0;
    for (kl_index i = s->state_count - 1; i >= 0 && count < STRESS_ROWS; i--) {
        if (s->states[i].kind == one->kind) {
            states[count++] = s->states[i];
        }
    }
    return count;
}

void diagram_section_stress(drawing *d, kl_results *results, const selection *s)
{
    const kl_model *model = kl_results_model(results);
    stress_place at = {.results = results, .model = model, .member = diagram_member(results, s)};
    kl_section_values section;
    kl_state states[STRESS_ROWS];
    const int count = stress_states(s, states);
    char title[LABEL_SIZE + 80] = "Stress through the height";
    if (at.member != KL_NONE) {
        char place[LABEL_SIZE];
        stress_find(s, &at);
        label_at(place, model, at.member, at.station);
        snprintf(title, sizeof title, "Stress through the height of %s, %s", place,
                 kl_show_unit(&model->display, KL_MEASURE_STRESS));
    }
    drawing_start(d, STRESS_WIDTH, 44.0 + STRESS_ROW * fmax(count, 1.0), title,
                  "Stress at top and bottom by cause; + is tension.");
    if (at.member == KL_NONE || count == 0 ||
        !diagram_accepts(
            d, kl_section_at_station(results, at.member, at.station, at.side, &section)) ||
        isnan(section.to_top)) {
        diagram_absent(d, count == 0 ? "nothing acts on the model"
                                     : "the section does not say how high it is");
        return;
    }
    drawing_text(d, "strong", 8.0, 16.0, ANCHOR_START, title);
    for (int i = 0; i < count; i++) {
        drawing_open_step(d, diagram_step(states[count - 1 - i]));
        stress_put_row(d, &at, states[count - 1 - i], 20.0 + STRESS_ROW * i);
        drawing_close_step(d);
    }
    drawing_text(
        d, "small quiet", 8.0, 36.0 + STRESS_ROW * count, ANCHOR_START,
        "+ and hatched: tension. Straight between top and bottom. Primary and secondary on the "
        "gross section; sections of their day: what ducts and steel change in that.");
}
