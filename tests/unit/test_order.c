/* test_order.c - orders of elimination: what they leave of trees, rings, ladders and grids against the fill that is known.
 * SPDX-License-Identifier: MIT */
#include "order.h"

#include <stdlib.h>
#include <string.h>

#include "assert_close.h"
#include "band_solver.h"
#include "fault.h"
#include "random.h"
#include "symbolic.h"

typedef enum pattern { PATH, RING, TREE, LADDER, STAR, COMB, WHEEL, GRID, PATTERN_COUNT } pattern;

enum { MOST_NODES = 20000 };

static kl_index pairs[4 * MOST_NODES][2];
static int64_t pair_count;

static void join(kl_index a, kl_index b)
{
    pairs[pair_count][0] = a;
    pairs[pair_count++][1] = b;
}

static void join_next(pattern p, kl_index i, kl_index nodes, kl_index side, random_source *source)
{
    switch (p) {
    case WHEEL:
        join(i, 0);
        join(i, i == 1 ? nodes - 1 : i - 1);
        break;
    case RING:
        join(i, i - 1);
        join(i, (i + 1) % nodes);
        break;
    case PATH:
        join(i - 1, i);
        break;
    case TREE:
        join(i, random_index(source, i));
        break;
    case LADDER:
        join(i, i % 2 == 1 ? i - 1 : i - 2);
        join(i, i >= 2 ? i - 2 : 0);
        break;
    case STAR:
        join(i, 0);
        break;
    case COMB:
        join(i, i - 1 - (i + 1) % 2);
        break;
    case GRID:
        join(i, i % side > 0 ? i - 1 : i);
        join(i, i >= side ? i - side : i);
        break;
    case PATTERN_COUNT:
        break;
    }
}

/* Nodes are numbered at random. */
static sparse_graph *make_pattern(pattern p, kl_index nodes, kl_index side, random_source *source)
{
    static kl_index number[MOST_NODES];
    pair_count = 0;
    for (kl_index i = 1; i < nodes; i++) {
        join_next(p, i, nodes, side, source);
    }
    for (kl_index i = 0; i < nodes; i++) {
        const kl_index j = random_index(source, i + 1);
        number[i] = number[j];
        number[j] = i;
    }
    for (int64_t i = 0; i < pair_count; i++) {
        pairs[i][0] = number[pairs[i][0]];
        pairs[i][1] = number[pairs[i][1]];
    }
    sparse_graph *graph = NULL;
    assert_int_equal(graph_create(nodes, (const kl_index(*)[2])pairs, pair_count, &graph), KL_OK);
    return graph;
}

/* Numbers the factor stores, in the order of order_nodes; which must be a permutation, and the same again. */
static int64_t entries_of(const sparse_graph *graph)
{
    const size_t nodes = (size_t)graph->node_count;
    kl_index *order = calloc(nodes + 1, sizeof *order);
    kl_index *again = calloc(nodes + 1, sizeof *again);
    assert_true(order != NULL && again != NULL);
    assert_int_equal(order_nodes(graph, order), KL_OK);
    assert_int_equal(order_nodes(graph, again), KL_OK);
    assert_memory_equal(order, again, nodes * sizeof *order);
    sparse_symbolic *symbolic = NULL;
    assert_int_equal(symbolic_create(graph, order, &symbolic),
                     KL_OK); /* refuses what is no permutation */
    const int64_t entries = symbolic_entries(symbolic);
    symbolic_destroy(symbolic);
    free(order);
    free(again);
    return entries;
}

/* A block of nine numbers on each diagonal, and below it one for a tree (nothing fills in), two for a ring or a ladder (a
 * graph that two neighbours at a time take apart); some lines of the cache where blocks are padded. */
static void order_nodes_line_like_graphs_fill_as_little_as_can_be(void **state)
{
    (void)state;
    static const struct {
        pattern p;
        int below;
    } rows[] = {{PATH, 1}, {TREE, 1}, {STAR, 1}, {COMB, 1}, {RING, 2}, {LADDER, 2}};
    random_source source = {4};
    for (size_t i = 0; i < sizeof rows / sizeof rows[0]; i++) {
        for (kl_index nodes = 1; nodes <= MOST_NODES; nodes = 3 * nodes + 1) {
            sparse_graph *graph = make_pattern(rows[i].p, nodes, 0, &source);
            assert_true(entries_of(graph) <= 9 * (1 + (int64_t)rows[i].below) * nodes + 300);
            graph_destroy(graph);
        }
    }
}

/* The rim of a wheel is a ring; its hub belongs to every row: three blocks below. */
static void order_nodes_wheel_keeps_its_hub_for_the_end(void **state)
{
    (void)state;
    random_source source = {40};
    sparse_graph *graph = make_pattern(WHEEL, 3000, 0, &source);
    /* 36 numbers a node, and what padding and joined supernodes add. Eliminated early, the hub joins all: 4e7. */
    assert_true(entries_of(graph) <= 75 * 3000);
    graph_destroy(graph);
}

/* Minimum degree against the narrowest band: far ahead from a hundred a side. */
static void order_nodes_of_grids_beats_the_band(void **state)
{
    (void)state;
    static const struct {
        kl_index side;
        double share;
    } rows[] = {{30, 0.8}, {60, 0.55}, {120, 0.4}};
    random_source source = {9};
    for (size_t i = 0; i < sizeof rows / sizeof rows[0]; i++) {
        sparse_graph *graph =
            make_pattern(GRID, rows[i].side * rows[i].side, rows[i].side, &source);
        band_solver *band = NULL;
        assert_int_equal(band_create(graph, &band), KL_OK);
        assert_true((double)entries_of(graph) < rows[i].share * (double)band_entries(band));
        band_destroy(band);
        graph_destroy(graph);
    }
}

static void order_nodes_failing_memory_frees_everything(void **state)
{
    (void)state;
    random_source source = {3};
    for (int p = 0; p < PATTERN_COUNT; p++) {
        sparse_graph *graph = make_pattern((pattern)p, 400, 20, &source);
        kl_index order[400];
        kl_status status = KL_NO_MEMORY;
        for (long k = 0; status != KL_OK; k++) {
            assert_true(k < 50);
            fault_after(k);
            status = order_nodes(graph, order);
            fault_after(-1);
            assert_true(status == KL_OK || status == KL_NO_MEMORY);
        }
        graph_destroy(graph);
    }
    sparse_graph *empty = NULL;
    assert_int_equal(graph_create(0, NULL, 0, &empty), KL_OK);
    assert_int_equal(order_nodes(empty, NULL), KL_OK);
    graph_destroy(empty);
}

int main(void)
{
    const struct CMUnitTest tests[] = {
        cmocka_unit_test(order_nodes_line_like_graphs_fill_as_little_as_can_be),
        cmocka_unit_test(order_nodes_wheel_keeps_its_hub_for_the_end),
        cmocka_unit_test(order_nodes_of_grids_beats_the_band),
        cmocka_unit_test(order_nodes_failing_memory_frees_everything),
    };
    return cmocka_run_group_tests(tests, NULL, NULL);
}
