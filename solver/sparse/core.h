/* core.h - what chain.h leaves of a graph, as a graph of its own.
 * SPDX-License-Identifier: MIT */
#ifndef KERNLINE_CORE_H
#define KERNLINE_CORE_H

#include "chain.h"

/* Numbered in the order of a breadth-first search: neighbours lie close together in memory, however the frame was numbered,
 * and the nodes of a connected piece follow each other; the last one of a piece lies far out. */
typedef struct core_graph {
    kl_index count;
    kl_index pieces;
    kl_index *piece;     /* pieces + 1: the first node of each */
    kl_index *node;      /* count: the node of the whole graph */
    kl_index *first;     /* count + 1: where a node's neighbours begin */
    kl_index *neighbour; /* first[count] */
} core_graph;

/* @param nodes of the whole graph. @param a where the arrays are cut from. @return KL_NO_MEMORY */
kl_status core_create(const chain_core *chains, kl_index nodes, arena *a, core_graph *core);

#endif
