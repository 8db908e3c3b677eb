/* table_figures.c - see table_figures.h.
 * SPDX-License-Identifier: MIT */
#include "table_figures.h"

#include <math.h>
#include <stdio.h>
#include <string.h>

#include "near.h"
#include "table_settle.h"

#define SHARE_DIGITS 2

static int figures_exact_decimals(const table *t, kl_index column)
{
    int decimals = 0;
    for (kl_index row = 0; row < table_row_count(t); ++row) {
        const int need =
            figure_exact_decimals(table_shown(t, row, column), t->columns[column].digits);
        decimals = need > decimals ? need : decimals;
    }
    return decimals;
}

static int figures_decimals(const table *t, kl_index column, double noise)
{
    const table_column *c = &t->columns[column];
    if (c->kind == COLUMN_FIGURE) {
        return figure_decimals(table_column_largest(t, column, noise) / c->factor, c->digits);
    }
    return c->kind == COLUMN_EXACT ? figures_exact_decimals(t, column) : 0;
}

table_figures table_figures_of(const table *t)
{
    table_figures figures = {0};
    for (kl_index column = 0; column < t->column_count; ++column) {
        figures.noise[column] = table_noise(t, column);
        figures.decimals[column] = figures_decimals(t, column, figures.noise[column]);
    }
    return figures;
}

const char *table_figure(const table *t,
                         const table_figures *figures,
                         kl_index row,
                         kl_index column,
                         char room[FIGURE_SIZE])
{
    const table_column *c = &t->columns[column];
    if (column_is_text(c)) {
        return table_cell_at(t, row, column)->text;
    }
    const double value = table_shown(t, row, column);
    if (c->kind == COLUMN_FLAG) {
        return isnan(value) ? "-" : value > 0.5 ? "yes" : "no";
    }
    if (c->kind == COLUMN_SHARE) {
        figure_rounded(room, value, is_exact_zero(value) ? 0 : -1, SHARE_DIGITS, 0.0);
        return room;
    }
    if (c->kind == COLUMN_EACH) {
        const double noise = figures->noise[column] / c->factor;
        figure_rounded(room, value, figure_decimals(value, c->digits), c->digits, noise);
        return room;
    }
    if (c->kind == COLUMN_EXACT && isfinite(value)) {
        figure_exact(room, value, figures->decimals[column]);
        return room;
    }
    figure_rounded(room, value, figures->decimals[column], c->digits,
                   figures->noise[column] / c->factor);
    return room;
}
