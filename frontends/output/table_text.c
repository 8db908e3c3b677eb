/* table_text.c - print a table for people.
 *
 * First every column learns its decimals and its width from the cells, then the rows are written. Trailing spaces are
 * never written.
 * SPDX-License-Identifier: MIT */
#include "table_text.h"

#include <math.h>
#include <stdbool.h>
#include <string.h>

#include "table_figures.h"
#include "table_rows.h"
#include "utf8.h"

#define TEXT_GAP        2 /* spaces between columns */
#define TEXT_NOTE_WIDTH 100

typedef struct text_layout {
    table_figures figures;
    int width[TABLE_COLUMN_LIMIT];
    int head_lines;
    bool has_units;
} text_layout;

static bool text_is_plain(char c)
{
    return (unsigned char)c >= 0x20U && (unsigned char)c < 0x7FU;
}

/* Columns of the letter at *text, which is moved behind it. */
static int text_next_width(const char **text)
{
    if (text_is_plain(**text)) {
        ++*text;
        return 1;
    }
    char shown[UTF8_ROOM];
    int width = 0;
    utf8_show(utf8_next(text), shown);
    for (const char *c = shown; *c != '\0'; ++width) {
        utf8_next(&c);
    }
    return width;
}

static int text_columns(const char *text, size_t bytes)
{
    int width = 0;
    for (const char *c = text; c < text + bytes;) {
        width += text_next_width(&c);
    }
    return width;
}

int text_width(const char *text)
{
    return text_columns(text, strlen(text));
}

/* Fields are a few bytes long: putc_unlocked writes them faster than fwrite, and only one thread writes tables. */
static void text_put(FILE *out, const char *text, size_t bytes)
{
    for (const char *c = text; c < text + bytes;) {
        if (text_is_plain(*c)) {
            putc_unlocked(*c++, out);
        } else {
            char shown[UTF8_ROOM];
            utf8_show(utf8_next(&c), shown);
            fputs(shown, out);
        }
    }
}

void text_write(FILE *out, const char *text)
{
    text_put(out, text, strlen(text));
}

void text_write_lines(FILE *out, const char *text)
{
    while (*text != '\0') {
        const size_t length = strcspn(text, "\n");
        text_put(out, text, length);
        text += length;
        if (*text == '\n') {
            putc_unlocked('\n', out);
            ++text;
        }
    }
}

static void text_pad(FILE *out, int count)
{
    for (; count > 0; --count) {
        putc_unlocked(' ', out);
    }
}

/* ---- measuring ---------------------------------------------------------------------------------------- */

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

#define TEXT_SIZABLE                                                                               \
    1e6 /* larger ones, if they have many decimals, may be written with an exponent */

/* Of figures with the same decimals the widest is the largest or the smallest. @return false: it need not be. */
static bool text_find_widest(const table *t, int decimals, kl_index column, kl_index widest[2])
{
    const column_kind kind = t->columns[column].kind;
    const kl_index rows = table_row_count(t);
    widest[0] = widest[1] = 0;
    if ((kind != COLUMN_FIGURE && kind != COLUMN_EXACT) || decimals < 0) {
        return false;
    }
    for (kl_index row = 0; row < rows; ++row) {
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
    return text_width(table_figure(t, &layout->figures, row, column, room));
}

static int text_widest(const table *t, const text_layout *layout, kl_index column)
{
    int width = 0;
    kl_index widest[2];
    if (table_row_count(t) > 0 &&
        text_find_widest(t, layout->figures.decimals[column], column, widest)) {
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
    int width = text_heading_width(c->heading);
    width = text_width(unit) > width ? text_width(unit) : width;
    const int cells = text_widest(t, layout, column);
    width = cells > width ? cells : width;
    layout->width[column] = width;
    if (column_is_printed(c)) {
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
    const int columns = text_columns(text, (size_t)bytes);
    const int spare = width > columns ? width - columns : 0;
    *owed += flush_left ? 0 : spare;
    if (bytes > 0) {
        text_pad(out, *owed);
        text_put(out, text, (size_t)bytes);
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
            if (!column_is_printed(c)) {
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

static void text_write_row(const table *t, const text_layout *layout, kl_index row, FILE *out)
{
    int owed = 0;
    for (kl_index column = 0; column < t->column_count; ++column) {
        const table_column *c = &t->columns[column];
        if (column_is_printed(c)) {
            char room[FIGURE_SIZE];
            const char *text = table_figure(t, &layout->figures, row, column, room);
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
            const int columns = text_columns(text, length);
            if (!first && at + 1 + columns > width) {
                fputc('\n', out);
                text_pad(out, indent);
                at = indent;
            } else if (!first) {
                fputc(' ', out);
                ++at;
            }
            text_put(out, text, length);
            at += columns;
            first = false;
        }
        text += length;
        text += *text != '\0';
    }
    fputc('\n', out);
}

static kl_status text_write_rows(const table *t, const text_layout *layout, FILE *out)
{
    arena memory = {0};
    kl_status status = KL_OK;
    for (kl_index row = 0; row < table_row_count(t) && status == KL_OK; ++row) {
        if (table_group_begins(t, row)) {
            const char *group = table_group_text(t, row, &memory);
            status = group != NULL ? KL_OK : KL_NO_MEMORY;
            fputs(row > 0 && group != NULL && group[0] != '\0' ? "\n" : "", out);
            text_write(out, group != NULL ? group : "");
            fputc('\n', out);
        }
        text_write_row(t, layout, row, out);
    }
    arena_free(&memory);
    return status;
}

kl_status table_write_text(const table *t, FILE *out)
{
    KL_TRY(t->status);
    text_layout layout = {.figures = table_figures_of(t), .head_lines = 1};
    for (kl_index column = 0; column < t->column_count; ++column) {
        text_measure_column(t, &layout, column);
    }
    if (t->title[0] != '\0') {
        text_write(out, t->title);
        fputc('\n', out);
    }
    if (table_row_count(t) > 0) {
        text_write_head(t, &layout, out);
    } else {
        fputs("(nothing to list)\n", out);
    }
    KL_TRY(text_write_rows(t, &layout, out));
    for (kl_index note = 0; note < t->note_count; ++note) {
        text_write_wrapped(out, "", 0, TEXT_NOTE_WIDTH, t->notes[note]);
    }
    return ferror(out) ? KL_FILE_TROUBLE : KL_OK;
}
