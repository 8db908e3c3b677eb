/* mem.h - checked allocation: counts that cannot overflow, arrays that grow up to a named limit.
 *
 * Tests make the k-th allocation fail by wrapping malloc, calloc and realloc at link time
 * (tests/support/fault.h); the library keeps no counter for it.
 * SPDX-License-Identifier: MIT */
#ifndef KERNLINE_MEM_H
#define KERNLINE_MEM_H

#include <stddef.h>

#include "kernline/status.h"

#define MEM_LARGE_PAGE                                                                             \
    ((size_t)2 << 20) /* what the system calls a large page on the machines we know */

/* Zeroed array of count elements; NULL when out of memory or when count * size overflows. count 0 gives one. */
void *mem_array(size_t count, size_t size);

/* The same with any content, for arrays that are written before they are read. */
void *mem_room(size_t count, size_t size);

/* Make room for at least `need` elements in *array (grown by doubling, old content kept, new part zeroed).
 * @return KL_TOO_LARGE beyond `limit` elements, KL_NO_MEMORY; then *array is as before. */
kl_status mem_grow(void **array, size_t *capacity, size_t need, size_t size, size_t limit);

void mem_free(void *array); /* NULL is allowed */

#endif
