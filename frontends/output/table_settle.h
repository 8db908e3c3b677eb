/* table_settle.h - what in a filled table is rounding, and rows that say the same twice.
 * SPDX-License-Identifier: MIT */
#ifndef KERNLINE_TABLE_SETTLE_H
#define KERNLINE_TABLE_SETTLE_H

#include "table.h"

/* The largest finite size in a column above `noise`, base units; 0 when there is none. */
double table_column_largest(const table *t, kl_index column, double noise);

/* What is not larger than this in a column of figures is rounding, base units. It is judged beside the largest figure of
 * the same measure in the table, and forces, moments and loads per length beside one another, at a lever or along a length of
 * one metre, and beside the table's force_scale (a rotation beside the movements, a ratio beside the whole): where all moments are zero, rounding is
 * the largest of them. 0 for columns without rounding. */
double table_noise(const table *t, kl_index column);

/* Make rounding an exact 0, and one row of two that show a place from the left and from the right and do not differ
 * by a millionth of the largest: their side is then empty. Once, when the table is full. */
void table_settle(table *t);

#endif
