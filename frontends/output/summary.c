/* summary.c - the summary in print.
 * SPDX-License-Identifier: MIT */
#include "summary.h"

#include <math.h>
#include <string.h>

#include "label.h"
#include "summary_parts.h"
#include "summary_tables.h"
#include "table_text.h"

#define SUMMARY_WIDTH     100
#define SUMMARY_OF_A_KIND 3 /* warnings of one name that are told in print */

/* ", 3 members": counts that are zero are not told. */
static void
summary_count(FILE *out, const char **comma, kl_index count, const char *one, const char *many)
{
    if (count > 0) {
        fprintf(out, "%s%d %s", *comma, (int)count, count == 1 ? one : many);
        *comma = ", ";
    }
}

static void summary_heading(const summary_input *in, FILE *out)
{
    const kl_model *model = kl_results_model(in->results);
    if (model->title[0] != '\0') {
        text_write(out, model->title);
        fputc('\n', out);
    }
    const char *comma = ": ";
    text_write(out, in->file);
    summary_count(out, &comma, model->member_count, "member", "members");
    summary_count(out, &comma, model->node_count, "node", "nodes");
    summary_count(out, &comma, model->support_count, "support", "supports");
    summary_count(out, &comma, model->tendon_count, "tendon group", "tendon groups");
    summary_count(out, &comma, summary_row_count(model), "row of posts", "rows of posts");
    summary_count(out, &comma, model->case_count, "load case", "load cases");
    summary_count(out, &comma, model->stage_count, "stage", "stages");
    summary_count(out, &comma, kl_step_count(in->results), "step", "steps");
    fputc('\n', out);
}

/* No check of the model, but what nobody may pass over. */
static void summary_write_posts_verdict(const post_tally *posts, FILE *out)
{
    if (posts->over > 0) {
        fprintf(out, "Posts         %d of %d rows OVERLOADED, worst ratio %.3g\n", (int)posts->over,
                (int)posts->rated, posts->worst);
    } else if (posts->rated > 0) {
        fprintf(out, "Posts         all %d rows within their rated load, worst ratio %.3g\n",
                (int)posts->rated, posts->worst);
    }
}

static kl_status summary_write_verdict(const summary_input *in, FILE *out)
{
    summary_verdict v;
    KL_TRY(summary_judge(in, &v));
    const bool is_staged = summary_has_stages(in);
    const char *what =
        v.states == 1 ? (is_staged ? "step" : "load case") : (is_staged ? "steps" : "load cases");
    if (v.states == 0) {
        fputs("Audit         none: there is no step or load case to hold in balance\n", out);
    } else if (v.balanced) {
        /* The error itself is rounding and differs from machine to machine: `table audit` has it. */
        fprintf(
            out,
            "Audit         in balance: forces, moments, nodes, member ends within 1e-9 in %d %s\n",
            (int)v.states, what);
    } else {
        fprintf(out, "Audit         OUT OF BALANCE: largest error %.1e in %d %s\n", v.imbalance,
                (int)v.states, what);
    }
    if (v.checks == 0) {
        fputs("Checks        none in the model\n", out);
    } else if (v.checks_failed > 0 && isinf(v.worst_ratio)) {
        fprintf(out, "Checks        %d of %d FAIL, among them limits of 0\n", (int)v.checks_failed,
                (int)v.checks);
    } else if (v.checks_failed > 0) {
        fprintf(out, "Checks        %d of %d FAIL, worst ratio %.3g\n", (int)v.checks_failed,
                (int)v.checks, v.worst_ratio);
    } else {
        fprintf(out, "Checks        all %d pass, worst ratio %.3g\n", (int)v.checks, v.worst_ratio);
    }
    summary_write_posts_verdict(&v.posts, out);
    if (v.expectations_missed > 0) {
        fprintf(out, "Expectations  %d of %d MISSED\n", (int)v.expectations_missed,
                (int)v.expectations);
    } else if (v.expectations > 0) {
        fprintf(out, "Expectations  all %d met\n", (int)v.expectations);
    }
    return KL_OK;
}

