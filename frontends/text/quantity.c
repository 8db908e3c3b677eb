/* quantity.c - see quantity.h. What follows a number is compared with the unit table of the library.
 * SPDX-License-Identifier: MIT */
#include "quantity.h"

#include <ctype.h>
#include <float.h>
#include <locale.h>
#include <math.h>
#include <stdint.h>
#include <stdio.h>
#include <stdlib.h>
#include <string.h>

#include "kernline/model.h"
#include "unit_text.h"

static bool is_letter(char c)
{
    return (c >= 'a' && c <= 'z') || (c >= 'A' && c <= 'Z');
}

static bool is_digit(char c)
{
    return c >= '0' && c <= '9';
}

static bool is_name_byte(char c)
{
    return is_letter(c) || is_digit(c) || c == '_';
}

static size_t count_letters(const char *text, size_t left)
{
    size_t n = 0;
    while (n < left && is_letter(text[n])) {
        n++;
    }
    return n;
}

static size_t count_digits(const char *text, size_t left)
{
    size_t n = 0;
    while (n < left && is_digit(text[n])) {
        n++;
    }
    return n;
}

/* ---- units ------------------------------------------------------------------------------------------- */

/* One unit word with its power; 0 when there is none. */
static size_t term_length(const char *text, size_t left)
{
    size_t n = left > 0 && text[0] == '%' ? 1 : count_letters(text, left);
    if (n < left && text[n] == '-') { /* a moment: kip-ft */
        const size_t joined = n + 1 + count_letters(text + n + 1, left - n - 1);
        if (joined > n + 1 && kl_unit_find(text, joined) != NULL) {
            n = joined;
        }
    }
    if (n == 0 || kl_unit_find(text, n) == NULL ||
        (n < left && text[0] != '%' && is_name_byte(text[n]))) {
        return 0;
    }
    if (n + 1 < left && text[n] == '^') {
        const size_t sign = text[n + 1] == '-' ? 1 : 0;
        const size_t digit = n + 1 + sign;
        const bool is_power = digit < left && text[digit] >= '1' && text[digit] <= '9' &&
                              (digit + 1 == left || !is_name_byte(text[digit + 1]));
        return is_power ? digit + 1 : n;
    }
    return n;
}

size_t quantity_unit_length(const char *text, size_t left)
{
    size_t n = 0;
    if (left > 4 && memcmp(text, "per", 3) == 0 && (text[3] == ' ' || text[3] == '\t')) {
        while (n + 3 < left && (text[n + 3] == ' ' || text[n + 3] == '\t')) {
            n++;
        }
        n += 3;
    }
    const size_t first = term_length(text + n, left - n);
    if (first == 0) {
        return 0;
    }
    n += first;
    while (n + 1 < left && (text[n] == '/' || text[n] == '*')) {
        const size_t next = term_length(text + n + 1, left - n - 1);
        if (next == 0) {
            break;
        }
        n += 1 + next;
    }
    return n;
}

bool quantity_unit(const char *text, size_t length, kl_unit *unit)
{
    char spaced[QUANTITY_UNIT_LENGTH];
    size_t n = 0;
    for (size_t i = 0; i < length; i++) {
        const char c = (char)(text[i] == '\t' ? ' ' : text[i]);
        const bool is_double = c == ' ' && (n == 0 || spaced[n - 1] == ' ');
        if (!is_double && n == sizeof spaced) {
            return false;
        }
        if (!is_double) {
            spaced[n++] = c;
        }
    }
    return n > 0 && unit_text_read(spaced, n, unit);
}

