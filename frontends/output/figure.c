/* figure.c - numbers as text.
 * SPDX-License-Identifier: MIT */
#define __STDC_WANT_IEC_60559_BFP_EXT__ /* strfromd */
#include "figure.h"

#include <math.h>
#include <stdio.h>
#include <stdlib.h>
#include <string.h>

#include "near.h"

#define FIGURE_DECIMALS_LIMIT 9
#define FIGURE_LEAST_DIGITS   15    /* that every double holds (DBL_DIG) */
#define FIGURE_MOST_DIGITS    17    /* that tell every double from the next (DBL_DECIMAL_DIG) */
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

/* "-0.00" and "0.00" are both a plain zero. */
static bool figure_reads_zero(const char *text)
{
    return strspn(text, "-0.") == strlen(text);
}

void figure_rounded(char text[FIGURE_SIZE], double value, int decimals, int digits, double noise)
{
    if (isnan(value)) {
        strcpy(text, "-");
        return;
    }
    if (isinf(value)) {
        strcpy(text, value > 0.0 ? "inf" : "-inf");
        return;
    }
    if (fabs(value) <= noise) {
        strcpy(text, "0");
        return;
    }
    const int mantissa = digits > 1 ? digits - 1 : 0;
    /* A half goes away from zero, whatever rounding left in its last places: every machine prints the same. */
    const double nudged = fabs(value) < 1e300 ? value * (1.0 + FIGURE_HALF) : value;
    const bool fits = decimals >= 0 && figure_write(text, 'f', decimals, nudged) < FIGURE_SIZE;
    if (!fits) {
        figure_write(text, 'e', mantissa, value);
    } else if (figure_reads_zero(text)) {
        strcpy(text, "0");
    }
}

void figure_exact(char text[FIGURE_SIZE], double value, int decimals)
{
    if (figure_write(text, 'f', decimals, value) >= FIGURE_SIZE) {
        figure_write(text, 'g', FIGURE_MOST_DIGITS, value);
    } else if (text[0] == '-' && figure_reads_zero(text)) {
        memmove(text, text + 1, strlen(text));
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
        strcpy(text, "0");
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
