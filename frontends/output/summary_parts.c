/* summary_parts.c - the list of parts, each a table and a question whether it applies to the model, and the verdict.
 * SPDX-License-Identifier: MIT */
#include "summary_parts.h"

#include <math.h>

#include "force_scale.h"
#include "summary_tables.h"
#include "table_settle.h"

/* ---- what applies ---------------------------------------------------------------------------------------- */

bool summary_has_stages(const summary_input *in)
{
    return kl_step_count(in->results) > 0;
}

static bool summary_has_no_stages(const summary_input *in)
{
    return !summary_has_stages(in);
}

static bool summary_has_tendons(const summary_input *in)
{
    return kl_results_model(in->results)->tendon_count > 0;
}

/* With stages the courses tell them. */
static bool summary_has_stresses(const summary_input *in)
{
    return summary_has_tendons(in) && !summary_has_stages(in);
}

static bool summary_has_checks(const summary_input *in)
{
    return kl_check_result_count(in->report) > 0;
}

static bool summary_has_expectations(const summary_input *in)
{
    return kl_expectation_result_count(in->report) > 0;
}

static const summary_part summary_before_posts[] = {
    {"steps", table_build_steps, summary_has_stages, SELECTION_ALL, false},
    {"reactions", summary_build_reactions, summary_has_no_stages, SELECTION_FINAL, true},
    {"members", summary_build_members, summary_has_no_stages, SELECTION_FINAL, true},
    {"stress_extremes", summary_build_stresses, summary_has_stresses, SELECTION_FINAL, true},
    {"courses", summary_build_courses, summary_has_stages, SELECTION_NONE, true},
    {"governing", summary_build_governing, summary_has_stages, SELECTION_NONE, true},
    {"stressing", summary_build_tendons, summary_has_tendons, SELECTION_NONE, true},
    {"secondary", summary_build_secondary, summary_has_tendons, SELECTION_FINAL, true},
};

static const summary_part summary_after_posts[] = {
    {"checks", summary_build_checks, summary_has_checks, SELECTION_NONE, true},
    {"camber", summary_build_camber, summary_has_stages, SELECTION_FINAL, true},
    {"expectations", summary_build_expectations, summary_has_expectations, SELECTION_NONE, true},
};

#define SUMMARY_COUNT(parts) (sizeof(parts) / sizeof(parts)[0])

const summary_part *summary_parts_before_posts(size_t *count)
{
    *count = SUMMARY_COUNT(summary_before_posts);
    return summary_before_posts;
}

const summary_part *summary_parts_after_posts(size_t *count)
{
    *count = SUMMARY_COUNT(summary_after_posts);
    return summary_after_posts;
}

kl_status summary_fill(const summary_input *in, const summary_part *part, table *t)
{
    table_start(t, part->name, &kl_results_model(in->results)->display);
    const selection_wish wish = selection_wish_none();
    selection s;
    const kl_status status = selection_make(in->results, &wish, part->span, &s);
    if (status != KL_OK) {
        return status;
    }
    s.report = in->report;
    table_accepts(t, force_scale_of(in->results, &s, &t->force_scale));
    part->build(t, in->results, &s);
    table_settle(t);
    selection_free(&s);
    return t->status;
}

/* ---- the verdict ------------------------------------------------------------------------------------------ */

static kl_status summary_audit(const kl_results *results, kl_state state, summary_verdict *v)
{
    kl_audit a;
    KL_TRY(kl_audit_of_state(results, state, &a));
    v->states++;
    v->balanced = v->balanced && a.passed;
    v->imbalance = fmax(v->imbalance, fmax(fmax(a.force_error, a.moment_error),
                                           fmax(a.node_error, a.member_error)));
    return KL_OK;
}

kl_status summary_judge(const summary_input *in, summary_verdict *verdict)
{
    summary_verdict v = {.balanced = true, .worst_ratio = NAN}; /* fmax passes over NAN */
    v.checks = kl_check_result_count(in->report);
    for (kl_index i = 0; i < v.checks; ++i) {
        const kl_check_result *r = kl_check_result_at(in->report, i);
        v.checks_failed += !r->passed;
        v.worst_ratio = fmax(v.worst_ratio, r->ratio);
    }
    v.expectations = kl_expectation_result_count(in->report);
    for (kl_index i = 0; i < v.expectations; ++i) {
        v.expectations_missed += !kl_expectation_result_at(in->report, i)->passed;
    }
    for (kl_index step = 0; step < kl_step_count(in->results); ++step) {
        KL_TRY(summary_audit(in->results, kl_state_step(step), &v));
    }
    for (kl_index i = 0; i < kl_results_model(in->results)->case_count; ++i) {
        if (kl_case_is_solved(in->results, i)) {
            KL_TRY(summary_audit(in->results, kl_state_case(i), &v));
        }
    }
    KL_TRY(post_use_tally(in->results, &v.posts));
    *verdict = v;
    return KL_OK;
}

kl_index summary_row_count(const kl_model *model)
{
    kl_index rows = 0;
    for (kl_index i = 0; i < model->falsework_count; ++i) {
        rows += model->falsework[i].row_count;
    }
    return rows;
}
