/* node_system.c - see node_system.h.
 * SPDX-License-Identifier: MIT */
#include "node_system.h"

#include <stdlib.h>

#include "assert_close.h"
#include "order.h"
#include "symbolic.h"

#define NODE_SYSTEM_DENSE 1000

static double *node_system_zeros(size_t count)
{
    double *zeros = calloc(count > 0 ? count : 1, sizeof *zeros);
    assert_non_null(zeros);
    return zeros;
}

node_system node_system_make(kl_index nodes, kl_index (*pairs)[2], int64_t pair_count)
{
    node_system system = {0};
    const kl_index(*given)[2] = (const kl_index(*)[2])pairs;
    assert_int_equal(graph_create(nodes, given, pair_count, &system.graph), KL_OK);
    const size_t unknowns = 3 * (size_t)nodes;
    system.diag = node_system_zeros(9 * (size_t)nodes);
    system.off = node_system_zeros(9 * (size_t)system.graph->edge_count);
    system.dense = nodes <= NODE_SYSTEM_DENSE ? node_system_zeros(unknowns * unknowns) : NULL;
    return system;
}

void node_system_free(node_system *system)
{
    graph_destroy(system->graph);
    free(system->diag);
    free(system->off);
    free(system->dense);
    *system = (node_system){0};
}

/* Where the entry is kept; of an off-diagonal block the smaller node has the rows. */
static double *node_system_entry(node_system *system, kl_index a, int i, kl_index b, int j)
{
    if (a == b) {
        return &system->diag[9 * a + 3 * i + j];
    }
    const kl_index edge = graph_edge(system->graph, a, b);
    assert_int_not_equal(edge, KL_NONE);
    return &system->off[9 * edge + (a < b ? 3 * i + j : 3 * j + i)];
}

static double *node_system_dense_entry(node_system *system, kl_index a, int i, kl_index b, int j)
{
    const size_t unknowns = 3 * (size_t)system->graph->node_count;
    return &system->dense[3 * (size_t)a + (size_t)i + unknowns * (3 * (size_t)b + (size_t)j)];
}

void node_system_add(node_system *system, kl_index a, int i, kl_index b, int j, double value)
{
    const bool is_diagonal = a == b && i == j;
    *node_system_entry(system, a, i, b, j) += value;
    if (a == b && i != j) {
        *node_system_entry(system, a, j, b, i) += value;
    }
    if (system->dense != NULL) {
        *node_system_dense_entry(system, a, i, b, j) += value;
        if (!is_diagonal) {
            *node_system_dense_entry(system, b, j, a, i) += value;
        }
    }
}

static void node_system_clear(node_system *system, kl_index a, int i, kl_index b, int j)
{
    *node_system_entry(system, a, i, b, j) = 0.0;
    if (a == b) {
        *node_system_entry(system, a, j, b, i) = 0.0;
    }
    if (system->dense != NULL) {
        *node_system_dense_entry(system, a, i, b, j) = 0.0;
        *node_system_dense_entry(system, b, j, a, i) = 0.0;
    }
}

void node_system_hold(node_system *system, kl_index a, int i)
{
    const sparse_graph *graph = system->graph;
    for (int j = 0; j < 3; j++) {
        node_system_clear(system, a, i, a, j);
        for (kl_index k = graph->first[a]; k < graph->first[a + 1]; k++) {
            node_system_clear(system, a, i, graph->neighbour[k], j);
        }
    }
    node_system_add(system, a, i, a, i, 1.0);
}

/* B'B of an edge, 6x6: unknowns 0-2 at a, 3-5 at b. */
static void node_system_add_edge(node_system *system, kl_index a, kl_index b, random_source *source)
{
    double part[6][6];
    for (int k = 0; k < 36; k++) {
        part[k / 6][k % 6] = random_between(source, -1.0, 1.0);
    }
    for (int i = 0; i < 6; i++) {
        for (int j = 0; j <= i; j++) {
            double sum = 0.0;
            for (int k = 0; k < 6; k++) {
                sum += part[k][i] * part[k][j];
            }
            node_system_add(system, i < 3 ? a : b, i % 3, j < 3 ? a : b, j % 3, sum);
        }
    }
}

void node_system_fill(node_system *system, double ground, random_source *source)
{
    const sparse_graph *graph = system->graph;
    for (kl_index a = 0; a < graph->node_count; a++) {
        for (kl_index k = graph->first[a]; k < graph->first[a + 1]; k++) {
            if (a < graph->neighbour[k]) {
                node_system_add_edge(system, a, graph->neighbour[k], source);
            }
        }
        for (int i = 0; i < 3; i++) {
            node_system_add(system, a, i, a, i, ground);
        }
    }
}

enum { MOST_PAIRS = 4000 };

typedef struct shape_pairs {
    kl_index nodes;
    kl_index count;
    kl_index pair[MOST_PAIRS][2];
} shape_pairs;

static void join(shape_pairs *p, kl_index a, kl_index b)
{
    assert_true(p->count < MOST_PAIRS);
    p->pair[p->count][0] = a;
    p->pair[p->count++][1] = b;
}

