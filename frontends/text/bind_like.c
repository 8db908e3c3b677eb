/* bind_like.c - likeness: what a phrase takes over from others of its kind.
 * SPDX-License-Identifier: MIT */
#include <string.h>

#include "bind_context.h"

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
    if (other != NULL && other->state == BIND_FAILED) {
        b->bad = true;
        return KL_OK;
    }
    if (other != NULL) {
        check_same_word(b, symbol->phrase, other);
    }
    /* The chain is walked before anything is bound: it tells a circle. */
    bind_symbol *walk = other;
    while (!b->bad && walk != NULL) {
        if (walk == symbol || chain->count == BIND_MOST_LIKE) {
            bind_error(b, "like-circle", name->origin,
                       walk == symbol
                           ? "In the end %s is like itself."
                           : "What %s is like is like another, and so on, too many times.",
                       symbol->name.text);
            break;
        }
        chain->phrases[chain->count++] = walk->phrase;
        const text_name *next = liked_name(walk->phrase);
        walk = next == NULL ? NULL : bind_find_symbol(b, symbol->kind, next->text);
    }
    if (b->bad || other == NULL) {
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

const phrase *bind_chain_child(const bind_chain *chain, const char *word)
{
    for (kl_index i = 0; i < chain->count; i++) {
        const phrase *child = phrase_child(chain->phrases[i], word, NULL);
        if (child != NULL || phrase_has(chain->phrases[i], word)) {
            return child;
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
