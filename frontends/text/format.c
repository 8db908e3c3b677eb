/* format.c - see format.h. Tokens become lines of text in a buffer; then words and comments of neighbouring lines are
 * aligned, and the lines are written out.
 * SPDX-License-Identifier: MIT */
#include "format.h"

#include <string.h>

#include "complain.h"
#include "format_line.h"
#include "lexer.h"
#include "mem.h"
#include "parser.h"

typedef struct layout {
    const text_sources *sources;
    int32_t file;
    kl_diags *diags;
    const char *text;
    const token *tokens;
    size_t at;
    int depth;
    int newlines;    /* line ends since the last thing that was laid out */
    bool after_open; /* nothing but line ends since a `{` */
    format_lines lines;
} layout;

static token_kind kind_of(const layout *l, size_t at)
{
    return (token_kind)l->tokens[at].kind;
}

static bool ends_phrase(token_kind kind)
{
    return kind == TOKEN_NEWLINE || kind == TOKEN_SEMICOLON || kind == TOKEN_CLOSE ||
           kind == TOKEN_END || kind == TOKEN_COMMENT || kind == TOKEN_CONTINUED;
}

/* ---- blanks between tokens --------------------------------------------------------------------------- */

static bool touches(const layout *l, size_t left, size_t right)
{
    return l->tokens[left].end == l->tokens[right].begin;
}

static bool is_operator(token_kind kind)
{
    return kind == TOKEN_PLUS || kind == TOKEN_MINUS || kind == TOKEN_TIMES ||
           kind == TOKEN_DIVIDE || kind == TOKEN_POWER;
}

static bool is_unit_word(const layout *l, size_t at)
{
    const token *t = &l->tokens[at];
    return t->kind == TOKEN_WORD &&
           kl_unit_find(l->text + t->begin, (size_t)(t->end - t->begin)) != NULL;
}

/* The operator at `at` belongs to a unit of `show`, such as kip-ft/rad. */
static bool is_in_unit(const layout *l, size_t at, size_t first)
{
    return at > first && is_operator(kind_of(l, at)) && touches(l, at - 1, at) &&
           touches(l, at, at + 1) &&
           (is_unit_word(l, at + 1) || (kind_of(l, at) == TOKEN_POWER && is_unit_word(l, at - 1)));
}

/* A sign: nothing to its left that it could join, or written as one (`height -3 in`). */
static bool is_sign(const layout *l, size_t at, size_t first)
{
    if (kind_of(l, at) != TOKEN_PLUS && kind_of(l, at) != TOKEN_MINUS) {
        return false;
    }
    if (at == first) {
        return true;
    }
    const token_kind before = kind_of(l, at - 1);
    const bool stands_first = is_operator(before) || before == TOKEN_LEFT ||
                              before == TOKEN_COMMA || before == TOKEN_EQUALS ||
                              before == TOKEN_CONTINUED;
    return stands_first || (!touches(l, at - 1, at) && touches(l, at, at + 1));
}

/* Is there a blank between the token at `at` and the one before it? `first` begins the phrase. */
static bool has_blank(const layout *l, size_t at, size_t first)
{
    const token_kind before = kind_of(l, at - 1);
    const token_kind kind = kind_of(l, at);
    if (before == TOKEN_LEFT || kind == TOKEN_RIGHT || kind == TOKEN_COMMA) {
        return false;
    }
    if (is_in_unit(l, at, first) || is_in_unit(l, at - 1, first)) {
        return false;
    }
    if (kind == TOKEN_POWER) { /* after a unit it is a mistake, and stays one */
        return before == TOKEN_NUMBER && l->tokens[at - 1].unit_begin > 0;
    }
    if (before == TOKEN_POWER || is_sign(l, at - 1, first)) {
        return false;
    }
    const bool is_call = kind == TOKEN_LEFT && before == TOKEN_WORD && touches(l, at - 1, at);
    return !is_call;
}

/* ---- phrases ----------------------------------------------------------------------------------------- */

/* The unit with its blanks made one: `0.0002 per ft`. */
static kl_status put_unit(layout *l, const token *t)
{
    bool blank = true;
    for (int32_t i = t->unit_begin; i < t->end; i++) {
        const bool is_blank = l->text[i] == ' ' || l->text[i] == '\t';
        if (!is_blank) {
            KL_TRY(format_put(&l->lines, blank ? " " : "", blank ? 1 : 0));
            KL_TRY(format_put(&l->lines, l->text + i, 1));
        }
        blank = is_blank;
    }
    return KL_OK;
}

static kl_status put_token(layout *l, size_t at)
{
    const token *t = &l->tokens[at];
    if (t->kind == TOKEN_NUMBER && t->unit_begin > 0) {
        KL_TRY(format_put(&l->lines, l->text + t->begin, (size_t)(t->number_end - t->begin)));
        return put_unit(l, t);
    }
    return format_put(&l->lines, l->text + t->begin, (size_t)(t->end - t->begin));
}

