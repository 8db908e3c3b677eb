/* sweep.h - right-hand sides through the factor and back. Included once for single columns and once for columns side by side:
 * SWEEP_REAL is a double or a vector of SWEEP_LANES, of which a row has SWEEP_VECTORS; SWEEP_NAME and SWEEP_COLUMNS give the names
 * of functions here and in columns.h. Every lane does the same operations in the same order, alone or in company.
 *
 * Each front is solved on a copy of its rows, which stand one after the other there: x of the pivots, then x of the rows
 * below. A block of the panel's columns is taken together, so that t passes from cache to core once for all of them. Sums of the way
 * back are kept in four parts, by the number of the row, so that they need not wait for each other.
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

/* Columns of a panel that are taken together, and rows whose t stays in the first cache meanwhile. */
#define SWEEP_BLOCK 12
#define SWEEP_ROWS  192

typedef int64_t sweep_mask __attribute__((vector_size(32)));

/* The first few of four numbers, and naught, whatever stands after them. */
LANES_INLINE void sweep_first(const double *from, int64_t count, lanes_four *to)
{
    static const sweep_mask masks[4] = {{0}, {-1}, {-1, -1}, {-1, -1, -1}};
    *to = (lanes_four)((sweep_mask) * (const lanes_four *)from & masks[count]);
}

/* Off rows `from` … `to` - 1 of t, the `columns` columns of a panel from c on times the rows y of t. */
LANES_INLINE void sweep_one_forward_rows(const double *restrict c,
                                         int64_t stride,
                                         int64_t columns,
                                         int64_t from,
                                         int64_t to,
                                         const double *y,
                                         double *t)
{
    for (int64_t k = 0; k < columns; k += 3, c += 3 * stride, y += 3) {
        const double y0 = y[0];
        const double y1 = y[1];
        const double y2 = y[2];
        for (int64_t i = from; i < to; i++) {
            double x = t[i];
            x -= y0 * c[i];
            x -= y1 * c[stride + i];
            x -= y2 * c[2 * stride + i];
            t[i] = x;
        }
    }
}

/* The same for columns side by side: a tile of `height` rows in registers. */
LANES_INLINE void sweep_many_forward_tile(
    const double *c, int64_t stride, int64_t columns, const lanes *y, lanes *t, const int height)
{
    lanes x[6][COLUMNS_VECTORS];
    for (int i = 0; i < height; i++) {
        for (int v = 0; v < COLUMNS_VECTORS; v++) {
            x[i][v] = t[COLUMNS_VECTORS * i + v];
        }
    }
    for (int64_t k = 0; k < columns; k++, c += stride, y += COLUMNS_VECTORS) {
        for (int i = 0; i < height; i++) {
            const lanes l = c[i] - (lanes){0.0};
            for (int v = 0; v < COLUMNS_VECTORS; v++) {
                x[i][v] -= y[v] * l;
            }
        }
    }
    for (int i = 0; i < height; i++) {
        for (int v = 0; v < COLUMNS_VECTORS; v++) {
            t[COLUMNS_VECTORS * i + v] = x[i][v];
        }
    }
}

LANES_INLINE void sweep_many_forward_rows(const double *c,
                                          int64_t stride,
                                          int64_t columns,
                                          int64_t from,
                                          int64_t to,
                                          const lanes *y,
                                          lanes *t)
{
    int64_t i = from;
    for (; i + 6 <= to; i += 6) {
        sweep_many_forward_tile(c + i, stride, columns, y, t + COLUMNS_VECTORS * i, 6);
    }
    if (i < to) {
        sweep_many_forward_tile(c + i, stride, columns, y, t + COLUMNS_VECTORS * i, 3);
    }
}

/* Three columns of a panel times the rows `from` … `to` - 1 of t, off the three `own`. The four parts are a vector, else the
 * compiler would add them up one by one. A sum of nothing is + 0, of however many nothings. */
LANES_INLINE void sweep_one_subtract_sums(
    const double *c, int64_t stride, int64_t from, int64_t to, const double *t, double *own)
{
    lanes_four part[3] = {{0.0}, {0.0}, {0.0}};
    int64_t i = from;
    for (; i + 4 <= to; i += 4) {
        const lanes_four x = *(const lanes_four *)(t + i);
        for (int k = 0; k < 3; k++) {
            part[k] += x * *(const lanes_four *)(c + k * stride + i);
        }
    }
    if (i < to) {
        lanes_four x;
        sweep_first(t + i, to - i, &x);
        for (int k = 0; k < 3; k++) {
            lanes_four l;
            sweep_first(c + k * stride + i, to - i, &l);
            part[k] += x * l;
        }
    }
    for (int k = 0; k < 3; k++) {
        own[k] -= ((part[k][0] + part[k][1]) + (part[k][2] + part[k][3])) + 0.0;
    }
}

