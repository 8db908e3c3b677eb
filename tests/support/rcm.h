/* rcm.h - an order of the nodes that keeps the band narrow, for the band solver the tests compare with.
 * SPDX-License-Identifier: MIT */
#ifndef KERNLINE_RCM_H
#define KERNLINE_RCM_H

#include "graph.h"

/* Reverse Cuthill-McKee from a pseudo-peripheral node of each component.
 * @param order out, node_count: order[k] is the node eliminated k-th. */
kl_status rcm_nodes(const sparse_graph *graph, kl_index *order);

#endif