/* The `}` of a block that stands on one line and has room there; 0: the block is laid out over lines. */
static size_t find_inline_close(const layout *l, size_t open)
{
    int depth = 0;
    for (size_t i = open;; i++) {
        const token_kind kind = kind_of(l, i);
        const bool breaks = kind == TOKEN_NEWLINE || kind == TOKEN_COMMENT ||
                            kind == TOKEN_CONTINUED || kind == TOKEN_END;
        if (breaks || l->tokens[i].end - l->tokens[open].begin > 4 * FORMAT_WIDTH) {
            return 0;
        }
        depth += kind == TOKEN_OPEN ? 1 : 0;
        depth -= kind == TOKEN_CLOSE ? 1 : 0;
        if (depth == 0) {
            return i;
        }
    }
}

/* ` { a; b }`, behind what stands in the line already. */
static kl_status put_inline_block(layout *l, size_t open, size_t close)
{
    size_t first = open; /* of a phrase inside; open: none yet */
    bool any = false;
    KL_TRY(format_put(&l->lines, " {", 2));
    for (size_t i = open + 1; i < close; i++) {
        const token_kind kind = kind_of(l, i);
        if (kind == TOKEN_SEMICOLON) {
            first = open;
            continue;
        }
        if (kind == TOKEN_CLOSE) {
            KL_TRY(format_put(&l->lines, " }", 2));
            first = open;
            continue;
        }
        if (kind == TOKEN_OPEN) {
            KL_TRY(format_put(&l->lines, " {", 2));
            first = open;
            any = false;
            continue;
        }
        if (first == open) {
            KL_TRY(format_put(&l->lines, any ? "; " : " ", any ? 2 : 1));
            first = i;
            any = true;
        } else if (has_blank(l, i, first)) {
            KL_TRY(format_put(&l->lines, " ", 1));
        }
        KL_TRY(put_token(l, i));
    }
    return format_put(&l->lines, " }", 2);
}

/* Try the block on one line. *done false: it does not fit, and the line is as before. */
static kl_status try_inline(layout *l, bool *done)
{
    const size_t close = find_inline_close(l, l->at);
    *done = false;
    if (close == 0) {
        return KL_OK;
    }
    const size_t before = format_length(&l->lines);
    KL_TRY(put_inline_block(l, l->at, close));
    if (format_line_width(&l->lines) > FORMAT_WIDTH) {
        format_cut(&l->lines, before);
        return KL_OK;
    }
    l->at = close + 1;
    *done = true;
    return KL_OK;
}

static kl_status refuse(layout *l, size_t at, const char *name, const char *hint, const char *says)
{
    const token *t = &l->tokens[at];
    complain(l->diags, name, (kl_origin){l->file, t->begin, t->end}, hint, "%s", says);
    return KL_BAD_MODEL;
}

static kl_status open_block(layout *l)
{
    bool done = false;
    KL_TRY(try_inline(l, &done));
    if (done) {
        return KL_OK;
    }
    KL_TRY(format_put(&l->lines, " {", 2));
    format_last(&l->lines)->is_plain = false;
    l->depth++;
    l->at++;
    l->after_open = true;
    if (l->depth > PARSER_NESTING) {
        return refuse(l, l->at - 1, "nesting-too-deep", NULL,
                      "Blocks stand too deep inside each other.");
    }
    return KL_OK;
}

static kl_status begin_line(layout *l, int indent, bool is_plain)
{
    const bool blank = l->newlines > 1 && !l->after_open && l->lines.count > 0;
    l->newlines = 0;
    l->after_open = false;
    return format_begin(
        &l->lines, (format_line){.indent = indent, .blank_before = blank, .is_plain = is_plain});
}

/* `# …` behind the line, without blanks at its end. */
static void set_comment(layout *l, const token *t)
{
    format_line *line = format_last(&l->lines);
    int32_t end = t->end;
    while (end > t->begin && (l->text[end - 1] == ' ' || l->text[end - 1] == '\t')) {
        end--;
    }
    line->comment = l->text + t->begin;
    line->comment_length = (size_t)(end - t->begin);
}

/* A line end inside a phrase: what follows is indented twice. */
static kl_status continue_line(layout *l)
{
    while (kind_of(l, l->at) == TOKEN_CONTINUED || kind_of(l, l->at) == TOKEN_COMMENT) {
        if (kind_of(l, l->at) == TOKEN_COMMENT) {
            if (format_last(&l->lines)->comment != NULL) {
                KL_TRY(begin_line(l, l->depth + 2, false));
            }
            set_comment(l, &l->tokens[l->at]);
        }
        l->at++;
    }
    format_last(&l->lines)->is_plain = false;
    return ends_phrase(kind_of(l, l->at)) ? KL_OK : begin_line(l, l->depth + 2, false);
}

