/* markup.c - see markup.h.
 * SPDX-License-Identifier: MIT */
#include "markup.h"

#include <stdbool.h>
#include <stdint.h>

#define MARKUP_MARK "\xEF\xBF\xBD" /* U+FFFD */

/* The character at `text` and its bytes; what is no UTF-8 is one byte and no character (0). */
static uint32_t markup_decode(const unsigned char *text, size_t *bytes)
{
    static const uint32_t least[] = {0, 0, 0x80, 0x800, 0x10000};
    const unsigned char lead = text[0];
    *bytes = 1;
    if (lead < 0x80) {
        return lead;
    }
    const size_t length = lead < 0xC0 ? 0 : lead < 0xE0 ? 2 : lead < 0xF0 ? 3 : lead < 0xF8 ? 4 : 0;
    uint32_t code = lead & (0x7FU >> length);
    for (size_t i = 1; i < length; i++) {
        if ((text[i] & 0xC0U) != 0x80U) {
            return 0;
        }
        code = code << 6 | (text[i] & 0x3FU);
    }
    if (length == 0 || code < least[length]) {
        return 0;
    }
    *bytes = length;
    return code;
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

const char *markup_entity(const char *text, size_t *bytes)
{
    const uint32_t code = markup_decode((const unsigned char *)text, bytes);
    switch (code) {
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
        return markup_holds(code) && !markup_turns(code) ? NULL : MARKUP_MARK;
    }
}
