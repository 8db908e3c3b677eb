/* table_condense.c - see table_condense.h.
 * SPDX-License-Identifier: MIT */
#include "table_condense.h"

#include <math.h>
#include <string.h>

#define CONDENSE_SAME  1e-9 /* of the figure: rounding */
#define CONDENSE_NAMES 8    /* groups that the note names */

/* Groups that are left out. */
typedef struct condense_groups {
    kl_index count;
    const char *names;
} condense_groups;

typedef struct condense_work {
    table *t;
    kl_index kept;  /* rows */
    kl_index group; /* where the last group that is kept begins among them; KL_NONE */
    bool level;     /* rows between two equal ones are left out */
    condense_groups zeros, repeats;
} condense_work;

static bool condense_is_figure(const table *t, kl_index column)
{
    return t->columns[column].kind == COLUMN_FIGURE || t->columns[column].kind == COLUMN_EACH;
}

/* Do all columns of groups from `first` on say the same in two rows? */
static bool condense_same_group(const table *t, kl_index a, kl_index b, kl_index first)
{
    for (kl_index column = first; column < t->column_count; column++) {
        if (t->columns[column].kind == COLUMN_GROUP &&
            strcmp(table_cell_at(t, a, column)->text, table_cell_at(t, b, column)->text) != 0) {
            return false;
        }
    }
    return true;
}

/* Stations are no figures here: rows are compared along them. */
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
static void condense_leave_out(condense_work *w, condense_groups *groups, kl_index row)
{
    const table *t = w->t;
    const char *name = "";
    for (kl_index column = 0; column < t->column_count; column++) {
        if (t->columns[column].kind == COLUMN_GROUP) {
            name = table_say(w->t, "%s%s%s", name, name[0] != '\0' ? ", " : "",
                             table_cell_at(t, row, column)->text);
        }
    }
    if (groups->count < CONDENSE_NAMES) {
        groups->names =
            table_say(w->t, "%s%s%s", groups->names, groups->names[0] != '\0' ? "; " : "", name);
    }
    groups->count++;
}

/* Do two rows stand at one place, with the same words? */
static bool condense_same_place(const table *t, kl_index a, kl_index b)
{
    for (kl_index column = 0; column < t->column_count; column++) {
        const table_cell *x = table_cell_at(t, a, column);
        const table_cell *y = table_cell_at(t, b, column);
        const bool differ =
            (t->columns[column].kind == COLUMN_WORD && strcmp(x->text, y->text) != 0) ||
            (t->columns[column].kind == COLUMN_EXACT && fabs(x->number - y->number) > 0.0);
        if (differ) {
            return false;
        }
    }
    return true;
}

/* Are the rows those of the group before, whose moment alone (the first column) differs? */
static bool condense_repeats(const condense_work *w, kl_index from, kl_index end)
{
    const table *t = w->t;
    bool same = w->group != KL_NONE && w->kept - w->group == end - from &&
                condense_same_group(t, w->group, from, 1);
    for (kl_index i = 0; i < end - from && same; i++) {
        same = condense_same_figures(t, w->group + i, from + i) &&
               condense_same_place(t, w->group + i, from + i);
    }
    return same;
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
        condense_leave_out(w, &w->zeros, from);
        return;
    }
    if (condense_repeats(w, from, end)) {
        condense_leave_out(w, &w->repeats, from);
        return;
    }
    w->group = w->kept;
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

static void condense_note(table *t, const char *why, const condense_groups *groups)
{
    if (groups->count > CONDENSE_NAMES && t->note_count < TABLE_NOTE_LIMIT) {
        table_note(t, "Left out, %s: %s; and %d more.", why, groups->names,
                   (int)(groups->count - CONDENSE_NAMES));
    } else if (groups->count > 0 && t->note_count < TABLE_NOTE_LIMIT) {
        table_note(t, "Left out, %s: %s.", why, groups->names);
    }
}

void table_condense(table *t)
{
    const kl_index count = table_row_count(t);
    condense_work w = {.t = t, .group = KL_NONE, .zeros = {.names = ""}, .repeats = {.names = ""}};
    for (kl_index from = 0; from < count && t->status == KL_OK;) {
        kl_index end = from + 1;
        while (end < count && condense_same_group(t, from, end, 0)) {
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
    condense_note(t, "being 0 throughout", &w.zeros);
    condense_note(t, "being as just before", &w.repeats);
}
