/* table_expectations.c - what the model expects, and what came out.
 * SPDX-License-Identifier: MIT */
#include "tables.h"

#include <math.h>

#include "figure.h"
#include "label.h"

#define EXPECTATION_DIGITS 6

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

/* "0.5 %" or "0.01 kip"; and the same as numbers. */
static void expectation_put_tolerance(table *t, const kl_model *model, const kl_expectation *e)
{
    const double none = NAN;
    const double absolute = expectation_shown(model, e, e->tolerance);
    if (e->tolerance_relative) {
        table_put_print(t, "%.3g %%", 100.0 * e->tolerance);
    } else {
        table_put_print(t, "%.3g %s", absolute, kl_show_unit(&model->display, e->measure));
    }
    table_put(t, e->tolerance_relative ? none : absolute);
    table_put(t, e->tolerance_relative ? e->tolerance : none);
}

/* Beside an expected 0 the tolerance says which decimals count. */
static int expectation_decimals(const kl_model *model, const kl_expectation *e, double expected)
{
    const bool is_zero = !(fabs(expected) > 0.0) && !e->tolerance_relative;
    return is_zero ? figure_decimals(expectation_shown(model, e, e->tolerance), 2)
                   : figure_decimals(expected, EXPECTATION_DIGITS);
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
    const int decimals = expectation_decimals(model, e, expected);
    figure_rounded(room[0], expected, decimals, EXPECTATION_DIGITS, 0.0);
    figure_rounded(room[1], value, decimals, EXPECTATION_DIGITS, 0.0);
    table_put_text(t, room[0]);
    table_put(t, expected);
    table_put_text(t, room[1]);
    table_put(t, value);
    table_put_text(t, kl_show_unit(&model->display, e->measure));
    expectation_put_tolerance(t, model, e);
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
    table_add_words(t, COLUMN_MARK, "tolerance_text", "within");
    table_add(t, COLUMN_FIGURE, "tolerance", "tolerance", KL_MEASURE_NUMBER, 4);
    table_detail(t);
    table_add(t, COLUMN_FIGURE, "tolerance_relative", "relative tolerance", KL_MEASURE_RATIO, 3);
    table_detail(t);
    table_add(t, COLUMN_FIGURE, "difference", "difference", KL_MEASURE_NUMBER, 4);
    table_detail(t);
    table_add_words(t, COLUMN_WORD, "verdict", "verdict");
    table_add(t, COLUMN_FLAG, "passed", "passed", KL_MEASURE_NUMBER, 0);
    table_detail(t);
    table_add_words(t, COLUMN_WORD, "source", "source");
}

void table_put_expectations(table *t,
                            const kl_results *results,
                            const kl_check_report *report,
                            bool only_missed,
                            kl_index limit)
{
    expectation_add_columns(t);
    for (kl_index i = 0; i < kl_expectation_result_count(report) && t->status == KL_OK; ++i) {
        const kl_expectation_result *r = kl_expectation_result_at(report, i);
        if ((!only_missed || !r->passed) && table_row_count(t) < limit) {
            expectation_put(t, results, r);
        }
    }
}

void table_build_expectations(table *t, kl_results *results, const selection *s)
{
    table_title(t, "Expectations");
    table_put_expectations(t, results, s->report, false, INT32_MAX);
}
