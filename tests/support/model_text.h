/* model_text.h - tests that write a model as text, analyse it, and ask for results by name.
 *
 * Whatever goes wrong on the way fails the test and shows the messages; so do names that do not exist.
 * SPDX-License-Identifier: MIT */
#ifndef KERNLINE_MODEL_TEXT_H
#define KERNLINE_MODEL_TEXT_H

#include "arena.h"
#include "assert_close.h"
#include "kernline/kernline.h"
#include "source.h"

/* A text that grows. */
typedef struct text_draft {
    char *text;
    size_t length, room;
} text_draft;

/* Append, as printf does. */
void draft_add(text_draft *draft, const char *format, ...) KL_PRINTF(2, 3);
void draft_free(text_draft *draft);

typedef struct model_text {
    text_sources sources;
    arena memory;
    kl_diags *diags;
    kl_model *model;
    kl_results *results; /* NULL: not analysed */
} model_text;

/* Read, check and analyse a model; settings NULL: the defaults. */
void model_text_run(model_text *m, const char *text, const kl_settings *settings);
/* Read and check only. */
void model_text_read(model_text *m, const char *text);
/* The same without failing the test: the first status that is not KL_OK. What was made is kept for model_text_free. */
kl_status model_text_try(model_text *m, const char *text, const kl_settings *settings);
void model_text_free(model_text *m);

/* States by name. */
kl_state after_stage(const model_text *m, const char *stage);
kl_state under_case(const model_text *m, const char *name);

double length_of(const model_text *m, const char *member);
double on_member(const model_text *m,
                 kl_state state,
                 kl_quantity quantity,
                 kl_part part,
                 const char *member,
                 double station);
double at_node(const model_text *m, kl_state state, kl_quantity quantity, const char *node);
double reaction_at(const model_text *m, kl_state state, kl_direction direction, const char *node);
kl_post_row row_of(const model_text *m, kl_state state, const char *falsework, kl_index row);
/* All rows of a falsework that stand, N. */
double rows_total(const model_text *m, kl_state state, const char *falsework);

#endif
