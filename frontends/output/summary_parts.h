/* summary_parts.h - what the summary in print and the one in JSON have in common: the list of parts, the verdict.
 * SPDX-License-Identifier: MIT */
#ifndef KERNLINE_SUMMARY_PARTS_H
#define KERNLINE_SUMMARY_PARTS_H

#include "post_use.h"
#include "summary.h"
#include "tables.h"

typedef struct summary_part {
    const char *name; /* key in JSON */
    table_builder *build;
    bool (*applies)(const summary_input *in);
    selection_span span;
    bool keeps_notes; /* in print: the notes of the summary's own tables say what was cut */
} summary_part;

/* The parts in order; the posts stand between the two lists. */
const summary_part *summary_parts_before_posts(size_t *count);
const summary_part *summary_parts_after_posts(size_t *count);

bool summary_has_stages(const summary_input *in);

/* Start and fill a part's table; the caller frees it in any case. */
kl_status summary_fill(const summary_input *in, const summary_part *part, table *t);

typedef struct summary_verdict {
    kl_index checks, checks_failed, expectations, expectations_missed;
    kl_index states; /* audited */
    bool balanced;
    double imbalance;   /* largest */
    double worst_ratio; /* NAN without checks */
    post_tally posts;
} summary_verdict;

/* @return KL_OK, or what the results answered: then there is no verdict. */
kl_status summary_judge(const summary_input *in, summary_verdict *verdict);

/* Rows of posts of all falsework. */
kl_index summary_row_count(const kl_model *model);

#endif
