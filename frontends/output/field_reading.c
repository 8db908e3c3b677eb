/* field_reading.c - see field_reading.h.
 * SPDX-License-Identifier: MIT */
#include "field_reading.h"

#include <math.h>
#include <stdio.h>
#include <stdlib.h>
#include <string.h>

#include "near.h"

#define SIXTEENTHS 16
#define COUNTABLE  1e9 /* more are no length that is read off anything */

static const field_reading readings[] = {
    {"in", "1/16 in", SIXTEENTHS, -1, 3},
    {"ft", "0.01 ft", 100.0, 2, 4},
    {"mm", "1 mm", 1.0, 0, 2},
    {"cm", "0.1 cm", 10.0, 1, 3},
    {"m", "0.001 m", 1000.0, 3, 4},
    {"km", "0.000001 km", 1e6, 6, 7},
};

const field_reading *field_reading_of(const kl_display *display, kl_measure measure)
{
    const char *unit = kl_show_unit(display, measure);
    size_t i = 0;
    while (i + 1 < sizeof readings / sizeof readings[0] && strcmp(readings[i].unit, unit) != 0) {
        ++i;
    }
    return &readings[i];
}

/* How many readings; the same on two machines whose results differ by rounding. */
static double count(const kl_display *display, kl_measure measure, double value)
{
    const double per = field_reading_of(display, measure)->per;
    return round(value / kl_show_factor(display, measure) * per * (1.0 + NEAR_ROUNDING));
}

static void write_sixteenths(char text[FIGURE_SIZE], double sixteenths)
{
    const int places = abs((int)sixteenths);
    const char *sign = sixteenths < 0.0 ? "-" : "";
    int above = places % SIXTEENTHS;
    int below = SIXTEENTHS;
    while (above > 0 && above % 2 == 0) {
        above /= 2;
        below /= 2;
    }
    if (above == 0) {
        (void)snprintf(text, FIGURE_SIZE, "%s%d", sign, places / SIXTEENTHS);
    } else if (places < SIXTEENTHS) {
        (void)snprintf(text, FIGURE_SIZE, "%s%d/%d", sign, above, below);
    } else {
        (void)snprintf(text, FIGURE_SIZE, "%s%d-%d/%d", sign, places / SIXTEENTHS, above, below);
    }
}

void field_reading_write(char text[FIGURE_SIZE],
                         const kl_display *display,
                         kl_measure measure,
                         double value)
{
    const field_reading *r = field_reading_of(display, measure);
    const double readings_in = count(display, measure, value);
    if (!(fabs(readings_in) < COUNTABLE)) {
        figure_full(text, value / kl_show_factor(display, measure));
    } else if (r->decimals < 0) {
        write_sixteenths(text, readings_in);
    } else {
        figure_exact(text, readings_in / r->per, r->decimals);
    }
}
