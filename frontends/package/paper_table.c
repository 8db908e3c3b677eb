/* paper_table.c - see paper_table.h.
 * SPDX-License-Identifier: MIT */
#include "paper_table.h"

#include <math.h>
#include <stdio.h>

#include "paper_run.h"
#include "table_rows.h"

#define TABLE_AFTER     14.0
#define TABLE_LAST_ROWS 3
#define TABLE_NOTES     200.0 /* px of notes that the last rows stay with */

bool paper_table_lies(const paper_flow *f, const table *t)
{
    return paper_grid_of(f, t).landscape;
}

double paper_table_least(const paper_flow *f, const table *t)
{
    paper_flow copy = *f;
    const paper_run r = paper_run_of(&copy, t);
    return paper_run_least(&r);
}

/* Stand on a page that lies as the table needs it, with room for its beginning, and for all of it when it is small. */
static void run_stand(paper_run *r)
{
    paper_flow *f = r->flow;
    const double full = paper_flow_height(f, r->grid.landscape);
    const double whole = paper_run_height(r, 0, r->grid.rows, full) + r->notes;
    f->landscape = r->grid.landscape;
    if (f->landscape && !paper_flow_lies(f)) {
        paper_flow_turn(f);
    }
    paper_flow_need(f, whole <= 0.5 * full ? whole : paper_run_least(r));
}

/* ---- title, head, groups ----------------------------------------------------------------------------- */

static void run_write_title(paper_run *r, bool again)
{
    const table *t = r->grid.table;
    if (t->title[0] == '\0') {
        return;
    }
    char part[60] = "";
    if (r->strips > 1) {
        snprintf(part, sizeof part, ", part %d of %d", r->number, r->strips);
    }
    const char *text =
        arena_print(&r->memory, "%s%s%s", t->title, part, again ? ", continued" : "");
    if (!text) {
        r->flow->status = KL_NO_MEMORY;
        return;
    }
    const double width = paper_flow_width(r->flow, r->grid.landscape);
    paper_flow_text(r->flow, &paper_run_title, PAPER_MARGIN, width, text);
    r->flow->y += 4.0;
}

/* A line in the i-th column of the strip. */
static void run_put(paper_run *r, const paper_letters *letters, int i, double y, const char *line)
{
    const int column = r->strip.columns[i];
    const bool left = paper_grid_left(&r->grid, column);
    const double x =
        paper_run_x(r) + r->strip.x[i] + (left ? 0.0 : paper_grid_width(&r->grid, column));
    paper_write(paper_flow_page(r->flow), letters, x, y, left ? ANCHOR_START : ANCHOR_END, line);
}

/* A line across the panel, so far below the flow's y. */
static void run_rule(paper_run *r, const char *class, double below)
{
    const double y = r->flow->y + below;
    const double x = paper_run_x(r);
    drawing_line(paper_flow_page(r->flow), class, x, y, x + r->strip.width, y);
}

static void run_write_head(paper_run *r)
{
    const double leading = paper_run_leading(r);
    const double top = r->flow->y + r->grid.size;
    char line[PAPER_LINE_SIZE];
    for (int i = 0; i < r->strip.count; i++) {
        const int column = r->strip.columns[i];
        double y = top;
        for (const char *rest = paper_grid_column(&r->grid, column)->heading; rest != NULL;) {
            rest = paper_break(&r->head, rest, paper_grid_width(&r->grid, column), line);
            run_put(r, &r->head, i, y, line);
            y += leading;
        }
        run_put(r, &r->unit, i, top + r->head_lines * leading,
                table_unit(r->grid.table, r->grid.columns[column]));
    }
    r->flow->y += (r->head_lines + (r->has_units ? 1 : 0)) * leading + 3.0;
    run_rule(r, "axis", 0.0);
    r->flow->y += 4.0;
}

static void run_write_group(paper_run *r, const char *more)
{
    if (r->group[0] == '\0') {
        return;
    }
    const char *text = arena_print(&r->memory, "%s%s", r->group, more);
    if (!text) {
        r->flow->status = KL_NO_MEMORY;
        return;
    }
    r->flow->y += RUN_PAD;
    paper_flow_text(r->flow, &r->head, paper_run_x(r), paper_run_width(r), text);
    r->flow->y += RUN_PAD;
}

/* ---- rows -------------------------------------------------------------------------------------------- */

/* See that `height` px are left for this row; the next panel and the next page begin with the head. */
static void run_need(paper_run *r, kl_index row, double height)
{
    if (paper_run_has(r, height)) {
        return;
    }
    if (!paper_run_step(r, height)) {
        paper_flow_turn(r->flow);
        run_write_title(r, true);
        paper_run_open(r, row);
    }
    run_write_head(r);
    run_write_group(r, ", continued");
}

