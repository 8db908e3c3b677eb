/* passes.h - the numeric passes as functions of the file that includes this, compiled for its vectors.
 * SPDX-License-Identifier: MIT */
#ifndef KERNLINE_PASSES_H
#define KERNLINE_PASSES_H

#include "columns.h"
#include "small.h"
#include "wide.h"

#define SWEEP_REAL          double
#define SWEEP_VECTORS       1
#define SWEEP_LANES         1
#define SWEEP_NAME(name)    sweep_one_##name
#define SWEEP_COLUMNS(name) columns_one_##name
#include "sweep.h"
#define SWEEP_REAL          lanes
#define SWEEP_VECTORS       COLUMNS_VECTORS
#define SWEEP_LANES         LANES
#define SWEEP_NAME(name)    sweep_many_##name
#define SWEEP_COLUMNS(name) columns_many_##name
#include "sweep.h"

/* Supernodes from which the blocks of the matrix are fetched early. They lie where the frame's numbering has put them. */
#define PASSES_AHEAD 8

LANES_INLINE void passes_fetch_block(const double *block)
{
    __builtin_prefetch(block);
    __builtin_prefetch(block + 8);
}

/* Have the blocks of a small supernode on their way; those of a large one cost little beside its elimination. */
LANES_INLINE void passes_fetch(const numeric_pass *pass, kl_index i)
{
    const sparse_symbolic *symbolic = pass->factor->symbolic;
    if (i >= symbolic->count || !supernode_is_small(&symbolic->supernodes[i])) {
        return;
    }
    const supernode *s = &symbolic->supernodes[i];
    passes_fetch_block(pass->diag + 9 * (size_t)symbolic->order[s->first]);
    for (kl_index k = s->link_at; k < s[1].link_at; k++) {
        passes_fetch_block(pass->off + 9 * (size_t)(symbolic->links[k].source / 2));
    }
}

/* @return the unknowns eliminated. */
static inline int64_t passes_factor_front(numeric_pass *pass, const supernode *s)
{
    front_assemble(pass, s);
    if (3 * s->width >= NUMERIC_WIDE) {
        return wide_factor(pass, s);
    }
    const int64_t done = front_eliminate(pass, s);
    if (done == 3 * (int64_t)s->width) {
        front_contribute(pass, s);
    }
    return done;
}

static kl_index passes_factor(numeric_pass *pass, kl_index first, kl_index last)
{
    const sparse_symbolic *symbolic = pass->factor->symbolic;
    kl_index eliminated = 0;
    for (kl_index i = first; i <= last; i++) {
        const supernode *s = &symbolic->supernodes[i];
        passes_fetch(pass, i + PASSES_AHEAD);
        int64_t done;
        if (!supernode_is_small(s)) {
            done = passes_factor_front(pass, s);
        } else if (s->rows == 1) {
            done = small_factor(pass, s, 1);
        } else if (s->rows == 2) {
            done = small_factor(pass, s, 2);
        } else {
            done = small_factor(pass, s, 0);
        }
        eliminated += (kl_index)done;
        if (done < 3 * (int64_t)s->width) {
            break;
        }
    }
    return eliminated;
}

#define PASSES_TABLE                                                                               \
    {                                                                                              \
        .lanes = COLUMNS_MANY, .factor = passes_factor, .solve_one = sweep_one_solve,              \
        .solve_many = sweep_many_solve                                                             \
    }

#endif
