/* order.c - see order.h.
 *
 * The general part is AMD of the SuiteSparse (Amestoy, Davis and Duff 1996): its inner routine, which works on arrays that
 * it is given and allocates nothing.
 * SPDX-License-Identifier: MIT */
#include "order.h"

#include <suitesparse/amd.h>

#include "arena.h"
#include "chain.h"

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

typedef struct order_core {
    kl_index nodes;
    int arcs;
    int room;         /* of `list` */
    kl_index *node;   /* nodes: its node in the graph */
    kl_index *number; /* of the graph: its number in the core */
    int *list;        /* the lists of neighbours, then room to work in */
    int *array[ORDER_ARRAYS];
} order_core;

/* The routine wants room beyond the lists: a node's worth at least, a fifth of the lists to be quick. */
static kl_status order_room(int64_t arcs, int64_t nodes, int *room)
{
    const int64_t wanted = arcs + arcs / 5 + nodes + 1;
    *room = (int)wanted;
    return wanted < INT32_MAX ? KL_OK : KL_TOO_LARGE;
}

static kl_status
order_number_core(const chain_core *chains, kl_index nodes, arena *a, order_core *core)
{
    core->nodes = nodes - chains->eliminated;
    core->number = arena_array(a, (size_t)nodes, sizeof(kl_index));
    core->node = arena_array(a, (size_t)core->nodes, sizeof(kl_index));
    if (!core->number || !core->node) {
        return KL_NO_MEMORY;
    }
    kl_index count = 0;
    int64_t arcs = 0;
    for (kl_index node = 0; node < nodes; node++) {
        if (!chains->gone[node]) {
            arcs += chains->degree[node];
            core->number[node] = count;
            core->node[count++] = node;
        }
    }
    KL_TRY(order_room(arcs, core->nodes, &core->room));
    core->list = arena_array(a, (size_t)core->room, sizeof(int));
    if (!core->list) {
        return KL_NO_MEMORY;
    }
    for (int i = 0; i < ORDER_ARRAYS; i++) {
        core->array[i] = arena_array(a, (size_t)core->nodes, sizeof(int));
        if (!core->array[i]) {
            return KL_NO_MEMORY;
        }
    }
    return KL_OK;
}

static void order_fill_core(const chain_core *chains, order_core *core)
{
    int at = 0;
    for (kl_index k = 0; k < core->nodes; k++) {
        const kl_index node = core->node[k];
        core->array[ORDER_PE][k] = at;
        for (kl_index i = chains->first[node]; i < chains->first[node + 1]; i++) {
            const kl_index other = chains->neighbour[i];
            if (other != KL_NONE && !chains->gone[other]) {
                core->list[at++] = core->number[other];
            }
        }
        core->array[ORDER_LEN][k] = at - core->array[ORDER_PE][k];
    }
    core->arcs = at;
}

static kl_status order_rest(const chain_core *chains, kl_index nodes, arena *a)
{
    order_core core;
    KL_TRY(order_number_core(chains, nodes, a, &core));
    order_fill_core(chains, &core);
    int **w = core.array;
    amd_2(core.nodes, w[ORDER_PE], core.list, w[ORDER_LEN], core.room, core.arcs, w[ORDER_NV],
          w[ORDER_NEXT], w[ORDER_LAST], w[ORDER_HEAD], w[ORDER_ELEN], w[ORDER_DEGREE], w[ORDER_W],
          NULL, NULL); /* its defaults; no statistics */
    for (kl_index k = 0; k < core.nodes; k++) {
        chains->order[chains->eliminated + k] = core.node[w[ORDER_LAST][k]];
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
