/* solve.c - see solve.h.
 *
 * Columns are carried through the factor in panels: the numbers of one row stand side by side, so that each
 * entry of the factor is read once for all of them. Every lane does the same operations in the same order, in a
 * panel of many as in a panel of one, which makes an answer independent of its company.
 * SPDX-License-Identifier: MIT */
#include "solve.h"

#include <math.h>
#include <string.h>

#include "dense.h"
#include "numeric.h"

/* Fewer columns than this are quicker one by one than side by side. */
#define SOLVE_FEW 3

kl_status solve_columns_apart(sparse_factor *factor, const double *b, kl_index columns, double *x)
{
    if (!factor->complete || columns < 0) {
        return KL_MISUSE;
    }
    const size_t stride = DENSE_SIDE * (size_t)factor->symbolic->graph->node_count;
    const sparse_passes *passes = factor->passes;
    double nothing = 0.0;
    int count = 0;
    for (kl_index column = 0; column < columns; column += count) {
        const kl_index left = columns - column;
        const size_t begin = stride * (size_t)column;
        count = left < SOLVE_FEW ? 1 : left < passes->lanes ? (int)left : passes->lanes;
        nothing += count == 1 ? passes->solve_one(factor, b + begin, count, x + begin)
                              : passes->solve_many(factor, b + begin, count, x + begin);
    }
    return isfinite(nothing) ? KL_OK : KL_NUMERIC;
}

kl_status solve_columns(sparse_factor *factor, double *x, kl_index columns)
{
    return solve_columns_apart(factor, x, columns, x);
}

/* A small supernode of the way back, likewise (see supernode.h). */
static void solve_back_node(const sparse_factor *factor, const supernode *s, int64_t end, double *x)
{
    const double *panel = factor->panels + s->panel;
    const int64_t stride = supernode_stride(s);
    const kl_index *row = factor->symbolic->row + s->row_at;
    double *own = x + DENSE_SIDE * (int64_t)s->first;
    const int64_t inside = end - DENSE_SIDE * (int64_t)s->first;
    if (inside >= DENSE_SIDE) {
        for (int64_t j = 0; j < DENSE_SIDE; j++) {
            for (int64_t i = DENSE_SIDE; i < stride; i++) {
                own[j] -= panel[j * stride + i] *
                          x[DENSE_SIDE * (int64_t)row[i / DENSE_SIDE - 1] + i % DENSE_SIDE];
            }
        }
        return;
    }
    for (int64_t j = inside - 1; j >= 0; j--) {
        for (int64_t i = j + 1; i <= inside; i++) {
            own[j] -= panel[j * stride + i] * own[i];
        }
    }
}

/* One supernode of the way back: columns below `end` of the unknowns, on x in the order of elimination, where
 * everything after `end` is zero. */
static void
solve_back_supernode(const sparse_factor *factor, const supernode *s, int64_t end, double *x)
{
    const double *panel = factor->panels + s->panel;
    const int64_t stride = supernode_stride(s);
    const int64_t pivots = DENSE_SIDE * (int64_t)s->width;
    const int64_t first = DENSE_SIDE * (int64_t)s->first;
    const bool whole = end >= first + pivots;
    const kl_index *row = factor->symbolic->row + s->row_at;
    for (int64_t j = (whole ? pivots : end - first) - 1; j >= 0; j--) {
        const double *column = panel + j * stride;
        double sum = x[first + j];
        for (int64_t i = j + 1; i < pivots && first + i <= end; i++) {
            sum -= column[i] * x[first + i];
        }
        for (kl_index i = 0; whole && i < s->rows; i++) {
            for (int d = 0; d < DENSE_SIDE; d++) {
                sum -= column[pivots + DENSE_SIDE * (int64_t)i + d] *
                       x[DENSE_SIDE * (int64_t)row[i] + d];
            }
        }
        x[first + j] = sum * column[j];
    }
}

/* With the leading part A11 = L11 L11' and row j of the factor l = L11^-1 a1j, the mode (-A11^-1 a1j, 1, 0) is
 * (-L11'^-1 l, 1, 0): the way back from a 1 at j, over the unknowns before it. */
