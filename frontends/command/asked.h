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

/* What a table or a picture can be asked. */
typedef struct asked_subject {
    const char *name;
    selection_span span;
    bool has_causes, has_stations, has_tendons;
} asked_subject;

/* Does every option apply? Otherwise what was asked would silently not be shown. @return false: it has been told. */
bool asked_applies(const asked_subject *subject, const options *o);

/* The model is the first operand. What went wrong has been told on standard error.
 * @param s out; on true free it with selection_free. `w` is closed by the caller in any case.
 * @param answer out, on false: the exit status. */
bool asked_open(work *w, const options *o, selection_span span, selection *s, exit_status *answer);

/* The exit status when all is shown: do the model's checks and expectations hold? A failure is told, but for trouble with
 * a file and for what is not there, which have been. */
exit_status asked_close(const work *w, kl_status status);

#endif
