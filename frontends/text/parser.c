/* parser.c - phrases, blocks and files, driven by the table. Knows no word but `kernline`, `let`, `include`, `skew`.
 *
 * After a mistake the reader goes on behind the phrase, over a balanced block. When a block was not closed it goes on
 * in the block that the next word belongs to (parser.unwind).
 * SPDX-License-Identifier: MIT */
#include "parser.h"

#include <math.h>
#include <stdio.h>
#include <string.h>

#include "complain.h"
#include "kernline/version.h"
#include "mem.h"
#include "parse_value.h"
#include "str.h"

static bool read_phrase(parser *p, grammar_context context, parse_draft *into);
static bool read_file(parser *p, int32_t file, parse_draft *document);

static kl_origin here(const parser *p)
{
    return cursor_origin(&p->cursor, cursor_peek(&p->cursor));
}

/* ---- values of a phrase ------------------------------------------------------------------------------ */

/* `uniform square 2 klf`: the prefix of an intensity becomes the flag of that name. */
static bool add_prefix(parser *p, parse_draft *draft, const text_value *value)
{
    if (value->kind != VALUE_QUANTITY ||
        !(value->quantities[0].square || value->quantities[0].level)) {
        return true;
    }
    const char *word = value->quantities[0].square ? "square" : "level";
    const grammar_row *flag =
        grammar_index_find(&p->grammar, draft->row->inner, word, strlen(word));
    if (flag == NULL) {
        return true;
    }
    const text_value set = {.kind = VALUE_FLAG, .count = 1, .origin = value->origin};
    for (size_t i = 0; i < draft->slot_count; i++) {
        if (str_same(parse_slots(p, draft)[i].mark, flag->word)) {
            return true; /* both ends of a ramp say so */
        }
    }
    return parse_check_once(p, draft, flag, value->origin) &&
           parse_add_slot(p, draft, flag->word, &set);
}

static bool read_own_values(parser *p, parse_draft *draft)
{
    const grammar_row *row = draft->row;
    for (size_t i = 0; i < grammar_own_count(row); i++) {
        if (row->own[i].optional && !parse_value_begins(p, &row->own[i])) {
            continue;
        }
        text_value value;
        if (!parse_value(p, row, &row->own[i], row->inner, &value) ||
            !parse_add_slot(p, draft, "", &value) || !add_prefix(p, draft, &value)) {
            return false;
        }
    }
    return true;
}

static bool read_mark(parser *p, parse_draft *draft, const grammar_row *mark)
{
    const token *word = cursor_peek(&p->cursor);
    if (!parse_check_once(p, draft, mark, cursor_origin(&p->cursor, word))) {
        return false;
    }
    cursor_take(&p->cursor);
    text_value value = {.kind = VALUE_FLAG, .count = 1, .origin = cursor_origin(&p->cursor, word)};
    if (grammar_own_count(mark) > 0 &&
        !parse_value(p, mark, &mark->own[0], draft->row->inner, &value)) {
        return false;
    }
    parse_check_range(p, mark, &value);
    return parse_add_slot(p, draft, mark->word, &value) && add_prefix(p, draft, &value);
}

/* `to` on the line of `from` in a block: a mark of the block that goes on with the line. */
static const grammar_row *find_follower(const parser *p, grammar_context context)
{
    const token *t = cursor_peek(&p->cursor);
    if (t->kind != TOKEN_WORD) {
        return NULL;
    }
    const grammar_row *row =
        grammar_index_find(&p->grammar, context, cursor_text(&p->cursor, t), token_length(t));
    return row != NULL && (row->flags & GRAMMAR_FOLLOWS) != 0 ? row : NULL;
}

