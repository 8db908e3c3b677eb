/* kernline.h - the whole public interface.
 *
 * Conventions, once for all headers:
 * - Ownership: what a _create, kl_analyze or kl_run_checks gives, the caller destroys with the matching
 *   _destroy, which accepts NULL. Everything else handed out is borrowed and lives as long as its owner.
 *   Inputs are copied, never kept - but for the model, which results borrow.
 * - Status: KL_OK is zero; outputs are valid only then. Numbers that do not exist are NAN.
 * - Units: m, N, Pa, rad, s, K everywhere; conversion is the front ends' business (units.h).
 * - Signs: x right, y up, rotation anticlockwise; sagging moment, tension, upward deflection positive.
 * - Threads: no globals. One thread at a time may use one model or results object.
 * - The library never prints, exits or reads the environment.
 * SPDX-License-Identifier: MIT */
#ifndef KERNLINE_KERNLINE_H
#define KERNLINE_KERNLINE_H

#include "kernline/analysis.h"
#include "kernline/check.h"
#include "kernline/diag.h"
#include "kernline/field.h"
#include "kernline/model.h"
#include "kernline/results.h"
#include "kernline/status.h"
#include "kernline/units.h"
#include "kernline/version.h"

#endif
