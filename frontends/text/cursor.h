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

static inline const token *cursor_peek(const text_cursor *cursor)
{
    return &cursor->tokens[cursor->at];
}

const token *cursor_ahead(const text_cursor *cursor,
                          size_t steps); /* 0: the next token; stops at the end */
/* Comments and continued line ends are passed over. */
static inline size_t cursor_skip_unseen(const token *tokens, size_t at)
{
    while (tokens[at].kind == TOKEN_COMMENT || tokens[at].kind == TOKEN_CONTINUED) {
        at++;
    }
    return at;
}

static inline size_t cursor_after(const text_cursor *cursor, size_t at)
{
    return cursor->tokens[at].kind == TOKEN_END ? at : cursor_skip_unseen(cursor->tokens, at + 1);
}

/* The next token, and go past it (never past the end). */
static inline const token *cursor_take(text_cursor *cursor)
{
    const token *taken = cursor_peek(cursor);
    cursor->at = cursor_after(cursor, cursor->at);
    return taken;
}

const token *cursor_last(const text_cursor *cursor); /* the token taken last, or the first */

static inline bool cursor_is(const text_cursor *cursor, token_kind kind)
{
    return cursor_peek(cursor)->kind == (unsigned char)kind;
}

bool cursor_is_word(const text_cursor *cursor, const char *word);
/* Does the phrase end here: line end, `;`, `}`, `{` or the end of the file? */
bool cursor_is_end(const text_cursor *cursor);

static inline kl_origin cursor_origin(const text_cursor *cursor, const token *t)
{
    return (kl_origin){cursor->file, t->begin, t->end};
}

kl_origin cursor_span(const text_cursor *cursor, const token *first, const token *last);
/* Not zero-ended: token_length bytes. */
static inline const char *cursor_text(const text_cursor *cursor, const token *t)
{
    return cursor->text + t->begin;
}

static inline size_t token_length(const token *t)
{
    return (size_t)(t->end - t->begin);
}

bool token_is_word(const text_cursor *cursor, const token *t, const char *word);

/* What a message calls the next token: "`at`", "the end of the line". Writes into text. */
const char *cursor_describe(const text_cursor *cursor, char *text, size_t size);

#endif
