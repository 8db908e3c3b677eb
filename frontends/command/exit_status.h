/* exit_status.h - what the program answers to whoever started it.
 * SPDX-License-Identifier: MIT */
#ifndef KERNLINE_EXIT_STATUS_H
#define KERNLINE_EXIT_STATUS_H

#include "kernline/status.h"

typedef enum exit_status {
    EXIT_ALL_WELL = 0,
    EXIT_CHECK_FAILS = 1, /* a check or an expectation of the model fails */
    EXIT_WRONG_USE = 2,   /* the command line */
    EXIT_BAD_MODEL = 3,   /* errors in the model */
    EXIT_NO_ANALYSIS = 4, /* it can move, or no set of contacts carries it */
    EXIT_FILE_TROUBLE = 5 /* files, memory, limits, output that cannot be written */
} exit_status;

exit_status exit_status_of(kl_status status);

#endif
