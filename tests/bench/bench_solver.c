/* bench_solver.c - the sparse solver beside general-purpose ones, phase by phase.
 * Usage: bench_solver [CASE…]      (names of frames.h; a name with + in front is numbered at random)
 *
 * All solvers take their turns in every round, and medians over the rounds are compared, because a machine that is not ours
 * alone changes its speed. analyze: ordering, symbolic analysis, room; refactor: the second numeric factorization; total:
 * both and one solution. The machine is measured before each case (machine.h).
 * It ends with 1 when an answer is wrong; times it only reports.
 * SPDX-License-Identifier: MIT */
#include <malloc.h>
#include <math.h>
#include <stdint.h>
#include <stdio.h>
#include <stdlib.h>
#include <string.h>

#include "kernline/analysis.h"
#include "peak.h"
#include "random.h"
#include "report.h"
#include "rival_cholmod.h"
#include "solve.h"
#include "watch.h"

enum {
    LEAST_ROUNDS = 3,
    MOST_ROUNDS = 201,
    MOST_TIMES = 9,
    CASE_SECONDS = 6,
    MOST_RIVALS = 16,
    MOST_ROWS = 64,
    COLUMNS = 64
};

/* Numbers of a block of right-hand sides, of which several stand in memory at once. */
#define BLOCK_LIMIT ((size_t)40 << 20)

/* What all solvers of a case are given. */
typedef struct task {
    const char *name;
    frame_matrix matrix;
    size_t unknowns;
    int columns;
    double *b, *x; /* unknowns x columns */
    double *work;  /* unknowns */
} task;

typedef struct samples {
    double seconds[PHASES][MOST_ROUNDS];
} samples;

static double check_answer(const task *t, const double *answer, int columns)
{
    const frame_matrix *m = &t->matrix;
    return solve_residual(m->graph, m->diag, m->off, answer, t->b, t->work, columns);
}

/* Once through all phases; the answers are checked beside the clock when that was not done yet. */
static void run_once(rival *r, const task *t, double seconds[PHASES], measured *s)
{
    const frame_matrix *m = &t->matrix;
    const bool checks = s->residual < 0.0;
    peak_begin();
    watch w = watch_start();
    r->analyze(r, m);
    seconds[ANALYZE] = watch_stop(&w, r->threads);
    r->factor(r, m); /* the first touch of its memory */
    const double *one = r->solve(r, t->b, t->x, 1);
    s->megabytes = 1e-6 * peak_bytes();
    const double residual = checks ? check_answer(t, one, 1) : 0.0;
    w = watch_start();
    r->factor(r, m);
    seconds[REFACTOR] = watch_stop(&w, r->threads);
    w = watch_start();
    r->solve(r, t->b, t->x, 1);
    seconds[SOLVE_1] = watch_stop(&w, r->threads);
    w = watch_start();
    const double *many = r->solve(r, t->b, t->x, t->columns);
    seconds[SOLVE_MANY] = watch_stop(&w, r->threads);
    seconds[TOTAL] = seconds[ANALYZE] + seconds[REFACTOR] + seconds[SOLVE_1];
    if (checks) {
        const double other = check_answer(t, many, t->columns);
        s->residual = isnan(other) || other > residual ? other : residual;
        s->cost = r->cost(r);
    }
    r->release(r);
}

/* A solver's turn: small cases several times, of which the median counts, so that none pays for the caches that the one
 * before it has filled. */
static void run_turn(rival *r, const task *t, int round, measured *s, samples *taken)
{
    const int times = t->unknowns < 6000 ? MOST_TIMES : 1;
    double seconds[MOST_TIMES][PHASES];
    for (int i = 0; i < times; i++) {
        run_once(r, t, seconds[i], s);
    }
    for (int p = 0; p < PHASES; p++) {
        double values[MOST_TIMES];
        for (int i = 0; i < times; i++) {
            values[i] = seconds[i][p];
        }
        taken->seconds[p][round] = watch_median(values, times);
    }
}

/* The band grows with the side of a grid, and a factor by single columns has no chance on the largest: minutes, to learn
 * nothing. */
static bool is_left_out(const rival *r, const task *t)
{
    const bool simplicial = r->kind == RIVAL_CHOLMOD && r->method < RIVAL_IN_SUPERNODES;
    const size_t most = r->kind == RIVAL_BAND ? 60000 : simplicial ? 600000 : SIZE_MAX;
    return strncmp(t->name, "grid", 4) == 0 && t->unknowns > most;
}

