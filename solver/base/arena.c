/* arena.c - see arena.h. A list of blocks; the newest ordinary block is cut from the front.
 *
 * Under the address sanitizer every piece gets a block of its own, so that a step over its end is seen.
 * SPDX-License-Identifier: MIT */
#include "arena.h"

#include <stdalign.h>
#include <stdint.h>
#include <stdio.h>
#include <string.h>

#include "mem.h"

#if defined(__SANITIZE_ADDRESS__)
#define ARENA_FIRST_BLOCK 0
#else
#define ARENA_FIRST_BLOCK 4096
#endif
/* Blocks double up to this, so that a large model takes few of them and a small one wastes little. */
#define ARENA_LARGEST_BLOCK ((size_t)32 << 20)

struct arena_block {
    arena_block *next;
    size_t used;
    size_t room;
    max_align_t data[]; /* aligned for any type */
};

static size_t arena_round_up(size_t bytes)
{
    const size_t grain = alignof(max_align_t);
    return (bytes + grain - 1) / grain * grain;
}

static size_t arena_block_room(const arena *a, size_t bytes)
{
    size_t room = ARENA_FIRST_BLOCK;
    if (a->blocks != NULL && a->blocks->room > 0 && room > 0) {
        room =
            a->blocks->room < ARENA_LARGEST_BLOCK / 2 ? 2 * a->blocks->room : ARENA_LARGEST_BLOCK;
    }
    return room > bytes ? room : bytes;
}

/* A block with room for `bytes`. One made to measure goes behind the head, whose rest stays in use. */
static arena_block *arena_add_block(arena *a, size_t bytes)
{
    const size_t room = arena_block_room(a, bytes);
    if (room > SIZE_MAX - sizeof(arena_block)) {
        return NULL;
    }
    arena_block *block = mem_array(1, sizeof(arena_block) + room);
    if (block == NULL) {
        return NULL;
    }
    block->room = room;
    if (a->blocks != NULL && room == bytes) {
        block->next = a->blocks->next;
        a->blocks->next = block;
    } else {
        block->next = a->blocks;
        a->blocks = block;
    }
    return block;
}

void *arena_array(arena *a, size_t count, size_t size)
{
    if (size == 0 || count > (SIZE_MAX / 2) / size) {
        return NULL;
    }
    const size_t bytes = arena_round_up(count > 0 ? count * size : size);
    arena_block *block = a->blocks;
    if (block == NULL || block->room - block->used < bytes) {
        block = arena_add_block(a, bytes);
    }
    if (block == NULL) {
        return NULL;
    }
    char *piece = (char *)block->data + block->used;
    block->used += bytes;
    a->bytes += bytes;
    return piece;
}

void *arena_copy(arena *a, const void *items, size_t count, size_t size)
{
    void *copy = arena_array(a, count, size);
    if (copy != NULL && count > 0) {
        memcpy(copy, items, count * size);
    }
    return copy;
}

char *arena_text(arena *a, const char *text, size_t length)
{
    if (length == SIZE_MAX) {
        return NULL;
    }
    char *copy = arena_array(a, length + 1, 1);
    if (copy != NULL && length > 0) {
        memcpy(copy, text, length);
    }
    return copy;
}

char *arena_print(arena *a, const char *format, ...)
{
    va_list arguments;
    va_start(arguments, format);
    char *text = arena_vprint(a, format, arguments);
    va_end(arguments);
    return text;
}

char *arena_vprint(arena *a, const char *format, va_list arguments)
{
    va_list again;
    va_copy(again, arguments);
    const int length = vsnprintf(NULL, 0, format, again);
    va_end(again);
    if (length < 0) {
        return NULL;
    }
    const size_t size = (size_t)length + 1;
    char *text = arena_array(a, size, 1);
    if (text != NULL) {
        vsnprintf(text, size, format, arguments);
    }
    return text;
}

void arena_free(arena *a)
{
    arena_block *block = a->blocks;
    while (block != NULL) {
        arena_block *next = block->next;
        mem_free(block);
        block = next;
    }
    *a = (arena){0};
}
