/* table_checks.c - checks and expectations.
 * SPDX-License-Identifier: MIT */
#include "tables.h"

#include <math.h>

#include "figure.h"
#include "label.h"

#define EXPECTATION_DIGITS 6

/* ---- checks --------------------------------------------------------------------------------------------- */

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
    table_add(t, COLUMN_FIGURE, "demand", "stress", KL_MEASURE_STRESS, 4);
    table_add(t, COLUMN_FIGURE, "limit", "allowed", KL_MEASURE_STRESS, 4);
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
    table_put(t, r->ratio);
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
    table_note(t, "%s A ratio up to 1 passes.", LABEL_SIGNS_STRESS);
    if (any_from_memory) {
        table_note(t, "(*) The rule's figure has not been compared with the printed text: look it "
                      "up before relying "
                      "on it.");
    }
}

/* ---- expectations --------------------------------------------------------------------------------------- */

static const char *expectation_part(kl_part part)
{
    switch (part) {
    case KL_PRIMARY:
        return "primary ";
    case KL_SECONDARY:
        return "secondary ";
    case KL_CONCRETE_SHARE:
        return "concrete ";
    case KL_TOTAL:
        return "";
    }
    return "";
}

static const char *expectation_extreme(kl_extreme extreme)
{
    return extreme == KL_LARGEST ? "max " : extreme == KL_SMALLEST ? "min " : "";
}

/* "max secondary moment", "reaction y". */
static void expectation_put_quantity(table *t, const kl_expectation *e)
{
    static const char *const directions[] = {" x", " y", " turn"};
    table_put_print(t, "%s%s%s%s%s", expectation_extreme(e->extreme), expectation_part(e->part),
                    kl_quantity_name(e->quantity),
                    e->quantity == KL_REACTION ? directions[e->direction] : "",
                    e->tendon_total ? " (whole group)" : "");
}

static const char *expectation_on(const kl_model *model, const kl_expectation *e)
{
    if (e->member != KL_NONE) {
        return model->members[e->member].name;
    }
    if (e->node != KL_NONE) {
        return model->nodes[e->node].name;
    }
    if (e->tendon != KL_NONE) {
        return model->tendons[e->tendon].name;
    }
    return e->falsework != KL_NONE ? model->falsework[e->falsework].name : "";
}

/* Values of one table have many measures: the numbers are put in display units and the unit in words. */
static double expectation_shown(const kl_model *model, const kl_expectation *e, double value)
{
    return value / kl_show_factor(&model->display, e->measure);
}

static void expectation_put(table *t, const kl_results *results, const kl_expectation_result *r)
{
    const kl_model *model = kl_results_model(results);
    const kl_expectation *e = &model->expectations[r->expectation];
    const double none = NAN;
    expectation_put_quantity(t, e);
    table_put_text(t, expectation_on(model, e));
    table_put(t, e->node == KL_NONE ? e->station : none);
    if (r->known) {
        table_put_state(t, results, kl_state_of_cause(r->state, e->cause));
    } else {
        table_put_text(t, "not there at that time");
    }
    char room[2][FIGURE_SIZE];
    const double expected = expectation_shown(model, e, e->value);
    const double value = r->known ? expectation_shown(model, e, r->value) : none;
    figure_rounded(room[0], expected, figure_decimals(expected, EXPECTATION_DIGITS),
                   EXPECTATION_DIGITS, 0.0);
    figure_rounded(room[1], value, figure_decimals(expected, EXPECTATION_DIGITS),
                   EXPECTATION_DIGITS, 0.0);
    table_put_text(t, room[0]);
    table_put(t, expected);
    table_put_text(t, room[1]);
    table_put(t, value);
    table_put_text(t, kl_show_unit(&model->display, e->measure));
    table_put(t, e->tolerance_relative ? none : expectation_shown(model, e, e->tolerance));
    table_put(t, e->tolerance_relative ? e->tolerance : none);
    table_put(t, r->known ? expectation_shown(model, e, r->difference) : none);
    table_put_text(t, r->passed ? "met" : "MISSED");
    table_put_flag(t, r->passed);
    table_put_text(t, e->source);
}

static void expectation_add_columns(table *t)
{
    table_add_words(t, COLUMN_WORD, "quantity", "quantity");
    table_add_words(t, COLUMN_WORD, "on", "on");
    table_add(t, COLUMN_EXACT, "station", "station", KL_MEASURE_STATION, 3);
    table_add_words(t, COLUMN_WORD, "state", "when");
    table_add_words(t, COLUMN_MARK, "expected_text", "expected");
    table_add(t, COLUMN_FIGURE, "expected", "expected", KL_MEASURE_NUMBER, EXPECTATION_DIGITS);
    table_detail(t);
    table_add_words(t, COLUMN_MARK, "value_text", "came out");
    table_add(t, COLUMN_FIGURE, "value", "came out", KL_MEASURE_NUMBER, EXPECTATION_DIGITS);
    table_detail(t);
    table_add_words(t, COLUMN_WORD, "unit", "unit");
    table_add(t, COLUMN_FIGURE, "tolerance", "tolerance", KL_MEASURE_NUMBER, 4);
    table_detail(t);
    table_add(t, COLUMN_FIGURE, "tolerance_relative", "within", KL_MEASURE_RATIO, 3);
    table_add(t, COLUMN_FIGURE, "difference", "difference", KL_MEASURE_NUMBER, 4);
    table_detail(t);
    table_add_words(t, COLUMN_WORD, "verdict", "verdict");
    table_add(t, COLUMN_FLAG, "passed", "passed", KL_MEASURE_NUMBER, 0);
    table_detail(t);
    table_add_words(t, COLUMN_WORD, "source", "source");
}

void table_build_expectations(table *t, kl_results *results, const selection *s)
{
    table_title(t, "Expectations");
    expectation_add_columns(t);
    for (kl_index i = 0; i < kl_expectation_result_count(s->report) && t->status == KL_OK; ++i) {
        expectation_put(t, results, kl_expectation_result_at(s->report, i));
    }
}