static void open_task(task *t, const char *name, bool shuffled)
{
    *t = (task){.name = name};
    if (!frame_make(name, shuffled, &t->matrix)) {
        fprintf(stderr, "bench: no case \"%s\"\n", name);
        exit(1);
    }
    t->unknowns = 3 * (size_t)t->matrix.graph->node_count;
    t->columns = t->unknowns * COLUMNS > BLOCK_LIMIT ? COLUMNS / 4 : COLUMNS;
    const size_t numbers = t->unknowns * (size_t)t->columns;
    t->b = malloc(numbers * sizeof *t->b);
    t->x = malloc(numbers * sizeof *t->x);
    t->work = malloc(t->unknowns * sizeof *t->work);
    rivals_insist(t->b && t->x && t->work, "memory");
    random_source source = {7};
    for (size_t i = 0; i < numbers; i++) {
        t->b[i] = random_between(&source, -1e5, 1e5);
    }
    rivals_open(&t->matrix);
}

static void close_task(task *t)
{
    rivals_close();
    frame_free(&t->matrix);
    free(t->b);
    free(t->x);
    free(t->work);
}

static int run_rounds(const task *t, rival *rivals, int count, measured *solvers, samples *taken)
{
    int rounds = 0;
    const double begin = watch_read(CLOCK_MONOTONIC);
    while (rounds < LEAST_ROUNDS ||
           (rounds < MOST_ROUNDS && watch_read(CLOCK_MONOTONIC) - begin < CASE_SECONDS)) {
        for (int i = 0; i < count; i++) {
            if (!solvers[i].left_out) {
                run_turn(&rivals[i], t, rounds, &solvers[i], &taken[i]);
            }
        }
        rounds++;
    }
    return rounds;
}

/* @return how many answers are wrong. */
static int run_case(const char *name, bool shuffled, report_row *rows, int *row_count)
{
    static samples taken[MOST_RIVALS];
    measured solvers[MOST_RIVALS];
    bench_case c = {.name = name, .shuffled = shuffled, .solvers = solvers};
    rivals_insist(machine_measure(&c.machine), "memory");
    task t;
    open_task(&t, name, shuffled);
    rival *rivals = rivals_list(&c.count);
    rivals_insist(c.count <= MOST_RIVALS, "room for so many solvers");
    for (int i = 0; i < c.count; i++) {
        solvers[i] = (measured){.of = &rivals[i], .residual = -1.0 /* not known yet */};
        solvers[i].left_out = is_left_out(&rivals[i], &t);
    }
    c.nodes = t.matrix.graph->node_count;
    c.columns = t.columns;
    c.rounds = run_rounds(&t, rivals, c.count, solvers, taken);
    for (int i = 0; i < c.count; i++) {
        for (int p = 0; p < PHASES && !solvers[i].left_out; p++) {
            solvers[i].seconds[p] = watch_median(taken[i].seconds[p], c.rounds);
        }
    }
    close_task(&t);
    *row_count += report_rows(&c, rows + *row_count);
    return report_case(&c);
}

int main(int argc, char **argv)
{
    static const char *const usual[] = {
        "cap",    "+cap",    "unit", "+unit", "grid10",  "+grid10",  "grid30",  "+grid30",
        "ladder", "+ladder", "long", "+long", "grid100", "+grid100", "grid300", "+grid300"};
    static report_row rows[MOST_ROWS];
    int row_count = 0;
    int wrong = 0;
    machine_take_kernels(argv);
    printf("dense library: OpenBLAS with the kernels for %s\n", machine_kernels());
    kl_use_one_thread();
    /* Large pieces stay with the process, so that no solver pays for pages in every round. */
    mallopt(M_MMAP_THRESHOLD, 1 << 30);
    mallopt(M_TRIM_THRESHOLD, 2000000000);
    mallopt(M_TOP_PAD, 1 << 28);
    const int count = argc > 1 ? argc - 1 : (int)(sizeof usual / sizeof usual[0]);
    for (int i = 0; i < count && row_count + MOST_RIVALS < MOST_ROWS; i++) {
        const char *name = argc > 1 ? argv[i + 1] : usual[i];
        const bool shuffled = name[0] == '+';
        wrong += run_case(name + (shuffled ? 1 : 0), shuffled, rows, &row_count);
    }
    report_table(rows, row_count);
    if (wrong > 0) {
        fprintf(stderr, "bench: %d answers are WRONG, see above\n", wrong);
    }
    return wrong > 0;
}
