/* tendon_origin.h - the stressing from which a tendon's losses count at a state.
 * SPDX-License-Identifier: MIT */
#ifndef KERNLINE_TENDON_ORIGIN_H
#define KERNLINE_TENDON_ORIGIN_H

#include "result_store.h"

typedef struct tendon_origin {
    kl_index step;                        /* KL_NONE: model without stages */
    double jack;                          /* N in one tendon, of that stressing */
    const force_curve *unseated, *seated; /* one tendon: friction alone; as it was left */
    const column_set *set; /* what columns held after it; NULL: model without stages */
} tendon_origin;

/* The last stressing up to a state. @return KL_NOT_THERE: the tendon carries nothing then, or the state is a combination
 * or a case beside the stages. */
kl_status tendon_origin_find(const kl_results *results,
                             kl_state state,
                             kl_index tendon,
                             tendon_origin *origin);

/* The first step beyond a step or a moment. */
kl_index tendon_origin_bound(const kl_results *results, kl_state state);

#endif
