/* law_name.h - codes and published laws as a calculation names them.
 * SPDX-License-Identifier: MIT */
#ifndef KERNLINE_LAW_NAME_H
#define KERNLINE_LAW_NAME_H

#include <stdbool.h>

#include "kernline/model.h"

#define LAW_NAME_LIMIT 24

const char *law_name(kl_law law);                 /* "AASHTO LRFD 2020", "none" */
const char *law_relaxation_name(kl_relaxation r); /* "low-relaxation strand" */

/* Each edition that checks or materials of the model take something from, once. @return how many. */
int law_editions(const kl_model *model, const char *names[LAW_NAME_LIMIT]);

/* Does any concrete creep or shrink, any steel relax by a law? */
bool law_time_acts(const kl_model *model);

#endif
