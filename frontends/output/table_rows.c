/* table_rows.c - see table_rows.h.
 * SPDX-License-Identifier: MIT */
#include "table_rows.h"

#include <string.h>

bool table_group_begins(const table *t, kl_index row)
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

char *table_group_text(const table *t, kl_index row, arena *memory)
{
    char *said = arena_text(memory, "", 0);
    for (kl_index column = 0; column < t->column_count && said != NULL; ++column) {
        const table_column *c = &t->columns[column];
        const char *text = c->kind == COLUMN_GROUP ? table_cell_at(t, row, column)->text : "";
        if (text[0] != '\0') {
            said = arena_print(memory, "%s%s%s%s%s", said, said[0] != '\0' ? ", " : "", c->heading,
                               c->heading[0] != '\0' ? " " : "", text);
        }
    }
    return said;
}

/* The words are those of the builders. */
bool table_row_fails(const table *t, kl_index row)
{
    for (kl_index i = 0; i < t->column_count; i++) {
        const char *text = column_is_text(&t->columns[i]) ? table_cell_at(t, row, i)->text : "";
        if (strcmp(text, "FAILS") == 0 || strcmp(text, "MISSED") == 0) {
            return true;
        }
    }
    return false;
}
