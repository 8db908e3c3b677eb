/* amalgamate.h - which consecutive columns of the factor are treated as one supernode.
 * SPDX-License-Identifier: MIT */
#ifndef KERNLINE_AMALGAMATE_H
#define KERNLINE_AMALGAMATE_H

#include "tree.h"

/* Maximal supernodes, and then larger ones that store some zeros where that saves more than it costs.
 * @param first out, count + 1: the first place of each supernode, and the number of places.
 * @param super out, count: the supernode of each place.
 * @return the number of supernodes, KL_NONE when out of memory. */
kl_index amalgamate(const elimination_tree *tree, arena *a, kl_index *first, kl_index *super);

#endif
