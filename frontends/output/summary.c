/* summary.c - put the summary together, as text or as JSON.
 *
 * Both follow one list of parts: each is a table and a question whether it applies to the model.
 * SPDX-License-Identifier: MIT */
#include "summary.h"

#include <math.h>
#include <string.h>

#include "json.h"
#include "kernline/version.h"
#include "label.h"
#include "summary_tables.h"
#include "table_text.h"

#define SUMMARY_WIDTH 100

/* ---- what applies ---------------------------------------------------------------------------------------- */

static bool summary_has_stages(const summary_input *in)
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

static bool summary_has_checks(const summary_input *in)
{
    return kl_check_result_count(in->report) > 0;
}

static bool summary_has_expectations(const summary_input *in)
{
    return kl_expectation_result_count(in->report) > 0;
}

typedef struct summary_part {
    const char *name; /* key in JSON */
    selection_span span;
    table_builder *build;
    bool (*applies)(const summary_input *in);
    bool keeps_notes; /* in print: the notes of the summary's own tables say what was cut */
} summary_part;

static const summary_part summary_before_posts[] = {
    {"steps", SELECTION_ALL, table_build_steps, summary_has_stages, false},
    {"reactions", SELECTION_FINAL, table_build_reactions, summary_has_no_stages, false},
    {"members", SELECTION_FINAL, summary_build_members, summary_has_no_stages, true},
    {"courses", SELECTION_ALL, summary_build_courses, summary_has_stages, true},
    {"tendons", SELECTION_NONE, summary_build_tendons, summary_has_tendons, true},
    {"secondary", SELECTION_FINAL, summary_build_secondary, summary_has_tendons, true},
};

static const summary_part summary_after_posts[] = {
    {"checks", SELECTION_NONE, summary_build_checks, summary_has_checks, true},
    {"camber", SELECTION_FINAL, summary_build_camber, summary_has_stages, true},
    {"expectations", SELECTION_NONE, table_build_expectations, summary_has_expectations, true},
};

/* Start and fill a part's table; the caller frees it in any case. */
static kl_status summary_fill(const summary_input *in, const summary_part *part, table *t)
{
    table_start(t, part->name, &kl_results_model(in->results)->display);
    const selection_wish wish = selection_wish_none();
    selection s;
    const kl_status status = selection_make(in->results, &wish, part->span, &s);
    if (status != KL_OK) {
        return status;
    }
    s.report = in->report;
    part->build(t, in->results, &s);
    selection_free(&s);
    return t->status;
}

static kl_status summary_fill_posts(const summary_input *in, kl_index falsework, table *t)
{
    table_start(t, "posts", &kl_results_model(in->results)->display);
    summary_build_posts(t, in->results, falsework);
    return t->status;
}

/* ---- the verdict ------------------------------------------------------------------------------------------ */

typedef struct summary_verdict {
    kl_index checks, checks_failed, expectations, expectations_missed;
    kl_index states; /* audited */
    bool balanced;
    double imbalance; /* largest */
    double worst_ratio;
} summary_verdict;

static void summary_audit(const kl_results *results, kl_state state, summary_verdict *v)
{
    kl_audit a;
    if (kl_audit_of_state(results, state, &a) == KL_OK) {
        v->states++;
        v->balanced = v->balanced && a.passed;
        v->imbalance = fmax(v->imbalance, fmax(fmax(a.force_error, a.moment_error),
                                               fmax(a.node_error, a.member_error)));
    }
}

static summary_verdict summary_judge(const summary_input *in)
{
    summary_verdict v = {.balanced = true};
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
        summary_audit(in->results, kl_state_step(step), &v);
    }
    for (kl_index i = 0; i < kl_results_model(in->results)->case_count; ++i) {
        if (kl_case_is_solved(in->results, i)) {
            summary_audit(in->results, kl_state_case(i), &v);
        }
    }
    return v;
}

/* ---- text -------------------------------------------------------------------------------------------------- */

/* ", 3 members": counts that are zero are not told. */
static void
summary_count(FILE *out, const char **comma, kl_index count, const char *one, const char *many)
{
    if (count > 0) {
        fprintf(out, "%s%d %s", *comma, (int)count, count == 1 ? one : many);
        *comma = ", ";
    }
}

static kl_index summary_row_count(const kl_model *model)
{
    kl_index rows = 0;
    for (kl_index i = 0; i < model->falsework_count; ++i) {
        rows += model->falsework[i].row_count;
    }
    return rows;
}

