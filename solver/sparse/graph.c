/* graph.c - see graph.h. Two bucket passes sort all neighbours in O(nodes + pairs), whatever the degrees.
 * SPDX-License-Identifier: MIT */
#include "graph.h"

#include <string.h>

#include "dense.h"
#include "mem.h"

/* 3 unknowns a node must fit the dense library's 32-bit integers with room to spare. */
#define GRAPH_NODE_LIMIT 20000000
#define GRAPH_PAIR_LIMIT 100000000

/* The graph as lent (constant) and its arrays as owned. */
typedef struct graph_owner {
    sparse_graph view; /* first, so that a pointer to it is a pointer to the owner */
    kl_index *first;
    kl_index *neighbour;
    kl_index *edge_of;
} graph_owner;

typedef struct graph_arcs {
    kl_index *from; /* 2 * pairs without loops, sorted by `to` */
    kl_index *to;
    kl_index *next; /* node_count + 1: fill positions of the buckets */
} graph_arcs;

static kl_status graph_check(kl_index node_count, const kl_index (*pairs)[2], int64_t pair_count)
{
    if (node_count < 0 || pair_count < 0) {
        return KL_MISUSE;
    }
    if (node_count > GRAPH_NODE_LIMIT || pair_count > GRAPH_PAIR_LIMIT) {
        return KL_TOO_LARGE;
    }
    for (int64_t i = 0; i < pair_count; i++) {
        const kl_index a = pairs[i][0];
        const kl_index b = pairs[i][1];
        if (a < 0 || b < 0 || a >= node_count || b >= node_count) {
            return KL_MISUSE;
        }
    }
    return KL_OK;
}

/* Turn counts in next[node + 1] into the places where buckets begin. */
static void graph_sum_up(kl_index *next, kl_index node_count)
{
    for (kl_index node = 0; node < node_count; node++) {
        next[node + 1] += next[node];
    }
}

/* First pass: each pair gives two arcs, put into the bucket of the node they lead to. */
static void graph_sort_by_to(const kl_index (*pairs)[2],
                             int64_t pair_count,
                             kl_index node_count,
                             graph_arcs *arcs)
{
    for (int64_t i = 0; i < pair_count; i++) {
        if (pairs[i][0] != pairs[i][1]) {
            arcs->next[pairs[i][0] + 1]++;
            arcs->next[pairs[i][1] + 1]++;
        }
    }
    graph_sum_up(arcs->next, node_count);
    for (int64_t i = 0; i < pair_count; i++) {
        for (int end = 0; end < 2 && pairs[i][0] != pairs[i][1]; end++) {
            const kl_index at = arcs->next[pairs[i][end]]++;
            arcs->to[at] = pairs[i][end];
            arcs->from[at] = pairs[i][1 - end];
        }
    }
}

/* Second pass: by ascending `to` into the bucket of `from`, so that each bucket is ascending. The first pass
 * has left next[node] at the end of node's bucket; buckets by `from` are as large, because arcs come in twos. */
static void graph_sort_by_from(const graph_arcs *arcs, kl_index arc_count, graph_owner *graph)
{
    const kl_index node_count = graph->view.node_count;
    memcpy(graph->first + 1, arcs->next, (size_t)node_count * sizeof(kl_index));
    graph->first[0] = 0;
    memcpy(arcs->next, graph->first, (size_t)node_count * sizeof(kl_index));
    for (kl_index i = 0; i < arc_count; i++) {
        graph->neighbour[arcs->next[arcs->from[i]]++] = arcs->to[i];
    }
}

/* Merge equal neighbours, which stand side by side. */
static void graph_merge_doubles(graph_owner *graph)
{
    kl_index kept = 0;
    kl_index begin = 0;
    for (kl_index node = 0; node < graph->view.node_count; node++) {
        const kl_index end = graph->first[node + 1];
        kl_index last = KL_NONE;
        for (kl_index i = begin; i < end; i++) {
            if (graph->neighbour[i] != last) {
                last = graph->neighbour[i];
                graph->neighbour[kept++] = last;
            }
        }
        begin = end;
        graph->first[node + 1] = kept;
    }
}

/* Number the edges by (a, b) ascending. While a goes up, the entries of a in the lists of larger nodes are met
 * in their own order, so one cursor a node finds them. */
static void graph_number_edges(graph_owner *graph, kl_index *cursor)
{
    kl_index edge = 0;
    memcpy(cursor, graph->first, (size_t)graph->view.node_count * sizeof(kl_index));
    for (kl_index a = 0; a < graph->view.node_count; a++) {
        for (kl_index i = graph->first[a]; i < graph->first[a + 1]; i++) {
            const kl_index b = graph->neighbour[i];
            if (b > a) {
                graph->edge_of[i] = edge;
                graph->edge_of[cursor[b]++] = edge;
                edge++;
            }
        }
    }
    graph->view.edge_count = edge;
}

