/* near_word.c - see near_word.h.
 * SPDX-License-Identifier: MIT */
#include "near_word.h"

#include <string.h>

#include "str.h"

enum { NEAR_BEGUN = 3, NEAR_STEM = 4 }; /* letters in common at least */

/* Words of textbooks and drawings, and the language's. Where a word has several, the context decides. */
static const struct {
    const char *word, *own;
} near_meanings[] = {
    {"E", "modulus"},          {"A", "area"},
    {"I", "inertia"},          {"density", "unit_weight"},
    {"selfweight", "weight"},  {"selfweight", "unit_weight"},
    {"self_weight", "weight"}, {"self_weight", "unit_weight"},
    {"fc", "strength"},        {"fci", "transfer_strength"},
    {"fpu", "ultimate"},       {"fpy", "yield"},
    {"fy", "yield"},           {"mu", "friction"},
    {"K", "wobble"},           {"slip", "seating"},
    {"draw_in", "seating"},    {"joint", "node"},
    {"beam", "member"},        {"element", "member"},
    {"shoring", "falsework"},  {"shores", "falsework"},
    {"clamped", "fixed"},      {"distributed", "uniform"},
    {"trapezoidal", "ramp"},   {"triangular", "ramp"},
    {"horizontal", "level"},   {"horizontally", "level"},
    {"projected", "level"},    {"perpendicular", "across"},
    {"vertical", "down"},
};

#define NEAR_HORIZONTAL                                                                            \
    "`level` counts it per length of the horizontal; as directions there are `left` and `right`"

/* Words of the language and of others where one word in its place is no answer. */
static const struct {
    const char *phrase, *word, *advice;
} near_advices[] = {
    {"section", "to",
     "a member that changes along its length says so in its block: `{ section root at start; "
     "section tip at end }`"},
    {"section", "depth",
     "a shape has it: `rectangle width 4 ft depth 5 ft`; a section by numbers has `to_top` and "
     "`to_bottom`"},
    {"uniform", "horizontal", NEAR_HORIZONTAL},
    {"ramp", "horizontal", NEAR_HORIZONTAL},
};

enum { NEAR_MEANINGS = sizeof near_meanings / sizeof near_meanings[0] };

typedef struct near_search {
    const char *text;
    size_t length;
    const char *meant, *alike, *begun, *stem;
    int least; /* letters apart that are too many */
    bool several_begun;
} near_search;

static near_search search_start(const char *text, size_t length)
{
    const int least = length < 4 ? 2 : length < 9 ? 3 : 4;
    return (near_search){.text = text, .length = length, .least = least};
}

static bool is_meant(const near_search *search, const char *word)
{
    for (size_t i = 0; i < NEAR_MEANINGS; i++) {
        if (strcmp(near_meanings[i].own, word) == 0 &&
            str_equal(near_meanings[i].word, search->text, search->length)) {
            return true;
        }
    }
    return false;
}

static void search_try(near_search *search, const char *word)
{
    const size_t other = strlen(word);
    const int far = str_distance(search->text, search->length, word, other);
    if (search->meant == NULL && is_meant(search, word)) {
        search->meant = word;
    }
    if (far < search->least && far < (int)other) {
        search->least = far;
        search->alike = word;
    }
    if (search->length >= NEAR_BEGUN && strncmp(word, search->text, search->length) == 0) {
        search->several_begun |= search->begun != NULL && strcmp(search->begun, word) != 0;
        search->begun = word;
    }
    const size_t stem = search->stem != NULL ? strlen(search->stem) : NEAR_STEM - 1;
    if (other > stem && other < search->length && strncmp(word, search->text, other) == 0) {
        search->stem = word;
    }
}

static const char *search_end(const near_search *search)
{
    return search->meant != NULL                             ? search->meant
           : search->alike != NULL                           ? search->alike
           : search->begun != NULL && !search->several_begun ? search->begun
                                                             : search->stem;
}

const char *near_word(grammar_context context, const char *text, size_t length)
{
    size_t count;
    const grammar_row *rows = grammar_rows_of(context, &count);
    near_search search = search_start(text, length);
    for (size_t i = 0; i < count; i++) {
        search_try(&search, rows[i].word);
    }
    return search_end(&search);
}

const char *near_word_anywhere(const char *text, size_t length)
{
    near_search search = search_start(text, length);
    for (size_t i = 0; i < grammar_count(); i++) {
        search_try(&search, grammar_at(i)->word);
    }
    search.meant = near_word_meaning(text, length); /* the first of several */
    return search_end(&search);
}

const char *near_word_meaning(const char *text, size_t length)
{
    for (size_t i = 0; i < NEAR_MEANINGS; i++) {
        if (str_equal(near_meanings[i].word, text, length)) {
            return near_meanings[i].own;
        }
    }
    return NULL;
}

const char *near_word_advice(const char *phrase, const char *text, size_t length)
{
    for (size_t i = 0; i < sizeof near_advices / sizeof near_advices[0]; i++) {
        if (strcmp(near_advices[i].phrase, phrase) == 0 &&
            str_equal(near_advices[i].word, text, length)) {
            return near_advices[i].advice;
        }
    }
    return NULL;
}
