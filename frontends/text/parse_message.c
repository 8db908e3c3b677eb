/* parse_message.c - messages about words that do not belong where they stand, with one suggestion each.
 * SPDX-License-Identifier: MIT */
#include <stdio.h>
#include <string.h>

#include "complain.h"
#include "near_word.h"
#include "parse_value.h"
#include "str.h"

bool parse_tell_decimal_comma(parser *p)
{
    const token *whole = cursor_last(&p->cursor);
    const token *comma = cursor_peek(&p->cursor);
    const token *part = cursor_ahead(&p->cursor, 1);
    const bool parted = whole->kind == TOKEN_NUMBER && whole->is_integer &&
                        comma->kind == TOKEN_COMMA && part->kind == TOKEN_NUMBER &&
                        comma->begin == whole->end && part->begin == comma->end;
    if (!parted || token_length(whole) + token_length(part) > 60) {
        return false;
    }
    char hint[160];
    snprintf(hint, sizeof hint,
             "write `%.*s.%.*s`; in a list each number has its unit and a space after the comma",
             (int)token_length(whole), cursor_text(&p->cursor, whole), (int)token_length(part),
             cursor_text(&p->cursor, part));
    complain(p->diags, "decimal-comma", cursor_span(&p->cursor, whole, part), hint,
             "A decimal point is wanted, not a comma.");
    return true;
}

void parse_list_choices(const char *choices, char *text, size_t size)
{
    grammar_choice choice;
    grammar_choice next;
    size_t used = 0;
    text[0] = '\0';
    for (size_t i = 0; grammar_choice_at(choices, i, &choice) && used < size; i++) {
        const bool has_next = grammar_choice_at(choices, i + 1, &next);
        const char *gap = i == 0 ? "" : has_next ? ", " : " or ";
        used += (size_t)snprintf(text + used, size - used, "%s`%.*s`", gap, (int)choice.length,
                                 choice.text);
    }
}

static const char *near_unit(const char *text, size_t length)
{
    size_t count;
    const kl_unit *units = kl_unit_table(&count);
    const char *best = NULL;
    int least = length < 4 ? 2 : 3;
    for (size_t i = 0; i < count; i++) {
        const int far = str_distance(text, length, units[i].word, strlen(units[i].word));
        if (far < least && far < (int)length) {
            least = far;
            best = units[i].word;
        }
    }
    return best;
}

/* A phrase of the context whose marks include the word: `diameter` of `circle`. */
static const char *owner_of(grammar_context context, const char *text, size_t length)
{
    size_t count;
    const grammar_row *rows = grammar_rows_of(context, &count);
    for (size_t i = 0; i < count; i++) {
        if (rows[i].inner != IN_NOTHING && grammar_find(rows[i].inner, text, length) != NULL) {
            return rows[i].word;
        }
    }
    return NULL;
}

/* "`a`, `b`, `c`, …": the words of a context, as many as fit. */
static void list_words(grammar_context context, char *text, size_t size)
{
    size_t count;
    const grammar_row *rows = grammar_rows_of(context, &count);
    size_t used = 0;
    text[0] = '\0';
    for (size_t i = 0; i < count; i++) {
        const size_t needs = strlen(rows[i].word) + 4;
        if (used + needs + 8 > size) {
            snprintf(text + used, size - used, ", …");
            return;
        }
        used +=
            (size_t)snprintf(text + used, size - used, "%s`%s`", i > 0 ? ", " : "", rows[i].word);
    }
}

/* The innermost block around this one that knows the word: then this one was not closed. */
static bool tell_missing_brace(parser *p, const token *t)
{
    const char *text = cursor_text(&p->cursor, t);
    const size_t length = token_length(t);
    for (const parse_block *b = p->block->outer; b != NULL; b = b->outer) {
        if (grammar_find(b->context, text, length) == NULL) {
            continue;
        }
        complain(p->diags, "missing-brace", cursor_origin(&p->cursor, t),
                 "close the block before this line",
                 "`}` is missing for `%s`, opened on line %d: `%.*s` does not stand inside it.",
                 p->block->title, (int)p->block->line, (int)length, text);
        p->unwind = b->depth;
        p->is_cut = true;
        return true;
    }
    return false;
}

void parse_tell_unknown_word(parser *p, grammar_context context)
{
    const token *t = cursor_peek(&p->cursor);
    const char *text = cursor_text(&p->cursor, t);
    const size_t length = token_length(t);
    if (t->bad || tell_missing_brace(p, t)) {
        return;
    }
    char hint[500] = "";
    const char *advice = near_word_advice(grammar_context_name(context), text, length);
    const char *owner = owner_of(context, text, length);
    const char *near = near_word(context, text, length);
    const char *meaning = near_word_meaning(text, length);
    if (advice != NULL) {
        snprintf(hint, sizeof hint, "%s", advice);
    } else if (owner != NULL) {
        snprintf(hint, sizeof hint, "`%.*s` belongs to `%s`", (int)length, text, owner);
    } else if (near != NULL) {
        snprintf(hint, sizeof hint, "did you mean `%s`?", near);
    } else if (meaning != NULL) {
        snprintf(hint, sizeof hint, "`%s` may be meant: `kernline words %s` tells where it stands",
                 meaning, meaning);
    } else {
        char words[400];
        list_words(context, words, sizeof words);
        snprintf(hint, sizeof hint, "known here: %s", words);
    }
    complain(p->diags, "unknown-word", cursor_origin(&p->cursor, t), hint,
             "Unknown word `%.*s` in %s.", (int)length, text, grammar_context_name(context));
}

