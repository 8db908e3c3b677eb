/* paper_run.h - a table on its way over the pages: how tall its parts are, and where its next row stands.
 *
 * A long table that is narrow stands in panels, two or three side by side, which are read one after the other; on its last page
 * they are about equally long.
 * SPDX-License-Identifier: MIT */
#ifndef KERNLINE_PAPER_RUN_H
#define KERNLINE_PAPER_RUN_H

#include "paper_grid.h"

#define RUN_PAD 3.5 /* px between rows, beside the leading */

typedef struct paper_run {
    paper_flow *flow;
    paper_grid grid;
    grid_strip strip;
    int number, strips; /* the strip that is written, from 1 */
    int panel, panels;  /* likewise, from 0 */
    double top;         /* of the panels on this page */
    double panel_end;   /* where a panel ends that is not the last of its page */
    double lowest;      /* of the panels that are full */
    paper_letters head, unit;
    int head_lines;
    bool has_units;
    bool has_blanks;   /* columns to write in by hand: the rows are taller */
    const char *group; /* that the row belongs to; "" without */
    double notes;      /* height */
    arena memory;
} paper_run;

extern const paper_letters paper_run_title, paper_run_note;

/* Ready for the first strip. Free the memory. */
paper_run paper_run_of(paper_flow *f, const table *t);
/* Ready for the strip that begins with this column of the grid. */
void paper_run_take(paper_run *r, int from);

double paper_run_leading(const paper_run *r);
/* Letters of a row. */
paper_letters paper_run_cell(const paper_run *r, kl_index row);
int paper_run_row_lines(const paper_run *r, kl_index row);
double paper_run_row_height(const paper_run *r, kl_index row);
/* Height that must be left where a group begins: that of all its rows when they are few, else of the first. */
double paper_run_group_least(const paper_run *r, kl_index row);
/* Height that must be left where the table begins. */
double paper_run_least(const paper_run *r);
/* Title, head and the rows [from, to) with their groups, one under another; not exact beyond `enough`. */
double paper_run_height(const paper_run *r, kl_index from, kl_index to, double enough);

/* Left edge of the panel; width that lines over its rows have. */
double paper_run_x(const paper_run *r);
double paper_run_width(const paper_run *r);

/* Begin the panels of a page at the flow's y, when rows from `row` on are left. */
void paper_run_open(paper_run *r, kl_index row);
/* Does the panel have so much left? */
bool paper_run_has(const paper_run *r, double height);
/* Go on in the next panel. @return false: there is none on this page that has so much */
bool paper_run_step(paper_run *r, double height);
/* Let the flow go on below the panels. */
void paper_run_close(paper_run *r);

#endif
