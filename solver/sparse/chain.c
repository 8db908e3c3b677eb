/* chain.c - see chain.h.
 *
 * Free ends are followed first: a node eliminated from an end has one neighbour, one inside a chain has two. Each
 * elimination costs a scan of two short lists. A node beside a hub with a long list is left to the general method, so that
 * the whole stays linear.
 * SPDX-License-Identifier: MIT */
#include "chain.h"

#include <string.h>

/* Longer lists of neighbours are not scanned when a link is put into them. */
#define CHAIN_SCAN 64

typedef struct chain_work {
    chain_core *core;
    kl_index *stack; /* node_count */
    bool *waits;     /* node_count: is on the stack */
    kl_index height;
} chain_work;

static kl_index chain_length(const chain_core *core, kl_index node)
{
    return core->first[node + 1] - core->first[node];
}

/* The neighbours that are left of a node with at most two. */
static void chain_ends(const chain_core *core, kl_index node, kl_index ends[2])
{
    ends[0] = KL_NONE;
    ends[1] = KL_NONE;
    int found = 0;
    for (kl_index i = core->first[node]; i < core->first[node + 1] && found < 2; i++) {
        const kl_index other = core->neighbour[i];
        if (other != KL_NONE && !core->gone[other]) {
            ends[found++] = other;
        }
    }
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
        core->degree[ends[e]] -= joined ? 1 : 0;
    }
}

static void chain_push(chain_work *work, kl_index node, kl_index limit)
{
    if (node != KL_NONE && !work->waits[node] && work->core->degree[node] <= limit) {
        work->waits[node] = true;
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
        core->degree[ends[0]]--; /* its list keeps the node, which is gone */
    }
    core->gone[node] = true;
    core->order[core->eliminated++] = node;
    chain_push(work, ends[0], limit);
    chain_push(work, ends[1], limit); /* the last one is followed first */
}

static void chain_sweep(chain_work *work, kl_index nodes, kl_index limit)
{
    for (kl_index start = 0; start < nodes; start++) {
        if (work->core->gone[start]) {
            continue;
        }
        chain_push(work, start, limit);
        while (work->height > 0) {
            const kl_index node = work->stack[--work->height];
            work->waits[node] = false;
            if (!work->core->gone[node]) {
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
        .gone = arena_array(a, nodes, sizeof(bool)),
        .degree = arena_array(a, nodes, sizeof(kl_index)),
    };
    chain_work work = {
        .core = core,
        .stack = arena_array(a, nodes, sizeof(kl_index)),
        .waits = arena_array(a, nodes, sizeof(bool)),
    };
    if (!core->neighbour || !core->gone || !core->degree || !work.stack || !work.waits) {
        return KL_NO_MEMORY;
    }
    if (arcs > 0) {
        memcpy(core->neighbour, graph->neighbour, arcs * sizeof(kl_index));
    }
    for (kl_index node = 0; node < graph->node_count; node++) {
        core->degree[node] = chain_length(core, node);
    }
    chain_sweep(&work, graph->node_count, 1);
    chain_sweep(&work, graph->node_count, 2);
    return KL_OK;
}
