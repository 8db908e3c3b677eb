/* table_actions.c - moment, shear and axial force along members and at their ends.
 *
 * In a model with tendons every action stands with its parts: total, primary, secondary, concrete.
 * SPDX-License-Identifier: MIT */
#include "tables.h"

#include <math.h>

#include "label.h"

#define ACTION_DIGITS 5

typedef struct action_column {
    kl_quantity quantity;
    kl_part part;
    const char *key, *heading;
    kl_measure measure;
    bool is_detail;
} action_column;

static const action_column action_plain[] = {
    {KL_MOMENT, KL_TOTAL, "moment", "moment", KL_MEASURE_MOMENT, false},
    {KL_SHEAR, KL_TOTAL, "shear", "shear", KL_MEASURE_FORCE, false},
    {KL_AXIAL, KL_TOTAL, "axial", "axial", KL_MEASURE_FORCE, false},
};

static const action_column action_parts[] = {
    {KL_MOMENT, KL_TOTAL, "moment_total", "moment\n(total)", KL_MEASURE_MOMENT, false},
    {KL_MOMENT, KL_PRIMARY, "moment_primary", "moment\n(primary)", KL_MEASURE_MOMENT, false},
    {KL_MOMENT, KL_SECONDARY, "moment_secondary", "moment\n(secondary)", KL_MEASURE_MOMENT, false},
    {KL_MOMENT, KL_CONCRETE_SHARE, "moment_concrete", "moment\n(concrete)", KL_MEASURE_MOMENT,
     false},
    {KL_SHEAR, KL_TOTAL, "shear_total", "shear\n(total)", KL_MEASURE_FORCE, false},
    {KL_SHEAR, KL_PRIMARY, "shear_primary", "shear\n(primary)", KL_MEASURE_FORCE, true},
    {KL_SHEAR, KL_SECONDARY, "shear_secondary", "shear\n(secondary)", KL_MEASURE_FORCE, true},
    {KL_SHEAR, KL_CONCRETE_SHARE, "shear_concrete", "shear\n(concrete)", KL_MEASURE_FORCE, false},
    {KL_AXIAL, KL_TOTAL, "axial_total", "axial\n(total)", KL_MEASURE_FORCE, false},
    {KL_AXIAL, KL_PRIMARY, "axial_primary", "axial\n(primary)", KL_MEASURE_FORCE, true},
    {KL_AXIAL, KL_SECONDARY, "axial_secondary", "axial\n(secondary)", KL_MEASURE_FORCE, true},
    {KL_AXIAL, KL_CONCRETE_SHARE, "axial_concrete", "axial\n(concrete)", KL_MEASURE_FORCE, false},
};

static const action_column *action_columns(const kl_results *results, size_t *count)
{
    if (kl_results_model(results)->tendon_count > 0) {
        *count = sizeof action_parts / sizeof action_parts[0];
        return action_parts;
    }
    *count = sizeof action_plain / sizeof action_plain[0];
    return action_plain;
}

static void action_add_columns(table *t, const kl_results *results)
{
    size_t count = 0;
    const action_column *columns = action_columns(results, &count);
    for (size_t i = 0; i < count; ++i) {
        table_add(t, COLUMN_FIGURE, columns[i].key, columns[i].heading, columns[i].measure,
                  ACTION_DIGITS);
        if (columns[i].is_detail) {
            table_detail(t);
        }
    }
    table_note(t, "%s", LABEL_SIGNS_ACTIONS);
    if (columns == action_parts) {
        table_note(t, "%s", LABEL_SIGNS_PARTS);
    }
}

static void action_put(table *t,
                       const kl_results *results,
                       kl_state state,
                       kl_index member,
                       double station,
                       kl_side side)
{
    size_t count = 0;
    const action_column *columns = action_columns(results, &count);
    for (size_t i = 0; i < count; ++i) {
        table_put(t, table_member_value(t, results, state, columns[i].quantity, columns[i].part,
                                        member, station, side));
    }
}

static void action_row(
    table *t, kl_results *results, kl_state state, kl_index member, const kl_station_row *row)
{
    action_put(t, results, state, member, row->station, row->side);
}

void table_build_actions(table *t, kl_results *results, const selection *s)
{
    table_title(t, "Actions along members");
    table_add_state(t);
    table_add_station(t);
    action_add_columns(t, results);
    table_walk_stations(t, results, s, action_row);
}

static void
action_put_end(table *t, const kl_results *results, kl_state state, kl_index member, bool at_end)
{
    const kl_model *model = kl_results_model(results);
    const kl_member *m = &model->members[member];
    const double station = at_end ? kl_member_length(model, member) : 0.0;
    table_put_state(t, results, state);
    table_put_text(t, m->name);
    table_put_text(t, at_end ? "end" : "start");
    table_put_text(t, model->nodes[at_end ? m->to : m->from].name);
    table_put(t, station);
    action_put(t, results, state, member, station, at_end ? KL_LEFT : KL_RIGHT);
}

void table_build_ends(table *t, kl_results *results, const selection *s)
{
    const kl_model *model = kl_results_model(results);
    table_title(t, "Actions at the ends of members");
    table_add_state(t);
    table_add_words(t, COLUMN_WORD, "member", "member");
    table_add_words(t, COLUMN_WORD, "end", "end");
    table_add_words(t, COLUMN_WORD, "node", "node");
    table_add(t, COLUMN_EXACT, "station", "station", KL_MEASURE_STATION, 4);
    action_add_columns(t, results);
    for (kl_index i = 0; i < s->state_count; ++i) {
        for (kl_index member = 0; member < model->member_count; ++member) {
            if (selection_takes(s, member) && kl_member_stands(results, s->states[i], member)) {
                action_put_end(t, results, s->states[i], member, false);
                action_put_end(t, results, s->states[i], member, true);
            }
        }
    }
}
