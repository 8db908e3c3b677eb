/* asked.h - what `table` and `plot` do first: read and solve the model, and find the moments that the options ask for.
 * SPDX-License-Identifier: MIT */
#ifndef KERNLINE_ASKED_H
#define KERNLINE_ASKED_H

#include "nearest.h"
#include "options.h"
#include "selection.h"
#include "work.h"

/* Tell that there is no `thing` ("table") of the name searched for, and which there is. `command` lists them. */
void asked_unknown(const char *thing, const char *command, const nearest *search);

/* The model is the first operand. What went wrong has been told on standard error.
 * @param s out; on true free it with selection_free. `w` is closed by the caller in any case.
 * @param answer out, on false: the exit status. */
bool asked_open(work *w, const options *o, selection_span span, selection *s, exit_status *answer);

/* The exit status when all is shown: do the model's checks and expectations hold? A failure is told, but for trouble with
 * a file, which has been. */
exit_status asked_close(const work *w, kl_status status);

#endif
