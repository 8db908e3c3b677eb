/* grammar.c - reading the table: rows by number, by context and word; reserved words; lists of choices.
 * SPDX-License-Identifier: MIT */
#include "grammar.h"

#include <string.h>

#include "grammar_rows.h"
#include "str.h"

enum { GRAMMAR_PARTS = 8 };

static grammar_part part_at(size_t i)
{
    switch (i) {
    case 0:
        return grammar_top_part();
    case 1:
        return grammar_material_part();
    case 2:
        return grammar_section_part();
    case 3:
        return grammar_frame_part();
    case 4:
        return grammar_tendon_part();
    case 5:
        return grammar_load_part();
    case 6:
        return grammar_stage_part();
    default:
        return grammar_check_part();
    }
}

size_t grammar_own_count(const grammar_row *row)
{
    size_t count = 0;
    while (count < GRAMMAR_VALUES && row->own[count].kinds != 0) {
        count++;
    }
    return count;
}

size_t grammar_count(void)
{
    size_t count = 0;
    for (size_t i = 0; i < GRAMMAR_PARTS; i++) {
        count += part_at(i).count;
    }
    return count;
}

const grammar_row *grammar_at(size_t i)
{
    for (size_t k = 0; k < GRAMMAR_PARTS; k++) {
        const grammar_part part = part_at(k);
        if (i < part.count) {
            return &part.rows[i];
        }
        i -= part.count;
    }
    return NULL;
}

const grammar_row *grammar_rows_of(grammar_context context, size_t *count)
{
    *count = 0;
    const grammar_row *first = NULL;
    for (size_t k = 0; k < GRAMMAR_PARTS && first == NULL; k++) {
        const grammar_part part = part_at(k);
        for (size_t i = 0; i < part.count; i++) {
            const bool is_ours = part.rows[i].context == context;
            if (!is_ours && first != NULL) {
                break;
            }
            if (is_ours) {
                first = first == NULL ? &part.rows[i] : first;
                (*count)++;
            }
        }
    }
    return first;
}

const grammar_row *grammar_find(grammar_context context, const char *word, size_t length)
{
    size_t count;
    const grammar_row *rows = grammar_rows_of(context, &count);
    for (size_t i = 0; i < count; i++) {
        if (str_equal(rows[i].word, word, length)) {
            return &rows[i];
        }
    }
    return NULL;
}

/* ---- the index --------------------------------------------------------------------------------------- */

static size_t slot_of(grammar_context context, const char *word, size_t length)
{
    size_t hash = (size_t)context;
    if (length > 0) {
        hash = hash * 37 + (unsigned char)word[0];
        hash = hash * 37 + (unsigned char)word[length / 2];
        hash = hash * 37 + (unsigned char)word[length - 1];
    }
    return (hash * 37 + length) % GRAMMAR_SLOTS;
}

void grammar_index_make(grammar_index *index)
{
    *index = (grammar_index){0};
    for (size_t k = 0; k < GRAMMAR_PARTS; k++) {
        const grammar_part part = part_at(k);
        for (size_t i = 0; i < part.count; i++) {
            const grammar_row *row = &part.rows[i];
            grammar_rows *rows = &index->rows[row->context];
            rows->first = rows->count == 0 ? row : rows->first;
            rows->count++;
            size_t at = slot_of(row->context, row->word, strlen(row->word));
            while (index->slots[at] != NULL) {
                at = (at + 1) % GRAMMAR_SLOTS;
            }
            index->slots[at] = row;
        }
    }
}

const grammar_row *grammar_index_find(const grammar_index *index,
                                      grammar_context context,
                                      const char *word,
                                      size_t length)
{
    size_t at = slot_of(context, word, length);
    for (; index->slots[at] != NULL; at = (at + 1) % GRAMMAR_SLOTS) {
        if (index->slots[at]->context == context &&
            str_equal(index->slots[at]->word, word, length)) {
            return index->slots[at];
        }
    }
    return NULL;
}

bool grammar_is_inline(const grammar_row *row)
{
    const bool is_simple = row->inner == IN_NOTHING && (row->flags & GRAMMAR_MANY) == 0;
    return is_simple || (row->flags & GRAMMAR_INLINE) != 0;
}

const char *grammar_context_name(grammar_context context)
{
    static const char *const names[GRAMMAR_CONTEXT_COUNT] = {
#define GRAMMAR_CONTEXT_NAME(id, name) name,
        GRAMMAR_CONTEXT_LIST(GRAMMAR_CONTEXT_NAME)
#undef GRAMMAR_CONTEXT_NAME
    };
    return names[context];
}

static bool is_in(const char *const *words, size_t count, const char *word, size_t length)
{
    for (size_t i = 0; i < count; i++) {
        if (str_equal(words[i], word, length)) {
            return true;
        }
    }
    return false;
}

#define IS_IN(words, word, length)                                                                 \
    is_in((words), sizeof(words) / sizeof((words)[0]), (word), (length))

bool grammar_is_reserved(const char *word, size_t length)
{
    static const char *const words[] = {
        "at",     "from",   "to",    "on",    "of",   "in",  "under",  "after",
        "during", "within", "every", "times", "then", "per", "source", "let",
        "like",   "square", "level", "start", "mid",  "end", "length",
    };
    return IS_IN(words, word, length);
}

bool grammar_is_cause(const char *word, size_t length)
{
    static const char *const words[] = {
        "weight",     "prestress", "creep",       "shrinkage",
        "relaxation", "losses",    "temperature", "movement",
    };
    return IS_IN(words, word, length);
}

bool grammar_is_function(const char *word, size_t length)
{
    static const char *const words[] = {"sqrt", "abs", "min", "max", "sin", "cos", "tan", "atan"};
    return IS_IN(words, word, length);
}

bool grammar_choice_at(const char *choices, size_t i, grammar_choice *choice)
{
    const char *start = choices;
    for (; i > 0; i--) {
        start = strchr(start, '|');
        if (start == NULL) {
            return false;
        }
        start++;
    }
    choice->later = *start == '~';
    choice->text = start + (choice->later ? 1 : 0);
    choice->length = strcspn(choice->text, "|");
    return true;
}
