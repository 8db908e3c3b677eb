/* carriers.h - what a form stands on when its concrete is wet, and how far that goes down.
 *
 * Carriers of a line of members are the rows erected under it and those of its nodes that stand already, or are held up
 * by a support or through a bearing. What they carried and how far they went is kept with the pour, for form grades.
 * SPDX-License-Identifier: MIT */
#ifndef KERNLINE_CARRIERS_H
#define KERNLINE_CARRIERS_H

#include "run.h"

/* Grows by mem_grow; the caller frees `items`. */
typedef struct carrier_list {
    form_carrier *items;
    size_t count, capacity;
} carrier_list;

/* The bearing that carries a node, or NULL. */
const kl_bearing *carriers_bearing_of(const kl_model *model, kl_index node);
/* Does a support hold the node up? */
bool carriers_hold_up(const analysis_run *run, kl_index node);

/* Add those of a member. @return KL_NO_MEMORY, KL_TOO_LARGE. */
kl_status carriers_of_member(const analysis_run *run, kl_index member, carrier_list *list);
/* Sort them by x, one at a place: a node that stands counts before a row. There is one at least. */
void carriers_merge(carrier_list *list);

/* Remember a pour with what its carriers take; they count their movement from here.
 * @param members kept: must live as long as the run. @param range x of the ends of the concrete. */
kl_status carriers_keep(analysis_run *run,
                        const kl_index *members,
                        kl_index count,
                        const carrier_list *list,
                        const double range[2]);
/* The increment of all pours since `before` is solved: what they moved their carriers by. */
void carriers_yield(analysis_run *run, const form_pour *before);

#endif
