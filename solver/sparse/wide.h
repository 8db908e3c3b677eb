/* wide.h - elimination in a front with many pivot columns. Static functions, for the passes only.
 *
 * The rows of the panel are copied into slivers of 24, in which the 24 entries of a column stand together, one column after
 * the other; the rows below begin with a sliver of their own. A sliver is worked off from the left, 24 columns at a time:
 * what the columns before do to them is a product of this sliver and that of the 24 pivots, which both stay in the fast
 * caches; then a triangle. A sliver needs those of the pivots before it and no other, so slivers are handed out one by one,
 * in order; then the contribution is, 24 columns at a time. Which sums are made, and in which order, does not depend on who
 * makes them.
 * SPDX-License-Identifier: MIT */
#ifndef KERNLINE_WIDE_H
#define KERNLINE_WIDE_H

#include "front.h"

/* Rows of a sliver and columns of a block: whole vectors, whole FRONT_BLOCKs. */
#define WIDE_SIDE NUMERIC_SLIVER

/* Columns in one product: with 24 rows of each factor they fill two thirds of a cache of the first level. */
#define WIDE_DEPTH 96

/* Vectors of rows in one product, so that the sums fit into registers. */
#define WIDE_VECTORS (LANES == 8 ? 3 : 2)

typedef struct wide_front {
    numeric_pass *pass;
    double *panel;
    front_part contribution;
    double *slivers; /* each WIDE_SIDE * pivots */
    int64_t stride;  /* of the panel */
    const supernode *s;
    int64_t pivots;
    int64_t rows; /* below */
    int64_t unknown;
    int64_t pivot_slivers;
    int64_t slivers_below;
    int64_t eliminated;    /* changed by who has the sliver on the diagonal, one after the other */
    _Atomic int64_t ready; /* slivers of pivots, from the first, that are done */
    _Atomic int64_t next;  /* sliver, or 24 columns of the contribution, to be handed out */
    _Atomic bool stopped;
} wide_front;

static inline double *wide_sliver(const wide_front *f, int64_t i)
{
    return f->slivers + i * WIDE_SIDE * f->pivots;
}

static inline int64_t wide_least(int64_t a, int64_t b)
{
    return a < b ? a : b;
}

/* C = C - A B' for a whole sliver or its first rows: `height` rows, `columns` columns; A and B are of slivers. */
LANES_INLINE void wide_product(const double *a,
                               const double *b,
                               int64_t depth,
                               double *c,
                               int64_t c_stride,
                               int64_t height,
                               const int columns,
                               bool add)
{
    int64_t i = 0;
    for (; i + WIDE_VECTORS * LANES <= height; i += WIDE_VECTORS * LANES) {
        front_tile(a + i, b, WIDE_SIDE, depth, c + i, c_stride, WIDE_VECTORS, columns, add);
    }
    for (; i < height; i += LANES) {
        front_tile(a + i, b, WIDE_SIDE, depth, c + i, c_stride, 1, columns, add);
    }
}

/* The same for a block of up to WIDE_SIDE columns, a multiple of 3, and any depth. */
static void wide_subtract(const double *a,
                          const double *b,
                          int64_t depth,
                          double *c,
                          int64_t c_stride,
                          int64_t height,
                          int64_t columns,
                          bool add)
{
    for (int64_t begin = 0; begin < depth; begin += WIDE_DEPTH) {
        const int64_t count = wide_least(WIDE_DEPTH, depth - begin);
        const double *left = a + begin * WIDE_SIDE;
        const double *right = b + begin * WIDE_SIDE;
        int64_t j = 0;
        for (; j + FRONT_BLOCK <= columns; j += FRONT_BLOCK) {
            wide_product(left, right + j, count, c + j * c_stride, c_stride, height, FRONT_BLOCK,
                         add || begin > 0);
        }
        if (j < columns) {
            wide_product(left, right + j, count, c + j * c_stride, c_stride, height, 3,
                         add || begin > 0);
        }
    }
}

/* ---- one block of a sliver --------------------------------------------------------------------------------------- */

/* A triangle of FRONT_BLOCK columns on the diagonal of a sliver. */
LANES_INLINE void wide_read_diagonal(const double *corner, front_diagonal *d, const int columns)
{
    for (int j = 0; j < columns; j++) {
        d->inverse[j] = corner[j * WIDE_SIDE + j];
        for (int i = j; i < columns; i++) {
            d->l[i][j] = corner[j * WIDE_SIDE + i];
        }
    }
}

