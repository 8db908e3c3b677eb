/* consistency_causes.h - which causes of the construction a model brings about at all.
 * SPDX-License-Identifier: MIT */
#ifndef KERNLINE_CONSISTENCY_CAUSES_H
#define KERNLINE_CONSISTENCY_CAUSES_H

#include "consistency.h"

typedef struct arising_causes {
    bool creep, shrinkage, relaxation, losses;
} arising_causes;

/* By the laws of its materials and the operations of its stages. */
arising_causes causes_arising(const kl_model *model);

#endif
