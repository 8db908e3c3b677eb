/* html_table.c - a table as markup. What print leaves out (`detail`) is there and not shown, so that a copy of the table holds
 * what `kernline table --csv` writes; the texts of groups stand in a line over the rows, each with its key.
 * SPDX-License-Identifier: MIT */
#include <math.h>
#include <string.h>

#include "html.h"
#include "package_html.h"
#include "table_figures.h"
#include "table_rows.h"

#define TABLE_LONG  30 /* rows: more of them are scrolled through on a screen */
#define TABLE_PROSE 28 /* bytes: longer texts may be broken */
#define TABLE_WIDE  12 /* columns: more of them are set smaller on paper */

/* How a table is shown: what its cells read, and which columns hold sentences, that may be broken into lines. */
typedef struct table_look {
    table_figures figures;
    bool prose[TABLE_COLUMN_LIMIT];
} table_look;

static table_look table_look_of(const table *t)
{
    table_look look = {.figures = table_figures_of(t)};
    for (kl_index column = 0; column < t->column_count; column++) {
        for (kl_index row = 0; column_is_text(&t->columns[column]) && row < table_row_count(t);
             row++) {
            look.prose[column] =
                look.prose[column] || strlen(table_cell_at(t, row, column)->text) > TABLE_PROSE;
        }
    }
    return look;
}

static const char *table_class(const table *t, const table_look *look, kl_index column)
{
    const table_column *c = &t->columns[column];
    const bool is_word = c->kind == COLUMN_WORD || c->kind == COLUMN_FLAG;
    if (c->is_detail) {
        return is_word ? " class=\"word detail\"" : " class=\"detail\"";
    }
    if (look->prose[column]) {
        return " class=\"word prose\"";
    }
    return is_word ? " class=\"word\"" : "";
}

static void table_put_head(FILE *out, const table *t, const table_look *look)
{
    fputs("<thead><tr>", out);
    for (kl_index i = 0; i < t->column_count; i++) {
        const table_column *c = &t->columns[i];
        if (c->kind == COLUMN_GROUP) {
            continue;
        }
        const char *unit = table_unit(t, i);
        fprintf(out, "<th scope=\"col\"%s data-key=\"", table_class(t, look, i));
        html_text(out, c->key);
        fputs("\" data-unit=\"", out);
        html_text(out, unit);
        fputs("\">", out);
        html_lines(out, c->heading);
        if (unit[0] != '\0') {
            fputs(" <span class=\"unit\">", out);
            html_text(out, unit);
            fputs("</span>", out);
        }
        fputs("</th>", out);
    }
    fputs("</tr></thead>\n", out);
}

static kl_index table_wide(const table *t)
{
    kl_index count = 0;
    for (kl_index i = 0; i < t->column_count; i++) {
        count += column_is_printed(&t->columns[i]);
    }
    return count;
}

static void table_put_group(FILE *out, const table *t, kl_index row)
{
    bool is_first = true;
    fprintf(out, "<tr class=\"group\"><th scope=\"rowgroup\" colspan=\"%d\">", (int)table_wide(t));
    for (kl_index i = 0; i < t->column_count; i++) {
        const table_column *c = &t->columns[i];
        const char *text = c->kind == COLUMN_GROUP ? table_cell_at(t, row, i)->text : "";
        if (c->kind != COLUMN_GROUP) {
            continue;
        }
        fputs(is_first || text[0] == '\0' ? "" : ", ", out);
        is_first = is_first && text[0] == '\0';
        if (c->heading[0] != '\0' && text[0] != '\0') {
            html_text(out, c->heading);
            fputc(' ', out);
        }
        fputs("<bdi data-key=\"", out);
        html_text(out, c->key);
        fputs("\">", out);
        html_text(out, text);
        fputs("</bdi>", out);
    }
    fputs("</th></tr>\n", out);
}

static void
table_put_cell(FILE *out, const table *t, const table_look *look, kl_index row, kl_index column)
{
    const table_column *c = &t->columns[column];
    char room[FIGURE_SIZE];
    fprintf(out, "<td%s", table_class(t, look, column));
    if (!column_is_text(c)) {
        const double value = table_shown(t, row, column);
        if (c->kind == COLUMN_FLAG && !isnan(value)) {
            fprintf(out, " data-value=\"%s\"", value > 0.5 ? "yes" : "no");
        } else {
            figure_full(room, value);
            fprintf(out, " data-value=\"%s\"", room);
        }
    }
    fputc('>', out);
    html_text(out, table_figure(t, &look->figures, row, column, room));
    fputs("</td>", out);
}

static void table_put_rows(FILE *out, const table *t, const table_look *look)
{
    for (kl_index row = 0; row < table_row_count(t); row++) {
        const bool changes = table_group_begins(t, row);
        if (changes || row == 0) {
            fputs(row > 0 ? "</tbody>\n<tbody>\n" : "<tbody>\n", out);
        }
        if (changes) {
            table_put_group(out, t, row);
        }
        fputs(table_row_fails(t, row) ? "<tr class=\"fails\">" : "<tr>", out);
        for (kl_index column = 0; column < t->column_count; column++) {
            if (t->columns[column].kind != COLUMN_GROUP) {
                table_put_cell(out, t, look, row, column);
            }
        }
        fputs("</tr>\n", out);
    }
    fputs(table_row_count(t) > 0 ? "</tbody>" : "", out);
}

void html_write_table(FILE *out, const table *t)
{
    const table_look look = table_look_of(t);
    fputs("<figure class=\"table\"><figcaption>", out);
    html_text(out, t->title);
    fprintf(out,
            "</figcaption>\n<div class=\"scroll%s\" tabindex=\"0\" role=\"region\" aria-label=\"",
            table_row_count(t) > TABLE_LONG ? " long" : "");
    html_text(out, t->title);
    fputs(table_wide(t) > TABLE_WIDE ? "\"><table class=\"wide\" data-name=\""
                                     : "\"><table data-name=\"",
          out);
    html_text(out, t->name);
    fputs("\">\n", out);
    table_put_head(out, t, &look);
    table_put_rows(out, t, &look);
    fputs("</table></div>\n", out);
    for (kl_index i = 0; i < t->note_count; i++) {
        fputs("<p class=\"note\">", out);
        html_text(out, t->notes[i]);
        fputs("</p>\n", out);
    }
    fputs("</figure>\n", out);
}
