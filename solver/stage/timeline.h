/* timeline.h - the stages in order, step by step; or the load cases one by one.
 * SPDX-License-Identifier: MIT */
#ifndef KERNLINE_TIMELINE_H
#define KERNLINE_TIMELINE_H

#include "result_store.h"

/* Run all stages, then the cases that no stage loads on the final structure. */
kl_status timeline_run(kl_results *results);

#endif