static bool is_bare_number(const token *t)
{
    return t->kind == TOKEN_NUMBER && t->unit_begin == 0;
}

/* The mark of a row that takes coordinates, or NULL. */
static const char *mark_of_points(const grammar_row *row)
{
    size_t count;
    const grammar_row *marks = grammar_rows_of(row->inner, &count);
    for (size_t i = 0; i < count; i++) {
        if (grammar_own_count(&marks[i]) > 0 &&
            (marks[i].own[0].kinds & (GRAMMAR_POINT | GRAMMAR_POINTS)) != 0) {
            return marks[i].word;
        }
    }
    return NULL;
}

/* A value where a word of the row must say what it is. */
static void tell_bare_value(parser *p, const grammar_row *row)
{
    char words[400];
    char hint[500];
    list_words(row->inner, words, sizeof words);
    snprintf(hint, sizeof hint, "`%s` goes on with %s", row->word, words);
    complain(p->diags, "bare-value", cursor_origin(&p->cursor, cursor_peek(&p->cursor)), hint,
             "In `%s` a word before each value says what it is.", row->word);
}

/* Where this row's own values were a list, two values beside each other lack a comma. */
static void tell_two_values(parser *p, const grammar_row *row)
{
    char hint[160] = "";
    const char *points =
        cursor_is(&p->cursor, TOKEN_LEFT) && parse_is_point(p) ? mark_of_points(row) : NULL;
    if (points != NULL) {
        snprintf(hint, sizeof hint, "write `%s` before it", points);
        complain(p->diags, "bare-value", cursor_origin(&p->cursor, cursor_peek(&p->cursor)), hint,
                 "Coordinates stand here in `%s` without a word that says of what.", row->word);
        return;
    }
    if (grammar_own_count(row) == 0 && row->inner != IN_NOTHING) {
        tell_bare_value(p, row);
        return;
    }
    if (cursor_last(&p->cursor)->kind == TOKEN_NUMBER) {
        snprintf(hint, sizeof hint,
                 "join them with an operator, put a comma between the values of a list, or write "
                 "the word that the second belongs to");
    } else {
        snprintf(hint, sizeof hint, "for example `%s`", row->example);
    }
    complain(p->diags, "two-values", cursor_origin(&p->cursor, cursor_peek(&p->cursor)), hint,
             "Two values stand side by side in `%s`.", row->word);
}

/* `factor 1.2`: no unit can follow. */
static bool takes_pure_number(const grammar_row *row)
{
    return grammar_own_count(row) > 0 && (row->own[0].kinds & GRAMMAR_QUANTITY) != 0 &&
           row->own[0].measure == KL_MEASURE_NUMBER && row->inner != IN_NOTHING;
}

/* Would the near word make sense here? `to` at the end of a line lacks its value. */
static bool near_fits(const parser *p, const grammar_row *row, const char *near)
{
    const grammar_row *mark = near ? grammar_find(row->inner, near, strlen(near)) : NULL;
    text_cursor behind = p->cursor;
    cursor_take(&behind);
    return mark != NULL && (grammar_own_count(mark) == 0 || !cursor_is_end(&behind));
}

/* `release bents_1 bents_2`: a second name behind the phrase's own, of which it takes one. */
static bool tell_second_name(parser *p, const grammar_row *row)
{
    const token *t = cursor_peek(&p->cursor);
    const token *last = cursor_last(&p->cursor);
    const char *first = cursor_text(&p->cursor, last);
    const bool takes_one = grammar_own_count(row) == 1 && row->own[0].kinds == GRAMMAR_NAME &&
                           (row->flags & GRAMMAR_MANY) != 0;
    const bool is_own = last->kind == TOKEN_WORD && !token_is_word(&p->cursor, last, row->word) &&
                        grammar_find(row->inner, first, token_length(last)) == NULL;
    if (!takes_one || !is_own) {
        return false;
    }
    char hint[300];
    const char *second = cursor_text(&p->cursor, t);
    snprintf(hint, sizeof hint, "write `%s %.*s` and then `%s %.*s`, each on a line of its own",
             row->word, (int)token_length(last), first, row->word, (int)token_length(t), second);
    complain(p->diags, "one-name", cursor_origin(&p->cursor, t), hint,
             "`%s` takes one %s, and `%.*s` is a second.", row->word, row->own[0].of,
             (int)token_length(t), second);
    return true;
}

