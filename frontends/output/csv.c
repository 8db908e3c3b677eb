/* csv.c - write a table after RFC 4180: quotes around fields with a comma, a quote or a line end, inner quotes twice.
 * SPDX-License-Identifier: MIT */
#include "csv.h"

#include <math.h>
#include <string.h>

#include "figure.h"

static void csv_field(FILE *out, const char *text)
{
    if (strpbrk(text, ",\"\r\n") == NULL) {
        fputs(text, out);
        return;
    }
    fputc('"', out);
    for (const char *c = text; *c != '\0'; ++c) {
        if (*c == '"') {
            fputc('"', out);
        }
        fputc(*c, out);
    }
    fputc('"', out);
}

static void csv_head(const table *t, FILE *out)
{
    for (kl_index column = 0; column < t->column_count; ++column) {
        const char *unit = table_unit(t, column);
        char text[128];
        snprintf(text, sizeof text, unit[0] != '\0' ? "%s (%s)" : "%s%s", t->columns[column].key,
                 unit);
        fputs(column > 0 ? "," : "", out);
        csv_field(out, text);
    }
    fputs("\r\n", out);
}

static void csv_cell(const table *t, kl_index row, kl_index column, FILE *out)
{
    const table_column *c = &t->columns[column];
    if (column_is_text(c)) {
        csv_field(out, table_cell_at(t, row, column)->text);
        return;
    }
    const double value = table_shown(t, row, column);
    if (c->kind == COLUMN_FLAG && !isnan(value)) {
        fputs(value > 0.5 ? "yes" : "no", out);
        return;
    }
    char room[FIGURE_SIZE];
    figure_full(room, value);
    fputs(room, out);
}

kl_status csv_write(const table *t, FILE *out)
{
    KL_TRY(t->status);
    csv_head(t, out);
    for (kl_index row = 0; row < table_row_count(t); ++row) {
        for (kl_index column = 0; column < t->column_count; ++column) {
            fputs(column > 0 ? "," : "", out);
            csv_cell(t, row, column, out);
        }
        fputs("\r\n", out);
    }
    return ferror(out) ? KL_FILE_TROUBLE : KL_OK;
}
