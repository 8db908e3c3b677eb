/* graph.h - the graph of nodes behind a stiffness matrix of 3x3 blocks.
 *
 * The matrix is symmetric. Its values live in two arrays: diag[node] and off[edge], each a 3x3 block of nine
 * doubles by rows; off[e] is the block (row node a, column node b) of edge e = {a, b} with a < b.
 * SPDX-License-Identifier: MIT */
#ifndef KERNLINE_GRAPH_H
#define KERNLINE_GRAPH_H

#include "kernline/diag.h"

typedef struct sparse_graph {
    kl_index node_count;
    kl_index edge_count;
    const kl_index *first;     /* node_count + 1: where a node's neighbours begin */
    const kl_index *neighbour; /* 2 * edge_count, ascending for each node */
    const kl_index *edge_of;   /* 2 * edge_count: the edge of each entry of `neighbour` */
} sparse_graph;

/* Build from pairs of nodes; loops are ignored, doubles merged. Edges are numbered by (a, b) ascending.
 * @return KL_NO_MEMORY, KL_TOO_LARGE, KL_MISUSE when a node of a pair does not exist. */
kl_status graph_create(kl_index node_count,
                       const kl_index (*pairs)[2],
                       int64_t pair_count,
                       sparse_graph **out);
void graph_destroy(sparse_graph *graph);

/* The edge between two different nodes, or KL_NONE. */
kl_index graph_edge(const sparse_graph *graph, kl_index a, kl_index b);

/* y = A x for `columns` columns, each 3*node_count long, stored one after the other. */
void graph_multiply(const sparse_graph *graph,
                    const double *diag,
                    const double *off,
                    const double *x,
                    double *y,
                    kl_index columns);

#endif