static void join_by_shape(shape_pairs *p, node_shape s, kl_index i, random_source *source)
{
    switch (s) {
    case SHAPE_CHAIN:
    case SHAPE_RING:
        join(p, i - 1, i);
        break;
    case SHAPE_TREE:
        join(p, random_index(source, i), i);
        break;
    case SHAPE_GRID: /* 12 wide */
        if (i % 12 != 0) {
            join(p, i, i - 1);
        }
        if (i >= 12) {
            join(p, i - 12, i);
        }
        break;
    case SHAPE_FULL:
        for (kl_index j = 0; j < i; j++) {
            join(p, j, i);
        }
        break;
    case SHAPE_APART: /* three trees */
        if (i >= 3) {
            join(p, i % 3 + 3 * random_index(source, i / 3), i);
        }
        break;
    case SHAPE_DOUBLES:
        join(p, i, i - 1);
        join(p, i - 1, i);
        join(p, i, i);
        break;
    case SHAPE_WHEEL: /* the ring is closed from its first node */
        join(p, i, i == 1 ? p->nodes - 1 : i - 1);
        join(p, 0, i);
        break;
    case SHAPE_STAR:
        join(p, i, 0);
        break;
    case SHAPE_CATERPILLAR:
        join(p, i % 3 == 0 ? i - 3 : i - i % 3, i);
        break;
    case SHAPE_CLIQUES: /* from node 0, 37 and 74 on, 45 nodes each */
        for (kl_index j = i < 45 ? 0 : i < 82 ? 37 : 74; j < i; j++) {
            join(p, i, j);
        }
        break;
    case SHAPE_RANDOM:
        for (kl_index k = random_index(source, 4); k > 0; k--) {
            join(p, random_index(source, p->nodes), random_index(source, p->nodes));
        }
        break;
    case SHAPE_LOOSE: /* no edge at all */
    case SHAPE_ONE:
    case SHAPE_COUNT:
        break;
    }
}

node_system node_system_of_shape(node_shape s, random_source *source)
{
    static const kl_index nodes[SHAPE_COUNT] = {
        [SHAPE_ONE] = 1,       [SHAPE_CHAIN] = 90,  [SHAPE_RING] = 60,  [SHAPE_TREE] = 120,
        [SHAPE_GRID] = 144,    [SHAPE_FULL] = 40,   [SHAPE_APART] = 75, [SHAPE_DOUBLES] = 50,
        [SHAPE_LOOSE] = 30,    [SHAPE_STAR] = 70,   [SHAPE_WHEEL] = 80, [SHAPE_CATERPILLAR] = 90,
        [SHAPE_CLIQUES] = 119, [SHAPE_RANDOM] = 100};
    static shape_pairs p;
    p = (shape_pairs){.nodes = nodes[s]};
    for (kl_index i = 1; i < p.nodes; i++) {
        join_by_shape(&p, s, i, source);
    }
    if (s == SHAPE_RING) {
        join(&p, p.nodes - 1, 0);
    }
    return node_system_make(p.nodes, p.pair, p.count);
}

node_system node_system_of_grid(kl_index side, double ground, random_source *source)
{
    kl_index(*pairs)[2] = calloc(2 * (size_t)side * (size_t)side, sizeof *pairs);
    assert_non_null(pairs);
    int64_t count = 0;
    for (kl_index i = 0; i < side * side; i++) {
        if (i % side != 0) {
            pairs[count][0] = i - 1;
            pairs[count++][1] = i;
        }
        if (i >= side) {
            pairs[count][0] = i;
            pairs[count++][1] = i - side;
        }
    }
    node_system system = node_system_make(side * side, pairs, count);
    node_system_fill(&system, ground, source);
    free(pairs);
    return system;
}

void node_solver_free(node_solver *s)
{
    factor_destroy(s->factor);
    symbolic_destroy(s->symbolic);
    *s = (node_solver){0};
}

kl_status node_solver_make(const node_system *system, const kl_index *order, node_solver *s)
{
    return node_solver_make_for(system, order, 1, s);
}

kl_status
node_solver_make_for(const node_system *system, const kl_index *order, int threads, node_solver *s)
{
    *s = (node_solver){0};
    kl_index *own = NULL;
    kl_status status = KL_OK;
    if (order == NULL) {
        own = calloc((size_t)system->graph->node_count + 1, sizeof *own);
        status = own != NULL ? order_nodes(system->graph, own) : KL_NO_MEMORY;
    }
    if (status == KL_OK) {
        status = symbolic_create(system->graph, order != NULL ? order : own, &s->symbolic);
    }
    if (status == KL_OK) {
        status = factor_create(s->symbolic, threads, &s->factor);
    }
    free(own);
    return status;
}

kl_status node_solver_run(const node_system *system, double suspect_limit, node_solver *s)
{
    return factor_compute(s->factor, system->diag, system->off, suspect_limit, &s->report);
}

const sparse_passes *node_solver_passes(int i)
{
    const sparse_passes *const all[] = {passes_plain(), passes_avx2(), passes_avx512()};
    const bool runs = i < 3 && all[i] != NULL && all[i]->lanes <= passes_for_machine()->lanes;
    return runs ? all[i] : NULL;
}

double *node_system_columns(const node_system *system, kl_index columns, random_source *source)
{
    const size_t count = 3 * (size_t)system->graph->node_count * (size_t)columns;
    double *x = calloc(count + 1, sizeof *x);
    assert_non_null(x);
    for (size_t i = 0; i < count; i++) {
        x[i] = random_between(source, -1.0, 1.0);
    }
    return x;
}
