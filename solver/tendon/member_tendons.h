/* member_tendons.h - which tendons run through a member.
 * SPDX-License-Identifier: MIT */
#ifndef KERNLINE_MEMBER_TENDONS_H
#define KERNLINE_MEMBER_TENDONS_H

#include "arena.h"
#include "kernline/model.h"

/* A tendon on a member, and X of the member's start along it. */
typedef struct member_tendon {
    kl_index tendon;
    double start;
} member_tendon;

/* Those of member m are items first[m] … first[m + 1] - 1, in the tendons' order. */
typedef struct member_tendons {
    const kl_index *first;
    const member_tendon *items;
} member_tendons;

/* In the arena. @return KL_OK, KL_NO_MEMORY. */
kl_status member_tendons_make(const kl_model *model, arena *a, member_tendons *out);

#endif
