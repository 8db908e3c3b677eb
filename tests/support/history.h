/* history.h - creep by plain superposition over everything that ever happened: slow, and plainly right. What the Kelvin
 * chain of the library is held against.
 *
 *     strain(t) = sum over j of dS_j (J(t, from_j) + J(t, to_j)) / 2
 *
 * from_j = to_j for a stress put on at once.
 * SPDX-License-Identifier: MIT */
#ifndef KERNLINE_HISTORY_H
#define KERNLINE_HISTORY_H

#include <stddef.h>

#include "creep.h"

typedef struct history {
    int n; /* components; set it, all else zero, to begin */
    size_t count, capacity, stress_capacity;
    double (*spans)[2]; /* ages from, to; s */
    double *stress;     /* n for each */
} history;

/* Stresses (n) that came evenly between two ages, or at once. */
void history_add(history *h, double from, double to, const double *stress);

/* Strain (n) at an age, of all stresses put on by then (to <= age). */
void history_strain(const history *h, const creep_function *law, double age, double *strain);

void history_free(history *h);

#endif
