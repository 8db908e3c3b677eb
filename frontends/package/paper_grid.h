/* paper_grid.h - how a table lies on paper: which columns side by side, how wide, in letters of which size, on which page.
 *
 * Letters get smaller until the columns fit an upright page, then one that lies; a table too wide for that is cut into strips,
 * each with the columns that lead repeated.
 * SPDX-License-Identifier: MIT */
#ifndef KERNLINE_PAPER_GRID_H
#define KERNLINE_PAPER_GRID_H

#include "paper_flow.h"
#include "table_figures.h"

#define GRID_LETTERS 10.0                /* px, where there is room */
#define GRID_LEAST   (7.0 * 96.0 / 72.0) /* 7 points: read at arm's length on a site */

typedef struct paper_grid {
    const table *table;
    table_figures figures;
    kl_index rows;                        /* that are shown */
    kl_index columns[TABLE_COLUMN_LIMIT]; /* that are printed */
    double widths[TABLE_COLUMN_LIMIT];    /* of these, in heights of letters */
    int count;
    int lead; /* the first so many stand in every strip; 0 with one strip */
    bool landscape;
    double size; /* of letters, px */
} paper_grid;

paper_grid paper_grid_of(const paper_flow *f, const table *t);

/* Columns of a strip: those that lead, then from … to - 1, as many as fit, one at least. The first strip begins with `lead`, the
 * last ends with `count`. */
typedef struct grid_strip {
    int columns[TABLE_COLUMN_LIMIT]; /* of the grid */
    double x[TABLE_COLUMN_LIMIT];    /* left edges, px from the margin */
    int count, to;
    double width; /* px */
} grid_strip;
grid_strip paper_grid_strip(const paper_grid *g, const paper_flow *f, int from);
/* How many strips the grid takes. */
int paper_grid_strips(const paper_grid *g, const paper_flow *f);

/* Flush left, as words are; else flush right. */
bool paper_grid_left(const paper_grid *g, int column);
/* px of a column. */
double paper_grid_width(const paper_grid *g, int column);
const char *paper_grid_cell(const paper_grid *g, kl_index row, int column, char room[FIGURE_SIZE]);
/* Of the letters of a row: one that tells of a failure is bold. */
const char *paper_grid_class(const paper_grid *g, kl_index row);
const table_column *paper_grid_column(const paper_grid *g, int column);

#endif