static kl_status graph_fill(graph_owner *graph, const kl_index (*pairs)[2], int64_t pair_count)
{
    const kl_index node_count = graph->view.node_count;
    const size_t arc_room = 2 * (size_t)pair_count;
    graph_arcs arcs = {
        .from = mem_array(arc_room, sizeof(kl_index)),
        .to = mem_array(arc_room, sizeof(kl_index)),
        .next = mem_array((size_t)node_count + 1, sizeof(kl_index)),
    };
    graph->first = mem_array((size_t)node_count + 1, sizeof(kl_index));
    graph->neighbour = mem_array(arc_room, sizeof(kl_index));
    graph->edge_of = mem_array(arc_room, sizeof(kl_index));
    const bool ready = arcs.from != NULL && arcs.to != NULL && arcs.next != NULL &&
                       graph->first != NULL && graph->neighbour != NULL && graph->edge_of != NULL;
    if (ready) {
        graph_sort_by_to(pairs, pair_count, node_count, &arcs);
        graph_sort_by_from(&arcs, arcs.next[node_count], graph);
        graph_merge_doubles(graph);
        graph_number_edges(graph, arcs.next);
    }
    mem_free(arcs.from);
    mem_free(arcs.to);
    mem_free(arcs.next);
    return ready ? KL_OK : KL_NO_MEMORY;
}

kl_status graph_create(kl_index node_count,
                       const kl_index (*pairs)[2],
                       int64_t pair_count,
                       sparse_graph **out)
{
    *out = NULL;
    KL_TRY(graph_check(node_count, pairs, pair_count));
    graph_owner *graph = mem_array(1, sizeof *graph);
    if (graph == NULL) {
        return KL_NO_MEMORY;
    }
    graph->view.node_count = node_count;
    const kl_status status = graph_fill(graph, pairs, pair_count);
    if (status != KL_OK) {
        graph_destroy(&graph->view);
        return status;
    }
    graph->view.first = graph->first;
    graph->view.neighbour = graph->neighbour;
    graph->view.edge_of = graph->edge_of;
    *out = &graph->view;
    return KL_OK;
}

void graph_destroy(sparse_graph *graph)
{
    if (graph == NULL) {
        return;
    }
    graph_owner *owner = (graph_owner *)graph;
    mem_free(owner->first);
    mem_free(owner->neighbour);
    mem_free(owner->edge_of);
    mem_free(owner);
}

kl_index graph_edge(const sparse_graph *graph, kl_index a, kl_index b)
{
    if (a < 0 || b < 0 || a >= graph->node_count || b >= graph->node_count) {
        return KL_NONE;
    }
    kl_index low = graph->first[a];
    kl_index high = graph->first[a + 1];
    while (low < high) {
        const kl_index middle = low + (high - low) / 2;
        if (graph->neighbour[middle] < b) {
            low = middle + 1;
        } else {
            high = middle;
        }
    }
    const bool found = low < graph->first[a + 1] && graph->neighbour[low] == b;
    return found ? graph->edge_of[low] : KL_NONE;
}

static void graph_multiply_column(
    const sparse_graph *graph, const double *diag, const double *off, const double *x, double *y)
{
    for (kl_index node = 0; node < graph->node_count; node++) {
        double sum[DENSE_SIDE] = {0.0};
        dense_add_times(diag + DENSE_BLOCK * (size_t)node, x + DENSE_SIDE * (size_t)node, sum);
        for (kl_index i = graph->first[node]; i < graph->first[node + 1]; i++) {
            const kl_index other = graph->neighbour[i];
            const double *block = off + DENSE_BLOCK * (size_t)graph->edge_of[i];
            const double *part = x + DENSE_SIDE * (size_t)other;
            if (node < other) {
                dense_add_times(block, part, sum);
            } else {
                dense_add_transposed_times(block, part, sum);
            }
        }
        memcpy(y + DENSE_SIDE * (size_t)node, sum, sizeof sum);
    }
}

void graph_multiply(const sparse_graph *graph,
                    const double *diag,
                    const double *off,
                    const double *x,
                    double *y,
                    kl_index columns)
{
    const size_t stride = DENSE_SIDE * (size_t)graph->node_count;
    for (kl_index column = 0; column < columns; column++) {
        const size_t at = stride * (size_t)column;
        graph_multiply_column(graph, diag, off, x + at, y + at);
    }
}
