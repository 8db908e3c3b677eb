/* arena.h - memory that is handed out piece by piece and freed at once.
 * SPDX-License-Identifier: MIT */
#ifndef KERNLINE_ARENA_H
#define KERNLINE_ARENA_H

#include <stdarg.h>
#include <stddef.h>

#include "kernline/diag.h"

typedef struct arena_block arena_block;

/* Start with {0}. */
typedef struct arena {
    arena_block *blocks;
    size_t bytes; /* handed out in all */
} arena;

/* Zeroed memory aligned for any type, valid until arena_free; NULL when out of memory or count*size overflows. */
void *arena_array(arena *a, size_t count, size_t size);
/* Copies; NULL when out of memory. */
void *arena_copy(arena *a, const void *items, size_t count, size_t size);
char *arena_text(arena *a, const char *text, size_t length); /* adds the final zero */
char *arena_print(arena *a, const char *format, ...) KL_PRINTF(2, 3);
char *arena_vprint(arena *a, const char *format, va_list arguments) KL_PRINTF(2, 0);
void arena_free(arena *a); /* everything; the arena can be used again */

#endif