static const char *const spellings[][2] = {
    {"kips", "kip"},        {"k", "kip"},          {"klbf", "kip"},      {"feet", "ft"},
    {"foot", "ft"},         {"inch", "in"},        {"inches", "in"},     {"lbs", "lb"},
    {"lbf", "lb"},          {"pound", "lb"},       {"pounds", "lb"},     {"degree", "deg"},
    {"degrees", "deg"},     {"radian", "rad"},     {"radians", "rad"},   {"days", "day"},
    {"d", "day"},           {"hours", "hour"},     {"hr", "hour"},       {"hrs", "hour"},
    {"h", "hour"},          {"years", "year"},     {"yr", "year"},       {"yrs", "year"},
    {"meter", "m"},         {"meters", "m"},       {"metre", "m"},       {"metres", "m"},
    {"millimeter", "mm"},   {"millimeters", "mm"}, {"millimetre", "mm"}, {"millimetres", "mm"},
    {"percent", "%"},       {"pct", "%"},          {"pcnt", "%"},        {"celsius", "degC"},
    {"fahrenheit", "degF"}, {"kft", "kip-ft"},     {"kipft", "kip-ft"},  {"kipin", "kip-in"},
    {"knm", "kN-m"},        {"sqft", "ft^2"},      {"sqin", "in^2"},     {"kipsft", "kip-ft"},
    {"newton", "N"},        {"newtons", "N"},      {"pascal", "Pa"},     {"f", "degF"},
    {"c", "degC"},
};

static bool same_letters(const char *text, const char *word, size_t length)
{
    for (size_t i = 0; i < length; i++) {
        if (text[i] == '\0' || tolower((unsigned char)text[i]) != tolower((unsigned char)word[i])) {
            return false;
        }
    }
    return text[length] == '\0';
}

static const char *spell_word(const char *word, size_t length)
{
    size_t count;
    const kl_unit *units = kl_unit_table(&count);
    for (size_t i = 0; i < sizeof spellings / sizeof spellings[0]; i++) {
        if (same_letters(spellings[i][0], word, length)) {
            return spellings[i][1];
        }
    }
    for (size_t i = 0; i < count; i++) {
        if (same_letters(units[i].word, word, length)) {
            return units[i].word;
        }
    }
    return NULL;
}

bool quantity_spell_unit(const char *word, size_t length, char *text, size_t size)
{
    const size_t letters = count_letters(word, length);
    const char *spelled = letters > 0 ? spell_word(word, letters) : NULL;
    if (spelled == NULL) {
        return false;
    }
    if (letters == length) {
        snprintf(text, size, "%s", spelled);
        return true;
    }
    const bool is_power = letters + 1 == length && word[letters] >= '2' && word[letters] <= '4';
    if (is_power) {
        snprintf(text, size, "%s^%c", spelled, word[letters]);
    }
    return is_power;
}

/* ---- numbers ----------------------------------------------------------------------------------------- */

/* Is the unit of length that makes a/b a fraction coming? */
static bool length_unit_follows(const char *text, size_t left)
{
    size_t blanks = 0;
    while (blanks < left && (text[blanks] == ' ' || text[blanks] == '\t')) {
        blanks++;
    }
    const size_t n = quantity_unit_length(text + blanks, left - blanks);
    const kl_unit *unit = n > 0 ? kl_unit_find(text + blanks, n) : NULL;
    const kl_dimension length = {.length = 1};
    return unit != NULL && kl_dimension_equal(unit->dimension, length);
}

/* Bytes of `a/b` or `w-a/b` after the whole number of `whole` digits at its start; 0: no fraction. */
static size_t fraction_length(const char *text, size_t left, size_t whole)
{
    size_t n = whole;
    if (n < left && text[n] == '-') {
        const size_t above = count_digits(text + n + 1, left - n - 1);
        n = above > 0 ? n + 1 + above : left;
    }
    if (n >= left || text[n] != '/') {
        return 0;
    }
    const size_t below = count_digits(text + n + 1, left - n - 1);
    n += 1 + below;
    return below > 0 && length_unit_follows(text + n, left - n) ? n : 0;
}

