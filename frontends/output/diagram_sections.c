/* diagram_sections.c - sections to scale, one below the other, with what they are worth; members along which they change.
 * SPDX-License-Identifier: MIT */
#include "diagrams.h"

#include <math.h>
#include <stdio.h>

#include "elevation.h"
#include "label.h"
#include "section_places.h"
#include "section_view.h"

#define SECTIONS_WIDTH  900.0
#define SECTIONS_ROOM   430.0 /* px for the concrete */
#define SECTIONS_HEIGHT 230.0
#define SECTIONS_MIDDLE 300.0
#define SECTIONS_FACTS  690.0
#define SECTIONS_LEAST                                                                             \
    90.0 /* px of the larger side: smaller ones are drawn larger than the others */
#define SECTIONS_LINE   16.0
#define SECTIONS_STRIP  90.0 /* px of a strip besides the member itself */
#define SECTIONS_STRIPS 4

/* The picture while it is laid out. */
typedef struct sections_page {
    const kl_model *model;
    section_places places;
    section_view views[SECTION_PLACES_LIMIT];
    double pixels[SECTION_PLACES_LIMIT];
    double times[SECTION_PLACES_LIMIT]; /* larger than the common scale */
    kl_index strips[SECTIONS_STRIPS];   /* members along which sections change */
    int strip_count;
    double height;
} sections_page;

/* ---- what a section is worth --------------------------------------------------------------------------------- */

typedef struct section_fact {
    const char *name;
    kl_measure measure;
    double value;
} section_fact;

#define SECTIONS_FACT_LIMIT 9

/* Those that the section has. @return how many */
static int sections_facts(const kl_model *model,
                          const section_view *v,
                          section_fact facts[SECTIONS_FACT_LIMIT])
{
    const kl_section_values *s = &v->values;
    const double unit_weight = model->materials[model->members[v->member].material].unit_weight;
    const section_fact all[SECTIONS_FACT_LIMIT] = {
        {"area A", KL_MEASURE_AREA, s->area},
        {"inertia I", KL_MEASURE_INERTIA, s->inertia},
        {"centroid to top", KL_MEASURE_SIZE, s->to_top},
        {"centroid to bottom", KL_MEASURE_SIZE, s->to_bottom},
        {"modulus at top", KL_MEASURE_SECTION_MODULUS, s->inertia / s->to_top},
        {"modulus at bottom", KL_MEASURE_SECTION_MODULUS, s->inertia / s->to_bottom},
        {"shear area", KL_MEASURE_AREA, s->shear_area},
        {"volume to surface", KL_MEASURE_SIZE, s->volume_to_surface},
        {"weight", KL_MEASURE_LINE_LOAD, s->area * unit_weight},
    };
    int count = 0;
    for (int i = 0; i < SECTIONS_FACT_LIMIT; i++) {
        if (!isnan(all[i].value)) {
            facts[count++] = all[i];
        }
    }
    return count;
}

static void sections_put_facts(drawing *d, const kl_model *model, const section_view *v, double y)
{
    section_fact facts[SECTIONS_FACT_LIMIT];
    const int count = sections_facts(model, v, facts);
    for (int i = 0; i < count; i++) {
        char text[LABEL_SIZE];
        label_value(text, &model->display, facts[i].measure, facts[i].value, 5);
        drawing_text(d, "quiet", SECTIONS_FACTS, y, ANCHOR_END, facts[i].name);
        drawing_text(d, "", SECTIONS_FACTS + 12.0, y, ANCHOR_START, text);
        y += SECTIONS_LINE;
    }
}

/* ---- layout ---------------------------------------------------------------------------------------------- */

static double sections_fit(const section_view *v)
{
    return section_view_has_size(v)
               ? fmin(SECTIONS_ROOM / (v->right - v->left), SECTIONS_HEIGHT / (v->top - v->bottom))
               : HUGE_VAL;
}

