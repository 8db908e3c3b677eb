/* table_text.h - a table in print: title, head with units, groups, aligned figures, notes.
 * SPDX-License-Identifier: MIT */
#ifndef KERNLINE_TABLE_TEXT_H
#define KERNLINE_TABLE_TEXT_H

#include <stdio.h>

#include "table.h"

/* Print. @return the table's status; KL_FILE_TROUBLE when the stream fails; KL_NO_MEMORY. */
kl_status table_write_text(const table *t, FILE *out);

/* Columns that a UTF-8 text takes: its code points. */
int text_width(const char *text);

/* Print `text` in lines of at most `width` columns, broken at spaces; the first line starts after `lead`
 * (already of `indent` columns), the others after `indent` spaces. */
void text_write_wrapped(FILE *out, const char *lead, int indent, int width, const char *text);

#endif
