/* cursor.h - a place in the tokens of a file, as the parser moves along. Comments are passed over.
 * SPDX-License-Identifier: MIT */
#ifndef KERNLINE_CURSOR_H
#define KERNLINE_CURSOR_H

#include "lexer.h"

typedef struct text_cursor {
    const char *text;
    int32_t file;
    const token *tokens;
    size_t at;       /* index of the token that is next; never a comment */
    kl_diags *diags; /* NULL: try silently */
} text_cursor;

void cursor_start(text_cursor *cursor,
                  const text_sources *sources,
                  int32_t file,
                  const lexer_tokens *tokens,
                  kl_diags *diags);

const token *cursor_peek(const text_cursor *cursor);
const token *cursor_ahead(const text_cursor *cursor,
                          size_t steps); /* 0: the next token; stops at the end */
const token *
cursor_take(text_cursor *cursor); /* the next token, and go past it (never past the end) */
const token *cursor_last(const text_cursor *cursor); /* the token taken last, or the first */

bool cursor_is(const text_cursor *cursor, token_kind kind);
bool cursor_is_word(const text_cursor *cursor, const char *word);
/* Does the phrase end here: line end, `;`, `}`, `{` or the end of the file? */
bool cursor_is_end(const text_cursor *cursor);

kl_origin cursor_origin(const text_cursor *cursor, const token *t);
kl_origin cursor_span(const text_cursor *cursor, const token *first, const token *last);
const char *cursor_text(const text_cursor *cursor,
                        const token *t); /* not zero-ended: token_length bytes */
size_t token_length(const token *t);
bool token_is_word(const text_cursor *cursor, const token *t, const char *word);

/* What a message calls the next token: "`at`", "the end of the line". Writes into text. */
const char *cursor_describe(const text_cursor *cursor, char *text, size_t size);

#endif
