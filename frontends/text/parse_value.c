/* parse_value.c - one value of each kind: names, choices, texts, numbers, units.
 * Quantities, points and stations are in parse_quantity.c.
 * SPDX-License-Identifier: MIT */
#include "parse_value.h"

#include <stdio.h>
#include <stdlib.h>
#include <string.h>

#include "complain.h"
#include "mem.h"
#include "quantity.h"
#include "str.h"

bool parse_fail(parser *p, kl_status status)
{
    if (p->failure == KL_OK && status != KL_OK) {
        p->failure = status;
    }
    return false;
}

kl_origin parse_here(const parser *p)
{
    return cursor_origin(&p->cursor, cursor_peek(&p->cursor));
}

bool parse_list_add(parser *p, parse_list *l, const void *item)
{
    if (l->count == PARSER_LIST) {
        complain(p->diags, "list-too-long", parse_here(p), NULL, "A list has at most %d entries.",
                 PARSER_LIST);
        return false;
    }
    const kl_status status =
        mem_grow(&p->list, &p->list_bytes, (l->count + 1) * l->size, 1, PARSER_LIST * l->size);
    if (status != KL_OK) {
        return parse_fail(p, status);
    }
    memcpy((char *)p->list + l->count * l->size, item, l->size);
    l->count++;
    return true;
}

const void *parse_list_end(parser *p, const parse_list *l, bool ok)
{
    const void *copy = ok ? arena_copy(p->memory, p->list, l->count, l->size) : NULL;
    if (ok && copy == NULL) {
        parse_fail(p, KL_NO_MEMORY);
    }
    return copy;
}

/* ---- names ------------------------------------------------------------------------------------------- */

static bool take_name(parser *p, text_name *name)
{
    const token *t = cursor_take(&p->cursor);
    name->text = arena_text(p->memory, cursor_text(&p->cursor, t), token_length(t));
    name->origin = cursor_origin(&p->cursor, t);
    return name->text != NULL ? !t->bad : parse_fail(p, KL_NO_MEMORY);
}

static bool tell_not_a_name(parser *p, const grammar_row *row, const grammar_value *spec)
{
    char found[64];
    const bool has_digits = cursor_is(&p->cursor, TOKEN_NUMBER);
    complain(p->diags, "expected-name", parse_here(p),
             has_digits ? "names begin with a letter" : NULL,
             "`%s` takes the name of a %s here, not %s.", row->word, spec->of,
             cursor_describe(&p->cursor, found, sizeof found));
    return false;
}

/* `col-1`: a hyphen that touches a name. */
static bool check_hyphen(parser *p, const token *name)
{
    const token *next = cursor_peek(&p->cursor);
    if (next->kind != TOKEN_MINUS || next->begin != name->end) {
        return true;
    }
    complain(p->diags, "hyphen-in-name", cursor_span(&p->cursor, name, next),
             "join the parts with `_`", "Names have letters, digits and `_`, no hyphens.");
    return false;
}

static bool
read_new_name(parser *p, const grammar_row *row, const grammar_value *spec, text_name *name)
{
    const token *t = cursor_peek(&p->cursor);
    if (t->kind != TOKEN_WORD) {
        return tell_not_a_name(p, row, spec);
    }
    const char *text = cursor_text(&p->cursor, t);
    const size_t length = token_length(t);
    const bool is_value_name = row->inner == IN_LET;
    const char *why = kl_unit_find(text, length) != NULL  ? "a unit"
                      : grammar_is_reserved(text, length) ? "a word of the language"
                      : grammar_is_cause(text, length)    ? "a cause of stress"
                      : !is_value_name                    ? NULL
                      : grammar_is_function(text, length) ? "a function"
                      : str_equal("pi", text, length)     ? "a number"
                                                          : NULL;
    if (why != NULL) {
        complain(p->diags, "reserved-name", parse_here(p), "choose another name",
                 "`%.*s` is %s and cannot be a name.", (int)length, text, why);
        return false;
    }
    return take_name(p, name) && check_hyphen(p, t);
}

bool parse_name(parser *p, const grammar_row *row, const grammar_value *spec, text_name *name)
{
    const token *t = cursor_peek(&p->cursor);
    if (t->kind != TOKEN_WORD || grammar_is_reserved(cursor_text(&p->cursor, t), token_length(t))) {
        return tell_not_a_name(p, row, spec);
    }
    return take_name(p, name) && check_hyphen(p, t);
}

