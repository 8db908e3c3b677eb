/* order.c - see order.h.
 *
 * The general part is AMD of the SuiteSparse (Amestoy, Davis and Duff 1996): its inner routine, which works on arrays that
 * it is given and allocates nothing. It gets the core in the order of a breadth-first search, which makes its ties the same
 * however the frame was numbered, but for where the search began.
 * SPDX-License-Identifier: MIT */
#include "order.h"

#include <string.h>
#include <suitesparse/amd.h>

#include "core.h"
#include "dissect.h"

/* Arrays of one integer a node that the routine works in. */
enum {
    ORDER_PE,
    ORDER_LEN,
    ORDER_NV,
    ORDER_NEXT,
    ORDER_LAST,
    ORDER_HEAD,
    ORDER_ELEN,
    ORDER_DEGREE,
    ORDER_W,
    ORDER_ARRAYS
};

/* The routine wants room beyond the lists: a node's worth at least, a fifth of the lists to be quick. */
static kl_status order_room(int64_t arcs, int64_t nodes, int *room)
{
    const int64_t wanted = arcs + arcs / 5 + nodes + 1;
    *room = (int)wanted;
    return wanted < INT32_MAX ? KL_OK : KL_TOO_LARGE;
}

static kl_status order_by_degree(const core_graph *core, arena *a, kl_index *order)
{
    const kl_index arcs = core->first[core->count];
    int room;
    KL_TRY(order_room(arcs, core->count, &room));
    int *list = arena_array(a, (size_t)room, sizeof *list);
    int *w[ORDER_ARRAYS];
    for (int i = 0; i < ORDER_ARRAYS; i++) {
        w[i] = arena_array(a, (size_t)core->count, sizeof(int));
        if (!w[i]) {
            return KL_NO_MEMORY;
        }
    }
    if (!list) {
        return KL_NO_MEMORY;
    }
    memcpy(list, core->neighbour, (size_t)arcs * sizeof *list);
    for (kl_index k = 0; k < core->count; k++) {
        w[ORDER_PE][k] = core->first[k];
        w[ORDER_LEN][k] = core->first[k + 1] - core->first[k];
    }
    amd_2(core->count, w[ORDER_PE], list, w[ORDER_LEN], room, arcs, w[ORDER_NV], w[ORDER_NEXT],
          w[ORDER_LAST], w[ORDER_HEAD], w[ORDER_ELEN], w[ORDER_DEGREE], w[ORDER_W], NULL,
          NULL); /* its defaults; no statistics */
    memcpy(order, w[ORDER_LAST], (size_t)core->count * sizeof *order);
    return KL_OK;
}

static kl_status order_rest(const chain_core *chains, kl_index nodes, arena *a)
{
    core_graph core;
    KL_TRY(core_create(chains, nodes, a, &core));
    kl_index *order = chains->order + chains->eliminated;
    bool fits;
    KL_TRY(dissect(&core, a, order, &fits));
    if (!fits) {
        KL_TRY(order_by_degree(&core, a, order));
    }
    for (kl_index k = 0; k < core.count; k++) {
        order[k] = core.node[order[k]];
    }
    return KL_OK;
}

kl_status order_nodes(const sparse_graph *graph, kl_index *order)
{
    arena a = {0};
    chain_core chains = {0};
    chains.order = order;
    kl_status status = chain_eliminate(graph, &a, &chains);
    if (status == KL_OK && chains.eliminated < graph->node_count) {
        status = order_rest(&chains, graph->node_count, &a);
    }
    arena_free(&a);
    return status;
}