LANES_INLINE void
wide_write_diagonal(double *corner, const front_diagonal *d, int done, const int columns)
{
    for (int j = 0; j < columns; j++) {
        corner[j * WIDE_SIDE + j] = j < done ? d->inverse[j] : d->l[j][j];
        for (int i = j + 1; i < columns; i++) {
            corner[j * WIDE_SIDE + i] = d->l[i][j];
        }
    }
}

/* `columns` columns of a block, `at` columns after its first: off what the columns of the block before them do, then the
 * triangle, which is `pivot`'s or, on the diagonal, still to be factored.
 * @return the columns eliminated. */
LANES_INLINE int wide_eliminate_columns(wide_front *f,
                                        double *block,
                                        const double *pivot,
                                        int64_t unknown,
                                        int64_t at,
                                        const int columns)
{
    double *own = block + at * WIDE_SIDE;
    front_diagonal d;
    if (at > 0) {
        wide_product(block, pivot + at, at, own, WIDE_SIDE, WIDE_SIDE, columns, true);
    }
    wide_read_diagonal(pivot + at * WIDE_SIDE + at, &d, columns);
    if (block != pivot) {
        front_solve_rows(own, WIDE_SIDE, 0, WIDE_SIDE, &d, columns);
        return columns;
    }
    const int done = front_factor_diagonal(f->pass, unknown + at, &d, columns);
    if (done == columns) {
        front_solve_rows(own, WIDE_SIDE, at / LANES * LANES, WIDE_SIDE, &d, columns);
    }
    wide_write_diagonal(own + at, &d, done, columns);
    return done;
}

/* Block `j` of a sliver. @return the columns eliminated. */
static int64_t wide_eliminate_block(wide_front *f, double *sliver, int64_t j)
{
    const int64_t first = WIDE_SIDE * j;
    const int64_t columns = wide_least(WIDE_SIDE, f->pivots - first);
    const double *pivot = wide_sliver(f, j);
    double *block = sliver + first * WIDE_SIDE;
    wide_subtract(sliver, pivot, first, block, WIDE_SIDE, WIDE_SIDE, columns, true);
    const int64_t unknown = f->unknown + first;
    int64_t at = 0;
    while (at < columns) {
        const bool whole = columns - at >= FRONT_BLOCK;
        const double *corner = pivot + first * WIDE_SIDE;
        const int done = whole ? wide_eliminate_columns(f, block, corner, unknown, at, FRONT_BLOCK)
                               : wide_eliminate_columns(f, block, corner, unknown, at, 3);
        at += done;
        if (done < (whole ? FRONT_BLOCK : 3)) {
            break;
        }
    }
    return at;
}

/* ---- the slivers ------------------------------------------------------------------------------------------------- */

/* Where a sliver's rows are in the front, and how many of the panel's columns they reach. */
typedef struct wide_place {
    int64_t row;
    int64_t height;
    int64_t columns;
} wide_place;

static wide_place wide_find(const wide_front *f, int64_t i)
{
    if (i < f->pivot_slivers) {
        const int64_t row = WIDE_SIDE * i;
        const int64_t height = wide_least(WIDE_SIDE, f->pivots - row);
        return (wide_place){.row = row, .height = height, .columns = row + height};
    }
    const int64_t below = WIDE_SIDE * (i - f->pivot_slivers);
    return (wide_place){.row = f->pivots + below,
                        .height = wide_least(WIDE_SIDE, f->rows - below),
                        .columns = f->pivots};
}

static void wide_load(const wide_front *f, wide_place place, double *sliver)
{
    for (int64_t k = 0; k < place.columns; k++) {
        const double *from = f->panel + k * f->stride + place.row;
        double *to = sliver + k * WIDE_SIDE;
        if (place.height == WIDE_SIDE) {
            memcpy(to, from, WIDE_SIDE * sizeof(double));
            continue;
        }
        for (int64_t i = 0; i < WIDE_SIDE; i++) {
            to[i] = i < place.height ? from[i] : 0.0;
        }
    }
}

static void wide_store(const wide_front *f, wide_place place, const double *sliver)
{
    for (int64_t k = 0; k < place.columns; k++) {
        double *to = f->panel + k * f->stride + place.row;
        memcpy(to, sliver + k * WIDE_SIDE, (size_t)place.height * sizeof(double));
    }
}

