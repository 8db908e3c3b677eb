/* diagram_tendons.c - tendons in elevation, heights stretched: paths, ducts, anchors, high and low points, least cover.
 * SPDX-License-Identifier: MIT */
#include "diagrams.h"

#include <math.h>
#include <stdio.h>
#include <string.h>

#include "elevation.h"
#include "figure.h"
#include "label.h"
#include "mem.h"

#define TENDONS_WIDTH    900.0
#define TENDONS_HEIGHT   440.0
#define TENDONS_LIMIT    8    /* in one picture: each has a look of its own */
#define TENDONS_SPACIOUS 4    /* so many leave room for the label of every point */
#define TENDONS_DIVISION 200  /* pieces of a tendon */
#define TENDONS_JACK     30.0 /* px */

/* One tendon in shown units, along the elevation. */
typedef struct tendon_line {
    kl_index tendon;
    double offset; /* m */
    double *station, *height, *duct_top, *duct_bottom;
    int count;
    double cover, cover_station; /* the least and where, m; NAN: none known */
} tendon_line;

typedef struct tendons_page {
    kl_results *results;
    const kl_model *model;
    double station, size; /* factors of shown units */
    elevation view;
    tendon_line lines[TENDONS_LIMIT];
    plot_key_entry key[TENDONS_LIMIT];
    char names[TENDONS_LIMIT][LABEL_SIZE];
    int count;
    bool more;
    arena memory;
} tendons_page;

/* ---- gathering ----------------------------------------------------------------------------------------------- */

static void tendon_note_cover(tendon_line *line, const kl_tendon_point *p, double size)
{
    const double cover = fmin(p->above_bottom, p->below_top) - 0.5 * size;
    if (!isnan(cover) && !(cover >= line->cover)) {
        line->cover = cover;
        line->cover_station = p->station;
    }
}

static kl_status tendon_gather(tendons_page *page, kl_index tendon, tendon_line *line)
{
    const kl_tendon *t = &page->model->tendons[tendon];
    const double every = kl_tendon_range(page->model, tendon) / TENDONS_DIVISION;
    const kl_tendon_point *points;
    kl_index count;
    line->tendon = tendon;
    line->cover = NAN;
    KL_TRY(kl_tendon_points(page->results, tendon, every, &points, &count));
    double **arrays[] = {&line->station, &line->height, &line->duct_top, &line->duct_bottom};
    for (int i = 0; i < 4; i++) {
        *arrays[i] = arena_array(&page->memory, (size_t)count, sizeof(double));
        if (!*arrays[i]) {
            return KL_NO_MEMORY;
        }
    }
    for (kl_index i = 0; i < count; i++) {
        line->station[i] = (line->offset + points[i].station) / page->station;
        line->height[i] = points[i].height / page->size;
        line->duct_top[i] = (points[i].duct_height + 0.5 * t->duct) / page->size;
        line->duct_bottom[i] = (points[i].duct_height - 0.5 * t->duct) / page->size;
        page->view.low = fmin(page->view.low, line->duct_bottom[i]);
        page->view.high = fmax(page->view.high, line->duct_top[i]);
        tendon_note_cover(line, &points[i], t->duct);
    }
    line->count = (int)count;
    return KL_OK;
}

/* "T1 (3 x 19 strands), least cover 8.5 in at 48 ft". */
static void tendon_name(const tendons_page *page, const tendon_line *line, char text[LABEL_SIZE])
{
    const kl_tendon *t = &page->model->tendons[line->tendon];
    char many[40] = "";
    char cover[LABEL_SIZE];
    char place[LABEL_SIZE];
    if (t->count > 1) {
        snprintf(many, sizeof many, "%d x ", (int)t->count);
    }
    int used = snprintf(text, LABEL_SIZE, "%.60s (%s%.6g %s%s)", t->name, many, t->units,
                        t->is_bar ? "bar" : "strand", t->units > 1.0 ? "s" : "");
    if (!isnan(line->cover)) {
        label_value(cover, &page->model->display, KL_MEASURE_SIZE, line->cover, 3);
        label_value(place, &page->model->display, KL_MEASURE_STATION, line->cover_station, 3);
        snprintf(text + used, LABEL_SIZE - (size_t)used, ", least cover %.30s at %.30s", cover,
                 place);
    }
}

