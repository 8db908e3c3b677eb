/* pages.c - see pages.h.
 *
 * The first touch of a page costs more than the arithmetic on it. The system is asked for large pages, of which a factor
 * needs few; where it has none nothing is lost.
 * SPDX-License-Identifier: MIT */
#if defined(__linux__)
#define _DEFAULT_SOURCE /* madvise */
#endif
#include "pages.h"

#include <stdint.h>

#if defined(__linux__)
#include <sys/mman.h>
#endif

#include "mem.h"

#define PAGES_LINE  64
#define PAGES_LARGE ((size_t)2 << 20)

static size_t pages_gap(const char *at, size_t grain)
{
    const size_t past = (size_t)((uintptr_t)at % grain);
    return past == 0 ? 0 : grain - past;
}

/* What comes from the heap may have been used before; only whole large pages within it are asked for. */
static void pages_ask(char *at, size_t bytes)
{
#if defined(MADV_HUGEPAGE)
    const size_t gap = pages_gap(at, PAGES_LARGE);
    if (bytes >= gap + PAGES_LARGE) {
        (void)madvise(at + gap, (bytes - gap) / PAGES_LARGE * PAGES_LARGE, MADV_HUGEPAGE);
    }
#else
    (void)at;
    (void)bytes;
#endif
}

double *pages_array(size_t count, void **memory)
{
    *memory = NULL;
    if (count > SIZE_MAX / sizeof(double) - 2 * PAGES_LARGE) {
        return NULL;
    }
    const size_t bytes = count * sizeof(double);
    const bool large = bytes >= 2 * PAGES_LARGE;
    char *room = mem_room(bytes + (large ? PAGES_LARGE : PAGES_LINE), 1);
    if (room == NULL) {
        return NULL;
    }
    *memory = room;
    if (large) {
        pages_ask(room, bytes + PAGES_LARGE);
    }
    char *begin = room + pages_gap(room, large ? PAGES_LARGE : PAGES_LINE);
    void *numbers = begin;
    return numbers;
}
