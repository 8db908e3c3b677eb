/* symbolic.h - what of the factor depends on the pattern only; made once and shared by every factor.
 * SPDX-License-Identifier: MIT */
#ifndef KERNLINE_SYMBOLIC_H
#define KERNLINE_SYMBOLIC_H

#include "graph.h"

typedef struct sparse_symbolic sparse_symbolic; /* symbolic.c; const after creation */

/* Elimination tree, supernodes, the rows of each, and the way of every block of the matrix into the factor.
 * @param order from order_nodes. The graph is borrowed and must outlive the object.
 * @return KL_NO_MEMORY, KL_TOO_LARGE when the factor would be larger than the program allows, KL_MISUSE when
 * `order` is not a permutation. */
kl_status symbolic_create(const sparse_graph *graph, const kl_index *order, sparse_symbolic **out);
void symbolic_destroy(sparse_symbolic *symbolic);

/* The order in which nodes are eliminated, node_count long: the given one, rearranged so that the parts that depend on each
 * other stand together, which changes neither the factor's entries nor their number. Valid as long as the object. */
const kl_index *symbolic_order(const sparse_symbolic *symbolic);

/* Numbers the factor stores. */
int64_t symbolic_entries(const sparse_symbolic *symbolic);

#endif
