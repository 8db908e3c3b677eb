/* expect.h - the value that an `expect` line asks for, held against the one it states.
 * SPDX-License-Identifier: MIT */
#ifndef KERNLINE_EXPECT_H
#define KERNLINE_EXPECT_H

#include "arena.h"
#include "kernline/check.h"

/* Evaluate expectation `index` of the model. What does not exist then and there is `known` false and fails.
 * @return KL_OK, KL_NO_MEMORY. */
kl_status
expect_evaluate(const kl_results *results, kl_index index, arena *a, kl_expectation_result *out);

/* The row of a falsework at a station, or KL_NONE. */
kl_index expect_row_at(const kl_model *model, kl_index falsework, double station);

#endif
