/* bind_section.c - cross sections: shapes, outlines, bare numbers, reinforcement.
 *
 * With `like` the nearest shape written counts, as a whole, with its voids.
 * SPDX-License-Identifier: MIT */
#include <math.h>
#include <string.h>

#include "bind_context.h"

typedef struct shape_word {
    const char *word;
    kl_shape shape;
} shape_word;

static const shape_word shapes[] = {
    {"rectangle", KL_RECTANGLE},
    {"circle", KL_CIRCLE},
    {"pipe", KL_PIPE},
    {"tee", KL_TEE},
    {"box", KL_BOX},
    {"outline", KL_OUTLINE},
};

/* The words of a section given by numbers; `shear_area` may stand with a shape. */
static const char *const bare_words[] = {"area", "inertia", "to_top", "to_bottom", "width"};

static bool says(const phrase *p, const char *word)
{
    return phrase_has(p, word) || phrase_child(p, word, NULL) != NULL;
}

static const shape_word *shape_in(const phrase *p)
{
    for (size_t i = 0; i < sizeof shapes / sizeof shapes[0]; i++) {
        if (says(p, shapes[i].word)) {
            return &shapes[i];
        }
    }
    return NULL;
}

static bool is_bare(const phrase *p)
{
    for (size_t i = 0; i < sizeof bare_words / sizeof bare_words[0]; i++) {
        if (phrase_has(p, bare_words[i])) {
            return true;
        }
    }
    return false;
}

/* Which part of the chain the shape comes from: phrases 0 … depth. */
typedef struct shape_found {
    const shape_word *word; /* NULL: bare */
    kl_index depth;         /* index of the phrase that says it; -1: none does */
} shape_found;

static shape_found find_shape(binder *b, const bind_chain *chain)
{
    for (kl_index i = 0; i < chain->count; i++) {
        const phrase *p = chain->phrases[i];
        const shape_word *word = shape_in(p);
        const bool bare = is_bare(p);
        if (word != NULL && bare) {
            bind_error(b, "shape-and-numbers", p->origin,
                       "A section has a shape, such as `%s`, or is given by numbers; not both.",
                       word->word);
        }
        if (word != NULL || bare) {
            return (shape_found){word, i};
        }
    }
    bind_error(b, "no-shape", chain->phrases[0]->origin,
               "The section has neither a shape nor an area.");
    bind_hint(b, "write a shape, as in `rectangle width 4 ft depth 5 ft`, or `area` and `inertia`");
    return (shape_found){NULL, -1};
}

/* ---- sizes ------------------------------------------------------------------------------------------------- */

typedef struct size_word {
    const char *word;
    size_t offset;
} size_word;

static const size_word sizes[] = {
    {"width", offsetof(kl_section, width)},
    {"depth", offsetof(kl_section, depth)},
    {"diameter", offsetof(kl_section, diameter)},
    {"thickness", offsetof(kl_section, thickness)},
    {"flange_thickness", offsetof(kl_section, flange_thickness)},
    {"web_width", offsetof(kl_section, web_width)},
    {"top_slab", offsetof(kl_section, top_slab)},
    {"bottom_slab", offsetof(kl_section, bottom_slab)},
    {"overhang", offsetof(kl_section, overhang)},
    {"overhang_edge", offsetof(kl_section, overhang_edge)},
};

static double *size_of(kl_section *section, const size_word *word)
{
    return (double *)(void *)((char *)section + word->offset);
}

/* `shape` is NULL for a bare section and for an outline. */
static void take_sizes(kl_section *section, const phrase *shape)
{
    for (size_t i = 0; i < sizeof sizes / sizeof sizes[0]; i++) {
        *size_of(section, &sizes[i]) =
            shape == NULL ? (double)NAN : phrase_number(shape, sizes[i].word, NAN);
    }
    if (section->shape != KL_BOX || shape == NULL) {
        return;
    }
    section->overhang = isnan(section->overhang) ? 0.0 : section->overhang;
    const text_value *cells = phrase_value(shape, "cells");
    section->cells = 1;
    if (cells != NULL) { /* so many fit in no box; section_check says so */
        section->cells = cells->integer > 10000 ? 10000 : (kl_index)cells->integer;
    }
}

/* Numbers of a bare section; `shear_area` for all. */
static void take_numbers(kl_section *section, const bind_chain *chain)
{
    const bool bare = section->shape == KL_BARE;
    section->area = NAN;
    section->inertia = NAN;
    section->to_top = NAN;
    section->to_bottom = NAN;
    if (bare) {
        section->area = bind_chain_number(chain, "area", NAN);
        section->inertia = bind_chain_number(chain, "inertia", NAN);
        section->to_top = bind_chain_number(chain, "to_top", NAN);
        section->to_bottom = bind_chain_number(chain, "to_bottom", NAN);
        section->width = bind_chain_number(chain, "width", NAN);
    }
    section->shear_area = bind_chain_number(chain, "shear_area", NAN);
    section->turned = bind_chain_number(chain, "turned", 0.0);
    section->volume_to_surface = bind_chain_number(chain, "volume_to_surface", NAN);
    const text_name *line = bind_chain_name(chain, "line");
    if (line != NULL && strcmp(line->text, "top") == 0) {
        section->line = KL_LINE_TOP;
    } else if (line != NULL && strcmp(line->text, "bottom") == 0) {
        section->line = KL_LINE_BOTTOM;
    }
    const text_name *shear = bind_chain_name(chain, "shear");
    section->shear_flexible = shear != NULL && strcmp(shear->text, "flexible") == 0;
}

