/* columns.h - right-hand sides into the order of elimination, side by side, and back: a transposition of three rows and several
 * columns at each node. Static functions, for the passes only.
 * SPDX-License-Identifier: MIT */
#ifndef KERNLINE_COLUMNS_H
#define KERNLINE_COLUMNS_H

#include "lanes.h"
#include "numeric.h"

/* Columns side by side: two vectors of them, so that one can work while the other waits. */
#define COLUMNS_VECTORS 2
#define COLUMNS_MANY    (COLUMNS_VECTORS * LANES)

/* Where columns come from and go to; the same place, or places apart. */
typedef struct columns_place {
    const kl_index *order;
    const double *from;
    double *to;
    kl_index nodes;
    size_t stride; /* from one column to the next */
    int count;     /* of columns */
} columns_place;

LANES_INLINE void columns_one_gather(const columns_place *place, double *to)
{
    for (kl_index k = 0; k < place->nodes; k++, to += 3) {
        const double *from = place->from + 3 * (size_t)place->order[k];
        for (int d = 0; d < 3; d++) {
            to[d] = from[d];
        }
    }
}

/* Places `begin` … `end` - 1, where `from` has the rows of the first. `nothing` stays 0 while all numbers are finite. */
LANES_INLINE void columns_one_scatter(
    const columns_place *place, kl_index begin, kl_index end, const double *from, double *nothing)
{
    for (kl_index k = begin; k < end; k++, from += 3) {
        double *to = place->to + 3 * (size_t)place->order[k];
        for (int d = 0; d < 3; d++) {
            to[d] = from[d];
            nothing[d] += from[d] * 0.0;
        }
    }
}

/* Four columns at one node, in registers. Of each column a number more is read than the node has. */
LANES_INLINE void columns_gather_four(const double *x, size_t stride, double *to)
{
    const lanes_four a = *(const lanes_four *)x;
    const lanes_four b = *(const lanes_four *)(x + stride);
    const lanes_four c = *(const lanes_four *)(x + 2 * stride);
    const lanes_four d = *(const lanes_four *)(x + 3 * stride);
    const lanes_four ab_even = __builtin_shufflevector(a, b, 0, 4, 2, 6);
    const lanes_four cd_even = __builtin_shufflevector(c, d, 0, 4, 2, 6);
    const lanes_four ab_odd = __builtin_shufflevector(a, b, 1, 5, 3, 7);
    const lanes_four cd_odd = __builtin_shufflevector(c, d, 1, 5, 3, 7);
    *(lanes_four *)to = __builtin_shufflevector(ab_even, cd_even, 0, 1, 4, 5);
    *(lanes_four *)(to + COLUMNS_MANY) = __builtin_shufflevector(ab_odd, cd_odd, 0, 1, 4, 5);
    *(lanes_four *)(to + 2 * COLUMNS_MANY) = __builtin_shufflevector(ab_even, cd_even, 2, 3, 6, 7);
}

/* `count` columns at one node; the others are none, and must not be told from answers that are not finite. */
LANES_INLINE void
columns_gather_node(const double *x, size_t stride, const int count, bool is_last, double *to)
{
    int c = 0;
    for (; c + 4 <= count && !is_last; c += 4) {
        columns_gather_four(x + stride * (size_t)c, stride, to + c);
    }
    for (; c < COLUMNS_MANY; c++) {
        for (int d = 0; d < 3; d++) {
            to[COLUMNS_MANY * d + c] = c < count ? x[stride * (size_t)c + (size_t)d] : 0.0;
        }
    }
}

static inline void columns_many_gather(const columns_place *place, double *to)
{
    for (kl_index k = 0; k < place->nodes; k++, to += 3 * COLUMNS_MANY) {
        const kl_index node = place->order[k];
        const double *from = place->from + 3 * (size_t)node;
        const bool is_last = node == place->nodes - 1;
        if (place->count == COLUMNS_MANY) {
            columns_gather_node(from, place->stride, COLUMNS_MANY, is_last, to);
        } else {
            columns_gather_node(from, place->stride, place->count, is_last, to);
        }
    }
}

LANES_INLINE void columns_scatter_four(const double *from, double *x, size_t stride)
{
    const lanes_four r0 = *(const lanes_four *)from;
    const lanes_four r1 = *(const lanes_four *)(from + COLUMNS_MANY);
    const lanes_four r2 = *(const lanes_four *)(from + 2 * COLUMNS_MANY);
    const lanes_four even = __builtin_shufflevector(r0, r1, 0, 4, 2, 6);
    const lanes_four odd = __builtin_shufflevector(r0, r1, 1, 5, 3, 7);
    *(lanes_two *)x = __builtin_shufflevector(even, even, 0, 1);
    *(lanes_two *)(x + stride) = __builtin_shufflevector(odd, odd, 0, 1);
    *(lanes_two *)(x + 2 * stride) = __builtin_shufflevector(even, even, 2, 3);
    *(lanes_two *)(x + 3 * stride) = __builtin_shufflevector(odd, odd, 2, 3);
    for (size_t c = 0; c < 4; c++) {
        x[stride * c + 2] = r2[c];
    }
}

LANES_INLINE void
columns_scatter_node(const double *from, double *x, size_t stride, const int count)
{
    int c = 0;
    for (; c + 4 <= count; c += 4) {
        columns_scatter_four(from + c, x + stride * (size_t)c, stride);
    }
    for (; c < count; c++) {
        for (int d = 0; d < 3; d++) {
            x[stride * (size_t)c + (size_t)d] = from[COLUMNS_MANY * d + c];
        }
    }
}

LANES_INLINE void columns_many_scatter(
    const columns_place *place, kl_index begin, kl_index end, const lanes *from, lanes *nothing)
{
    for (kl_index k = begin; k < end; k++, from += 3 * COLUMNS_VECTORS) {
        double *to = place->to + 3 * (size_t)place->order[k];
        const void *rows = from;
        if (place->count == COLUMNS_MANY) {
            columns_scatter_node(rows, to, place->stride, COLUMNS_MANY);
        } else {
            columns_scatter_node(rows, to, place->stride, place->count);
        }
        for (int d = 0; d < 3; d++) {
            for (int v = 0; v < COLUMNS_VECTORS; v++) {
                nothing[d] += from[COLUMNS_VECTORS * d + v] * 0.0;
            }
        }
    }
}

#endif
