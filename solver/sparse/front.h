/* front.h - elimination in a front of any size: assemble, factor the panel, make the contribution. Static functions, for
 * the passes only.
 *
 * The panel is factored from the left, six columns (two nodes) at a time: what the columns before do to them is one product
 * of a tall and a small matrix, held in registers; then the six among themselves. The contribution is the same product.
 * Rows are taken in whole lines of the cache: what lies above the diagonal, and below the last row, is computed along and
 * never read.
 * SPDX-License-Identifier: MIT */
#ifndef KERNLINE_FRONT_H
#define KERNLINE_FRONT_H

#include <math.h>
#include <string.h>

#include "lanes.h"
#include "numeric.h"

#define FRONT_BLOCK 6

/* Sound at a glance, or judged. */
LANES_INLINE bool front_accept(numeric_pass *pass, int64_t unknown, double pivot)
{
    const kl_index node = pass->factor->symbolic->order[unknown / 3];
    const double original = pass->diag[9 * (size_t)node + 4 * (size_t)(unknown % 3)];
    const bool sound = pivot > 0.0 && pivot >= pass->suspect_limit * original && pivot < HUGE_VAL;
    return sound || numeric_judge(pass, unknown, pivot, original);
}

/* C = C - A B', or - A B' alone: `height` vectors of rows, `columns` columns; A and B begin at a and b and have `depth`
 * columns `stride` apart. */
LANES_INLINE void front_tile(const double *a,
                             const double *b,
                             int64_t stride,
                             int64_t depth,
                             double *c,
                             int64_t c_stride,
                             const int height,
                             const int columns,
                             bool add)
{
    lanes sum[2][FRONT_BLOCK];
    for (int j = 0; j < columns; j++) {
        for (int v = 0; v < height; v++) {
            sum[v][j] = (lanes){0.0};
        }
    }
    for (int64_t k = 0; k < depth; k++) {
        for (int v = 0; v < height; v++) {
            const lanes left = *(const lanes *)(a + k * stride + LANES * v);
            for (int j = 0; j < columns; j++) {
                sum[v][j] += left * b[k * stride + j];
            }
        }
    }
    for (int j = 0; j < columns; j++) {
        for (int v = 0; v < height; v++) {
            lanes *to = (lanes *)(c + j * c_stride + LANES * v);
            const lanes before = add ? *to : (lanes){0.0};
            *to = before - sum[v][j];
        }
    }
}

/* The product for a block of columns and rows `from` … `to`, whole lines. */
LANES_INLINE void front_product(const double *a,
                                const double *b,
                                int64_t stride,
                                int64_t depth,
                                double *c,
                                int64_t c_stride,
                                int64_t from,
                                int64_t to,
                                const int columns,
                                bool add)
{
    int64_t i = from;
    for (; i + 2 * LANES <= to; i += 2 * LANES) {
        front_tile(a + i, b, stride, depth, c + i, c_stride, 2, columns, add);
    }
    if (i < to) {
        front_tile(a + i, b, stride, depth, c + i, c_stride, 1, columns, add);
    }
}

/* A block on the diagonal while it is factored, by rows. */
typedef struct front_diagonal {
    double l[FRONT_BLOCK][FRONT_BLOCK]; /* lower triangle */
    double inverse[FRONT_BLOCK];        /* 1 / l_jj */
} front_diagonal;

/* Divisions alone are on the way from pivot to pivot; the roots come after.
 * @return the columns eliminated. */
LANES_INLINE int
front_factor_diagonal(numeric_pass *pass, int64_t unknown, front_diagonal *d, const int columns)
{
    int done = 0;
    for (int k = 0; k < columns; k++) {
        const double pivot = d->l[k][k];
        if (!front_accept(pass, unknown + k, pivot)) {
            break;
        }
        done++;
        const double reciprocal = 1.0 / pivot;
        d->inverse[k] = sqrt(reciprocal);
        for (int j = k + 1; j < columns; j++) {
            const double share = d->l[j][k] * reciprocal;
            for (int i = j; i < columns; i++) {
                d->l[i][j] -= d->l[i][k] * share;
            }
        }
    }
    for (int k = 0; k < done; k++) {
        for (int i = k + 1; i < columns; i++) {
            d->l[i][k] *= d->inverse[k];
        }
    }
    return done;
}

