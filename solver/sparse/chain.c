/* chain.c - see chain.h.
 *
 * Free ends are followed first: a node eliminated from an end has one neighbour, one inside a chain has two. An end knows
 * its neighbour by the exclusive or; inside a chain short lists are scanned. A node beside a hub with a long list is left to
 * the general method, so that the whole stays linear.
 * SPDX-License-Identifier: MIT */
#include "chain.h"

#include <string.h>

/* Longer lists of neighbours are not scanned when a link is put into them. */
#define CHAIN_SCAN 64

typedef struct chain_work {
    chain_core *core;
    kl_index *stack; /* node_count */
    kl_index height;
} chain_work;

static kl_index chain_length(const chain_core *core, kl_index node)
{
    return core->first[node + 1] - core->first[node];
}

static kl_index chain_first_left(const chain_core *core, kl_index node)
{
    for (kl_index i = core->first[node]; i < core->first[node + 1]; i++) {
        const kl_index other = core->neighbour[i];
        if (other != KL_NONE && !core->nodes[other].gone) {
            return other;
        }
    }
    return KL_NONE;
}

/* The neighbours that are left of a node with at most two. */
static void chain_ends(const chain_core *core, kl_index node, kl_index ends[2])
{
    const chain_node *of = &core->nodes[node];
    ends[0] = of->degree == 0 ? KL_NONE : of->degree == 1 ? of->link : chain_first_left(core, node);
    ends[1] = of->degree == 2 ? of->link ^ ends[0] : KL_NONE;
}

static bool chain_is_joined(const chain_core *core, kl_index a, kl_index b)
{
    for (kl_index i = core->first[a]; i < core->first[a + 1]; i++) {
        if (core->neighbour[i] == b) {
            return true;
        }
    }
    return false;
}

static void chain_replace(chain_core *core, kl_index node, kl_index old, kl_index by)
{
    for (kl_index i = core->first[node]; i < core->first[node + 1]; i++) {
        if (core->neighbour[i] == old) {
            core->neighbour[i] = by;
            return;
        }
    }
}

/* Join the two ends over the node between them; a link that is there already costs each a neighbour. */
static void chain_bridge(chain_core *core, kl_index node, const kl_index ends[2])
{
    const bool joined = chain_is_joined(core, ends[0], ends[1]);
    for (int e = 0; e < 2; e++) {
        chain_replace(core, ends[e], node, joined ? KL_NONE : ends[1 - e]);
        core->nodes[ends[e]].degree -= joined ? 1 : 0;
        core->nodes[ends[e]].link ^= joined ? node : node ^ ends[1 - e];
    }
}

static void chain_push(chain_work *work, kl_index node, kl_index limit)
{
    if (node == KL_NONE) {
        return;
    }
    chain_node *of = &work->core->nodes[node];
    if (!of->waits && of->degree <= limit) {
        of->waits = true;
        work->stack[work->height++] = node;
    }
}

static void chain_remove(chain_work *work, kl_index node, kl_index limit)
{
    chain_core *core = work->core;
    kl_index ends[2];
    chain_ends(core, node, ends);
    if (ends[1] != KL_NONE) {
        if (chain_length(core, ends[0]) > CHAIN_SCAN || chain_length(core, ends[1]) > CHAIN_SCAN) {
            return;
        }
        chain_bridge(core, node, ends);
    } else if (ends[0] != KL_NONE) {
        core->nodes[ends[0]].degree--; /* its list keeps the node, which is gone */
        core->nodes[ends[0]].link ^= node;
    }
    core->nodes[node].gone = true;
    core->order[core->eliminated++] = node;
    chain_push(work, ends[0], limit);
    chain_push(work, ends[1], limit); /* the last one is followed first */
}

static void chain_sweep(chain_work *work, kl_index nodes, kl_index limit)
{
    for (kl_index start = 0; start < nodes; start++) {
        if (work->core->nodes[start].gone) {
            continue;
        }
        chain_push(work, start, limit);
        while (work->height > 0) {
            const kl_index node = work->stack[--work->height];
            work->core->nodes[node].waits = false;
            if (!work->core->nodes[node].gone) {
                chain_remove(work, node, limit);
            }
        }
    }
}

kl_status chain_eliminate(const sparse_graph *graph, arena *a, chain_core *core)
{
    const size_t nodes = (size_t)graph->node_count;
    const size_t arcs = 2 * (size_t)graph->edge_count;
    *core = (chain_core){
        .order = core->order,
        .first = graph->first,
        .neighbour = arena_array(a, arcs, sizeof(kl_index)),
        .nodes = arena_array(a, nodes, sizeof(chain_node)),
    };
    chain_work work = {.core = core, .stack = arena_array(a, nodes, sizeof(kl_index))};
    if (!core->neighbour || !core->nodes || !work.stack) {
        return KL_NO_MEMORY;
    }
    if (arcs > 0) {
        memcpy(core->neighbour, graph->neighbour, arcs * sizeof(kl_index));
    }
    for (kl_index node = 0; node < graph->node_count; node++) {
        core->nodes[node].degree = chain_length(core, node);
        for (kl_index i = core->first[node]; i < core->first[node + 1]; i++) {
            core->nodes[node].link ^= core->neighbour[i];
        }
    }
    chain_sweep(&work, graph->node_count, 1);
    chain_sweep(&work, graph->node_count, 2);
    return KL_OK;
}
