/* node_system.h - systems of 3x3 node blocks for tests: built from pairs of nodes, kept in the solver's arrays and
 * as a dense matrix beside them.
 * SPDX-License-Identifier: MIT */
#ifndef KERNLINE_NODE_SYSTEM_H
#define KERNLINE_NODE_SYSTEM_H

#include "factor.h"
#include "numeric.h"
#include "random.h"

typedef struct node_system {
    sparse_graph *graph;
    double *diag;  /* 9 a node */
    double *off;   /* 9 an edge */
    double *dense; /* (3 nodes)^2, column-major, both triangles; NULL when too large to be wanted */
} node_system;

/* All values zero. `pairs` may hold loops and doubles. The dense matrix is kept up to 1000 nodes. */
node_system node_system_make(kl_index nodes, kl_index (*pairs)[2], int64_t pair_count);
void node_system_free(node_system *system);

/* Add to one entry, and to its mirror image: unknown (a, i) against unknown (b, j). The pair must be joined. */
void node_system_add(node_system *system, kl_index a, int i, kl_index b, int j, double value);
/* Hold an unknown: its row and column become those of the identity. */
void node_system_hold(node_system *system, kl_index a, int i);
/* Fill as a frame does: each edge adds B'B with a random 6x6 B; each diagonal gets `ground` more. Positive
 * definite when ground > 0. */
void node_system_fill(node_system *system, double ground, random_source *source);

/* The shapes of structures the tests go through. */
typedef enum node_shape {
    SHAPE_ONE, /* a single node */
    SHAPE_CHAIN,
    SHAPE_RING,
    SHAPE_TREE,        /* random */
    SHAPE_GRID,        /* twelve wide */
    SHAPE_FULL,        /* each node joined to each */
    SHAPE_APART,       /* three trees */
    SHAPE_DOUBLES,     /* a chain with double pairs and loops */
    SHAPE_LOOSE,       /* nodes without an edge */
    SHAPE_STAR,        /* all hang on node 0 */
    SHAPE_WHEEL,       /* the same, and a ring around */
    SHAPE_CATERPILLAR, /* a chain with two leaves at every node */
    SHAPE_CLIQUES,     /* three full parts that share a few nodes: wide fronts with rows below */
    SHAPE_RANDOM,      /* any pairs, loops and doubles among them; some nodes may stand alone */
    SHAPE_COUNT
} node_shape;

/* A system of 1 to 144 nodes, all values zero. */
node_system node_system_of_shape(node_shape shape, random_source *source);

/* side x side nodes, each joined to the next in its row and column; filled. */
node_system node_system_of_grid(kl_index side, double ground, random_source *source);

/* `columns` columns of numbers between -1 and 1; free them. */
double *node_system_columns(const node_system *system, kl_index columns, random_source *source);

/* Everything between a system and its answers. */
typedef struct node_solver {
    sparse_symbolic *symbolic;
    sparse_factor *factor;
    factor_report report;
} node_solver;

/* Make the workspaces. `order` NULL: that of order_nodes. */
kl_status node_solver_make(const node_system *system, const kl_index *order, node_solver *solver);
kl_status node_solver_make_for(const node_system *system,
                               const kl_index *order,
                               int threads,
                               node_solver *solver);
kl_status node_solver_run(const node_system *system, double suspect_limit, node_solver *solver);
void node_solver_free(node_solver *solver);

/* The inner loops are compiled for several vectors: number i of those that this machine can run, NULL beyond the last. To be
 * put into a factor. */
const sparse_passes *node_solver_passes(int i);

#endif
