/* stress_bond.h - members whose tendons wait for grout: until it is there, none of them is bonded.
 *
 * Limits of tension are larger where tendons are bonded. Which limit holds is decided step by step.
 * SPDX-License-Identifier: MIT */
#ifndef KERNLINE_STRESS_BOND_H
#define KERNLINE_STRESS_BOND_H

#include "arena.h"
#include "kernline/results.h"

/* The tendons of member m: tendons[first[m]] … tendons[first[m + 1] - 1]. */
typedef struct stress_bond {
    const kl_index *first, *tendons;
} stress_bond;

/* @return KL_OK or KL_NO_MEMORY. */
kl_status stress_bond_list(const kl_model *model, arena *a, stress_bond *out);

/* Is a tendon of the member stressed in that state and not grouted yet? Without stages nothing is ever grouted, and
 * what the tendon says of itself holds: false. */
bool stress_bond_waits(const stress_bond *bond,
                       const kl_results *results,
                       kl_state state,
                       kl_index member);

#endif
