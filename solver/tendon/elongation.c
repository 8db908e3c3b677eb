/* elongation.c - see elongation.h.
 * SPDX-License-Identifier: MIT */
#include "elongation.h"

#include "force_cells.h"

#include <math.h>

static double rigidity(const kl_model *model, kl_index tendon)
{
    const kl_tendon *const t = &model->tendons[tendon];
    return model->materials[t->material].modulus * t->units * t->unit_area;
}

kl_status elongation_between(const kl_model *model,
                             kl_index tendon,
                             const tendon_path *path,
                             const force_curve *before,
                             const force_curve *after,
                             double from,
                             double to,
                             arena *a,
                             double *elongation)
{
    const kl_tendon *const t = &model->tendons[tendon];
    double sums[2] = {0.0, 0.0};
    cell_book book;
    KL_TRY(cell_book_make(t, path, a, &book));
    KL_TRY(force_curve_sum(&book, before, from, to, a, &sums[0]));
    KL_TRY(force_curve_sum(&book, after, from, to, a, &sums[1]));
    *elongation = (sums[1] - sums[0]) / rigidity(model, tendon);
    return KL_OK;
}

double elongation_grip(const kl_model *model, kl_index tendon, double jack_force)
{
    return model->tendons[tendon].grip * jack_force / rigidity(model, tendon);
}

/* Movements at full force and at the reference, the second pull of two starting from the first one's locked force. */
kl_status elongation_readings(const kl_model *model,
                              kl_index tendon,
                              const tendon_path *path,
                              double share,
                              const force_curve *locked,
                              arena *a,
                              kl_diags *diags,
                              elongation_reading readings[2])
{
    const kl_tendon *const t = &model->tendons[tendon];
    force_curve before;
    force_curve after;
    force_record record;
    KL_TRY(force_stress(model, tendon, path, share, locked, a, diags, &before, &after, &record));
    const bool one_end = t->jack_ends != KL_JACK_BOTH;
    const int first = t->jack_ends == KL_JACK_END || t->jack_ends == KL_JACK_END_THEN_START ? 1 : 0;
    const double reference = isnan(t->reference) ? 0.0 : t->reference;
    const double grip = elongation_grip(model, tendon, t->jack_force * share);
    for (int e = 0; e < 2; e++) {
        elongation_reading *const r = &readings[e];
        *r = (elongation_reading){0};
        if (!(record.elongation[e] > 0.0)) {
            continue;
        }
        r->grip = grip;
        r->tendon = record.elongation[e];
        r->before_reference = record.at_reference[e] + reference * grip;
        r->dead_end = one_end && e == first ? t->dead_end : 0.0;
        r->expected = r->tendon + r->grip - r->before_reference + r->dead_end;
    }
    return KL_OK;
}
