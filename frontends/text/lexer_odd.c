/* lexer_odd.c - see lexer_odd.h.
 * SPDX-License-Identifier: MIT */
#include "lexer_odd.h"

#include <stddef.h>

#include "utf8.h"

static const lexer_odd odd_characters[] = {
    {0x00A0, "no-break-space", "a no-break space", "a plain space", ' '},
    {0x202F, "no-break-space", "a narrow no-break space", "a plain space", ' '},
    {0x2007, "no-break-space", "a figure space", "a plain space", ' '},
    {0x2002, "no-break-space", "an en space", "a plain space", ' '},
    {0x2003, "no-break-space", "an em space", "a plain space", ' '},
    {0x2009, "no-break-space", "a thin space", "a plain space", ' '},
    {0x200A, "no-break-space", "a hair space", "a plain space", ' '},
    {0x200B, "no-break-space", "an invisible zero-width space", "nothing", ' '},
    {0xFEFF, "no-break-space", "an invisible byte order mark", "nothing", ' '},
    {0x3000, "no-break-space", "a wide space", "a plain space", ' '},
    {0x2212, "typographic-minus", "a typographic minus", "`-`", '-'},
    {0x2010, "typographic-minus", "a typographic hyphen", "`-`", '-'},
    {0x2011, "typographic-minus", "a no-break hyphen", "`-`", '-'},
    {0x2013, "typographic-minus", "a dash", "`-`", '-'},
    {0x2014, "typographic-minus", "a long dash", "`-`", '-'},
    {0x00D7, "typographic-operator", "a multiplication cross", "`*`", '*'},
    {0x00B7, "typographic-operator", "a raised dot", "`*`, or `-` in a moment: `kip-ft`", '*'},
    {0x22C5, "typographic-operator", "a raised dot", "`*`, or `-` in a moment: `kip-ft`", '*'},
    {0x00F7, "typographic-operator", "a division sign", "`/`", '/'},
    {0x2044, "typographic-operator", "a fraction slash", "`/`", '/'},
    {0x00B2, "superscript", "a superscript 2", "`^2`", '^'},
    {0x00B3, "superscript", "a superscript 3", "`^3`", '^'},
    {0x2074, "superscript", "a superscript 4", "`^4`", '^'},
    {0x00B0, "degree-sign", "a degree sign", "`deg`, `degF` or `degC`", '^'},
    {0x2032, "feet-inches-marks", "a prime", "`ft`", '^'},
    {0x2033, "feet-inches-marks", "a double prime", "`in`", '^'},
    {0x00BC, "fraction-character", "a fraction in one character", "`1/4`", '^'},
    {0x00BD, "fraction-character", "a fraction in one character", "`1/2`", '^'},
    {0x00BE, "fraction-character", "a fraction in one character", "`3/4`", '^'},
    {0x201C, "curly-quote", "a curly quotation mark", "`\"`", 0},
    {0x201D, "curly-quote", "a curly quotation mark", "`\"`", 0},
    {0x201E, "curly-quote", "a low quotation mark", "`\"`", 0},
    {0x2018, "curly-quote", "a curly apostrophe", "`ft` or `in` for feet and inches", '^'},
    {0x2019, "curly-quote", "a curly apostrophe", "`ft` or `in` for feet and inches", '^'},
};

static const lexer_odd odd_other = {0, "odd-character", NULL, NULL, 0};

const lexer_odd *lexer_odd_at(const char *text, int32_t *length)
{
    const char *end = text;
    const uint32_t code = utf8_next(&end);
    *length = (int32_t)(end - text);
    for (size_t i = 0; i < sizeof odd_characters / sizeof odd_characters[0]; i++) {
        if (odd_characters[i].code == code) {
            return &odd_characters[i];
        }
    }
    return &odd_other;
}
