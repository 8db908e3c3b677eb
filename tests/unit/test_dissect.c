/* test_dissect.c - nested dissection: distances against another way to get them, separators that separate, fill against the
 * bounds of theory, and which graphs it is for.
 * SPDX-License-Identifier: MIT */
#include "dissect.h"

#include <math.h>
#include <stdlib.h>

#include "assert_close.h"
#include "corner.h"
#include "fault.h"
#include "random.h"
#include "tree.h"

typedef enum shape {
    GRID,
    TUBE,   /* a grid whose first and last column are joined */
    BRACED, /* a grid with both diagonals in every field */
    GAPS,   /* a grid that lacks one bar in ten */
    HUB,    /* a grid, and a node joined to every seventh of its own */
    CUBE,   /* rows x rows x columns */
    FULL,   /* every node joined to every other */
    CHANCE, /* every node joined to three others at random */
} shape;

typedef struct pair_list {
    kl_index (*at)[2];
    int64_t count;
} pair_list;

static void join(pair_list *list, kl_index a, kl_index b)
{
    list->at[list->count][0] = a;
    list->at[list->count++][1] = b;
}

static void join_grid(pair_list *list, shape s, kl_index i, kl_index columns, random_source *source)
{
    const kl_index x = i % columns;
    const kl_index y = i / columns;
    if (x > 0 && (s != GAPS || random_index(source, 10) > 0)) {
        join(list, i, i - 1);
    }
    if (y > 0 && (s != GAPS || random_index(source, 10) > 0)) {
        join(list, i, i - columns);
    }
    if (s == BRACED && x > 0 && y > 0) {
        join(list, i, i - columns - 1);
        join(list, i - 1, i - columns);
    }
    if (s == TUBE && x + 1 == columns) {
        join(list, i, i - x);
    }
}

static void join_node(
    pair_list *list, shape s, kl_index i, kl_index rows, kl_index columns, random_source *source)
{
    const kl_index grid = rows * columns;
    switch (s) {
    case GRID:
    case TUBE:
    case BRACED:
    case GAPS:
        join_grid(list, s, i, columns, source);
        break;
    case HUB:
        if (i < grid) {
            join_grid(list, s, i, columns, source);
        }
        if (i < grid && i % 7 == 0) {
            join(list, i, grid);
        }
        break;
    case CUBE:
        join(list, i, i % rows > 0 ? i - 1 : i);
        join(list, i, i / rows % rows > 0 ? i - rows : i);
        join(list, i, i >= rows * rows ? i - rows * rows : i);
        break;
    case FULL:
        for (kl_index j = 0; j < i; j++) {
            join(list, i, j);
        }
        break;
    case CHANCE:
        for (int k = 0; k < 3; k++) {
            join(list, i, random_index(source, grid));
        }
        break;
    }
}

/* `copies` of a shape that do not touch, numbered at random. */
static sparse_graph *
make_shape(shape s, kl_index rows, kl_index columns, kl_index copies, random_source *source)
{
    const kl_index one = rows * columns * (s == CUBE ? rows : 1) + (s == HUB ? 1 : 0);
    const kl_index nodes = one * copies;
    pair_list list = {calloc((size_t)nodes * (s == FULL ? (size_t)one : 5), sizeof *list.at), 0};
    kl_index *number = calloc((size_t)nodes, sizeof *number);
    assert_true(list.at != NULL && number != NULL);
    for (kl_index copy = 0; copy < copies; copy++) {
        const int64_t before = list.count;
        for (kl_index i = 0; i < one; i++) {
            join_node(&list, s, i, rows, columns, source);
        }
        for (int64_t p = before; p < list.count; p++) {
            list.at[p][0] += copy * one;
            list.at[p][1] += copy * one;
        }
    }
    for (kl_index i = 0; i < nodes; i++) {
        const kl_index j = random_index(source, i + 1);
        number[i] = number[j];
        number[j] = i;
    }
    for (int64_t p = 0; p < list.count; p++) {
        list.at[p][0] = number[list.at[p][0]];
        list.at[p][1] = number[list.at[p][1]];
    }
    sparse_graph *graph = NULL;
    assert_int_equal(graph_create(nodes, (const kl_index(*)[2])list.at, list.count, &graph), KL_OK);
    free(list.at);
    free(number);
    return graph;
}

