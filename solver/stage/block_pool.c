/* block_pool.c - see block_pool.h.
 * SPDX-License-Identifier: MIT */
#include "block_pool.h"

#include <string.h>

#define FIRST_ROOM 16

double *block_take(block_pool *pool, arena *a)
{
    if (pool->spare_count == 0) {
        return arena_array(a, pool->size, sizeof(double));
    }
    double *block = pool->spare[--pool->spare_count];
    memset(block, 0, pool->size * sizeof(double));
    return block;
}

kl_status block_give(block_pool *pool, arena *a, double *block)
{
    if (pool->spare_count == pool->spare_room && block) {
        const size_t room = pool->spare_room > 0 ? 2 * pool->spare_room : FIRST_ROOM;
        double **grown = arena_array(a, room, sizeof *grown);
        if (!grown) {
            return KL_NO_MEMORY;
        }
        for (size_t i = 0; i < pool->spare_count; i++) {
            grown[i] = pool->spare[i];
        }
        pool->spare = grown;
        pool->spare_room = room;
    }
    if (block) {
        pool->spare[pool->spare_count++] = block;
    }
    return KL_OK;
}
