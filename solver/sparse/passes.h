/* passes.h - the numeric passes as functions of the file that includes this, compiled for its vectors.
 * SPDX-License-Identifier: MIT */
#ifndef KERNLINE_PASSES_H
#define KERNLINE_PASSES_H

#include "columns.h"
#include "front.h"
#include "small.h"

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

static inline void passes_factor(numeric_pass *pass)
{
    const sparse_symbolic *symbolic = pass->factor->symbolic;
    for (kl_index i = 0; i < symbolic->count; i++) {
        const supernode *s = &symbolic->supernodes[i];
        int64_t done;
        if (!supernode_is_small(s)) {
            done = front_factor(pass, s);
        } else if (s->rows == 1) {
            done = small_factor(pass, s, 1);
        } else if (s->rows == 2) {
            done = small_factor(pass, s, 2);
        } else {
            done = small_factor(pass, s, 0);
        }
        pass->factor->eliminated += (kl_index)done;
        if (done < 3 * (int64_t)s->width) {
            return;
        }
    }
    pass->report->complete = true;
}

#define PASSES_TABLE                                                                               \
    {                                                                                              \
        .lanes = COLUMNS_MANY, .factor = passes_factor, .solve_one = sweep_one_solve,              \
        .solve_many = sweep_many_solve                                                             \
    }

#endif
