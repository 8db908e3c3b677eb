/* moments.h - when, between stages, the settings ask for a record.
 * SPDX-License-Identifier: MIT */
#ifndef KERNLINE_MOMENTS_H
#define KERNLINE_MOMENTS_H

#include "arena.h"
#include "kernline/analysis.h"

/* Times strictly between the days of two stages, s, rising and distinct: those of the settings' list, and so many a decade
 * of days since each stage. */
kl_status moments_list(const kl_settings *settings,
                       const kl_model *model,
                       arena *a,
                       const double **times,
                       kl_index *count);

#endif
