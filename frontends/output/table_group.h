/* table_group.h - the lines between the rows of a table: which state, which member the rows that follow belong to.
 * SPDX-License-Identifier: MIT */
#ifndef KERNLINE_TABLE_GROUP_H
#define KERNLINE_TABLE_GROUP_H

#include "table.h"

/* Does another group begin with this row? Never in a table without groups. */
bool table_group_begins(const table *t, kl_index row);

/* "member cap, after released": the texts of the row's groups, each after its heading unless that is empty.
 * @return a text of the arena's; NULL: no memory */
char *table_group_text(const table *t, kl_index row, arena *memory);

#endif
