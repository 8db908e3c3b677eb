/* corner.c - see corner.h.
 *
 * The first corner is what a breadth-first search from anywhere meets last (the search that numbered the core). Its levels
 * grow until they reach the nearest other corner: the widest one ends there, and its ends have fewer neighbours. Which of the
 * two ends lies at the corner, the distances from them tell: from a corner there are farther nodes than from inside a side.
 * SPDX-License-Identifier: MIT */
#include "corner.h"

#include <string.h>

/* A node from which the farthest lies at nearly the depth of the whole is a corner. */
#define CORNER_DEEP 0.9

kl_status corner_create(const core_graph *core, arena *a, corner_distances *d)
{
    const size_t count = (size_t)core->count;
    *d = (corner_distances){
        .a = arena_array(a, count, sizeof(kl_index)),
        .b = arena_array(a, count, sizeof(kl_index)),
        .c = arena_array(a, count, sizeof(kl_index)),
        .queue = arena_array(a, count + 1, sizeof(kl_index)),
    };
    if (!d->a || !d->b || !d->c || !d->queue) {
        return KL_NO_MEMORY;
    }
    for (kl_index k = 0; k < core->count; k++) {
        d->a[k] = d->b[k] = d->c[k] = KL_NONE;
    }
    return KL_OK;
}

/* Breadth-first from `start`. Whether a neighbour is new cannot be foreseen, so nothing is jumped over for it.
 * @return the last node reached, one of the farthest. */
static kl_index
corner_search(const core_graph *core, kl_index start, kl_index *distance, kl_index *queue)
{
    kl_index count = 1;
    queue[0] = start;
    distance[start] = 0;
    for (kl_index next = 0; next < count; next++) {
        const kl_index node = queue[next];
        const kl_index farther = distance[node] + 1;
        for (kl_index i = core->first[node]; i < core->first[node + 1]; i++) {
            const kl_index other = core->neighbour[i];
            const bool is_new = distance[other] == KL_NONE;
            distance[other] = is_new ? farther : distance[other];
            queue[count] = other;
            count += is_new ? 1 : 0;
        }
    }
    return queue[count - 1];
}

/* The level with the most nodes, the first of such. */
static kl_index corner_widest(const kl_index *distance, const kl_index *queue, kl_index count)
{
    kl_index widest = 0;
    kl_index level = 0;
    for (kl_index begin = 0, end = 0; begin < count; begin = end) {
        const kl_index here = distance[queue[begin]];
        while (end < count && distance[queue[end]] == here) {
            end++;
        }
        if (end - begin > widest) {
            widest = end - begin;
            level = here;
        }
    }
    return level;
}

static kl_index corner_degree(const core_graph *core, kl_index node)
{
    return core->first[node + 1] - core->first[node];
}

/* A node with the fewest neighbours among those at a level of `d->a`. */
static kl_index
corner_outermost(const core_graph *core, kl_index piece, kl_index level, const kl_index *distance)
{
    kl_index found = KL_NONE;
    for (kl_index k = core->piece[piece]; k < core->piece[piece + 1]; k++) {
        if (distance[k] == level &&
            (found == KL_NONE || corner_degree(core, k) < corner_degree(core, found))) {
            found = k;
        }
    }
    return found;
}

/* The node at a level of `distance` that is farthest by `other`. */
static kl_index corner_farthest(const core_graph *core,
                                kl_index piece,
                                kl_index level,
                                const kl_index *distance,
                                const kl_index *other)
{
    kl_index found = KL_NONE;
    for (kl_index k = core->piece[piece]; k < core->piece[piece + 1]; k++) {
        if (distance[k] == level && (found == KL_NONE || other[k] > other[found])) {
            found = k;
        }
    }
    return found;
}

void corner_measure(const core_graph *core, kl_index piece, corner_distances *d)
{
    const kl_index begin = core->piece[piece];
    const kl_index end = core->piece[piece + 1];
    const kl_index depth = d->a[corner_search(core, end - 1, d->a, d->queue)];
    const kl_index level = corner_widest(d->a, d->queue, end - begin);
    d->apart = level;
    const kl_index one = corner_outermost(core, piece, level, d->a);
    const kl_index reach = d->b[corner_search(core, one, d->b, d->queue)];
    if (reach >= CORNER_DEEP * depth) {
        return;
    }
    const kl_index two = corner_farthest(core, piece, level, d->a, d->b);
    if (d->c[corner_search(core, two, d->c, d->queue)] > reach) {
        memcpy(d->b + begin, d->c + begin, (size_t)(end - begin) * sizeof(kl_index));
    }
}
