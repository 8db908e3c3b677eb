/* work.h - one model on its way through the program: read, check, solve, tell.
 * SPDX-License-Identifier: MIT */
#ifndef KERNLINE_WORK_H
#define KERNLINE_WORK_H

#include "arena.h"
#include "exit_status.h"
#include "kernline/check.h"
#include "source.h"

/* Start with {0}; work_close in any case. */
typedef struct work {
    const char *path; /* as the user named it */
    text_sources sources;
    kl_diags *diags;
    arena memory;
    kl_model *model;
    kl_results *results;
    kl_check_report *report;
} work;

/* Read the file ("-": standard input), build the model and check it as a whole. */
kl_status work_read(work *w, const char *path);

/* Analyse the model that was read, and hold its checks and expectations against the results. settings NULL: the
 * defaults. */
kl_status work_solve(work *w, const kl_settings *settings);

/* Write the diagnostics to standard error: all, or errors and notes only. When `status` is a failure and no error
 * tells of it, its own text is written. @return the exit status that belongs to `status` */
exit_status work_tell(work *w, kl_status status, bool with_warnings);

void work_close(work *w);

/* "kernline: …" on standard error, for what is not about a place in a model. */
void work_complain(const char *format, ...) KL_PRINTF(1, 2);

#endif
