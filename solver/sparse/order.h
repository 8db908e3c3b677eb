/* order.h - an elimination order of the nodes that keeps the factor small. Deterministic.
 * SPDX-License-Identifier: MIT */
#ifndef KERNLINE_ORDER_H
#define KERNLINE_ORDER_H

#include "graph.h"

/* Reverse Cuthill-McKee from a pseudo-peripheral node of each component.
 * @param order out, node_count: order[k] is the node eliminated k-th. */
kl_status order_nodes(const sparse_graph *graph, kl_index *order);

#endif
