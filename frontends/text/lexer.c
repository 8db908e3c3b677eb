/* lexer.c - see lexer.h. One pass makes the tokens, a second marks the line ends that end no phrase.
 * SPDX-License-Identifier: MIT */
#include "lexer.h"

#include <stdio.h>
#include <string.h>

#include "complain.h"
#include "lexer_odd.h"
#include "mem.h"
#include "quantity.h"

/* One more token than the largest file has bytes. */
#define LEXER_TOKENS ((size_t)SOURCE_FILE_BYTES + 1)

typedef struct lexer {
    const char *text;
    int32_t length, at, file;
    kl_diags *diags;
    lexer_tokens *tokens;
} lexer;

static bool is_letter(char c)
{
    return (c >= 'a' && c <= 'z') || (c >= 'A' && c <= 'Z') || c == '_';
}

static bool is_digit(char c)
{
    return c >= '0' && c <= '9';
}

static kl_origin span(const lexer *lx, int32_t begin, int32_t end)
{
    return (kl_origin){lx->file, begin, end};
}

/* Room for as many tokens as such texts usually have; pages of it that stay empty cost nothing. */
static kl_status make_room(lexer *lx)
{
    const size_t usual = (size_t)lx->length / 4 + 64;
    lx->tokens->items = mem_room(usual, sizeof *lx->tokens->items);
    lx->tokens->capacity = lx->tokens->items != NULL ? usual : 0;
    return lx->tokens->items != NULL ? KL_OK : KL_NO_MEMORY;
}

static kl_status push(lexer *lx, token t)
{
    if (lx->tokens->count < lx->tokens->capacity) {
        lx->tokens->items[lx->tokens->count++] = t;
        return KL_OK;
    }
    void *items = lx->tokens->items;
    const kl_status status =
        mem_grow(&items, &lx->tokens->capacity, lx->tokens->count + 1, sizeof t, LEXER_TOKENS);
    lx->tokens->items = items;
    KL_TRY(status);
    lx->tokens->items[lx->tokens->count++] = t;
    return KL_OK;
}

static kl_status push_plain(lexer *lx, token_kind kind, int32_t length)
{
    const token t = {.kind = (unsigned char)kind, .begin = lx->at, .end = lx->at + length};
    lx->at += length;
    return push(lx, t);
}

/* ---- odd characters ---------------------------------------------------------------------------------- */

static void tell_odd(lexer *lx, const lexer_odd *odd, int32_t length)
{
    char hint[96] = "";
    const kl_origin here = span(lx, lx->at, lx->at + length);
    if (odd->says == NULL) {
        const unsigned char first = (unsigned char)lx->text[lx->at];
        if (first < 0x21 || first == 0x7F) {
            complain(lx->diags, odd->name, here, NULL,
                     "The control character 0x%02X has no place here.", (unsigned)first);
        } else {
            complain(lx->diags, odd->name, here, NULL, "The character `%.*s` has no meaning here.",
                     (int)length, lx->text + lx->at);
        }
        return;
    }
    snprintf(hint, sizeof hint, "write %s", odd->instead);
    complain(lx->diags, odd->name, here, hint, "This is %s, which came with pasted text.",
             odd->says);
}

/* Skip blanks; pasted ones are told. */
static void skip_blanks(lexer *lx)
{
    while (lx->at < lx->length) {
        const char c = lx->text[lx->at];
        if (c == ' ' || c == '\t') {
            lx->at++;
            continue;
        }
        int32_t length = 1;
        const lexer_odd *odd =
            (unsigned char)c >= 0x80 ? lexer_odd_at(lx->text + lx->at, &length) : NULL;
        if (odd == NULL || odd->acts_as != ' ') {
            return;
        }
        tell_odd(lx, odd, length);
        lx->at += length;
    }
}

static kl_status read_odd(lexer *lx)
{
    int32_t length;
    const lexer_odd *odd = lexer_odd_at(lx->text + lx->at, &length);
    tell_odd(lx, odd, length);
    switch (odd->acts_as) {
    case '-':
        return push_plain(lx, TOKEN_MINUS, length);
    case '*':
        return push_plain(lx, TOKEN_TIMES, length);
    case '/':
        return push_plain(lx, TOKEN_DIVIDE, length);
    default:
        lx->at += length;
        return KL_OK;
    }
}

