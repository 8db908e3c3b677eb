/* vary.h - the model with its friction and moduli times the factors of the settings: what nobody knows well, for a second
 * analysis.
 *
 * All that asks a model for friction, wobble or a modulus then finds the varied one, in the analysis, the results and the
 * checks alike.
 * SPDX-License-Identifier: MIT */
#ifndef KERNLINE_VARY_H
#define KERNLINE_VARY_H

#include "arena.h"
#include "kernline/analysis.h"

/* @param settings NULL: nothing varies.
 * @param varied the model itself where all factors are 1; else a copy in the arena, with materials and tendons of its own, that
 * borrows the rest.
 * @return KL_MISUSE: a factor is not a number, negative, or 0 for a modulus; KL_NO_MEMORY. */
kl_status
vary_model(const kl_model *model, const kl_settings *settings, arena *a, const kl_model **varied);

#endif
