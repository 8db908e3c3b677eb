/* mem.c - see mem.h.
 * SPDX-License-Identifier: MIT */
#include "mem.h"

#include <stdint.h>
#include <stdlib.h>
#include <string.h>

/* The first growth gives room for a few elements, so that short lists do not grow at every step. */
#define MEM_FIRST 16

void *mem_array(size_t count, size_t size)
{
    if (size == 0 || count > SIZE_MAX / size) {
        return NULL;
    }
    return calloc(count > 0 ? count : 1, size);
}

void *mem_room(size_t count, size_t size)
{
    if (size == 0 || count > SIZE_MAX / size) {
        return NULL;
    }
    return malloc(count > 0 ? count * size : size);
}

/* Double until it is enough, but never past the limit. */
static size_t mem_next_capacity(size_t capacity, size_t need, size_t limit)
{
    size_t next = capacity > 0 ? capacity : MEM_FIRST;
    while (next < need && next <= limit / 2) {
        next *= 2;
    }
    if (next < need || next > limit) {
        next = limit;
    }
    return next;
}

kl_status mem_grow(void **array, size_t *capacity, size_t need, size_t size, size_t limit)
{
    if (need <= *capacity) {
        return KL_OK;
    }
    if (need > limit) {
        return KL_TOO_LARGE;
    }
    const size_t next = mem_next_capacity(*capacity, need, limit);
    if (size == 0 || next > SIZE_MAX / size) {
        return KL_NO_MEMORY;
    }
    char *grown = realloc(*array, next * size);
    if (grown == NULL) {
        return KL_NO_MEMORY;
    }
    memset(grown + *capacity * size, 0, (next - *capacity) * size);
    *array = grown;
    *capacity = next;
    return KL_OK;
}

void mem_free(void *array)
{
    free(array);
}
