/* numeric.h - what factor.c, solve.c and the inner passes share: the factor itself, and the passes as functions.
 *
 * The passes are compiled several times from the same headers (passes_plain.c, passes_avx2.c, passes_avx512.c), each time for
 * other vectors; passes_for_machine picks one. On one machine it is always the same one, so results repeat to the last bit.
 * SPDX-License-Identifier: MIT */
#ifndef KERNLINE_NUMERIC_H
#define KERNLINE_NUMERIC_H

#include "supernode.h"

/* Right-hand sides side by side, at most. */
#define NUMERIC_LANES 16

/* Pivot columns from which the dense library is quicker than our own kernels. */
#define NUMERIC_LIBRARY_WIDTH 96

typedef struct sparse_passes sparse_passes;

struct sparse_factor {
    const sparse_symbolic *symbolic; /* borrowed */
    const sparse_passes *passes;
    double *panels; /* symbolic->entries */
    double *stacks; /* symbolic->stack */
    double *front;  /* 3 * tallest * NUMERIC_LANES: work */
    double *
        columns; /* 3 * node_count * NUMERIC_LANES: right-hand sides in the order of elimination, by rows */
    kl_index *runs;      /* 2 * tallest: work */
    kl_index eliminated; /* unknowns with a positive pivot, from the start of the order */
    bool complete;
    void *memory; /* what the arrays are cut from */
};

/* One numeric factorization under way. */
typedef struct numeric_pass {
    sparse_factor *factor;
    const double *diag;
    const double *off;
    double suspect_limit;
    factor_report *report;
    double nothing; /* 0 unless a value of the matrix was not finite */
    bool overflow;  /* a pivot was not finite */
} numeric_pass;

struct sparse_passes {
    int lanes; /* most columns of solve_many */
    /* Factor all supernodes, as far as it goes; `complete`, `stopped` and the suspects go to the report. */
    void (*factor)(numeric_pass *pass);
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

/* The front's pivot columns by the dense library, then the contribution. `k` columns of `n` rows in the panel.
 * @return the columns that were eliminated. */
int64_t
numeric_eliminate_large(numeric_pass *pass, const supernode *s, double *contribution, bool add);

/* Put 1 / l_jj on the diagonal. */
void numeric_invert_diagonal(double *panel, int64_t stride, int64_t columns);

#endif