/* ---- numbers ----------------------------------------------------------------------------------------- */

/* `1,200`: digits, a comma, three digits, and no digit after them. */
static bool skip_thousands(lexer *lx, token *t)
{
    const int32_t begin = lx->at;
    if (!t->is_integer || t->end - t->begin > 3) {
        return false;
    }
    for (;;) {
        const char *at = lx->text + lx->at;
        const bool group = lx->length - lx->at >= 4 && at[0] == ',' && is_digit(at[1]) &&
                           is_digit(at[2]) && is_digit(at[3]) &&
                           !(lx->length - lx->at > 4 && is_digit(at[4]));
        if (!group) {
            break;
        }
        lx->at += 4;
    }
    if (lx->at == begin) {
        return false;
    }
    char plain[32] = "";
    size_t used = 0;
    for (int32_t i = t->begin; i < lx->at && used + 1 < sizeof plain; i++) {
        if (lx->text[i] != ',') {
            plain[used++] = lx->text[i];
        }
    }
    char hint[96];
    snprintf(hint, sizeof hint, "write `%s`, or a space after the comma of a list", plain);
    complain(lx->diags, "thousands-comma", span(lx, t->begin, lx->at), hint,
             "Numbers have no commas inside.");
    return true;
}

/* `12'-6"`, `12'`, `6"`, primes too: bytes of the marks and what is between; 0: none. */
static int32_t feet_inches_length(const lexer *lx)
{
    int32_t n = 0;
    int32_t marks = 0;
    const char *at = lx->text + lx->at;
    const int32_t left = lx->length - lx->at;
    while (n < left) {
        int32_t length = 1;
        const lexer_odd *odd = (unsigned char)at[n] >= 0x80 ? lexer_odd_at(at + n, &length) : NULL;
        const bool is_mark =
            at[n] == '\'' || at[n] == '"' ||
            (odd != NULL && (odd->code == 0x2032 || odd->code == 0x2033 || odd->code == 0x2019));
        const bool is_between =
            marks > 0 && (is_digit(at[n]) || strchr("-/. ", at[n]) != NULL) && at[n] != '\0';
        if (!is_mark && !(is_between && marks == 1)) {
            break;
        }
        n += length;
        marks += is_mark ? 1 : 0;
        if (marks == 2 || (is_mark && at[n - length] == '"')) {
            break;
        }
    }
    return marks == 0 ? 0 : n;
}

/* What was meant: "12 ft 6 in" for 12'-6". */
static void spell_marks(const lexer *lx, const token *t, int32_t n, char *text, size_t size)
{
    const char *at = lx->text + lx->at;
    const bool is_inches = at[0] == '"' || (n >= 3 && memcmp(at, "\xE2\x80\xB3", 3) == 0);
    int32_t begin = 1;
    while (begin < n && !is_digit(at[begin])) {
        begin++;
    }
    int32_t end = begin;
    while (end < n && (is_digit(at[end]) || strchr("-/. ", at[end]) != NULL)) {
        end++;
    }
    const int number = (int)(t->end - t->begin);
    if (begin == n) {
        snprintf(text, size, "write `%.*s %s`", number, lx->text + t->begin,
                 is_inches ? "in" : "ft");
    } else {
        snprintf(text, size, "write `%.*s ft %.*s in`", number, lx->text + t->begin,
                 (int)(end - begin), at + begin);
    }
}

static bool read_marks(lexer *lx, token *t)
{
    const int32_t n = feet_inches_length(lx);
    if (n == 0) {
        return false;
    }
    char hint[160];
    spell_marks(lx, t, n, hint, sizeof hint);
    complain(lx->diags, "feet-inches-marks", span(lx, t->begin, lx->at + n), hint,
             "Feet and inches are written with their units.");
    lx->at += n;
    return true;
}

