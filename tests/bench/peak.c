/* peak.c - see peak.h. The C library's functions have a second name each, by which they are called here.
 * SPDX-License-Identifier: MIT */
#include "peak.h"

#include <errno.h>
#include <malloc.h>
#include <stdatomic.h>
#include <stdint.h>
#include <stdlib.h>

void *__libc_malloc(size_t size);
void *__libc_calloc(size_t count, size_t size);
void *__libc_realloc(void *block, size_t size);
void *__libc_memalign(size_t grain, size_t size);
void __libc_free(void *block);

static atomic_int_least64_t in_use, most, at_begin;

static void count_change(int64_t change)
{
    const int64_t now = atomic_fetch_add(&in_use, change) + change;
    int64_t before = atomic_load(&most);
    while (now > before && !atomic_compare_exchange_weak(&most, &before, now)) {
    }
}

static int64_t size_of(void *block)
{
    return block ? (int64_t)malloc_usable_size(block) : 0;
}

static void *counted(void *block)
{
    count_change(size_of(block));
    return block;
}

void peak_begin(void)
{
    const int64_t now = atomic_load(&in_use);
    atomic_store(&at_begin, now);
    atomic_store(&most, now);
}

double peak_bytes(void)
{
    return (double)(atomic_load(&most) - atomic_load(&at_begin));
}

void *malloc(size_t size)
{
    return counted(__libc_malloc(size));
}

void *calloc(size_t count, size_t size)
{
    return counted(__libc_calloc(count, size));
}

void *realloc(void *block, size_t size)
{
    const int64_t before = size_of(block);
    void *moved = __libc_realloc(block, size);
    if (moved || size == 0) {
        count_change(size_of(moved) - before);
    }
    return moved;
}

void *memalign(size_t grain, size_t size)
{
    return counted(__libc_memalign(grain, size));
}

void *aligned_alloc(size_t grain, size_t size)
{
    return counted(__libc_memalign(grain, size));
}

int posix_memalign(void **block, size_t grain, size_t size)
{
    void *made = counted(__libc_memalign(grain, size));
    if (!made) {
        return ENOMEM;
    }
    *block = made;
    return 0;
}

void free(void *block)
{
    count_change(-size_of(block));
    __libc_free(block);
}
