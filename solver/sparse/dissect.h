/* dissect.h - nested dissection of graphs that are like grids: a separator last, the two parts before it, again and again.
 *
 * What a frame of many storeys and bays is, seen from its nodes. The separators come from distances: of a grid they are as
 * short as can be, and finding them costs less than any general method. On graphs that no distances take apart well the
 * general method is better.
 * SPDX-License-Identifier: MIT */
#ifndef KERNLINE_DISSECT_H
#define KERNLINE_DISSECT_H

#include "core.h"

/* @param a where the arrays to work in are cut from.
 * @param order out, core->count: the node of the core at each place; nothing of use when not `fits`.
 * @param fits out: is the graph like a grid?
 * @return KL_NO_MEMORY */
kl_status dissect(const core_graph *core, arena *a, kl_index *order, bool *fits);

#endif
