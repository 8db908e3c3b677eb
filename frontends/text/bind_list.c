/* bind_list.c - lists of names, with sets spread out.
 * SPDX-License-Identifier: MIT */
#include <string.h>

#include "bind_context.h"
#include "near_word.h"

/* Sets within sets within sets: deeper than this is a slip. */
#define BIND_MOST_SETS 32

/* All lists together, sets spread out. */
#define BIND_MOST_LISTED 2000000

typedef struct bind_spread {
    int kind;
    const grammar_row *row; /* of the phrase, or NULL */
    kl_index *items;
    kl_index count, room;
    bool stop; /* one message a list is enough, and keeps sets of sets from multiplying */
} bind_spread;

static kl_status spread_names(
    binder *b, bind_spread *spread, const text_value *value, int depth, const text_name *asked);

/* Lists grow by doubling in the arena, and all of them together have a limit: sets may be named often. */
static kl_status spread_add(binder *b, bind_spread *spread, kl_index index, const text_name *asked)
{
    if (++b->listed > BIND_MOST_LISTED) {
        bind_error(b, "too-many-names", asked->origin,
                   "The lists and sets of the model name more than %d things in all.",
                   BIND_MOST_LISTED);
        spread->stop = true;
        return KL_OK;
    }
    if (spread->count == spread->room) {
        const kl_index room = 2 * spread->room;
        kl_index *items = arena_array(&b->scratch, (size_t)room, sizeof *items);
        if (items == NULL) {
            return KL_NO_MEMORY;
        }
        memcpy(items, spread->items, (size_t)spread->count * sizeof *items);
        spread->items = items;
        spread->room = room;
    }
    spread->items[spread->count++] = index;
    return KL_OK;
}

static kl_status
spread_thing(binder *b, bind_spread *spread, bind_symbol *symbol, const text_name *asked)
{
    if (symbol->stamp == b->stamp) {
        bind_error(b, "named-twice", asked->origin, "The %s %s is named twice in this list.",
                   bind_kind_name(spread->kind), symbol->name.text);
        spread->stop = true;
        return KL_OK;
    }
    symbol->stamp = b->stamp;
    const kl_index index = bind_index_of(b, symbol);
    return index == KL_NONE ? KL_OK : spread_add(b, spread, index, asked);
}

static kl_status
spread_set(binder *b, bind_spread *spread, bind_symbol *set, int depth, const text_name *asked)
{
    if (set->state == BIND_FAILED) {
        b->bad = true;
        return KL_OK;
    }
    if (set->state == BIND_BUSY || depth >= BIND_MOST_SETS) {
        bind_error(b, "set-circle", asked->origin,
                   set->state == BIND_BUSY ? "Set %s contains itself."
                                           : "Set %s is a set in a set in too many sets.",
                   set->name.text);
        spread->stop = true;
        return KL_OK;
    }
    set->state = BIND_BUSY;
    const text_value *value = phrase_own(set->phrase, 1);
    const kl_status status =
        value == NULL ? KL_OK : spread_names(b, spread, value, depth + 1, asked);
    set->state = BIND_DONE;
    return status;
}

/* `uniform 1 klf on rafter horizontal`: what goes on with the load was taken for one more member. */
static void suggest_mark(binder *b, const bind_spread *spread, const text_name *name)
{
    const grammar_row *row = spread->row;
    if (row == NULL || row->inner == IN_NOTHING || spread->count == 0) {
        return;
    }
    const size_t length = strlen(name->text);
    const char *advice = near_word_advice(row->word, name->text, length);
    const char *mark = near_word(row->inner, name->text, length);
    if (advice != NULL) {
        bind_hint(b, "%s", advice);
    } else if (mark != NULL) {
        bind_hint(b, "did you mean the word `%s`?", mark);
    }
}

/* A name that is no thing of the kind and no set. */
static void
tell_stranger(binder *b, bind_spread *spread, const text_name *name, const text_name *asked)
{
    if (asked == NULL) {
        if (!bind_unknown_name(b, spread->kind, name)) {
            suggest_mark(b, spread, name);
        }
        return;
    }
    bind_error(b, "set-of-others", asked->origin, "Set %s has %s in it, which is not a %s.",
               asked->text, name->text, bind_kind_name(spread->kind));
    spread->stop = true;
}

static kl_status
spread_one(binder *b, bind_spread *spread, const text_name *name, int depth, const text_name *asked)
{
    const text_name *blame = asked != NULL ? asked : name;
    bind_symbol *thing = bind_find_symbol(b, spread->kind, name->text);
    bind_symbol *set = bind_find_symbol(b, BIND_SET, name->text);
    if ((thing != NULL && thing->state == BIND_FAILED) ||
        (set != NULL && set->state == BIND_FAILED)) {
        b->bad = true;
        return KL_OK;
    }
    if (thing != NULL && set != NULL && set->state != BIND_BUSY) {
        bind_error(b, "set-or-thing", blame->origin,
                   "`%s` is a %s and a set; it is not clear which is meant.", name->text,
                   bind_kind_name(spread->kind));
        spread->stop = true;
        return KL_OK;
    }
    if (thing != NULL) {
        return spread_thing(b, spread, thing, blame);
    }
    if (set != NULL) {
        return spread_set(b, spread, set, depth, blame);
    }
    tell_stranger(b, spread, name, asked);
    return KL_OK;
}

/* `asked`: the name the user wrote in the list; NULL at the top, where it is each name itself. */
static kl_status spread_names(
    binder *b, bind_spread *spread, const text_value *value, int depth, const text_name *asked)
{
    for (kl_index i = 0; i < value->count && !spread->stop; i++) {
        KL_TRY(spread_one(b, spread, &value->names[i], depth, asked));
    }
    return KL_OK;
}

kl_status
bind_list(binder *b, int kind, const grammar_row *row, const text_value *value, kl_list *list)
{
    *list = (kl_list){NULL, 0};
    if (value == NULL) {
        return KL_OK;
    }
    bind_spread spread = {.kind = kind, .row = row, .room = value->count < 1 ? 1 : value->count};
    spread.items = arena_array(&b->scratch, (size_t)spread.room, sizeof *spread.items);
    if (spread.items == NULL) {
        return KL_NO_MEMORY;
    }
    b->stamp++;
    KL_TRY(spread_names(b, &spread, value, 0, NULL));
    *list = (kl_list){spread.items, spread.count};
    return KL_OK;
}