/* Boxes to write in, in the row just written. */
static void run_write_blanks(paper_run *r, double height)
{
    for (int i = 0; i < r->strip.count; i++) {
        const int column = r->strip.columns[i];
        if (paper_grid_column(&r->grid, column)->is_blank) {
            drawing_box(paper_flow_page(r->flow), "tick", paper_run_x(r) + r->strip.x[i],
                        r->flow->y - 0.6 * RUN_PAD - height + 2.0,
                        paper_grid_width(&r->grid, column), height - 4.0);
        }
    }
}

/* A row stays whole unless it is as tall as half a page. */
static void run_write_row(paper_run *r, kl_index row, double below)
{
    const paper_letters letters = paper_run_cell(r, row);
    const double leading = paper_run_leading(r);
    const double half = 0.5 * paper_flow_height(r->flow, r->grid.landscape);
    run_need(r, row, fmin(paper_run_row_height(r, row) + below, half));
    char rooms[TABLE_COLUMN_LIMIT][FIGURE_SIZE];
    const char *rest[TABLE_COLUMN_LIMIT] = {0};
    for (int i = 0; i < r->strip.count; i++) {
        rest[i] = paper_grid_cell(&r->grid, row, r->strip.columns[i], rooms[i]);
    }
    char line[PAPER_LINE_SIZE];
    const int lines = paper_run_row_lines(r, row);
    const double spare = paper_run_row_height(r, row) - lines * leading - RUN_PAD;
    r->flow->y += 0.5 * spare;
    for (int n = 0; n < lines; n++) {
        run_need(r, row, leading);
        for (int i = 0; i < r->strip.count; i++) {
            if (rest[i] != NULL) {
                const double width = paper_grid_width(&r->grid, r->strip.columns[i]);
                rest[i] = paper_break(&letters, rest[i], width, line);
                run_put(r, &letters, i, r->flow->y + r->grid.size, line);
            }
        }
        r->flow->y += leading;
    }
    r->flow->y += RUN_PAD + 0.5 * spare;
    run_rule(r, "rule", -0.6 * RUN_PAD);
    run_write_blanks(r, paper_run_row_height(r, row));
}

static void run_begin_group(paper_run *r, kl_index row, double below)
{
    r->group = "";
    run_need(r, row, paper_run_group_least(r, row) + below);
    r->group = table_group_text(r->grid.table, row, &r->memory);
    if (!r->group) {
        r->flow->status = KL_NO_MEMORY;
        return;
    }
    run_write_group(r, "");
}

/* Height that must be left below a row: the last rows stay together, and with the notes. */
static double run_below(const paper_run *r, kl_index row)
{
    const kl_index more = r->grid.rows - row - 1;
    if (more != 0 && more + 1 != TABLE_LAST_ROWS) {
        return 0.0;
    }
    const double notes = r->notes < TABLE_NOTES ? r->notes : 0.0;
    return notes + (double)more * paper_run_row_height(r, row);
}

static void run_write_rows(paper_run *r)
{
    for (kl_index row = 0; row < r->grid.rows && r->flow->status == KL_OK; row++) {
        const double below = run_below(r, row);
        if (table_group_begins(r->grid.table, row)) {
            run_begin_group(r, row, below);
        }
        if (r->flow->status == KL_OK) {
            run_write_row(r, row, below);
        }
    }
}

static void run_write_notes(paper_run *r)
{
    const table *t = r->grid.table;
    const double width = paper_flow_width(r->flow, false);
    r->flow->y += 4.0;
    if (r->grid.rows < table_row_count(t)) {
        char text[100];
        snprintf(text, sizeof text, "The first %d of %lld rows; the others are left out here.",
                 PAPER_ROW_LIMIT, (long long)table_row_count(t));
        paper_flow_text(r->flow, &paper_run_note, PAPER_MARGIN, width, text);
    }
    for (kl_index i = 0; i < t->note_count; i++) {
        paper_flow_text(r->flow, &paper_run_note, PAPER_MARGIN, width, t->notes[i]);
    }
}

void paper_table(paper_flow *f, const table *t)
{
    paper_run r = paper_run_of(f, t);
    while (f->status == KL_OK) {
        run_stand(&r);
        run_write_title(&r, false);
        paper_run_open(&r, 0);
        run_write_head(&r);
        run_write_rows(&r);
        paper_run_close(&r);
        if (r.strip.to >= r.grid.count) {
            break;
        }
        f->y += TABLE_AFTER;
        paper_run_take(&r, r.strip.to);
    }
    run_write_notes(&r);
    f->y += TABLE_AFTER;
    arena_free(&r.memory);
}
