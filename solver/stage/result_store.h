/* result_store.h - what is kept of every step, and how a question finds its columns.
 * SPDX-License-Identifier: MIT */
#ifndef KERNLINE_RESULT_STORE_H
#define KERNLINE_RESULT_STORE_H

#include "kernline/results.h"
#include "run.h"

/* The structure at the end of a step (or under a case alone). */
typedef struct state_record {
    kl_step step;
    column_set set;
    const row_state *rows;
    const hold_state *holds;
    const tendon_state *tendons;
    const member_state *members;
    const bool *element_on;
    const bool *node_stands;
    const form_span *spans;
    size_t span_count;
    const double *case_factor;
    double residual;      /* of the solves up to here */
    double largest_force; /* N, the audit's: here and in all steps before, tendons included */
    kl_audit audit;       /* of this state, all causes together … */
    bool audited;         /* … once audit_require has seen it */
    double time;
    bool known; /* a case that has been solved by itself */
} state_record;

struct kl_results {
    arena a; /* everything that lives as long as the results */
    analysis_run run;
    state_record *steps;
    kl_index step_count;
    kl_index *first_step;  /* of each stage; stage_count + 1 entries */
    state_record *moments; /* as many as there are times; moment_count of them reached */
    const double *moment_times;
    kl_index moment_count, moment_total;
    state_record *cases; /* of each case: known or not */
    state_record bare;   /* model without stages: everything stands, nothing loads */
    kl_index *first_at_node, *member_at_node; /* members that end at a model node */
    bool *supported;                          /* of each model node: does a support stand there? */
};

/* Copy the state as it is now into a record; its blocks of columns are not written any more. */
kl_status store_record(kl_results *results, state_record *record);

/* The record a state is about: the step's, the case's, or, for a combination, the last step's (without stages the
 * bare structure's). NULL: the state does not exist. */
const state_record *store_record_of(const kl_results *results, kl_state state);

/* Sum of `count` entries `stride` apart, starting at `entry`, over everything the state asks for. */
kl_status store_sum(
    const kl_results *results, kl_state state, size_t entry, size_t stride, int count, double *out);

#endif