/* `°`, `°F`, `²` and their like where a unit is expected or has just been read. */
static bool read_odd_unit(lexer *lx)
{
    if (lx->at >= lx->length || (unsigned char)lx->text[lx->at] < 0x80) {
        return false;
    }
    int32_t length;
    const lexer_odd *odd = lexer_odd_at(lx->text + lx->at, &length);
    const bool joins =
        odd->acts_as == '*' && lx->at + length < lx->length && is_letter(lx->text[lx->at + length]);
    if (odd->acts_as != '^' && !joins) { /* `kip·ft` */
        return false;
    }
    tell_odd(lx, odd, length);
    lx->at += length;
    while (lx->at < lx->length && is_letter(lx->text[lx->at])) {
        lx->at++;
    }
    return true;
}

/* A word after a number that is a unit spelled otherwise: `kips`, `KSI`, `ft2`. */
static bool read_misspelled_unit(lexer *lx)
{
    int32_t n = lx->at;
    while (n < lx->length && (is_letter(lx->text[n]) || is_digit(lx->text[n]))) {
        n++;
    }
    char spelled[32];
    if (!quantity_spell_unit(lx->text + lx->at, (size_t)(n - lx->at), spelled, sizeof spelled)) {
        return false;
    }
    char hint[64];
    snprintf(hint, sizeof hint, "write `%s`", spelled);
    complain(lx->diags, "unit-spelling", span(lx, lx->at, n), hint,
             "The unit `%.*s` is written `%s` here.", (int)(n - lx->at), lx->text + lx->at,
             spelled);
    lx->at = n;
    while (lx->at < lx->length && lx->text[lx->at] > ' ' &&
           strchr("/*^-0123456789", lx->text[lx->at]) != NULL) {
        lx->at++; /* the rest of the unit expression */
        while (lx->at < lx->length && is_letter(lx->text[lx->at])) {
            lx->at++;
        }
    }
    return true;
}

/* `ft^ 2`, `ft^x`, `ft-kip`: what touches a unit and does not belong there. */
static bool read_unit_tail(lexer *lx, const token *t)
{
    const char *at = lx->text + lx->at;
    const size_t left = (size_t)(lx->length - lx->at);
    if (left > 0 && at[0] == '^') {
        int32_t n = lx->at + 1;
        while (n < lx->length && (lx->text[n] == ' ' || is_digit(lx->text[n]))) {
            n++;
        }
        complain(lx->diags, "unit-power", span(lx, t->unit_begin, n), "write `ft^2`",
                 "A power of a unit is one digit, without spaces around `^`.");
        lx->at = n;
        return true;
    }
    if (left > 1 && at[0] == '-' && is_letter(at[1])) {
        const size_t n = quantity_unit_length(at + 1, left - 1);
        if (n > 0) {
            complain(lx->diags, "unit-product", span(lx, t->unit_begin, lx->at + 1 + (int32_t)n),
                     "write `kip-ft`, `kip-in`, `lb-ft`, `lb-in`, `kN-m` or `N-m`",
                     "Only moments are written with a hyphen, the force first.");
            lx->at += 1 + (int32_t)n;
            return true;
        }
    }
    return read_odd_unit(lx);
}

/* What follows the digits: a unit, or something that was meant as one. */
static void read_unit(lexer *lx, token *t)
{
    if (read_marks(lx, t)) {
        t->bad = true;
        t->end = lx->at;
        return;
    }
    skip_blanks(lx);
    const size_t n = quantity_unit_length(lx->text + lx->at, (size_t)(lx->length - lx->at));
    if (n > 0) {
        t->unit_begin = lx->at;
        lx->at += (int32_t)n;
        t->is_integer = false;
        t->bad = read_unit_tail(lx, t);
        kl_unit unit;
        if (!t->bad && !quantity_unit(lx->text + t->unit_begin, n, &unit)) {
            complain(lx->diags, "unit-too-long", span(lx, t->unit_begin, lx->at), NULL,
                     "A unit has at most %d characters, and powers that make sense.",
                     QUANTITY_UNIT_LENGTH);
            t->bad = true;
        }
        t->end = lx->at;
    } else if (read_odd_unit(lx) || read_misspelled_unit(lx)) {
        t->bad = true;
        t->is_integer = false;
        t->end = lx->at;
    } else {
        lx->at = t->end; /* the blanks belong to nobody */
    }
}

