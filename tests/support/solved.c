/* solved.c - see solved.h.
 * SPDX-License-Identifier: MIT */
#include "solved.h"

#include <string.h>

#include "bind.h"
#include "parser.h"

static void show_messages(const solved *s)
{
    for (kl_index i = 0; i < kl_diags_count(s->diags); i++) {
        const kl_diag *diag = kl_diags_get(s->diags, i);
        print_error("%s: %s (%s)\n", diag->name, diag->message, diag->hint ? diag->hint : "-");
    }
}

kl_status solved_read(solved *s, const char *text)
{
    text_document document;
    *s = (solved){.diags = kl_diags_create()};
    s->status =
        text_parse_text(&s->sources, "test", text, strlen(text), &s->memory, s->diags, &document);
    if (s->status == KL_OK) {
        s->status = bind_document(&document, s->diags, &s->model);
    }
    if (s->status == KL_OK) {
        s->status = kl_model_check(s->model);
    }
    return s->status;
}

kl_status solved_analyze(solved *s, const kl_settings *settings)
{
    s->status = kl_analyze(s->model, settings, s->diags, &s->results);
    return s->status;
}

static void need_well(const solved *s, const char *text)
{
    if (s->status != KL_OK) {
        print_error("%s\n", text);
        show_messages(s);
        fail_msg("%s", kl_status_text(s->status));
    }
}

void solved_read_well(solved *s, const char *text)
{
    (void)solved_read(s, text);
    need_well(s, text);
}

void solved_run(solved *s, const char *text, const kl_settings *settings)
{
    solved_read_well(s, text);
    (void)solved_analyze(s, settings);
    need_well(s, text);
}

void solved_open(solved *s, const char *text)
{
    solved_run(s, text, NULL);
}

void solved_close(solved *s)
{
    kl_results_destroy(s->results);
    kl_model_destroy(s->model);
    kl_diags_destroy(s->diags);
    arena_free(&s->memory);
    source_free(&s->sources);
}

const kl_diag *solved_message(const solved *s, const char *name)
{
    for (kl_index i = 0; i < kl_diags_count(s->diags); i++) {
        if (strcmp(kl_diags_get(s->diags, i)->name, name) == 0) {
            return kl_diags_get(s->diags, i);
        }
    }
    return NULL;
}

const char *solved_refused(solved *s, const char *text, kl_status status, const char *name)
{
    if (solved_read(s, text) == KL_OK) {
        (void)solved_analyze(s, NULL);
    }
    const kl_diag *diag = solved_message(s, name);
    if (s->status != status || !diag) {
        print_error("%s\nwanted %s (%s), got %s\n", text, name, kl_status_text(status),
                    kl_status_text(s->status));
        show_messages(s);
        fail();
    }
    return diag ? diag->message : "";
}

kl_index solved_index(const solved *s, kl_kind kind, const char *name)
{
    const kl_index found = kl_model_find(s->model, kind, name);
    if (found == KL_NONE) {
        fail_msg("there is no %s", name);
    }
    return found;
}

kl_state solved_after(const solved *s, const char *stage)
{
    return kl_state_step(kl_last_step(s->results, solved_index(s, KL_KIND_STAGE, stage)));
}

kl_state solved_under(const solved *s, const char *load_case)
{
    return kl_state_case(solved_index(s, KL_KIND_CASE, load_case));
}

kl_state solved_from(kl_state state, kl_cause_kind kind)
{
    return kl_state_of_cause(state, (kl_cause){kind, KL_NONE});
}

kl_state solved_from_case(const solved *s, kl_state state, const char *load_case)
{
    const kl_index i = solved_index(s, KL_KIND_CASE, load_case);
    return kl_state_of_cause(state, (kl_cause){KL_CAUSE_CASE, i});
}

static double ask(const solved *s,
                  kl_state state,
                  kl_part part,
                  kl_quantity quantity,
                  const char *member,
                  double x,
                  kl_side side)
{
    double value = 0.0;
    const kl_index m = solved_index(s, KL_KIND_MEMBER, member);
    assert_int_equal(kl_value_on_member(s->results, state, quantity, part, m, x, side, &value),
                     KL_OK);
    return value;
}

double solved_part(const solved *s,
                   kl_state state,
                   kl_part part,
                   kl_quantity quantity,
                   const char *member,
                   double x)
{
    return ask(s, state, part, quantity, member, x, KL_RIGHT);
}

double
solved_value(const solved *s, kl_state state, kl_quantity quantity, const char *member, double x)
{
    return ask(s, state, KL_TOTAL, quantity, member, x, KL_RIGHT);
}

double
solved_left(const solved *s, kl_state state, kl_quantity quantity, const char *member, double x)
{
    return ask(s, state, KL_TOTAL, quantity, member, x, KL_LEFT);
}

double solved_node(const solved *s, kl_state state, kl_quantity quantity, const char *node)
{
    double value = 0.0;
    const kl_index n = solved_index(s, KL_KIND_NODE, node);
    assert_int_equal(kl_node_movement(s->results, state, quantity, n, &value), KL_OK);
    return value;
}

double solved_reaction(const solved *s, kl_state state, const char *node, kl_direction direction)
{
    double value = 0.0;
    const kl_index n = solved_index(s, KL_KIND_NODE, node);
    assert_int_equal(kl_reaction(s->results, state, n, direction, &value), KL_OK);
    return value;
}

double solved_row(const solved *s, kl_state state, const char *falsework, kl_index row)
{
    kl_post_row out;
    const kl_index f = solved_index(s, KL_KIND_FALSEWORK, falsework);
    assert_int_equal(kl_row_state(s->results, state, f, row, &out), KL_OK);
    return out.force;
}

double solved_force(const solved *s, kl_state state, const char *tendon, double x)
{
    double value = 0.0;
    const kl_index t = solved_index(s, KL_KIND_TENDON, tendon);
    assert_int_equal(kl_tendon_force(s->results, state, t, x, KL_RIGHT, &value), KL_OK);
    return value;
}

kl_post_row solved_post(const solved *s, kl_state state, const char *falsework, kl_index row)
{
    kl_post_row out;
    assert_int_equal(
        kl_row_state(s->results, state, solved_index(s, KL_KIND_FALSEWORK, falsework), row, &out),
        KL_OK);
    return out;
}

double solved_length(const solved *s, const char *member)
{
    return kl_member_length(s->model, solved_index(s, KL_KIND_MEMBER, member));
}
