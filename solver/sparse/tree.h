/* tree.h - the elimination tree of an ordered graph, and the size of every column of the factor without its entries.
 * SPDX-License-Identifier: MIT */
#ifndef KERNLINE_TREE_H
#define KERNLINE_TREE_H

#include "arena.h"
#include "graph.h"

/* Of a graph in an order. Places are numbered in postorder: a place's descendants are those right before it. */
typedef struct elimination_tree {
    kl_index count;
    kl_index *node;        /* count: the node at each place */
    kl_index *place;       /* count: the place of each node */
    kl_index *parent;      /* count: of each place, KL_NONE for a root */
    kl_index *first;       /* count: the first descendant, itself for a leaf */
    kl_index *column;      /* count: blocks of the factor's column, the diagonal one included */
    kl_index *below_first; /* count + 1: where the list of a place in `below` begins */
    kl_index *below;       /* edge_count: neighbours of a place with smaller places */
    kl_index *above_first; /* count + 1: where the list of a place in `above` begins */
    kl_index *above;       /* edge_count: neighbours of a place with larger places */
    kl_index *above_edge;  /* edge_count: the edges to them */
} elimination_tree;

/* @param order a permutation; it is changed only as far as postorder needs, which changes no fill.
 * @param kept where node and place are cut from; the other arrays are cut from `a`.
 * @return KL_NO_MEMORY, KL_MISUSE when `order` is no permutation. */
kl_status tree_create(const sparse_graph *graph,
                      const kl_index *order,
                      arena *kept,
                      arena *a,
                      elimination_tree *tree);

#endif
