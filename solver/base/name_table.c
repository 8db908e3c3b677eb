/* name_table.c - see name_table.h. Open addressing with linear probing.
 * SPDX-License-Identifier: MIT */
#include "name_table.h"

#include <string.h>

#include "mem.h"

#define NAME_TABLE_FIRST 32

/* FNV-1a, 64 bits (Fowler, Noll, Vo; constants as published); its high half is folded in because the low
 * bits alone choose the slot. */
static uint32_t name_hash(const char *text, size_t length)
{
    uint64_t hash = UINT64_C(14695981039346656037);
    for (size_t i = 0; i < length; i++) {
        hash = (hash ^ (unsigned char)text[i]) * UINT64_C(1099511628211);
    }
    return (uint32_t)(hash ^ (hash >> 32));
}

/* The slot of the name, or the free slot where it would go. There is always a free one. */
static name_slot *
name_slot_of(name_slot *slots, size_t capacity, uint32_t hash, const char *text, size_t length)
{
    size_t at = hash & (capacity - 1);
    while (slots[at].text != NULL) {
        if (slots[at].hash == hash && slots[at].length == length &&
            memcmp(slots[at].text, text, length) == 0) {
            break;
        }
        at = (at + 1) & (capacity - 1);
    }
    return &slots[at];
}

kl_index name_table_find(const name_table *table, const char *text, size_t length)
{
    if (table->count == 0) {
        return KL_NONE;
    }
    const name_slot *slot =
        name_slot_of(table->slots, table->capacity, name_hash(text, length), text, length);
    return slot->text != NULL ? slot->value : KL_NONE;
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
            *name_slot_of(slots, capacity, old->hash, old->text, old->length) = *old;
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
    const uint32_t hash = name_hash(text, length);
    name_slot *slot = name_slot_of(table->slots, table->capacity, hash, text, length);
    if (slot->text != NULL) {
        return KL_MISUSE;
    }
    *slot = (name_slot){.text = text, .length = length, .value = value, .hash = hash};
    table->count++;
    return KL_OK;
}

void name_table_free(name_table *table)
{
    mem_free(table->slots);
    *table = (name_table){0};
}
