/* expression.c - see expression.h. Recursive descent; every step checks dimensions and that numbers stay finite.
 * SPDX-License-Identifier: MIT */
#include "expression.h"

#include <math.h>
#include <stdio.h>
#include <string.h>

#include "complain.h"
#include "grammar.h"
#include "mem.h"
#include "near.h"
#include "quantity.h"
#include "str.h"

#define EXPRESSION_PI 3.14159265358979323846

typedef struct reader {
    text_cursor *cursor;
    const expression_lets *lets;
    int depth;
} reader;

typedef expression_value value;

static bool read_expr(reader *r, value *out);
static bool read_unary(reader *r, value *out);

/* ---- names ------------------------------------------------------------------------------------------- */

kl_status
expression_define(expression_lets *lets, const char *name, size_t length, expression_value v)
{
    if (name_table_find(&lets->names, name, length) != KL_NONE) {
        return KL_MISUSE;
    }
    void *values = lets->values;
    const kl_status grown =
        mem_grow(&values, &lets->capacity, lets->count + 1, sizeof v, EXPRESSION_LETS);
    lets->values = values;
    KL_TRY(grown);
    KL_TRY(name_table_add(&lets->names, name, length, (kl_index)lets->count));
    lets->values[lets->count++] = v;
    return KL_OK;
}

const expression_value *
expression_find(const expression_lets *lets, const char *name, size_t length)
{
    const kl_index i = name_table_find(&lets->names, name, length);
    return i != KL_NONE ? &lets->values[i] : NULL;
}

void expression_free(expression_lets *lets)
{
    name_table_free(&lets->names);
    mem_free(lets->values);
    *lets = (expression_lets){0};
}

static bool is_name_of_value(const text_cursor *c, const expression_lets *lets, const token *t)
{
    const char *text = cursor_text(c, t);
    const size_t length = token_length(t);
    return str_equal("pi", text, length) || expression_find(lets, text, length) != NULL;
}

bool expression_begins(const text_cursor *c, const expression_lets *lets)
{
    const token *t = cursor_peek(c);
    const unsigned kind = t->kind;
    if (kind == TOKEN_WORD) {
        const bool calls = cursor_ahead(c, 1)->kind == TOKEN_LEFT;
        return (calls && grammar_is_function(cursor_text(c, t), token_length(t))) ||
               is_name_of_value(c, lets, t);
    }
    return kind == TOKEN_NUMBER || kind == TOKEN_PLUS || kind == TOKEN_MINUS || kind == TOKEN_LEFT;
}

/* ---- messages ---------------------------------------------------------------------------------------- */

static bool tell_mismatch(reader *r, kl_origin where, const char *verb, value a, value b)
{
    char first[64];
    char second[64];
    quantity_say(a.dimension, first, sizeof first);
    quantity_say(b.dimension, second, sizeof second);
    const bool one_is_bare = quantity_is_pure(a.dimension) != quantity_is_pure(b.dimension);
    complain(r->cursor->diags, "unlike-quantities", where,
             one_is_bare ? "write the unit of each number" : NULL,
             "Here %s and %s are %s, which are not alike.", first, second, verb);
    return false;
}

static bool same_kind(value a, value b)
{
    const bool angles =
        !quantity_is_pure(a.dimension) || a.dimension.is_angle == b.dimension.is_angle;
    return a.bad || b.bad || (kl_dimension_equal(a.dimension, b.dimension) && angles);
}

static bool check_finite(reader *r, kl_origin where, value *v)
{
    if (!isfinite(v->value)) {
        complain(r->cursor->diags, "value-not-finite", where, NULL,
                 "The value of this is not a finite number.");
        return false;
    }
    return true;
}

static bool enter(reader *r)
{
    if (++r->depth > EXPRESSION_DEPTH) {
        complain(r->cursor->diags, "expression-too-deep",
                 cursor_origin(r->cursor, cursor_peek(r->cursor)), "name a part of it with `let`",
                 "The expression has more than %d parts inside each other.", EXPRESSION_DEPTH);
        return false;
    }
    return true;
}

/* A parenthesis that ought to close here does not, or a word stands where the unit of a number would. */
static bool tell_not_closed(reader *r, const token *left)
{
    const token *next = cursor_peek(r->cursor);
    const token *last = cursor_last(r->cursor);
    if (next->kind == TOKEN_WORD && last->kind == TOKEN_NUMBER && last->unit_begin == 0) {
        complain(r->cursor->diags, "unknown-unit", cursor_origin(r->cursor, next),
                 "`kernline words units` lists the units", "`%.*s` is no unit.",
                 (int)token_length(next), cursor_text(r->cursor, next));
        return false;
    }
    complain(r->cursor->diags, "parenthesis-not-closed", cursor_origin(r->cursor, left),
             "close it with `)`; the two coordinates of a point are parted by a comma",
             "The parenthesis is not closed.");
    return false;
}

