/* sample_package.h - packages made by hand: every kind of block, and texts that would break what is made of them.
 * SPDX-License-Identifier: MIT */
#ifndef KERNLINE_SAMPLE_PACKAGE_H
#define KERNLINE_SAMPLE_PACKAGE_H

#include "sheet.h"

/* Markup, quotes, control characters, letters from right to left, a sign that turns their order, a face, bytes that are no UTF-8. */
extern const char SAMPLE_HOSTILE[];

/* A cover and sheets with each kind of block once or more; package_free. */
void sample_package_fill(package *p);

/* A table on the last sheet: `rows` rows in groups of `group` rows, `figures` columns of figures besides a name and a station.
 * Row r has r.c in column c, c from 1 to 99: with 101 to 1000 rows, as written with two decimals. */
void sample_package_table(package *p, int rows, int group, int figures);

#endif
