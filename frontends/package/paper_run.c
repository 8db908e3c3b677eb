/* paper_run.c - see paper_run.h.
 * SPDX-License-Identifier: MIT */
#include "paper_run.h"

#include <math.h>

#include "table_rows.h"

#define RUN_WRITE         44.0 /* px of a row to write in by hand */
#define RUN_FIRST_ROWS    3    /* that stand with the head */
#define RUN_WHOLE         0.3  /* of a page: a group that is shorter stays whole */
#define RUN_PANELS        3
#define RUN_PANEL_GAP     36.0  /* px between panels */
#define RUN_LONG          60    /* rows of a table that is long */
#define RUN_PANEL_LETTERS 8.5   /* px that letters shrink to at the least for panels */
#define RUN_PANEL_ROWS    24    /* a table of fewer rows stands in one */
#define RUN_TITLE_MORE    120.0 /* px that "part 2 of 3, continued" takes */

const paper_letters paper_run_title = {"strong", 11.0, false};
const paper_letters paper_run_note = {"quiet", 9.0, false};

/* ---- heights ----------------------------------------------------------------------------------------- */

double paper_run_leading(const paper_run *r)
{
    return PAPER_LEADING * r->grid.size;
}

static double run_title_height(const paper_run *r)
{
    const table *t = r->grid.table;
    if (t->title[0] == '\0') {
        return 0.0;
    }
    const double width = paper_flow_width(r->flow, r->grid.landscape) - RUN_TITLE_MORE;
    const double lines = paper_line_count(&paper_run_title, t->title, width);
    return 4.0 + lines * PAPER_LEADING * paper_run_title.size;
}

static double run_head_height(const paper_run *r)
{
    return (r->head_lines + (r->has_units ? 1 : 0)) * paper_run_leading(r) + 7.0;
}

paper_letters paper_run_cell(const paper_run *r, kl_index row)
{
    return (paper_letters){paper_grid_class(&r->grid, row), r->grid.size, false};
}

int paper_run_row_lines(const paper_run *r, kl_index row)
{
    const paper_letters letters = paper_run_cell(r, row);
    int most = 1;
    for (int i = 0; i < r->strip.count; i++) {
        const int column = r->strip.columns[i];
        if (column_is_text(paper_grid_column(&r->grid, column))) {
            const char *text = paper_grid_cell(&r->grid, row, column, NULL);
            const double width = paper_grid_width(&r->grid, column);
            const int lines = paper_line_count(&letters, text, width);
            most = lines > most ? lines : most;
        }
    }
    return most;
}

double paper_run_row_height(const paper_run *r, kl_index row)
{
    const double lines = paper_run_row_lines(r, row) * paper_run_leading(r) + RUN_PAD;
    return r->has_blanks ? fmax(lines, RUN_WRITE) : lines;
}

/* Of the line over a row that begins a group; else 0. */
static double paper_run_group_height(const paper_run *r, kl_index row)
{
    const table *t = r->grid.table;
    if (!table_group_begins(t, row)) {
        return 0.0;
    }
    double width = 0.0;
    for (kl_index i = 0; i < t->column_count; i++) {
        if (t->columns[i].kind == COLUMN_GROUP) {
            width += paper_width(&r->head, t->columns[i].heading) +
                     paper_width(&r->head, table_cell_at(t, row, i)->text) + r->head.size;
        }
    }
    return fmax(ceil(width / paper_run_width(r)), 1.0) * paper_run_leading(r) + 3.0 * RUN_PAD;
}

double paper_run_group_least(const paper_run *r, kl_index row)
{
    const double enough = RUN_WHOLE * paper_flow_height(r->flow, r->grid.landscape);
    const double first = paper_run_group_height(r, row) + paper_run_row_height(r, row);
    double height = first;
    for (row++; row < r->grid.rows && !table_group_begins(r->grid.table, row); row++) {
        height += paper_run_row_height(r, row);
        if (height > enough) {
            return first;
        }
    }
    return height;
}

double paper_run_height(const paper_run *r, kl_index from, kl_index to, double enough)
{
    double height = run_title_height(r) + run_head_height(r);
    for (kl_index row = from; row < to && row < r->grid.rows && height <= enough; row++) {
        height += paper_run_row_height(r, row) + paper_run_group_height(r, row);
    }
    return height;
}

double paper_run_least(const paper_run *r)
{
    const double rows = paper_run_height(r, 0, RUN_FIRST_ROWS, HUGE_VAL);
    if (r->grid.rows == 0 || !table_group_begins(r->grid.table, 0)) {
        return rows;
    }
    return fmax(rows, run_title_height(r) + run_head_height(r) + paper_run_group_least(r, 0));
}

