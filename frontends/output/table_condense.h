/* table_condense.h - rows of a table along members that tell nothing, taken out of what is read page by page.
 * SPDX-License-Identifier: MIT */
#ifndef KERNLINE_TABLE_CONDENSE_H
#define KERNLINE_TABLE_CONDENSE_H

#include "table.h"

/* Take out, and say so in a note: rows without a figure; groups all of whose figures are 0, or whose rows are those of the
 * same member in the state before (the first column of groups is the state); rows within a group that equal both neighbours and stand at no named place. Of settled tables: rounding is 0 by then. Once, when the table is full. */
void table_condense(table *t);

#endif
