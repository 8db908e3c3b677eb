/* choose.h - from the options of `table` to what is wished of the results.
 * SPDX-License-Identifier: MIT */
#ifndef KERNLINE_CHOOSE_H
#define KERNLINE_CHOOSE_H

#include "options.h"
#include "selection.h"

/* Find the stage, case, combination, cause, member and tendon that were named.
 * @return false when one is not there: the message has been written to standard error. */
bool choose_wish(const options *o, const kl_model *model, selection_wish *wish);

/* Write to standard error why the value of an option is none, or what was expected: "kernline: `--at 90 ft`: …". */
void choose_refuse(const options *o, option_id option, const char *format, ...) KL_PRINTF(3, 4);

#endif
