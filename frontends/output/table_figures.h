/* table_figures.h - what people read in the cells of a table, wherever it is shown: in a terminal, on a page, on paper.
 *
 * Figures that are rounding beside the largest of their measure in the table read 0; the decimals come from the column's own
 * largest.
 * SPDX-License-Identifier: MIT */
#ifndef KERNLINE_TABLE_FIGURES_H
#define KERNLINE_TABLE_FIGURES_H

#include "figure.h"
#include "table.h"

typedef struct table_figures {
    int decimals[TABLE_COLUMN_LIMIT];
    double noise[TABLE_COLUMN_LIMIT]; /* base units */
} table_figures;

/* Of a full table. */
table_figures table_figures_of(const table *t);

/* The text of one cell: its own, or the figure in `room`. */
const char *table_figure(const table *t,
                         const table_figures *figures,
                         kl_index row,
                         kl_index column,
                         char room[FIGURE_SIZE]);

#endif
