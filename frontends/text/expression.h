/* expression.h - values: arithmetic on quantities with their dimensions, names from `let`, functions.
 *
 *     expr  = term { ("+"|"-") term }      term = unary { ("*"|"/") unary }      unary = ("+"|"-") unary | power
 *     power = atom [ "^" unary ]           atom = LITERAL | NAME | FUNC "(" expr { "," expr } ")" | "(" expr ")"
 * SPDX-License-Identifier: MIT */
#ifndef KERNLINE_EXPRESSION_H
#define KERNLINE_EXPRESSION_H

#include "cursor.h"
#include "name_table.h"

#define EXPRESSION_DEPTH     64    /* of parentheses, signs and powers inside each other */
#define EXPRESSION_ARGUMENTS 16    /* of min and max */
#define EXPRESSION_LETS      10000 /* names from `let` in a model */

typedef struct expression_value {
    double value; /* base units */
    kl_dimension dimension;
    bool percent; /* one literal with % */
    bool reading; /* one literal in degF: an air temperature would have its own zero */
    bool bad;     /* a mistake in it was told already */
} expression_value;

/* Names from `let`, in the order they were defined. Start with {0}. */
typedef struct expression_lets {
    name_table names;
    expression_value *values;
    size_t capacity;
    size_t count;
} expression_lets;

/* Define a name; the text is borrowed. @return KL_MISUSE when it is defined, KL_TOO_LARGE beyond the limit. */
kl_status
expression_define(expression_lets *lets, const char *name, size_t length, expression_value value);
const expression_value *
expression_find(const expression_lets *lets, const char *name, size_t length);
void expression_free(expression_lets *lets);

/* Can a value begin here: number, sign, parenthesis, or a word that names a value or function? */
bool expression_begins(const text_cursor *cursor, const expression_lets *lets);

/* Read one expression. @return false after a mistake, which is told; the cursor then stands anywhere in the phrase. */
bool expression_read(text_cursor *cursor, const expression_lets *lets, expression_value *out);

#endif