static void tell_unknown_mark(parser *p, const grammar_row *row)
{
    const token *t = cursor_peek(&p->cursor);
    const char *text = cursor_text(&p->cursor, t);
    const int length = (int)token_length(t);
    const kl_origin here = cursor_origin(&p->cursor, t);
    char hint[500] = "";
    const char *near = near_word(row->inner, text, token_length(t));
    const char *advice = near_word_advice(row->word, text, token_length(t));
    const bool after_number = is_bare_number(cursor_last(&p->cursor));
    if (near == NULL && p->block != NULL &&
        grammar_find(p->block->context, text, token_length(t)) != NULL) {
        complain(p->diags, "one-phrase-a-line", here,
                 advice != NULL ? advice : "put it on a line of its own, or after `;`",
                 "`%.*s` begins another phrase.", length, text);
        return;
    }
    if (kl_unit_find(text, token_length(t)) != NULL) {
        snprintf(hint, sizeof hint, "multiply the value by `1 %.*s`, or write the number here",
                 length, text);
        complain(p->diags, "unit-without-number", here, hint,
                 "`%.*s` is a unit: it follows a number and nothing else.", length, text);
        return;
    }
    if (near == NULL && after_number && !takes_pure_number(row)) {
        parse_tell_unknown_unit(p, row->word);
        return;
    }
    if (advice == NULL && !near_fits(p, row, near) && tell_second_name(p, row)) {
        return;
    }
    if (advice != NULL) {
        snprintf(hint, sizeof hint, "%s", advice);
    } else if (near != NULL) {
        snprintf(hint, sizeof hint, "did you mean `%s`?", near);
    } else if (row->inner != IN_NOTHING) {
        char words[400];
        list_words(row->inner, words, sizeof words);
        snprintf(hint, sizeof hint, "`%s` goes on with %s", row->word, words);
    }
    complain(p->diags, "unknown-mark", here, hint, "`%s` does not go on with `%.*s`.", row->word,
             length, text);
}

bool parse_tell_equals(parser *p)
{
    const token *last = cursor_last(&p->cursor);
    char hint[120] = "leave `=` out: `modulus 29000 ksi`";
    if (last->kind == TOKEN_WORD && token_length(last) < 40) {
        snprintf(hint, sizeof hint, "leave `=` out: `%.*s` and its value", (int)token_length(last),
                 cursor_text(&p->cursor, last));
    }
    complain(p->diags, "no-equals", cursor_origin(&p->cursor, cursor_peek(&p->cursor)), hint,
             "`=` belongs to `let` and `expect` only.");
    return false;
}

void parse_tell_unknown_unit(parser *p, const char *word)
{
    const token *t = cursor_peek(&p->cursor);
    const char *text = cursor_text(&p->cursor, t);
    const char *unit = near_unit(text, token_length(t));
    char hint[80] = "`kernline words units` lists the units";
    if (unit != NULL) {
        snprintf(hint, sizeof hint, "did you mean `%s`?", unit);
    }
    complain(p->diags, "unknown-unit", cursor_origin(&p->cursor, t), hint,
             "`%.*s` is no unit, and no word that goes on with `%s`.", (int)token_length(t), text,
             word);
}

void parse_tell_unexpected(parser *p, const grammar_row *row)
{
    const token *t = cursor_peek(&p->cursor);
    if (t->bad) {
        return;
    }
    switch ((token_kind)t->kind) {
    case TOKEN_WORD:
        tell_unknown_mark(p, row);
        return;
    case TOKEN_NUMBER:
    case TOKEN_LEFT:
    case TOKEN_STRING:
        tell_two_values(p, row);
        return;
    case TOKEN_EQUALS:
        parse_tell_equals(p);
        return;
    case TOKEN_OPEN:
    case TOKEN_CLOSE:
    case TOKEN_RIGHT:
    case TOKEN_COMMA:
    case TOKEN_SEMICOLON:
    case TOKEN_PLUS:
    case TOKEN_MINUS:
    case TOKEN_TIMES:
    case TOKEN_DIVIDE:
    case TOKEN_POWER:
    case TOKEN_PERCENT:
    case TOKEN_NEWLINE:
    case TOKEN_CONTINUED:
    case TOKEN_COMMENT:
    case TOKEN_END:
        break;
    }
    if (parse_tell_decimal_comma(p)) {
        return;
    }
    char found[64];
    const char *hint = t->kind == TOKEN_COMMA && mark_of_points(row) != NULL
                           ? "coordinates stand in parentheses: `(12 ft, 3 ft)`"
                           : NULL;
    complain(p->diags, "unexpected-mark", cursor_origin(&p->cursor, t), hint,
             "%s has no place here in `%s`.", cursor_describe(&p->cursor, found, sizeof found),
             row->word);
}
