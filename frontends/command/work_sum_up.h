/* work_sum_up.h - a solved model with its warnings, as summary and package take it.
 * SPDX-License-Identifier: MIT */
#ifndef KERNLINE_WORK_SUM_UP_H
#define KERNLINE_WORK_SUM_UP_H

#include "summary.h"
#include "work.h"

/* What is handed out lives as long as the work. @return KL_NO_MEMORY */
kl_status work_sum_up(work *w, summary_input *out);

#endif
