/* report.c - see report.h.
 * SPDX-License-Identifier: MIT */
#include "report.h"

#include <math.h>
#include <stdio.h>
#include <string.h>

/* Totals to reach against the best CHOLMOD, in natural numbering. */
static const struct {
    const char *name;
    double total;
} goals[] = {{"cap", 0.40},    {"unit", 0.40},   {"ladder", 0.33},  {"long", 0.40},
             {"grid10", 0.35}, {"grid30", 0.50}, {"grid100", 0.60}, {"grid300", 0.70}};

static bool is_wrong(const measured *s)
{
    return !s->left_out && !(s->residual < REPORT_RESIDUAL);
}

/* CHOLMOD at its best, with answers that are right. */
static bool is_rival(const measured *s)
{
    return s->of->kind == RIVAL_CHOLMOD && s->of->threads == 1 && !s->left_out && !is_wrong(s);
}

/* The quickest rival in a phase; NULL when there is none. */
static const measured *find_best(const bench_case *c, int phase)
{
    const measured *best = NULL;
    for (int i = 0; i < c->count; i++) {
        const measured *s = &c->solvers[i];
        if (is_rival(s) && (!best || s->seconds[phase] < best->seconds[phase])) {
            best = s;
        }
    }
    return best;
}

static const measured *find_band(const bench_case *c)
{
    for (int i = 0; i < c->count; i++) {
        const measured *s = &c->solvers[i];
        if (s->of->kind == RIVAL_BAND && !s->left_out && !is_wrong(s)) {
            return s;
        }
    }
    return NULL;
}

static double operations_a_second(const measured *s)
{
    return s->cost.operations / s->seconds[REFACTOR];
}

/* The factor is read twice, on the way forward and on the way back. */
static double bytes_a_second(const measured *s)
{
    return 16.0 * s->cost.entries / s->seconds[SOLVE_1];
}

static double ratio_to(const measured *s, const measured *other, int phase)
{
    return other ? s->seconds[phase] / other->seconds[phase] : (double)NAN;
}

/* ---- a case ------------------------------------------------------------------------------------------------ */

static void print_head(const bench_case *c)
{
    const machine_speed *m = &c->machine;
    printf("\n%s, %s numbering: %d unknowns, medians of %d rounds\n", c->name,
           c->shuffled ? "random" : "natural", 3 * (int)c->nodes, c->rounds);
    printf("  one thread of this machine: dgemm");
    for (int i = 0; i < MACHINE_SIZES; i++) {
        printf("%s %.1f", i ? "," : "", 1e-9 * m->product[i]);
    }
    printf(" GF/s (n =");
    for (int i = 0; i < MACHINE_SIZES; i++) {
        printf("%s %d", i ? "," : "", machine_order[i]);
    }
    printf("), reading");
    for (int i = 0; i < MACHINE_SIZES; i++) {
        printf("%s %.1f", i ? "," : "", 1e-9 * m->reading[i]);
    }
    printf(" GB/s (");
    for (int i = 0; i < MACHINE_SIZES; i++) {
        printf("%s%.4g", i ? ", " : "", machine_kilobytes[i] / 1024.0);
    }
    printf(" MB)\n  %-30s%11s%11s%11s   solve %2d%11s%9s%7s%7s%10s\n", "(microseconds)", "analyze",
           "refactor", "solve 1", c->columns, "total", "MB", "GF/s", "GB/s", "residual");
}

static void print_solver(const measured *s)
{
    printf("  %-30s", s->of->name);
    if (s->left_out) {
        printf("%11s  (it would take too long)\n", "left out");
        return;
    }
    for (int p = 0; p < PHASES; p++) {
        printf("%11.1f", 1e6 * s->seconds[p]);
    }
    printf("%9.2f%7.1f%7.1f%10.1e%s\n", s->megabytes, 1e-9 * operations_a_second(s),
           1e-9 * bytes_a_second(s), s->residual, is_wrong(s) ? "  <-- WRONG ANSWER" : "");
}

