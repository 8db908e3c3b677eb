/* coupling.h - ungrouted tendons follow every increment.
 *
 * The change of force X_j of each stressed, ungrouted tendon is the same all along and acts on the concrete in the
 * same solve. With d_ij the elongation of tendon i per newton in tendon j and d_i0 that under the loads,
 * (l_i / (E A)_i delta_ij - d_ij) X_j = d_i0: the symmetric system bordered by one column a tendon, solved by its
 * Schur complement.
 * SPDX-License-Identifier: MIT */
#ifndef KERNLINE_COUPLING_H
#define KERNLINE_COUPLING_H

#include "run.h"

/* Tendons that follow: stressed, not grouted, on standing members, other than `excepted`.
 * @param tendons out, tendon_count entries at most. */
kl_index coupling_list(const analysis_run *run, kl_index excepted, kl_index *tendons);

/* Add what a change of a tendon's force (N in the group at each trace point) does to the concrete. The elements must be
 * formed. */
kl_status
coupling_act(const analysis_run *run, kl_index tendon, const double *change, frame_loads *loads);

/* Solve for the unit responses of the listed tendons with the factor at hand. */
kl_status coupling_units(analysis_run *run, const kl_index *tendons, kl_index count);

/* Add the listed tendons' answer to the response of one pending column. */
kl_status
coupling_apply(analysis_run *run, const kl_index *tendons, kl_index count, pending_column *column);

#endif
