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
    lanes sum[3][FRONT_BLOCK];
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
static inline int64_t front_eliminate(numeric_pass *pass, const supernode *s)
{
    double *panel = pass->factor->panels + s->panel;
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
            break;
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

/* One of the two parts of a front: the panel, from row 0, or the contribution, from row `first` = width. */
typedef struct front_part {
    double *columns;
    int64_t stride;
    kl_index first;
} front_part;

/* Add one node column of a child, from its diagonal down. */
static inline void front_add_column(const front_part *part,
                                    const double *from,
                                    int64_t from_stride,
                                    kl_index column,
                                    const kl_index *relative,
                                    const kl_index *runs,
                                    kl_index run_count)
{
    double *to = part->columns + 3 * (int64_t)(relative[column] - part->first) * part->stride;
    for (kl_index r = 0; r < run_count; r++) {
        const kl_index end = runs[2 * r] + runs[2 * r + 1];
        const kl_index begin = runs[2 * r] > column ? runs[2 * r] : column;
        const int64_t count = 3 * (int64_t)(end - begin);
        const double *source = from + 3 * (int64_t)begin;
        double *target = to + 3 * (int64_t)(relative[begin] - part->first);
        for (int j = 0; j < 3; j++) {
            for (int64_t i = 0; i < count; i++) {
                target[j * part->stride + i] += source[j * from_stride + i];
            }
        }
    }
}

/* The first of ascending numbers that is not below `least`. */
static inline kl_index front_find(const kl_index *numbers, kl_index count, kl_index least)
{
    kl_index low = 0;
    while (low < count) {
        const kl_index middle = low + (count - low) / 2;
        if (numbers[middle] < least) {
            low = middle + 1;
        } else {
            count = middle;
        }
    }
    return low;
}

/* Add what goes into the node columns `from` … `to` - 1 of the front, which are in the part. */
static inline void front_add_child(
    numeric_pass *pass, const front_part *part, const supernode *child, kl_index from, kl_index to)
{
    const kl_index *relative = pass->factor->symbolic->relative + child->row_at;
    const kl_index skipped = from > 0 ? front_find(relative, child->rows, from) : 0;
    const kl_index rows = child->rows - skipped;
    relative += skipped;
    if (rows == 0 || relative[0] >= to) {
        return;
    }
    const int64_t stride = supernode_contribution_stride(child);
    const double *source = numeric_contribution(pass, child) + 3 * (int64_t)skipped * (stride + 1);
    kl_index *runs = pass->runs;
    const kl_index run_count = front_find_runs(relative, rows, runs);
    kl_index done = 0; /* runs above the diagonal */
    for (kl_index j = 0; j < rows && relative[j] < to; j++) {
        done += runs[2 * done] + runs[2 * done + 1] <= j ? 1 : 0;
        front_add_column(part, source + 3 * (int64_t)j * stride, stride, j, relative,
                         runs + 2 * done, run_count - done);
    }
}

static inline void front_add_children(
    numeric_pass *pass, const supernode *s, const front_part *part, kl_index from, kl_index to)
{
    const sparse_symbolic *symbolic = pass->factor->symbolic;
    for (kl_index i = s->child_at; i < s[1].child_at; i++) {
        front_add_child(pass, part, &symbolic->supernodes[symbolic->children[i]], from, to);
    }
}

/* Zeros from the diagonal down, and above it as far as a block of columns reaches. */
static inline void front_clear(double *columns, int64_t stride, int64_t from, int64_t to)
{
    for (int64_t j = from; j < to; j++) {
        const int64_t line = j / NUMERIC_SLIVER * NUMERIC_SLIVER;
        memset(columns + j * stride + line, 0, (size_t)(stride - line) * sizeof(double));
    }
}

/* What the matrix and the children put into the panel. */
static inline void front_assemble(numeric_pass *pass, const supernode *s)
{
    const sparse_symbolic *symbolic = pass->factor->symbolic;
    const front_part panel = {
        .columns = pass->factor->panels + s->panel,
        .stride = supernode_stride(s),
    };
    front_clear(panel.columns, panel.stride, 0, 3 * (int64_t)s->width);
    for (kl_index k = 0; k < s->width; k++) {
        front_put_diagonal(pass, s->first + k, panel.columns + 3 * (int64_t)k * (panel.stride + 1),
                           panel.stride);
    }
    for (kl_index i = s->link_at; i < s[1].link_at; i++) {
        front_put_link(pass, symbolic->links[i], panel.columns, panel.stride);
    }
    front_add_children(pass, s, &panel, 0, s->width);
}

/* The contribution: less the product of the rows below with themselves, and the children's. */
static inline void front_contribute(numeric_pass *pass, const supernode *s)
{
    const front_part part = {
        .columns = numeric_contribution(pass, s),
        .stride = supernode_contribution_stride(s),
        .first = s->width,
    };
    const int64_t pivots = 3 * (int64_t)s->width;
    const int64_t rows = 3 * (int64_t)s->rows;
    const int64_t stride = supernode_stride(s);
    const double *below = pass->factor->panels + s->panel + pivots;
    for (int64_t j = 0; j < rows; j += FRONT_BLOCK) {
        const int64_t line = j / SUPERNODE_LINE * SUPERNODE_LINE;
        double *to = part.columns + j * part.stride;
        if (rows - j >= FRONT_BLOCK) {
            front_product(below, below + j, stride, pivots, to, part.stride, line, part.stride,
                          FRONT_BLOCK, false);
        } else {
            front_product(below, below + j, stride, pivots, to, part.stride, line, part.stride, 3,
                          false);
        }
    }
    front_add_children(pass, s, &part, s->width, s->width + s->rows);
}

#endif