/* The same for some of the vectors of columns side by side. */
LANES_INLINE void sweep_many_subtract_some(const double *c,
                                           int64_t stride,
                                           int64_t from,
                                           int64_t to,
                                           const lanes *t,
                                           lanes *own,
                                           const int vectors)
{
    lanes part[COLUMNS_VECTORS][3][4];
    for (int v = 0; v < vectors; v++) {
        for (int k = 0; k < 12; k++) {
            part[v][k / 4][k % 4] = (lanes){0.0};
        }
    }
    for (int64_t i = from; i < to; i += 4) {
        for (int q = 0; q < 4 && i + q < to; q++) {
            lanes x[COLUMNS_VECTORS];
            for (int v = 0; v < vectors; v++) {
                x[v] = t[COLUMNS_VECTORS * (i + q) + v];
            }
            for (int k = 0; k < 3; k++) {
                const lanes l = c[k * stride + i + q] - (lanes){0.0};
                for (int v = 0; v < vectors; v++) {
                    part[v][k][q] += x[v] * l;
                }
            }
        }
    }
    for (int k = 0; k < 3; k++) {
        for (int v = 0; v < vectors; v++) {
            const lanes *p = part[v][k];
            own[COLUMNS_VECTORS * k + v] -= ((p[0] + p[1]) + (p[2] + p[3])) + 0.0;
        }
    }
}

/* All of them at once where there are registers for the parts. */
LANES_INLINE void sweep_many_subtract_sums(
    const double *c, int64_t stride, int64_t from, int64_t to, const lanes *t, lanes *own)
{
    if (LANES == 8) {
        sweep_many_subtract_some(c, stride, from, to, t, own, COLUMNS_VECTORS);
    } else {
        for (int v = 0; v < COLUMNS_VECTORS; v++) {
            sweep_many_subtract_some(c, stride, from, to, t + v, own + v, 1);
        }
    }
}
#endif

/* L y = x for the columns `begin` … `end` - 1 of a panel and their rows, three at a time. */
LANES_INLINE void SWEEP_NAME(forward_corner)(
    const double *panel, int64_t stride, int64_t begin, int64_t end, SWEEP_REAL *t)
{
    for (int64_t at = begin; at < end; at += 3) {
        const double *c = panel + at * stride;
        const double *d = c + stride;
        const double *e = d + stride;
        SWEEP_REAL *own = t + SWEEP_VECTORS * at;
        for (int v = 0; v < SWEEP_VECTORS; v++) {
            const SWEEP_REAL y0 = own[v] * c[at];
            const SWEEP_REAL y1 = (own[SWEEP_VECTORS + v] - y0 * c[at + 1]) * d[at + 1];
            const SWEEP_REAL y2 =
                (own[2 * SWEEP_VECTORS + v] - y0 * c[at + 2] - y1 * d[at + 2]) * e[at + 2];
            own[v] = y0;
            own[SWEEP_VECTORS + v] = y1;
            own[2 * SWEEP_VECTORS + v] = y2;
        }
        SWEEP_NAME(forward_rows)(c, stride, 3, at + 3, end, own, t);
    }
}

/* L' z = y likewise, with the rows below known. */
LANES_INLINE void SWEEP_NAME(backward_corner)(
    const double *panel, int64_t stride, int64_t begin, int64_t end, SWEEP_REAL *t)
{
    for (int64_t at = end - 3; at >= begin; at -= 3) {
        const double *c = panel + at * stride;
        const double *d = c + stride;
        const double *e = d + stride;
        SWEEP_REAL *own = t + SWEEP_VECTORS * at;
        if (at + 3 < end) {
            SWEEP_NAME(subtract_sums)(c, stride, at + 3, end, t, own);
        }
        for (int v = 0; v < SWEEP_VECTORS; v++) {
            const SWEEP_REAL z2 = own[2 * SWEEP_VECTORS + v] * e[at + 2];
            const SWEEP_REAL z1 = (own[SWEEP_VECTORS + v] - z2 * d[at + 2]) * d[at + 1];
            own[v] = (own[v] - z2 * c[at + 2] - z1 * c[at + 1]) * c[at];
            own[SWEEP_VECTORS + v] = z1;
            own[2 * SWEEP_VECTORS + v] = z2;
        }
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
    const double *panel = factor->panels + s->panel;
    const int64_t stride = supernode_stride(s);
    const int64_t pivots = 3 * (int64_t)s->width;
    const int64_t rows = pivots + 3 * (int64_t)s->rows;
    SWEEP_NAME(gather)(factor->symbolic, s, x, t);
    for (int64_t begin = 0; begin < pivots; begin += SWEEP_BLOCK) {
        const int64_t end = begin + SWEEP_BLOCK < pivots ? begin + SWEEP_BLOCK : pivots;
        SWEEP_NAME(forward_corner)(panel, stride, begin, end, t);
        SWEEP_NAME(forward_rows)
        (panel + begin * stride, stride, end - begin, end, rows, t + SWEEP_VECTORS * begin, t);
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
    const double *panel = factor->panels + s->panel;
    const int64_t stride = supernode_stride(s);
    const int64_t pivots = 3 * (int64_t)s->width;
    const int64_t rows = pivots + 3 * (int64_t)s->rows;
    SWEEP_NAME(gather)(factor->symbolic, s, x, t);
    for (int64_t end = pivots; end > 0;) {
        const int64_t begin = (end - 1) / SWEEP_BLOCK * SWEEP_BLOCK;
        for (int64_t from = end; from < rows; from += SWEEP_ROWS) {
            const int64_t to = from + SWEEP_ROWS < rows ? from + SWEEP_ROWS : rows;
            for (int64_t at = begin; at < end; at += 3) {
                SWEEP_NAME(subtract_sums)
                (panel + at * stride, stride, from, to, t, t + SWEEP_VECTORS * at);
            }
        }
        SWEEP_NAME(backward_corner)(panel, stride, begin, end, t);
        end = begin;
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
    columns_place place = {
        .order = factor->symbolic->order,
        .from = b,
        .nodes = nodes,
        .stride = 3 * (size_t)nodes,
        .count = count,
    };
    place.to = to;
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
