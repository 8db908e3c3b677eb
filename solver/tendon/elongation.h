/* elongation.h - how far an end of a tendon moves while its jack pulls: the integral of dP/(A E) ds over the part that this
 * jack draws, dP from what was in the tendon before (mechanics page, section 2).
 *
 * Without what the tendon beyond the anchor stretches, and without what the concrete shortens.
 * SPDX-License-Identifier: MIT */
#ifndef KERNLINE_ELONGATION_H
#define KERNLINE_ELONGATION_H

#include "force_cells.h"

/* Movement when the force has become `raised`, m. Work memory from the arena. */
kl_status elongation_of(const cell_book *book,
                        double rigidity,
                        const force_draw *draw,
                        const force_curve *raised,
                        arena *a,
                        double *elongation);

/* Movement when the jack has come to the force `pull`, N just inside the anchor (at_end: the last one); 0 up to the force
 * that this anchor holds already. */
kl_status elongation_at(const cell_book *book,
                        double rigidity,
                        const force_draw *draw,
                        bool at_end,
                        double pull,
                        arena *a,
                        double *elongation);

#endif