/* A graph with its core. */
typedef struct core_case {
    arena memory;
    sparse_graph *graph;
    chain_core chains;
    core_graph core;
} core_case;

static core_case open_case(sparse_graph *graph)
{
    core_case c = {.graph = graph};
    c.chains.order = calloc((size_t)graph->node_count + 1, sizeof(kl_index));
    assert_non_null(c.chains.order);
    assert_int_equal(chain_eliminate(graph, &c.memory, &c.chains), KL_OK);
    assert_int_equal(core_create(&c.chains, graph->node_count, &c.memory, &c.core), KL_OK);
    return c;
}

static void close_case(core_case *c)
{
    free(c->chains.order);
    graph_destroy(c->graph);
    arena_free(&c->memory);
}

/* Each list of the core is as long as the chains left it, without doubles, and each neighbour has the node in its own. */
static void core_create_is_a_graph_of_what_chains_leave(void **state)
{
    (void)state;
    random_source source = {11};
    for (int s = GRID; s <= CHANCE; s++) {
        core_case c = open_case(make_shape((shape)s, 9, 12, 2, &source));
        const core_graph *core = &c.core;
        assert_int_equal(core->count + c.chains.eliminated, c.graph->node_count);
        for (kl_index k = 0; k < core->count; k++) {
            assert_false(c.chains.nodes[core->node[k]].gone);
            assert_int_equal(core->first[k + 1] - core->first[k],
                             c.chains.nodes[core->node[k]].degree);
            for (kl_index i = core->first[k]; i < core->first[k + 1]; i++) {
                int back = 0;
                const kl_index other = core->neighbour[i];
                for (kl_index j = core->first[other]; j < core->first[other + 1]; j++) {
                    back += core->neighbour[j] == k ? 1 : 0;
                }
                assert_int_equal(back, 1);
            }
        }
        close_case(&c);
    }
}

/* Distances by relaxing every edge until nothing changes. */
static void relax(const core_graph *core, kl_index start, kl_index *distance)
{
    for (kl_index k = 0; k < core->count; k++) {
        distance[k] = k == start ? 0 : core->count;
    }
    for (bool changed = true; changed;) {
        changed = false;
        for (kl_index k = 0; k < core->count; k++) {
            for (kl_index i = core->first[k]; i < core->first[k + 1]; i++) {
                const kl_index way = distance[core->neighbour[i]] + 1;
                changed = changed || way < distance[k];
                distance[k] = way < distance[k] ? way : distance[k];
            }
        }
    }
}

static kl_index start_of(const core_graph *core, kl_index piece, const kl_index *distance)
{
    kl_index start = core->piece[piece];
    while (distance[start] != 0) {
        start++;
    }
    assert_true(start < core->piece[piece + 1]);
    return start;
}

static void corner_measure_distances_are_the_shortest_ways(void **state)
{
    (void)state;
    random_source source = {12};
    for (int s = GRID; s <= CHANCE; s++) {
        core_case c = open_case(make_shape((shape)s, 7, 19, 2, &source));
        const core_graph *core = &c.core;
        kl_index *expected = calloc((size_t)core->count + 1, sizeof *expected);
        corner_distances d;
        assert_int_equal(corner_create(core, &c.memory, &d), KL_OK);
        for (kl_index piece = 0; piece < core->pieces; piece++) {
            corner_measure(core, piece, &d);
            const kl_index *found[2] = {d.a, d.b};
            for (int side = 0; side < 2; side++) {
                relax(core, start_of(core, piece, found[side]), expected);
                for (kl_index k = core->piece[piece]; k < core->piece[piece + 1]; k++) {
                    assert_int_equal(found[side][k], expected[k]);
                }
            }
            assert_int_equal(d.apart, d.a[start_of(core, piece, d.b)]);
        }
        free(expected);
        close_case(&c);
    }
}

/* From the ends of the shorter side: as far apart as that side is long, and seen from each the far end of the longer one is
 * the farthest. (Elimination of chains has cut off the very corners, hence the ones and twos.) */
