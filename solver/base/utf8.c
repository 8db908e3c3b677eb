/* utf8.c - see utf8.h.
 * SPDX-License-Identifier: MIT */
#include "utf8.h"

#include <stddef.h>
#include <stdio.h>

/* How many bytes follow the first of a letter, and what the first contributes; -1: it begins none. */
static int utf8_lead(unsigned char first, uint32_t *letter)
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
static bool utf8_is_wrong(uint32_t letter, int more)
{
    static const uint32_t least[] = {0, 0x80, 0x800, 0x10000};
    return letter < least[more] || letter > 0x10FFFFU || (letter >= 0xD800U && letter < 0xE000U);
}

uint32_t utf8_next(const char **text)
{
    const unsigned char *at = (const unsigned char *)*text;
    uint32_t letter;
    const int more = utf8_lead(*at, &letter);
    *text += *at != '\0';
    if (more < 0) {
        return UTF8_WRONG;
    }
    for (int i = 1; i <= more; i++) {
        if ((at[i] & 0xC0U) != 0x80U) {
            return UTF8_WRONG;
        }
        letter = letter << 6 | (at[i] & 0x3FU);
    }
    if (utf8_is_wrong(letter, more)) {
        return UTF8_WRONG;
    }
    *text += more;
    return letter;
}

bool utf8_is_unseen(uint32_t letter)
{
    static const uint32_t ranges[][2] = {
        {0x00, 0x1F},     {0x7F, 0x9F},     {0xAD, 0xAD},     {0x61C, 0x61C},
        {0x180E, 0x180E}, {0x200B, 0x200F}, {0x2028, 0x202E}, {0x2060, 0x206F},
        {0xFEFF, 0xFEFF}, {0xFFF9, 0xFFFB}, {0xFFFE, 0xFFFF}, {0xE0000, 0xE0FFF},
    };
    for (size_t i = 0; i < sizeof ranges / sizeof ranges[0] && letter >= ranges[i][0]; i++) {
        if (letter <= ranges[i][1]) {
            return true;
        }
    }
    return false;
}

void utf8_write(uint32_t letter, char text[UTF8_ROOM])
{
    static const unsigned char lead[] = {0x00, 0x00, 0xC0, 0xE0, 0xF0};
    const int bytes = letter < 0x80U ? 1 : letter < 0x800U ? 2 : letter < 0x10000U ? 3 : 4;
    for (int i = bytes - 1; i > 0; i--) {
        text[i] = (char)(0x80U | (letter & 0x3FU));
        letter >>= 6;
    }
    text[0] = (char)(lead[bytes] | letter);
    text[bytes] = '\0';
}

void utf8_show(uint32_t letter, char text[UTF8_ROOM])
{
    if (letter < 0x20U || letter == 0x7FU) {
        utf8_write(letter == 0x7FU ? 0x2421U : 0x2400U + letter, text);
    } else if (utf8_is_unseen(letter)) {
        snprintf(text, UTF8_ROOM, "\xE2\x9F\xA8U+%04X\xE2\x9F\xA9", (unsigned)letter);
    } else {
        utf8_write(letter, text);
    }
}
