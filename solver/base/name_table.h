/* name_table.h - from a name to an index in constant time.
 *
 * The texts are borrowed: whoever adds a name keeps it (in the model's arena) as long as the table.
 * SPDX-License-Identifier: MIT */
#ifndef KERNLINE_NAME_TABLE_H
#define KERNLINE_NAME_TABLE_H

#include <stddef.h>
#include <stdint.h>

#include "kernline/diag.h"

/* More names than any kind of thing may have. */
#define NAME_TABLE_LIMIT 4000000

typedef struct name_slot {
    const char *text; /* NULL: the slot is free */
    size_t length;
    kl_index value;
    uint32_t hash;
} name_slot;

/* Start with {0}. */
typedef struct name_table {
    name_slot *slots;
    size_t capacity; /* a power of two, at most half full */
    size_t count;
} name_table;

/* The value that was added with this name, or KL_NONE. */
kl_index name_table_find(const name_table *table, const char *text, size_t length);

/* Add a name; one that is there already is KL_MISUSE (find first) and keeps its value.
 * @return KL_OK, KL_MISUSE, KL_NO_MEMORY, KL_TOO_LARGE; the table is unchanged unless KL_OK. */
kl_status name_table_add(name_table *table, const char *text, size_t length, kl_index value);

void name_table_free(name_table *table); /* the table can be used again */

#endif
