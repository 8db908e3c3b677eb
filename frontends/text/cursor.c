/* cursor.c - see cursor.h.
 * SPDX-License-Identifier: MIT */
#include "cursor.h"

#include <stdio.h>
#include <string.h>

#include "str.h"

void cursor_start(text_cursor *cursor,
                  const text_sources *sources,
                  int32_t file,
                  const lexer_tokens *tokens,
                  kl_diags *diags)
{
    *cursor = (text_cursor){.text = source_at(sources, file)->text,
                            .file = file,
                            .tokens = tokens->items,
                            .at = cursor_skip_unseen(tokens->items, 0),
                            .diags = diags};
}

const token *cursor_ahead(const text_cursor *cursor, size_t steps)
{
    size_t at = cursor->at;
    for (; steps > 0; steps--) {
        at = cursor_after(cursor, at);
    }
    return &cursor->tokens[at];
}

const token *cursor_last(const text_cursor *cursor)
{
    size_t at = cursor->at;
    while (at > 0) {
        at--;
        const unsigned kind = cursor->tokens[at].kind;
        if (kind != TOKEN_COMMENT && kind != TOKEN_CONTINUED) {
            break;
        }
    }
    return &cursor->tokens[at];
}

bool token_is_word(const text_cursor *cursor, const token *t, const char *word)
{
    return t->kind == TOKEN_WORD && str_equal(word, cursor_text(cursor, t), token_length(t));
}

bool cursor_is_word(const text_cursor *cursor, const char *word)
{
    return token_is_word(cursor, cursor_peek(cursor), word);
}

bool cursor_is_end(const text_cursor *cursor)
{
    const unsigned kind = cursor_peek(cursor)->kind;
    return kind == TOKEN_NEWLINE || kind == TOKEN_SEMICOLON || kind == TOKEN_OPEN ||
           kind == TOKEN_CLOSE || kind == TOKEN_END;
}

kl_origin cursor_span(const text_cursor *cursor, const token *first, const token *last)
{
    return (kl_origin){cursor->file, first->begin, last->end > first->end ? last->end : first->end};
}

const char *cursor_describe(const text_cursor *cursor, char *text, size_t size)
{
    const token *t = cursor_peek(cursor);
    if (t->kind == TOKEN_NEWLINE) {
        snprintf(text, size, "the end of the line");
    } else if (t->kind == TOKEN_END) {
        snprintf(text, size, "the end of the file");
    } else {
        const int length = token_length(t) > 40 ? 40 : (int)token_length(t);
        snprintf(text, size, "`%.*s`", length, cursor_text(cursor, t));
    }
    return text;
}
