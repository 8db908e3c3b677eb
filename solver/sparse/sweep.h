/* sweep.h - right-hand sides through the factor and back. Included once for single columns and once for columns side by side:
 * SWEEP_REAL is a double or a vector of SWEEP_LANES, SWEEP_NAME gives the functions' names. Every lane does the same operations in
 * the same order, alone or in company.
 *
 * Each front is solved on a copy of its rows, which stand one after the other there: x of the pivots, then x of the rows
 * below. Sums of the way back are kept in four parts, by the number of the row, so that they need not wait for each other.
 * SPDX-License-Identifier: MIT */
#include <string.h>

#include "lanes.h"
#include "numeric.h"

#ifndef SWEEP_REAL
#define SWEEP_REAL       double
#define SWEEP_LANES      1
#define SWEEP_NAME(name) sweep_one_##name
#endif

#ifndef KERNLINE_SWEEP_H
#define KERNLINE_SWEEP_H

/* The four parts of a sum, for a single column: as a vector, else the compiler would add them up one by one. */
typedef double sweep_parts __attribute__((vector_size(32), aligned(8), may_alias));

/* Three columns of a panel times the rows `from` … `rows` - 1 of t. */
LANES_INLINE void sweep_one_sums(
    const double *c, int64_t stride, int64_t from, int64_t rows, const double *t, double *sum)
{
    sweep_parts part[3] = {{0.0}, {0.0}, {0.0}};
    int64_t i = from;
    for (; i + 4 <= rows; i += 4) {
        const sweep_parts x = *(const sweep_parts *)(t + i);
        for (int k = 0; k < 3; k++) {
            part[k] += x * *(const sweep_parts *)(c + k * stride + i);
        }
    }
    for (int q = 0; i + q < rows; q++) {
        for (int k = 0; k < 3; k++) {
            part[k][q] += t[i + q] * c[k * stride + i + q];
        }
    }
    for (int k = 0; k < 3; k++) {
        sum[k] = (part[k][0] + part[k][1]) + (part[k][2] + part[k][3]);
    }
}

/* The same for columns side by side. */
LANES_INLINE void sweep_many_sums(
    const double *c, int64_t stride, int64_t from, int64_t rows, const lanes *t, lanes *sum)
{
    lanes part[3][4];
    for (int k = 0; k < 12; k++) {
        part[k / 4][k % 4] = (lanes){0.0};
    }
    int64_t i = from;
    for (; i + 4 <= rows; i += 4) {
        for (int q = 0; q < 4; q++) {
            for (int k = 0; k < 3; k++) {
                part[k][q] += t[i + q] * c[k * stride + i + q];
            }
        }
    }
    for (int q = 0; i + q < rows; q++) {
        for (int k = 0; k < 3; k++) {
            part[k][q] += t[i + q] * c[k * stride + i + q];
        }
    }
    for (int k = 0; k < 3; k++) {
        sum[k] = (part[k][0] + part[k][1]) + (part[k][2] + part[k][3]);
    }
}
#endif

/* One column of 3x3 blocks of a panel, its diagonal at row `at`: L y = x for its three rows, and off the rows below. */
LANES_INLINE void SWEEP_NAME(forward_block)(
    const double *restrict c, int64_t stride, int64_t at, int64_t rows, SWEEP_REAL *restrict t)
{
    const double *restrict d = c + stride;
    const double *restrict e = d + stride;
    const SWEEP_REAL y0 = t[at] * c[at];
    const SWEEP_REAL y1 = (t[at + 1] - y0 * c[at + 1]) * d[at + 1];
    const SWEEP_REAL y2 = (t[at + 2] - y0 * c[at + 2] - y1 * d[at + 2]) * e[at + 2];
    t[at] = y0;
    t[at + 1] = y1;
    t[at + 2] = y2;
    for (int64_t i = at + 3; i < rows; i++) {
        SWEEP_REAL x = t[i];
        x -= y0 * c[i];
        x -= y1 * d[i];
        x -= y2 * e[i];
        t[i] = x;
    }
}

/* L' z = y for the three rows of a column of blocks, of which the products with the rows below are known. */
LANES_INLINE void SWEEP_NAME(backward_corner)(
    const double *c, int64_t stride, int64_t at, const SWEEP_REAL *sum, SWEEP_REAL *t)
{
    const double *d = c + stride;
    const double *e = d + stride;
    const SWEEP_REAL x2 = sum[2] * e[at + 2];
    const SWEEP_REAL x1 = (sum[1] - x2 * d[at + 2]) * d[at + 1];
    t[at + 2] = x2;
    t[at + 1] = x1;
    t[at] = (sum[0] - x2 * c[at + 2] - x1 * c[at + 1]) * c[at];
}

