/* section_state.h - the rigidity of every section on its day.
 *
 * Concrete (or whatever the member is of) with E of its day; ducts of tendons not grouted are holes; a grouted
 * tendon replaces the concrete it displaces and adds E_p A_p cos^3 theta [[1, -y], [-y, y^2]]. `sections gross`
 * leaves all of that out.
 * SPDX-License-Identifier: MIT */
#ifndef KERNLINE_SECTION_STATE_H
#define KERNLINE_SECTION_STATE_H

#include "state.h"

typedef struct section_book {
    const frame_mesh *mesh;
    const tendon_trace *traces;
    section_rigidity (*rigidity)[QUADRATURE_POINTS]; /* of each element */
    double *modulus;                                 /* E of each member on its day, Pa */
} section_book;

kl_status section_book_create(const frame_mesh *mesh,
                              const tendon_trace *traces,
                              arena *a,
                              section_book *book);

/* Set all rigidities for the elements that stand. `ageless`: there are no days; 28-day values are used. */
void section_book_update(section_book *book, const stage_state *state, bool ageless);

/* Age of a member on the day of a state as materials see it, s: never below one day, 28 days without days. */
double section_age(const stage_state *state, kl_index member, bool ageless);

#endif
