/* sample_table.h - a hand-made table with every kind of column, and a stream whose text can be read back.
 * SPDX-License-Identifier: MIT */
#ifndef KERNLINE_SAMPLE_TABLE_H
#define KERNLINE_SAMPLE_TABLE_H

#include <stdio.h>

#include "table.h"

/* Two states, two rows each, US units. A moment of 1355.8179483314 N·m is 1 kip-ft, a foot 0.3048 m. */
void sample_table_fill(table *t);

/* Call `write` on a stream in memory and give what it wrote (the caller frees it), or NULL when it failed. */
char *sample_table_written(const table *t, kl_status (*write)(const table *, FILE *));

#endif
