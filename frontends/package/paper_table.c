/* paper_table.c - see paper_table.h.
 * SPDX-License-Identifier: MIT */
#include "paper_table.h"

#include <math.h>
#include <stdio.h>

#include "paper_grid.h"
#include "table_rows.h"

#define TABLE_PAD        3.5 /* px between rows, beside the leading */
#define TABLE_FIRST_ROWS 3   /* that stand with the head */
#define TABLE_AFTER      14.0

static const paper_letters run_title_letters = {"strong", 11.0, false};
static const paper_letters run_note_letters = {"quiet", 9.0, false};

/* A strip of a table while it is put on pages. */
typedef struct table_run {
    paper_flow *flow;
    paper_grid grid;
    grid_strip strip;
    int number, strips;
    paper_letters head, unit, cell;
    int head_lines;
    bool has_units;
    const char *group; /* that the row belongs to; "" without */
    double notes;      /* height */
    arena memory;
} table_run;

static double run_leading(const table_run *r)
{
    return PAPER_LEADING * r->grid.size;
}

/* ---- heights ----------------------------------------------------------------------------------------- */

static double run_title_height(const table_run *r)
{
    const table *t = r->grid.table;
    if (t->title[0] == '\0') {
        return 0.0;
    }
    /* "continued" and "part" need a little more. */
    const double width = paper_flow_width(r->flow, r->grid.landscape) - 120.0;
    return 4.0 + paper_line_count(&run_title_letters, t->title, width) * PAPER_LEADING *
                     run_title_letters.size;
}

static double run_head_height(const table_run *r)
{
    return run_title_height(r) + (r->head_lines + (r->has_units ? 1 : 0)) * run_leading(r) + 7.0;
}

static int run_row_lines(const table_run *r, kl_index row)
{
    int most = 1;
    for (int i = 0; i < r->strip.count; i++) {
        const int column = r->strip.columns[i];
        if (column_is_text(paper_grid_column(&r->grid, column))) {
            const char *text = paper_grid_cell(&r->grid, row, column, NULL);
            const double width = paper_grid_width(&r->grid, column) + 0.01;
            const int lines = paper_line_count(&r->cell, text, width);
            most = lines > most ? lines : most;
        }
    }
    return most;
}

static double run_row_height(const table_run *r, kl_index row)
{
    return run_row_lines(r, row) * run_leading(r) + TABLE_PAD;
}

static double run_group_height(const table_run *r, kl_index row)
{
    return table_group_begins(r->grid.table, row) ? run_leading(r) + 3.0 * TABLE_PAD : 0.0;
}

static double run_notes_height(const table_run *r)
{
    const table *t = r->grid.table;
    const double width = paper_flow_width(r->flow, false);
    int lines = r->grid.rows < table_row_count(t) ? 1 : 0;
    for (kl_index i = 0; i < t->note_count; i++) {
        lines += paper_line_count(&run_note_letters, t->notes[i], width);
    }
    return lines > 0 ? 4.0 + lines * PAPER_LEADING * run_note_letters.size : 0.0;
}

/* Head and the first `rows` rows, groups included; stops beyond `enough`. */
static double run_height(const table_run *r, kl_index rows, double enough)
{
    double height = run_head_height(r);
    for (kl_index row = 0; row < rows && row < r->grid.rows && height <= enough; row++) {
        height += run_row_height(r, row) + run_group_height(r, row);
    }
    return height;
}

/* ---- beginning --------------------------------------------------------------------------------------- */

static void run_take_strip(table_run *r, int from)
{
    r->strip = paper_grid_strip(&r->grid, r->flow, from);
    r->head_lines = 1;
    r->has_units = false;
    for (int i = 0; i < r->strip.count; i++) {
        const int column = r->strip.columns[i];
        const char *heading = paper_grid_column(&r->grid, column)->heading;
        const double width = paper_grid_width(&r->grid, column) + 0.01;
        const int lines = paper_line_count(&r->head, heading, width);
        r->head_lines = lines > r->head_lines ? lines : r->head_lines;
        const char *unit = table_unit(r->grid.table, r->grid.columns[column]);
        r->has_units = r->has_units || unit[0] != '\0';
    }
}

