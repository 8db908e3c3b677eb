/* table_steps.c - the construction step by step with its balance, and the audit in full.
 * SPDX-License-Identifier: MIT */
#include "tables.h"

#include <math.h>

#include "label.h"

static double step_worst(const kl_audit *a)
{
    return fmax(fmax(a->force_error, a->moment_error), fmax(a->node_error, a->member_error));
}

/* What stands beside a load case is none of its load. */
static double step_weight(kl_state state, const kl_audit *a)
{
    return state.kind == KL_STATE_CASE ? (double)NAN : a->weight;
}

static void step_put(table *t, const kl_results *results, kl_state state, const kl_audit *a)
{
    const kl_model *model = kl_results_model(results);
    const kl_step *step = state.kind == KL_STATE_STEP     ? kl_step_at(results, state.index)
                          : state.kind == KL_STATE_MOMENT ? kl_moment_at(results, state.index)
                                                          : NULL;
    const bool is_step = step != NULL;
    const bool has_day = is_step && model->stages[step->stage].has_time;
    const double none = NAN;
    table_put(t, has_day ? step->time : none);
    table_put_text(t, is_step ? model->stages[step->stage].name : model->cases[state.index].name);
    table_put_text(t, !is_step                        ? "load case"
                      : state.kind == KL_STATE_MOMENT ? "on the way to it"
                                                      : step->label);
    table_put(t, is_step ? (double)step->contact_changes : none);
    table_put(t, step_weight(state, a));
    table_put(t, -a->load[KL_Y]);
    table_put(t, a->reaction[KL_Y]);
    table_put(t, step_worst(a));
    table_put_text(t, a->passed ? "balanced" : "OUT OF BALANCE");
}

void table_build_steps(table *t, kl_results *results, const selection *s)
{
    table_title(t, "The construction, step by step");
    table_add(t, COLUMN_EXACT, "day", "time", KL_MEASURE_TIME, 2);
    table_add_words(t, COLUMN_WORD, "stage", "stage");
    table_add_words(t, COLUMN_WORD, "step", "step");
    table_add(t, COLUMN_WHOLE, "contact_changes", "contact\nchanges", KL_MEASURE_NUMBER, 0);
    table_detail(t);
    table_add(t, COLUMN_FIGURE, "weight", "weight", KL_MEASURE_FORCE, 5);
    table_add(t, COLUMN_FIGURE, "load_down", "load\ndownward", KL_MEASURE_FORCE, 5);
    table_add(t, COLUMN_FIGURE, "reaction_up", "reaction\nupward", KL_MEASURE_FORCE, 5);
    table_add(t, COLUMN_SHARE, "imbalance", "largest\nimbalance", KL_MEASURE_NUMBER, 2);
    table_detail(t);
    table_add_words(t, COLUMN_WORD, "verdict", "audit");
    for (kl_index i = 0; i < s->state_count; ++i) {
        kl_audit a;
        kl_state state = s->states[i];
        state.cause = (kl_cause){KL_CAUSE_ALL, KL_NONE};
        if (state.kind != KL_STATE_COMBINATION &&
            table_accepts(t, kl_audit_of_state(results, state, &a))) {
            step_put(t, results, state, &a);
        }
    }
    table_note(t, "Weight: of all that stands or is wet; a load case is by itself. Reaction: "
                  "supports and posts on the "
                  "ground. Balanced: within "
                  "1e-9 of the largest force at hand.");
}

static void audit_put(table *t, const kl_results *results, kl_state state, const kl_audit *a)
{
    table_put_state(t, results, state);
    table_put(t, step_weight(state, a));
    for (int i = 0; i < 3; ++i) {
        table_put(t, a->load[i]);
    }
    for (int i = 0; i < 3; ++i) {
        table_put(t, a->reaction[i]);
    }
    table_put(t, a->force_error);
    table_put(t, a->moment_error);
    table_put(t, a->node_error);
    table_put(t, a->member_error);
    table_put(t, a->residual);
    table_put_flag(t, a->passed);
}

void table_build_audit(table *t, kl_results *results, const selection *s)
{
    table_title(t,
                "Audit: equilibrium from the model and the results, independent of the solution");
    table_add_words(t, COLUMN_WORD, "state", "when");
    table_add(t, COLUMN_FIGURE, "weight", "weight", KL_MEASURE_FORCE, 6);
    table_add(t, COLUMN_FIGURE, "load_x", "load\nx", KL_MEASURE_FORCE, 6);
    table_add(t, COLUMN_FIGURE, "load_y", "load\ny", KL_MEASURE_FORCE, 6);
    table_add(t, COLUMN_FIGURE, "load_turn", "load about\nthe origin", KL_MEASURE_MOMENT, 6);
    table_add(t, COLUMN_FIGURE, "reaction_x", "reaction\nx", KL_MEASURE_FORCE, 6);
    table_add(t, COLUMN_FIGURE, "reaction_y", "reaction\ny", KL_MEASURE_FORCE, 6);
    table_add(t, COLUMN_FIGURE, "reaction_turn", "reaction about\nthe origin", KL_MEASURE_MOMENT,
              6);
    table_add(t, COLUMN_SHARE, "force_error", "forces\noff by", KL_MEASURE_NUMBER, 2);
    table_add(t, COLUMN_SHARE, "moment_error", "moments\noff by", KL_MEASURE_NUMBER, 2);
    table_add(t, COLUMN_SHARE, "node_error", "worst\nnode", KL_MEASURE_NUMBER, 2);
    table_add(t, COLUMN_SHARE, "member_error", "worst\nmember end", KL_MEASURE_NUMBER, 2);
    table_add(t, COLUMN_SHARE, "residual", "residual", KL_MEASURE_NUMBER, 2);
    table_add(t, COLUMN_FLAG, "passed", "balanced", KL_MEASURE_NUMBER, 0);
    for (kl_index i = 0; i < s->state_count; ++i) {
        kl_audit a;
        kl_state state = s->states[i];
        state.cause = (kl_cause){KL_CAUSE_ALL, KL_NONE};
        if (table_accepts(t, kl_audit_of_state(results, state, &a))) {
            audit_put(t, results, state, &a);
        }
    }
    table_note(t, "Reactions: supports and posts on the ground. Errors are relative to the largest "
                  "force (force times "
                  "length) at hand; 1e-9 is allowed.");
}