/* The same with the products. */
LANES_INLINE void
SWEEP_NAME(backward_block)(const double *c, int64_t stride, int64_t at, int64_t rows, SWEEP_REAL *t)
{
    SWEEP_REAL sum[3];
    SWEEP_NAME(sums)(c, stride, at + 3, rows, t, sum);
    for (int k = 0; k < 3; k++) {
        sum[k] = t[at + k] - sum[k];
    }
    SWEEP_NAME(backward_corner)(c, stride, at, sum, t);
}

static inline void SWEEP_NAME(gather)(const sparse_symbolic *symbolic,
                                      const supernode *s,
                                      const SWEEP_REAL *x,
                                      SWEEP_REAL *t)
{
    const int64_t pivots = 3 * (int64_t)s->width;
    const SWEEP_REAL *own = x + 3 * (int64_t)s->first;
    for (int64_t i = 0; i < pivots; i++) {
        t[i] = own[i];
    }
    const kl_index *row = symbolic->row + s->row_at;
    for (kl_index i = 0; i < s->rows; i++) {
        for (int d = 0; d < 3; d++) {
            t[pivots + 3 * (int64_t)i + d] = x[3 * (int64_t)row[i] + d];
        }
    }
}

static inline void
SWEEP_NAME(forward_front)(const sparse_factor *factor, const supernode *s, SWEEP_REAL *x)
{
    void *work = factor->front;
    SWEEP_REAL *t = work;
    const int64_t stride = supernode_stride(s);
    const int64_t pivots = 3 * (int64_t)s->width;
    const int64_t rows = pivots + 3 * (int64_t)s->rows;
    SWEEP_NAME(gather)(factor->symbolic, s, x, t);
    for (int64_t at = 0; at < pivots; at += 3) {
        SWEEP_NAME(forward_block)(factor->panels + s->panel + at * stride, stride, at, rows, t);
    }
    SWEEP_REAL *own = x + 3 * (int64_t)s->first;
    for (int64_t i = 0; i < pivots; i++) {
        own[i] = t[i];
    }
    const kl_index *row = factor->symbolic->row + s->row_at;
    for (kl_index i = 0; i < s->rows; i++) {
        for (int d = 0; d < 3; d++) {
            x[3 * (int64_t)row[i] + d] = t[pivots + 3 * (int64_t)i + d];
        }
    }
}

static inline void
SWEEP_NAME(backward_front)(const sparse_factor *factor, const supernode *s, SWEEP_REAL *x)
{
    void *work = factor->front;
    SWEEP_REAL *t = work;
    const int64_t stride = supernode_stride(s);
    const int64_t pivots = 3 * (int64_t)s->width;
    const int64_t rows = pivots + 3 * (int64_t)s->rows;
    SWEEP_NAME(gather)(factor->symbolic, s, x, t);
    for (int64_t at = pivots - 3; at >= 0; at -= 3) {
        SWEEP_NAME(backward_block)(factor->panels + s->panel + at * stride, stride, at, rows, t);
    }
    SWEEP_REAL *own = x + 3 * (int64_t)s->first;
    for (int64_t i = 0; i < pivots; i++) {
        own[i] = t[i];
    }
}

/* One node with `rows` nodes below it: everything stays in registers. */
LANES_INLINE void SWEEP_NAME(forward_small)(
    const double *panel, const kl_index *row, SWEEP_REAL *own, SWEEP_REAL *x, const int rows)
{
    const int n = 3 + 3 * rows;
    SWEEP_REAL t[9];
    for (int i = 0; i < 3; i++) {
        t[i] = own[i];
    }
    for (int i = 3; i < n; i++) {
        t[i] = x[3 * (int64_t)row[i / 3 - 1] + i % 3];
    }
    SWEEP_NAME(forward_block)(panel, n, 0, n, t);
    for (int i = 0; i < 3; i++) {
        own[i] = t[i];
    }
    for (int i = 3; i < n; i++) {
        x[3 * (int64_t)row[i / 3 - 1] + i % 3] = t[i];
    }
}

