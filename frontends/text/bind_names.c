/* bind_names.c - references to what the model declares, and the binder's messages.
 * SPDX-License-Identifier: MIT */
#include <math.h>
#include <stdarg.h>
#include <stdio.h>
#include <string.h>

#include "bind_context.h"
#include "complain.h"
#include "str.h"

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
    b->hushed = complain_is_full(b->diags);
    if (b->hushed) {
        b->untold++;
        return;
    }
    kl_diags_add(b->diags, KL_ERROR, diag_name, origin, "%s", text);
}

void bind_hint(binder *b, const char *format, ...)
{
    char text[512];
    va_list arguments;
    va_start(arguments, format);
    (void)vsnprintf(text, sizeof text, format, arguments);
    va_end(arguments);
    if (!b->hushed) {
        kl_diags_hint(b->diags, "%s", text);
    }
}

/* ---- values ----------------------------------------------------------------------------------------------- */

double bind_own_number(const phrase *p, kl_index i)
{
    const text_value *value = phrase_own(p, i);
    if (value == NULL || value->quantities == NULL) {
        return NAN;
    }
    return value->quantities[0].value;
}

bool bind_count_rows(binder *b, kl_origin origin, kl_index more)
{
    const bool was_told = b->rows > BIND_MOST_ROWS;
    if (!was_told) {
        b->rows += more < BIND_MOST_ROWS ? more : BIND_MOST_ROWS;
    }
    if (b->rows <= BIND_MOST_ROWS) {
        return true;
    }
    b->bad = true;
    if (!was_told) {
        bind_error(b, "too-many-rows", origin,
                   "The model has more than %d rows, points and loads, repetitions spread out.",
                   BIND_MOST_ROWS);
    }
    return false;
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
        if (strcmp(p->word, word) != 0) {
            continue;
        }
        b->bad = false;
        KL_TRY(function(b, p));
    }
    return KL_OK;
}

static bool is_listed(const char *const *list, const char *mark)
{
    for (; *list != NULL; list++) {
        if (str_same(*list, mark)) {
            return true;
        }
    }
    return false;
}

/* A part that stands on the phrase's own line, as a phrase of its own. */
static kl_status part_of_slot(binder *b, const text_slot *slot, phrase *part)
{
    text_slot *own = arena_array(&b->scratch, 1, sizeof *own);
    if (own == NULL) {
        return KL_NO_MEMORY;
    }
    *own = (text_slot){"", slot->value};
    *part = (phrase){
        .word = slot->mark,
        .word_origin = slot->value.origin,
        .origin = slot->value.origin,
        .slots = own,
        .slot_count = slot->value.kind == VALUE_FLAG ? 0 : 1,
        .close = KL_NOWHERE,
    };
    return KL_OK;
}

kl_status bind_parts(
    binder *b, const phrase *p, const char *const *skip, const phrase **parts, kl_index *count)
{
    const size_t most = (size_t)p->slot_count + (size_t)p->child_count;
    phrase *found = arena_array(&b->scratch, most, sizeof *found);
    *count = 0;
    *parts = found;
    if (found == NULL) {
        return KL_NO_MEMORY;
    }
    for (kl_index i = 0; i < p->slot_count; i++) {
        const text_slot *slot = &p->slots[i];
        if (slot->mark[0] == '\0' || is_listed(skip, slot->mark)) {
            continue;
        }
        KL_TRY(part_of_slot(b, slot, &found[(*count)++]));
    }
    for (kl_index i = 0; i < p->child_count; i++) {
        if (!is_listed(skip, p->children[i].word)) {
            found[(*count)++] = p->children[i];
        }
    }
    return KL_OK;
}

/* ---- names ------------------------------------------------------------------------------------------------- */

const char *bind_kind_name(int kind)
{
    return kind == BIND_SET ? "set" : kl_kind_name((kl_kind)kind);
}

bind_symbol *bind_find_symbol(const binder *b, int kind, const char *name)
{
    const bind_names *names = &b->names[kind];
    const kl_index at = name_table_find(&names->table, name, strlen(name));
    return at == KL_NONE ? NULL : &names->symbols[at];
}

bool bind_is_declared(const binder *b, int kind, const char *name)
{
    return bind_find_symbol(b, kind, name) != NULL;
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

/* @return whether a hint was found */
static bool suggest_name(binder *b, int kind, const char *name)
{
    if (b->suggestions_left <= 0) {
        return false;
    }
    b->suggestions_left--;
    const char *closest = closest_name(b, kind, name);
    if (closest != NULL) {
        bind_hint(b, "did you mean `%s`?", closest);
        return true;
    }
    if (b->names[kind].count == 0) {
        bind_hint(b, "the model declares no %s", bind_kind_name(kind));
        return true;
    }
    return false;
}

/* Something else may have that name; then say what it is. */
bool bind_unknown_name(binder *b, int kind, const text_name *name)
{
    for (int other = 0; other < BIND_KIND_COUNT; other++) {
        if (other != kind && bind_is_declared(b, other, name->text)) {
            bind_error(b, "unknown-name", name->origin, "There is no %s named %s; that is a %s.",
                       bind_kind_name(kind), name->text, bind_kind_name(other));
            return suggest_name(b, kind, name->text);
        }
    }
    bind_error(b, "unknown-name", name->origin, "There is no %s named %s.", bind_kind_name(kind),
               name->text);
    return suggest_name(b, kind, name->text);
}

bind_symbol *bind_symbol_of(binder *b, int kind, const text_name *name)
{
    bind_symbol *symbol = bind_find_symbol(b, kind, name->text);
    if (symbol == NULL) {
        bind_unknown_name(b, kind, name);
    }
    return symbol;
}

/* What the thing itself has reported is no second error. */
kl_index bind_index_of(binder *b, const bind_symbol *symbol)
{
    if (symbol == NULL || symbol->state != BIND_DONE) {
        b->bad = true;
        return KL_NONE;
    }
    return symbol->index;
}

kl_index bind_reference(binder *b, int kind, const text_name *name)
{
    return bind_index_of(b, bind_symbol_of(b, kind, name));
}

kl_index bind_mark_reference(binder *b, int kind, const phrase *p, const char *mark)
{
    const text_value *value = phrase_value(p, mark);
    return value == NULL || value->count < 1 ? KL_NONE : bind_reference(b, kind, &value->names[0]);
}
