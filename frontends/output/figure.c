/* figure.c - numbers as text.
 * SPDX-License-Identifier: MIT */
#define __STDC_WANT_IEC_60559_BFP_EXT__ /* strfromd */
#include "figure.h"

#include <math.h>
#include <stdint.h>
#include <stdio.h>
#include <stdlib.h>
#include <string.h>

#include "near.h"

#define FIGURE_DECIMALS_LIMIT 9
#define FIGURE_LEAST_DIGITS   15    /* that every double holds (DBL_DIG) */
#define FIGURE_MOST_DIGITS    17    /* that tell every double from the next (DBL_DECIMAL_DIG) */
#define FIGURE_WHOLE          1e15  /* whole numbers up to this are exact, and a half beside them */
#define FIGURE_HALF           1e-11 /* relative; what two machines differ by, at most */

/* What snprintf writes, by strfromd (ISO/IEC TS 18661-1): a table is mostly figures, and OpenBLAS brings a library that adds
 * conversions of its own to printf, after which each call reads its format the long way. @return as snprintf. */
static int figure_write(char text[FIGURE_SIZE], char conversion, int precision, double value)
{
    const char format[] = {
        '%', '.', (char)('0' + precision / 10), (char)('0' + precision % 10), conversion, '\0'};
    return strfromd(text, FIGURE_SIZE, format, value);
}

int figure_decimals(double largest, int digits)
{
    const double size = fabs(largest);
    if (!(size > 0.0) || isinf(size)) {
        return 0;
    }
    /* 1e-12: 9.9999…e2 from rounding counts as 1000. */
    const int decimals = digits - 1 - (int)floor(log10(size) + 1e-12);
    if (decimals > FIGURE_DECIMALS_LIMIT) {
        return -1;
    }
    return decimals < 0 ? 0 : decimals;
}

int figure_exact_decimals(double value, int limit)
{
    const double size = fabs(value);
    if (!isfinite(size)) {
        return 0;
    }
    double scale = 1.0;
    for (int decimals = 0; decimals < limit; ++decimals) {
        const double scaled = size * scale;
        if (fabs(scaled - round(scaled)) <= 1e-6 * scale * pow(10.0, -limit)) {
            return decimals;
        }
        scale *= 10.0;
    }
    return limit;
}

/* Fixed notation by whole numbers of the last place: tables are mostly figures, and this takes a tenth of the time of
 * printf's exact one, which tells rounding apart that FIGURE_HALF covers. No minus before a zero.
 * @return false: too large, or too many decimals. */
static bool figure_fixed(char text[FIGURE_SIZE], double value, int decimals)
{
    static const double scales[] = {1e0, 1e1, 1e2, 1e3,  1e4,  1e5, 1e6,
                                    1e7, 1e8, 1e9, 1e10, 1e11, 1e12};
    if (decimals >= (int)(sizeof scales / sizeof scales[0])) {
        return false;
    }
    const double size = fabs(value) * scales[decimals];
    if (size > FIGURE_WHOLE) {
        return false;
    }
    uint64_t places = (uint64_t)(size + 0.5);
    const bool is_minus = value < 0.0 && places > 0;
    char backward[FIGURE_SIZE];
    int length = 0;
    for (int k = 0; k <= decimals || places > 0; ++k, places /= 10) {
        if (k > 0 && k == decimals) {
            backward[length++] = '.';
        }
        backward[length++] = (char)('0' + places % 10);
    }
    if (is_minus) {
        backward[length++] = '-';
    }
    for (int i = 0; i < length; ++i) {
        text[i] = backward[length - 1 - i];
    }
    text[length] = '\0';
    return true;
}

static bool figure_reads_zero(const char *text)
{
    return strspn(text, "0.") == strlen(text);
}

static void figure_word(char text[FIGURE_SIZE], const char *word)
{
    memcpy(text, word, strlen(word) + 1);
}

void figure_rounded(char text[FIGURE_SIZE], double value, int decimals, int digits, double noise)
{
    if (isnan(value) || isinf(value)) {
        figure_word(text, isnan(value) ? "-" : value > 0.0 ? "inf" : "-inf");
        return;
    }
    const bool fits = decimals >= 0 && figure_fixed(text, value * (1.0 + FIGURE_HALF), decimals);
    if (!fits) {
        figure_write(text, 'e', digits > 1 ? digits - 1 : 0, value);
    }
    if (fabs(value) <= noise || (fits && figure_reads_zero(text))) {
        figure_word(text, "0");
    }
}

void figure_given(char text[FIGURE_SIZE], double value, int most_decimals)
{
    figure_rounded(text, value, figure_exact_decimals(value, most_decimals), 4, 0.0);
}

void figure_exact(char text[FIGURE_SIZE], double value, int decimals)
{
    if (!figure_fixed(text, value, decimals)) {
        figure_write(text, 'g', FIGURE_MOST_DIGITS, value);
    }
}

void figure_beside(char text[FIGURE_SIZE], double value, double largest)
{
    figure_rounded(text, value, figure_decimals(largest, 4), 4, FIGURE_NOISE * largest);
}

void figure_full(char text[FIGURE_SIZE], double value)
{
    if (isnan(value)) {
        text[0] = '\0';
        return;
    }
    if (is_exact_zero(value)) {
        figure_word(text, "0");
        return;
    }
    for (int digits = FIGURE_LEAST_DIGITS; digits <= FIGURE_MOST_DIGITS; ++digits) {
        figure_write(text, 'g', digits, value);
        const double back = strtod(text, NULL);
        if (!(back < value) && !(back > value)) {
            return;
        }
    }
}
