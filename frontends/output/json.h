/* json.h - tables as JSON; the schema is told in docs/json-schema.md.
 *
 * Numbers carry 15 significant digits, in the units that each column states; what does not exist, and what is
 * infinite, is null; flags are true and false.
 * SPDX-License-Identifier: MIT */
#ifndef KERNLINE_JSON_H
#define KERNLINE_JSON_H

#include <stdio.h>

#include "table.h"

/* Write the table as an object and a line feed. @return the table's status; KL_FILE_TROUBLE when the stream fails;
 * KL_NO_MEMORY. */
kl_status json_write_table(const table *t, FILE *out);

typedef struct json_text {
    const char *key, *text;
} json_text;

/* Write one document: an object with the texts in their order and "tables", an object of the tables by name. */
kl_status json_write_document(
    const json_text *texts, size_t text_count, const table *tables, size_t table_count, FILE *out);

#endif
