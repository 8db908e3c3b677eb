/* table_text.c - print a table for people.
 *
 * First every column learns its decimals and its width from the cells, then the rows are written. Figures that are
 * rounding beside the largest of their measure in the table print as 0; the decimals come from the column's own
 * largest. Trailing spaces are never written.
 * SPDX-License-Identifier: MIT */
#include "table_text.h"

#include <math.h>
#include <stdbool.h>
#include <string.h>

#include "figure.h"
#include "near.h"
#include "table_settle.h"

#define TEXT_GAP          2 /* spaces between columns */
#define TEXT_NOTE_WIDTH   100
#define TEXT_SHARE_DIGITS 2

typedef struct text_layout {
    int decimals[TABLE_COLUMN_LIMIT];
    double noise[TABLE_COLUMN_LIMIT]; /* in base units */
    int width[TABLE_COLUMN_LIMIT];
    int head_lines;
    bool has_units;
} text_layout;

int text_width(const char *text)
{
    int width = 0;
    for (const char *c = text; *c != '\0'; ++c) {
        width += ((unsigned char)*c & 0xC0U) != 0x80U; /* not a continuation byte */
    }
    return width;
}

/* Columns of the printed grid: not the groups, not what is for programs. */
static bool text_is_printed(const table_column *column)
{
    return column->kind != COLUMN_GROUP && !column->is_detail;
}

static void text_pad(FILE *out, int count)
{
    static const char spaces[] = "                ";
    for (int left = count; left > 0; left -= (int)sizeof spaces - 1) {
        fwrite(spaces, 1, left < (int)sizeof spaces - 1 ? (size_t)left : sizeof spaces - 1, out);
    }
}

/* ---- measuring ---------------------------------------------------------------------------------------- */

static int text_exact_decimals(const table *t, kl_index column)
{
    int decimals = 0;
    for (kl_index row = 0; row < table_row_count(t); ++row) {
        const int need =
            figure_exact_decimals(table_shown(t, row, column), t->columns[column].digits);
        decimals = need > decimals ? need : decimals;
    }
    return decimals;
}

static int text_decimals(const table *t, kl_index column, double noise)
{
    const table_column *c = &t->columns[column];
    if (c->kind == COLUMN_FIGURE) {
        return figure_decimals(table_column_largest(t, column, noise) / c->factor, c->digits);
    }
    return c->kind == COLUMN_EXACT ? text_exact_decimals(t, column) : 0;
}

/* The text of one cell: its own, or the figure in `room`. */
static const char *text_cell(const table *t,
                             const text_layout *layout,
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
        figure_rounded(room, value, is_exact_zero(value) ? 0 : -1, TEXT_SHARE_DIGITS, 0.0);
        return room;
    }
    if (c->kind == COLUMN_EACH) {
        const double noise = layout->noise[column] / c->factor;
        figure_rounded(room, value, figure_decimals(value, c->digits), c->digits, noise);
        return room;
    }
    if (c->kind == COLUMN_EXACT && isfinite(value)) {
        snprintf(room, FIGURE_SIZE, "%.*f", layout->decimals[column], value + 0.0);
        return strspn(room, "-0.") == strlen(room) && room[0] == '-' ? "0" : room;
    }
    figure_rounded(room, value, layout->decimals[column], c->digits,
                   layout->noise[column] / c->factor);
    return room;
}

/* Line `line` of a heading, not terminated: its start and length; empty beyond the last. */
static const char *text_heading_line(const char *heading, int line, int *length)
{
    for (; line > 0 && heading != NULL; --line) {
        heading = strchr(heading, '\n');
        heading = heading != NULL ? heading + 1 : NULL;
    }
    if (heading == NULL) {
        *length = 0;
        return "";
    }
    *length = (int)strcspn(heading, "\n");
    return heading;
}

static int text_heading_lines(const char *heading)
{
    int lines = 1;
    for (const char *c = heading; *c != '\0'; ++c) {
        lines += *c == '\n';
    }
    return lines;
}

static int text_heading_width(const char *heading)
{
    int width = 0;
    for (int line = 0; line < text_heading_lines(heading); ++line) {
        int length = 0;
        text_heading_line(heading, line, &length);
        width = length > width ? length : width;
    }
    return width;
}

#define TEXT_SIZABLE 1e15 /* larger ones may be written with an exponent */

/* Of figures with the same decimals the widest is the largest or the smallest. @return false: it need not be. */
static bool text_find_widest(const table *t, int decimals, kl_index column, kl_index widest[2])
{
    const column_kind kind = t->columns[column].kind;
    widest[0] = widest[1] = 0;
    if ((kind != COLUMN_FIGURE && kind != COLUMN_EXACT) || decimals < 0) {
        return false;
    }
    for (kl_index row = 0; row < table_row_count(t); ++row) {
        const double value = table_shown(t, row, column);
        if (fabs(value) > TEXT_SIZABLE) {
            return false;
        }
        const double high = table_shown(t, widest[0], column);
        const double low = table_shown(t, widest[1], column);
        widest[0] = isnan(high) || value > high ? row : widest[0];
        widest[1] = isnan(low) || value < low ? row : widest[1];
    }
    return true;
}

static int text_cell_width(const table *t, const text_layout *layout, kl_index row, kl_index column)
{
    char room[FIGURE_SIZE];
    return text_width(text_cell(t, layout, row, column, room));
}

static int text_widest(const table *t, const text_layout *layout, kl_index column)
{
    int width = 0;
    kl_index widest[2];
    if (table_row_count(t) > 0 && text_find_widest(t, layout->decimals[column], column, widest)) {
        const int high = text_cell_width(t, layout, widest[0], column);
        const int low = text_cell_width(t, layout, widest[1], column);
        return high > low ? high : low;
    }
    for (kl_index row = 0; row < table_row_count(t); ++row) {
        const int cell = text_cell_width(t, layout, row, column);
        width = cell > width ? cell : width;
    }
    return width;
}