/* ---- atoms ------------------------------------------------------------------------------------------- */

static bool has_unit(const reader *r, const token *t, const char *word)
{
    return t->kind == TOKEN_NUMBER && t->unit_begin > 0 &&
           str_equal(word, r->cursor->text + t->unit_begin, (size_t)(t->end - t->unit_begin));
}

static value literal(const reader *r, const token *t)
{
    value v = {.value = t->value, .bad = t->bad};
    if (t->unit_begin == 0 || t->bad) {
        return v;
    }
    kl_unit unit = {.factor = 1.0};
    v.bad =
        !quantity_unit(r->cursor->text + t->unit_begin, (size_t)(t->end - t->unit_begin), &unit);
    v.value *= unit.factor;
    v.dimension = unit.dimension;
    v.percent = has_unit(r, t, "%");
    v.reading = has_unit(r, t, "degF") || has_unit(r, t, "degC");
    return v;
}

/* `12 ft 6 in`: the inches that follow feet. */
static bool read_inches(reader *r, const token *feet, value *v)
{
    const token *next = cursor_peek(r->cursor);
    if (!has_unit(r, feet, "ft") || !has_unit(r, next, "in")) {
        return true;
    }
    cursor_take(r->cursor);
    if (!(next->value < 12.0)) {
        complain(r->cursor->diags, "inches-not-below-12", cursor_origin(r->cursor, next),
                 "carry whole feet over to the feet", "After feet come inches below 12.");
        return false;
    }
    v->value += literal(r, next).value;
    v->bad = v->bad || next->bad;
    return true;
}

static bool read_literal(reader *r, value *out)
{
    const token *t = cursor_take(r->cursor);
    *out = literal(r, t);
    if (!read_inches(r, t, out)) {
        return false;
    }
    const token *next = cursor_peek(r->cursor);
    if (next->kind == TOKEN_POWER && t->unit_begin > 0) {
        const char *text = cursor_text(r->cursor, t);
        const int length = (int)token_length(t);
        char hint[200] = "";
        if (length < 60) {
            snprintf(
                hint, sizeof hint,
                "write `%.*s^2` for a power of the unit, or `(%.*s)^2` for a power of the value",
                length, text, length, text);
        }
        complain(r->cursor->diags, "power-after-unit", cursor_span(r->cursor, t, next), hint,
                 "It is not clear whether `^` belongs to the unit or to the value.");
        return false;
    }
    return out->bad || check_finite(r, cursor_origin(r->cursor, t), out);
}

static bool read_parenthesis(reader *r, value *out)
{
    const token *left = cursor_take(r->cursor);
    if (!enter(r) || !read_expr(r, out)) {
        return false;
    }
    r->depth--;
    out->percent = out->reading = false;
    if (!cursor_is(r->cursor, TOKEN_RIGHT)) {
        return tell_not_closed(r, left);
    }
    cursor_take(r->cursor);
    return true;
}

static bool tell_unknown_name(reader *r, const token *t)
{
    const char *text = cursor_text(r->cursor, t);
    const size_t length = token_length(t);
    char hint[120] = "";
    int best = 3;
    for (size_t i = 0; i < r->lets->names.capacity; i++) {
        const name_slot *slot = &r->lets->names.slots[i];
        const int far =
            slot->text != NULL ? str_distance(text, length, slot->text, slot->length) : STR_FAR;
        if (far < best) {
            best = far;
            snprintf(hint, sizeof hint, "did you mean `%.*s`?", (int)slot->length, slot->text);
        }
    }
    if (kl_unit_find(text, length) != NULL) {
        const bool divides = cursor_last(r->cursor)->kind == TOKEN_DIVIDE;
        snprintf(hint, sizeof hint,
                 divides ? "write `per %.*s` behind the number"
                         : "multiply the value by `1 %.*s`, or write the number here",
                 (int)length, text);
        complain(r->cursor->diags, "unit-without-number", cursor_origin(r->cursor, t), hint,
                 "`%.*s` is a unit: it follows a number and nothing else.", (int)length, text);
    } else if (grammar_is_function(text, length)) {
        snprintf(hint, sizeof hint, "write `%.*s(…)`", (int)length, text);
        complain(r->cursor->diags, "function-without-arguments", cursor_origin(r->cursor, t), hint,
                 "`%.*s` is a function and needs its arguments.", (int)length, text);
    } else {
        complain(r->cursor->diags, "unknown-value", cursor_origin(r->cursor, t), hint,
                 "`%.*s` is no number, and no `let` before this line defines it.", (int)length,
                 text);
    }
    return false;
}

