/* mem.c - see mem.h.
 *
 * The first touch of a page costs more than the arithmetic on it. For large arrays the system is asked for large pages,
 * of which they need few; where it has none nothing is lost.
 * SPDX-License-Identifier: MIT */
#if defined(__linux__)
#define _DEFAULT_SOURCE /* madvise */
#endif
#include "mem.h"

#include <stdint.h>
#include <stdlib.h>
#include <string.h>

#if defined(__linux__)
#include <sys/mman.h>
#endif

/* The first growth gives room for a few elements, so that short lists do not grow at every step. */
#define MEM_FIRST 16

/* The array itself, after asking: only whole large pages within it, for its ends may be in use already. */
static void *mem_on_large_pages(void *array, size_t bytes)
{
#if defined(MADV_HUGEPAGE)
    if (array != NULL && bytes >= 2 * MEM_LARGE_PAGE) {
        const size_t past = (size_t)((uintptr_t)array % MEM_LARGE_PAGE);
        const size_t gap = past == 0 ? 0 : MEM_LARGE_PAGE - past;
        const size_t whole = (bytes - gap) / MEM_LARGE_PAGE * MEM_LARGE_PAGE;
        (void)madvise((char *)array + gap, whole, MADV_HUGEPAGE);
    }
#else
    (void)bytes;
#endif
    return array;
}

void *mem_array(size_t count, size_t size)
{
    if (size == 0 || count > SIZE_MAX / size) {
        return NULL;
    }
    return mem_on_large_pages(calloc(count > 0 ? count : 1, size), count * size);
}

void *mem_room(size_t count, size_t size)
{
    if (size == 0 || count > SIZE_MAX / size) {
        return NULL;
    }
    return mem_on_large_pages(malloc(count > 0 ? count * size : size), count * size);
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
    mem_on_large_pages(grown, next * size);
    memset(grown + *capacity * size, 0, (next - *capacity) * size);
    *array = grown;
    *capacity = next;
    return KL_OK;
}

void mem_free(void *array)
{
    free(array);
}
