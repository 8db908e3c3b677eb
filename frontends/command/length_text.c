/* length_text.c - read a length: a number or a fraction, its unit, and perhaps inches after feet.
 *
 * The program never sets a locale, so strtod reads a decimal point.
 * SPDX-License-Identifier: MIT */
#include "length_text.h"

#include <math.h>
#include <stdlib.h>
#include <string.h>

#include "kernline/units.h"

static const char *length_skip_blanks(const char *at)
{
    return at + strspn(at, " \t");
}

/* Digits with perhaps a point and an exponent; strtod alone would take `inf`, `nan` and hexadecimals. */
static bool length_read_number(const char **at, double *number)
{
    const char *digits = *at + (**at == '.');
    if (*digits < '0' || *digits > '9' || digits[1] == 'x' || digits[1] == 'X') {
        return false;
    }
    char *end = NULL;
    *number = strtod(*at, &end);
    *at = end;
    return isfinite(*number);
}

/* One number, perhaps over another, and a unit of length. */
static bool length_read_term(const char **at, double *metres, const char **word)
{
    double number = 0.0, below = 1.0;
    if (!length_read_number(at, &number)) {
        return false;
    }
    if (**at == '/') {
        ++*at;
        if (!length_read_number(at, &below)) {
            return false;
        }
    }
    *at = length_skip_blanks(*at);
    const size_t length = strcspn(*at, " \t");
    const kl_unit *unit = kl_unit_find(*at, length);
    const kl_dimension want = kl_measure_dimension(KL_MEASURE_STATION);
    if (unit == NULL || !kl_dimension_equal(unit->dimension, want) || !(below > 0.0)) {
        return false;
    }
    *at = length_skip_blanks(*at + length);
    *metres = number / below * unit->factor;
    *word = unit->word;
    return true;
}

bool length_read(const char *text, double *metres)
{
    const char *at = length_skip_blanks(text);
    const char *word = NULL;
    double whole = 0.0;
    if (!length_read_term(&at, &whole, &word)) {
        return false;
    }
    if (*at != '\0') {
        double inches = 0.0;
        const char *second = NULL;
        if (strcmp(word, "ft") != 0 || !length_read_term(&at, &inches, &second) ||
            strcmp(second, "in") != 0 || *at != '\0') {
            return false;
        }
        whole += inches;
    }
    if (!isfinite(whole)) {
        return false;
    }
    *metres = whole;
    return true;
}
