/* rivals.c - see rivals.h: our own solver, CHOLMOD in seven configurations, reverse Cuthill-McKee with LAPACK's band factor.
 *
 * The packaged CHOLMOD opens an OpenMP region in every supernode, which costs it more than the region's work on matrices
 * like these. GOMP_parallel below stands before the library's own and runs the region at once, so that CHOLMOD is at its
 * best; a `packaged` rival goes through to the real one.
 * SPDX-License-Identifier: MIT */
#define _GNU_SOURCE /* RTLD_NEXT */
#include "rivals.h"

#include <dlfcn.h>
#include <stdio.h>
#include <stdlib.h>
#include <string.h>

#include <suitesparse/amd.h>
#include <suitesparse/cholmod.h>

#include "band_solver.h"
#include "order.h"
#include "solve.h"

static bool packaged;

typedef void gomp_parallel(void (*run)(void *), void *data, unsigned threads, unsigned flags);
gomp_parallel GOMP_parallel;

void GOMP_parallel(void (*run)(void *), void *data, unsigned threads, unsigned flags)
{
    static gomp_parallel *real;
    if (!packaged) {
        run(data);
        return;
    }
    if (!real) {
        void *found = dlsym(RTLD_NEXT, "GOMP_parallel");
        memcpy(&real, &found, sizeof real);
    }
    real(run, data, threads, flags);
}

static void insist(bool good, const char *what)
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
    insist(own != NULL, "memory");
    own->graph = m->graph;
    own->order = malloc((size_t)m->graph->node_count * sizeof(kl_index));
    insist(own->order && order_nodes(m->graph, own->order) == KL_OK, "ordering");
    insist(symbolic_create(m->graph, own->order, &own->symbolic) == KL_OK, "symbolic analysis");
    insist(factor_create(own->symbolic, &own->factor) == KL_OK, "memory");
    r->state = own;
}

static void own_factor(rival *r, const frame_matrix *m)
{
    own_state *own = r->state;
    factor_report report;
    insist(factor_compute(own->factor, m->diag, m->off, 1e-14, &report) == KL_OK && report.complete,
           "factorization");
}

static const double *own_solve(rival *r, const double *b, double *x, int columns)
{
    own_state *own = r->state;
    insist(solve_columns_apart(own->factor, b, columns, x) == KL_OK, "solution");
    return x;
}

static void own_release(rival *r)
{
    own_state *own = r->state;
    factor_destroy(own->factor);
    symbolic_destroy(own->symbolic);
    free(own->order);
    free(own);
}

static double own_megabytes(const rival *r)
{
    const own_state *own = r->state;
    return 8e-6 * (double)(symbolic_entries(own->symbolic) + symbolic_work(own->symbolic));
}

/* ---- CHOLMOD ----------------------------------------------------------------------------------------------- */

enum { METHOD_SUPERNODAL = 8, METHOD_AMD = 1, METHOD_METIS = 2, METHOD_GIVEN = 3 };

static cholmod_sparse *common_matrix; /* lower triangle; the same for all configurations */
static cholmod_common keeper;         /* of the matrix */
static int *given;                    /* room for an order, unknown by unknown */

/* Rows of one column of the lower triangle: the rest of the node's own block, then neighbours with larger numbers. */
static void put_column(const frame_matrix *m, kl_index node, int d, int *at)
{
    int *row = common_matrix->i;
    double *value = common_matrix->x;
    for (int i = d; i < 3; i++) {
        row[*at] = 3 * node + i;
        value[(*at)++] = m->diag[9 * (size_t)node + 3 * (size_t)i + (size_t)d];
    }
    for (kl_index k = m->graph->first[node]; k < m->graph->first[node + 1]; k++) {
        const kl_index other = m->graph->neighbour[k];
        for (int i = 0; other > node && i < 3; i++) {
            row[*at] = 3 * other + i;
            /* The block has the smaller node's rows. */
            value[(*at)++] = m->off[9 * (size_t)m->graph->edge_of[k] + 3 * (size_t)d + (size_t)i];
        }
    }
}

void rivals_open(const frame_matrix *m)
{
    const kl_index nodes = m->graph->node_count;
    cholmod_start(&keeper);
    const size_t entries = 6 * (size_t)nodes + 9 * (size_t)m->graph->edge_count;
    common_matrix = cholmod_allocate_sparse(3 * (size_t)nodes, 3 * (size_t)nodes, entries, 1, 1, -1,
                                            CHOLMOD_REAL, &keeper);
    given = malloc(3 * (size_t)nodes * sizeof *given);
    insist(common_matrix && given, "memory");
    int at = 0;
    int *first = common_matrix->p;
    for (kl_index j = 0; j < 3 * nodes; j++) {
        first[j] = at;
        put_column(m, j / 3, j % 3, &at);
    }
    first[3 * nodes] = at;
}

void rivals_close(void)
{
    cholmod_free_sparse(&common_matrix, &keeper);
    cholmod_finish(&keeper);
    free(given);
}

typedef struct cholmod_state {
    cholmod_common common;
    cholmod_factor *factor;
    cholmod_dense *x, *y, *e; /* of the solver, kept between the calls */
} cholmod_state;

