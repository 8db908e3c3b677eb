/* profile_pieces.h - the pieces of a path: curves with their offsets, divided at ends of bends and of members.
 * SPDX-License-Identifier: MIT */
#ifndef KERNLINE_PROFILE_PIECES_H
#define KERNLINE_PROFILE_PIECES_H

#include "profile_fit.h"

/* Bends must lie between the anchors. @return KL_BAD_MODEL with profile-bend-outside. */
kl_status profile_bends_check(
    const kl_model *model, kl_index tendon, double begin, double end, kl_diags *diags);

/* Make the pieces; alpha, length and corner are left zero. Arena-allocated. */
kl_status profile_pieces_make(const kl_model *model,
                              kl_index tendon,
                              const profile_knot *knots,
                              const profile_curve *curves,
                              arena *a,
                              path_piece **pieces,
                              kl_index *count);

#endif
