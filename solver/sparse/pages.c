/* pages.c - see pages.h.
 * SPDX-License-Identifier: MIT */
#include "pages.h"

#include <stdbool.h>
#include <stdint.h>

#include "mem.h"

#define PAGES_LINE 64

static size_t pages_gap(const char *at, size_t grain)
{
    const size_t past = (size_t)((uintptr_t)at % grain);
    return past == 0 ? 0 : grain - past;
}

double *pages_array(size_t count, void **memory)
{
    *memory = NULL;
    if (count > SIZE_MAX / sizeof(double) - 2 * MEM_LARGE_PAGE) {
        return NULL;
    }
    const size_t bytes = count * sizeof(double);
    const bool large = bytes >= 2 * MEM_LARGE_PAGE;
    char *room = mem_room(bytes + (large ? MEM_LARGE_PAGE : PAGES_LINE), 1);
    if (room == NULL) {
        return NULL;
    }
    *memory = room;
    char *begin = room + pages_gap(room, large ? MEM_LARGE_PAGE : PAGES_LINE);
    void *numbers = begin;
    return numbers;
}
