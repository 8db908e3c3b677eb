/* bench_solver.c - the sparse solver beside general-purpose ones, phase by phase.
 * Usage: bench_solver [CASE…]      (names of frames.h; a name with + in front is numbered at random)
 *
 * All solvers take their turns in every round, and medians over the rounds are compared, because a machine that is not ours
 * alone changes its speed. analyze: ordering, symbolic analysis, room; refactor: the second numeric factorization; total:
 * both and one solution. A ratio is our time over the best of the others in that phase.
 * SPDX-License-Identifier: MIT */
#define _GNU_SOURCE
#include <malloc.h>
#include <math.h>
#include <stdio.h>
#include <stdlib.h>
#include <string.h>
#include <time.h>

#include "kernline/analysis.h"
#include "lapack.h"
#include "random.h"
#include "rivals.h"
#include "solve.h"

enum { ANALYZE, REFACTOR, SOLVE_1, SOLVE_64, TOTAL, PHASES };
enum {
    LEAST_ROUNDS = 3,
    MOST_ROUNDS = 201,
    MOST_TIMES = 9,
    CASE_SECONDS = 6,
    MOST_RIVALS = 16,
    COLUMNS = 64
};

static const char *const phase_names[PHASES] = {"analyze", "refactor", "solve 1", "solve 64",
                                                "total"};

typedef struct sample {
    double seconds[PHASES][MOST_ROUNDS];
    double median[PHASES];
    double megabytes;
    double residual;
} sample;

static double now(void)
{
    struct timespec t;
    clock_gettime(CLOCK_MONOTONIC, &t);
    return (double)t.tv_sec + 1e-9 * (double)t.tv_nsec;
}

static int compare(const void *a, const void *b)
{
    const double *x = a;
    const double *y = b;
    return (*x > *y) - (*x < *y);
}

static double median(double *values, int count)
{
    qsort(values, (size_t)count, sizeof *values, compare);
    return values[count / 2];
}

/* Once through all phases. */
static void run_once(
    rival *r, const frame_matrix *m, const double *b, double *x, double seconds[PHASES], sample *s)
{
    const double t0 = now();
    r->analyze(r, m);
    const double t1 = now();
    r->factor(r, m); /* the first touch of its memory */
    r->solve(r, b, x, 1);
    const double t2 = now();
    r->factor(r, m);
    const double t3 = now();
    r->solve(r, b, x, 1);
    const double t4 = now();
    const double *answer = r->solve(r, b, x, COLUMNS);
    const double t5 = now();
    if (answer != x && s->residual < 0.0) {
        memcpy(x, answer, 3 * (size_t)m->graph->node_count * COLUMNS * sizeof *x);
    }
    seconds[ANALYZE] = t1 - t0;
    seconds[REFACTOR] = t3 - t2;
    seconds[SOLVE_1] = t4 - t3;
    seconds[SOLVE_64] = t5 - t4;
    seconds[TOTAL] = (t1 - t0) + (t4 - t2);
    s->megabytes = r->megabytes(r);
    r->release(r);
}

/* A solver's turn: small cases several times, of which the median counts, so that none pays for the caches that the one
 * before it has filled. */
static void
run_turn(rival *r, const frame_matrix *m, const double *b, double *x, int round, sample *s)
{
    const int times = m->graph->node_count < 2000 ? MOST_TIMES : 1;
    double seconds[MOST_TIMES][PHASES];
    for (int i = 0; i < times; i++) {
        run_once(r, m, b, x, seconds[i], s);
    }
    for (int p = 0; p < PHASES; p++) {
        double values[MOST_TIMES];
        for (int i = 0; i < times; i++) {
            values[i] = seconds[i][p];
        }
        s->seconds[p][round] = median(values, times);
    }
}

/* The band grows with the side of a grid; past this it only costs time. */
static bool is_skipped(const rival *r, const char *name, kl_index nodes)
{
    return strcmp(r->name, "band") == 0 && strncmp(name, "grid", 4) == 0 && nodes > 20000;
}

static void
report(const char *name, bool shuffled, const rival *rivals, int count, const sample *samples)
{
    printf("\n%s, %s numbering\n%-30s", name, shuffled ? "random" : "natural", "  (microseconds)");
    for (int p = 0; p < PHASES; p++) {
        printf("%12s", phase_names[p]);
    }
    printf("%9s%10s\n", "MB", "residual");
    for (int i = 0; i < count; i++) {
        if (isnan(samples[i].median[TOTAL])) {
            continue;
        }
        printf("  %-28s", rivals[i].name);
        for (int p = 0; p < PHASES; p++) {
            printf("%12.1f", 1e6 * samples[i].median[p]);
        }
        printf("%9.2f%10.1e\n", samples[i].megabytes, samples[i].residual);
    }
    printf("  %-28s", "ratio to the best CHOLMOD");
    for (int p = 0; p < PHASES; p++) {
        double best = INFINITY;
        for (int i = 1; i < count; i++) {
            const bool counts = strcmp(rivals[i].name, "band") != 0 && !rivals[i].packaged;
            best = counts ? fmin(best, samples[i].median[p]) : best;
        }
        printf("%12.2f", samples[0].median[p] / best);
    }
    printf("\n");
    fflush(stdout);
}

