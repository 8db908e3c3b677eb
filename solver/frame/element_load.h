/* element_load.h - one load of the model as what it does to nodes and elements.
 * SPDX-License-Identifier: MIT */
#ifndef KERNLINE_ELEMENT_LOAD_H
#define KERNLINE_ELEMENT_LOAD_H

#include "loads.h"

/* Add factor times a load. KL_LOAD_WEIGHT with member KL_NONE means every member; KL_LOAD_TENDON is not one of
 * these (the stage layer applies it). Temperatures need the materials' expansion (checked by the model). */
kl_status loads_add(const frame_mesh *mesh, const kl_load *load, double factor, frame_loads *loads);

/* Add factor times the weight of a member, node to node. */
kl_status
loads_add_weight(const frame_mesh *mesh, kl_index member, double factor, frame_loads *loads);

/* Add factor times the weight of a member between two stations, as loads along its elements. `from` and `to` must be
 * element ends or lie in rigid parts. */
kl_status loads_add_weight_between(const frame_mesh *mesh,
                                   kl_index member,
                                   double from,
                                   double to,
                                   double factor,
                                   frame_loads *loads);

/* Weight of a member between two stations that are element ends: total N and its moment about x = 0, N·m (force down
 * times x). */
void loads_weight_resultant(const frame_mesh *mesh,
                            kl_index member,
                            double from,
                            double to,
                            double *weight,
                            double *moment);

#endif