static void corner_measure_of_a_grid_starts_at_the_ends_of_the_shorter_side(void **state)
{
    (void)state;
    static const kl_index sides[][2] = {{8, 8}, {8, 30}, {30, 8}, {25, 26}, {40, 13}};
    random_source source = {13};
    for (size_t i = 0; i < sizeof sides / sizeof sides[0]; i++) {
        const kl_index rows = sides[i][0];
        const kl_index columns = sides[i][1];
        core_case c = open_case(make_shape(GRID, rows, columns, 1, &source));
        corner_distances d;
        assert_int_equal(corner_create(&c.core, &c.memory, &d), KL_OK);
        corner_measure(&c.core, 0, &d);
        kl_index reach = 0;
        for (kl_index k = 0; k < c.core.count; k++) {
            reach = d.b[k] > reach ? d.b[k] : reach;
        }
        assert_true(abs(d.apart - ((rows < columns ? rows : columns) - 1)) <= 2);
        assert_true(abs(reach - (rows + columns - 2)) <= 3);
        close_case(&c);
    }
}

/* The root of a node's set. */
static kl_index root_of(kl_index *set, kl_index k)
{
    while (set[k] != k) {
        set[k] = set[set[k]];
        k = set[k];
    }
    return k;
}

/* The largest connected part of what the order eliminates before place `end`. */
static kl_index largest_part(const core_graph *core, const kl_index *order, kl_index end)
{
    kl_index *set = malloc((size_t)core->count * sizeof *set);
    kl_index *size = calloc((size_t)core->count, sizeof *size);
    bool *taken = calloc((size_t)core->count, sizeof *taken);
    assert_true(set != NULL && size != NULL && taken != NULL);
    for (kl_index k = 0; k < core->count; k++) {
        set[k] = k;
    }
    kl_index largest = 0;
    for (kl_index place = 0; place < end; place++) {
        const kl_index k = order[place];
        taken[k] = true;
        size[k] = 1;
        for (kl_index i = core->first[k]; i < core->first[k + 1]; i++) {
            const kl_index other = core->neighbour[i];
            if (taken[other] && root_of(set, other) != root_of(set, k)) {
                size[root_of(set, k)] += size[root_of(set, other)];
                set[root_of(set, other)] = root_of(set, k);
            }
        }
        largest = size[root_of(set, k)] > largest ? size[root_of(set, k)] : largest;
    }
    free(set);
    free(size);
    free(taken);
    return largest;
}

/* With sqrt(2 n) nodes at the end of the order at most taken out, no part has more than seven in eight of the nodes. */
static void dissect_last_nodes_separate_what_is_before(void **state)
{
    (void)state;
    static const struct {
        shape s;
        kl_index rows, columns;
    } cases[] = {{GRID, 10, 10}, {GRID, 20, 45}, {GRID, 60, 60},
                 {GRID, 33, 90}, {TUBE, 60, 60}, {TUBE, 40, 80}};
    random_source source = {14};
    for (size_t i = 0; i < sizeof cases / sizeof cases[0]; i++) {
        core_case c =
            open_case(make_shape(cases[i].s, cases[i].rows, cases[i].columns, 1, &source));
        const kl_index nodes = c.core.count;
        kl_index *order = calloc((size_t)nodes, sizeof *order);
        bool fits = false;
        assert_int_equal(dissect(&c.core, &c.memory, order, &fits), KL_OK);
        assert_true(fits);
        const kl_index separator = (kl_index)sqrt(2.0 * nodes);
        assert_int_equal(largest_part(&c.core, order, nodes), nodes);
        assert_true(8 * largest_part(&c.core, order, nodes - separator) <= 7 * nodes);
        free(order);
        close_case(&c);
    }
}

/* George (1973) on n x n nodes: at most 31/4 n^2 log2 n entries and 829/84 n^3 multiplications when the matrix joins each
 * node to eight, and no order does with less than a share of it (Hoffman, Martin and Rose 1973). From memory. */
