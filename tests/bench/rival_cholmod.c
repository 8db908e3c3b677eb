/* rival_cholmod.c - see rival_cholmod.h.
 *
 * One ordering is tried and no other is fallen back on: `nmethods` is 1, and the factor must say that it was made with the
 * ordering asked for. "Nodes" is AMD on the graph of nodes, a third of the size, handed over as an order of unknowns; the time
 * for it belongs to the analysis.
 * SPDX-License-Identifier: MIT */
#define _GNU_SOURCE /* RTLD_NEXT */
#include "rival_cholmod.h"

#include <dlfcn.h>
#include <stdlib.h>
#include <string.h>

#include <suitesparse/amd.h>
#include <suitesparse/cholmod.h>

static bool regions_run_parallel;

typedef void gomp_parallel(void (*run)(void *), void *data, unsigned threads, unsigned flags);
gomp_parallel GOMP_parallel;

void GOMP_parallel(void (*run)(void *), void *data, unsigned threads, unsigned flags)
{
    static gomp_parallel *real;
    if (!regions_run_parallel) {
        run(data);
        return;
    }
    if (!real) {
        void *found = dlsym(RTLD_NEXT, "GOMP_parallel");
        memcpy(&real, &found, sizeof real);
    }
    real(run, data, threads, flags);
}

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

void rival_cholmod_open(const frame_matrix *m)
{
    const kl_index nodes = m->graph->node_count;
    cholmod_start(&keeper);
    const size_t entries = 6 * (size_t)nodes + 9 * (size_t)m->graph->edge_count;
    common_matrix = cholmod_allocate_sparse(3 * (size_t)nodes, 3 * (size_t)nodes, entries, 1, 1, -1,
                                            CHOLMOD_REAL, &keeper);
    given = malloc(3 * (size_t)nodes * sizeof *given);
    rivals_insist(common_matrix && given, "memory");
    int at = 0;
    int *first = common_matrix->p;
    for (kl_index j = 0; j < 3 * nodes; j++) {
        first[j] = at;
        put_column(m, j / 3, j % 3, &at);
    }
    first[3 * nodes] = at;
}

void rival_cholmod_close(void)
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

static void order_unknowns(const frame_matrix *m)
{
    const kl_index nodes = m->graph->node_count;
    int *order = malloc((size_t)nodes * sizeof *order);
    rivals_insist(order && amd_order(nodes, m->graph->first, m->graph->neighbour, order, NULL,
                                     NULL) >= AMD_OK,
                  "AMD");
    for (kl_index j = 0; j < 3 * nodes; j++) {
        given[j] = 3 * order[j / 3] + j % 3;
    }
    free(order);
}

void rival_cholmod_analyze(rival *r, const frame_matrix *m)
{
    static const int orderings[] = {[RIVAL_BY_AMD] = CHOLMOD_AMD,
                                    [RIVAL_BY_NODES] = CHOLMOD_GIVEN,
                                    [RIVAL_BY_METIS] = CHOLMOD_METIS};
    const int ordering = orderings[r->method % RIVAL_IN_SUPERNODES];
    const bool by_supernodes = r->method >= RIVAL_IN_SUPERNODES;
    cholmod_state *s = calloc(1, sizeof *s);
    rivals_insist(s != NULL, "memory");
    regions_run_parallel = r->threads == 0;
    cholmod_start(&s->common);
    s->common.print = 0;
    s->common.nmethods = 1;
    s->common.method[0].ordering = ordering;
    s->common.supernodal = by_supernodes ? CHOLMOD_SUPERNODAL : CHOLMOD_SIMPLICIAL;
    if (ordering == CHOLMOD_GIVEN) {
        order_unknowns(m);
    }
    s->factor = cholmod_analyze_p(common_matrix, ordering == CHOLMOD_GIVEN ? given : NULL, NULL, 0,
                                  &s->common);
    rivals_insist(s->factor && s->common.status == CHOLMOD_OK, "CHOLMOD's analysis");
    rivals_insist(s->factor->ordering == ordering, "the ordering CHOLMOD was asked for");
    rivals_insist(s->factor->is_super == by_supernodes, "the kind of factor CHOLMOD was asked for");
    r->state = s;
}

void rival_cholmod_factor(rival *r, const frame_matrix *m)
{
    (void)m;
    cholmod_state *s = r->state;
    regions_run_parallel = r->threads == 0;
    rivals_insist(cholmod_factorize(common_matrix, s->factor, &s->common) &&
                      s->common.status == CHOLMOD_OK,
                  "CHOLMOD's factorization");
}

const double *rival_cholmod_solve(rival *r, const double *b, double *x, int columns)
{
    cholmod_state *s = r->state;
    regions_run_parallel = r->threads == 0;
    double *copy;
    memcpy(&copy, &b, sizeof copy); /* it is only read */
    cholmod_dense right = {.nrow = s->factor->n,
                           .ncol = (size_t)columns,
                           .nzmax = s->factor->n * (size_t)columns,
                           .d = s->factor->n,
                           .x = copy,
                           .xtype = CHOLMOD_REAL,
                           .dtype = CHOLMOD_DOUBLE};
    rivals_insist(
        cholmod_solve2(CHOLMOD_A, s->factor, &right, NULL, &s->x, NULL, &s->y, &s->e, &s->common),
        "CHOLMOD's solution");
    (void)x;
    return s->x->x;
}

/* CHOLMOD counts the operations without the zeros that its supernodes store. */
rival_cost rival_cholmod_cost(const rival *r)
{
    const cholmod_state *s = r->state;
    const double entries = s->factor->is_super ? (double)s->factor->xsize : s->common.lnz;
    return (rival_cost){.operations = s->common.fl, .entries = entries};
}

void rival_cholmod_release(rival *r)
{
    cholmod_state *s = r->state;
    cholmod_free_dense(&s->x, &s->common);
    cholmod_free_dense(&s->y, &s->common);
    cholmod_free_dense(&s->e, &s->common);
    cholmod_free_factor(&s->factor, &s->common);
    cholmod_finish(&s->common);
    free(s);
}
