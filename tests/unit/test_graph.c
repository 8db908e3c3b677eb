/* test_graph.c - the graph of nodes against an adjacency table, its product against a dense one, and the
 * band solver's orders against the band widths that are known for paths, grids and trees.
 * SPDX-License-Identifier: MIT */
#include "graph.h"

#include <stdlib.h>
#include <string.h>

#include "assert_close.h"
#include "fault.h"
#include "random.h"
#include "rcm.h"

enum { MOST_NODES = 40, MOST_PAIRS = 200 };

typedef struct pair_list {
    kl_index nodes;
    kl_index count;
    kl_index pair[MOST_PAIRS][2];
    bool joined[MOST_NODES][MOST_NODES];
} pair_list;

/* Loops and doubles included, in both directions. */
static void make_pairs(pair_list *list, random_source *source)
{
    memset(list, 0, sizeof *list);
    list->nodes = 1 + random_index(source, MOST_NODES);
    list->count = random_index(source, MOST_PAIRS);
    for (kl_index i = 0; i < list->count; i++) {
        const kl_index a = random_index(source, list->nodes);
        const kl_index b = random_index(source, list->nodes);
        list->pair[i][0] = a;
        list->pair[i][1] = b;
        list->joined[a][b] = list->joined[b][a] = a != b;
    }
}

static const kl_index (*constant_pairs(pair_list *list))[2]
{
    return (const kl_index(*)[2])list->pair;
}

static void check_against_table(const sparse_graph *graph, const pair_list *list)
{
    kl_index edge = 0;
    for (kl_index a = 0; a < list->nodes; a++) {
        kl_index at = graph->first[a];
        for (kl_index b = 0; b < list->nodes; b++) {
            if (!list->joined[a][b]) {
                assert_int_equal(graph_edge(graph, a, b), KL_NONE);
                continue;
            }
            assert_int_equal(graph->neighbour[at], b);
            assert_int_equal(graph->edge_of[at], graph_edge(graph, a, b));
            assert_int_equal(graph_edge(graph, a, b), graph_edge(graph, b, a));
            at++;
            if (a < b) {
                assert_int_equal(graph_edge(graph, a, b), edge); /* by (a, b) ascending */
                edge++;
            }
        }
        assert_int_equal(at, graph->first[a + 1]);
    }
    assert_int_equal(graph->edge_count, edge);
}

static void graph_create_random_pairs_give_the_table(void **state)
{
    (void)state;
    random_source source = {11};
    for (int round = 0; round < 200; round++) {
        pair_list list;
        make_pairs(&list, &source);
        sparse_graph *graph = NULL;
        assert_int_equal(graph_create(list.nodes, constant_pairs(&list), list.count, &graph),
                         KL_OK);
        check_against_table(graph, &list);
        graph_destroy(graph);
    }
}

static void graph_create_wrong_calls_are_refused(void **state)
{
    (void)state;
    const kl_index beyond[1][2] = {{0, 3}};
    const kl_index negative[1][2] = {{-1, 2}};
    sparse_graph *graph = NULL;
    assert_int_equal(graph_create(3, beyond, 1, &graph), KL_MISUSE);
    assert_int_equal(graph_create(3, negative, 1, &graph), KL_MISUSE);
    assert_int_equal(graph_create(-1, NULL, 0, &graph), KL_MISUSE);
    assert_int_equal(graph_create(INT32_MAX, NULL, 0, &graph), KL_TOO_LARGE);
    assert_int_equal(graph_create(3, beyond, INT64_MAX, &graph), KL_TOO_LARGE);
    assert_null(graph);
    graph_destroy(NULL);
    assert_int_equal(graph_create(0, NULL, 0, &graph), KL_OK);
    assert_int_equal(graph_edge(graph, 0, 0), KL_NONE);
    assert_int_equal(rcm_nodes(graph, NULL), KL_OK);
    graph_destroy(graph);
}

static double random_value(random_source *source)
{
    return random_between(source, -1.0, 1.0);
}

