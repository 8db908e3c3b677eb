/* when.h - the states that a question of time looks at.
 * SPDX-License-Identifier: MIT */
#ifndef KERNLINE_WHEN_H
#define KERNLINE_WHEN_H

#include "arena.h"
#include "kernline/results.h"

typedef struct when_states {
    const kl_state *items; /* rising in time */
    kl_index count;        /* 0: that case is not solved by itself */
} when_states;

/* `after`: the last step of the stage; `during` and `from … to`: every step; `under`: the case or combination.
 * Unset: when_all. Arena-allocated. */
kl_status when_find(const kl_results *results, const kl_when *when, arena *a, when_states *states);

/* Every state the structure is ever in: all steps and the combinations; without stages the combinations, or, where
 * there is none, the cases. (A case is no state of a structure that carries others beside it.) */
kl_status when_all(const kl_results *results, arena *a, when_states *states);

/* Is the state a step before the last one of its stage? Then *last receives that last step. */
bool when_is_on_the_way(const kl_results *results, kl_state state, kl_state *last);

#endif