LANES_INLINE void SWEEP_NAME(backward_small)(
    const double *panel, const kl_index *row, SWEEP_REAL *own, const SWEEP_REAL *x, const int rows)
{
    const int n = 3 + 3 * rows;
    SWEEP_REAL sum[3];
    for (int k = 0; k < 3; k++) {
        sum[k] = own[k];
    }
    for (int i = n - 1; i >= 3; i--) { /* the first row below is the last to be known, on a line */
        const SWEEP_REAL below = x[3 * (int64_t)row[i / 3 - 1] + i % 3];
        for (int k = 0; k < 3; k++) {
            sum[k] -= below * panel[k * n + i];
        }
    }
    SWEEP_NAME(backward_corner)(panel, n, 0, sum, own);
}

static void SWEEP_NAME(solve)(const sparse_factor *factor, double *columns)
{
    const sparse_symbolic *symbolic = factor->symbolic;
    void *begin = columns;
    SWEEP_REAL *x = begin;
    for (kl_index i = 0; i < symbolic->count; i++) {
        const supernode *s = &symbolic->supernodes[i];
        SWEEP_REAL *own = x + 3 * (int64_t)s->first;
        const double *panel = factor->panels + s->panel;
        const kl_index *row = symbolic->row + s->row_at;
        if (!supernode_is_small(s)) {
            SWEEP_NAME(forward_front)(factor, s, x);
        } else if (s->rows == 1) {
            SWEEP_NAME(forward_small)(panel, row, own, x, 1);
        } else if (s->rows == 2) {
            SWEEP_NAME(forward_small)(panel, row, own, x, 2);
        } else {
            SWEEP_NAME(forward_small)(panel, row, own, x, 0);
        }
    }
    for (kl_index i = symbolic->count - 1; i >= 0; i--) {
        const supernode *s = &symbolic->supernodes[i];
        SWEEP_REAL *own = x + 3 * (int64_t)s->first;
        const double *panel = factor->panels + s->panel;
        const kl_index *row = symbolic->row + s->row_at;
        if (!supernode_is_small(s)) {
            SWEEP_NAME(backward_front)(factor, s, x);
        } else if (s->rows == 1) {
            SWEEP_NAME(backward_small)(panel, row, own, x, 1);
        } else if (s->rows == 2) {
            SWEEP_NAME(backward_small)(panel, row, own, x, 2);
        } else {
            SWEEP_NAME(backward_small)(panel, row, own, x, 0);
        }
    }
}

/* Bring columns into the order of elimination, by rows. `stride` apart, one a lane. */
static void SWEEP_NAME(gather_columns)(const sparse_symbolic *symbolic,
                                       const double *restrict x,
                                       size_t stride,
                                       double *restrict to)
{
    for (kl_index k = 0; k < symbolic->graph->node_count; k++) {
        const double *from = x + 3 * (size_t)symbolic->order[k];
        for (size_t c = 0; c < SWEEP_LANES; c++, from += stride) {
            for (size_t d = 0; d < 3; d++) {
                to[SWEEP_LANES * d + c] = from[d];
            }
        }
        to += 3 * SWEEP_LANES;
    }
}

/* And back. @return 0 when all numbers are finite, else NAN. */
static double SWEEP_NAME(scatter_columns)(const sparse_symbolic *symbolic,
                                          double *restrict x,
                                          size_t stride,
                                          const double *restrict from)
{
    SWEEP_REAL nothing = {0.0};
    for (kl_index k = 0; k < symbolic->graph->node_count; k++) {
        double *to = x + 3 * (size_t)symbolic->order[k];
        const void *rows = from;
        const SWEEP_REAL *row = rows;
        nothing += row[0] * 0.0;
        nothing += row[1] * 0.0;
        nothing += row[2] * 0.0;
        for (size_t c = 0; c < SWEEP_LANES; c++, to += stride) {
            for (size_t d = 0; d < 3; d++) {
                to[d] = from[SWEEP_LANES * d + c];
            }
        }
        from += 3 * SWEEP_LANES;
    }
    double parts[SWEEP_LANES];
    memcpy(parts, &nothing, sizeof parts);
    double sum = 0.0;
    for (size_t c = 0; c < SWEEP_LANES; c++) {
        sum += parts[c];
    }
    return sum;
}

static double SWEEP_NAME(solve_columns)(const sparse_factor *factor, double *x, size_t stride)
{
    SWEEP_NAME(gather_columns)(factor->symbolic, x, stride, factor->columns);
    SWEEP_NAME(solve)(factor, factor->columns);
    return SWEEP_NAME(scatter_columns)(factor->symbolic, x, stride, factor->columns);
}

#undef SWEEP_REAL
#undef SWEEP_LANES
#undef SWEEP_NAME