static double run_notes_height(const paper_run *r)
{
    const table *t = r->grid.table;
    const double width = paper_flow_width(r->flow, false);
    int lines = r->grid.rows < table_row_count(t) ? 1 : 0;
    for (kl_index i = 0; i < t->note_count; i++) {
        lines += paper_line_count(&paper_run_note, t->notes[i], width);
    }
    return lines > 0 ? 4.0 + lines * PAPER_LEADING * paper_run_note.size : 0.0;
}

/* ---- strips ------------------------------------------------------------------------------------------ */

/* The letters of a long table may be smaller when it then fits into two panels. */
static void run_letters(paper_run *r)
{
    const grid_strip all = paper_grid_strip(&r->grid, r->flow, r->grid.lead);
    const double page = paper_flow_width(r->flow, r->grid.landscape);
    const double size = 0.5 * (page - RUN_PANEL_GAP) / all.width * r->grid.size;
    if (r->strips == 1 && r->grid.rows > RUN_LONG && size >= RUN_PANEL_LETTERS && all.width > 0.0) {
        r->grid.size = fmin(r->grid.size, size);
    }
}

static int run_panels(const paper_run *r)
{
    if (r->strips > 1 || r->grid.rows < RUN_PANEL_ROWS) {
        return 1;
    }
    const double page = paper_flow_width(r->flow, r->grid.landscape) + RUN_PANEL_GAP;
    const double panels = floor(page / (r->strip.width + RUN_PANEL_GAP));
    return panels < RUN_PANELS ? (int)fmax(panels, 1.0) : RUN_PANELS;
}

void paper_run_take(paper_run *r, int from)
{
    r->strip = paper_grid_strip(&r->grid, r->flow, from);
    r->head_lines = 1;
    r->has_units = false;
    r->has_blanks = false;
    for (int i = 0; i < r->strip.count; i++) {
        const int column = r->strip.columns[i];
        const char *heading = paper_grid_column(&r->grid, column)->heading;
        const int lines = paper_line_count(&r->head, heading, paper_grid_width(&r->grid, column));
        r->head_lines = lines > r->head_lines ? lines : r->head_lines;
        const char *unit = table_unit(r->grid.table, r->grid.columns[column]);
        r->has_units = r->has_units || unit[0] != '\0';
        r->has_blanks = r->has_blanks || paper_grid_column(&r->grid, column)->is_blank;
    }
    r->panels = run_panels(r);
    r->number++;
    r->group = "";
}

paper_run paper_run_of(paper_flow *f, const table *t)
{
    paper_run r = {.flow = f, .grid = paper_grid_of(f, t), .panels = 1};
    r.strips = paper_grid_strips(&r.grid, f);
    run_letters(&r);
    r.head = (paper_letters){"strong", r.grid.size, false};
    r.unit = (paper_letters){"quiet", r.grid.size, false};
    r.notes = run_notes_height(&r);
    paper_run_take(&r, r.grid.lead);
    return r;
}

/* ---- panels ------------------------------------------------------------------------------------------ */

double paper_run_x(const paper_run *r)
{
    return PAPER_MARGIN + r->panel * (r->strip.width + RUN_PANEL_GAP);
}

double paper_run_width(const paper_run *r)
{
    return r->panels > 1 ? r->strip.width + 0.5 * RUN_PANEL_GAP
                         : paper_flow_width(r->flow, r->grid.landscape);
}

void paper_run_open(paper_run *r, kl_index row)
{
    r->panel = 0;
    r->top = r->lowest = r->flow->y;
    const double room = paper_flow_left(r->flow);
    const double rows = paper_run_height(r, row, r->grid.rows, r->panels * room) -
                        run_title_height(r) - run_head_height(r);
    /* A row and a group more, since rows stay whole. */
    const double panel =
        rows / r->panels + run_head_height(r) + 3.0 * paper_run_leading(r) + 3.0 * RUN_PAD;
    r->panel_end = r->top + fmin(panel, room);
}

bool paper_run_has(const paper_run *r, double height)
{
    const double left = paper_flow_left(r->flow);
    return height <= (r->panel + 1 < r->panels ? fmin(left, r->panel_end - r->flow->y) : left);
}

bool paper_run_step(paper_run *r, double height)
{
    const double bottom = r->flow->y + paper_flow_left(r->flow);
    if (r->panel + 1 >= r->panels || r->top + run_head_height(r) + height > bottom) {
        return false;
    }
    r->lowest = fmax(r->lowest, r->flow->y);
    r->panel++;
    r->flow->y = r->top;
    return true;
}

void paper_run_close(paper_run *r)
{
    r->flow->y = fmax(r->lowest, r->flow->y);
}
