/* block_pool.h - the blocks of columns: new ones, and those that nobody holds any more.
 * SPDX-License-Identifier: MIT */
#ifndef KERNLINE_BLOCK_POOL_H
#define KERNLINE_BLOCK_POOL_H

#include "arena.h"

/* Start with the size of a block, in doubles, and zeros. */
typedef struct block_pool {
    size_t size;
    double **spare;
    size_t spare_count, spare_room;
} block_pool;

/* A zeroed block; NULL: no memory. */
double *block_take(block_pool *pool, arena *a);
/* Give a block back (NULL is allowed). @return KL_NO_MEMORY. */
kl_status block_give(block_pool *pool, arena *a, double *block);

#endif
