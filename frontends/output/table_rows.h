/* table_rows.h - what the rows of a table tell besides their cells: the state, the member they belong to; that something fails.
 * SPDX-License-Identifier: MIT */
#ifndef KERNLINE_TABLE_ROWS_H
#define KERNLINE_TABLE_ROWS_H

#include "table.h"

/* Does another group begin with this row? Never in a table without groups. */
bool table_group_begins(const table *t, kl_index row);

/* "member cap, after released": the texts of the row's groups, each after its heading unless that is empty.
 * @return a text of the arena's; NULL: no memory */
char *table_group_text(const table *t, kl_index row, arena *memory);

/* Does the row tell of something that fails? */
bool table_row_fails(const table *t, kl_index row);

#endif