static table_run run_begin(paper_flow *f, const table *t)
{
    table_run r = {.flow = f, .grid = paper_grid_of(f, t), .group = ""};
    r.head = (paper_letters){"strong", r.grid.size, false};
    r.unit = (paper_letters){"quiet", r.grid.size, false};
    r.cell = (paper_letters){"", r.grid.size, false};
    r.strips = paper_grid_strips(&r.grid, f);
    r.notes = run_notes_height(&r);
    run_take_strip(&r, r.grid.lead);
    return r;
}

bool paper_table_lies(const paper_flow *f, const table *t)
{
    return paper_grid_of(f, t).landscape;
}

double paper_table_least(const paper_flow *f, const table *t)
{
    paper_flow copy = *f;
    const table_run r = run_begin(&copy, t);
    return run_height(&r, TABLE_FIRST_ROWS, HUGE_VAL);
}

/* Stand on a page that lies as the table needs it, with room for its beginning, and for all of it when it is small. */
static void run_stand(table_run *r)
{
    paper_flow *f = r->flow;
    const double full = paper_flow_height(f, r->grid.landscape);
    const double least = run_height(r, TABLE_FIRST_ROWS, full);
    const double whole = run_height(r, r->grid.rows, full) + r->notes;
    const bool small = whole <= 0.5 * full;
    f->landscape = r->grid.landscape;
    if (f->landscape && !paper_flow_lies(f)) {
        paper_flow_turn(f);
    }
    paper_flow_need(f, small ? whole : least);
}

/* ---- title, head, groups ----------------------------------------------------------------------------- */

static void run_write_title(table_run *r, bool again)
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
    paper_flow_text(r->flow, &run_title_letters, PAPER_MARGIN,
                    paper_flow_width(r->flow, r->grid.landscape), text);
    r->flow->y += 4.0;
}

static void run_put(table_run *r, const paper_letters *letters, int i, double y, const char *line)
{
    const int column = r->strip.columns[i];
    const bool left = paper_grid_left(&r->grid, column);
    const double x =
        PAPER_MARGIN + r->strip.x[i] + (left ? 0.0 : paper_grid_width(&r->grid, column));
    paper_write(paper_flow_page(r->flow), letters, x, y, left ? ANCHOR_START : ANCHOR_END, line);
}

static void run_write_head(table_run *r, bool again)
{
    run_write_title(r, again);
    const double top = r->flow->y + r->grid.size;
    char line[PAPER_LINE_SIZE];
    for (int i = 0; i < r->strip.count; i++) {
        const int column = r->strip.columns[i];
        const double width = paper_grid_width(&r->grid, column) + 0.01;
        double y = top;
        for (const char *rest = paper_grid_column(&r->grid, column)->heading; rest != NULL;) {
            rest = paper_break(&r->head, rest, width, line);
            run_put(r, &r->head, i, y, line);
            y += run_leading(r);
        }
        run_put(r, &r->unit, i, top + r->head_lines * run_leading(r),
                table_unit(r->grid.table, r->grid.columns[column]));
    }
    r->flow->y += (r->head_lines + (r->has_units ? 1 : 0)) * run_leading(r) + 3.0;
    drawing_line(paper_flow_page(r->flow), "axis", PAPER_MARGIN, r->flow->y,
                 PAPER_MARGIN + r->strip.width, r->flow->y);
    r->flow->y += 4.0;
}

static void run_write_group(table_run *r, bool again)
{
    if (r->group[0] == '\0') {
        return;
    }
    const double width = paper_flow_width(r->flow, r->grid.landscape);
    r->flow->y += TABLE_PAD;
    paper_flow_text(r->flow, &r->head, PAPER_MARGIN, width, r->group);
    r->flow->y += again ? 0.0 : TABLE_PAD;
}

