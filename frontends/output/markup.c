/* markup.c - see markup.h.
 * SPDX-License-Identifier: MIT */
#include "markup.h"

#include <stdbool.h>

#define MARKUP_MARK "\xEF\xBF\xBD" /* U+FFFD */

/* How many bytes follow the first of a character, and what the first contributes; -1: it begins none. */
static int markup_lead(unsigned char first, uint32_t *letter)
{
    if (first < 0x80) {
        *letter = first;
        return 0;
    }
    if (first >= 0xC2 && first < 0xE0) {
        *letter = first & 0x1FU;
        return 1;
    }
    if (first >= 0xE0 && first < 0xF0) {
        *letter = first & 0x0FU;
        return 2;
    }
    *letter = first & 0x07U;
    return first >= 0xF0 && first < 0xF5 ? 3 : -1;
}

/* Overlong forms, surrogates, what is beyond Unicode. */
static bool markup_is_wrong(uint32_t letter, int more)
{
    static const uint32_t least[] = {0, 0x80, 0x800, 0x10000};
    return letter < least[more] || letter > 0x10FFFFU || (letter >= 0xD800U && letter < 0xE000U);
}

uint32_t markup_next(const char **text)
{
    const unsigned char *at = (const unsigned char *)*text;
    uint32_t letter;
    const int more = markup_lead(*at, &letter);
    *text += *at != '\0';
    if (more < 0) {
        return MARKUP_WRONG;
    }
    for (int i = 1; i <= more; i++) {
        if ((at[i] & 0xC0U) != 0x80U) {
            return MARKUP_WRONG;
        }
        letter = letter << 6 | (at[i] & 0x3FU);
    }
    if (markup_is_wrong(letter, more)) {
        return MARKUP_WRONG;
    }
    *text += more;
    return letter;
}

static bool markup_turns(uint32_t code)
{
    return (code >= 0x202A && code <= 0x202E) || (code >= 0x2066 && code <= 0x2069);
}

/* The characters of XML 1.0, without the controls. */
static bool markup_holds(uint32_t code)
{
    return (code >= 0x20 && code < 0x7F) || (code >= 0xA0 && code < 0xD800) ||
           (code >= 0xE000 && code < 0xFFFE) || (code >= 0x10000 && code < 0x110000);
}

const char *markup_named(uint32_t letter)
{
    switch (letter) {
    case '<':
        return "&lt;";
    case '>':
        return "&gt;";
    case '&':
        return "&amp;";
    case '"':
        return "&quot;";
    case '\'':
        return "&#39;";
    default:
        return NULL;
    }
}

const char *markup_entity(const char *text, size_t *bytes)
{
    const char *end = text;
    const uint32_t letter = markup_next(&end);
    const bool shown = letter != MARKUP_WRONG && markup_holds(letter) && !markup_turns(letter);
    *bytes = (size_t)(end - text);
    return shown ? markup_named(letter) : MARKUP_MARK;
}