/* Does the next token go on with a list of names, in a phrase whose marks are those of `stop`? */
static bool is_further_name(const parser *p, grammar_context stop)
{
    const token *t = cursor_peek(&p->cursor);
    const char *text = cursor_text(&p->cursor, t);
    const size_t length = token_length(t);
    return t->kind == TOKEN_WORD && !grammar_is_reserved(text, length) &&
           (stop == IN_NOTHING || grammar_index_find(&p->grammar, stop, text, length) == NULL);
}

static bool read_names(parser *p,
                       const grammar_row *row,
                       const grammar_value *spec,
                       grammar_context stop,
                       text_value *out)
{
    parse_list names = {.size = sizeof(text_name)};
    bool ok = true;
    do {
        text_name name;
        ok = parse_name(p, row, spec, &name) && parse_list_add(p, &names, &name);
        if (ok && cursor_is(&p->cursor, TOKEN_COMMA)) {
            complain(p->diags, "comma-between-names", parse_here(p), "leave the comma out",
                     "Names of a list stand side by side, without commas.");
            ok = false;
        }
    } while (ok && is_further_name(p, stop));
    out->names = parse_list_end(p, &names, ok);
    out->count = (kl_index)names.count;
    return out->names != NULL;
}

static bool
read_one_name(parser *p, const grammar_row *row, const grammar_value *spec, text_value *out)
{
    text_name name;
    const bool is_new = (spec->kinds & GRAMMAR_NEW_NAME) != 0;
    if (!(is_new ? read_new_name(p, row, spec, &name) : parse_name(p, row, spec, &name))) {
        return false;
    }
    out->names = arena_copy(p->memory, &name, 1, sizeof name);
    return out->names != NULL ? true : parse_fail(p, KL_NO_MEMORY);
}

/* ---- choices ----------------------------------------------------------------------------------------- */

/* How many tokens the choice has, and how many of them come next. */
static size_t match_choice(const parser *p, const grammar_choice *choice, size_t *words)
{
    size_t matched = 0;
    *words = 0;
    bool matches = true;
    for (size_t i = 0; i < choice->length;) {
        size_t n = 0;
        while (i + n < choice->length && choice->text[i + n] != ' ') {
            n++;
        }
        const token *t = cursor_ahead(&p->cursor, *words);
        const bool is_text = t->kind == TOKEN_WORD || (t->kind == TOKEN_NUMBER && t->is_integer);
        matches = matches && is_text && token_length(t) == n &&
                  memcmp(cursor_text(&p->cursor, t), choice->text + i, n) == 0;
        matched += matches ? 1 : 0;
        (*words)++;
        i += n + 1;
    }
    return matched;
}

/* The longest choice that comes next; `partly` when only the first words of one do. */
static bool
find_choice(const parser *p, const char *choices, grammar_choice *best, size_t *words, bool *partly)
{
    bool found = false;
    *partly = false;
    *words = 0;
    grammar_choice choice;
    for (size_t i = 0; grammar_choice_at(choices, i, &choice); i++) {
        size_t count;
        const size_t matched = match_choice(p, &choice, &count);
        *partly = *partly || matched > 0;
        if (matched == count && count > *words) {
            *best = choice;
            *words = count;
            found = true;
        }
    }
    return found;
}

static void near_choice(const parser *p, const char *choices, char *hint, size_t size)
{
    const token *t = cursor_peek(&p->cursor);
    int best = 3;
    grammar_choice choice;
    for (size_t i = 0; grammar_choice_at(choices, i, &choice); i++) {
        const size_t first = strcspn(choice.text, " |");
        const int far =
            str_distance(cursor_text(&p->cursor, t), token_length(t), choice.text, first);
        if (far < best && far < (int)first) {
            best = far;
            snprintf(hint, size, "did you mean `%.*s`?", (int)choice.length, choice.text);
        }
    }
}

static bool has_choice(const char *choices, const char *word)
{
    grammar_choice choice;
    for (size_t i = 0; grammar_choice_at(choices, i, &choice); i++) {
        if (str_equal(word, choice.text, choice.length)) {
            return true;
        }
    }
    return false;
}

/* A block, or one of its words, where its choice is left out: `creep { phi 2 }`. */
static void example_of_choice(
    const parser *p, const grammar_row *row, const grammar_value *spec, char *hint, size_t size)
{
    size_t count;
    const grammar_row *inner = grammar_rows_of(row->inner, &count);
    const token *t = cursor_peek(&p->cursor);
    const bool own = count > 0 && has_choice(spec->choices, "user");
    if (own) {
        snprintf(hint, size, "with values of your own: `%s`", inner[0].example);
    } else if (t->kind == TOKEN_OPEN ||
               grammar_find(row->inner, cursor_text(&p->cursor, t), token_length(t)) != NULL) {
        snprintf(hint, size, "for example `%s`", row->example);
    }
}

