/* bind_names.c - references, lists and sets, likeness, and the binder's messages.
 * SPDX-License-Identifier: MIT */
#include <math.h>
#include <stdarg.h>
#include <stdio.h>
#include <string.h>

#include "bind_context.h"
#include "str.h"

/* Sets within sets within sets: deeper than this is a slip. */
#define BIND_MOST_SETS 32

/* All lists together, sets spread out. */
#define BIND_MOST_LISTED 2000000

/* A name this far off, or farther than a third of its length, is no slip of the pen. */
#define BIND_LIKE_ENOUGH 3

/* ---- messages ---------------------------------------------------------------------------------------------- */

void bind_error(binder *b, const char *diag_name, kl_origin origin, const char *format, ...)
{
    char text[512];
    va_list arguments;
    va_start(arguments, format);
    (void)vsnprintf(text, sizeof text, format, arguments);
    va_end(arguments);
    b->bad = true;
    b->any_bad = true;
    kl_diags_add(b->diags, KL_ERROR, diag_name, origin, "%s", text);
}

void bind_hint(binder *b, const char *format, ...)
{
    char text[512];
    va_list arguments;
    va_start(arguments, format);
    (void)vsnprintf(text, sizeof text, format, arguments);
    va_end(arguments);
    kl_diags_hint(b->diags, "%s", text);
}

/* ---- going through the document ---------------------------------------------------------------------------- */

kl_status bind_settle(binder *b, bind_symbol *symbol, kl_index index, kl_status status)
{
    if (status != KL_OK && status != KL_BAD_MODEL && status != KL_TOO_LARGE) {
        return status;
    }
    b->bad = b->bad || status != KL_OK;
    b->any_bad = b->any_bad || b->bad;
    if (symbol != NULL) {
        symbol->state = b->bad ? BIND_FAILED : BIND_DONE;
        symbol->index = b->bad ? KL_NONE : index;
    }
    return KL_OK;
}

kl_status bind_each(binder *b, int kind, bind_function *function)
{
    bind_names *names = &b->names[kind];
    for (kl_index i = 0; i < names->count; i++) {
        if (names->symbols[i].state != BIND_WAITING) {
            continue;
        }
        b->bad = false;
        KL_TRY(function(b, &names->symbols[i]));
    }
    return KL_OK;
}

kl_status bind_each_phrase(binder *b, const char *word, bind_phrase_function *function)
{
    for (kl_index i = 0; i < b->document->phrase_count; i++) {
        const phrase *p = &b->document->phrases[i];
        if (strcmp(p->word, word) == 0) {
            b->bad = false;
            KL_TRY(function(b, p));
        }
    }
    return KL_OK;
}

static bool is_listed(const char *const *list, const char *mark)
{
    for (; *list != NULL; list++) {
        if (strcmp(*list, mark) == 0) {
            return true;
        }
    }
    return false;
}

/* A part that stands on the phrase's own line, as a phrase of its own. */
static const phrase *part_of_slot(binder *b, const text_slot *slot)
{
    phrase *part = arena_array(&b->scratch, 1, sizeof *part);
    text_slot *own = arena_array(&b->scratch, 1, sizeof *own);
    if (part == NULL || own == NULL) {
        return NULL;
    }
    *own = (text_slot){"", slot->value};
    part->word = slot->mark;
    part->word_origin = slot->value.origin;
    part->origin = slot->value.origin;
    part->slots = own;
    part->slot_count = slot->value.kind == VALUE_FLAG ? 0 : 1;
    part->close = KL_NOWHERE;
    return part;
}

kl_status bind_parts(
    binder *b, const phrase *p, const char *const *skip, const phrase ***parts, kl_index *count)
{
    const size_t most = (size_t)p->slot_count + (size_t)p->child_count;
    const phrase **found = arena_array(&b->scratch, most, sizeof *found);
    *count = 0;
    *parts = found;
    if (found == NULL) {
        return KL_NO_MEMORY;
    }
    for (kl_index i = 0; i < p->slot_count; i++) {
        if (p->slots[i].mark[0] == '\0' || is_listed(skip, p->slots[i].mark)) {
            continue;
        }
        const phrase *part = part_of_slot(b, &p->slots[i]);
        if (part == NULL) {
            return KL_NO_MEMORY;
        }
        found[(*count)++] = part;
    }
    for (kl_index i = 0; i < p->child_count; i++) {
        if (!is_listed(skip, p->children[i].word)) {
            found[(*count)++] = &p->children[i];
        }
    }
    return KL_OK;
}

/* ---- names ------------------------------------------------------------------------------------------------- */