/* Wait for sliver `i` of the pivots, which somebody is at work on. @return false when the factorization stops before. */
static bool wide_await(wide_front *f, int64_t i)
{
    if (f->pass->team != NULL) {
        team_wait(f->pass->team, &f->ready, i + 1);
    }
    return !atomic_load(&f->stopped);
}

static void wide_tell(wide_front *f, int64_t ready)
{
    if (f->pass->team != NULL) {
        team_reach(f->pass->team, &f->ready, ready);
    }
}

/* @return whether all went well. */
static bool wide_eliminate_sliver(wide_front *f, int64_t i)
{
    double *sliver = wide_sliver(f, i);
    const wide_place place = wide_find(f, i);
    wide_load(f, place, sliver);
    const int64_t before = wide_least(i, f->pivot_slivers);
    for (int64_t j = 0; j < before; j++) {
        if (!wide_await(f, j)) {
            return false;
        }
        (void)wide_eliminate_block(f, sliver, j);
    }
    if (i < f->pivot_slivers) {
        f->eliminated += wide_eliminate_block(f, sliver, i);
        const bool stops = f->eliminated < place.columns;
        atomic_store(&f->stopped, stops);
        wide_tell(f, stops ? INT64_MAX : i + 1);
    }
    wide_store(f, place, sliver);
    return !atomic_load(&f->stopped);
}

/* 24 columns of the contribution: less the product, and the children's while it is in the cache. */
static void wide_contribute(const wide_front *f, numeric_pass *pass, int64_t j)
{
    const int64_t columns = wide_least(WIDE_SIDE, f->rows - WIDE_SIDE * j);
    const int64_t stride = f->contribution.stride;
    const double *right = wide_sliver(f, f->pivot_slivers + j);
    for (int64_t i = j; i < f->slivers_below; i++) {
        const int64_t height = wide_least(WIDE_SIDE, stride - WIDE_SIDE * i);
        double *to = f->contribution.columns + WIDE_SIDE * (j * stride + i);
        wide_subtract(wide_sliver(f, f->pivot_slivers + i), right, f->pivots, to, stride, height,
                      columns, false);
    }
    const kl_index from = f->s->width + (kl_index)(WIDE_SIDE * j / 3);
    front_add_children(pass, f->s, &f->contribution, from, from + (kl_index)(columns / 3));
}

/* ---- the work of one or of a team -------------------------------------------------------------------------------- */

static void wide_work_slivers(void *context, int member)
{
    wide_front *f = context;
    (void)member;
    const int64_t count = f->pivot_slivers + f->slivers_below;
    int64_t i = atomic_fetch_add(&f->next, 1);
    while (i < count && wide_eliminate_sliver(f, i)) {
        i = atomic_fetch_add(&f->next, 1);
    }
}

static void wide_work_contribution(void *context, int member)
{
    wide_front *f = context;
    /* A team shares the fronts of the top only: no thread's own stacks are in play, but lists are. */
    numeric_pass *pass = f->pass->team != NULL ? &f->pass->factor->members[member] : f->pass;
    int64_t j = atomic_fetch_add(&f->next, 1);
    while (j < f->slivers_below) {
        wide_contribute(f, pass, j);
        j = atomic_fetch_add(&f->next, 1);
    }
}

static void wide_work(wide_front *f, team_job *job)
{
    atomic_store(&f->next, 0);
    if (f->pass->team != NULL) {
        team_run(f->pass->team, job, f);
    } else {
        job(f, 0);
    }
}

/* @return the columns of the panel that were eliminated. */
static int64_t wide_factor(numeric_pass *pass, const supernode *s)
{
    wide_front f = {
        .pass = pass,
        .s = s,
        .panel = pass->factor->panels + s->panel,
        .contribution = {.columns = numeric_contribution(pass, s),
                         .stride = supernode_contribution_stride(s),
                         .first = s->width},
        .slivers = pass->slivers,
        .stride = supernode_stride(s),
        .pivots = 3 * (int64_t)s->width,
        .rows = 3 * (int64_t)s->rows,
        .unknown = 3 * (int64_t)s->first,
        .pivot_slivers = (3 * (int64_t)s->width + WIDE_SIDE - 1) / WIDE_SIDE,
        .slivers_below = (3 * (int64_t)s->rows + WIDE_SIDE - 1) / WIDE_SIDE,
    };
    wide_work(&f, wide_work_slivers);
    if (f.eliminated == f.pivots) {
        wide_work(&f, wide_work_contribution);
    }
    return f.eliminated;
}

#endif