static void dissect_of_grids_stays_below_the_bounds_of_theory(void **state)
{
    (void)state;
    static const kl_index sides[] = {6, 10, 16, 30, 64, 100, 150};
    random_source source = {15};
    for (size_t i = 0; i < sizeof sides / sizeof sides[0]; i++) {
        core_case c = open_case(make_shape(GRID, sides[i], sides[i], 1, &source));
        bool fits = false;
        kl_index *rest = c.chains.order + c.chains.eliminated;
        assert_int_equal(dissect(&c.core, &c.memory, rest, &fits), KL_OK);
        assert_true(fits);
        for (kl_index k = 0; k < c.core.count; k++) {
            rest[k] = c.core.node[rest[k]];
        }
        elimination_tree tree;
        assert_int_equal(tree_create(c.graph, c.chains.order, &c.memory, &c.memory, &tree), KL_OK);
        double entries = 0.0;
        double products = 0.0;
        for (kl_index k = 0; k < tree.count; k++) {
            const double below = tree.column[k] - 1;
            entries += tree.column[k];
            products += below * (below + 3.0) / 2.0;
        }
        const double n = sides[i];
        assert_true(entries <= 31.0 / 4.0 * n * n * log2(n));
        assert_true(products <= 829.0 / 84.0 * n * n * n);
        close_case(&c);
    }
}

static bool fits(sparse_graph *graph)
{
    core_case c = open_case(graph);
    kl_index *order = calloc((size_t)c.core.count + 1, sizeof *order);
    bool *met = calloc((size_t)c.core.count + 1, sizeof *met);
    bool answer = false;
    assert_true(order != NULL && met != NULL);
    assert_int_equal(dissect(&c.core, &c.memory, order, &answer), KL_OK);
    for (kl_index k = 0; answer && k < c.core.count; k++) {
        assert_true(order[k] >= 0 && order[k] < c.core.count);
        assert_false(met[order[k]]);
        met[order[k]] = true;
    }
    free(order);
    free(met);
    close_case(&c);
    return answer;
}

static void dissect_takes_grids_and_leaves_the_rest(void **state)
{
    (void)state;
    random_source source = {16};
    assert_true(fits(make_shape(GRID, 10, 10, 1, &source)));
    assert_true(fits(make_shape(GRID, 80, 200, 1, &source)));
    assert_true(fits(make_shape(GRID, 12, 12, 9, &source))); /* pieces that do not touch */
    assert_true(fits(make_shape(TUBE, 40, 80, 1, &source)));
    assert_true(fits(make_shape(GRID, 1, 500, 1, &source))); /* nothing is left of a chain */

    assert_false(fits(make_shape(GRID, 6, 2000, 1, &source)));
    assert_false(fits(make_shape(BRACED, 40, 40, 1, &source)));
    assert_false(fits(make_shape(GAPS, 60, 60, 1, &source)));
    assert_false(fits(make_shape(HUB, 60, 60, 1, &source)));
    assert_false(fits(make_shape(CUBE, 12, 12, 1, &source)));
    assert_false(fits(make_shape(FULL, 1, 60, 1, &source)));
    assert_false(fits(make_shape(CHANCE, 40, 40, 1, &source)));
}

static void dissect_failing_memory_is_told(void **state)
{
    (void)state;
    random_source source = {17};
    core_case c = open_case(make_shape(GRID, 30, 30, 2, &source));
    kl_index *order = calloc((size_t)c.core.count, sizeof *order);
    kl_status status = KL_NO_MEMORY;
    for (long k = 0; status != KL_OK; k++) {
        assert_true(k < 50);
        arena a = {0};
        core_graph core;
        bool answer = true;
        fault_after(k);
        status = core_create(&c.chains, c.graph->node_count, &a, &core);
        if (status == KL_OK) {
            status = dissect(&core, &a, order, &answer);
        }
        fault_after(-1);
        assert_true(status == KL_OK || status == KL_NO_MEMORY);
        assert_true(status != KL_OK || answer);
        arena_free(&a);
    }
    free(order);
    close_case(&c);
}

int main(void)
{
    const struct CMUnitTest tests[] = {
        cmocka_unit_test(core_create_is_a_graph_of_what_chains_leave),
        cmocka_unit_test(corner_measure_distances_are_the_shortest_ways),
        cmocka_unit_test(corner_measure_of_a_grid_starts_at_the_ends_of_the_shorter_side),
        cmocka_unit_test(dissect_last_nodes_separate_what_is_before),
        cmocka_unit_test(dissect_of_grids_stays_below_the_bounds_of_theory),
        cmocka_unit_test(dissect_takes_grids_and_leaves_the_rest),
        cmocka_unit_test(dissect_failing_memory_is_told),
    };
    return cmocka_run_group_tests(tests, NULL, NULL);
}