static void text_measure_column(const table *t, text_layout *layout, kl_index column)
{
    const table_column *c = &t->columns[column];
    const char *unit = table_unit(t, column);
    layout->noise[column] = table_noise(t, column);
    layout->decimals[column] = text_decimals(t, column, layout->noise[column]);
    int width = text_heading_width(c->heading);
    width = text_width(unit) > width ? text_width(unit) : width;
    const int cells = text_widest(t, layout, column);
    width = cells > width ? cells : width;
    layout->width[column] = width;
    if (text_is_printed(c)) {
        const int lines = text_heading_lines(c->heading);
        layout->head_lines = lines > layout->head_lines ? lines : layout->head_lines;
        layout->has_units = layout->has_units || unit[0] != '\0';
    }
}

/* ---- writing ------------------------------------------------------------------------------------------ */

/* One field of a line. Spaces are owed until something is written, so that none ends a line. */
static void
text_field(FILE *out, int *owed, const char *text, int bytes, int width, bool flush_left)
{
    int columns = 0;
    for (int i = 0; i < bytes; ++i) {
        columns += ((unsigned char)text[i] & 0xC0U) != 0x80U;
    }
    const int spare = width > columns ? width - columns : 0;
    *owed += flush_left ? 0 : spare;
    if (bytes > 0) {
        text_pad(out, *owed);
        fwrite(text, 1, (size_t)bytes, out);
        *owed = 0;
    } else {
        *owed += flush_left ? 0 : columns;
    }
    *owed += (flush_left ? spare : 0) + TEXT_GAP;
}

static void text_write_head(const table *t, const text_layout *layout, FILE *out)
{
    const int lines = layout->head_lines + (layout->has_units ? 1 : 0);
    for (int line = 0; line < lines; ++line) {
        int owed = 0;
        for (kl_index column = 0; column < t->column_count; ++column) {
            const table_column *c = &t->columns[column];
            if (!text_is_printed(c)) {
                continue;
            }
            int length = 0;
            const char *text = text_heading_line(c->heading, line, &length);
            if (line == layout->head_lines) {
                text = table_unit(t, column);
                length = (int)strlen(text);
            }
            text_field(out, &owed, text, length, layout->width[column], c->kind == COLUMN_WORD);
        }
        fputc('\n', out);
    }
}

static bool text_group_changes(const table *t, kl_index row)
{
    for (kl_index column = 0; column < t->column_count; ++column) {
        if (t->columns[column].kind == COLUMN_GROUP &&
            (row == 0 || strcmp(table_cell_at(t, row, column)->text,
                                table_cell_at(t, row - 1, column)->text) != 0)) {
            return true;
        }
    }
    return false;
}

/* "member cap, after released": the group's texts, each after its heading unless that is empty. */
static void text_write_group(const table *t, kl_index row, FILE *out)
{
    const char *comma = row == 0 ? "" : "\n";
    for (kl_index column = 0; column < t->column_count; ++column) {
        const table_column *c = &t->columns[column];
        const char *text = c->kind == COLUMN_GROUP ? table_cell_at(t, row, column)->text : "";
        if (text[0] != '\0') {
            fprintf(out, "%s%s%s%s", comma, c->heading, c->heading[0] != '\0' ? " " : "", text);
            comma = ", ";
        }
    }
    fputs("\n", out);
}

static void text_write_row(const table *t, const text_layout *layout, kl_index row, FILE *out)
{
    int owed = 0;
    for (kl_index column = 0; column < t->column_count; ++column) {
        const table_column *c = &t->columns[column];
        if (text_is_printed(c)) {
            char room[FIGURE_SIZE];
            const char *text = text_cell(t, layout, row, column, room);
            text_field(out, &owed, text, (int)strlen(text), layout->width[column],
                       c->kind == COLUMN_WORD);
        }
    }
    fputc('\n', out);
}

void text_write_wrapped(FILE *out, const char *lead, int indent, int width, const char *text)
{
    int at = indent;
    fputs(lead, out);
    bool first = true;
    while (*text != '\0') {
        const size_t length = strcspn(text, " \n");
        if (length > 0) {
            int columns = 0;
            for (size_t i = 0; i < length; ++i) {
                columns += ((unsigned char)text[i] & 0xC0U) != 0x80U;
            }
            if (!first && at + 1 + columns > width) {
                fputc('\n', out);
                text_pad(out, indent);
                at = indent;
            } else if (!first) {
                fputc(' ', out);
                ++at;
            }
            fwrite(text, 1, length, out);
            at += columns;
            first = false;
        }
        text += length;
        text += *text != '\0';
    }
    fputc('\n', out);
}

kl_status table_write_text(const table *t, FILE *out)
{
    KL_TRY(t->status);
    text_layout layout = {.head_lines = 1};
    for (kl_index column = 0; column < t->column_count; ++column) {
        text_measure_column(t, &layout, column);
    }
    if (t->title[0] != '\0') {
        fprintf(out, "%s\n", t->title);
    }
    if (table_row_count(t) > 0) {
        text_write_head(t, &layout, out);
    } else {
        fputs("(nothing to list)\n", out);
    }
    for (kl_index row = 0; row < table_row_count(t); ++row) {
        if (text_group_changes(t, row)) {
            text_write_group(t, row, out);
        }
        text_write_row(t, &layout, row, out);
    }
    for (kl_index note = 0; note < t->note_count; ++note) {
        text_write_wrapped(out, "", 0, TEXT_NOTE_WIDTH, t->notes[note]);
    }
    return ferror(out) ? KL_FILE_TROUBLE : KL_OK;
}