const char *bind_kind_name(int kind)
{
    switch (kind) {
    case KL_KIND_MATERIAL:
        return "material";
    case KL_KIND_SECTION:
        return "section";
    case KL_KIND_NODE:
        return "node";
    case KL_KIND_MEMBER:
        return "member";
    case KL_KIND_TENDON:
        return "tendon";
    case KL_KIND_FALSEWORK:
        return "falsework";
    case KL_KIND_CASE:
        return "load case";
    case KL_KIND_STAGE:
        return "stage";
    case KL_KIND_COMBINATION:
        return "combination";
    case KL_KIND_CHECK:
        return "check";
    default:
        return "set";
    }
}

static bind_symbol *find_symbol(const binder *b, int kind, const char *name)
{
    const bind_names *names = &b->names[kind];
    const kl_index at = name_table_find(&names->table, name, strlen(name));
    return at == KL_NONE ? NULL : &names->symbols[at];
}

bool bind_is_declared(const binder *b, int kind, const char *name)
{
    return find_symbol(b, kind, name) != NULL;
}

/* The declared name of that kind that looks most like this one, or NULL. */
static const char *closest_name(const binder *b, int kind, const char *name)
{
    const bind_names *names = &b->names[kind];
    const size_t length = strlen(name);
    int least = BIND_LIKE_ENOUGH + 1;
    const char *closest = NULL;
    for (kl_index i = 0; i < names->count; i++) {
        const char *other = names->symbols[i].name.text;
        const int distance = str_distance(name, length, other, strlen(other));
        if (distance < least) {
            least = distance;
            closest = other;
        }
    }
    return 3 * least <= (int)length + 1 ? closest : NULL;
}

static void suggest_name(binder *b, int kind, const char *name)
{
    if (b->suggestions_left <= 0) {
        return;
    }
    b->suggestions_left--;
    const char *closest = closest_name(b, kind, name);
    if (closest != NULL) {
        bind_hint(b, "did you mean `%s`?", closest);
    } else if (b->names[kind].count == 0) {
        bind_hint(b, "the model declares no %s", bind_kind_name(kind));
    }
}

/* Something else may have that name; then say what it is. */
static void unknown_name(binder *b, int kind, const text_name *name)
{
    for (int other = 0; other < BIND_KIND_COUNT; other++) {
        if (other != kind && bind_is_declared(b, other, name->text)) {
            bind_error(b, "unknown-name", name->origin, "There is no %s named %s; that is a %s.",
                       bind_kind_name(kind), name->text, bind_kind_name(other));
            suggest_name(b, kind, name->text);
            return;
        }
    }
    bind_error(b, "unknown-name", name->origin, "There is no %s named %s.", bind_kind_name(kind),
               name->text);
    suggest_name(b, kind, name->text);
}

bind_symbol *bind_symbol_of(binder *b, int kind, const text_name *name)
{
    bind_symbol *symbol = find_symbol(b, kind, name->text);
    if (symbol == NULL) {
        unknown_name(b, kind, name);
    }
    return symbol;
}

/* What the thing itself has reported is no second error. */
static kl_index index_of(binder *b, const bind_symbol *symbol)
{
    if (symbol == NULL || symbol->state != BIND_DONE) {
        b->bad = true;
        return KL_NONE;
    }
    return symbol->index;
}

kl_index bind_reference(binder *b, int kind, const text_name *name)
{
    return index_of(b, bind_symbol_of(b, kind, name));
}

kl_index bind_mark_reference(binder *b, int kind, const phrase *p, const char *mark)
{
    const text_value *value = phrase_value(p, mark);
    return value == NULL || value->count < 1 ? KL_NONE : bind_reference(b, kind, &value->names[0]);
}

/* ---- lists and sets ---------------------------------------------------------------------------------------- */