/* Rows of the block of columns, from `from` on: x = x L'^-1. */
LANES_INLINE void front_solve_rows(double *block,
                                   int64_t stride,
                                   int64_t from,
                                   int64_t to,
                                   const front_diagonal *d,
                                   const int columns)
{
    for (int64_t i = from; i < to; i += LANES) {
        lanes x[FRONT_BLOCK];
        for (int j = 0; j < columns; j++) {
            x[j] = *(const lanes *)(block + j * stride + i);
            for (int k = 0; k < j; k++) {
                x[j] -= x[k] * d->l[j][k];
            }
            x[j] *= d->inverse[j];
            *(lanes *)(block + j * stride + i) = x[j];
        }
    }
}

/* Columns at … at + columns - 1 of a panel. @return the columns eliminated. */
LANES_INLINE int front_eliminate_block(numeric_pass *pass,
                                       int64_t unknown,
                                       double *panel,
                                       int64_t stride,
                                       int64_t at,
                                       const int columns)
{
    double *block = panel + at * stride;
    const int64_t line = at / SUPERNODE_LINE * SUPERNODE_LINE;
    if (at > 0) {
        front_product(panel, panel + at, stride, at, block, stride, line, stride, columns, true);
    }
    front_diagonal d;
    for (int j = 0; j < columns; j++) {
        for (int i = j; i < columns; i++) {
            d.l[i][j] = block[j * stride + at + i];
        }
    }
    const int done = front_factor_diagonal(pass, unknown + at, &d, columns);
    if (done == columns) {
        front_solve_rows(block, stride, line, stride, &d, columns);
    }
    for (int j = 0; j < columns; j++) {
        block[j * stride + at + j] = j < done ? d.inverse[j] : d.l[j][j];
        for (int i = j + 1; i < columns; i++) {
            block[j * stride + at + i] = d.l[i][j];
        }
    }
    return done;
}

/* @return the columns of the panel that were eliminated. */
static inline int64_t front_eliminate(
    numeric_pass *pass, const supernode *s, double *panel, double *contribution, bool add)
{
    const int64_t stride = supernode_stride(s);
    const int64_t pivots = 3 * (int64_t)s->width;
    const int64_t unknown = 3 * (int64_t)s->first;
    int64_t at = 0;
    while (at < pivots) {
        const int columns = pivots - at >= FRONT_BLOCK ? FRONT_BLOCK : 3;
        const int done = columns == FRONT_BLOCK
                             ? front_eliminate_block(pass, unknown, panel, stride, at, FRONT_BLOCK)
                             : front_eliminate_block(pass, unknown, panel, stride, at, 3);
        at += done;
        if (done < columns) {
            return at;
        }
    }
    const int64_t c_stride = supernode_contribution_stride(s);
    const int64_t rows = 3 * (int64_t)s->rows;
    for (int64_t j = 0; j < rows; j += FRONT_BLOCK) {
        const int64_t line = j / SUPERNODE_LINE * SUPERNODE_LINE;
        const double *below = panel + pivots;
        double *to = contribution + j * c_stride;
        if (rows - j >= FRONT_BLOCK) {
            front_product(below, below + j, stride, pivots, to, c_stride, line, c_stride,
                          FRONT_BLOCK, add);
        } else {
            front_product(below, below + j, stride, pivots, to, c_stride, line, c_stride, 3, add);
        }
    }
    return at;
}

/* ---- assembly ---------------------------------------------------------------------------------------------------- */

/* Put a block of the matrix; `nothing` stays 0 when its values are finite. */
LANES_INLINE void
front_put_link(numeric_pass *pass, supernode_link link, double *panel, int64_t stride)
{
    const double *block = pass->off + 9 * (size_t)(link.source / 2);
    const int row_step = link.source % 2 != 0 ? 1 : 3;
    const int column_step = 4 - row_step;
    double nothing = 0.0;
    for (int j = 0; j < 3; j++) {
        for (int i = 0; i < 3; i++) {
            panel[link.to + j * stride + i] = block[row_step * i + column_step * j];
        }
    }
    for (int i = 0; i < 9; i++) {
        nothing += 0.0 * block[i];
    }
    pass->nothing += nothing;
}

LANES_INLINE void
front_put_diagonal(numeric_pass *pass, kl_index place, double *corner, int64_t stride)
{
    const double *block = pass->diag + 9 * (size_t)pass->factor->symbolic->order[place];
    double nothing = 0.0;
    for (int j = 0; j < 3; j++) {
        for (int i = j; i < 3; i++) {
            corner[j * stride + i] = block[3 * i + j];
        }
    }
    for (int i = 0; i < 9; i++) {
        nothing += 0.0 * block[i];
    }
    pass->nothing += nothing;
}