static kl_status tendons_gather(tendons_page *page, const selection *s, kl_index member)
{
    KL_TRY(elevation_gather(&page->memory, page->results, member, true, &page->view));
    for (kl_index t = 0; t < page->model->tendon_count; t++) {
        const double offset = elevation_offset(&page->view, t);
        if (isnan(offset) || (s->tendon != KL_NONE && s->tendon != t)) {
            continue;
        }
        if (page->count == TENDONS_LIMIT) {
            page->more = true;
            break;
        }
        tendon_line *line = &page->lines[page->count];
        line->offset = offset;
        KL_TRY(tendon_gather(page, t, line));
        tendon_name(page, line, page->names[page->count]);
        page->key[page->count] =
            (plot_key_entry){diagram_class(page->count), page->names[page->count]};
        page->count++;
    }
    return KL_OK;
}

/* ---- drawing --------------------------------------------------------------------------------------------------- */

static void tendon_put_path(const plot *p, const tendons_page *page, int i)
{
    const tendon_line *line = &page->lines[i];
    if (page->model->tendons[line->tendon].duct > 0.0) {
        plot_course(p, "duct-edge", line->station, line->duct_top, line->count);
        plot_course(p, "duct-edge", line->station, line->duct_bottom, line->count);
    }
    plot_course(p, page->key[i].class, line->station, line->height, line->count);
}

/* What is done at an end; NULL: nothing. */
static const char *tendon_pull(kl_jack_ends ends, int end)
{
    switch (ends) {
    case KL_JACK_START:
        return end == 0 ? "jack" : NULL;
    case KL_JACK_END:
        return end == 1 ? "jack" : NULL;
    case KL_JACK_BOTH:
        return "jack";
    case KL_JACK_START_THEN_END:
        return end == 0 ? "jack, 1st" : "jack, 2nd";
    case KL_JACK_END_THEN_START:
        return end == 1 ? "jack, 1st" : "jack, 2nd";
    }
    return NULL;
}

/* A plate at each anchor, and an arrow in which the jack pulls. */
static void tendon_put_anchors(const plot *p, const tendons_page *page, int i)
{
    const tendon_line *line = &page->lines[i];
    const kl_jack_ends ends = page->model->tendons[line->tendon].jack_ends;
    for (int end = 0; end < 2; end++) {
        const int at = end == 0 ? 0 : line->count - 1;
        const double x = plot_x(p, line->station[at]);
        const double y = plot_y(p, line->height[at]);
        const double out = end == 0 ? -1.0 : 1.0;
        const char *pull = tendon_pull(ends, end);
        drawing_box(p->drawing, "bar", x - 2.0, y - 6.0, 4.0, 12.0);
        if (pull) {
            drawing_arrow(p->drawing, "load", x, y, x + out * TENDONS_JACK, y);
            drawing_keep_line(p->drawing, x, y, x + out * TENDONS_JACK, y);
            drawing_hint(p->drawing, "small quiet", x + out * TENDONS_JACK, y, 0.5, pull);
        }
    }
}

static void tendon_size(const tendons_page *page, double value, char text[FIGURE_SIZE])
{
    const double shown = value / page->size;
    const int most = figure_decimals(shown, 4);
    figure_rounded(text, shown, figure_exact_decimals(shown, most > 2 || most < 0 ? 2 : most), 4,
                   0.005);
}

/* High and low points and anchors: height above the bottom, eccentricity. */
static void tendon_put_rows(const plot *p, tendons_page *page, int i)
{
    const tendon_line *line = &page->lines[i];
    const kl_tendon *t = &page->model->tendons[line->tendon];
    for (kl_index r = 0; r < t->row_count && r < 200; r++) {
        kl_tendon_point at;
        const double x = t->rows[r].station;
        if (t->rows[r].kind == KL_ROW_INFLECTION || t->rows[r].kind == KL_ROW_THROUGH ||
            !diagram_accepts(p->drawing,
                             kl_tendon_point_at(page->results, line->tendon, x, KL_RIGHT, &at))) {
            continue;
        }
        char height[FIGURE_SIZE];
        char eccentricity[FIGURE_SIZE];
        char text[2 * FIGURE_SIZE + 20];
        tendon_size(page, at.above_bottom, height);
        tendon_size(page, at.eccentricity, eccentricity);
        snprintf(text, sizeof text, "h %s, e %s%s", height,
                 strcmp(eccentricity, "0") != 0 && at.eccentricity > 0.0 ? "+" : "", eccentricity);
        const double page_x = plot_x(p, (line->offset + x) / page->station);
        const double page_y = plot_y(p, at.height / page->size);
        drawing_circle(p->drawing, "node", page_x, page_y, 2.4);
        if (t->rows[r].kind == KL_ROW_ANCHOR || page->count > TENDONS_SPACIOUS) {
            drawing_hint(p->drawing, "small", page_x, page_y, 1.0, text);
        } else {
            drawing_label(p->drawing, "small", page_x, page_y, 2.0, text);
        }
    }
}