typedef struct bind_spread {
    int kind;
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
    const kl_index index = index_of(b, symbol);
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

/* `asked`: the name the user wrote in the list; NULL at the top, where it is each name itself. */
static kl_status spread_names(
    binder *b, bind_spread *spread, const text_value *value, int depth, const text_name *asked)
{
    for (kl_index i = 0; i < value->count && !spread->stop; i++) {
        const text_name *name = &value->names[i];
        const text_name *blame = asked != NULL ? asked : name;
        bind_symbol *thing = find_symbol(b, spread->kind, name->text);
        bind_symbol *set = find_symbol(b, BIND_SET, name->text);
        if (thing != NULL && set != NULL && set->state != BIND_BUSY) {
            bind_error(b, "set-or-thing", blame->origin,
                       "%s is a %s and a set; it is not clear which is meant.", name->text,
                       bind_kind_name(spread->kind));
            spread->stop = true;
        } else if (thing != NULL) {
            KL_TRY(spread_thing(b, spread, thing, blame));
        } else if (set != NULL) {
            KL_TRY(spread_set(b, spread, set, depth, blame));
        } else if (asked != NULL) {
            bind_error(b, "set-of-others", asked->origin, "Set %s has %s in it, which is not a %s.",
                       asked->text, name->text, bind_kind_name(spread->kind));
            spread->stop = true;
        } else {
            unknown_name(b, spread->kind, name);
        }
    }
    return KL_OK;
}

kl_status bind_list(binder *b, int kind, const text_value *value, kl_list *list)
{
    *list = (kl_list){NULL, 0};
    if (value == NULL) {
        return KL_OK;
    }
    bind_spread spread = {.kind = kind, .room = value->count < 1 ? 1 : value->count};
    spread.items = arena_array(&b->scratch, (size_t)spread.room, sizeof *spread.items);
    if (spread.items == NULL) {
        return KL_NO_MEMORY;
    }
    b->stamp++;
    KL_TRY(spread_names(b, &spread, value, 0, NULL));
    *list = (kl_list){spread.items, spread.count};
    return KL_OK;
}

/* ---- likeness ---------------------------------------------------------------------------------------------- */

static const text_name *liked_name(const phrase *p)
{
    const text_value *value = phrase_value(p, "like");
    return value != NULL && value->count > 0 ? &value->names[0] : NULL;
}

static void check_same_word(binder *b, const phrase *p, const bind_symbol *other)
{
    if (strcmp(p->word, other->phrase->word) != 0) {
        bind_error(b, "like-another-kind", liked_name(p)->origin,
                   "A %s cannot be like %s, which is a %s.", p->word, other->name.text,
                   other->phrase->word);
    }
}

kl_status
bind_follow_like(binder *b, bind_symbol *symbol, bind_function *function, bind_chain *chain)
{
    chain->phrases[0] = symbol->phrase;
    chain->count = 1;
    const text_name *name = liked_name(symbol->phrase);
    if (name == NULL) {
        return KL_OK;
    }
    bind_symbol *other = bind_symbol_of(b, symbol->kind, name);
    if (other != NULL) {
        check_same_word(b, symbol->phrase, other);
    }
    /* The chain is walked before anything is bound: it tells a circle. */
    bind_symbol *walk = other;
    while (!b->bad && walk != NULL) {
        if (walk == symbol || chain->count == BIND_MOST_LIKE) {
            bind_error(b, "like-circle", name->origin,
                       walk == symbol ? "%s is like itself in the end."
                                      : "%s is like another that is like another, too many times.",
                       symbol->name.text);
            break;
        }
        chain->phrases[chain->count++] = walk->phrase;
        const text_name *next = liked_name(walk->phrase);
        walk = next == NULL ? NULL : find_symbol(b, symbol->kind, next->text);
    }
    if (b->bad) {
        return KL_OK;
    }
    if (other->state == BIND_WAITING) {
        symbol->state = BIND_BUSY;
        KL_TRY(function(b, other));
        symbol->state = BIND_WAITING;
        b->bad = false;
    }
    b->bad = other->state != BIND_DONE;
    return KL_OK;
}

const phrase *bind_chain_with(const bind_chain *chain, const char *mark)
{
    for (kl_index i = 0; i < chain->count; i++) {
        const phrase *p = chain->phrases[i];
        if (phrase_has(p, mark) || phrase_child(p, mark, NULL) != NULL) {
            return p;
        }
    }
    return NULL;
}

const text_value *bind_chain_value(const bind_chain *chain, const char *mark)
{
    for (kl_index i = 0; i < chain->count; i++) {
        const text_value *value = phrase_value(chain->phrases[i], mark);
        if (value != NULL) {
            return value;
        }
    }
    return NULL;
}

double bind_chain_number(const bind_chain *chain, const char *mark, double otherwise)
{
    const text_value *value = bind_chain_value(chain, mark);
    return value != NULL && value->quantities != NULL ? value->quantities[0].value : otherwise;
}

const text_name *bind_chain_name(const bind_chain *chain, const char *mark)
{
    const text_value *value = bind_chain_value(chain, mark);
    return value != NULL && value->count > 0 && value->names != NULL ? &value->names[0] : NULL;
}

double bind_chain_child_number(const bind_chain *chain,
                               const char *word,
                               const char *mark,
                               double otherwise)
{
    for (kl_index i = 0; i < chain->count; i++) {
        const phrase *child = phrase_child(chain->phrases[i], word, NULL);
        if (child != NULL && phrase_has(child, mark)) {
            return phrase_number(child, mark, otherwise);
        }
    }
    return otherwise;
}