/* Rows of the child that follow each other in the parent too, as pairs (first, length). */
static inline kl_index front_find_runs(const kl_index *relative, kl_index rows, kl_index *runs)
{
    kl_index count = 0;
    for (kl_index i = 0; i < rows; i++) {
        if (i > 0 && relative[i] == relative[i - 1] + 1) {
            runs[2 * count - 1]++;
        } else {
            runs[2 * count] = i;
            runs[2 * count + 1] = 1;
            count++;
        }
    }
    return count;
}

/* A front as two parts: column j is in the panel when j < 3 width, else in the contribution. */
typedef struct front_parts {
    const supernode *s;
    double *panel;
    double *contribution;
} front_parts;

/* Add one node column of a child, from its diagonal down. */
static inline void front_add_column(const front_parts *front,
                                    const double *from,
                                    int64_t from_stride,
                                    kl_index column,
                                    const kl_index *relative,
                                    const kl_index *runs,
                                    kl_index run_count)
{
    const kl_index to_column = relative[column];
    const kl_index width = front->s->width;
    const bool left = to_column < width;
    const int64_t stride =
        left ? supernode_stride(front->s) : supernode_contribution_stride(front->s);
    const kl_index above = left ? 0 : width;
    double *to =
        (left ? front->panel : front->contribution) + 3 * (int64_t)(to_column - above) * stride;
    for (kl_index r = 0; r < run_count; r++) {
        kl_index begin = runs[2 * r];
        const kl_index end = begin + runs[2 * r + 1];
        begin = begin > column ? begin : column;
        if (begin >= end) {
            continue;
        }
        const int64_t count = 3 * (int64_t)(end - begin);
        const double *source = from + 3 * (int64_t)begin;
        double *target = to + 3 * (int64_t)(relative[begin] - above);
        for (int j = 0; j < 3; j++) {
            for (int64_t i = 0; i < count; i++) {
                target[j * stride + i] += source[j * from_stride + i];
            }
        }
    }
}

static inline void
front_add_child(numeric_pass *pass, const front_parts *front, const supernode *child)
{
    const kl_index *relative = pass->factor->symbolic->relative + child->row_at;
    kl_index *runs = pass->factor->runs;
    const kl_index run_count = front_find_runs(relative, child->rows, runs);
    const double *from = pass->factor->stacks + child->contribution;
    const int64_t stride = supernode_contribution_stride(child);
    for (kl_index j = 0; j < child->rows; j++) {
        /* runs above the diagonal are done with */
        front_add_column(front, from + 3 * (int64_t)j * stride, stride, j, relative, runs,
                         run_count);
    }
}

static inline bool front_assemble(numeric_pass *pass, const front_parts *front)
{
    const sparse_symbolic *symbolic = pass->factor->symbolic;
    const supernode *s = front->s;
    const int64_t stride = supernode_stride(s);
    memset(front->panel, 0, (size_t)(3 * (int64_t)s->width * stride) * sizeof(double));
    for (kl_index k = 0; k < s->width; k++) {
        front_put_diagonal(pass, s->first + k, front->panel + 3 * (int64_t)k * (stride + 1),
                           stride);
    }
    for (kl_index i = s->link_at; i < s[1].link_at; i++) {
        front_put_link(pass, symbolic->links[i], front->panel, stride);
    }
    const bool has_children = s->child_at < s[1].child_at;
    if (has_children) {
        memset(front->contribution, 0,
               (size_t)(3 * (int64_t)s->rows * supernode_contribution_stride(s)) * sizeof(double));
    }
    for (kl_index i = s->child_at; i < s[1].child_at; i++) {
        front_add_child(pass, front, &symbolic->supernodes[symbolic->children[i]]);
    }
    return has_children;
}

/* @return the unknowns eliminated. */
static inline int64_t front_factor(numeric_pass *pass, const supernode *s)
{
    const front_parts front = {
        .s = s,
        .panel = pass->factor->panels + s->panel,
        .contribution = pass->factor->stacks + s->contribution,
    };
    const bool add = front_assemble(pass, &front);
    if (3 * s->width >= NUMERIC_LIBRARY_WIDTH) {
        return numeric_eliminate_large(pass, s, front.contribution, add);
    }
    return front_eliminate(pass, s, front.panel, front.contribution, add);
}

#endif
