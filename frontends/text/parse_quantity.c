/* parse_quantity.c - quantities with their dimensions, `square` and `level`, points, stations.
 * SPDX-License-Identifier: MIT */
#include <math.h>
#include <stdio.h>

#include "complain.h"
#include "parse_value.h"
#include "quantity.h"

/* ---- quantities -------------------------------------------------------------------------------------- */

/* Behind a number without a unit: a word that nothing here goes on with. */
static bool is_strange_word(const parser *p, const grammar_row *row)
{
    const token *t = cursor_peek(&p->cursor);
    const char *text = cursor_text(&p->cursor, t);
    const size_t length = token_length(t);
    return t->kind == TOKEN_WORD && cursor_last(&p->cursor)->kind == TOKEN_NUMBER &&
           !grammar_is_reserved(text, length) && grammar_find(row->context, text, length) == NULL &&
           grammar_find(row->inner, text, length) == NULL;
}

bool parse_tell_dimension(parser *p,
                          const grammar_row *row,
                          kl_measure measure,
                          const text_quantity *q)
{
    char wanted[64];
    char got[64];
    char hint[100];
    quantity_say(kl_measure_dimension(measure), wanted, sizeof wanted);
    quantity_say(q->dimension, got, sizeof got);
    const char *example = quantity_example(measure);
    const bool lacks_unit = quantity_is_pure(q->dimension) && !q->dimension.is_angle && !q->percent;
    const bool wants_unit =
        !quantity_is_pure(kl_measure_dimension(measure)) || kl_measure_dimension(measure).is_angle;
    if (lacks_unit && wants_unit && is_strange_word(p, row)) {
        parse_tell_unknown_unit(p, row->word);
        return false;
    }
    if (lacks_unit && wants_unit && parse_tell_decimal_comma(p)) {
        return false;
    }
    if (lacks_unit && wants_unit) {
        snprintf(hint, sizeof hint, "write the number with its unit: `%s`, for example", example);
        complain(p->diags, "missing-unit", q->origin, hint, "`%s` takes %s; this has no unit.",
                 row->word, wanted);
        return false;
    }
    snprintf(hint, sizeof hint, "`%s` would do", example);
    complain(p->diags, "wrong-dimension", q->origin, hint, "`%s` takes %s; this is %s.", row->word,
             wanted, got);
    return false;
}

static bool check_dimension(parser *p, const grammar_row *row, kl_measure measure, text_quantity *q)
{
    if (measure == GRAMMAR_ANY) {
        return true;
    }
    const kl_dimension wanted = kl_measure_dimension(measure);
    quantity_weigh(measure, &q->value, &q->dimension);
    const bool angles = !quantity_is_pure(wanted) || wanted.is_angle == q->dimension.is_angle;
    return kl_dimension_equal(wanted, q->dimension) && angles
               ? true
               : parse_tell_dimension(p, row, measure, q);
}

/* `square 12 ft`: along the skewed line it is longer. An intensity is only marked (grammar.h). */
static bool apply_square(parser *p, const grammar_row *row, kl_measure measure, text_quantity *q)
{
    const char *word = q->square ? "square" : "level";
    if (measure == KL_MEASURE_LINE_LOAD) {
        return true;
    }
    const bool is_length = kl_dimension_equal(q->dimension, (kl_dimension){.length = 1});
    const bool has_place =
        (row->flags & GRAMMAR_SQUARE) != 0 || (row->context == IN_LET && q->square);
    if (!has_place || !is_length) {
        complain(
            p->diags, "square-not-here", q->origin, NULL,
            "`%s` belongs before a length along the frame or a horizontal coordinate, not here.",
            word);
        return false;
    }
    if (q->square && !p->has_skew) {
        complain(p->diags, "square-without-skew", q->origin,
                 "write `skew 0 deg` when the bent is not skewed",
                 "`square` divides by the cosine of the model's `skew`, and the model has none.");
        return false;
    }
    q->value = q->square ? q->value / cos(p->skew) : q->value;
    return true;
}

