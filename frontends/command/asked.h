/* asked.h - what `table` and `plot` do first: read and solve the model, and find the moments that the options ask for.
 * SPDX-License-Identifier: MIT */
#ifndef KERNLINE_ASKED_H
#define KERNLINE_ASKED_H

#include "nearest.h"
#include "options.h"
#include "selection.h"
#include "work.h"

/* Moments in each decade of days since the last stage: a curve through them looks smooth. */
#define ASKED_MOMENTS 8

/* Tell that there is no `thing` ("table") of the name searched for, and which there is. `command` lists them. */
void asked_unknown(const char *thing, const char *command, const nearest *search);

/* The model is the first operand. What went wrong has been told on standard error.
 * @param s out; on true free it with selection_free. `w` is closed by the caller in any case.
 * @param answer out, on false: the exit status. */
bool asked_open(work *w, const options *o, selection_span span, selection *s, exit_status *answer);

/* A table or a picture, as far as options may or may not apply to it. */
typedef struct asked_thing {
    const char *name;
    selection_span span;
    bool has_causes;   /* its values can be split by cause */
    bool has_stations; /* it is of stations along members */
    bool has_tendons;  /* a tendon can be chosen */
} asked_thing;

/* Do the options that choose a moment, a cause, a station or a tendon apply? If not, it has been told. */
bool asked_applies(const options *o, const asked_thing *thing);

/* The exit status when all is shown: do the model's checks and expectations hold? A failure is told, but for trouble with
 * a file and for what is not there, which have been. */
exit_status asked_close(const work *w, kl_status status);

#endif
