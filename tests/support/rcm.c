/* rcm.c - reverse Cuthill-McKee, see rcm.h.
 *
 * Nodes are numbered level by level from an end of each component, in a level by their parents and then by
 * degree and number; reversing that order keeps the band and shrinks the envelope. Cuthill and McKee (1969);
 * the search for an end: Gibbs, Poole and Stockmeyer (1976), as shortened by George and Liu (1979). All lists of
 * neighbours are sorted by degree at once with buckets, so that the whole costs O(nodes + edges).
 * SPDX-License-Identifier: MIT */
#include "rcm.h"

#include "mem.h"

/* The search for an end goes on while the levels get more; in practice two or three rounds. The bound keeps
 * the cost linear. */
#define RCM_ROUNDS 8

typedef struct rcm_work {
    const sparse_graph *graph;
    kl_index *by_degree; /* node_count: nodes by (degree, number) */
    kl_index *next;      /* node_count + 1: bucket positions */
    kl_index *neighbour; /* 2 * edge_count: as in the graph, each list by (degree, number) */
    kl_index *mark;      /* node_count: number of the search that met the node last */
    kl_index search;
} rcm_work;

static kl_index rcm_degree(const sparse_graph *graph, kl_index node)
{
    return graph->first[node + 1] - graph->first[node];
}

static void rcm_free(rcm_work *work)
{
    mem_free(work->by_degree);
    mem_free(work->next);
    mem_free(work->neighbour);
    mem_free(work->mark);
}

static kl_status rcm_allocate(rcm_work *work)
{
    const size_t nodes = (size_t)work->graph->node_count;
    work->by_degree = mem_array(nodes, sizeof(kl_index));
    work->next = mem_array(nodes + 1, sizeof(kl_index));
    work->neighbour = mem_array(2 * (size_t)work->graph->edge_count, sizeof(kl_index));
    work->mark = mem_array(nodes, sizeof(kl_index));
    const bool ready = work->by_degree != NULL && work->next != NULL && work->neighbour != NULL &&
                       work->mark != NULL;
    return ready ? KL_OK : KL_NO_MEMORY;
}

/* A degree is below node_count, because doubles and loops are gone. */
static void rcm_sort_nodes(rcm_work *work)
{
    const sparse_graph *graph = work->graph;
    for (kl_index node = 0; node < graph->node_count; node++) {
        work->next[rcm_degree(graph, node) + 1]++;
    }
    for (kl_index degree = 0; degree < graph->node_count; degree++) {
        work->next[degree + 1] += work->next[degree];
    }
    for (kl_index node = 0; node < graph->node_count; node++) {
        work->by_degree[work->next[rcm_degree(graph, node)]++] = node;
    }
}

/* Hand each node, in the order of degrees, to all its neighbours: then every list is in that order. */
static void rcm_sort_neighbours(rcm_work *work)
{
    const sparse_graph *graph = work->graph;
    for (kl_index node = 0; node < graph->node_count; node++) {
        work->next[node] = graph->first[node];
    }
    for (kl_index i = 0; i < graph->node_count; i++) {
        const kl_index node = work->by_degree[i];
        for (kl_index j = graph->first[node]; j < graph->first[node + 1]; j++) {
            work->neighbour[work->next[graph->neighbour[j]]++] = node;
        }
    }
}

typedef struct rcm_levels {
    kl_index count;      /* nodes met */
    kl_index depth;      /* levels */
    kl_index last_begin; /* where the last level begins in the queue */
} rcm_levels;

/* Breadth first from `start`; `queue` receives the nodes of its component level by level. */
static rcm_levels rcm_search(rcm_work *work, kl_index start, kl_index *queue)
{
    work->search++;
    work->mark[start] = work->search;
    queue[0] = start;
    rcm_levels levels = {.count = 1, .depth = 0, .last_begin = 0};
    kl_index begin = 0;
    while (begin < levels.count) {
        const kl_index end = levels.count;
        levels.last_begin = begin;
        levels.depth++;
        for (kl_index at = begin; at < end; at++) {
            const kl_index node = queue[at];
            for (kl_index i = work->graph->first[node]; i < work->graph->first[node + 1]; i++) {
                const kl_index other = work->neighbour[i];
                if (work->mark[other] != work->search) {
                    work->mark[other] = work->search;
                    queue[levels.count++] = other;
                }
            }
        }
        begin = end;
    }
    return levels;
}

/* The node of the last level with the fewest neighbours, the smaller number first. */
static kl_index rcm_farthest(const rcm_work *work, rcm_levels levels, const kl_index *queue)
{
    kl_index best = queue[levels.last_begin];
    for (kl_index at = levels.last_begin + 1; at < levels.count; at++) {
        const kl_index degree = rcm_degree(work->graph, queue[at]);
        const kl_index least = rcm_degree(work->graph, best);
        if (degree < least || (degree == least && queue[at] < best)) {
            best = queue[at];
        }
    }
    return best;
}

/* Order the component of `start` into `queue`; on return it holds the order from an end.
 * @return the number of nodes in the component. */
static kl_index rcm_component(rcm_work *work, kl_index start, kl_index *queue)
{
    rcm_levels levels = rcm_search(work, start, queue);
    for (int round = 0; round < RCM_ROUNDS; round++) {
        const kl_index depth = levels.depth;
        const kl_index far = rcm_farthest(work, levels, queue);
        levels = rcm_search(work, far, queue);
        if (levels.depth <= depth) {
            break;
        }
    }
    return levels.count;
}

static void rcm_reverse(kl_index *order, kl_index count)
{
    for (kl_index i = 0, j = count - 1; i < j; i++, j--) {
        const kl_index node = order[i];
        order[i] = order[j];
        order[j] = node;
    }
}

kl_status rcm_nodes(const sparse_graph *graph, kl_index *order)
{
    rcm_work work = {.graph = graph};
    const kl_status status = rcm_allocate(&work);
    if (status == KL_OK) {
        rcm_sort_nodes(&work);
        rcm_sort_neighbours(&work);
        kl_index done = 0;
        for (kl_index i = 0; i < graph->node_count; i++) {
            const kl_index start = work.by_degree[i];
            if (work.mark[start] == 0) {
                const kl_index count = rcm_component(&work, start, order + done);
                rcm_reverse(order + done, count);
                done += count;
            }
        }
    }
    rcm_free(&work);
    return status;
}
