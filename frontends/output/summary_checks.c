/* summary_checks.c - tendons at a glance, and of the checks what fails, what comes near, and each check's worst.
 * SPDX-License-Identifier: MIT */
#include "summary_tables.h"

#include <math.h>

#include "label.h"

#define SUMMARY_NEAR_RATIO 0.95
#define SUMMARY_EXPECTATIONS                                                                       \
    12 /* up to so many are all listed; of more only those that are missed */
#define SUMMARY_CHECK_LIMIT 16

static void tendon_add_columns(table *t)
{
    table_add_words(t, COLUMN_WORD, "tendon", "tendon");
    table_add(t, COLUMN_WHOLE, "count", "in\ngroup", KL_MEASURE_NUMBER, 0);
    table_add(t, COLUMN_FIGURE, "jack_force", "jack\nforce", KL_MEASURE_FORCE, 4);
    table_add(t, COLUMN_FIGURE, "jack_share", "of\nultimate", KL_MEASURE_NUMBER, 3);
    table_add(t, COLUMN_FIGURE, "force_start", "seated\nat start", KL_MEASURE_FORCE, 4);
    table_add(t, COLUMN_FIGURE, "force_end", "seated\nat end", KL_MEASURE_FORCE, 4);
    table_add(t, COLUMN_FIGURE, "smallest_force", "smallest\nforce", KL_MEASURE_FORCE, 4);
    table_add(t, COLUMN_EXACT, "smallest_station", "at", KL_MEASURE_STATION, 1);
    table_add(t, COLUMN_FIGURE, "elongation_start", "elongation\nat start", KL_MEASURE_SIZE, 3);
    table_add(t, COLUMN_FIGURE, "elongation_end", "elongation\nat end", KL_MEASURE_SIZE, 3);
    table_add(t, COLUMN_FIGURE, "group_jack_force", "jack force\nof group", KL_MEASURE_FORCE, 5);
}

void summary_build_tendons(table *t, kl_results *results, const selection *s)
{
    (void)s;
    const kl_model *model = kl_results_model(results);
    table_title(t, "Tendons as stressed, one of each group");
    tendon_add_columns(t);
    kl_index left_out = 0;
    bool any_again = false;
    for (kl_index i = 0; i < model->tendon_count; ++i) {
        kl_stressing g;
        if (!table_accepts(t, kl_tendon_stressing(results, i, &g))) {
            continue;
        }
        if (table_row_count(t) >= SUMMARY_ROW_LIMIT / 3) {
            ++left_out;
            continue;
        }
        const kl_tendon *tn = &model->tendons[i];
        any_again = any_again || g.was_seated;
        table_put_text(t, tn->name);
        table_put(t, (double)tn->count);
        table_put(t, g.jack_force);
        table_put(t, g.jack_stress / model->materials[tn->material].ultimate);
        table_put(t, g.force_at[0]);
        table_put(t, g.force_at[1]);
        table_put(t, g.smallest_force);
        table_put(t, g.smallest_station);
        table_put(t, table_elongation(&g, 0));
        table_put(t, table_elongation(&g, 1));
        table_put(t, g.jack_force * (double)tn->count);
    }
    if (any_again) {
        table_note(t,
                   "Elongation is that of the last pull; `table stressing` has those before it.");
    }
    summary_note_left_out(t, left_out, "`table stressing`");
}

/* ---- checks --------------------------------------------------------------------------------------------- */

/* Of the results of one check, the first of which is `first`, that with the largest ratio. */
static kl_index check_worst(const kl_check_report *report, kl_index first)
{
    const kl_index check = kl_check_result_at(report, first)->check;
    kl_index worst = first;
    for (kl_index i = first + 1; i < kl_check_result_count(report); ++i) {
        const kl_check_result *r = kl_check_result_at(report, i);
        if (r->check != check) {
            break;
        }
        worst = r->ratio > kl_check_result_at(report, worst)->ratio ? i : worst;
    }
    return worst;
}

static void check_put_short(table *t, const kl_results *results, const kl_check_result *r)
{
    const kl_model *model = kl_results_model(results);
    table_put_text(t, model->checks[r->check].name);
    table_put_text(t, r->limit_name);
    table_put_text(t, r->member != KL_NONE   ? model->members[r->member].name
                      : r->tendon != KL_NONE ? model->tendons[r->tendon].name
                                             : "");
    table_put(t, r->station);
    table_put_text(t, label_face(r->face));
    table_put_state(t, results, r->state);
    table_put(t, r->demand);
    table_put(t, r->limit);
    table_put(t, isinf(r->ratio) ? (double)NAN : r->ratio); /* beyond a limit of 0 */
    table_put_text(t, r->passed ? "passes" : "FAILS");
}

/* Those that pass or those that fail, as far as they are worth a line. @return how many are left out by now */
static kl_index check_put_some(table *t,
                               const kl_results *results,
                               const kl_check_report *report,
                               bool passed,
                               kl_index left_out)
{
    kl_index worst = KL_NONE;
    for (kl_index i = 0; i < kl_check_result_count(report); ++i) {
        const kl_check_result *r = kl_check_result_at(report, i);
        if (i == 0 || kl_check_result_at(report, i - 1)->check != r->check) {
            worst = check_worst(report, i);
        }
        if (r->passed != passed || (passed && !(r->ratio > SUMMARY_NEAR_RATIO) && i != worst)) {
            continue;
        }
        if (table_row_count(t) < SUMMARY_CHECK_LIMIT) {
            check_put_short(t, results, r);
        } else {
            ++left_out;
        }
    }
    return left_out;
}

void summary_build_checks(table *t, kl_results *results, const selection *s)
{
    table_title(t,
                "Checks: each one's worst, and whatever fails or comes within 5 %% of its limit");
    table_add_words(t, COLUMN_WORD, "check", "check");
    table_add_words(t, COLUMN_WORD, "limit_name", "limit");
    table_add_words(t, COLUMN_WORD, "on", "on");
    table_add(t, COLUMN_EXACT, "station", "at", KL_MEASURE_STATION, 1);
    table_add_words(t, COLUMN_WORD, "face", "face");
    table_add_words(t, COLUMN_WORD, "state", "when");
    table_add(t, COLUMN_EACH, "demand", "stress", KL_MEASURE_STRESS, 4);
    table_add(t, COLUMN_EACH, "limit", "allowed", KL_MEASURE_STRESS, 4);
    table_add(t, COLUMN_FIGURE, "ratio", "ratio", KL_MEASURE_NUMBER, 3);
    table_add_words(t, COLUMN_WORD, "verdict", "verdict");
    const kl_index left_out = check_put_some(t, results, s->report, false, 0);
    const kl_index left_out_too = check_put_some(t, results, s->report, true, left_out);
    if (left_out_too > 0) {
        table_note(t, "%d more: `table checks` lists all.", (int)left_out_too);
    }
}

void summary_build_expectations(table *t, kl_results *results, const selection *s)
{
    const kl_index count = kl_expectation_result_count(s->report);
    const bool is_long = count > SUMMARY_EXPECTATIONS;
    table_title(t, "%s", is_long ? "Expectations that are missed" : "Expectations");
    table_put_expectations(t, results, s->report, is_long, SUMMARY_ROW_LIMIT / 3);
    if (is_long) {
        table_note(t, "`table expectations` lists all %d.", (int)count);
    }
}
