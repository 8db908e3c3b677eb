/* table.c - columns, cells and notes of a table, kept in its own arena.
 * SPDX-License-Identifier: MIT */
#include "table.h"

#include <assert.h>
#include <math.h>
#include <string.h>

#include "mem.h"

void table_start(table *t, const char *name, const kl_display *display)
{
    memset(t, 0, sizeof *t);
    t->name = name;
    t->title = "";
    t->display = *display;
    t->status = KL_OK;
}

void table_free(table *t)
{
    mem_free(t->cells);
    arena_free(&t->memory);
    t->cells = NULL;
    t->cell_count = t->cell_capacity = 0;
    t->column_count = t->note_count = 0;
}

/* A text of the table's own, NULL: there was no memory for it. */
static const char *table_own(table *t, const char *text)
{
    if (text == NULL && t->status == KL_OK) {
        t->status = KL_NO_MEMORY;
    }
    return text != NULL ? text : "";
}

static const char *table_keep(table *t, const char *format, va_list arguments)
{
    return table_own(t, t->status == KL_OK ? arena_vprint(&t->memory, format, arguments) : NULL);
}

const char *table_say(table *t, const char *format, ...)
{
    va_list arguments;
    va_start(arguments, format);
    const char *text = table_keep(t, format, arguments);
    va_end(arguments);
    return text;
}

void table_title(table *t, const char *format, ...)
{
    va_list arguments;
    va_start(arguments, format);
    t->title = table_keep(t, format, arguments);
    va_end(arguments);
}

void table_note(table *t, const char *format, ...)
{
    assert(t->note_count < TABLE_NOTE_LIMIT);
    va_list arguments;
    va_start(arguments, format);
    t->notes[t->note_count++] = table_keep(t, format, arguments);
    va_end(arguments);
}

void table_add(table *t,
               column_kind kind,
               const char *key,
               const char *heading,
               kl_measure measure,
               int digits)
{
    assert(t->cell_count == 0 && t->column_count < TABLE_COLUMN_LIMIT);
    const double factor = measure == KL_MEASURE_NUMBER ? 1.0 : kl_show_factor(&t->display, measure);
    t->columns[t->column_count++] =
        (table_column){kind, key, heading, measure, digits, false, false, factor};
}

void table_add_words(table *t, column_kind kind, const char *key, const char *heading)
{
    table_add(t, kind, key, heading, KL_MEASURE_NUMBER, 0);
}

void table_detail(table *t)
{
    assert(t->column_count > 0);
    t->columns[t->column_count - 1].is_detail = true;
}

void table_blank(table *t)
{
    assert(t->column_count > 0 && column_is_text(&t->columns[t->column_count - 1]));
    t->columns[t->column_count - 1].is_blank = true;
}

static void table_push(table *t, table_cell cell)
{
    if (t->status != KL_OK) {
        return;
    }
    void *cells = t->cells;
    t->status =
        mem_grow(&cells, &t->cell_capacity, t->cell_count + 1, sizeof *t->cells, TABLE_CELL_LIMIT);
    t->cells = cells;
    if (t->status == KL_OK) {
        t->cells[t->cell_count++] = cell;
    }
}

bool column_is_text(const table_column *column)
{
    return column->kind == COLUMN_GROUP || column->kind == COLUMN_WORD ||
           column->kind == COLUMN_MARK;
}

bool column_is_printed(const table_column *column)
{
    return column->kind != COLUMN_GROUP && !column->is_detail;
}

/* The column that the next cell falls into. */
static const table_column *table_next(const table *t)
{
    assert(t->column_count > 0);
    return &t->columns[t->cell_count % (size_t)t->column_count];
}

void table_put(table *t, double number)
{
    assert(t->status != KL_OK || !column_is_text(table_next(t)));
    table_push(t, (table_cell){number, NULL});
}

void table_put_flag(table *t, bool yes)
{
    table_put(t, yes ? 1.0 : 0.0);
}

void table_drop_row(table *t)
{
    assert(t->status != KL_OK || t->cell_count >= (size_t)t->column_count);
    if (t->status == KL_OK) {
        t->cell_count -= (size_t)t->column_count;
    }
}

void table_put_text(table *t, const char *text)
{
    assert(t->status != KL_OK || column_is_text(table_next(t)));
    const char *kept = "";
    if (text != NULL && text[0] != '\0' && t->status == KL_OK) {
        kept = table_own(t, arena_text(&t->memory, text, strlen(text)));
    }
    table_push(t, (table_cell){NAN, kept});
}

void table_put_print(table *t, const char *format, ...)
{
    assert(t->status != KL_OK || column_is_text(table_next(t)));
    va_list arguments;
    va_start(arguments, format);
    const char *kept = table_keep(t, format, arguments);
    va_end(arguments);
    table_push(t, (table_cell){NAN, kept});
}

kl_index table_row_count(const table *t)
{
    return t->column_count == 0 ? 0 : (kl_index)(t->cell_count / (size_t)t->column_count);
}

const table_cell *table_cell_at(const table *t, kl_index row, kl_index column)
{
    return &t->cells[(size_t)row * (size_t)t->column_count + (size_t)column];
}

double table_shown(const table *t, kl_index row, kl_index column)
{
    return table_cell_at(t, row, column)->number / t->columns[column].factor;
}

const char *table_unit(const table *t, kl_index column)
{
    const table_column *c = &t->columns[column];
    const bool is_pure = column_is_text(c) || c->measure == KL_MEASURE_NUMBER;
    return is_pure ? "" : kl_show_unit(&t->display, c->measure);
}