static void graph_multiply_random_blocks_give_the_dense_product(void **state)
{
    (void)state;
    random_source source = {23};
    enum { SIZE = 3 * MOST_NODES, COLUMNS = 3 };
    static double dense[SIZE][SIZE], diag[9 * MOST_NODES], off[9 * MOST_PAIRS];
    static double x[COLUMNS * SIZE], y[COLUMNS * SIZE];
    for (int round = 0; round < 50; round++) {
        pair_list list;
        make_pairs(&list, &source);
        sparse_graph *graph = NULL;
        assert_int_equal(graph_create(list.nodes, constant_pairs(&list), list.count, &graph),
                         KL_OK);
        const kl_index size = 3 * list.nodes;
        memset(dense, 0, sizeof dense);
        for (kl_index n = 0; n < list.nodes; n++) {
            for (int i = 0; i < 9; i++) {
                diag[9 * n + i] = random_value(&source);
                dense[3 * n + i / 3][3 * n + i % 3] = diag[9 * n + i];
            }
        }
        for (kl_index a = 0; a < list.nodes; a++) {
            for (kl_index b = a + 1; b < list.nodes; b++) {
                const kl_index edge = graph_edge(graph, a, b);
                for (int i = 0; edge != KL_NONE && i < 9; i++) {
                    off[9 * edge + i] = random_value(&source);
                    dense[3 * a + i / 3][3 * b + i % 3] = off[9 * edge + i];
                    dense[3 * b + i % 3][3 * a + i / 3] = off[9 * edge + i];
                }
            }
        }
        for (kl_index i = 0; i < COLUMNS * size; i++) {
            x[i] = random_value(&source);
        }
        graph_multiply(graph, diag, off, x, y, COLUMNS);
        for (kl_index i = 0; i < COLUMNS * size; i++) {
            double sum = 0.0;
            for (kl_index j = 0; j < size; j++) {
                sum += dense[i % size][j] * x[i / size * size + j];
            }
            assert_close(y[i], sum, 0.0, 1e-13);
        }
        graph_destroy(graph);
    }
}

/* A numbering of nodes drawn at random, so that an order cannot profit from the given one. */
static kl_index *shuffled(kl_index nodes, random_source *source)
{
    kl_index *number = calloc((size_t)nodes, sizeof *number);
    assert_non_null(number);
    for (kl_index i = 0; i < nodes; i++) {
        const kl_index j = random_index(source, i + 1);
        number[i] = number[j];
        number[j] = i;
    }
    return number;
}

/* The band width of an order in nodes; it must be a permutation. */
static kl_index band_of(const sparse_graph *graph, const kl_index *order)
{
    kl_index *place = malloc((size_t)graph->node_count * sizeof *place);
    assert_non_null(place);
    for (kl_index i = 0; i < graph->node_count; i++) {
        place[i] = KL_NONE;
    }
    for (kl_index k = 0; k < graph->node_count; k++) {
        assert_true(order[k] >= 0 && order[k] < graph->node_count);
        assert_int_equal(place[order[k]], KL_NONE);
        place[order[k]] = k;
    }
    kl_index band = 0;
    for (kl_index a = 0; a < graph->node_count; a++) {
        for (kl_index i = graph->first[a]; i < graph->first[a + 1]; i++) {
            const kl_index gap = abs(place[a] - place[graph->neighbour[i]]);
            band = gap > band ? gap : band;
        }
    }
    free(place);
    return band;
}

/* A grid of rows x columns; rows 1 is a path. `copies` of it stand side by side without touching. */
static sparse_graph *make_grid(kl_index rows, kl_index columns, kl_index copies, uint64_t seed)
{
    random_source source = {seed};
    const kl_index nodes = rows * columns * copies;
    kl_index *number = shuffled(nodes, &source);
    kl_index(*pairs)[2] = calloc(2 * (size_t)nodes, sizeof *pairs);
    assert_non_null(pairs);
    int64_t count = 0;
    for (kl_index n = 0; n < nodes; n++) {
        if (n % columns + 1 < columns) {
            pairs[count][0] = number[n];
            pairs[count++][1] = number[n + 1];
        }
        if (n / columns % rows + 1 < rows) {
            pairs[count][0] = number[n + columns];
            pairs[count++][1] = number[n];
        }
    }
    sparse_graph *graph = NULL;
    assert_int_equal(graph_create(nodes, (const kl_index(*)[2])pairs, count, &graph), KL_OK);
    free(number);
    free(pairs);
    return graph;
}

