/* summary_json.c - the summary as one JSON document: some texts, and tables by name.
 *
 * What is a line or a list in print is a table here too: model and verdict have one row, warnings a row each.
 * SPDX-License-Identifier: MIT */
#include "summary.h"

#include <math.h>

#include "json.h"
#include "kernline/version.h"
#include "label.h"
#include "summary_parts.h"

#define SUMMARY_TABLE_LIMIT 20

typedef struct summary_document {
    const summary_input *in;
    table tables[SUMMARY_TABLE_LIMIT];
    size_t count;
} summary_document;

static table *document_start(summary_document *d, const char *name)
{
    table *t = &d->tables[d->count++];
    table_start(t, name, &kl_results_model(d->in->results)->display);
    return t;
}

static void document_put_count(table *t, const char *key)
{
    table_add(t, COLUMN_WHOLE, key, key, KL_MEASURE_NUMBER, 0);
}

static void document_add_model(summary_document *d)
{
    const kl_model *model = kl_results_model(d->in->results);
    table *t = document_start(d, "model");
    static const char *const keys[] = {"members",       "nodes", "supports", "tendon_groups",
                                       "rows_of_posts", "cases", "stages",   "steps"};
    const kl_index counts[] = {model->member_count,      model->node_count,
                               model->support_count,     model->tendon_count,
                               summary_row_count(model), model->case_count,
                               model->stage_count,       kl_step_count(d->in->results)};
    for (size_t i = 0; i < sizeof keys / sizeof keys[0]; ++i) {
        document_put_count(t, keys[i]);
    }
    for (size_t i = 0; i < sizeof counts / sizeof counts[0]; ++i) {
        table_put(t, (double)counts[i]);
    }
}

static void document_add_verdict(summary_document *d)
{
    summary_verdict v;
    table *t = document_start(d, "verdict");
    if (!table_accepts(t, summary_judge(d->in, &v))) {
        return;
    }
    table_add(t, COLUMN_FLAG, "balanced", "balanced", KL_MEASURE_NUMBER, 0);
    table_add(t, COLUMN_SHARE, "imbalance", "largest imbalance", KL_MEASURE_NUMBER, 2);
    document_put_count(t, "checks");
    document_put_count(t, "checks_failed");
    table_add(t, COLUMN_FIGURE, "worst_ratio", "worst ratio", KL_MEASURE_NUMBER, 4);
    document_put_count(t, "expectations");
    document_put_count(t, "expectations_missed");
    document_put_count(t, "rated_rows");
    document_put_count(t, "rows_over");
    table_add(t, COLUMN_FIGURE, "worst_post_share", "worst share of a post's rated load",
              KL_MEASURE_NUMBER, 4);
    table_put_flag(t, v.balanced);
    table_put(t, v.imbalance);
    table_put(t, (double)v.checks);
    table_put(t, (double)v.checks_failed);
    table_put(t, v.worst_ratio);
    table_put(t, (double)v.expectations);
    table_put(t, (double)v.expectations_missed);
    table_put(t, (double)v.posts.rated);
    table_put(t, (double)v.posts.over);
    table_put(t, v.posts.rated > 0 ? v.posts.worst : (double)NAN);
}

static void document_add_warnings(summary_document *d)
{
    table *t = document_start(d, "warnings");
    table_add_words(t, COLUMN_WORD, "name", "name");
    table_add_words(t, COLUMN_WORD, "place", "place");
    table_add_words(t, COLUMN_WORD, "message", "message");
    table_add_words(t, COLUMN_WORD, "hint", "hint");
    for (kl_index i = 0; i < d->in->warning_count; ++i) {
        table_put_text(t, d->in->warnings[i].name);
        table_put_text(t, d->in->warnings[i].place);
        table_put_text(t, d->in->warnings[i].text);
        table_put_text(t, d->in->warnings[i].hint);
    }
}

/* Whole tables where there are such, with the same columns for every model; the summary's own otherwise. */
static kl_status document_add_recipe(summary_document *d, const table_recipe *recipe)
{
    const selection_wish wish = selection_wish_none();
    selection s;
    KL_TRY(selection_make(d->in->results, &wish, recipe->span, &s));
    s.report = d->in->report;
    const kl_status status = table_build(&d->tables[d->count++], recipe, d->in->results, &s);
    selection_free(&s);
    return status;
}

static kl_status document_add_part(summary_document *d, const summary_part *part)
{
    const table_recipe *recipe = table_recipe_find(part->name);
    return recipe != NULL ? document_add_recipe(d, recipe)
                          : summary_fill(d->in, part, &d->tables[d->count++]);
}

static kl_status document_add_parts(summary_document *d, const summary_part *parts, size_t count)
{
    kl_status status = KL_OK;
    for (size_t i = 0; i < count && status == KL_OK; ++i) {
        if (parts[i].applies(d->in)) {
            status = document_add_part(d, &parts[i]);
        }
    }
    return status;
}

static kl_status document_fill(summary_document *d)
{
    size_t count = 0;
    document_add_model(d);
    document_add_verdict(d);
    document_add_warnings(d);
    KL_TRY(document_add_recipe(d, table_recipe_find("audit")));
    const summary_part *parts = summary_parts_before_posts(&count);
    KL_TRY(document_add_parts(d, parts, count));
    if (kl_results_model(d->in->results)->falsework_count > 0) {
        KL_TRY(document_add_recipe(d, table_recipe_find("posts")));
    }
    parts = summary_parts_after_posts(&count);
    return document_add_parts(d, parts, count);
}

kl_status summary_write_json(const summary_input *input, FILE *out)
{
    summary_document document = {.in = input};
    kl_status status = document_fill(&document);
    if (status == KL_OK) {
        const json_text texts[] = {{"kernline", KL_VERSION_TEXT},
                                   {"file", input->file},
                                   {"title", kl_results_model(input->results)->title},
                                   {"caution", LABEL_CAUTION}};
        status = json_write_document(texts, sizeof texts / sizeof texts[0], document.tables,
                                     document.count, out);
    }
    for (size_t i = 0; i < document.count; ++i) {
        table_free(&document.tables[i]);
    }
    return status;
}
