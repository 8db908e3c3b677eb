/* summary.h - the whole result at a glance: what `kernline run` prints.
 *
 * In the order in which it is looked for: what the model is, whether everything is well, the warnings (gravest first), the balance of
 * each step, each member's extremes step by step (or, without stages, reactions and end moments), tendons, posts,
 * checks, camber, expectations, the caution. Long lists are cut here and complete in the tables.
 * SPDX-License-Identifier: MIT */
#ifndef KERNLINE_SUMMARY_H
#define KERNLINE_SUMMARY_H

#include <stdio.h>

#include "kernline/check.h"

typedef struct summary_message {
    const char *name;  /* "row-overloaded" */
    const char *place; /* "outrigger.kline:12", "" */
    const char *text;
    const char *hint; /* NULL */
} summary_message;

typedef struct summary_input {
    const char *file; /* as the user named it */
    kl_results *results;
    const kl_check_report *report;
    const summary_message *warnings;
    kl_index warning_count;
} summary_input;

/* @return KL_OK, KL_NO_MEMORY, KL_FILE_TROUBLE (the stream failed), or what the results answered. */
kl_status summary_write(const summary_input *input, FILE *out);

/* The same as one JSON document: docs/json-schema.md. */
kl_status summary_write_json(const summary_input *input, FILE *out);

#endif
