/* core.c - see core.h.
 * SPDX-License-Identifier: MIT */
#include "core.h"

/* Number the nodes that can be reached from `start`. `number` is KL_NONE where none was given yet. */
static void
core_number_piece(const chain_core *chains, kl_index start, kl_index *number, core_graph *core)
{
    kl_index next = core->count;
    number[start] = core->count;
    core->node[core->count++] = start;
    for (; next < core->count; next++) {
        const kl_index node = core->node[next];
        for (kl_index i = chains->first[node]; i < chains->first[node + 1]; i++) {
            const kl_index other = chains->neighbour[i];
            if (other != KL_NONE && number[other] == KL_NONE && !chains->nodes[other].gone) {
                number[other] = core->count;
                core->node[core->count++] = other;
            }
        }
    }
}

static void core_list_neighbours(const chain_core *chains, const kl_index *number, core_graph *core)
{
    kl_index at = 0;
    for (kl_index k = 0; k < core->count; k++) {
        const kl_index node = core->node[k];
        core->first[k] = at;
        for (kl_index i = chains->first[node]; i < chains->first[node + 1]; i++) {
            const kl_index other = chains->neighbour[i];
            if (other != KL_NONE && number[other] != KL_NONE) {
                core->neighbour[at++] = number[other];
            }
        }
    }
    core->first[core->count] = at;
}

kl_status core_create(const chain_core *chains, kl_index nodes, arena *a, core_graph *core)
{
    const size_t room = (size_t)(nodes - chains->eliminated);
    kl_index *number = arena_array(a, (size_t)nodes, sizeof *number);
    *core = (core_graph){
        .node = arena_array(a, room, sizeof(kl_index)),
        .first = arena_array(a, room + 1, sizeof(kl_index)),
        .piece = arena_array(a, room + 1, sizeof(kl_index)),
    };
    if (!number || !core->node || !core->first || !core->piece) {
        return KL_NO_MEMORY;
    }
    size_t arcs = 0;
    for (kl_index node = 0; node < nodes; node++) {
        number[node] = KL_NONE;
        arcs += chains->nodes[node].gone ? 0 : (size_t)chains->nodes[node].degree;
    }
    core->neighbour = arena_array(a, arcs, sizeof(kl_index));
    if (!core->neighbour) {
        return KL_NO_MEMORY;
    }
    for (kl_index node = 0; node < nodes; node++) {
        if (!chains->nodes[node].gone && number[node] == KL_NONE) {
            core->piece[core->pieces++] = core->count;
            core_number_piece(chains, node, number, core);
        }
    }
    core->piece[core->pieces] = core->count;
    core_list_neighbours(chains, number, core);
    return KL_OK;
}
