/* bind_falsework.c - rows of posts under a member.
 * SPDX-License-Identifier: MIT */
#include <math.h>

#include "bind_context.h"

/* The nearest phrase of the chain that says where the rows are: a list, or from … to … every. */
static const phrase *rows_in(const bind_chain *chain)
{
    for (kl_index i = 0; i < chain->count; i++) {
        const phrase *p = chain->phrases[i];
        if (phrase_has(p, "at") || phrase_has(p, "from") || phrase_has(p, "to") ||
            phrase_has(p, "every")) {
            return p;
        }
    }
    return NULL;
}

static kl_status take_rows(binder *b, const bind_chain *chain, kl_falsework *falsework)
{
    const bind_line line = bind_line_of_member(b, &falsework->member);
    const phrase *p = rows_in(chain);
    const text_value *at = p == NULL ? NULL : phrase_value(p, "at");
    if (p == NULL) {
        return KL_OK; /* the builder misses the rows */
    }
    if (at == NULL) {
        return bind_every(b, &line, p, &falsework->stations, &falsework->row_count);
    }
    if (!bind_count_rows(b, falsework->origin, at->count)) {
        return KL_OK;
    }
    double *stations = arena_array(&b->scratch, (size_t)at->count, sizeof *stations);
    if (stations == NULL) {
        return KL_NO_MEMORY;
    }
    for (kl_index i = 0; i < at->count; i++) {
        bind_note_measure(b, &line, &at->quantities[i]);
        stations[i] = bind_length(b, &line, &at->quantities[i]);
    }
    falsework->stations = stations;
    falsework->row_count = at->count;
    return KL_OK;
}

static kl_index posts_of(const bind_chain *chain)
{
    const text_value *posts = bind_chain_value(chain, "posts");
    if (posts == NULL) {
        return 1;
    }
    return posts->integer > 1000000 ? 1000000 : (kl_index)posts->integer;
}

static void take_stringer(binder *b, const bind_chain *chain, kl_falsework *falsework)
{
    const text_name *section = bind_chain_name(chain, "stringer");
    falsework->stringer_section = KL_NONE;
    falsework->stringer_material = KL_NONE;
    if (section == NULL) {
        return;
    }
    falsework->stringer_section = bind_reference(b, KL_KIND_SECTION, section);
    const phrase *stringer = bind_chain_child(chain, "stringer");
    if (stringer != NULL) {
        falsework->stringer_material = bind_mark_reference(b, KL_KIND_MATERIAL, stringer, "of");
    }
}

static kl_index member_of(binder *b, const bind_chain *chain, const char *mark)
{
    const text_name *name = bind_chain_name(chain, mark);
    return name == NULL ? KL_NONE : bind_reference(b, KL_KIND_MEMBER, name);
}

static kl_status bind_falsework(binder *b, bind_symbol *symbol)
{
    bind_chain chain;
    KL_TRY(bind_follow_like(b, symbol, bind_falsework, &chain));
    if (b->bad) {
        return bind_settle(b, symbol, KL_NONE, KL_BAD_MODEL);
    }
    kl_falsework falsework = {
        .name = symbol->name.text,
        .origin = symbol->phrase->origin,
        .member = member_of(b, &chain, "under"),
        .posts = posts_of(&chain),
        .stiffness = bind_chain_number(&chain, "stiffness", NAN),
        .takeup = bind_chain_number(&chain, "takeup", 0.0),
        .capacity = bind_chain_number(&chain, "capacity", NAN),
        .carrier = member_of(b, &chain, "on"),
    };
    take_stringer(b, &chain, &falsework);
    if (falsework.member != KL_NONE) {
        KL_TRY(take_rows(b, &chain, &falsework));
    }
    kl_index added = KL_NONE;
    const kl_status status =
        b->bad ? KL_BAD_MODEL : kl_model_add_falsework(b->model, &falsework, &added);
    return bind_settle(b, symbol, added, status);
}

kl_status bind_falseworks(binder *b)
{
    return bind_each(b, KL_KIND_FALSEWORK, bind_falsework);
}