static kl_status read_number(lexer *lx)
{
    const char *text = lx->text + lx->at;
    const size_t n = quantity_number_length(text, (size_t)(lx->length - lx->at));
    token t = {.kind = TOKEN_NUMBER, .begin = lx->at, .end = lx->at + (int32_t)n};
    t.number_end = t.end;
    lx->at = t.end;
    t.is_integer = true;
    for (size_t i = 0; i < n; i++) {
        t.is_integer = t.is_integer && is_digit(text[i]);
    }
    if (n > QUANTITY_NUMBER_LENGTH) {
        complain(lx->diags, "number-too-long", span(lx, t.begin, t.end), NULL,
                 "A number has at most %d characters.", QUANTITY_NUMBER_LENGTH);
        t.bad = true;
    } else if (!quantity_number(text, n, &t.value)) {
        complain(lx->diags, "number-not-finite", span(lx, t.begin, t.end), NULL,
                 "The number is not finite.");
        t.bad = true;
    }
    if (skip_thousands(lx, &t)) {
        t.bad = true;
        t.end = t.number_end = lx->at;
    }
    const bool was_bad = t.bad;
    read_unit(lx, &t);
    t.bad = t.bad || was_bad;
    return push(lx, t);
}

/* ---- the rest ---------------------------------------------------------------------------------------- */

static kl_status read_word(lexer *lx)
{
    token t = {.kind = TOKEN_WORD, .begin = lx->at};
    while (lx->at < lx->length && (is_letter(lx->text[lx->at]) || is_digit(lx->text[lx->at]))) {
        lx->at++;
    }
    t.end = lx->at;
    if (t.end - t.begin > LEXER_NAME_LENGTH) {
        complain(lx->diags, "name-too-long", span(lx, t.begin, t.end), NULL,
                 "A name has at most %d characters.", LEXER_NAME_LENGTH);
        t.bad = true;
    }
    return push(lx, t);
}

/* Titles are printed as they are, and a terminal obeys some of these. */
static bool refuse_controls(lexer *lx, int32_t begin, int32_t end)
{
    for (int32_t i = begin; i < end; i++) {
        const int32_t length = source_control(lx->text + i);
        if (length > 0) {
            complain(lx->diags, "string-control", span(lx, i, i + length), NULL,
                     "The control character 0x%02X has no place in a text in quotation marks.",
                     (unsigned)(unsigned char)lx->text[i + length - 1]);
            return true;
        }
    }
    return false;
}

static kl_status read_string(lexer *lx)
{
    token t = {.kind = TOKEN_STRING, .begin = lx->at++};
    while (lx->at < lx->length && lx->text[lx->at] != '"' && lx->text[lx->at] != '\n' &&
           lx->text[lx->at] != '\r') {
        lx->at++;
    }
    if (lx->at < lx->length && lx->text[lx->at] == '"') {
        lx->at++;
    } else {
        complain(lx->diags, "string-not-closed", span(lx, t.begin, lx->at), "close it with `\"`",
                 "The text in quotation marks does not end on its line.");
        t.bad = true;
    }
    t.end = lx->at;
    if (t.end - t.begin > LEXER_STRING_LENGTH + 2) { /* its quotation marks do not count */
        complain(lx->diags, "string-too-long", span(lx, t.begin, t.end), NULL,
                 "A text in quotation marks has at most %d bytes.", LEXER_STRING_LENGTH);
        t.bad = true;
    }
    t.bad = refuse_controls(lx, t.begin, t.end) || t.bad;
    return push(lx, t);
}

static kl_status read_comment(lexer *lx)
{
    int32_t n = 0;
    while (lx->at + n < lx->length && lx->text[lx->at + n] != '\n' &&
           lx->text[lx->at + n] != '\r') {
        n++;
    }
    return push_plain(lx, TOKEN_COMMENT, n);
}