static void print_ratios(const bench_case *c, const measured *own)
{
    const measured *whole = find_best(c, TOTAL);
    const measured *band = find_band(c);
    printf("  %s against\n  %-30s", own->of->name, "  CHOLMOD, the best a phase");
    for (int p = 0; p < PHASES; p++) {
        printf("%11.2f", ratio_to(own, find_best(c, p), p));
    }
    printf("\n    %-28s", whole ? whole->of->name : "nothing");
    for (int p = 0; p < PHASES; p++) {
        printf("%11.2f", ratio_to(own, whole, p));
    }
    printf("%9.2f  (best in total)\n", whole ? own->megabytes / whole->megabytes : (double)NAN);
    if (band) {
        printf("    %-28s", "band");
        for (int p = 0; p < PHASES; p++) {
            printf("%11.2f", ratio_to(own, band, p));
        }
        printf("%9.2f\n", own->megabytes / band->megabytes);
    }
    printf("    refactor has %.0f %% of dgemm's operations a second",
           100.0 * operations_a_second(own) / c->machine.product[MACHINE_SIZES - 1]);
    printf("; solve 1 has");
    for (int i = 0; i < MACHINE_SIZES; i++) {
        printf("%s %.0f", i ? "," : "", 100.0 * bytes_a_second(own) / c->machine.reading[i]);
    }
    printf(" %% of reading (a factor of %.1f MB)\n", 8e-6 * own->cost.entries);
}

int report_case(const bench_case *c)
{
    int wrong = 0;
    print_head(c);
    for (int i = 0; i < c->count; i++) {
        print_solver(&c->solvers[i]);
        wrong += is_wrong(&c->solvers[i]) ? 1 : 0;
    }
    for (int i = 0; i < c->count; i++) {
        if (c->solvers[i].of->kind == RIVAL_OWN) {
            print_ratios(c, &c->solvers[i]);
        }
    }
    fflush(stdout);
    return wrong;
}

/* ---- all cases --------------------------------------------------------------------------------------------- */

int report_rows(const bench_case *c, report_row *rows)
{
    int count = 0;
    for (int i = 0; i < c->count; i++) {
        const measured *s = &c->solvers[i];
        if (s->of->kind != RIVAL_OWN) {
            continue;
        }
        report_row *row = &rows[count++];
        *row = (report_row){
            .name = c->name,
            .shuffled = c->shuffled,
            .threads = s->of->threads,
            .columns = c->columns,
            .total = s->seconds[TOTAL],
            .megabytes = s->megabytes,
            .of_product = operations_a_second(s) / c->machine.product[MACHINE_SIZES - 1],
            .of_reading = bytes_a_second(s) / c->machine.reading[MACHINE_SIZES - 1],
        };
        for (int p = 0; p < PHASES; p++) {
            row->ratio[p] = ratio_to(s, find_best(c, p), p);
        }
    }
    return count;
}

/* The same case and variant, numbered at random; NULL when it was not run. */
static const report_row *find_shuffled(const report_row *rows, int count, const report_row *row)
{
    for (int i = 0; i < count; i++) {
        if (rows[i].shuffled && rows[i].threads == row->threads &&
            strcmp(rows[i].name, row->name) == 0) {
            return &rows[i];
        }
    }
    return NULL;
}

static void print_goal(const char *name)
{
    for (size_t i = 0; i < sizeof goals / sizeof goals[0]; i++) {
        if (strcmp(goals[i].name, name) == 0) {
            printf(" | %.2f", goals[i].total);
            return;
        }
    }
    printf(" | –");
}

static void print_row(const report_row *row, const report_row *shuffled)
{
    printf("| %s", row->name);
    if (row->threads > 1) {
        printf(", %d threads", row->threads);
    }
    print_goal(row->name);
    printf(" | %.2f", row->ratio[TOTAL]);
    if (shuffled) {
        printf(" | %.2f", shuffled->total / row->total);
    } else {
        printf(" | –");
    }
    for (int p = 0; p < SOLVE_MANY; p++) {
        printf(" | %.2f", row->ratio[p]);
    }
    printf(" | %.2f", row->ratio[SOLVE_MANY]);
    if (row->columns != 64) {
        printf(" (%d)", row->columns);
    }
    printf(row->megabytes < 10.0 ? " | %.2f" : " | %.0f", row->megabytes);
    printf(" | %.0f | %.0f |\n", 100.0 * row->of_product, 100.0 * row->of_reading);
}

void report_table(const report_row *rows, int count)
{
    printf("\n| case | goal | total, natural | random / natural | analyze | refactor | solve 1 | "
           "solve 64 | MB | %% dgemm | %% bandwidth |\n");
    printf("|---|---|---|---|---|---|---|---|---|---|---|\n");
    for (int i = 0; i < count; i++) {
        if (!rows[i].shuffled) {
            print_row(&rows[i], find_shuffled(rows, count, &rows[i]));
        }
    }
    fflush(stdout);
}