/* AMD on the graph of nodes, which is a third of the size; part of the analysis. */
static void order_unknowns(const frame_matrix *m)
{
    const kl_index nodes = m->graph->node_count;
    int *order = malloc((size_t)nodes * sizeof *order);
    insist(order &&
               amd_order(nodes, m->graph->first, m->graph->neighbour, order, NULL, NULL) >= AMD_OK,
           "AMD");
    for (kl_index j = 0; j < 3 * nodes; j++) {
        given[j] = 3 * order[j / 3] + j % 3;
    }
    free(order);
}

static void cholmod_begin(rival *r, const frame_matrix *m)
{
    cholmod_state *s = calloc(1, sizeof *s);
    insist(s != NULL, "memory");
    packaged = r->packaged;
    cholmod_start(&s->common);
    s->common.print = 0;
    s->common.nmethods = 1;
    s->common.supernodal = r->method & METHOD_SUPERNODAL ? CHOLMOD_SUPERNODAL : CHOLMOD_SIMPLICIAL;
    const int order = r->method & 7;
    s->common.method[0].ordering = order == METHOD_AMD     ? CHOLMOD_AMD
                                   : order == METHOD_METIS ? CHOLMOD_METIS
                                                           : CHOLMOD_GIVEN;
    if (order == METHOD_GIVEN) {
        order_unknowns(m);
    }
    s->factor =
        cholmod_analyze_p(common_matrix, order == METHOD_GIVEN ? given : NULL, NULL, 0, &s->common);
    insist(s->factor != NULL, "CHOLMOD's analysis");
    r->state = s;
}

static void cholmod_numeric(rival *r, const frame_matrix *m)
{
    (void)m;
    cholmod_state *s = r->state;
    packaged = r->packaged;
    insist(cholmod_factorize(common_matrix, s->factor, &s->common) &&
               s->common.status == CHOLMOD_OK,
           "CHOLMOD's factorization");
}

static const double *cholmod_columns(rival *r, const double *b, double *x, int columns)
{
    cholmod_state *s = r->state;
    packaged = r->packaged;
    double *copy;
    memcpy(&copy, &b, sizeof copy); /* it is only read */
    cholmod_dense right = {.nrow = s->factor->n,
                           .ncol = (size_t)columns,
                           .nzmax = s->factor->n * (size_t)columns,
                           .d = s->factor->n,
                           .x = copy,
                           .xtype = CHOLMOD_REAL,
                           .dtype = CHOLMOD_DOUBLE};
    insist(
        cholmod_solve2(CHOLMOD_A, s->factor, &right, NULL, &s->x, NULL, &s->y, &s->e, &s->common),
        "CHOLMOD's solution");
    (void)x;
    return s->x->x;
}

static void cholmod_release(rival *r)
{
    cholmod_state *s = r->state;
    cholmod_free_dense(&s->x, &s->common);
    cholmod_free_dense(&s->y, &s->common);
    cholmod_free_dense(&s->e, &s->common);
    cholmod_free_factor(&s->factor, &s->common);
    cholmod_finish(&s->common);
    free(s);
}

static double cholmod_megabytes(const rival *r)
{
    const cholmod_state *s = r->state;
    return 1e-6 * (double)s->common.memory_usage;
}

/* ---- band -------------------------------------------------------------------------------------------------- */

static void band_begin(rival *r, const frame_matrix *m)
{
    band_solver *solver = NULL;
    insist(band_create(m->graph, &solver) == KL_OK, "band analysis");
    r->state = solver;
}

static void band_numeric(rival *r, const frame_matrix *m)
{
    insist(band_factor(r->state, m->diag, m->off) == KL_OK, "band factorization");
}

static size_t band_rows;

static const double *band_columns(rival *r, const double *b, double *x, int columns)
{
    memcpy(x, b, band_rows * (size_t)columns * sizeof *x);
    band_solve(r->state, x, columns);
    return x;
}

static void band_release(rival *r)
{
    band_destroy(r->state);
}

static double band_megabytes(const rival *r)
{
    return 8e-6 * (double)band_entries(r->state);
}

static void band_analyze(rival *r, const frame_matrix *m)
{
    band_rows = 3 * (size_t)m->graph->node_count;
    band_begin(r, m);
}

#define CHOLMOD_CALLS                                                                              \
    cholmod_begin, cholmod_numeric, cholmod_columns, cholmod_release, cholmod_megabytes

static rival rivals[] = {
    {"kernline", 0, false, NULL, own_analyze, own_factor, own_solve, own_release, own_megabytes},
    {"simplicial, AMD", METHOD_AMD, false, NULL, CHOLMOD_CALLS},
    {"simplicial, given", METHOD_GIVEN, false, NULL, CHOLMOD_CALLS},
    {"simplicial, METIS", METHOD_METIS, false, NULL, CHOLMOD_CALLS},
    {"supernodal, AMD", METHOD_SUPERNODAL | METHOD_AMD, false, NULL, CHOLMOD_CALLS},
    {"supernodal, given", METHOD_SUPERNODAL | METHOD_GIVEN, false, NULL, CHOLMOD_CALLS},
    {"supernodal, METIS", METHOD_SUPERNODAL | METHOD_METIS, false, NULL, CHOLMOD_CALLS},
    {"supernodal, AMD, as packaged", METHOD_SUPERNODAL | METHOD_AMD, true, NULL, CHOLMOD_CALLS},
    {"band", 0, false, NULL, band_analyze, band_numeric, band_columns, band_release,
     band_megabytes},
};

rival *rivals_list(int *count)
{
    *count = (int)(sizeof rivals / sizeof rivals[0]);
    return rivals;
}
