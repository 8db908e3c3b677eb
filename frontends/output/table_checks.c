/* table_checks.c - checks, each limit at its worst place and step.
 * SPDX-License-Identifier: MIT */
#include "tables.h"

#include <math.h>

#include "label.h"

static void check_add_columns(table *t)
{
    table_add_words(t, COLUMN_WORD, "check", "check");
    table_add_words(t, COLUMN_WORD, "limit_name", "limit");
    table_add_words(t, COLUMN_WORD, "on", "on");
    table_add(t, COLUMN_EXACT, "station", "station", KL_MEASURE_STATION, 2);
    table_add_words(t, COLUMN_WORD, "side", "side");
    table_detail(t);
    table_add_words(t, COLUMN_WORD, "face", "face");
    table_add(t, COLUMN_FLAG, "at_column_face", "at a column's face", KL_MEASURE_NUMBER, 0);
    table_detail(t);
    table_add_words(t, COLUMN_WORD, "state", "when");
    table_add(t, COLUMN_EACH, "demand", "stress", KL_MEASURE_STRESS, 4);
    table_add(t, COLUMN_EACH, "limit", "allowed", KL_MEASURE_STRESS, 4);
    table_add(t, COLUMN_FIGURE, "ratio", "ratio", KL_MEASURE_NUMBER, 4);
    table_add_words(t, COLUMN_WORD, "verdict", "verdict");
    table_add(t, COLUMN_FLAG, "passed", "passed", KL_MEASURE_NUMBER, 0);
    table_detail(t);
    table_add(t, COLUMN_FLAG, "ends_stage_well", "the stage's end passes", KL_MEASURE_NUMBER, 0);
    table_detail(t);
    table_add(t, COLUMN_FIGURE, "strength", "strength", KL_MEASURE_STRESS, 4);
    table_detail(t);
    table_add_words(t, COLUMN_WORD, "strength_name", "strength's name");
    table_detail(t);
    table_add(t, COLUMN_EXACT, "strength_age", "strength's age", KL_MEASURE_TIME, 2);
    table_detail(t);
    table_add_words(t, COLUMN_WORD, "formula", "formula");
    table_detail(t);
    table_add_words(t, COLUMN_WORD, "numbers", "allowed, worked out");
    table_add_words(t, COLUMN_WORD, "rule", "rule");
    table_add(t, COLUMN_FLAG, "from_memory", "rule not compared with print", KL_MEASURE_NUMBER, 0);
    table_detail(t);
}

static const char *check_on(const kl_model *model, const kl_check_result *r)
{
    if (r->member != KL_NONE) {
        return model->members[r->member].name;
    }
    return r->tendon != KL_NONE ? model->tendons[r->tendon].name : "";
}

static void check_put(table *t, const kl_results *results, const kl_check_result *r)
{
    const kl_model *model = kl_results_model(results);
    table_put_text(t, model->checks[r->check].name);
    table_put_text(t, r->limit_name);
    table_put_text(t, check_on(model, r));
    table_put(t, r->station);
    table_put_text(t, r->side == KL_LEFT ? "left" : "right");
    table_put_text(t, label_face(r->face));
    table_put_flag(t, r->column_face > 0);
    table_put_state(t, results, r->state);
    table_put(t, r->demand);
    table_put(t, r->limit);
    table_put(t, isinf(r->ratio) ? (double)NAN : r->ratio); /* beyond a limit of 0 */
    table_put_text(t, r->passed ? "passes" : "FAILS");
    table_put_flag(t, r->passed);
    table_put_flag(t, r->ends_stage_well);
    table_put(t, r->strength);
    table_put_text(t, r->strength_name);
    table_put(t, r->strength_age);
    table_put_text(t, r->formula);
    table_put_text(t, r->numbers);
    table_put_print(t, "%s%s", r->rule != NULL ? r->rule : "", r->from_memory ? " (*)" : "");
}

void table_build_checks(table *t, kl_results *results, const selection *s)
{
    table_title(t, "Checks, each limit at its worst place and step");
    check_add_columns(t);
    bool any_from_memory = false;
    for (kl_index i = 0; i < kl_check_result_count(s->report); ++i) {
        const kl_check_result *r = kl_check_result_at(s->report, i);
        if (r->member == KL_NONE || selection_takes(s, r->member)) {
            check_put(t, results, r);
            table_put_flag(t, r->from_memory);
            any_from_memory = any_from_memory || r->from_memory;
        }
    }
    table_note(t, "%s A ratio up to 1 passes; beside a limit of 0 there is none.",
               LABEL_SIGNS_STRESS);
    if (any_from_memory) {
        table_note(t, "(*) The rule's figure has not been compared with the printed text: look it "
                      "up before relying "
                      "on it.");
    }
}