static bool read_quantity(parser *p, const grammar_row *row, kl_measure measure, text_quantity *q)
{
    const token *first = cursor_peek(&p->cursor);
    *q = (text_quantity){.square = cursor_is_word(&p->cursor, "square"),
                         .level = cursor_is_word(&p->cursor, "level")};
    if (q->square || q->level) {
        cursor_take(&p->cursor);
    }
    expression_value value;
    if (!expression_read(&p->cursor, &p->lets, &value)) {
        return false;
    }
    q->value = value.value;
    q->dimension = value.dimension;
    q->percent = value.percent;
    q->origin = cursor_span(&p->cursor, first, cursor_last(&p->cursor));
    if (value.bad) {
        return false; /* told by the lexer */
    }
    return check_dimension(p, row, measure, q) &&
           (!(q->square || q->level) || apply_square(p, row, measure, q));
}

/* The last of the few plain words behind the value, as `down`; the value itself where there is none. */
static const token *last_word_behind(const parser *p, size_t value)
{
    enum { FEW = 3 };
    size_t i = value;
    while (i < value + FEW && cursor_ahead(&p->cursor, i + 1)->kind == TOKEN_WORD) {
        i++;
    }
    return cursor_ahead(&p->cursor, i);
}

/* `settle B 10 mm down`: the place stands where the value belongs. @return false after telling so. */
static bool check_value_first(parser *p, const grammar_row *row)
{
    const token *t = cursor_peek(&p->cursor);
    const token *value = cursor_ahead(&p->cursor, 1);
    const char *mark = grammar_find(row->inner, "at", 2) != NULL   ? "at"
                       : grammar_find(row->inner, "on", 2) != NULL ? "on"
                                                                   : NULL;
    if (mark == NULL || t->kind != TOKEN_WORD || value->kind != TOKEN_NUMBER ||
        expression_begins(&p->cursor, &p->lets) || cursor_is_word(&p->cursor, "square") ||
        cursor_is_word(&p->cursor, "level")) {
        return true;
    }
    const int rest = (int)(last_word_behind(p, 1)->end - value->end);
    char hint[200];
    snprintf(hint, sizeof hint, "write `%s %.*s %s %.*s%.*s`", row->word, (int)token_length(value),
             cursor_text(&p->cursor, value), mark, (int)token_length(t), cursor_text(&p->cursor, t),
             rest, cursor_text(&p->cursor, value) + token_length(value));
    complain(p->diags, "value-comes-first", parse_here(p), hint,
             "The value of `%s` stands right behind it, before the place.", row->word);
    return false;
}

bool parse_quantity(parser *p, const grammar_row *row, const grammar_value *spec, text_value *out)
{
    text_quantity q;
    if (!check_value_first(p, row) || !read_quantity(p, row, spec->measure, &q)) {
        return false;
    }
    out->quantities = arena_copy(p->memory, &q, 1, sizeof q);
    return out->quantities != NULL ? true : parse_fail(p, KL_NO_MEMORY);
}

static bool take_comma(parser *p)
{
    if (!cursor_is(&p->cursor, TOKEN_COMMA)) {
        return false;
    }
    cursor_take(&p->cursor);
    return true;
}

bool parse_quantities(parser *p, const grammar_row *row, const grammar_value *spec, text_value *out)
{
    parse_list quantities = {.size = sizeof(text_quantity)};
    bool ok = true;
    do {
        text_quantity q;
        ok = read_quantity(p, row, spec->measure, &q) && parse_list_add(p, &quantities, &q);
    } while (ok && take_comma(p));
    out->quantities = parse_list_end(p, &quantities, ok);
    out->count = (kl_index)quantities.count;
    return out->quantities != NULL;
}

/* ---- points ------------------------------------------------------------------------------------------ */

static bool expect_mark(parser *p, token_kind kind, const char *mark)
{
    if (!cursor_is(&p->cursor, kind)) {
        char found[64];
        complain(p->diags, "expected-point", parse_here(p), "a point is written `(0 ft, 24 ft)`",
                 "`%s` is expected here, not %s.", mark,
                 cursor_describe(&p->cursor, found, sizeof found));
        return false;
    }
    cursor_take(&p->cursor);
    return true;
}