/* Marks on the phrase's own line. */
static bool read_marks(parser *p, parse_draft *draft)
{
    const bool is_simple = draft->row->inner == IN_NOTHING;
    while (!cursor_is_end(&p->cursor)) {
        if (is_simple && find_follower(p, draft->row->context) != NULL) {
            return true;
        }
        const token *t = cursor_peek(&p->cursor);
        const bool is_word = t->kind == TOKEN_WORD || t->kind == TOKEN_EQUALS;
        const grammar_row *mark =
            is_word ? grammar_index_find(&p->grammar, draft->row->inner, cursor_text(&p->cursor, t),
                                         token_length(t))
                    : NULL;
        if (mark == NULL) {
            parse_tell_unexpected(p, draft->row);
            return false;
        }
        if (!grammar_is_inline(mark)) {
            char hint[160];
            snprintf(hint, sizeof hint, "write `%s … { %s … }`", draft->row->word, mark->word);
            complain(p->diags, "needs-a-line", here(p), hint,
                     "`%s` is a line of the block of `%s`.", mark->word, draft->row->word);
            return false;
        }
        if (!read_mark(p, draft, mark)) {
            return false;
        }
    }
    return true;
}

/* ---- skipping ---------------------------------------------------------------------------------------- */

/* To the end of the phrase, over a balanced block. */
static void skip_phrase(parser *p)
{
    int depth = 0;
    for (;;) {
        const token *t = cursor_peek(&p->cursor);
        const bool ends =
            t->kind == TOKEN_NEWLINE || t->kind == TOKEN_SEMICOLON || t->kind == TOKEN_CLOSE;
        if (t->kind == TOKEN_END || (depth == 0 && ends)) {
            p->is_cut = p->is_cut || depth > 0;
            return;
        }
        depth += t->kind == TOKEN_OPEN ? 1 : 0;
        depth -= t->kind == TOKEN_CLOSE ? 1 : 0;
        cursor_take(&p->cursor);
    }
}

static void skip_ends(parser *p)
{
    while (cursor_is(&p->cursor, TOKEN_NEWLINE) || cursor_is(&p->cursor, TOKEN_SEMICOLON)) {
        cursor_take(&p->cursor);
    }
}

/* ---- blocks ------------------------------------------------------------------------------------------ */

/* Phrases until the block's `}` (taken). @return false when it is missing, or when all is lost. */
static bool read_lines(parser *p, parse_draft *draft)
{
    for (;;) {
        skip_ends(p);
        if (p->failure != KL_OK || complain_is_full(p->diags)) {
            return false;
        }
        if (cursor_is(&p->cursor, TOKEN_CLOSE)) {
            return true;
        }
        if (cursor_is(&p->cursor, TOKEN_END)) {
            complain(p->diags, "missing-brace", p->block->origin, NULL,
                     "`}` is missing for `%s`, opened on line %d: the file ends.", p->block->title,
                     (int)p->block->line);
            p->unwind = 0;
            p->is_cut = true;
            return false;
        }
        if (read_phrase(p, draft->row->inner, draft)) {
            continue;
        }
        draft->broken = true;
        if (p->unwind >= 0 && p->unwind < p->block->depth) {
            return false;
        }
        if (p->unwind < 0) {
            skip_phrase(p);
        }
        p->unwind = -1;
    }
}

static bool read_block(parser *p, parse_draft *draft, kl_origin *close)
{
    const parse_block *outer = p->block;
    if (outer->depth == PARSER_NESTING) {
        complain(p->diags, "nesting-too-deep", here(p), NULL,
                 "Blocks stand more than %d deep inside each other.", PARSER_NESTING);
        return false;
    }
    const text_source *source = source_at(p->sources, p->cursor.file);
    const parse_block block = {.outer = outer,
                               .context = draft->row->inner,
                               .title = parse_title(p, draft),
                               .origin = draft->origin,
                               .line = source_find(source, draft->origin.begin).line,
                               .depth = outer->depth + 1};
    cursor_take(&p->cursor);
    p->block = &block;
    const bool closed = read_lines(p, draft);
    p->block = outer;
    if (!closed) {
        return false;
    }
    *close = here(p);
    cursor_take(&p->cursor);
    return true;
}

static bool check_end(parser *p)
{
    const unsigned kind = cursor_peek(&p->cursor)->kind;
    if (kind == TOKEN_NEWLINE || kind == TOKEN_SEMICOLON || kind == TOKEN_CLOSE ||
        kind == TOKEN_END) {
        return true;
    }
    complain(p->diags, "text-after-brace", here(p), "begin a new line, or write `;`",
             "A phrase ends with its `}`; something follows on the line.");
    return false;
}

/* ---- phrases ----------------------------------------------------------------------------------------- */

