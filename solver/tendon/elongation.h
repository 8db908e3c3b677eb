/* elongation.h - how far an end of a tendon moves when its force changes, and the parts of what a stressing crew measures.
 *
 * The tendon's own part is the integral of dP/(A E) ds over the length that this end draws. Beyond the anchor `grip` of
 * tendon stretches at the jack's full force; a wedged dead end draws in besides. All per mechanics page, section 2.
 * SPDX-License-Identifier: MIT */
#ifndef KERNLINE_ELONGATION_H
#define KERNLINE_ELONGATION_H

#include "force.h"

/* Integral of (after - before)/(A E) ds over from … to (X), m; before NULL: slack. Work memory from the arena. */
kl_status elongation_between(const kl_model *model,
                             kl_index tendon,
                             const tendon_path *path,
                             const force_curve *before,
                             const force_curve *after,
                             double from,
                             double to,
                             arena *a,
                             double *elongation);

/* The `grip` at a force in the jack, m. */
double elongation_grip(const kl_model *model, kl_index tendon, double jack_force);

/* What one pull of one end should measure, each part apart, m. */
typedef struct elongation_reading {
    double tendon; /* between the anchors, from nothing (or what is locked) to the full force */
    double grip;   /* beyond the anchor, from nothing to the full force */
    /* what of tendon + grip has happened at the reference force, 0 without one */
    double before_reference;
    double dead_end; /* draw-in of the far anchor; 0 at the second of two ends */
    double expected; /* tendon + grip - before_reference + dead_end: between the two readings */
} elongation_reading;

/* The readings of the whole stressing: at start, at end; zero where an end is not pulled. The reference force is
 * `reference` times the jacking force; up to there the draw is computed with the same friction.
 * @param share of the jacking force; locked: what is in the tendon before, NULL: slack.
 * @return what force_stress returns. */
kl_status elongation_readings(const kl_model *model,
                              kl_index tendon,
                              const tendon_path *path,
                              double share,
                              const force_curve *locked,
                              arena *a,
                              kl_diags *diags,
                              elongation_reading readings[2]);

#endif