/* `( x , y )`; only x may be `square`. */
static bool read_point(parser *p, const grammar_row *row, kl_measure measure, text_point *point)
{
    grammar_row upright = *row;
    upright.flags &= ~(unsigned)GRAMMAR_SQUARE;
    return expect_mark(p, TOKEN_LEFT, "(") && read_quantity(p, row, measure, &point->x) &&
           expect_mark(p, TOKEN_COMMA, ",") && read_quantity(p, &upright, measure, &point->y) &&
           expect_mark(p, TOKEN_RIGHT, ")");
}

bool parse_points(parser *p, const grammar_row *row, const grammar_value *spec, text_value *out)
{
    parse_list points = {.size = sizeof(text_point)};
    const bool many = (spec->kinds & GRAMMAR_POINTS) != 0;
    bool ok = true;
    do {
        text_point point = {0};
        ok = read_point(p, row, spec->measure, &point) && parse_list_add(p, &points, &point);
    } while (ok && many && take_comma(p));
    out->points = parse_list_end(p, &points, ok);
    out->count = (kl_index)points.count;
    return out->points != NULL;
}

/* `(a, b)` and not `(a + b)`: is there a comma before the parenthesis closes? */
bool parse_is_point(const parser *p)
{
    size_t depth = 0;
    for (size_t i = 0; i < 4 * EXPRESSION_DEPTH; i++) {
        const unsigned kind = cursor_ahead(&p->cursor, i)->kind;
        depth += kind == TOKEN_LEFT ? 1 : 0;
        depth -= kind == TOKEN_RIGHT && depth > 0 ? 1 : 0;
        if (depth == 0 || kind == TOKEN_NEWLINE || kind == TOKEN_END) {
            return false;
        }
        if (kind == TOKEN_COMMA && depth == 1 && i > 0) {
            return true;
        }
    }
    return false;
}

/* ---- stations ---------------------------------------------------------------------------------------- */

static bool read_share_or_length(parser *p, const grammar_row *row, text_station *station)
{
    if (!read_quantity(p, row, GRAMMAR_ANY, &station->quantity)) {
        return false;
    }
    const bool of_length = cursor_is_word(&p->cursor, "of") &&
                           token_is_word(&p->cursor, cursor_ahead(&p->cursor, 1), "length");
    station->base = of_length ? STATION_SHARE : STATION_LENGTH;
    if (!of_length) {
        return check_dimension(p, row, KL_MEASURE_STATION, &station->quantity);
    }
    cursor_take(&p->cursor);
    cursor_take(&p->cursor);
    return check_dimension(p, row, KL_MEASURE_NUMBER, &station->quantity);
}

static bool fill_station(parser *p, const grammar_row *row, text_station *station)
{
    static const char *const words[] = {"start", "mid", "end"};
    static const station_base bases[] = {STATION_START, STATION_MID, STATION_END};
    for (size_t i = 0; i < 3; i++) {
        if (cursor_is_word(&p->cursor, words[i])) {
            station->base = bases[i];
            cursor_take(&p->cursor);
            return true;
        }
    }
    const bool is_prefix =
        cursor_is_word(&p->cursor, "square") || cursor_is_word(&p->cursor, "level");
    if (cursor_is(&p->cursor, TOKEN_WORD) && !is_prefix &&
        !expression_begins(&p->cursor, &p->lets)) {
        const grammar_value node = {.of = "node"};
        station->base = STATION_NODE;
        return parse_name(p, row, &node, &station->node);
    }
    return read_share_or_length(p, row, station);
}

bool parse_station(parser *p, const grammar_row *row, text_value *out)
{
    const token *first = cursor_peek(&p->cursor);
    text_station station = {0};
    if (!fill_station(p, row, &station)) {
        return false;
    }
    station.origin = cursor_span(&p->cursor, first, cursor_last(&p->cursor));
    out->station = arena_copy(p->memory, &station, 1, sizeof station);
    return out->station != NULL ? true : parse_fail(p, KL_NO_MEMORY);
}
