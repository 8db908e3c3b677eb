/* symbolic.h - what of the factor depends on the pattern only; made once and shared by every factor.
 * SPDX-License-Identifier: MIT */
#ifndef KERNLINE_SYMBOLIC_H
#define KERNLINE_SYMBOLIC_H

#include "graph.h"

typedef struct sparse_symbolic sparse_symbolic; /* symbolic.c; const after creation */

/* @param order from order_nodes, copied. The graph is borrowed and must outlive the object.
 * @return KL_NO_MEMORY, KL_TOO_LARGE when the factor would be larger than the program allows, KL_MISUSE when
 * `order` is not a permutation. */
kl_status symbolic_create(const sparse_graph *graph, const kl_index *order, sparse_symbolic **out);
void symbolic_destroy(sparse_symbolic *symbolic);

#endif