/* How many warnings before this one have its name. */
static kl_index summary_told_before(const summary_input *in, kl_index i)
{
    kl_index count = 0;
    for (kl_index k = 0; k < i; ++k) {
        count += strcmp(in->warnings[k].name, in->warnings[i].name) == 0;
    }
    return count;
}

static void summary_write_warning(const summary_message *w, FILE *out)
{
    if (w->place[0] != '\0') {
        fputs("  ", out);
        text_write(out, w->place);
        fprintf(out, " [%s]\n", w->name);
    } else {
        fprintf(out, "  [%s]\n", w->name);
    }
    text_write_wrapped(out, "      ", 6, SUMMARY_WIDTH, w->text);
    if (w->hint != NULL && w->hint[0] != '\0') {
        text_write_wrapped(out, "      hint: ", 12, SUMMARY_WIDTH, w->hint);
    }
}

static void summary_write_warnings(const summary_input *in, FILE *out)
{
    if (in->warning_count == 0) {
        fputs("Warnings      none\n", out);
        return;
    }
    fprintf(out, "Warnings      %d\n", (int)in->warning_count);
    kl_index left_out = 0;
    for (kl_index i = 0; i < in->warning_count; ++i) {
        if (summary_told_before(in, i) < SUMMARY_OF_A_KIND) {
            summary_write_warning(&in->warnings[i], out);
        } else {
            ++left_out;
        }
    }
    if (left_out > 0) {
        fprintf(out, "  … and %d more of these kinds: `kernline run --json` tells all\n",
                (int)left_out);
    }
}

/* Print a filled table after an empty line, when it has rows. */
static kl_status summary_print(table *t, bool keeps_notes, FILE *out)
{
    if (t->status != KL_OK || table_row_count(t) == 0) {
        return t->status;
    }
    t->note_count = keeps_notes ? t->note_count : 0;
    fputc('\n', out);
    return table_write_text(t, out);
}

static kl_status summary_write_part(const summary_input *in, const summary_part *part, FILE *out)
{
    table t;
    kl_status status = summary_fill(in, part, &t);
    if (status == KL_OK) {
        status = summary_print(&t, part->keeps_notes, out);
    }
    table_free(&t);
    return status;
}

static kl_status
summary_write_parts(const summary_input *in, const summary_part *parts, size_t count, FILE *out)
{
    kl_status status = KL_OK;
    for (size_t i = 0; i < count && status == KL_OK; ++i) {
        if (parts[i].applies(in)) {
            status = summary_write_part(in, &parts[i], out);
        }
    }
    return status;
}

static kl_status summary_fill_posts(const summary_input *in, kl_index falsework, table *t)
{
    table_start(t, "posts", &kl_results_model(in->results)->display);
    summary_build_posts(t, in->results, falsework);
    return t->status;
}

static kl_status summary_write_posts(const summary_input *in, FILE *out)
{
    for (kl_index i = 0; i < kl_results_model(in->results)->falsework_count; ++i) {
        table t;
        kl_status status = summary_fill_posts(in, i, &t);
        if (status == KL_OK) {
            status = summary_print(&t, true, out);
        }
        table_free(&t);
        KL_TRY(status);
    }
    return KL_OK;
}

kl_status summary_write(const summary_input *input, FILE *out)
{
    summary_heading(input, out);
    KL_TRY(summary_write_verdict(input, out));
    summary_write_warnings(input, out);
    size_t count = 0;
    const summary_part *parts = summary_parts_before_posts(&count);
    KL_TRY(summary_write_parts(input, parts, count, out));
    KL_TRY(summary_write_posts(input, out));
    parts = summary_parts_after_posts(&count);
    KL_TRY(summary_write_parts(input, parts, count, out));
    fputc('\n', out);
    text_write_wrapped(
        out, "", 0, SUMMARY_WIDTH,
        "Signs: moment + stretches the bottom, axial force and stress + in tension, movement + up, "
        "right and anticlockwise, a reaction is the support's force on the structure.");
    text_write_wrapped(out, "", 0, SUMMARY_WIDTH, LABEL_CAUTION);
    return ferror(out) ? KL_FILE_TROUBLE : KL_OK;
}
