/* rivals.c - see rivals.h: the list, our own solver, and reverse Cuthill-McKee with LAPACK's band factor.
 * SPDX-License-Identifier: MIT */
#include "rivals.h"

#include <stdio.h>
#include <stdlib.h>
#include <string.h>

#include "band_solver.h"
#include "order.h"
#include "rival_cholmod.h"
#include "solve.h"
#include "supernode.h"

void rivals_insist(bool good, const char *what)
{
    if (!good) {
        fprintf(stderr, "bench: %s failed\n", what);
        exit(1);
    }
}

/* ---- ours -------------------------------------------------------------------------------------------------- */

typedef struct own_state {
    const sparse_graph *graph;
    kl_index *order;
    sparse_symbolic *symbolic;
    sparse_factor *factor;
} own_state;

static void own_analyze(rival *r, const frame_matrix *m)
{
    own_state *own = calloc(1, sizeof *own);
    rivals_insist(own != NULL, "memory");
    own->graph = m->graph;
    own->order = malloc((size_t)m->graph->node_count * sizeof(kl_index));
    rivals_insist(own->order && order_nodes(m->graph, own->order) == KL_OK, "ordering");
    rivals_insist(symbolic_create(m->graph, own->order, &own->symbolic) == KL_OK,
                  "symbolic analysis");
    rivals_insist(factor_create(own->symbolic, r->threads, &own->factor) == KL_OK, "memory");
    r->state = own;
}

static void own_factor(rival *r, const frame_matrix *m)
{
    own_state *own = r->state;
    factor_report report;
    rivals_insist(factor_compute(own->factor, m->diag, m->off, 1e-14, &report) == KL_OK &&
                      report.complete,
                  "factorization");
}

static const double *own_solve(rival *r, const double *b, double *x, int columns)
{
    own_state *own = r->state;
    rivals_insist(solve_columns_apart(own->factor, b, columns, x) == KL_OK, "solution");
    return x;
}

/* Column j of a front's pivots has length - j numbers, the diagonal included. */
static rival_cost own_cost(const rival *r)
{
    const own_state *own = r->state;
    rival_cost cost = {.entries = (double)symbolic_entries(own->symbolic)};
    for (kl_index i = 0; i < own->symbolic->count; i++) {
        const supernode *s = &own->symbolic->supernodes[i];
        const int64_t length = 3 * ((int64_t)s->width + s->rows);
        for (int64_t j = 0; j < 3 * (int64_t)s->width; j++) {
            cost.operations += (double)((length - j) * (length - j));
        }
    }
    return cost;
}

static void own_release(rival *r)
{
    own_state *own = r->state;
    factor_destroy(own->factor);
    symbolic_destroy(own->symbolic);
    free(own->order);
    free(own);
}

/* ---- band -------------------------------------------------------------------------------------------------- */

typedef struct band_state {
    band_solver *solver;
    size_t unknowns;
} band_state;

static void band_analyze(rival *r, const frame_matrix *m)
{
    band_state *band = calloc(1, sizeof *band);
    rivals_insist(band && band_create(m->graph, &band->solver) == KL_OK, "band analysis");
    band->unknowns = 3 * (size_t)m->graph->node_count;
    r->state = band;
}

static void band_numeric(rival *r, const frame_matrix *m)
{
    band_state *band = r->state;
    rivals_insist(band_factor(band->solver, m->diag, m->off) == KL_OK, "band factorization");
}

static const double *band_columns(rival *r, const double *b, double *x, int columns)
{
    band_state *band = r->state;
    memcpy(x, b, band->unknowns * (size_t)columns * sizeof *x);
    band_solve(band->solver, x, columns);
    return x;
}

/* The frames hang together: one band, all of whose columns are of one length. */
static rival_cost band_cost(const rival *r)
{
    const band_state *band = r->state;
    const double entries = (double)band_entries(band->solver);
    return (rival_cost){.operations = entries * entries / (double)band->unknowns,
                        .entries = entries};
}

static void band_release(rival *r)
{
    band_state *band = r->state;
    band_destroy(band->solver);
    free(band);
}

/* ---- the list ---------------------------------------------------------------------------------------------- */

#define OWN(name, threads)                                                                         \
    {                                                                                              \
        name, RIVAL_OWN, threads, 0, NULL, own_analyze, own_factor, own_solve, own_cost,           \
            own_release                                                                            \
    }
#define CHOLMOD(name, threads, method)                                                             \
    {                                                                                              \
        name, RIVAL_CHOLMOD, threads, method, NULL, rival_cholmod_analyze, rival_cholmod_factor,   \
            rival_cholmod_solve, rival_cholmod_cost, rival_cholmod_release                         \
    }
#define BAND(name)                                                                                 \
    {                                                                                              \
        name, RIVAL_BAND, 1, 0, NULL, band_analyze, band_numeric, band_columns, band_cost,         \
            band_release                                                                           \
    }

static rival rivals[] = {
    OWN("kernline", 1),
    OWN("kernline, two threads", 2),
    CHOLMOD("simplicial, AMD", 1, RIVAL_BY_AMD),
    CHOLMOD("simplicial, nodes", 1, RIVAL_BY_NODES),
    CHOLMOD("simplicial, METIS", 1, RIVAL_BY_METIS),
    CHOLMOD("supernodal, AMD", 1, RIVAL_IN_SUPERNODES + RIVAL_BY_AMD),
    CHOLMOD("supernodal, nodes", 1, RIVAL_IN_SUPERNODES + RIVAL_BY_NODES),
    CHOLMOD("supernodal, METIS", 1, RIVAL_IN_SUPERNODES + RIVAL_BY_METIS),
    CHOLMOD("supernodal, AMD, packaged", 0, RIVAL_IN_SUPERNODES + RIVAL_BY_AMD),
    CHOLMOD("supernodal, nodes, packaged", 0, RIVAL_IN_SUPERNODES + RIVAL_BY_NODES),
    BAND("band"),
};

void rivals_open(const frame_matrix *matrix)
{
    rival_cholmod_open(matrix);
}

void rivals_close(void)
{
    rival_cholmod_close();
}

rival *rivals_list(int *count)
{
    *count = (int)(sizeof rivals / sizeof rivals[0]);
    return rivals;
}
