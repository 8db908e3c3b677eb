/* report.h - what the bench of the solver prints: a table a case, and one for the document at the end.
 * SPDX-License-Identifier: MIT */
#ifndef KERNLINE_REPORT_H
#define KERNLINE_REPORT_H

#include "machine.h"
#include "rivals.h"

enum { ANALYZE, REFACTOR, SOLVE_1, SOLVE_MANY, TOTAL, PHASES };

/* One solver on one case. */
typedef struct measured {
    const rival *of;
    bool left_out;          /* it would take too long */
    double seconds[PHASES]; /* medians */
    double megabytes;       /* at most in use, from the analysis to the first solution */
    double residual;
    rival_cost cost;
} measured;

typedef struct bench_case {
    const char *name;
    bool shuffled;
    kl_index nodes;
    int columns; /* of SOLVE_MANY */
    int rounds;
    machine_speed machine;
    const measured *solvers; /* count */
    int count;
} bench_case;

/* A row of the last table: one of our own variants on one case. Ratios are to the best CHOLMOD in each phase. */
typedef struct report_row {
    const char *name;
    bool shuffled;
    int threads;
    int columns;
    double ratio[PHASES];
    double total; /* seconds */
    double megabytes;
    double of_product; /* share of the speed of products */
    double of_reading; /* share of the speed of reading from beyond the caches */
} report_row;

/* A larger residual is no rounding: such an answer is wrong, and its solver is not compared with. */
#define REPORT_RESIDUAL 1e-13

/* Print the case. @return how many answers are wrong. */
int report_case(const bench_case *c);

/* The rows of the case, one for each of our own variants. @return their number. */
int report_rows(const bench_case *c, report_row *rows);

/* All cases in natural numbering as a table in Markdown. */
void report_table(const report_row *rows, int count);

#endif