size_t quantity_number_length(const char *text, size_t left)
{
    size_t n = count_digits(text, left);
    const size_t fraction = n > 0 ? fraction_length(text, left, n) : 0;
    if (fraction > 0) {
        return fraction;
    }
    if (n + 1 < left && text[n] == '.' && is_digit(text[n + 1])) {
        n++;
        n += count_digits(text + n, left - n);
    }
    if (n < left && (text[n] == 'e' || text[n] == 'E')) {
        const size_t sign = n + 1 < left && (text[n + 1] == '+' || text[n + 1] == '-') ? 1 : 0;
        const size_t digits =
            n + 1 + sign < left ? count_digits(text + n + 1 + sign, left - n - 1 - sign) : 0;
        n += digits > 0 ? 1 + sign + digits : 0;
    }
    return n;
}

/* Digits with a point, without exponent, that make whole number over power of ten with both of them doubles: then the
 * quotient is the nearest double. (W. D. Clinger, How to read floating-point numbers accurately, 1990.) */
static bool quick_decimal(const char *text, size_t length, double *value)
{
    static const double powers[] = {1e0, 1e1, 1e2,  1e3,  1e4,  1e5,  1e6,  1e7,
                                    1e8, 1e9, 1e10, 1e11, 1e12, 1e13, 1e14, 1e15};
    enum { DIGITS = 15 }; /* 10^15 < 2^53 */
    uint64_t whole = 0;
    size_t digits = 0;
    size_t behind = 0; /* the point */
    bool has_point = false;
    for (size_t i = 0; i < length; i++) {
        if (text[i] == '.' && !has_point) {
            has_point = true;
        } else if (is_digit(text[i]) && digits < DIGITS) {
            whole = 10 * whole + (uint64_t)(text[i] - '0');
            digits++;
            behind += has_point ? 1 : 0;
        } else {
            return false;
        }
    }
    *value = (double)whole / powers[behind];
    return FLT_EVAL_METHOD == 0; /* where products are rounded twice the quick way is not exact */
}

/* strtod reads the decimal sign of the locale, the language has a point. */
static double slow_decimal(const char *text, size_t length)
{
    char buffer[QUANTITY_NUMBER_LENGTH + 8];
    const char *point = localeconv()->decimal_point;
    size_t used = 0;
    for (size_t i = 0; i < length && used + 6 < sizeof buffer; i++) {
        if (text[i] == '.') {
            used += (size_t)snprintf(buffer + used, 6, "%s", point);
        } else {
            buffer[used++] = text[i];
        }
    }
    buffer[used] = '\0';
    return strtod(buffer, NULL);
}

static double decimal(const char *text, size_t length)
{
    double value;
    return quick_decimal(text, length, &value) ? value : slow_decimal(text, length);
}

bool quantity_number(const char *text, size_t length, double *value)
{
    if (length > QUANTITY_NUMBER_LENGTH) {
        return false;
    }
    const char *slash = memchr(text, '/', length);
    if (slash == NULL) {
        *value = decimal(text, length);
        return isfinite(*value);
    }
    const size_t over = (size_t)(slash - text);
    const char *dash = memchr(text, '-', over);
    const size_t whole = dash != NULL ? (size_t)(dash - text) : 0;
    const size_t start = dash != NULL ? whole + 1 : 0;
    const double below = decimal(slash + 1, length - over - 1);
    *value = (whole > 0 ? decimal(text, whole) : 0.0) + decimal(text + start, over - start) / below;
    return isfinite(*value);
}

/* ---- dimensions -------------------------------------------------------------------------------------- */

bool quantity_is_pure(kl_dimension dimension)
{
    return kl_dimension_equal(dimension, (kl_dimension){0});
}

static bool set_exponents(const double exponents[4], kl_dimension *dimension)
{
    for (int i = 0; i < 4; i++) {
        if (!(fabs(exponents[i]) <= QUANTITY_EXPONENT_LIMIT) ||
            fabs(exponents[i] - round(exponents[i])) > 1e-9) {
            return false;
        }
    }
    *dimension = (kl_dimension){.length = (signed char)round(exponents[0]),
                                .force = (signed char)round(exponents[1]),
                                .time = (signed char)round(exponents[2]),
                                .temperature = (signed char)round(exponents[3])};
    return true;
}

