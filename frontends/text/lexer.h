/* lexer.h - a file as tokens.
 *
 * A number carries its unit in the same token, so that `in` is a unit exactly when a number stands before it.
 * What cannot be read is told here and marked `bad`; the parser then does not complain a second time. Comments
 * and line ends that do not end a phrase (after a comma, inside parentheses) are kept for the formatter.
 * SPDX-License-Identifier: MIT */
#ifndef KERNLINE_LEXER_H
#define KERNLINE_LEXER_H

#include "kernline/units.h"
#include "source.h"

#define LEXER_NAME_LENGTH   64
#define LEXER_STRING_LENGTH 400

typedef enum token_kind {
    TOKEN_WORD,
    TOKEN_NUMBER,
    TOKEN_STRING, /* begin and end are the quotation marks' */
    TOKEN_OPEN,   /* { */
    TOKEN_CLOSE,  /* } */
    TOKEN_LEFT,   /* ( */
    TOKEN_RIGHT,  /* ) */
    TOKEN_COMMA,
    TOKEN_SEMICOLON,
    TOKEN_PLUS,
    TOKEN_MINUS,
    TOKEN_TIMES,
    TOKEN_DIVIDE,
    TOKEN_POWER,
    TOKEN_EQUALS,
    TOKEN_PERCENT, /* alone, as a unit of `show` */
    TOKEN_NEWLINE,
    TOKEN_CONTINUED, /* a line end that ends no phrase */
    TOKEN_COMMENT,
    TOKEN_END
} token_kind;

typedef struct token {
    double value;       /* NUMBER: as written, without its unit */
    int32_t begin, end; /* bytes of the file */
    int32_t number_end; /* NUMBER: end of the digits; the unit, if any, is at unit_begin … end-1 */
    int32_t unit_begin; /* NUMBER: 0: no unit */
    unsigned char kind; /* token_kind */
    bool is_integer;    /* NUMBER: digits only, without a unit */
    bool bad;           /* told already */
} token;

typedef struct lexer_tokens {
    token *items; /* the last is TOKEN_END */
    size_t count, capacity;
} lexer_tokens;

/* Read all tokens of a file. Mistakes go to diags and reading goes on. @return KL_OK (even with mistakes),
 * KL_NO_MEMORY. Free with lexer_free in every case. */
kl_status
lexer_read(const text_sources *sources, int32_t file, kl_diags *diags, lexer_tokens *tokens);
void lexer_free(lexer_tokens *tokens);

#endif
