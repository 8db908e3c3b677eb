/* table_text.h - a table in print: title, head with units, groups, aligned figures, notes.
 * SPDX-License-Identifier: MIT */
#ifndef KERNLINE_TABLE_TEXT_H
#define KERNLINE_TABLE_TEXT_H

#include <stdio.h>

#include "table.h"

/* Print. @return the table's status; KL_FILE_TROUBLE when the stream fails; KL_NO_MEMORY. */
kl_status table_write_text(const table *t, FILE *out);

/* All texts are shown letter by letter: what nobody sees, or a screen would obey, is spelled (utf8_show). */

/* Columns that a UTF-8 text takes. */
int text_width(const char *text);

/* Print a text, in which a line end is a letter like others; with its lines. */
void text_write(FILE *out, const char *text);
void text_write_lines(FILE *out, const char *text);

/* Print `text` in lines of at most `width` columns, broken at spaces; the first line starts after `lead`
 * (already of `indent` columns), the others after `indent` spaces. */
void text_write_wrapped(FILE *out, const char *lead, int indent, int width, const char *text);

#endif