/* Is the comment at `at` inside a phrase that goes on behind it? */
static bool goes_on(const layout *l, size_t at)
{
    while (kind_of(l, at) == TOKEN_COMMENT) {
        at++;
    }
    return kind_of(l, at) == TOKEN_CONTINUED;
}

/* A comma or an open parenthesis at the end of a phrase would join it with the next one. */
static kl_status check_phrase_end(layout *l, size_t first)
{
    size_t last = first;
    int depth = 0;
    for (size_t i = first; i < l->at; i++) {
        const token_kind kind = kind_of(l, i);
        depth += kind == TOKEN_LEFT ? 1 : 0;
        depth -= kind == TOKEN_RIGHT ? 1 : 0;
        last = kind != TOKEN_CONTINUED && kind != TOKEN_COMMENT ? i : last;
    }
    if (depth != 0) {
        return refuse(l, first, "parenthesis-not-closed", NULL,
                      "The parentheses of this phrase do not match.");
    }
    if (kind_of(l, last) == TOKEN_COMMA) {
        return refuse(l, last, "expected-value", "leave the comma out",
                      "A value is expected after the comma.");
    }
    return KL_OK;
}

static kl_status lay_phrase(layout *l)
{
    const size_t first = l->at;
    KL_TRY(begin_line(l, l->depth, true));
    bool line_begins = true;
    for (;;) {
        const token_kind kind = kind_of(l, l->at);
        if (kind == TOKEN_CONTINUED || (kind == TOKEN_COMMENT && goes_on(l, l->at))) {
            KL_TRY(continue_line(l));
            line_begins = true;
            continue;
        }
        if (ends_phrase(kind)) {
            return check_phrase_end(l, first);
        }
        if (kind == TOKEN_OPEN) {
            KL_TRY(check_phrase_end(l, first));
            return open_block(l);
        }
        if (!line_begins && has_blank(l, l->at, first)) {
            KL_TRY(format_put(&l->lines, " ", 1));
        }
        KL_TRY(put_token(l, l->at));
        if (l->at == first) {
            format_last(&l->lines)->word_length =
                (size_t)(l->tokens[first].end - l->tokens[first].begin);
        }
        line_begins = false;
        l->at++;
    }
}

static kl_status lay_comment(layout *l)
{
    const bool behind =
        l->newlines == 0 && l->lines.count > 0 && format_last(&l->lines)->comment == NULL;
    if (!behind) {
        KL_TRY(begin_line(l, l->depth, false));
    }
    set_comment(l, &l->tokens[l->at]);
    l->at++;
    return KL_OK;
}

static kl_status lay_close(layout *l)
{
    l->at++;
    if (l->depth == 0) {
        return refuse(l, l->at - 1, "stray-brace", NULL, "This `}` closes nothing.");
    }
    l->depth--;
    l->newlines = 0; /* no empty line before a brace */
    KL_TRY(begin_line(l, l->depth, false));
    return format_put(&l->lines, "}", 1);
}

static kl_status lay_all(layout *l)
{
    for (;;) {
        const token_kind kind = kind_of(l, l->at);
        if (kind == TOKEN_END) {
            break;
        }
        if (kind == TOKEN_NEWLINE || kind == TOKEN_CONTINUED || kind == TOKEN_SEMICOLON) {
            l->newlines += kind == TOKEN_SEMICOLON ? 0 : 1;
            l->at++;
        } else if (kind == TOKEN_COMMENT) {
            KL_TRY(lay_comment(l));
        } else if (kind == TOKEN_CLOSE) {
            KL_TRY(lay_close(l));
        } else {
            KL_TRY(lay_phrase(l));
        }
    }
    if (l->depth > 0) {
        return refuse(l, l->at, "missing-brace", NULL, "The file ends and `}` is missing.");
    }
    return KL_OK;
}

kl_status
format_source(const text_sources *sources, int32_t file, arena *a, kl_diags *diags, char **out)
{
    if (diags == NULL) {
        return KL_MISUSE; /* mistakes are counted there */
    }
    lexer_tokens tokens = {0};
    const kl_index before = kl_diags_count_of(diags, KL_ERROR);
    kl_status status = lexer_read(sources, file, diags, &tokens);
    if (status == KL_OK && kl_diags_count_of(diags, KL_ERROR) > before) {
        status = KL_BAD_MODEL;
    }
    layout l = {.sources = sources,
                .file = file,
                .diags = diags,
                .text = source_at(sources, file)->text,
                .tokens = tokens.items};
    if (status == KL_OK) {
        status = lay_all(&l);
    }
    if (status == KL_OK) {
        *out = format_write(&l.lines, a);
        status = *out != NULL ? KL_OK : KL_NO_MEMORY;
    }
    format_free(&l.lines);
    lexer_free(&tokens);
    return status;
}
