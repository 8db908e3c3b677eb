/* table_history.c - what time does to a few places of members: one place after the other, each through all moments.
 * SPDX-License-Identifier: MIT */
#include "tables.h"

#include <math.h>

#include "label.h"
#include "near.h"

#define HISTORY_DIGITS 4

/* Is the row at an end, a node or the middle? The other stations of a member would make the table long. */
static bool history_wants(const kl_station_row *rows, kl_index count, kl_index i)
{
    const double end = rows[count - 1].station;
    return rows[i].node != KL_NONE || near_equal(rows[i].station, 0.5 * end, 1e-9, 0.0) ||
           !(rows[i].station > rows[0].station) || !(rows[i].station < end);
}

static void history_put_day(table *t, const kl_results *results, kl_state state)
{
    const kl_step *step = selection_step(results, state);
    const bool has_day = step != NULL && kl_results_model(results)->stages[step->stage].has_time;
    table_put(t, has_day ? step->time : (double)NAN);
}

static void history_put_values(
    table *t, const kl_results *results, kl_state state, kl_index member, const kl_station_row *row)
{
    static const kl_quantity quantities[] = {KL_DEFLECTION, KL_CAMBER, KL_STRESS_TOP,
                                             KL_STRESS_BOTTOM, KL_MOMENT};
    for (size_t i = 0; i < sizeof quantities / sizeof quantities[0]; ++i) {
        table_put(t, table_member_value(t, results, state, quantities[i], KL_TOTAL, member,
                                        row->station, row->side));
    }
    const double total =
        table_member_value(t, results, state, KL_AXIAL, KL_TOTAL, member, row->station, row->side);
    const double concrete = table_member_value(t, results, state, KL_AXIAL, KL_CONCRETE_SHARE,
                                               member, row->station, row->side);
    table_put(t, total - concrete);
}

/* The rows `from` to `to` of a member's stations, which are one place, through all moments. */
static void history_place(table *t,
                          kl_results *results,
                          const selection *s,
                          kl_index member,
                          const kl_station_row *rows,
                          kl_index count,
                          kl_index from,
                          kl_index to)
{
    for (kl_index k = 0; k < s->state_count; ++k) {
        if (!kl_member_stands(results, s->states[k], member)) {
            continue;
        }
        for (kl_index i = from; i <= to && t->status == KL_OK; ++i) {
            table_put_station(t, results, member, rows, count, i);
            history_put_day(t, results, s->states[k]);
            table_put_state(t, results, s->states[k]);
            history_put_values(t, results, s->states[k], member, &rows[i]);
        }
    }
}

static void history_member(table *t, kl_results *results, const selection *s, kl_index member)
{
    const bool is_few = isnan(s->every) && isnan(s->at);
    const double half = 0.5 * kl_member_length(kl_results_model(results), member);
    const kl_station_row *rows = NULL;
    kl_index count = 0;
    if (!table_stations(t, results, s, member, is_few ? half : s->every, &rows, &count)) {
        return;
    }
    for (kl_index i = 0; i < count; ++i) {
        const bool is_pair = label_side(rows, count, i)[0] == 'l';
        if (!is_few || history_wants(rows, count, i)) {
            history_place(t, results, s, member, rows, count, i, i + is_pair);
        }
        i += is_pair;
    }
}

void table_build_history(table *t, kl_results *results, const selection *s)
{
    const kl_model *model = kl_results_model(results);
    table_title(t, "What time does to places of members");
    table_add_station(t);
    table_add(t, COLUMN_EXACT, "day", "time", KL_MEASURE_TIME, 2);
    table_add_words(t, COLUMN_WORD, "state", "state");
    table_add(t, COLUMN_FIGURE, "deflection", "deflection", KL_MEASURE_DEFLECTION, HISTORY_DIGITS);
    table_add(t, COLUMN_FIGURE, "camber", "camber", KL_MEASURE_DEFLECTION, HISTORY_DIGITS);
    table_add(t, COLUMN_FIGURE, "stress_top", "stress\ntop", KL_MEASURE_STRESS, HISTORY_DIGITS);
    table_add(t, COLUMN_FIGURE, "stress_bottom", "stress\nbottom", KL_MEASURE_STRESS,
              HISTORY_DIGITS);
    table_add(t, COLUMN_FIGURE, "moment_total", "moment\n(total)", KL_MEASURE_MOMENT,
              HISTORY_DIGITS);
    table_add(t, COLUMN_FIGURE, "tendon_force", "force of\ntendons", KL_MEASURE_FORCE,
              HISTORY_DIGITS);
    for (kl_index member = 0; member < model->member_count; ++member) {
        if (selection_takes(s, member)) {
            history_member(t, results, s, member);
        }
    }
    table_note(t, "%s", LABEL_SIGNS_STRESS);
    table_note(t, "%s", LABEL_SIGNS_MOVEMENT);
    table_note(t, "Force of tendons: along the member, of all that pass the place.");
    if (model->stage_count == 0) {
        table_note(t, "The model has no stages: nothing in it has a time.");
    }
}