static bool
tell_unknown_choice(parser *p, const grammar_row *row, const grammar_value *spec, bool partly)
{
    char found[64];
    char listed[300];
    char hint[100] = "";
    parse_list_choices(spec->choices, listed, sizeof listed);
    cursor_describe(&p->cursor, found, sizeof found);
    if (partly) {
        complain(p->diags, "incomplete-choice", parse_here(p), NULL,
                 "%s goes on with a word or a year: `%s` takes %s.", found, row->word, listed);
        return false;
    }
    near_choice(p, spec->choices, hint, sizeof hint);
    if (hint[0] == '\0' && row->inner != IN_NOTHING) {
        example_of_choice(p, row, spec, hint, sizeof hint);
    }
    const bool or_quantity = (spec->kinds & GRAMMAR_QUANTITY) != 0;
    complain(p->diags, "unknown-choice", parse_here(p), hint, "`%s` takes %s%s%s, not %s.",
             row->word, listed, or_quantity ? ", or a value such as " : "",
             or_quantity ? quantity_example(spec->measure) : "", found);
    return false;
}

static bool take_choice(
    parser *p, const grammar_row *row, const grammar_choice *choice, size_t words, text_value *out)
{
    text_name name = {.origin = parse_here(p)};
    const token *first = cursor_peek(&p->cursor);
    for (size_t i = 0; i < words; i++) {
        cursor_take(&p->cursor);
    }
    name.origin = cursor_span(&p->cursor, first, cursor_last(&p->cursor));
    if (choice->later) {
        complain(p->diags, "not-computed-yet", name.origin, row->later,
                 "`%s %.*s` is not computed yet.", row->word, (int)choice->length, choice->text);
        return false;
    }
    size_t length = choice->length;
    for (size_t i = 0; i + 1 < choice->length; i++) {
        if (choice->text[i] == ' ' && choice->text[i + 1] >= '0' && choice->text[i + 1] <= '9') {
            out->year = (int)strtol(choice->text + i + 1, NULL, 10);
            length = i;
            break;
        }
    }
    name.text = arena_text(p->memory, choice->text, length);
    out->names = name.text != NULL ? arena_copy(p->memory, &name, 1, sizeof name) : NULL;
    return out->names != NULL ? true : parse_fail(p, KL_NO_MEMORY);
}

static bool
read_choice(parser *p, const grammar_row *row, const grammar_value *spec, text_value *out)
{
    grammar_choice choice;
    size_t words;
    bool partly;
    if (!find_choice(p, spec->choices, &choice, &words, &partly)) {
        return tell_unknown_choice(p, row, spec, partly);
    }
    return take_choice(p, row, &choice, words, out);
}

/* ---- the rest ---------------------------------------------------------------------------------------- */

static bool read_string(parser *p, const grammar_row *row, text_value *out)
{
    const token *t = cursor_peek(&p->cursor);
    if (t->kind != TOKEN_STRING) {
        char found[64];
        complain(p->diags, "expected-text", parse_here(p), "write it in quotation marks: `\"…\"`",
                 "`%s` takes a text in quotation marks here, not %s.", row->word,
                 cursor_describe(&p->cursor, found, sizeof found));
        return false;
    }
    cursor_take(&p->cursor);
    if (t->bad) {
        return false;
    }
    out->string = arena_text(p->memory, cursor_text(&p->cursor, t) + 1, token_length(t) - 2);
    return out->string != NULL ? true : parse_fail(p, KL_NO_MEMORY);
}

static bool read_integer(parser *p, const grammar_row *row, text_value *out)
{
    enum { DIGITS = 9 };
    const token *t = cursor_peek(&p->cursor);
    if (t->kind != TOKEN_NUMBER || !t->is_integer || token_length(t) > DIGITS) {
        char found[64];
        if (!t->bad) {
            complain(p->diags, "expected-integer", parse_here(p), NULL,
                     "`%s` takes a whole number without a unit, of at most %d digits, not %s.",
                     row->word, (int)DIGITS, cursor_describe(&p->cursor, found, sizeof found));
        }
        return false;
    }
    cursor_take(&p->cursor);
    out->integer = (long)t->value;
    return !t->bad;
}

