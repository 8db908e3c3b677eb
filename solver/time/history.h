/* history.h - creep by plain superposition over everything that ever happened: slow, and plainly right.
 *
 *     strain(t) = sum over j of dS_j (J(t, from_j) + J(t, to_j)) / 2
 *
 * from_j = to_j for a stress put on at once. The cost of a step grows with the number of steps before it; kelvin.h does
 * the same at a fixed cost and is held against this in the tests.
 * SPDX-License-Identifier: MIT */
#ifndef KERNLINE_HISTORY_H
#define KERNLINE_HISTORY_H

#include <stddef.h>

#include "creep.h"
#include "kernline/status.h"

typedef struct history {
    int n; /* components; set it, all else zero, to begin */
    size_t count, capacity, stress_capacity;
    double (*spans)[2]; /* ages from, to; s */
    double *stress;     /* n for each */
} history;

/* Stresses (n) that came evenly between two ages, or at once. KL_NO_MEMORY, KL_TOO_LARGE: nothing is added. */
kl_status history_add(history *h, double from, double to, const double *stress);

/* Strain (n) at an age, of all stresses put on by then (to <= age). */
void history_strain(const history *h, const creep_function *law, double age, double *strain);

void history_free(history *h);

#endif