/* Everything behind the word. */
static bool fill_phrase(parser *p, parse_draft *draft, phrase *out)
{
    const grammar_row *row = draft->row;
    const bool ok = read_own_values(p, draft) && read_marks(p, draft);
    draft->origin.end = cursor_last(&p->cursor)->end;
    if (!ok) {
        return false;
    }
    out->origin = draft->origin;
    if (cursor_is(&p->cursor, TOKEN_OPEN)) {
        if (row->inner == IN_NOTHING) {
            complain(p->diags, "no-block", here(p), NULL, "`%s` has no block.", row->word);
            return false;
        }
        if (!read_block(p, draft, &out->close)) {
            return false;
        }
    }
    const bool goes_on = row->inner == IN_NOTHING && find_follower(p, row->context) != NULL;
    return (goes_on || check_end(p)) && parse_check_whole(p, draft) &&
           parse_end_draft(p, draft, out);
}

/* Put the phrase where the readers look for it (grammar.h). */
static bool attach(parser *p, parse_draft *into, const grammar_row *row, const phrase *ph)
{
    const bool is_many = (row->flags & GRAMMAR_MANY) != 0;
    const bool has_marks = row->inner != IN_NOTHING;
    if ((is_many || has_marks || into->row == NULL) && !parse_add_child(p, into, ph)) {
        return false;
    }
    if (is_many || into->row == NULL) {
        return true;
    }
    text_value value = {.kind = VALUE_FLAG, .count = 1, .origin = ph->word_origin};
    const text_value *own = phrase_own(ph, 0);
    if (own != NULL) {
        value = *own;
    }
    return parse_add_slot(p, into, row->word, &value) && (has_marks || add_prefix(p, into, &value));
}

static bool tell_no_word(parser *p)
{
    const token *t = cursor_peek(&p->cursor);
    char found[64];
    if (t->bad) {
        return false;
    }
    if (t->kind == TOKEN_OPEN) {
        complain(p->diags, "brace-on-own-line", here(p), "put `{` at the end of the line before",
                 "A block begins on the line of its phrase.");
        return false;
    }
    complain(p->diags, "expected-word", here(p), NULL, "A phrase begins with a word, not with %s.",
             cursor_describe(&p->cursor, found, sizeof found));
    return false;
}

static bool count_phrase(parser *p)
{
    if (++p->phrases > PARSER_PHRASES) {
        complain(p->diags, "too-many-phrases", here(p), NULL, "The model has more than %d phrases.",
                 PARSER_PHRASES);
        parse_fail(p, KL_TOO_LARGE);
        return false;
    }
    return true;
}

/* ---- the words that the parser acts on --------------------------------------------------------------- */

static bool define(parser *p, const phrase *ph)
{
    const text_name *name = &phrase_own(ph, 0)->names[0];
    const text_quantity *q = &phrase_value(ph, "=")->quantities[0];
    const expression_value value = {
        .value = q->value, .dimension = q->dimension, .percent = q->percent};
    const kl_status status = expression_define(&p->lets, name->text, strlen(name->text), value);
    if (status == KL_MISUSE) {
        complain(p->diags, "let-twice", name->origin, NULL, "`%s` has a value already.",
                 name->text);
        return true; /* no reason to skip anything */
    }
    if (status == KL_TOO_LARGE) {
        complain(p->diags, "too-many-lets", name->origin, NULL, "A model has at most %d `let`.",
                 EXPRESSION_LETS);
        return true;
    }
    return status == KL_OK ? true : parse_fail(p, status);
}

static bool take_skew(parser *p, const phrase *ph)
{
    const text_quantity *q = &phrase_own(ph, 0)->quantities[0];
    if (!(fabs(q->value) < PARSER_SKEW)) {
        complain(p->diags, "skew-too-large", q->origin, NULL,
                 "A skew is the angle from square; it stays below 89 degrees.");
        return true;
    }
    p->has_skew = true;
    p->skew = q->value;
    return true;
}

static bool include(parser *p, const phrase *ph, parse_draft *document)
{
    int32_t file;
    const kl_status status =
        source_open(p->sources, phrase_own(ph, 0)->string, ph->origin, p->diags, &file);
    if (status == KL_NO_MEMORY) {
        return parse_fail(p, status);
    }
    if (status != KL_OK) {
        document->broken = true;
        p->is_cut = true;
        return true;
    }
    const text_cursor cursor = p->cursor;
    const bool ok = read_file(p, file, document);
    p->cursor = cursor;
    return ok;
}

