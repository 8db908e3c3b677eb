/* table_condense.c - see table_condense.h.
 * SPDX-License-Identifier: MIT */
#include "table_condense.h"

#include <math.h>
#include <string.h>

#define CONDENSE_SAME  1e-9 /* of the figure: rounding */
#define CONDENSE_NAMES 8    /* groups that the note names */

/* What a note needs to say. */
typedef struct condense_work {
    table *t;
    kl_index kept;
    kl_index zeros; /* groups left out */
    bool level;     /* rows between two equal ones are left out */
    const char *names;
} condense_work;

static bool condense_is_figure(const table *t, kl_index column)
{
    return t->columns[column].kind == COLUMN_FIGURE || t->columns[column].kind == COLUMN_EACH;
}

/* Do all columns of groups say the same in two rows? */
static bool condense_same_group(const table *t, kl_index a, kl_index b)
{
    for (kl_index column = 0; column < t->column_count; column++) {
        if (t->columns[column].kind == COLUMN_GROUP &&
            strcmp(table_cell_at(t, a, column)->text, table_cell_at(t, b, column)->text) != 0) {
            return false;
        }
    }
    return true;
}

static bool condense_same_figures(const table *t, kl_index a, kl_index b)
{
    for (kl_index column = 0; column < t->column_count; column++) {
        const double x = table_cell_at(t, a, column)->number;
        const double y = table_cell_at(t, b, column)->number;
        const bool none = isnan(x) && isnan(y);
        if (condense_is_figure(t, column) && !none &&
            !(fabs(x - y) <= CONDENSE_SAME * fmax(fabs(x), fabs(y)))) {
            return false;
        }
    }
    return true;
}

/* Has the row a figure, or one that is not 0? */
static bool condense_tells(const table *t, kl_index row, bool zero_too)
{
    for (kl_index column = 0; column < t->column_count; column++) {
        const double x = table_cell_at(t, row, column)->number;
        if (condense_is_figure(t, column) && !isnan(x) && (zero_too || fabs(x) > 0.0)) {
            return true;
        }
    }
    return false;
}

/* A node, a face, one side of a jump: words in the row. */
static bool condense_is_named(const table *t, kl_index row)
{
    for (kl_index column = 0; column < t->column_count; column++) {
        if (t->columns[column].kind == COLUMN_WORD &&
            table_cell_at(t, row, column)->text[0] != '\0') {
            return true;
        }
    }
    return false;
}

/* "after cap_cast, cap": what stands over the group. */
static void condense_name_group(condense_work *w, kl_index row)
{
    const table *t = w->t;
    const char *name = "";
    for (kl_index column = 0; column < t->column_count; column++) {
        if (t->columns[column].kind == COLUMN_GROUP) {
            name = table_say(w->t, "%s%s%s", name, name[0] != '\0' ? ", " : "",
                             table_cell_at(t, row, column)->text);
        }
    }
    if (w->zeros < CONDENSE_NAMES) {
        w->names = table_say(w->t, "%s%s%s", w->names, w->names[0] != '\0' ? "; " : "", name);
    }
    w->zeros++;
}

static void condense_keep(condense_work *w, kl_index row)
{
    table *t = w->t;
    const size_t width = (size_t)t->column_count;
    memmove(&t->cells[(size_t)w->kept * width], &t->cells[(size_t)row * width],
            width * sizeof *t->cells);
    w->kept++;
}

/* Rows from … end - 1 are one group. Rows move up, never past one that is still to be looked at. */
static void condense_group(condense_work *w, kl_index from, kl_index end)
{
    const table *t = w->t;
    bool any = false;
    bool other = false;
    for (kl_index row = from; row < end; row++) {
        any = any || condense_tells(t, row, true);
        other = other || condense_tells(t, row, false);
    }
    if (any && !other) {
        condense_name_group(w, from);
        return;
    }
    bool before = false; /* is the row before, by now moved, the same as this one? */
    for (kl_index row = from; row < end; row++) {
        const bool after = row + 1 < end && condense_same_figures(t, row, row + 1);
        const bool level = before && after && !condense_is_named(t, row);
        if (!condense_tells(t, row, true)) {
            before = false;
            continue;
        }
        before = after;
        w->level = w->level || level;
        if (!level) {
            condense_keep(w, row);
        }
    }
}

void table_condense(table *t)
{
    const kl_index count = table_row_count(t);
    condense_work w = {.t = t, .names = ""};
    for (kl_index from = 0; from < count && t->status == KL_OK;) {
        kl_index end = from + 1;
        while (end < count && condense_same_group(t, from, end)) {
            end++;
        }
        condense_group(&w, from, end);
        from = end;
    }
    if (t->status != KL_OK) {
        return;
    }
    t->cell_count = (size_t)w.kept * (size_t)t->column_count;
    if (w.level && t->note_count < TABLE_NOTE_LIMIT) {
        table_note(t, "Stations between which nothing changes are left out.");
    }
    if (t->note_count == TABLE_NOTE_LIMIT) {
        return;
    }
    if (w.zeros > CONDENSE_NAMES) {
        table_note(t, "Left out, being 0 throughout: %s; and %d more.", w.names,
                   (int)(w.zeros - CONDENSE_NAMES));
    } else if (w.zeros > 0) {
        table_note(t, "Left out, being 0 throughout: %s.", w.names);
    }
}
