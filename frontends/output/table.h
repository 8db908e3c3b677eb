/* table.h - the one table that text, CSV and JSON are written from.
 *
 * A builder starts a table, adds its columns and then puts cell after cell, row by row. Numbers are put in base
 * units (m, N, Pa, rad, s, K); whoever writes the table divides by the shown unit of the column's measure. The
 * first failure (out of memory) is kept in `status` and makes every later call do nothing, so that builders need
 * no test after each cell; the writers answer with it.
 * SPDX-License-Identifier: MIT */
#ifndef KERNLINE_TABLE_H
#define KERNLINE_TABLE_H

#include "arena.h"
#include "kernline/diag.h"
#include "kernline/status.h"
#include "kernline/units.h"

#define TABLE_COLUMN_LIMIT 48
#define TABLE_NOTE_LIMIT   12
#define TABLE_CELL_LIMIT   ((size_t)100 * 1000 * 1000)

typedef enum column_kind {
    COLUMN_GROUP,  /* text; in print a line of its own when it changes: state, member */
    COLUMN_WORD,   /* text, flush left */
    COLUMN_MARK,   /* text, flush right: figures that carry a mark */
    COLUMN_FIGURE, /* number; decimals from the column's largest and `digits` */
    COLUMN_EACH,   /* number; each row has its own decimals: figures of very different sizes */
    COLUMN_EXACT, /* number as declared (a station): as few decimals as show it, at most `digits` */
    COLUMN_SHARE, /* number of any size, relative errors: exponents */
    COLUMN_WHOLE, /* a count */
    COLUMN_FLAG   /* yes or no */
} column_kind;

typedef struct table_column {
    column_kind kind;
    const char *key; /* for programs: "moment_total"; unique in the table */
    const char
        *heading; /* for people: "moment\ntotal"; a line feed starts a new line of the head */
    kl_measure measure;
    int digits;
    bool is_detail; /* for programs: CSV and JSON have it, print leaves it out */
    bool is_blank;  /* to be filled in by hand: paper has room for it */
    double factor;  /* what a number in base units is divided by to be shown */
} table_column;

typedef struct table_cell {
    double number;    /* base units; flags and counts too; NAN: nothing to say */
    const char *text; /* GROUP, WORD, MARK; else NULL */
} table_cell;

typedef struct table {
    const char *name; /* "actions" */
    const char *title;
    kl_display display;
    table_column columns[TABLE_COLUMN_LIMIT];
    kl_index column_count;
    table_cell *cells; /* row by row */
    size_t cell_count, cell_capacity;
    double
        force_scale; /* N: the largest force at work in what the table is of (force_scale.h); 0: not known */
    const char *notes[TABLE_NOTE_LIMIT]; /* lines under the table: signs, what is left out */
    kl_index note_count;
    arena memory;
    kl_status status;
} table;

/* Begin. `name` is static text; `display` is copied. Every started table is freed with table_free. */
void table_start(table *t, const char *name, const kl_display *display);
void table_free(table *t);

void table_title(table *t, const char *format, ...) KL_PRINTF(2, 3);
void table_note(table *t, const char *format, ...) KL_PRINTF(2, 3);

/* Add a column; before the first cell. key and heading are static or from table_say. */
void table_add(table *t,
               column_kind kind,
               const char *key,
               const char *heading,
               kl_measure measure,
               int digits);
void table_add_words(table *t, column_kind kind, const char *key, const char *heading);
/* The column added last is for programs only. */
void table_detail(table *t);
/* The column of words added last is filled in by hand. */
void table_blank(table *t);

/* Put the next cell of the row. Text is copied; NULL is "". */
void table_put(table *t, double number);
void table_put_text(table *t, const char *text);
void table_put_print(table *t, const char *format, ...) KL_PRINTF(2, 3);
void table_put_flag(table *t, bool yes);
/* Take the last complete row back. */
void table_drop_row(table *t);

/* A text that lives as long as the table; "" when memory is short (the status says so). */
const char *table_say(table *t, const char *format, ...) KL_PRINTF(2, 3);

bool column_is_text(const table_column *column);
/* Has a place in the printed grid: not the groups, not what is for programs. */
bool column_is_printed(const table_column *column);
kl_index table_row_count(const table *t); /* complete rows */
const table_cell *table_cell_at(const table *t, kl_index row, kl_index column);
/* What a number is shown as. */
double table_shown(const table *t, kl_index row, kl_index column);
/* The unit's text, "" for pure numbers, counts, flags and text. */
const char *table_unit(const table *t, kl_index column);

#endif