/* All to one scale; but a section that would be too small to read is drawn 2, 5, 10 … times as large. */
static void sections_scale(sections_page *page)
{
    double common = HUGE_VAL;
    for (int i = 0; i < page->places.count; i++) {
        common = fmin(common, sections_fit(&page->views[i]));
    }
    for (int i = 0; i < page->places.count; i++) {
        static const double steps[] = {2.0, 5.0, 10.0, 20.0, 50.0, 100.0};
        const section_view *v = &page->views[i];
        const double size = common * fmax(v->right - v->left, v->top - v->bottom);
        page->times[i] = 1.0;
        for (size_t k = 0; k < sizeof steps / sizeof steps[0] && size < SECTIONS_LEAST; k++) {
            if (steps[k] * common <= sections_fit(v)) {
                page->times[i] = steps[k];
            }
        }
        page->pixels[i] = page->times[i] * common;
    }
}

static double sections_row_height(const sections_page *page, int i)
{
    const section_view *v = &page->views[i];
    const double drawn =
        section_view_has_size(v) ? (v->top - v->bottom) * page->pixels[i] + 48.0 : 0.0;
    section_fact facts[SECTIONS_FACT_LIMIT];
    const int lines = 1 + sections_facts(page->model, v, facts);
    return 34.0 + fmax(drawn, SECTIONS_LINE * lines) + 10.0;
}

/* Height of a strip: heights as long as lengths, but stretched where the member is long and compressed where it is short. */
static double sections_strip_height(const kl_model *model, kl_results *results, kl_index member)
{
    double deepest = 0.0;
    for (kl_index i = 0; i < model->members[member].section_count; i++) {
        kl_section_values v;
        const double station = model->members[member].sections[i].station;
        if (kl_section_at_station(results, member, station, KL_RIGHT, &v) == KL_OK) {
            deepest = fmax(deepest, v.to_top + v.to_bottom);
        }
    }
    const double field = SECTIONS_WIDTH - PLOT_MARGIN_LEFT - PLOT_MARGIN_RIGHT;
    const double drawn = 1.24 * deepest * field / kl_member_length(model, member);
    return SECTIONS_STRIP + fmax(fmin(drawn, 180.0), 60.0);
}

static void sections_find_strips(sections_page *page, const selection *s)
{
    for (kl_index m = 0; m < page->model->member_count && page->strip_count < SECTIONS_STRIPS;
         m++) {
        if (selection_takes(s, m) && page->model->members[m].section_count > 1 &&
            section_places_twin(page->model, s, m) == m) {
            page->strips[page->strip_count++] = m;
        }
    }
}

static kl_status sections_lay_out(sections_page *page, kl_results *results, const selection *s)
{
    page->model = kl_results_model(results);
    section_places_gather(page->model, s, &page->places);
    for (int i = 0; i < page->places.count; i++) {
        const section_place *at = &page->places.items[i];
        KL_TRY(
            section_view_gather(&page->views[i], NULL, results, at->member, at->station, at->side));
    }
    sections_scale(page);
    sections_find_strips(page, s);
    page->height = 26.0 + 40.0;
    for (int i = 0; i < page->strip_count; i++) {
        page->height += sections_strip_height(page->model, results, page->strips[i]);
    }
    for (int i = 0; i < page->places.count; i++) {
        page->height += sections_row_height(page, i);
    }
    return KL_OK;
}

/* ---- words -------------------------------------------------------------------------------------------------- */

/* "section root", "between tip and root". */
static void sections_name(const kl_model *model, const section_view *v, char text[LABEL_SIZE])
{
    const kl_section_mix mix = kl_section_mix_at(model, v->member, v->station, v->side);
    const bool between = mix.a != mix.b && mix.share > 1e-6 && mix.share < 1.0 - 1e-6;
    if (between) {
        snprintf(text, LABEL_SIZE, "between %.80s and %.80s", model->sections[mix.a].name,
                 model->sections[mix.b].name);
    } else {
        const kl_index section = mix.share > 0.5 ? mix.b : mix.a;
        snprintf(text, LABEL_SIZE, "section %.150s", model->sections[section].name);
    }
}

