/* field_reading.h - lengths as they are read off a rod or a rule: feet to 0.01, inches to 1/16, metres to 0.001 …
 * SPDX-License-Identifier: MIT */
#ifndef KERNLINE_FIELD_READING_H
#define KERNLINE_FIELD_READING_H

#include "figure.h"
#include "kernline/units.h"

typedef struct field_reading {
    const char *unit; /* "in" */
    const char *text; /* "1/16 in" */
    double per;       /* readings in one unit: 16 */
    int decimals;     /* of a reading; -1: whole numbers and fractions */
    int exact;        /* decimals of what is exact beside it */
} field_reading;

/* How lengths of a measure are read in the unit they are shown in. */
const field_reading *field_reading_of(const kl_display *display, kl_measure measure);

/* The nearest reading as text: "128.42", "1-5/16", "-3/8", "0"; half way the one further from 0. */
void field_reading_write(char text[FIGURE_SIZE],
                         const kl_display *display,
                         kl_measure measure,
                         double value);

#endif