static token_kind mark_kind(char c)
{
    static const char marks[] = "{}(),;+-*/^=%";
    static const token_kind kinds[] = {TOKEN_OPEN,   TOKEN_CLOSE,     TOKEN_LEFT,  TOKEN_RIGHT,
                                       TOKEN_COMMA,  TOKEN_SEMICOLON, TOKEN_PLUS,  TOKEN_MINUS,
                                       TOKEN_TIMES,  TOKEN_DIVIDE,    TOKEN_POWER, TOKEN_EQUALS,
                                       TOKEN_PERCENT};
    const char *at = c != '\0' ? strchr(marks, c) : NULL;
    return at != NULL ? kinds[at - marks] : TOKEN_END;
}

static kl_status read_token(lexer *lx)
{
    const char c = lx->text[lx->at];
    char next = '\0';
    if (lx->at + 1 < lx->length) {
        next = lx->text[lx->at + 1];
    }
    if (c == '\n' || c == '\r') {
        return push_plain(lx, TOKEN_NEWLINE, c == '\r' && next == '\n' ? 2 : 1);
    }
    if (is_letter(c)) {
        return read_word(lx);
    }
    if (is_digit(c) || (c == '.' && is_digit(next))) {
        return read_number(lx);
    }
    if (c == '"') {
        return read_string(lx);
    }
    if (c == '#') {
        return read_comment(lx);
    }
    const token_kind kind = mark_kind(c);
    return kind != TOKEN_END ? push_plain(lx, kind, 1) : read_odd(lx);
}

/* Parentheses that close again before a block or phrase does: line ends inside them end nothing. A parenthesis that
 * is left open must not swallow the rest of the file, so only outermost pairs count, each seen once. */
static void mark_parentheses(lexer_tokens *tokens)
{
    size_t depth = 0;
    size_t outermost = 0;
    for (size_t i = 0; i < tokens->count; i++) {
        const unsigned kind = tokens->items[i].kind;
        if (kind == TOKEN_LEFT) {
            outermost = depth == 0 ? i : outermost;
            depth++;
        } else if (kind == TOKEN_RIGHT && depth > 0) {
            depth--;
            for (size_t k = outermost; depth == 0 && k < i; k++) {
                if (tokens->items[k].kind == TOKEN_NEWLINE) {
                    tokens->items[k].kind = TOKEN_CONTINUED;
                }
            }
        } else if (kind == TOKEN_OPEN || kind == TOKEN_CLOSE || kind == TOKEN_SEMICOLON ||
                   kind == TOKEN_EQUALS) {
            depth = 0;
        }
    }
}

/* Line ends after a comma (comments and empty lines between) end nothing. */
static void mark_commas(lexer_tokens *tokens)
{
    bool after_comma = false;
    for (size_t i = 0; i < tokens->count; i++) {
        const unsigned kind = tokens->items[i].kind;
        if (kind == TOKEN_COMMA) {
            after_comma = true;
        } else if (kind == TOKEN_NEWLINE && after_comma) {
            tokens->items[i].kind = TOKEN_CONTINUED;
        } else if (kind != TOKEN_COMMENT && kind != TOKEN_CONTINUED) {
            after_comma = false;
        }
    }
}

kl_status
lexer_read(const text_sources *sources, int32_t file, kl_diags *diags, lexer_tokens *tokens)
{
    const text_source *source = source_at(sources, file);
    lexer lx = {.text = source->text,
                .length = source->length,
                .at = source->lines[0], /* behind a byte order mark */
                .file = file,
                .diags = diags,
                .tokens = tokens};
    KL_TRY(make_room(&lx));
    for (;;) {
        skip_blanks(&lx);
        if (lx.at >= lx.length || complain_is_full(diags)) {
            break;
        }
        KL_TRY(read_token(&lx));
    }
    KL_TRY(push(&lx, (token){.kind = TOKEN_END, .begin = lx.at, .end = lx.at}));
    mark_parentheses(tokens);
    mark_commas(tokens);
    return KL_OK;
}

void lexer_free(lexer_tokens *tokens)
{
    mem_free(tokens->items);
    *tokens = (lexer_tokens){0};
}
