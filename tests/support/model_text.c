/* model_text.c - see model_text.h.
 * SPDX-License-Identifier: MIT */
#include "model_text.h"

#include <stdio.h>
#include <stdlib.h>
#include <string.h>

#include "bind.h"
#include "parser.h"

/* ---- drafts ------------------------------------------------------------------------------------------------ */

void draft_add(text_draft *draft, const char *format, ...)
{
    va_list arguments;
    va_start(arguments, format);
    char piece[4000];
    const int length = vsnprintf(piece, sizeof piece, format, arguments);
    va_end(arguments);
    assert_in_range(length, 0, sizeof piece - 1);
    if (draft->length + (size_t)length + 1 > draft->room) {
        draft->room = 2 * draft->room + (size_t)length + 1;
        draft->text = realloc(draft->text, draft->room);
        assert_non_null(draft->text);
    }
    memcpy(draft->text + draft->length, piece, (size_t)length + 1);
    draft->length += (size_t)length;
}

void draft_free(text_draft *draft)
{
    free(draft->text);
    *draft = (text_draft){0};
}

/* ---- from text to results ---------------------------------------------------------------------------------- */

static kl_status read_model(model_text *m, const char *text)
{
    *m = (model_text){0};
    m->diags = kl_diags_create();
    if (!m->diags) {
        return KL_NO_MEMORY;
    }
    text_document document = {0};
    KL_TRY(
        text_parse_text(&m->sources, "test", text, strlen(text), &m->memory, m->diags, &document));
    KL_TRY(bind_document(&document, m->diags, &m->model));
    return kl_model_check(m->model);
}

kl_status model_text_try(model_text *m, const char *text, const kl_settings *settings)
{
    KL_TRY(read_model(m, text));
    return kl_analyze(m->model, settings, m->diags, &m->results);
}

static void assert_went_well(model_text *m, const char *text, kl_status status)
{
    if (status == KL_OK) {
        return;
    }
    print_error("%s\n%s\n", text, kl_status_text(status));
    for (kl_index i = 0; m->diags && i < kl_diags_count(m->diags); i++) {
        const kl_diag *diag = kl_diags_get(m->diags, i);
        print_error("%s: %s (%s)\n", diag->name, diag->message, diag->hint ? diag->hint : "-");
    }
    model_text_free(m);
    fail();
}

void model_text_run(model_text *m, const char *text, const kl_settings *settings)
{
    assert_went_well(m, text, model_text_try(m, text, settings));
}

void model_text_read(model_text *m, const char *text)
{
    assert_went_well(m, text, read_model(m, text));
}

void model_text_free(model_text *m)
{
    kl_results_destroy(m->results);
    kl_model_destroy(m->model);
    kl_diags_destroy(m->diags);
    arena_free(&m->memory);
    source_free(&m->sources);
    *m = (model_text){0};
}

/* ---- questions --------------------------------------------------------------------------------------------- */

static kl_index find(const model_text *m, kl_kind kind, const char *name)
{
    const kl_index found = kl_model_find(m->model, kind, name);
    if (found == KL_NONE) {
        print_error("nothing is called %s\n", name);
        fail();
    }
    return found;
}

kl_state after_stage(const model_text *m, const char *stage)
{
    return kl_state_step(kl_last_step(m->results, find(m, KL_KIND_STAGE, stage)));
}

kl_state under_case(const model_text *m, const char *name)
{
    return kl_state_case(find(m, KL_KIND_CASE, name));
}

double length_of(const model_text *m, const char *member)
{
    return kl_member_length(m->model, find(m, KL_KIND_MEMBER, member));
}

double on_member(const model_text *m,
                 kl_state state,
                 kl_quantity quantity,
                 kl_part part,
                 const char *member,
                 double station)
{
    double value = 0.0;
    assert_int_equal(kl_value_on_member(m->results, state, quantity, part,
                                        find(m, KL_KIND_MEMBER, member), station, KL_RIGHT, &value),
                     KL_OK);
    return value;
}

double at_node(const model_text *m, kl_state state, kl_quantity quantity, const char *node)
{
    double value = 0.0;
    assert_int_equal(
        kl_node_movement(m->results, state, quantity, find(m, KL_KIND_NODE, node), &value), KL_OK);
    return value;
}

double reaction_at(const model_text *m, kl_state state, kl_direction direction, const char *node)
{
    double value = 0.0;
    assert_int_equal(kl_reaction(m->results, state, find(m, KL_KIND_NODE, node), direction, &value),
                     KL_OK);
    return value;
}

kl_post_row row_of(const model_text *m, kl_state state, const char *falsework, kl_index row)
{
    kl_post_row out;
    assert_int_equal(
        kl_row_state(m->results, state, find(m, KL_KIND_FALSEWORK, falsework), row, &out), KL_OK);
    return out;
}

double rows_total(const model_text *m, kl_state state, const char *falsework)
{
    const kl_index count = m->model->falsework[find(m, KL_KIND_FALSEWORK, falsework)].row_count;
    double total = 0.0;
    for (kl_index i = 0; i < count; i++) {
        const kl_post_row row = row_of(m, state, falsework, i);
        total += row.stands ? row.force : 0.0;
    }
    return total;
}
