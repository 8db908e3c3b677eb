/* markup.c - see markup.h.
 * SPDX-License-Identifier: MIT */
#include "markup.h"

#include <stdbool.h>

#include "utf8.h"

#define MARKUP_MARK "\xEF\xBF\xBD" /* U+FFFD */

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
    const uint32_t letter = utf8_next(&end);
    const bool shown = letter != UTF8_WRONG && !utf8_is_unseen(letter);
    *bytes = (size_t)(end - text);
    return shown ? markup_named(letter) : MARKUP_MARK;
}