/* ---- outlines ---------------------------------------------------------------------------------------------- */

static kl_status take_points(binder *b, const text_value *value, kl_polygon *polygon)
{
    if (!bind_count_rows(b, value->origin, value->count)) {
        return KL_OK;
    }
    kl_point *points = arena_array(&b->scratch, (size_t)value->count, sizeof *points);
    if (points == NULL) {
        return KL_NO_MEMORY;
    }
    for (kl_index i = 0; i < value->count; i++) {
        points[i] = (kl_point){value->points[i].x.value, value->points[i].y.value};
    }
    *polygon = (kl_polygon){points, value->count};
    return KL_OK;
}

static const char *const not_voids[] = {
    "like",      "rectangle",         "circle", "pipe",    "tee",
    "box",       "outline",           "area",   "inertia", "to_top",
    "to_bottom", "shear_area",        "width",  "line",    "shear",
    "turned",    "volume_to_surface", "rebar",  NULL};

static kl_status take_void_list(binder *b, kl_section *section, const phrase *parts, kl_index count)
{
    kl_polygon *voids = arena_array(&b->scratch, (size_t)count, sizeof *voids);
    if (voids == NULL) {
        return KL_NO_MEMORY;
    }
    for (kl_index k = 0; k < count; k++) {
        KL_TRY(take_points(b, phrase_own(&parts[k], 0), &voids[k]));
    }
    section->voids = voids;
    section->void_count = count;
    return KL_OK;
}

/* The voids belong to their outline: those of phrases 0 … depth count, the nearest phrase that has some. */
static kl_status take_voids(binder *b, kl_section *section, const bind_chain *chain, kl_index depth)
{
    const phrase *parts = NULL;
    kl_index count = 0;
    if (section->shape != KL_OUTLINE) {
        KL_TRY(bind_parts(b, chain->phrases[0], not_voids, &parts, &count));
        if (count > 0) {
            bind_error(b, "void-without-outline", parts[0].origin,
                       "A `void` is a hole in an `outline`; this section has another shape.");
        }
        return KL_OK;
    }
    for (kl_index i = 0; i <= depth && count == 0; i++) {
        KL_TRY(bind_parts(b, chain->phrases[i], not_voids, &parts, &count));
    }
    return count == 0 ? KL_OK : take_void_list(b, section, parts, count);
}

/* ---- reinforcement ----------------------------------------------------------------------------------------- */

static kl_status take_rebar(binder *b, kl_section *section, const bind_chain *chain)
{
    const phrase *p = NULL;
    for (kl_index i = 0; i < chain->count && p == NULL; i++) {
        p = phrase_child(chain->phrases[i], "rebar", NULL) != NULL ? chain->phrases[i] : NULL;
    }
    if (p == NULL) {
        return KL_OK;
    }
    kl_rebar_layer *layers = arena_array(&b->scratch, (size_t)p->child_count, sizeof *layers);
    if (layers == NULL) {
        return KL_NO_MEMORY;
    }
    const phrase *rebar = NULL;
    while ((rebar = phrase_child(p, "rebar", rebar)) != NULL) {
        layers[section->rebar_count++] = (kl_rebar_layer){
            .count = bind_own_number(rebar, 0),
            .bar_area = phrase_number(rebar, "area", NAN),
            .depth = phrase_number(rebar, "depth", NAN),
            .material = bind_mark_reference(b, KL_KIND_MATERIAL, rebar, "of"),
            .origin = rebar->origin,
        };
    }
    section->rebar = layers;
    return KL_OK;
}

/* ---- the section ------------------------------------------------------------------------------------------- */

static kl_status bind_section(binder *b, bind_symbol *symbol)
{
    bind_chain chain;
    KL_TRY(bind_follow_like(b, symbol, bind_section, &chain));
    const shape_found found = b->bad ? (shape_found){NULL, -1} : find_shape(b, &chain);
    if (b->bad) {
        return bind_settle(b, symbol, KL_NONE, KL_BAD_MODEL);
    }
    kl_section section = {
        .shape = found.word == NULL ? KL_BARE : found.word->shape,
        .name = symbol->name.text,
        .origin = symbol->phrase->origin,
    };
    take_sizes(&section, found.word == NULL ? NULL : bind_chain_child(&chain, found.word->word));
    take_numbers(&section, &chain);
    if (section.shape == KL_OUTLINE) {
        KL_TRY(take_points(b, bind_chain_value(&chain, "outline"), &section.outline));
    }
    KL_TRY(take_voids(b, &section, &chain, found.depth));
    KL_TRY(take_rebar(b, &section, &chain));
    if (b->bad) {
        return bind_settle(b, symbol, KL_NONE, KL_BAD_MODEL);
    }
    kl_index added = KL_NONE;
    const kl_status status = kl_model_add_section(b->model, &section, &added);
    return bind_settle(b, symbol, added, status);
}

kl_status bind_sections(binder *b)
{
    return bind_each(b, KL_KIND_SECTION, bind_section);
}
