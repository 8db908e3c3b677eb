/* table_condense.c - see table_condense.h.
 * SPDX-License-Identifier: MIT */
#include "table_condense.h"

#include <math.h>
#include <string.h>

#define CONDENSE_SAME  1e-9 /* of the figure: rounding */
#define CONDENSE_NAMES 8    /* groups that the note names */

/* Groups that are left out, for a note. */
typedef struct condense_names {
    kl_index count;
    const char *text;
} condense_names;

typedef enum condense_fate { CONDENSE_KEEP, CONDENSE_ZERO, CONDENSE_REPEAT } condense_fate;

/* Rows from … end - 1, which are one group. */
typedef struct condense_group {
    kl_index from, end;
    condense_fate fate;
} condense_group;

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

/* ---- what becomes of each group --------------------------------------------------------------------------- */

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

/* Are the rows of two groups alike, whose state alone (the first column) differs? */
static bool condense_alike(const table *t, const condense_group *a, const condense_group *b)
{
    bool same = a->end - a->from == b->end - b->from;
    for (kl_index i = 0; i < b->end - b->from && same; i++) {
        same = condense_same_figures(t, a->from + i, b->from + i) &&
               condense_same_place(t, a->from + i, b->from + i);
    }
    return same;
}

/* Of groups[i]: looked at beside the last one before it of the same member. */
static condense_fate condense_judge(const table *t, const condense_group *groups, kl_index i)
{
    bool any = false;
    bool other = false;
    for (kl_index row = groups[i].from; row < groups[i].end; row++) {
        any = any || condense_tells(t, row, true);
        other = other || condense_tells(t, row, false);
    }
    if (any && !other) {
        return CONDENSE_ZERO;
    }
    for (kl_index k = i - 1; k >= 0; k--) {
        if (condense_same_group(t, groups[k].from, groups[i].from, 1)) {
            return condense_alike(t, &groups[k], &groups[i]) ? CONDENSE_REPEAT : CONDENSE_KEEP;
        }
    }
    return CONDENSE_KEEP;
}

/* @return how many; NULL in *groups: no memory, which the status tells. */
static kl_index condense_groups(table *t, condense_group **groups)
{
    const kl_index rows = table_row_count(t);
    kl_index count = 0;
    *groups = arena_array(&t->memory, (size_t)rows + 1, sizeof **groups);
    if (!*groups) {
        t->status = KL_NO_MEMORY;
        return 0;
    }
    for (kl_index from = 0; from < rows; count++) {
        kl_index end = from + 1;
        while (end < rows && condense_same_group(t, from, end, 0)) {
            end++;
        }
        (*groups)[count] = (condense_group){.from = from, .end = end};
        (*groups)[count].fate = condense_judge(t, *groups, count);
        from = end;
    }
    return count;
}

/* ---- moving rows up --------------------------------------------------------------------------------------- */

/* Put the row behind those that are kept; it lies no higher than where it goes. */
static void condense_keep(table *t, kl_index row, kl_index *kept)
{
    const size_t width = (size_t)t->column_count;
    memmove(&t->cells[(size_t)*kept * width], &t->cells[(size_t)row * width],
            width * sizeof *t->cells);
    ++*kept;
}

/* @return whether a row between two equal ones was left out */
static bool condense_rows(table *t, const condense_group *group, kl_index *kept)
{
    bool any = false;
    bool before = false; /* is the row before, by now moved, the same as this one? */
    for (kl_index row = group->from; row < group->end; row++) {
        const bool tells = condense_tells(t, row, true);
        const bool after = row + 1 < group->end && condense_same_figures(t, row, row + 1);
        const bool level = tells && before && after && !condense_is_named(t, row);
        before = tells && after;
        any = any || level;
        if (tells && !level) {
            condense_keep(t, row, kept);
        }
    }
    return any;
}

/* Add "after cap_cast, cap": what stands over the group. */
static void condense_name(table *t, condense_names *names, kl_index row)
{
    const char *name = "";
    for (kl_index column = 0; column < t->column_count; column++) {
        if (t->columns[column].kind == COLUMN_GROUP) {
            name = table_say(t, "%s%s%s", name, name[0] != '\0' ? ", " : "",
                             table_cell_at(t, row, column)->text);
        }
    }
    if (names->count++ < CONDENSE_NAMES) {
        names->text = table_say(t, "%s%s%s", names->text, names->text[0] != '\0' ? "; " : "", name);
    }
}

static void condense_note(table *t, const char *why, const condense_names *names)
{
    if (names->count > CONDENSE_NAMES && t->note_count < TABLE_NOTE_LIMIT) {
        table_note(t, "Left out, %s: %s; and %d more.", why, names->text,
                   (int)(names->count - CONDENSE_NAMES));
    } else if (names->count > 0 && t->note_count < TABLE_NOTE_LIMIT) {
        table_note(t, "Left out, %s: %s.", why, names->text);
    }
}

void table_condense(table *t)
{
    condense_group *groups;
    condense_names zeros = {.text = ""};
    condense_names repeats = {.text = ""};
    const kl_index count = condense_groups(t, &groups);
    kl_index kept = 0;
    bool level = false;
    for (kl_index i = 0; i < count; i++) {
        if (groups[i].fate == CONDENSE_KEEP) {
            level = condense_rows(t, &groups[i], &kept) || level;
        } else {
            condense_name(t, groups[i].fate == CONDENSE_ZERO ? &zeros : &repeats, groups[i].from);
        }
    }
    if (t->status != KL_OK) {
        return;
    }
    t->cell_count = (size_t)kept * (size_t)t->column_count;
    if (level && t->note_count < TABLE_NOTE_LIMIT) {
        table_note(t, "Stations between which nothing changes are left out.");
    }
    condense_note(t, "being 0 throughout", &zeros);
    condense_note(t, "being as in the state before", &repeats);
}
