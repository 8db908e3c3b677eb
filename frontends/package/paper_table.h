/* paper_table.h - a table on pages: title, head, groups, rows, notes; the head again on each page it goes on to.
 * SPDX-License-Identifier: MIT */
#ifndef KERNLINE_PAPER_TABLE_H
#define KERNLINE_PAPER_TABLE_H

#include "paper_flow.h"

/* Must the page lie for it? */
bool paper_table_lies(const paper_flow *f, const table *t);
/* Height that its beginning takes, px: title, head and a few rows. */
double paper_table_least(const paper_flow *f, const table *t);

void paper_table(paper_flow *f, const table *t);

#endif
