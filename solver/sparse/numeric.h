/* numeric.h - what factor.c, solve.c and the inner passes share: the factor itself, and the passes as functions.
 *
 * The passes are compiled several times from the same headers (passes_plain.c, passes_avx2.c, passes_avx512.c), each time for
 * other vectors; passes_for_machine picks one. On one machine it is always the same one, so results repeat to the last bit.
 * SPDX-License-Identifier: MIT */
#ifndef KERNLINE_NUMERIC_H
#define KERNLINE_NUMERIC_H

#include "schedule.h"
#include "team.h"

/* Right-hand sides side by side, at most. */
#define NUMERIC_LANES 16

/* Pivot columns from which it pays to copy a front into slivers (wide.h), and their rows. */
#define NUMERIC_WIDE   48
#define NUMERIC_SLIVER 24

typedef struct sparse_passes sparse_passes;

struct sparse_factor {
    const sparse_symbolic *symbolic; /* borrowed */
    const sparse_passes *passes;
    elimination_schedule schedule;
    struct numeric_pass *members; /* one for each thread */
    double *panels;               /* symbolic->entries */
    double *stacks;               /* schedule.shared + threads * schedule.local */
    double *front;                /* 3 * tallest * NUMERIC_LANES: work */
    double *
        columns; /* 3 * node_count * NUMERIC_LANES: right-hand sides in the order of elimination, by rows */
    kl_index *runs;      /* 2 * tallest for each thread: work */
    kl_index eliminated; /* unknowns with a positive pivot, from the start of the order */
    bool complete;
    void *memory; /* what the arrays are cut from */
};

/* One thread's share of a numeric factorization. */
typedef struct numeric_pass {
    sparse_factor *factor;
    const double *diag;
    const double *off;
    double suspect_limit;
    factor_report report;
    double nothing;  /* 0 unless a value of the matrix was not finite */
    bool overflow;   /* a pivot was not finite */
    int64_t shift;   /* from the first thread's own stacks to this one's */
    double *slivers; /* of the widest front: work */
    kl_index *runs;  /* 2 * tallest: work */
    team *team;      /* to share a front with, NULL: nobody */
} numeric_pass;

/* Where the contribution of a supernode is. */
static inline double *numeric_contribution(const numeric_pass *pass, const supernode *s)
{
    const sparse_factor *factor = pass->factor;
    const int64_t at = factor->schedule.contribution[s - factor->symbolic->supernodes];
    return factor->stacks + at + (at >= factor->schedule.shared ? pass->shift : 0);
}

struct sparse_passes {
    int lanes; /* most columns of solve_many */
    /* Factor the supernodes `first` … `last`; `stopped` and the suspects go to the report.
     * @return the unknowns eliminated, fewer than they have when the factorization stops there. */
    kl_index (*factor)(numeric_pass *pass, kl_index first, kl_index last);
    /* Through the factor and back: one column, or one to `lanes` of them, one after the other. x may be b.
     * @return 0 when all answers are finite, else NAN. */
    double (*solve_one)(const sparse_factor *factor, const double *b, int columns, double *x);
    double (*solve_many)(const sparse_factor *factor, const double *b, int columns, double *x);
};

const sparse_passes *passes_for_machine(void);
const sparse_passes *passes_plain(void);
const sparse_passes *passes_avx2(void);   /* NULL where it was not compiled for such machines */
const sparse_passes *passes_avx512(void); /* likewise */

/* A pivot that is not plainly sound: a suspect (true: go on) or the end (false).
 * @param unknown 3 * place + direction */
bool numeric_judge(numeric_pass *pass, int64_t unknown, double pivot, double original);

#endif