bool quantity_multiply(kl_dimension a, kl_dimension b, int sign, kl_dimension *dimension)
{
    const double exponents[4] = {a.length + sign * b.length, a.force + sign * b.force,
                                 a.time + sign * b.time, a.temperature + sign * b.temperature};
    if (!set_exponents(exponents, dimension)) {
        return false;
    }
    /* twice an angle is an angle; the angle of a product with dimensions is not looked at */
    const bool one_angle = sign > 0 ? a.is_angle != b.is_angle : a.is_angle && !b.is_angle;
    dimension->is_angle = one_angle && quantity_is_pure(a) && quantity_is_pure(b);
    return true;
}

bool quantity_power(kl_dimension a, double power, kl_dimension *dimension)
{
    const double exponents[4] = {a.length * power, a.force * power, a.time * power,
                                 a.temperature * power};
    return set_exponents(exponents, dimension);
}

void quantity_weigh(kl_measure measure, double *value, kl_dimension *dimension)
{
    const kl_dimension mass_density = {.length = -4, .force = 1, .time = 2};
    if (measure == KL_MEASURE_UNIT_WEIGHT && kl_dimension_equal(*dimension, mass_density)) {
        *value *= KL_STANDARD_GRAVITY;
        *dimension = kl_measure_dimension(KL_MEASURE_UNIT_WEIGHT);
    }
}

void quantity_say(kl_dimension dimension, char *text, size_t size)
{
    char name[64];
    kl_dimension_name(dimension, name, sizeof name);
    const bool is_per = strncmp(name, "per ", 4) == 0;
    const bool is_odd = !is_per && strchr(name, '^') != NULL;
    const bool has_vowel = strchr("aeiou", name[0]) != NULL;
    const char *article = is_odd ? "a quantity of" : is_per ? "a value" : has_vowel ? "an" : "a";
    snprintf(text, size, "%s %s", article, name);
}

const char *quantity_example(kl_measure measure)
{
    static const char *const examples[KL_MEASURE_COUNT] = {
        [KL_MEASURE_NUMBER] = "0.5",
        [KL_MEASURE_RATIO] = "20 %",
        [KL_MEASURE_ANGLE] = "30 deg",
        [KL_MEASURE_ROTATION] = "0.002 rad",
        [KL_MEASURE_STATION] = "12 ft",
        [KL_MEASURE_SIZE] = "30 in",
        [KL_MEASURE_DEFLECTION] = "0.5 in",
        [KL_MEASURE_AREA] = "144 in^2",
        [KL_MEASURE_STEEL_AREA] = "0.217 in^2",
        [KL_MEASURE_INERTIA] = "1728 in^4",
        [KL_MEASURE_SECTION_MODULUS] = "288 in^3",
        [KL_MEASURE_FORCE] = "240 kip",
        [KL_MEASURE_MOMENT] = "50 kip-ft",
        [KL_MEASURE_LINE_LOAD] = "2.4 klf",
        [KL_MEASURE_STRESS] = "6 ksi",
        [KL_MEASURE_PRESSURE] = "6500 psi",
        [KL_MEASURE_UNIT_WEIGHT] = "150 pcf",
        [KL_MEASURE_STIFFNESS] = "450 kip/in",
        [KL_MEASURE_TURN_STIFFNESS] = "1e6 kip-ft/rad",
        [KL_MEASURE_TIME] = "28 day",
        [KL_MEASURE_TEMPERATURE] = "40 degF",
        [KL_MEASURE_EXPANSION] = "6e-6 per degF",
        [KL_MEASURE_WOBBLE] = "0.0002 per ft",
        [KL_MEASURE_PLAN_BEND] = "0.001 rad/ft",
    };
    return measure < KL_MEASURE_COUNT ? examples[measure] : "12 ft";
}
