/* sample_table.h - a hand-made table with every kind of column, a stream whose text can be read back, and cells by their keys.
 * SPDX-License-Identifier: MIT */
#ifndef KERNLINE_SAMPLE_TABLE_H
#define KERNLINE_SAMPLE_TABLE_H

#include <stdio.h>

#include "table.h"

/* Two states, two rows each, US units. A moment of 1355.8179483314 N·m is 1 kip-ft, a foot 0.3048 m. */
void sample_table_fill(table *t);

/* Call `write` on a stream in memory and give what it wrote (the caller frees it), or NULL when it failed. */
char *sample_table_written(const table *t, kl_status (*write)(const table *, FILE *));

/* The number of a column by its key; a cell of any table by its row and its column's key, which fails the test when there is none. */
kl_index sample_table_column(const table *t, const char *key);
double sample_table_number(const table *t, kl_index row, const char *key);
const char *sample_table_text(const table *t, kl_index row, const char *key);

#endif
