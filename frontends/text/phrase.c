/* phrase.c - see phrase.h.
 * SPDX-License-Identifier: MIT */
#include "phrase.h"
#include "str.h"

#include <string.h>

const text_value *phrase_value(const phrase *p, const char *mark)
{
    for (kl_index i = 0; i < p->slot_count; i++) {
        if (str_same(p->slots[i].mark, mark)) {
            return &p->slots[i].value;
        }
    }
    return NULL;
}

const text_value *phrase_own(const phrase *p, kl_index i)
{
    for (kl_index k = 0; k < p->slot_count; k++) {
        if (p->slots[k].mark[0] == '\0' && i-- == 0) {
            return &p->slots[k].value;
        }
    }
    return NULL;
}

bool phrase_has(const phrase *p, const char *mark)
{
    return phrase_value(p, mark) != NULL;
}

double phrase_number(const phrase *p, const char *mark, double otherwise)
{
    const text_value *value = phrase_value(p, mark);
    if (value == NULL) {
        return otherwise;
    }
    if (value->kind == VALUE_INTEGER) {
        return (double)value->integer;
    }
    const bool has_number = value->kind == VALUE_QUANTITY || value->kind == VALUE_QUANTITIES;
    return has_number ? value->quantities[0].value : otherwise;
}

const char *phrase_name(const phrase *p, const char *mark)
{
    const text_value *value = phrase_value(p, mark);
    const bool has_name =
        value != NULL &&
        (value->kind == VALUE_NAME || value->kind == VALUE_NAMES || value->kind == VALUE_CHOICE);
    return has_name ? value->names[0].text : NULL;
}

const phrase *phrase_child(const phrase *p, const char *word, const phrase *after)
{
    const kl_index first = after == NULL ? 0 : (kl_index)(after - p->children) + 1;
    for (kl_index i = first; i < p->child_count; i++) {
        if (str_same(p->children[i].word, word)) {
            return &p->children[i];
        }
    }
    return NULL;
}
