/* figure.c - numbers as text.
 * SPDX-License-Identifier: MIT */
#include "figure.h"

#include <math.h>
#include <stdio.h>
#include <stdlib.h>
#include <string.h>

#include "near.h"

#define FIGURE_DECIMALS_LIMIT 9
#define FIGURE_HALF           1e-11 /* relative; what two machines differ by, at most */

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
        snprintf(text, FIGURE_SIZE, "-");
        return;
    }
    if (isinf(value)) {
        snprintf(text, FIGURE_SIZE, "%s", value > 0.0 ? "inf" : "-inf");
        return;
    }
    if (fabs(value) <= noise) {
        snprintf(text, FIGURE_SIZE, "0");
        return;
    }
    const int mantissa = digits > 1 ? digits - 1 : 0;
    /* A half goes away from zero, whatever rounding left in its last places: every machine prints the same. */
    const double nudged = fabs(value) < 1e300 ? value * (1.0 + FIGURE_HALF) : value;
    const bool fits =
        decimals >= 0 && snprintf(text, FIGURE_SIZE, "%.*f", decimals, nudged) < FIGURE_SIZE;
    if (!fits) {
        snprintf(text, FIGURE_SIZE, "%.*e", mantissa, value);
    } else if (figure_reads_zero(text)) {
        snprintf(text, FIGURE_SIZE, "0");
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
        snprintf(text, FIGURE_SIZE, "0");
        return;
    }
    for (int digits = 15; digits <= 17; ++digits) {
        snprintf(text, FIGURE_SIZE, "%.*g", digits, value);
        const double back = strtod(text, NULL);
        if (!(back < value) && !(back > value)) {
            return;
        }
    }
}