/* ---- functions --------------------------------------------------------------------------------------- */

typedef struct call {
    const token *name;
    const char *text;
    size_t length;
    kl_origin origin;
    value arguments[EXPRESSION_ARGUMENTS];
    int count;
} call;

static bool is_call(const call *k, const char *name)
{
    return str_equal(name, k->text, k->length);
}

static bool tell_argument(reader *r, const call *k, const char *wanted)
{
    char got[64];
    quantity_say(k->arguments[0].dimension, got, sizeof got);
    complain(r->cursor->diags, "wrong-argument", k->origin, NULL, "`%.*s` takes %s; this is %s.",
             (int)k->length, k->text, wanted, got);
    return false;
}

static bool call_extreme(reader *r, const call *k, value *out)
{
    *out = k->arguments[0];
    for (int i = 1; i < k->count; i++) {
        const value next = k->arguments[i];
        if (!same_kind(*out, next)) {
            return tell_mismatch(r, k->origin, "compared", *out, next);
        }
        const bool takes = is_call(k, "min") ? next.value < out->value : next.value > out->value;
        out->value = takes ? next.value : out->value;
    }
    return true;
}

static bool call_trigonometric(reader *r, const call *k, value *out)
{
    const value x = k->arguments[0];
    if (is_call(k, "atan")) {
        if (!x.bad && (!quantity_is_pure(x.dimension) || x.dimension.is_angle)) {
            return tell_argument(r, k, "a pure number");
        }
        *out = (value){.value = atan(x.value), .dimension = {.is_angle = true}, .bad = x.bad};
        return true;
    }
    if (!x.bad && !(quantity_is_pure(x.dimension) && x.dimension.is_angle)) {
        return tell_argument(r, k, "an angle, in `deg` or `rad`");
    }
    const double y = is_call(k, "sin")   ? sin(x.value)
                     : is_call(k, "cos") ? cos(x.value)
                                         : tan(x.value);
    *out = (value){.value = y, .bad = x.bad};
    return true;
}

static bool apply(reader *r, const call *k, value *out)
{
    if (is_call(k, "min") || is_call(k, "max")) {
        return call_extreme(r, k, out);
    }
    if (k->count != 1) {
        complain(r->cursor->diags, "argument-count", k->origin, NULL, "`%.*s` takes one argument.",
                 (int)k->length, k->text);
        return false;
    }
    const value x = k->arguments[0];
    if (is_call(k, "abs")) {
        *out = (value){.value = fabs(x.value), .dimension = x.dimension, .bad = x.bad};
        return true;
    }
    if (is_call(k, "sqrt")) {
        *out = (value){.value = sqrt(x.value), .bad = x.bad};
        if (!x.bad && !quantity_power(x.dimension, 0.5, &out->dimension)) {
            return tell_argument(r, k, "a square, such as an area");
        }
        return true;
    }
    return call_trigonometric(r, k, out);
}

static bool read_call(reader *r, value *out)
{
    call k = {.name = cursor_take(r->cursor)};
    k.text = cursor_text(r->cursor, k.name);
    k.length = token_length(k.name);
    const token *left = cursor_take(r->cursor);
    if (!enter(r)) {
        return false;
    }
    do {
        if (k.count == EXPRESSION_ARGUMENTS) {
            complain(r->cursor->diags, "argument-count", cursor_origin(r->cursor, k.name), NULL,
                     "A function takes at most %d arguments.", EXPRESSION_ARGUMENTS);
            return false;
        }
        if (!read_expr(r, &k.arguments[k.count++])) {
            return false;
        }
    } while (cursor_is(r->cursor, TOKEN_COMMA) && cursor_take(r->cursor) != NULL);
    r->depth--;
    if (!cursor_is(r->cursor, TOKEN_RIGHT)) {
        return tell_not_closed(r, left);
    }
    k.origin = cursor_span(r->cursor, k.name, cursor_take(r->cursor));
    *out = (value){0};
    if (!apply(r, &k, out)) {
        return false;
    }
    out->percent = out->reading = false;
    return out->bad || check_finite(r, k.origin, out);
}

