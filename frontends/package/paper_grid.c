/* paper_grid.c - see paper_grid.h.
 * SPDX-License-Identifier: MIT */
#include "paper_grid.h"

#include <math.h>

#include "table_rows.h"

#define GRID_GAP      1.3  /* between columns, in heights of letters */
#define GRID_WIDEST   26.0 /* of a column: longer texts are broken into lines */
#define GRID_ROUNDING 1e-6 /* px: what was measured fits */
#define GRID_BLANK    15.0 /* width of a column to write in, in heights of letters */

const table_column *paper_grid_column(const paper_grid *g, int column)
{
    return &g->table->columns[g->columns[column]];
}

bool paper_grid_left(const paper_grid *g, int column)
{
    return paper_grid_column(g, column)->kind == COLUMN_WORD;
}

double paper_grid_width(const paper_grid *g, int column)
{
    return g->widths[column] * g->size + GRID_ROUNDING;
}

const char *paper_grid_cell(const paper_grid *g, kl_index row, int column, char room[FIGURE_SIZE])
{
    return table_figure(g->table, &g->figures, row, g->columns[column], room);
}

const char *paper_grid_class(const paper_grid *g, kl_index row)
{
    return table_row_fails(g->table, row) ? "strong" : "";
}

/* The widest line of a text that has line ends, at most GRID_WIDEST. */
static double grid_widest(const char *class, const char *text)
{
    const paper_letters letters = {class, 1.0, false};
    char line[PAPER_LINE_SIZE];
    double widest = 0.0;
    while (text != NULL) {
        text = paper_break(&letters, text, GRID_WIDEST, line);
        widest = fmax(widest, paper_width(&letters, line));
    }
    return widest;
}

static double grid_measure(const paper_grid *g, int column)
{
    const table_column *c = paper_grid_column(g, column);
    double width = fmax(grid_widest("strong", c->heading), c->is_blank ? GRID_BLANK : 0.0);
    width = fmax(width, grid_widest("", table_unit(g->table, g->columns[column])));
    char room[FIGURE_SIZE];
    for (kl_index row = 0; row < g->rows; row++) {
        const char *cell = paper_grid_cell(g, row, column, room);
        width = fmax(width, grid_widest(paper_grid_class(g, row), cell));
    }
    return width;
}

/* Width of columns [from, to) side by side, in heights of letters. */
static double grid_sum(const paper_grid *g, int from, int to)
{
    double sum = 0.0;
    for (int i = from; i < to; i++) {
        sum += g->widths[i] + (i > from ? GRID_GAP : 0.0);
    }
    return sum;
}

/* What says which row it is stands in front: words, stations, counts before the first figure; at most a third of the width. */
static int grid_lead(const paper_grid *g, double width)
{
    int lead = 0;
    while (lead < g->count) {
        const column_kind kind = paper_grid_column(g, lead)->kind;
        const bool figure = kind == COLUMN_FIGURE || kind == COLUMN_EACH || kind == COLUMN_SHARE;
        if (figure || grid_sum(g, 0, lead + 1) > width / 3.0) {
            break;
        }
        lead++;
    }
    return lead;
}

/* Letters and page. */
static void grid_fit(paper_grid *g, const paper_flow *f)
{
    const double sum = fmax(grid_sum(g, 0, g->count), 1.0);
    const double upright = paper_flow_width(f, false) / sum;
    const double lying = paper_flow_width(f, true) / sum;
    g->landscape = upright < GRID_LEAST && lying >= GRID_LEAST;
    g->size = fmin(g->landscape ? lying : upright, GRID_LETTERS);
    if (g->size < GRID_LEAST) {
        g->size = GRID_LEAST;
        g->lead = grid_lead(g, paper_flow_width(f, false) / g->size);
    }
}

paper_grid paper_grid_of(const paper_flow *f, const table *t)
{
    paper_grid g = {.table = t, .figures = table_figures_of(t), .rows = table_row_count(t)};
    g.rows = g.rows < PAPER_ROW_LIMIT ? g.rows : PAPER_ROW_LIMIT;
    for (kl_index column = 0; column < t->column_count; column++) {
        if (column_is_printed(&t->columns[column])) {
            g.columns[g.count] = column;
            g.count++;
            g.widths[g.count - 1] = grid_measure(&g, g.count - 1);
        }
    }
    grid_fit(&g, f);
    return g;
}

static double grid_strip_with(const grid_strip *s, const paper_grid *g, int column)
{
    return s->width + (s->count > 0 ? GRID_GAP * g->size : 0.0) + paper_grid_width(g, column);
}

static void grid_strip_add(grid_strip *s, const paper_grid *g, int column)
{
    s->width = grid_strip_with(s, g, column);
    s->x[s->count] = s->width - paper_grid_width(g, column);
    s->columns[s->count++] = column;
}

grid_strip paper_grid_strip(const paper_grid *g, const paper_flow *f, int from)
{
    const double room = paper_flow_width(f, g->landscape) + 0.01;
    grid_strip s = {.to = from};
    for (int i = 0; i < g->lead; i++) {
        grid_strip_add(&s, g, i);
    }
    for (; s.to < g->count && (s.to == from || grid_strip_with(&s, g, s.to) <= room); s.to++) {
        grid_strip_add(&s, g, s.to);
    }
    return s;
}

int paper_grid_strips(const paper_grid *g, const paper_flow *f)
{
    int strips = 0;
    int from = g->lead;
    do {
        from = paper_grid_strip(g, f, from).to;
        strips++;
    } while (from < g->count);
    return strips;
}
