/* warn.h - what the automatic warnings share, and the families of them.
 * SPDX-License-Identifier: MIT */
#ifndef KERNLINE_WARN_H
#define KERNLINE_WARN_H

#include "arena.h"
#include "kernline/check.h"
#include "when.h"

typedef struct warn_context {
    kl_results *results;
    const kl_model *model;
    kl_diags *diags;
    arena *memory;
    when_states states; /* all moments the structure has, when_all */
} warn_context;

/* Each looks at everything of its kind and tells the worst place once. @return KL_OK, KL_NO_MEMORY. */
kl_status warn_overloaded_rows(const warn_context *c); /* row-overloaded */
kl_status warn_uneven_settlement(const warn_context *c);
kl_status warn_still_bearing(const warn_context *c);
kl_status warn_lift_off(const warn_context *c);         /* lift-off, row-gains-load */
kl_status warn_pulling_supports(const warn_context *c); /* support-pulls, bearing-pulls */
kl_status warn_cracked_sections(const warn_context *c);
kl_status warn_time_laws(const warn_context *c); /* law-out-of-scope, creep-not-linear */
kl_status warn_relaxation(const warn_context *c);
kl_status warn_creep_curves(const warn_context *c);

/* All rows of falsework under one member, by station, at one moment. */
typedef struct warn_row {
    kl_index falsework, row;
    double station; /* m along the member carried */
    kl_post_row state;
} warn_row;
kl_status warn_rows_under(
    const warn_context *c, kl_state state, kl_index member, warn_row **rows, kl_index *count);

/* The operation behind a step, or NULL for a stage that only looks. */
const kl_operation *warn_operation(const kl_results *results, kl_index step);

#endif