/* ---- rows -------------------------------------------------------------------------------------------- */

/* See that `height` px are left; a new page begins with the head. */
static void run_need(table_run *r, double height)
{
    if (paper_flow_need(r->flow, height)) {
        run_write_head(r, true);
        run_write_group(r, true);
    }
}

/* A row stays whole unless it is as tall as half a page. */
static void run_write_row(table_run *r, kl_index row, double below)
{
    const int lines = run_row_lines(r, row);
    const double half = 0.5 * paper_flow_height(r->flow, r->grid.landscape);
    run_need(r, fmin(lines * run_leading(r) + TABLE_PAD + below, half));
    char rooms[TABLE_COLUMN_LIMIT][FIGURE_SIZE];
    const char *rest[TABLE_COLUMN_LIMIT];
    for (int i = 0; i < r->strip.count; i++) {
        rest[i] = paper_grid_cell(&r->grid, row, r->strip.columns[i], rooms[i]);
    }
    char line[PAPER_LINE_SIZE];
    for (int n = 0; n < lines; n++) {
        run_need(r, run_leading(r));
        for (int i = 0; i < r->strip.count; i++) {
            if (rest[i] != NULL) {
                const double width = paper_grid_width(&r->grid, r->strip.columns[i]) + 0.01;
                rest[i] = paper_break(&r->cell, rest[i], width, line);
                run_put(r, &r->cell, i, r->flow->y + r->grid.size, line);
            }
        }
        r->flow->y += run_leading(r);
    }
    r->flow->y += TABLE_PAD;
    drawing_line(paper_flow_page(r->flow), "rule", PAPER_MARGIN, r->flow->y - 0.6 * TABLE_PAD,
                 PAPER_MARGIN + r->strip.width, r->flow->y - 0.6 * TABLE_PAD);
}

static void run_write_rows(table_run *r)
{
    const table *t = r->grid.table;
    for (kl_index row = 0; row < r->grid.rows && r->flow->status == KL_OK; row++) {
        const bool last = row + 1 == r->grid.rows;
        if (table_group_begins(t, row)) {
            const double height = run_group_height(r, row) + run_row_height(r, row);
            r->group = "";
            run_need(r, height + (last ? r->notes : 0.0));
            r->group = table_group_text(t, row, &r->memory);
            if (!r->group) {
                r->flow->status = KL_NO_MEMORY;
                return;
            }
            run_write_group(r, false);
        }
        run_write_row(r, row, last && r->notes < 200.0 ? r->notes : 0.0);
    }
}

static void run_write_notes(table_run *r)
{
    const table *t = r->grid.table;
    const double width = paper_flow_width(r->flow, false);
    r->flow->y += 4.0;
    if (r->grid.rows < table_row_count(t)) {
        char text[100];
        snprintf(text, sizeof text, "The first %d of %lld rows; the others are left out here.",
                 PAPER_ROW_LIMIT, (long long)table_row_count(t));
        paper_flow_text(r->flow, &run_note_letters, PAPER_MARGIN, width, text);
    }
    for (kl_index i = 0; i < t->note_count; i++) {
        paper_flow_text(r->flow, &run_note_letters, PAPER_MARGIN, width, t->notes[i]);
    }
}

void paper_table(paper_flow *f, const table *t)
{
    table_run r = run_begin(f, t);
    int from = r.grid.lead;
    do {
        r.number++;
        r.group = "";
        run_take_strip(&r, from);
        from = r.strip.to;
        run_stand(&r);
        run_write_head(&r, false);
        run_write_rows(&r);
        f->y += from < r.grid.count ? TABLE_AFTER : 0.0;
    } while (from < r.grid.count && f->status == KL_OK);
    run_write_notes(&r);
    f->y += TABLE_AFTER;
    arena_free(&r.memory);
}
