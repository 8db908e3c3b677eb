/* sweep.h - right-hand sides through the factor and back. Included once for single columns and once for columns side by side:
 * SWEEP_REAL is a double or a vector of SWEEP_LANES, of which a row has SWEEP_VECTORS; SWEEP_NAME and SWEEP_COLUMNS give the names
 * of functions here and in columns.h. Every lane does the same operations in the same order, alone or in company.
 *
 * Each front is solved on a copy of its rows, which stand one after the other there: x of the pivots, then x of the rows
 * below. Sums of the way back are kept in four parts, by the number of the row, so that they need not wait for each other.
 * SPDX-License-Identifier: MIT */
#include <string.h>

#include "columns.h"
#include "lanes.h"
#include "numeric.h"

#ifndef SWEEP_REAL
#define SWEEP_REAL          double
#define SWEEP_VECTORS       1
#define SWEEP_LANES         1
#define SWEEP_NAME(name)    sweep_one_##name
#define SWEEP_COLUMNS(name) columns_one_##name
#endif

#ifndef KERNLINE_SWEEP_H
#define KERNLINE_SWEEP_H

/* Three columns of a panel times the rows `from` … `rows` - 1 of t. The four parts are a vector, else the compiler would add them
 * up one by one. */
LANES_INLINE void sweep_one_sums(
    const double *c, int64_t stride, int64_t from, int64_t rows, const double *t, double *sum)
{
    lanes_four part[3] = {{0.0}, {0.0}, {0.0}};
    int64_t i = from;
    for (; i + 4 <= rows; i += 4) {
        const lanes_four x = *(const lanes_four *)(t + i);
        for (int k = 0; k < 3; k++) {
            part[k] += x * *(const lanes_four *)(c + k * stride + i);
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

/* The same for a vector of columns side by side. */
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
                part[k][q] += t[COLUMNS_VECTORS * (i + q)] * c[k * stride + i + q];
            }
        }
    }
    for (int q = 0; i + q < rows; q++) {
        for (int k = 0; k < 3; k++) {
            part[k][q] += t[COLUMNS_VECTORS * (i + q)] * c[k * stride + i + q];
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
    SWEEP_REAL y[3][SWEEP_VECTORS];
    SWEEP_REAL *own = t + SWEEP_VECTORS * at;
    for (int v = 0; v < SWEEP_VECTORS; v++) {
        y[0][v] = own[v] * c[at];
        y[1][v] = (own[SWEEP_VECTORS + v] - y[0][v] * c[at + 1]) * d[at + 1];
        y[2][v] =
            (own[2 * SWEEP_VECTORS + v] - y[0][v] * c[at + 2] - y[1][v] * d[at + 2]) * e[at + 2];
        for (int k = 0; k < 3; k++) {
            own[SWEEP_VECTORS * k + v] = y[k][v];
        }
    }
    for (int64_t i = at + 3; i < rows; i++) {
        for (int v = 0; v < SWEEP_VECTORS; v++) {
            SWEEP_REAL x = t[SWEEP_VECTORS * i + v];
            x -= y[0][v] * c[i];
            x -= y[1][v] * d[i];
            x -= y[2][v] * e[i];
            t[SWEEP_VECTORS * i + v] = x;
        }
    }
}

/* L' z = y for the three rows of a column of blocks, with the rows below known. */
LANES_INLINE void
SWEEP_NAME(backward_block)(const double *c, int64_t stride, int64_t at, int64_t rows, SWEEP_REAL *t)
{
    const double *d = c + stride;
    const double *e = d + stride;
    for (int v = 0; v < SWEEP_VECTORS; v++) {
        SWEEP_REAL *own = t + SWEEP_VECTORS * at + v;
        SWEEP_REAL sum[3];
        SWEEP_NAME(sums)(c, stride, at + 3, rows, t + v, sum);
        const SWEEP_REAL x2 = (own[2 * SWEEP_VECTORS] - sum[2]) * e[at + 2];
        const SWEEP_REAL x1 = (own[SWEEP_VECTORS] - sum[1] - x2 * d[at + 2]) * d[at + 1];
        own[0] = (own[0] - sum[0] - x2 * c[at + 2] - x1 * c[at + 1]) * c[at];
        own[SWEEP_VECTORS] = x1;
        own[2 * SWEEP_VECTORS] = x2;
    }
}

/* Rows of a node, from one array to another. */
LANES_INLINE void SWEEP_NAME(copy)(const SWEEP_REAL *from, SWEEP_REAL *to, int64_t nodes)
{
    for (int64_t i = 0; i < 3 * SWEEP_VECTORS * nodes; i++) {
        to[i] = from[i];
    }
}

LANES_INLINE int64_t SWEEP_NAME(at)(int64_t place)
{
    return 3 * SWEEP_VECTORS * place;
}

static inline void SWEEP_NAME(gather)(const sparse_symbolic *symbolic,
                                      const supernode *s,
                                      const SWEEP_REAL *x,
                                      SWEEP_REAL *t)
{
    const kl_index *row = symbolic->row + s->row_at;
    SWEEP_NAME(copy)(x + SWEEP_NAME(at)(s->first), t, s->width);
    for (kl_index i = 0; i < s->rows; i++) {
        SWEEP_NAME(copy)(x + SWEEP_NAME(at)(row[i]), t + SWEEP_NAME(at)(s->width + i), 1);
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
    const kl_index *row = factor->symbolic->row + s->row_at;
    SWEEP_NAME(copy)(t, x + SWEEP_NAME(at)(s->first), s->width);
    for (kl_index i = 0; i < s->rows; i++) {
        SWEEP_NAME(copy)(t + SWEEP_NAME(at)(s->width + i), x + SWEEP_NAME(at)(row[i]), 1);
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
    SWEEP_NAME(copy)(t, x + SWEEP_NAME(at)(s->first), s->width);
}

/* One node with `rows` nodes below it: M off the rows below first, for which the next node waits, then L D L' z = x. */
LANES_INLINE void SWEEP_NAME(forward_small)(
    const double *c, const kl_index *row, SWEEP_REAL *own, SWEEP_REAL *x, const int rows)
{
    const int n = 3 + 3 * rows;
    const double *d = c + n;
    const double *e = d + n;
    for (int v = 0; v < SWEEP_VECTORS; v++) {
        const SWEEP_REAL x0 = own[v];
        const SWEEP_REAL x1 = own[SWEEP_VECTORS + v];
        const SWEEP_REAL x2 = own[2 * SWEEP_VECTORS + v];
        for (int i = 3; i < n; i++) {
            SWEEP_REAL *below = x + SWEEP_NAME(at)(row[i / 3 - 1]) + SWEEP_VECTORS * (i % 3) + v;
            *below = *below - x0 * c[i] - x1 * d[i] - x2 * e[i];
        }
        const SWEEP_REAL y1 = x1 - x0 * c[1];
        const SWEEP_REAL z2 = (x2 - x0 * c[2] - y1 * d[2]) * e[2];
        const SWEEP_REAL z1 = y1 * d[1] - z2 * d[2];
        own[v] = x0 * c[0] - z2 * c[2] - z1 * c[1];
        own[SWEEP_VECTORS + v] = z1;
        own[2 * SWEEP_VECTORS + v] = z2;
    }
}

/* x = z - M' x of the rows below. On a line the first of these is the last to be known. */
LANES_INLINE void SWEEP_NAME(backward_small)(
    const double *c, const kl_index *row, SWEEP_REAL *own, const SWEEP_REAL *x, const int rows)
{
    const int n = 3 + 3 * rows;
    for (int v = 0; v < SWEEP_VECTORS; v++) {
        SWEEP_REAL sum[3];
        for (int k = 0; k < 3; k++) {
            sum[k] = own[SWEEP_VECTORS * k + v];
        }
        for (int i = n - 1; i >= 3; i--) {
            const SWEEP_REAL below =
                x[SWEEP_NAME(at)(row[i / 3 - 1]) + SWEEP_VECTORS * (i % 3) + v];
            for (int k = 0; k < 3; k++) {
                sum[k] -= below * c[k * n + i];
            }
        }
        for (int k = 0; k < 3; k++) {
            own[SWEEP_VECTORS * k + v] = sum[k];
        }
    }
}

static void SWEEP_NAME(forward)(const sparse_factor *factor, SWEEP_REAL *x)
{
    const sparse_symbolic *symbolic = factor->symbolic;
    for (kl_index i = 0; i < symbolic->count; i++) {
        const supernode *s = &symbolic->supernodes[i];
        SWEEP_REAL *own = x + SWEEP_NAME(at)(s->first);
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
}

/* Answers leave for their columns as soon as they are known. @return 0 when all are finite, else NAN. */
static double
SWEEP_NAME(backward)(const sparse_factor *factor, SWEEP_REAL *x, const columns_place *place)
{
    const sparse_symbolic *symbolic = factor->symbolic;
    SWEEP_REAL nothing[3];
    memset(nothing, 0, sizeof nothing);
    for (kl_index i = symbolic->count - 1; i >= 0; i--) {
        const supernode *s = &symbolic->supernodes[i];
        SWEEP_REAL *own = x + SWEEP_NAME(at)(s->first);
        const double *panel = factor->panels + s->panel;
        const kl_index *row = symbolic->row + s->row_at;
        if (!supernode_is_small(s)) {
            SWEEP_NAME(backward_front)(factor, s, x);
        } else if (s->rows == 1) {
            SWEEP_NAME(backward_small)(panel, row, own, x, 1);
        } else if (s->rows == 2) {
            SWEEP_NAME(backward_small)(panel, row, own, x, 2);
        }
        SWEEP_COLUMNS(scatter)(place, s->first, s->first + s->width, own, nothing);
    }
    const SWEEP_REAL sum = nothing[0] + nothing[1] + nothing[2];
    double parts[SWEEP_LANES];
    memcpy(parts, &sum, sizeof parts);
    for (int c = 1; c < SWEEP_LANES; c++) {
        parts[0] += parts[c];
    }
    return parts[0];
}

static double SWEEP_NAME(solve)(const sparse_factor *factor, const double *b, int count, double *to)
{
    const kl_index nodes = factor->symbolic->graph->node_count;
    const columns_place place = {
        .order = factor->symbolic->order,
        .from = b,
        .to = to,
        .nodes = nodes,
        .stride = 3 * (size_t)nodes,
        .count = count,
    };
    void *rows = factor->columns;
    SWEEP_REAL *x = rows;
    SWEEP_COLUMNS(gather)(&place, factor->columns);
    SWEEP_NAME(forward)(factor, x);
    return SWEEP_NAME(backward)(factor, x, &place);
}

#undef SWEEP_REAL
#undef SWEEP_VECTORS
#undef SWEEP_LANES
#undef SWEEP_NAME
#undef SWEEP_COLUMNS