static bool check_version(parser *p, const phrase *ph)
{
    const text_value *version = phrase_own(ph, 0);
    if (version->integer != KL_LANGUAGE_VERSION) {
        complain(p->diags, "unknown-version", version->origin, NULL,
                 "This program reads version %d of the language, not %ld.", KL_LANGUAGE_VERSION,
                 version->integer);
    }
    return true;
}

/* `kernline 1` stands before everything else in its file. */
static bool is_first_phrase(const parser *p, const token *word)
{
    for (const token *t = p->cursor.tokens; t < word; t++) {
        if (t->kind != TOKEN_NEWLINE && t->kind != TOKEN_COMMENT && t->kind != TOKEN_CONTINUED) {
            return false;
        }
    }
    return true;
}

/* Does the parser itself carry the phrase out? Then it is no part of the document. */
static bool carry_out(parser *p, const phrase *ph, const token *word, parse_draft *into, bool *done)
{
    *done = into->row == NULL;
    if (*done && str_same(ph->word, "let")) {
        return define(p, ph);
    }
    if (*done && str_same(ph->word, "include")) {
        return include(p, ph, into);
    }
    if (*done && str_same(ph->word, "kernline")) {
        if (!is_first_phrase(p, word)) {
            complain(p->diags, "version-not-first", ph->word_origin, NULL,
                     "`kernline` with the version stands before everything else.");
            return true;
        }
        return check_version(p, ph);
    }
    const bool is_skew = *done && str_same(ph->word, "skew");
    *done = false;
    return is_skew ? take_skew(p, ph) : true;
}

/* The rest of a line such as `from step_2 to long_term`. */
static bool read_followers(parser *p, const grammar_row *row, parse_draft *into)
{
    const grammar_row *follower = row->inner == IN_NOTHING ? find_follower(p, row->context) : NULL;
    while (follower != NULL) {
        if (!read_mark(p, into, follower)) {
            return false;
        }
        follower = find_follower(p, row->context);
    }
    if (!cursor_is_end(&p->cursor) && row->inner == IN_NOTHING) {
        parse_tell_unexpected(p, row);
        return false;
    }
    return check_end(p);
}

/* Read one phrase into the draft around it. @return false after a mistake: the caller skips or unwinds. */
static bool read_phrase(parser *p, grammar_context context, parse_draft *into)
{
    const token *word = cursor_peek(&p->cursor);
    const kl_origin origin = cursor_origin(&p->cursor, word);
    if ((word->kind != TOKEN_WORD && word->kind != TOKEN_EQUALS) || word->bad) {
        return tell_no_word(p);
    }
    const grammar_row *row =
        grammar_index_find(&p->grammar, context, cursor_text(&p->cursor, word), token_length(word));
    if (row == NULL) {
        parse_tell_unknown_word(p, context);
        return false;
    }
    if (!count_phrase(p) || !parse_check_once(p, into, row, origin)) {
        return false;
    }
    cursor_take(&p->cursor);
    parse_draft draft = parse_open_draft(p, row, origin);
    phrase ph = {.word = row->word, .word_origin = origin, .close = KL_NOWHERE};
    bool done = false;
    const bool filled = fill_phrase(p, &draft, &ph);
    parse_close_draft(p, &draft);
    const bool ok =
        filled && carry_out(p, &ph, word, into, &done) && (done || attach(p, into, row, &ph));
    p->lost = p->lost || !ok;
    return ok && read_followers(p, row, into);
}

/* ---- files ------------------------------------------------------------------------------------------- */

/* `square` may be used before the line with `skew`: look for that line first. */
static void find_skew(parser *p, const lexer_tokens *tokens, int32_t file)
{
    text_cursor cursor;
    cursor_start(&cursor, p->sources, file, tokens, NULL);
    int depth = 0;
    bool begins = true;
    while (!cursor_is(&cursor, TOKEN_END) && !p->has_skew) {
        if (depth == 0 && begins && cursor_is_word(&cursor, "skew")) {
            expression_value value;
            cursor_take(&cursor);
            p->has_skew = true; /* a mistake in it is told when it is read; until then it is 0 */
            if (expression_read(&cursor, &p->lets, &value) && !value.bad &&
                fabs(value.value) < PARSER_SKEW) {
                p->skew = value.value;
            }
            continue;
        }
        const unsigned kind = cursor_take(&cursor)->kind;
        depth += kind == TOKEN_OPEN ? 1 : 0;
        depth -= kind == TOKEN_CLOSE && depth > 0 ? 1 : 0;
        begins = kind == TOKEN_NEWLINE || kind == TOKEN_SEMICOLON;
    }
}