static void run_case(const char *name, bool shuffled)
{
    static sample samples[MOST_RIVALS];
    frame_matrix m;
    if (!frame_make(name, shuffled, &m)) {
        fprintf(stderr, "bench: no case \"%s\"\n", name);
        exit(1);
    }
    const size_t n = 3 * (size_t)m.graph->node_count;
    double *b = malloc(n * COLUMNS * sizeof *b);
    double *x = malloc(n * COLUMNS * sizeof *x);
    double *work = malloc(n * sizeof *work);
    if (!b || !x || !work) {
        fprintf(stderr, "bench: out of memory\n");
        exit(1);
    }
    random_source source = {7};
    for (size_t i = 0; i < n * COLUMNS; i++) {
        b[i] = random_between(&source, -1e5, 1e5);
    }
    rivals_open(&m);
    int count;
    rival *rivals = rivals_list(&count);
    for (int i = 0; i < count; i++) {
        samples[i].residual = -1.0; /* not known yet */
    }
    int rounds = 0;
    const double begin = now();
    for (; rounds < MOST_ROUNDS && (rounds < LEAST_ROUNDS || now() - begin < CASE_SECONDS);
         rounds++) {
        for (int i = 0; i < count; i++) {
            if (!is_skipped(&rivals[i], name, m.graph->node_count)) {
                run_turn(&rivals[i], &m, b, x, rounds, &samples[i]);
                if (rounds == 0) {
                    samples[i].residual =
                        solve_residual(m.graph, m.diag, m.off, x, b, work, COLUMNS);
                }
            }
        }
    }
    for (int i = 0; i < count; i++) {
        for (int p = 0; p < PHASES; p++) {
            const bool skipped = is_skipped(&rivals[i], name, m.graph->node_count);
            samples[i].median[p] = skipped ? (double)NAN : median(samples[i].seconds[p], rounds);
        }
    }
    report(name, shuffled, rivals, count, samples);
    rivals_close();
    frame_free(&m);
    free(b);
    free(x);
    free(work);
}

/* What the machine does now: products of large matrices, and reading of memory in order. */
static void measure_machine(void)
{
    enum { N = 768, DOUBLES = 1 << 25 };
    double *a = calloc(DOUBLES, sizeof *a);
    if (!a) {
        return;
    }
    for (size_t i = 0; i < DOUBLES; i++) {
        a[i] = 1e-3;
    }
    double product = INFINITY;
    double reading = INFINITY;
    double sums[8] = {0.0};
    for (int round = 0; round < 5; round++) {
        const double t0 = now();
        (void)lapack_subtract_square(N, N, a, N, a + N * N, N, false);
        const double t1 = now();
        for (size_t i = 0; i < DOUBLES; i += 8) {
            for (size_t k = 0; k < 8; k++) {
                sums[k] += a[i + k];
            }
        }
        product = fmin(product, t1 - t0);
        reading = fmin(reading, now() - t1);
    }
    printf("this machine, one thread: dsyrk %.0f GF/s, reading %.0f GB/s (sum %g)\n",
           1e-9 * N * N * N / product, 8e-9 * DOUBLES / reading, sums[0]);
    free(a);
}

int main(int argc, char **argv)
{
    static const char *const usual[] = {
        "cap",    "+cap",    "unit", "+unit", "grid10",  "+grid10",  "grid30",  "+grid30",
        "ladder", "+ladder", "long", "+long", "grid100", "+grid100", "grid300", "+grid300"};
    kl_use_one_thread();
    /* Large pieces stay with the process, so that no solver pays for pages in every round. */
    mallopt(M_MMAP_THRESHOLD, 1 << 30);
    mallopt(M_TRIM_THRESHOLD, 2000000000);
    mallopt(M_TOP_PAD, 1 << 28);
    measure_machine();
    const int count = argc > 1 ? argc - 1 : (int)(sizeof usual / sizeof usual[0]);
    for (int i = 0; i < count; i++) {
        const char *name = argc > 1 ? argv[i + 1] : usual[i];
        run_case(name[0] == '+' ? name + 1 : name, name[0] == '+');
    }
    return 0;
}
