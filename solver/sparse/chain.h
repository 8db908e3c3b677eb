/* chain.h - elimination, on the graph alone, of every node that has at most two neighbours left.
 *
 * Such a node fills in nothing but the link between its two neighbours, so no node's degree grows. Trees, rings, ladders
 * and the members between the joints of a frame vanish; what is left has at least three neighbours everywhere.
 * SPDX-License-Identifier: MIT */
#ifndef KERNLINE_CHAIN_H
#define KERNLINE_CHAIN_H

#include "arena.h"
#include "graph.h"

/* What a walk along a chain asks of a node, side by side: numbered at random, each node is a visit to memory of its own. */
typedef struct chain_node {
    kl_index
        link; /* exclusive or of the neighbours left: of one it is that one, of two each tells the other */
    kl_index degree; /* neighbours left */
    bool gone;       /* eliminated */
    bool waits;      /* its turn has been noted */
} chain_node;

/* What is left of a graph. */
typedef struct chain_core {
    kl_index *order; /* node_count: the eliminated nodes, `eliminated` of them, in their order */
    kl_index eliminated;
    const kl_index *first; /* of the graph */
    kl_index *
        neighbour; /* 2 * edge_count: lists begin at first[node]; eliminated neighbours and KL_NONE in them
                              are to be skipped */
    chain_node *nodes; /* node_count */
} chain_core;

/* @param a where the arrays of `core` are cut from, except `order`, which the caller has put there.
 * @return KL_NO_MEMORY */
kl_status chain_eliminate(const sparse_graph *graph, arena *a, chain_core *core);

#endif
