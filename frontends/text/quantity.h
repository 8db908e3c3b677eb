/* quantity.h - numbers and units as they are written, and the arithmetic of dimensions.
 *
 *     number   = digits [ "." digits ] [ "e" [ sign ] digits ]
 *     fraction = [ digits "-" ] digits "/" digits          only directly before a unit of length
 *     unit     = [ "per " ] term { ("*" | "/") term }      without blanks inside; term = WORD [ "^" digit ]
 * SPDX-License-Identifier: MIT */
#ifndef KERNLINE_QUANTITY_H
#define KERNLINE_QUANTITY_H

#include "kernline/units.h"

#define QUANTITY_NUMBER_LENGTH 40 /* characters of a number literal */
#define QUANTITY_UNIT_LENGTH   60 /* characters of a unit */
#define QUANTITY_EXPONENT_LIMIT                                                                    \
    60 /* of a dimension: beyond it there is no sense, and no room in kl_dimension */

typedef struct quantity {
    double value; /* base units */
    kl_dimension dimension;
} quantity;

/* Bytes of the longest unit that `text` (with `left` bytes) begins with; 0: it begins with none. */
size_t quantity_unit_length(const char *text, size_t left);

/* Read a unit of that length; blanks behind `per` count as one. @return false when it is none, is longer than
 * QUANTITY_UNIT_LENGTH, or has powers beyond all sense. */
bool quantity_unit(const char *text, size_t length, kl_unit *unit);

/* Bytes of the number literal (without unit) that `text` begins with, which begins with a digit or `.`; a fraction
 * counts only when a unit of length follows it. */
size_t quantity_number_length(const char *text, size_t left);

/* The value of a literal that quantity_number_length has measured. @return false when it is not finite (1e999,
 * 1/0) or too long. */
bool quantity_number(const char *text, size_t length, double *value);

/* How a word that is no unit, but was meant as one, is spelled here: "kips" -> "kip", "KSI" -> "ksi",
 * "ft2" -> "ft^2". @return false when nothing is near. */
bool quantity_spell_unit(const char *word, size_t length, char *text, size_t size);

/* dimension = a * b (sign 1) or a / b (sign -1). @return false when an exponent grows beyond all sense. */
bool quantity_multiply(kl_dimension a, kl_dimension b, int sign, kl_dimension *dimension);

/* dimension = a ^ power. @return false when an exponent is not whole, or grows beyond all sense. */
bool quantity_power(kl_dimension a, double power, kl_dimension *dimension);

bool quantity_is_pure(kl_dimension dimension); /* a number, perhaps an angle */

/* A mass density where a unit weight belongs is multiplied by standard gravity. */
void quantity_weigh(kl_measure measure, double *value, kl_dimension *dimension);

/* The dimension with its article, for a sentence: "a length", "an area", "a quantity of length^5". */
void quantity_say(kl_dimension dimension, char *text, size_t size);

/* A literal with its unit that a message can propose for a measure: "7 ft", "0.0002 per ft". */
const char *quantity_example(kl_measure measure);

#endif