static bool read_top(parser *p, parse_draft *document)
{
    for (;;) {
        skip_ends(p);
        if (p->failure != KL_OK || complain_is_full(p->diags)) {
            return false;
        }
        if (cursor_is(&p->cursor, TOKEN_END)) {
            return true;
        }
        if (cursor_is(&p->cursor, TOKEN_CLOSE)) {
            complain(p->diags, "stray-brace", here(p), NULL, "This `}` closes nothing.");
            p->is_cut = true;
            cursor_take(&p->cursor);
            continue;
        }
        const token *word = cursor_peek(&p->cursor);
        if (!read_phrase(p, IN_TOP, document)) {
            parse_note_broken(p, word);
            if (p->unwind < 0) {
                skip_phrase(p);
            }
            p->unwind = -1;
        }
    }
}

static bool read_file(parser *p, int32_t file, parse_draft *document)
{
    lexer_tokens tokens = {0};
    const parse_block *outer = p->block;
    const parse_block top = {.context = IN_TOP, .title = "the model", .origin = KL_NOWHERE};
    const kl_status status = lexer_read(p->sources, file, p->diags, &tokens);
    bool ok = status == KL_OK ? true : parse_fail(p, status);
    if (ok) {
        find_skew(p, &tokens, file);
        cursor_start(&p->cursor, p->sources, file, &tokens, p->diags);
        p->block = &top;
        ok = read_top(p, document);
        p->block = outer;
    }
    lexer_free(&tokens);
    return ok;
}

static kl_status
parse(text_sources *sources, int32_t file, arena *a, kl_diags *diags, text_document *document)
{
    parser p = {.sources = sources, .memory = a, .diags = diags, .unwind = -1};
    const kl_index before = kl_diags_count_of(diags, KL_ERROR);
    phrase all = {0};
    grammar_index_make(&p.grammar);
    parse_draft draft = parse_open_draft(&p, NULL, KL_NOWHERE);
    read_file(&p, file, &draft);
    if (p.failure == KL_OK) {
        parse_end_draft(&p, &draft, &all);
    }
    mem_free(p.slots.items);
    mem_free(p.children.items);
    mem_free(p.list);
    expression_free(&p.lets);
    *document = (text_document){.phrases = all.children,
                                .phrase_count = all.children != NULL ? all.child_count : 0,
                                .skew = p.skew,
                                .has_skew = p.has_skew,
                                .is_cut = p.is_cut || complain_is_full(diags),
                                .is_wrong = kl_diags_count_of(diags, KL_ERROR) > before || p.lost};
    parse_end_broken(&p, document);
    if (p.failure != KL_OK) {
        return p.failure;
    }
    return document->is_wrong ? KL_BAD_MODEL : KL_OK;
}

kl_status text_parse(
    text_sources *sources, const char *path, arena *a, kl_diags *diags, text_document *document)
{
    int32_t file;
    *document = (text_document){.is_wrong = true, .is_cut = true}; /* until it is read */
    if (diags == NULL) {
        return KL_MISUSE; /* mistakes are counted there */
    }
    KL_TRY(source_open(sources, path, KL_NOWHERE, diags, &file));
    return parse(sources, file, a, diags, document);
}

kl_status text_parse_text(text_sources *sources,
                          const char *name,
                          const char *text,
                          size_t length,
                          arena *a,
                          kl_diags *diags,
                          text_document *document)
{
    int32_t file;
    *document = (text_document){.is_wrong = true, .is_cut = true}; /* until it is read */
    if (diags == NULL) {
        return KL_MISUSE; /* mistakes are counted there */
    }
    KL_TRY(source_add(sources, name, text, length, diags, &file));
    return parse(sources, file, a, diags, document);
}
