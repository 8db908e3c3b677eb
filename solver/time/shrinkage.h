/* shrinkage.h - shrinkage of concrete by the published models or the user's own curve: drying from the end of curing, and
 * autogenous shrinkage from casting where the model has it.
 *
 * Strains, shortening negative; ages from casting, s. The end of curing is the material's `cured`.
 * SPDX-License-Identifier: MIT */
#ifndef KERNLINE_SHRINKAGE_H
#define KERNLINE_SHRINKAGE_H

#include <stdbool.h>

#include "time_concrete.h"
#include "time_scope.h"

/* By loss of water since the end of curing; 0 before it and for TIME_LAW_NONE. */
double shrinkage_drying(time_law law, const time_concrete *c, double age);

/* Without loss of water, since casting; 0 where the model has no such part. */
double shrinkage_autogenous(time_law law, const time_concrete *c, double age);
bool shrinkage_has_autogenous(time_law law);

/* Both together. */
double shrinkage_strain(time_law law, const time_concrete *c, double age);

/* What is outside the stated scope of the law for shrinkage. */
time_scope shrinkage_outside(time_law law, const time_concrete *c);

#endif
