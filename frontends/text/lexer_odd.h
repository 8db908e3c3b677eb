/* lexer_odd.h - characters that come with pasted text and stand for something the language writes otherwise.
 * SPDX-License-Identifier: MIT */
#ifndef KERNLINE_LEXER_ODD_H
#define KERNLINE_LEXER_ODD_H

#include <stdbool.h>
#include <stdint.h>

typedef struct lexer_odd {
    uint32_t code;
    const char *name;    /* of the diagnostic */
    const char *says;    /* what it is */
    const char *instead; /* what to write */
    char acts_as;        /* ' ' blank, '-' '*' '/' operators, '^' belongs to a unit, 0 nothing */
} lexer_odd;

/* The entry for the (valid) UTF-8 character at `text`, and its length in bytes; a character that is not in the
 * list has the entry "odd-character". */
const lexer_odd *lexer_odd_at(const char *text, int32_t *length);

#endif