kl_status solve_pivot_mode(sparse_factor *factor, const factor_pivot *pivot, double *mode)
{
    const sparse_symbolic *symbolic = factor->symbolic;
    const kl_index nodes = symbolic->graph->node_count;
    const bool known = pivot->node >= 0 && pivot->node < nodes && pivot->direction >= 0 &&
                       pivot->direction < DENSE_SIDE;
    if (!known) {
        return KL_MISUSE;
    }
    const int64_t unknown = (int64_t)DENSE_SIDE * symbolic->place[pivot->node] + pivot->direction;
    if (unknown > factor->eliminated) {
        return KL_MISUSE;
    }
    double *x = factor->columns;
    memset(x, 0, DENSE_SIDE * (size_t)nodes * sizeof(double));
    x[unknown] = 1.0;
    for (kl_index i = symbolic->count - 1; i >= 0; i--) {
        const supernode *s = &symbolic->supernodes[i];
        if (DENSE_SIDE * (int64_t)s->first < unknown) {
            if (supernode_is_small(s)) {
                solve_back_node(factor, s, unknown, x);
            } else {
                solve_back_supernode(factor, s, unknown, x);
            }
        }
    }
    double nothing = 0.0;
    for (kl_index k = 0; k < nodes; k++) {
        for (int d = 0; d < DENSE_SIDE; d++) {
            mode[DENSE_SIDE * (size_t)symbolic->order[k] + (size_t)d] =
                x[DENSE_SIDE * (size_t)k + (size_t)d];
            nothing += 0.0 * x[DENSE_SIDE * (size_t)k + (size_t)d];
        }
    }
    return isfinite(nothing) ? KL_OK : KL_NUMERIC;
}

/* The larger of two, NAN when one is. */
static double solve_larger(double a, double b)
{
    return isnan(a) || a > b ? a : b;
}

static double solve_largest(const double *values, size_t count)
{
    double largest = 0.0;
    for (size_t i = 0; i < count; i++) {
        largest = solve_larger(largest, fabs(values[i]));
    }
    return largest;
}

static void solve_add_row_sums(const double *block, bool transposed, double *sums)
{
    for (int i = 0; i < DENSE_SIDE; i++) {
        for (int j = 0; j < DENSE_SIDE; j++) {
            sums[i] += fabs(transposed ? block[DENSE_SIDE * j + i] : block[DENSE_SIDE * i + j]);
        }
    }
}

/* |A| in the maximum norm: the largest sum of a row. */
static double solve_matrix_norm(const sparse_graph *graph, const double *diag, const double *off)
{
    double norm = 0.0;
    for (kl_index node = 0; node < graph->node_count; node++) {
        double sums[DENSE_SIDE] = {0.0};
        solve_add_row_sums(diag + DENSE_BLOCK * (size_t)node, false, sums);
        for (kl_index i = graph->first[node]; i < graph->first[node + 1]; i++) {
            solve_add_row_sums(off + DENSE_BLOCK * (size_t)graph->edge_of[i],
                               graph->neighbour[i] < node, sums);
        }
        norm = solve_larger(norm, solve_largest(sums, DENSE_SIDE));
    }
    return norm;
}

double solve_residual(const sparse_graph *graph,
                      const double *diag,
                      const double *off,
                      const double *x,
                      const double *b,
                      double *work,
                      kl_index columns)
{
    const size_t rows = DENSE_SIDE * (size_t)graph->node_count;
    const double norm = solve_matrix_norm(graph, diag, off);
    double worst = 0.0;
    for (kl_index column = 0; column < columns; column++) {
        const double *x_column = x + rows * (size_t)column;
        const double *b_column = b + rows * (size_t)column;
        graph_multiply(graph, diag, off, x_column, work, 1);
        for (size_t i = 0; i < rows; i++) {
            work[i] -= b_column[i];
        }
        const double size = norm * solve_largest(x_column, rows) + solve_largest(b_column, rows);
        const double residual = solve_largest(work, rows);
        /* Nothing asked and nothing answered: no residual rather than 0/0. */
        worst = solve_larger(worst, size > 0.0 ? residual / size : residual);
    }
    return worst;
}