static void sections_put_title(drawing *d, const sections_page *page, int i, double y)
{
    const section_place *place = &page->places.items[i];
    char at[LABEL_SIZE];
    char name[LABEL_SIZE];
    char text[2 * LABEL_SIZE + 120];
    label_at(at, page->model, place->member, place->station);
    sections_name(page->model, &page->views[i], name);
    int used = snprintf(text, sizeof text, "%s: %s", at, name);
    if (place->like > 0) {
        used += snprintf(text + used, sizeof text - (size_t)used, "; %d other member%s it too",
                         (int)place->like, place->like > 1 ? "s have" : " has");
    }
    if (page->times[i] > 1.0) {
        snprintf(text + used, sizeof text - (size_t)used, "; drawn %.0f times as large",
                 page->times[i]);
    }
    drawing_text(d, "strong", 24.0, y, ANCHOR_START, text);
}

/* What is worth the same as the place before on the same member is not told again. */
static bool sections_are_told(const sections_page *page, int i)
{
    const section_place *here = &page->places.items[i];
    const section_place *before = here - 1;
    return i > 0 && here->member == before->member && here->section == before->section;
}

static void sections_put_row(drawing *d, sections_page *page, int i, double y)
{
    section_view *v = &page->views[i];
    v->drawing = d;
    sections_put_title(d, page, i, y + 14.0);
    if (section_view_has_size(v)) {
        section_view_place(v, SECTIONS_MIDDLE, y + 34.0, page->pixels[i]);
        section_view_concrete(v);
        section_view_centroid(v);
        section_view_bars(v);
        section_view_ducts(v, true);
        section_view_dimensions(v);
    }
    if (sections_are_told(page, i)) {
        drawing_text(d, "quiet", SECTIONS_FACTS + 12.0, y + 44.0, ANCHOR_START, "as above");
    } else {
        sections_put_facts(d, page->model, v, y + 44.0);
    }
}

/* ---- along a member ------------------------------------------------------------------------------------------ */

static void sections_put_strip(drawing *d, kl_results *results, kl_index member, double y)
{
    const kl_model *model = kl_results_model(results);
    const kl_member *m = &model->members[member];
    const double unit = kl_show_factor(&model->display, KL_MEASURE_STATION);
    const double height = sections_strip_height(model, results, member);
    arena a = {0};
    elevation e;
    char text[LABEL_SIZE + 40];
    if (diagram_accepts(d, elevation_gather(&a, results, member, false, &e))) {
        const plot p = elevation_axes(
            d, &e, (label_box){0.0, y + 18.0, SECTIONS_WIDTH, height - 18.0}, 0.12, 0.0);
        elevation_concrete(&p, &e);
        elevation_centroid(&p, &e);
        for (kl_index i = 0; i < m->section_count && i < 100; i++) {
            plot_place(&p, m->sections[i].station / unit,
                       model->sections[m->sections[i].section].name);
        }
        snprintf(text, sizeof text, "along %.150s, heights %.3g times as large as lengths", m->name,
                 elevation_stretch(&p, &e));
        drawing_text(d, "strong", 24.0, y + 12.0, ANCHOR_START, text);
    }
    arena_free(&a);
}

void diagram_sections(drawing *d, kl_results *results, const selection *s)
{
    sections_page page = {0};
    const kl_status status = sections_lay_out(&page, results, s);
    drawing_start(d, SECTIONS_WIDTH, page.height, "Sections",
                  "Sections to scale with centroid, bars and ducts, and what they are worth.");
    if (!diagram_accepts(d, status)) {
        return;
    }
    if (page.places.count == 0) {
        diagram_absent(d, "no member reaches so far");
        return;
    }
    drawing_text(d, "strong", 8.0, 16.0, ANCHOR_START, "Sections");
    double y = 26.0;
    for (int i = 0; i < page.places.count; i++) {
        sections_put_row(d, &page, i, y);
        y += sections_row_height(&page, i);
    }
    for (int i = 0; i < page.strip_count; i++) {
        sections_put_strip(d, results, page.strips[i], y);
        y += sections_strip_height(page.model, results, page.strips[i]);
    }
    drawing_text(d, "small quiet", 24.0, y + 14.0, ANCHOR_START,
                 "Gross sections. Heights of bars and ducts are the model's; across the section it "
                 "has no places for them, and they are spread evenly over the concrete.");
    if (page.places.more) {
        drawing_text(d, "small quiet", 24.0, y + 30.0, ANCHOR_START,
                     "There are more sections: ask for a member.");
    }
}