/* The rest of the phrase is a unit: `kip-ft`, `kN/m^2`, `per degF`. */
static bool read_unit(parser *p, const grammar_row *row, kl_measure measure, text_value *out)
{
    const token *first = cursor_peek(&p->cursor);
    while (!cursor_is_end(&p->cursor)) {
        cursor_take(&p->cursor);
    }
    const token *last = cursor_last(&p->cursor);
    text_name name = {.origin = cursor_span(&p->cursor, first, last)};
    const size_t length = last->end > first->begin ? (size_t)(last->end - first->begin) : 0;
    kl_unit unit;
    if (length == 0 || !quantity_unit(p->cursor.text + first->begin, length, &unit)) {
        complain(p->diags, "expected-unit", name.origin, NULL, "`%s` takes a unit here.",
                 row->word);
        return false;
    }
    const text_quantity q = {
        .value = 1.0, .dimension = unit.dimension, .percent = true, .origin = name.origin};
    const kl_dimension wanted = kl_measure_dimension(measure);
    if (!kl_dimension_equal(wanted, unit.dimension)) {
        return parse_tell_dimension(p, row, measure, &q);
    }
    name.text = arena_text(p->memory, p->cursor.text + first->begin, length);
    out->names = name.text != NULL ? arena_copy(p->memory, &name, 1, sizeof name) : NULL;
    return out->names != NULL ? true : parse_fail(p, KL_NO_MEMORY);
}

/* Which of the kinds that the row allows comes next. */
static unsigned next_kind(const parser *p, const grammar_value *spec)
{
    if (spec->kinds == (GRAMMAR_CHOICE | GRAMMAR_QUANTITY)) {
        const bool is_value =
            expression_begins(&p->cursor, &p->lets) || cursor_is_word(&p->cursor, "square");
        return is_value ? GRAMMAR_QUANTITY : GRAMMAR_CHOICE;
    }
    if (spec->kinds == (GRAMMAR_POINT | GRAMMAR_STATION)) {
        return parse_is_point(p) ? GRAMMAR_POINT : GRAMMAR_STATION;
    }
    return spec->kinds;
}

bool parse_value_begins(const parser *p, const grammar_value *spec)
{
    switch (spec->kinds) {
    case GRAMMAR_STRING:
        return cursor_is(&p->cursor, TOKEN_STRING);
    case GRAMMAR_QUANTITY:
        return expression_begins(&p->cursor, &p->lets);
    default:
        return !cursor_is_end(&p->cursor);
    }
}

static bool read_kind(parser *p,
                      const grammar_row *row,
                      const grammar_value *spec,
                      grammar_context stop,
                      text_value *out)
{
    switch (next_kind(p, spec)) {
    case GRAMMAR_NEW_NAME:
    case GRAMMAR_NAME:
        out->kind = VALUE_NAME;
        return read_one_name(p, row, spec, out);
    case GRAMMAR_NAMES:
        out->kind = VALUE_NAMES;
        return read_names(p, row, spec, stop, out);
    case GRAMMAR_CHOICE:
        out->kind = VALUE_CHOICE;
        return read_choice(p, row, spec, out);
    case GRAMMAR_STRING:
        out->kind = VALUE_STRING;
        return read_string(p, row, out);
    case GRAMMAR_INTEGER:
        out->kind = VALUE_INTEGER;
        return read_integer(p, row, out);
    case GRAMMAR_QUANTITIES:
        out->kind = VALUE_QUANTITIES;
        return parse_quantities(p, row, spec, out);
    case GRAMMAR_POINT:
    case GRAMMAR_POINTS:
        out->kind = VALUE_POINTS;
        return parse_points(p, row, spec, out);
    case GRAMMAR_STATION:
        out->kind = VALUE_STATION;
        return parse_station(p, row, out);
    case GRAMMAR_UNIT:
        out->kind = VALUE_CHOICE;
        return read_unit(p, row, spec->measure, out);
    default:
        out->kind = VALUE_QUANTITY;
        return parse_quantity(p, row, spec, out);
    }
}

bool parse_value(parser *p,
                 const grammar_row *row,
                 const grammar_value *spec,
                 grammar_context stop,
                 text_value *out)
{
    const token *first = cursor_peek(&p->cursor);
    *out = (text_value){.count = 1};
    if (first->kind == TOKEN_EQUALS) {
        return parse_tell_equals(p);
    }
    if (!read_kind(p, row, spec, stop, out)) {
        return false;
    }
    out->origin = cursor_span(&p->cursor, first, cursor_last(&p->cursor));
    return true;
}
