/* elongation.c - see elongation.h.
 * SPDX-License-Identifier: MIT */
#include "elongation.h"

kl_status elongation_of(const cell_book *book,
                        double rigidity,
                        const force_draw *draw,
                        const force_curve *raised,
                        arena *a,
                        double *elongation)
{
    double was = 0.0;
    double is = 0.0;
    KL_TRY(force_curve_sum(book, &draw->before, draw->from, draw->to, a, &was));
    KL_TRY(force_curve_sum(book, raised, draw->from, draw->to, a, &is));
    *elongation = (is - was) / rigidity;
    return KL_OK;
}

kl_status elongation_at(const cell_book *book,
                        double rigidity,
                        const force_draw *draw,
                        bool at_end,
                        double pull,
                        arena *a,
                        double *elongation)
{
    force_curve raised;
    *elongation = 0.0;
    if (!(pull > force_at_anchor(book, &draw->before, at_end))) {
        return KL_OK;
    }
    KL_TRY(force_curve_raise(book, &draw->before, force_branch_of_pull(book, pull, at_end), a,
                             &raised));
    return elongation_of(book, rigidity, draw, &raised, a, elongation);
}
