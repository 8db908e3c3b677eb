/* order.h - an elimination order of the nodes that keeps the factor small. Deterministic.
 * SPDX-License-Identifier: MIT */
#ifndef KERNLINE_ORDER_H
#define KERNLINE_ORDER_H

#include "graph.h"

/* Nodes with at most two neighbours first, again and again (chain.h); the rest by nested dissection where it is like a grid
 * (dissect.h), else by approximate minimum degree.
 * @param order out, node_count: order[k] is the node eliminated k-th.
 * @return KL_NO_MEMORY; KL_TOO_LARGE when the library's 32-bit integers do not hold the graph. */
kl_status order_nodes(const sparse_graph *graph, kl_index *order);

#endif