static void tendons_draw(drawing *d, tendons_page *page, const kl_state *state)
{
    const double key = plot_key_height(page->key, page->count, TENDONS_WIDTH);
    const plot p = elevation_axes(
        d, &page->view, (label_box){0.0, 18.0 + key, TENDONS_WIDTH, TENDONS_HEIGHT - 36.0 - key},
        0.3, 0.1);
    elevation_columns(&p, &page->view, state);
    if (state) {
        drawing_open_step(d, diagram_step(*state));
        elevation_posts(&p, &page->view, state);
        drawing_close_step(d);
    }
    elevation_concrete(&p, &page->view);
    elevation_centroid(&p, &page->view);
    for (int i = 0; i < page->count; i++) {
        tendon_put_path(&p, page, i);
        tendon_put_anchors(&p, page, i);
        tendon_put_rows(&p, page, i);
    }
    plot_key(&p, page->key, page->count);
    char note[200];
    snprintf(note, sizeof note,
             "Heights %.3g times as large as lengths. h: duct's centre above the bottom, e: tendon "
             "above "
             "the gross centroid, %s. Cover: from the duct to top or bottom.%s",
             elevation_stretch(&p, &page->view),
             kl_show_unit(&page->model->display, KL_MEASURE_SIZE),
             page->more ? " There are more tendons: ask for one." : "");
    drawing_text(d, "small quiet", 8.0, TENDONS_HEIGHT - 6.0, ANCHOR_START, note);
}

/* The member asked for, or of the tendon asked for, else the longest of those with tendons. */
static kl_index tendons_member(const kl_model *model, const selection *s)
{
    if (s->member != KL_NONE || s->tendon != KL_NONE) {
        return s->member != KL_NONE ? s->member : model->tendons[s->tendon].members[0];
    }
    kl_index longest = KL_NONE;
    for (kl_index t = 0; t < model->tendon_count; t++) {
        for (kl_index i = 0; i < model->tendons[t].member_count; i++) {
            const kl_index m = model->tendons[t].members[i];
            if (longest == KL_NONE ||
                kl_member_length(model, m) > kl_member_length(model, longest)) {
                longest = m;
            }
        }
    }
    return longest;
}

void diagram_tendons(drawing *d, kl_results *results, const selection *s)
{
    const kl_model *model = kl_results_model(results);
    const kl_index member = tendons_member(model, s);
    char title[LABEL_SIZE + 40];
    snprintf(title, sizeof title, "Tendons of %s",
             member == KL_NONE ? "no member" : model->members[member].name);
    drawing_start(d, TENDONS_WIDTH, TENDONS_HEIGHT, title,
                  "Tendons in elevation with the concrete, heights stretched.");
    tendons_page *page = mem_array(1, sizeof *page);
    if (!page) {
        d->status = KL_NO_MEMORY;
        return;
    }
    *page = (tendons_page){.results = results,
                           .model = model,
                           .station = kl_show_factor(&model->display, KL_MEASURE_STATION),
                           .size = kl_show_factor(&model->display, KL_MEASURE_SIZE)};
    drawing_text(d, "strong", 8.0, 16.0, ANCHOR_START, title);
    const kl_status status = member == KL_NONE ? KL_NOT_THERE : tendons_gather(page, s, member);
    if (diagram_accepts(d, status) && page->count > 0) {
        tendons_draw(d, page, diagram_state(s));
    } else {
        diagram_absent(d, "no such tendon runs in the member");
    }
    arena_free(&page->memory);
    mem_free(page);
}
