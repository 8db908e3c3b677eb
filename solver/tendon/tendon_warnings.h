/* tendon_warnings.h - what a tendon's path and force look like to an experienced eye.
 *
 * Each warning is told once a tendon, at its worst place. The usual figures stand in tendon_warn_shape.c and
 * tendon_warn_force.c, each with its source or the words "common practice, no source".
 * SPDX-License-Identifier: MIT */
#ifndef KERNLINE_TENDON_WARNINGS_H
#define KERNLINE_TENDON_WARNINGS_H

#include "force.h"
#include "member_tendons.h"

/* duct-outside-section, duct-near-face, profile-corner, tight-radius. */
void tendon_warn_shape(const kl_model *model,
                       kl_index tendon,
                       const tendon_path *path,
                       kl_diags *diags);

/* ducts-meet: two ducts that share a member pass through each other somewhere on their way, told of each such pair. Ducts
 * that lie at one height all along are side by side and draw nothing.
 * @param paths one of each tendon of the model. @return KL_NO_MEMORY. */
kl_status tendon_warn_ducts(const kl_model *model,
                            const tendon_path *paths,
                            const member_tendons *through,
                            kl_diags *diags);

/* loss-not-given, jack-stress-high, anchor-stress-high, tendon-stress-high, seating-takes-whole-tendon, ram-too-large:
 * from what force_stress gave. @return KL_NO_MEMORY. */
kl_status tendon_warn_force(const kl_model *model,
                            kl_index tendon,
                            const tendon_path *path,
                            const force_curve *after,
                            const force_record *record,
                            kl_diags *diags);

/* Everything about one tendon, stressed as its `jack` says. after, record may be NULL: shape only. */
kl_status tendon_warnings(const kl_model *model,
                          kl_index tendon,
                          const tendon_path *path,
                          const force_curve *after,
                          const force_record *record,
                          kl_diags *diags);

/* A value as the user sees it: "31.2 ksi". */
#define TENDON_SHOWN 48
void tendon_show(const kl_model *model, kl_measure measure, double value, char text[TENDON_SHOWN]);

#endif