static void summary_heading(const summary_input *in, FILE *out)
{
    const kl_model *model = kl_results_model(in->results);
    if (model->title[0] != '\0') {
        fprintf(out, "%s\n", model->title);
    }
    const char *comma = ": ";
    fputs(in->file, out);
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

static void summary_write_verdict(const summary_input *in, FILE *out)
{
    const summary_verdict v = summary_judge(in);
    fprintf(out,
            "Audit         %s: forces, moments, nodes and member ends after %d %s, largest "
            "imbalance %.1e\n",
            v.balanced ? "in balance" : "OUT OF BALANCE", (int)v.states,
            summary_has_stages(in) ? "steps" : "load cases", v.imbalance);
    if (v.checks == 0) {
        fputs("Checks        none in the model\n", out);
    } else if (v.checks_failed > 0) {
        fprintf(out, "Checks        %d of %d FAIL, worst ratio %.3g\n", (int)v.checks_failed,
                (int)v.checks, v.worst_ratio);
    } else {
        fprintf(out, "Checks        all %d pass, worst ratio %.3g\n", (int)v.checks, v.worst_ratio);
    }
    if (v.expectations_missed > 0) {
        fprintf(out, "Expectations  %d of %d MISSED\n", (int)v.expectations_missed,
                (int)v.expectations);
    } else if (v.expectations > 0) {
        fprintf(out, "Expectations  all %d met\n", (int)v.expectations);
    }
}

static void summary_write_warnings(const summary_input *in, FILE *out)
{
    if (in->warning_count == 0) {
        fputs("Warnings      none\n", out);
        return;
    }
    fprintf(out, "Warnings      %d\n", (int)in->warning_count);
    for (kl_index i = 0; i < in->warning_count; ++i) {
        const summary_message *w = &in->warnings[i];
        if (w->place[0] != '\0') {
            fprintf(out, "  %s [%s]\n", w->place, w->name);
        } else {
            fprintf(out, "  [%s]\n", w->name);
        }
        text_write_wrapped(out, "      ", 6, SUMMARY_WIDTH, w->text);
        if (w->hint != NULL && w->hint[0] != '\0') {
            text_write_wrapped(out, "      ", 6, SUMMARY_WIDTH, w->hint);
        }
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

static kl_status
summary_write_parts(const summary_input *in, const summary_part *parts, size_t count, FILE *out)
{
    for (size_t i = 0; i < count; ++i) {
        if (parts[i].applies(in)) {
            table t;
            kl_status status = summary_fill(in, &parts[i], &t);
            if (status == KL_OK) {
                status = summary_print(&t, parts[i].keeps_notes, out);
            }
            table_free(&t);
            KL_TRY(status);
        }
    }
    return KL_OK;
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

#define SUMMARY_COUNT(parts) (sizeof(parts) / sizeof(parts)[0])

kl_status summary_write(const summary_input *input, FILE *out)
{
    summary_heading(input, out);
    summary_write_verdict(input, out);
    summary_write_warnings(input, out);
    KL_TRY(
        summary_write_parts(input, summary_before_posts, SUMMARY_COUNT(summary_before_posts), out));
    KL_TRY(summary_write_posts(input, out));
    KL_TRY(
        summary_write_parts(input, summary_after_posts, SUMMARY_COUNT(summary_after_posts), out));
    fputc('\n', out);
    text_write_wrapped(
        out, "", 0, SUMMARY_WIDTH,
        "Signs: moment + stretches the bottom, axial force and stress + in tension, movement + up, "
        "right and anticlockwise, a reaction is the support's force on the structure.");
    text_write_wrapped(out, "", 0, SUMMARY_WIDTH, LABEL_CAUTION);
    return ferror(out) ? KL_FILE_TROUBLE : KL_OK;
}

/* ---- JSON -------------------------------------------------------------------------------------------------- */

static int summary_set(json_t *object, const char *key, json_t *value)
{
    return json_object_set_new(object, key, value);
}

static json_t *summary_json_model(const summary_input *in)
{
    const kl_model *model = kl_results_model(in->results);
    json_t *o = json_object();
    int failed = summary_set(o, "file", json_from_text(in->file));
    failed |= summary_set(o, "title", json_from_text(model->title));
    failed |= summary_set(o, "members", json_integer(model->member_count));
    failed |= summary_set(o, "nodes", json_integer(model->node_count));
    failed |= summary_set(o, "tendon_groups", json_integer(model->tendon_count));
    failed |= summary_set(o, "rows_of_posts", json_integer(summary_row_count(model)));
    failed |= summary_set(o, "stages", json_integer(model->stage_count));
    failed |= summary_set(o, "steps", json_integer(kl_step_count(in->results)));
    if (failed) {
        json_decref(o);
        return NULL;
    }
    return o;
}

static json_t *summary_json_verdict(const summary_input *in)
{
    const summary_verdict v = summary_judge(in);
    json_t *o = json_object();
    int failed = summary_set(o, "balanced", json_boolean(v.balanced));
    failed |= summary_set(o, "largest_imbalance",
                          isfinite(v.imbalance) ? json_real(v.imbalance) : json_null());
    failed |= summary_set(o, "checks", json_integer(v.checks));
    failed |= summary_set(o, "checks_failed", json_integer(v.checks_failed));
    failed |= summary_set(o, "worst_ratio",
                          v.checks > 0 && isfinite(v.worst_ratio) ? json_real(v.worst_ratio)
                                                                  : json_null());
    failed |= summary_set(o, "expectations", json_integer(v.expectations));
    failed |= summary_set(o, "expectations_missed", json_integer(v.expectations_missed));
    if (failed) {
        json_decref(o);
        return NULL;
    }
    return o;
}

static json_t *summary_json_warning(const summary_message *w)
{
    json_t *o = json_object();
    int failed = summary_set(o, "name", json_from_text(w->name));
    failed |= summary_set(o, "place", json_from_text(w->place));
    failed |= summary_set(o, "message", json_from_text(w->text));
    failed |= summary_set(o, "hint", w->hint != NULL ? json_from_text(w->hint) : json_null());
    if (failed) {
        json_decref(o);
        return NULL;
    }
    return o;
}

static json_t *summary_json_warnings(const summary_input *in)
{
    json_t *list = json_array();
    for (kl_index i = 0; i < in->warning_count; ++i) {
        if (json_array_append_new(list, summary_json_warning(&in->warnings[i])) != 0) {
            json_decref(list);
            return NULL;
        }
    }
    return list;
}

static kl_status
summary_json_part(const summary_input *in, json_t *tables, const summary_part *part)
{
    if (!part->applies(in)) {
        return KL_OK;
    }
    table t;
    kl_status status = summary_fill(in, part, &t);
    if (status == KL_OK && summary_set(tables, part->name, json_from_table(&t)) != 0) {
        status = KL_NO_MEMORY;
    }
    table_free(&t);
    return status;
}

/* Whole tables: here posts come in the long form, which has the same columns for every model. */
static kl_status summary_json_tables(const summary_input *in, json_t *tables)
{
    static const summary_part extra[] = {
        {"audit", SELECTION_ALL, table_build_audit, summary_has_stages, true},
        {"audit", SELECTION_ALL, table_build_audit, summary_has_no_stages, true},
        {"posts", SELECTION_ALL, table_build_posts, summary_has_stages, true},
    };
    for (size_t i = 0; i < SUMMARY_COUNT(summary_before_posts); ++i) {
        KL_TRY(summary_json_part(in, tables, &summary_before_posts[i]));
    }
    for (size_t i = 0; i < SUMMARY_COUNT(extra); ++i) {
        KL_TRY(summary_json_part(in, tables, &extra[i]));
    }
    for (size_t i = 0; i < SUMMARY_COUNT(summary_after_posts); ++i) {
        KL_TRY(summary_json_part(in, tables, &summary_after_posts[i]));
    }
    return KL_OK;
}

kl_status summary_write_json(const summary_input *input, FILE *out)
{
    json_t *document = json_object();
    json_t *tables = json_object();
    kl_status status = tables != NULL ? summary_json_tables(input, tables) : KL_NO_MEMORY;
    int failed = summary_set(document, "kernline", json_string(KL_VERSION_TEXT));
    failed |= summary_set(document, "model", summary_json_model(input));
    failed |= summary_set(document, "verdict", summary_json_verdict(input));
    failed |= summary_set(document, "warnings", summary_json_warnings(input));
    failed |= summary_set(document, "tables", tables);
    failed |= summary_set(document, "caution", json_string(LABEL_CAUTION));
    if (status == KL_OK && failed) {
        status = KL_NO_MEMORY;
    }
    if (status != KL_OK) {
        json_decref(document);
        return status;
    }
    return json_write(document, out);
}