static bool read_atom(reader *r, value *out)
{
    const token *t = cursor_peek(r->cursor);
    if (t->kind == TOKEN_NUMBER) {
        return read_literal(r, out);
    }
    if (t->kind == TOKEN_LEFT) {
        return read_parenthesis(r, out);
    }
    if (t->kind != TOKEN_WORD) {
        char found[64];
        complain(r->cursor->diags, "expected-value", cursor_origin(r->cursor, t), NULL,
                 "A value is expected here, not %s.",
                 cursor_describe(r->cursor, found, sizeof found));
        return false;
    }
    const char *text = cursor_text(r->cursor, t);
    const size_t length = token_length(t);
    if (grammar_is_function(text, length) && cursor_ahead(r->cursor, 1)->kind == TOKEN_LEFT) {
        return read_call(r, out);
    }
    const expression_value *let = expression_find(r->lets, text, length);
    if (let == NULL && !str_equal("pi", text, length)) {
        return tell_unknown_name(r, t);
    }
    *out = let != NULL ? *let : (value){.value = EXPRESSION_PI};
    cursor_take(r->cursor);
    return true;
}

/* ---- operators --------------------------------------------------------------------------------------- */

static bool read_power(reader *r, value *out)
{
    const token *first = cursor_peek(r->cursor);
    if (!read_atom(r, out)) {
        return false;
    }
    if (!cursor_is(r->cursor, TOKEN_POWER)) {
        return true;
    }
    cursor_take(r->cursor);
    value power = {0};
    if (!enter(r) || !read_unary(r, &power)) {
        return false;
    }
    r->depth--;
    const kl_origin where = cursor_span(r->cursor, first, cursor_last(r->cursor));
    const bool is_number = quantity_is_pure(power.dimension) && !power.dimension.is_angle;
    kl_dimension dimension = {0};
    const bool bad = out->bad || power.bad;
    if (!bad && (!is_number || !quantity_power(out->dimension, power.value, &dimension))) {
        complain(r->cursor->diags, "wrong-power", where, NULL,
                 "A power is a pure number, and must leave whole powers of the units.");
        return false;
    }
    *out = (value){.value = pow(out->value, power.value), .dimension = dimension, .bad = bad};
    return bad || check_finite(r, where, out);
}

static bool read_unary(reader *r, value *out)
{
    if (!cursor_is(r->cursor, TOKEN_PLUS) && !cursor_is(r->cursor, TOKEN_MINUS)) {
        return read_power(r, out);
    }
    const bool minus = cursor_take(r->cursor)->kind == TOKEN_MINUS;
    if (!enter(r) || !read_unary(r, out)) {
        return false;
    }
    r->depth--;
    out->value = minus ? -out->value : out->value;
    return true;
}

static bool read_term(reader *r, value *out)
{
    const token *first = cursor_peek(r->cursor);
    if (!read_unary(r, out)) {
        return false;
    }
    while (cursor_is(r->cursor, TOKEN_TIMES) || cursor_is(r->cursor, TOKEN_DIVIDE)) {
        const bool times = cursor_take(r->cursor)->kind == TOKEN_TIMES;
        value next = {0};
        if (!read_unary(r, &next)) {
            return false;
        }
        const kl_origin where = cursor_span(r->cursor, first, cursor_last(r->cursor));
        const bool bad = out->bad || next.bad;
        if (!times && !bad && is_exact_zero(next.value)) {
            complain(r->cursor->diags, "division-by-zero", where, NULL, "This divides by zero.");
            return false;
        }
        kl_dimension dimension = {0};
        if (!bad &&
            !quantity_multiply(out->dimension, next.dimension, times ? 1 : -1, &dimension)) {
            complain(r->cursor->diags, "wrong-power", where, NULL,
                     "The powers of the units grow beyond all sense.");
            return false;
        }
        const double product = times ? out->value * next.value : out->value / next.value;
        *out = (value){.value = product, .dimension = dimension, .bad = bad};
        if (!bad && !check_finite(r, where, out)) {
            return false;
        }
    }
    return true;
}

static bool read_expr(reader *r, value *out)
{
    const token *first = cursor_peek(r->cursor);
    if (!read_term(r, out)) {
        return false;
    }
    while (cursor_is(r->cursor, TOKEN_PLUS) || cursor_is(r->cursor, TOKEN_MINUS)) {
        const bool plus = cursor_take(r->cursor)->kind == TOKEN_PLUS;
        value next = {0};
        if (!read_term(r, &next)) {
            return false;
        }
        const kl_origin where = cursor_span(r->cursor, first, cursor_last(r->cursor));
        if (!same_kind(*out, next)) {
            return tell_mismatch(r, where, plus ? "added" : "subtracted", *out, next);
        }
        const double sum = plus ? out->value + next.value : out->value - next.value;
        *out = (value){.value = sum, .dimension = out->dimension, .bad = out->bad || next.bad};
        if (!out->bad && !check_finite(r, where, out)) {
            return false;
        }
    }
    return true;
}

bool expression_read(text_cursor *cursor, const expression_lets *lets, expression_value *out)
{
    reader r = {.cursor = cursor, .lets = lets};
    return read_expr(&r, out);
}
