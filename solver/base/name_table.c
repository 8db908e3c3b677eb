/* name_table.c - see name_table.h. Open addressing with linear probing.
 * SPDX-License-Identifier: MIT */
#include "name_table.h"

#include <string.h>

#include "mem.h"

#define NAME_TABLE_FIRST 32

/* FNV-1a, 64 bits (Fowler, Noll, Vo; constants as published); its high half is folded in because the low
 * bits alone choose the slot. */
static size_t name_hash(const char *text, size_t length)
{
    uint64_t hash = UINT64_C(14695981039346656037);
    for (size_t i = 0; i < length; i++) {
        hash = (hash ^ (unsigned char)text[i]) * UINT64_C(1099511628211);
    }
    return (size_t)(hash ^ (hash >> 32));
}

/* The slot of the name, or the free slot where it would go. There is always a free one. */
static size_t name_slot_of(const name_slot *slots, size_t capacity, const char *text, size_t length)
{
    size_t at = name_hash(text, length) & (capacity - 1);
    while (slots[at].text != NULL) {
        if (slots[at].length == length && memcmp(slots[at].text, text, length) == 0) {
            return at;
        }
        at = (at + 1) & (capacity - 1);
    }
    return at;
}

kl_index name_table_find(const name_table *table, const char *text, size_t length)
{
    if (table->count == 0) {
        return KL_NONE;
    }
    const size_t at = name_slot_of(table->slots, table->capacity, text, length);
    return table->slots[at].text != NULL ? table->slots[at].value : KL_NONE;
}

static kl_status name_table_grow(name_table *table)
{
    const size_t capacity = table->capacity > 0 ? 2 * table->capacity : NAME_TABLE_FIRST;
    name_slot *slots = mem_array(capacity, sizeof *slots);
    if (slots == NULL) {
        return KL_NO_MEMORY;
    }
    for (size_t i = 0; i < table->capacity; i++) {
        const name_slot *old = &table->slots[i];
        if (old->text != NULL) {
            slots[name_slot_of(slots, capacity, old->text, old->length)] = *old;
        }
    }
    mem_free(table->slots);
    table->slots = slots;
    table->capacity = capacity;
    return KL_OK;
}

kl_status name_table_add(name_table *table, const char *text, size_t length, kl_index value)
{
    if (table->count >= NAME_TABLE_LIMIT) {
        return KL_TOO_LARGE;
    }
    if (2 * (table->count + 1) > table->capacity) {
        KL_TRY(name_table_grow(table));
    }
    name_slot *slot = &table->slots[name_slot_of(table->slots, table->capacity, text, length)];
    if (slot->text != NULL) {
        return KL_MISUSE;
    }
    *slot = (name_slot){.text = text, .length = length, .value = value};
    table->count++;
    return KL_OK;
}

void name_table_free(name_table *table)
{
    mem_free(table->slots);
    *table = (name_table){0};
}
