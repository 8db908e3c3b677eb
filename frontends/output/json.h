/* json.h - tables as JSON; the schema is told in docs/json-schema.md.
 *
 * Numbers carry 15 significant digits, in the units that each column states; what does not exist, and what is
 * infinite, is null; flags are true and false.
 * SPDX-License-Identifier: MIT */
#ifndef KERNLINE_JSON_H
#define KERNLINE_JSON_H

#include <jansson.h>
#include <stdio.h>

#include "table.h"

/* The table as an object the caller releases with json_decref; NULL when out of memory (or the table failed). */
json_t *json_from_table(const table *t);

/* A string; bytes that are no UTF-8 become '?'. NULL when out of memory. */
json_t *json_from_text(const char *text);

/* Write a document and a line feed; takes over the reference. NULL gives KL_NO_MEMORY. */
kl_status json_write(json_t *document, FILE *out);

/* json_from_table and json_write. */
kl_status json_write_table(const table *t, FILE *out);

#endif