static void rcm_nodes_shuffled_grids_get_their_known_band(void **state)
{
    (void)state;
    /* No order of an m x n grid, m <= n, has a band below m (Chvatalova 1975); levels from a corner give m,
     * and one more where a level is met from both ends. */
    static const kl_index cases[][3] = {{1, 1, 1},    {1, 2, 1},   {1, 50, 1},
                                        {1, 2000, 3}, {2, 200, 1}, {5, 60, 2},
                                        {30, 30, 1},  {12, 40, 4}, {1, 1, 25}};
    for (size_t i = 0; i < sizeof cases / sizeof cases[0]; i++) {
        const kl_index rows = cases[i][0];
        sparse_graph *graph = make_grid(rows, cases[i][1], cases[i][2], 100 + i);
        kl_index *order = calloc((size_t)graph->node_count, sizeof *order);
        assert_int_equal(rcm_nodes(graph, order), KL_OK);
        const kl_index band = band_of(graph, order);
        assert_true(band <= (rows == 1 ? 1 : rows + 1));
        free(order);
        graph_destroy(graph);
    }
}

static void rcm_nodes_star_and_comb_are_fast_and_repeatable(void **state)
{
    (void)state;
    enum { LEAVES = 300000 };
    kl_index(*pairs)[2] = calloc(LEAVES, sizeof *pairs);
    kl_index *order = calloc(LEAVES + 1, sizeof *order);
    kl_index *again = calloc(LEAVES + 1, sizeof *again);
    assert_true(pairs != NULL && order != NULL && again != NULL);
    for (int comb = 0; comb < 2; comb++) {
        for (kl_index i = 0; i < LEAVES; i++) {
            pairs[i][0] = comb == 0 ? 0 : i - i % 2; /* comb: 0-1, 0-2, 2-3, 2-4, … */
            pairs[i][1] = i + 1;
        }
        sparse_graph *graph = NULL;
        const kl_index(*given)[2] = (const kl_index(*)[2])pairs;
        assert_int_equal(graph_create(LEAVES + 1, given, LEAVES, &graph), KL_OK);
        assert_int_equal(rcm_nodes(graph, order), KL_OK);
        assert_int_equal(rcm_nodes(graph, again), KL_OK);
        assert_memory_equal(order, again, (LEAVES + 1) * sizeof *order);
        const kl_index band = band_of(graph, order);
        if (comb == 0) {
            assert_true(band >=
                        LEAVES / 2); /* the centre of a star has half its leaves on one side */
        } else {
            assert_true(band <= 2);
        }
        graph_destroy(graph);
    }
    free(pairs);
    free(order);
    free(again);
}

static void graph_and_rcm_failing_memory_frees_everything(void **state)
{
    (void)state;
    random_source source = {5};
    pair_list list;
    make_pairs(&list, &source);
    kl_index order[MOST_NODES];
    kl_status status = KL_NO_MEMORY;
    for (long k = 0; status != KL_OK; k++) {
        assert_true(k < 50);
        sparse_graph *graph = NULL;
        fault_after(k);
        status = graph_create(list.nodes, constant_pairs(&list), list.count, &graph);
        if (status == KL_OK) {
            status = rcm_nodes(graph, order);
        } else {
            assert_null(graph);
        }
        fault_after(-1);
        assert_true(status == KL_OK || status == KL_NO_MEMORY);
        graph_destroy(graph);
    }
}

int main(void)
{
    const struct CMUnitTest tests[] = {
        cmocka_unit_test(graph_create_random_pairs_give_the_table),
        cmocka_unit_test(graph_create_wrong_calls_are_refused),
        cmocka_unit_test(graph_multiply_random_blocks_give_the_dense_product),
        cmocka_unit_test(rcm_nodes_shuffled_grids_get_their_known_band),
        cmocka_unit_test(rcm_nodes_star_and_comb_are_fast_and_repeatable),
        cmocka_unit_test(graph_and_rcm_failing_memory_frees_everything),
    };
    return cmocka_run_group_tests(tests, NULL, NULL);
}
