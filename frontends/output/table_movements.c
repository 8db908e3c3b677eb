/* table_movements.c - movements of nodes and along members, and the camber against them.
 * SPDX-License-Identifier: MIT */
#include "tables.h"

#include <math.h>

#include "label.h"

#define MOVEMENT_DIGITS 4

static const struct {
    kl_quantity quantity;
    const char *key, *heading;
    kl_measure measure;
} movement_columns[] = {
    {KL_DEFLECTION, "deflection", "deflection", KL_MEASURE_DEFLECTION},
    {KL_SWAY, "sway", "sway", KL_MEASURE_DEFLECTION},
    {KL_ROTATION, "rotation", "rotation", KL_MEASURE_ROTATION},
};
#define MOVEMENT_COUNT (sizeof movement_columns / sizeof movement_columns[0])

static void movement_add_columns(table *t)
{
    for (size_t i = 0; i < MOVEMENT_COUNT; ++i) {
        table_add(t, COLUMN_FIGURE, movement_columns[i].key, movement_columns[i].heading,
                  movement_columns[i].measure, MOVEMENT_DIGITS);
    }
    table_note(t, "%s", LABEL_SIGNS_MOVEMENT);
}

static void movement_node(table *t, const kl_results *results, kl_state state, kl_index node)
{
    const kl_node *n = &kl_results_model(results)->nodes[node];
    double values[MOVEMENT_COUNT];
    bool any = false;
    for (size_t i = 0; i < MOVEMENT_COUNT; ++i) {
        values[i] = NAN;
        if (table_accepts(t, kl_node_movement(results, state, movement_columns[i].quantity, node,
                                              &values[i]))) {
            any = true;
        } else {
            values[i] = NAN;
        }
    }
    if (!any) {
        return; /* does not stand yet */
    }
    table_put_state(t, results, state);
    table_put_text(t, n->name);
    table_put(t, n->x);
    table_put(t, n->y);
    for (size_t i = 0; i < MOVEMENT_COUNT; ++i) {
        table_put(t, values[i]);
    }
}

void table_build_nodes(table *t, kl_results *results, const selection *s)
{
    table_title(t, "Nodes");
    table_add_state(t);
    table_add_words(t, COLUMN_WORD, "node", "node");
    table_add(t, COLUMN_EXACT, "x", "x", KL_MEASURE_STATION, 4);
    table_add(t, COLUMN_EXACT, "y", "y", KL_MEASURE_STATION, 4);
    movement_add_columns(t);
    for (kl_index i = 0; i < s->state_count; ++i) {
        for (kl_index node = 0; node < kl_results_model(results)->node_count; ++node) {
            movement_node(t, results, s->states[i], node);
        }
    }
}

static void movement_row(
    table *t, kl_results *results, kl_state state, kl_index member, const kl_station_row *row)
{
    for (size_t i = 0; i < MOVEMENT_COUNT; ++i) {
        table_put(t, table_member_value(t, results, state, movement_columns[i].quantity, KL_TOTAL,
                                        member, row->station, row->side));
    }
}

void table_build_deflections(table *t, kl_results *results, const selection *s)
{
    table_title(t, "Movements along members");
    table_add_state(t);
    table_add_station(t);
    movement_add_columns(t);
    table_walk_stations(t, results, s, movement_row);
}

static void camber_row(
    table *t, kl_results *results, kl_state state, kl_index member, const kl_station_row *row)
{
    table_put(t, table_member_value(t, results, state, KL_CAMBER, KL_TOTAL, member, row->station,
                                    row->side));
    table_put(t, table_member_value(t, results, state, KL_DEFLECTION, KL_TOTAL, member,
                                    row->station, row->side));
}

void table_build_camber(table *t, kl_results *results, const selection *s)
{
    table_title(t, "Camber along members");
    table_add_state(t);
    table_add_station(t);
    table_add(t, COLUMN_FIGURE, "camber", "camber", KL_MEASURE_DEFLECTION, MOVEMENT_DIGITS);
    table_add(t, COLUMN_FIGURE, "deflection", "deflection", KL_MEASURE_DEFLECTION, MOVEMENT_DIGITS);
    table_walk_stations(t, results, s, camber_row);
    table_note(t, "Camber + raises the form: it is minus the movement from the member's set to the "
                  "moment of the "
                  "table. Take-up and the posts' shortening under the pour are not in it.");
}
