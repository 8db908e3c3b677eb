/* tables.c - the list of tables, and what their builders share.
 * SPDX-License-Identifier: MIT */
#include "tables.h"

#include <math.h>
#include <string.h>

#include "arena.h"
#include "force_scale.h"
#include "label.h"
#include "near.h"
#include "table_settle.h"

/* ORDER tables: docs/completion/kernline.bash and docs/kernline.1 list the same; a test compares. */
static const table_recipe table_list[] = {
    {"steps", "the construction step by step: day, weight, reactions, balance", SELECTION_ALL,
     false, false, table_build_steps},
    {"nodes", "nodes: place, movement, rotation", SELECTION_FINAL, true, false, table_build_nodes},
    {"actions", "moment, shear and axial force along members, with their parts", SELECTION_FINAL,
     true, true, table_build_actions},
    {"ends", "moment, shear and axial force at the ends of members", SELECTION_FINAL, true, false,
     table_build_ends},
    {"stresses", "stress at top and bottom along members", SELECTION_FINAL, true, true,
     table_build_stresses},
    {"deflections", "deflection, sway and rotation along members", SELECTION_FINAL, true, true,
     table_build_deflections},
    {"camber", "camber along members: what the forms are raised against later movement",
     SELECTION_FINAL, true, true, table_build_camber},
    {"grades", "form grades: how high forms are set so that their members end at their grade",
     SELECTION_NONE, false, true, table_build_grades},
    {"history", "movement, camber, stress, moment and tendon force at a few places against time",
     SELECTION_HISTORY, true, true, table_build_history},
    {"reactions", "forces of supports", SELECTION_FINAL, true, false, table_build_reactions},
    {"posts", "falsework: force in each row and post, lift-off, share of capacity", SELECTION_ALL,
     true, false, table_build_posts},
    {"tendons", "tendons along their length: profile, angle, force before and after seating",
     SELECTION_NONE, false, false, table_build_tendons},
    {"stressing", "each pull of a tendon: gauge, forces, elongations, seating", SELECTION_NONE,
     false, false, table_build_stressing},
    {"losses",
     "stress that each cause took from each tendon since it was stressed, and what is left",
     SELECTION_STAGES, false, true, table_build_losses},
    {"loss_estimates", "long-term losses beside what the codes' one-line formulas give for them",
     SELECTION_FINAL, false, true, table_build_loss_estimates},
    {"tendon_loads", "each tendon's action as loads on the concrete", SELECTION_FINAL, false, false,
     table_build_tendon_loads},
    {"checks", "limits held against results, each at its worst place", SELECTION_NONE, false, false,
     table_build_checks},
    {"expectations", "expected values and what came out", SELECTION_NONE, false, false,
     table_build_expectations},
    {"sections", "section values along members, gross and as they carry at that moment",
     SELECTION_FINAL, false, true, table_build_sections},
    {"audit", "equilibrium, found independently of the solution", SELECTION_ALL, false, false,
     table_build_audit},
};

const table_recipe *table_recipes(kl_index *count)
{
    *count = (kl_index)(sizeof table_list / sizeof table_list[0]);
    return table_list;
}

const table_recipe *table_recipe_find(const char *name)
{
    kl_index count = 0;
    const table_recipe *recipes = table_recipes(&count);
    for (kl_index i = 0; i < count; ++i) {
        if (strcmp(recipes[i].name, name) == 0) {
            return &recipes[i];
        }
    }
    return NULL;
}

kl_status table_build(table *t, const table_recipe *recipe, kl_results *results, const selection *s)
{
    table_start(t, recipe->name, &kl_results_model(results)->display);
    table_accepts(t, force_scale_of(results, s, &t->force_scale));
    recipe->build(t, results, s);
    table_settle(t);
    return t->status;
}

bool table_accepts(table *t, kl_status status)
{
    if (status != KL_OK && status != KL_NOT_THERE && t->status == KL_OK) {
        t->status = status;
    }
    return status == KL_OK;
}

double table_member_value(table *t,
                          const kl_results *results,
                          kl_state state,
                          kl_quantity quantity,
                          kl_part part,
                          kl_index member,
                          double station,
                          kl_side side)
{
    double value = NAN;
    const kl_status status =
        kl_value_on_member(results, state, quantity, part, member, station, side, &value);
    if (!table_accepts(t, status)) {
        value = NAN;
    }
    return value;
}

void table_add_state(table *t)
{
    table_add_words(t, COLUMN_GROUP, "state", "");
}

void table_add_station(table *t)
{
    table_add_words(t, COLUMN_GROUP, "member", "member");
    table_add(t, COLUMN_EXACT, "station", "station", KL_MEASURE_STATION, 4);
    table_add_words(t, COLUMN_WORD, "place", "place");
    table_add_words(t, COLUMN_WORD, "side", "side");
}

void table_put_state(table *t, const kl_results *results, kl_state state)
{
    char text[LABEL_SIZE];
    label_state(text, results, state);
    table_put_text(t, text);
}

void table_put_station(table *t,
                       const kl_results *results,
                       kl_index member,
                       const kl_station_row *rows,
                       kl_index count,
                       kl_index i)
{
    const kl_model *model = kl_results_model(results);
    table_put_text(t, model->members[member].name);
    table_put(t, rows[i].station);
    table_put_text(t, label_place(model, &rows[i]));
    table_put_text(t, label_side(rows, count, i));
}

/* Narrow the rows to those at a station; one is made where none stands. */
static void
table_narrow(table *t, double length, double at, const kl_station_row **rows, kl_index *count)
{
    kl_index first = 0;
    while (first < *count && !near_equal((*rows)[first].station, at, 0.0, NEAR_STATION)) {
        ++first;
    }
    kl_index last = first;
    while (last < *count && near_equal((*rows)[last].station, at, 0.0, NEAR_STATION)) {
        ++last;
    }
    *rows += first;
    *count = last - first;
    kl_station_row *made = NULL;
    if (*count == 0 && at < length) {
        made = arena_array(&t->memory, 1, sizeof *made);
        table_accepts(t, made != NULL ? KL_OK : KL_NO_MEMORY);
    }
    if (made != NULL) {
        *made = (kl_station_row){at, KL_RIGHT, KL_NONE, false};
        *rows = made;
        *count = 1;
    }
}

/* Keep the few that `tenths` asks for. */
static void table_thin(table *t, double length, const kl_station_row **rows, kl_index *count)
{
    kl_station_row *kept = arena_array(&t->memory, (size_t)*count, sizeof *kept);
    kl_index kept_count = 0;
    table_accepts(t, kept != NULL || *count == 0 ? KL_OK : KL_NO_MEMORY);
    for (kl_index i = 0; kept != NULL && i < *count; ++i) {
        if (selection_is_tenth(&(*rows)[i], length)) {
            kept[kept_count++] = (*rows)[i];
        }
    }
    *rows = kept;
    *count = kept_count;
}

bool table_stations(table *t,
                    kl_results *results,
                    const selection *s,
                    kl_index member,
                    double every,
                    const kl_station_row **rows,
                    kl_index *count)
{
    *count = 0;
    if (!table_accepts(t, kl_station_rows(results, member, every, rows, count))) {
        return false;
    }
    const double length = kl_member_length(kl_results_model(results), member);
    if (!isnan(s->at)) {
        table_narrow(t, length, s->at, rows, count);
    } else if (s->tenths) {
        table_thin(t, length, rows, count);
    }
    return *count > 0;
}

static void table_walk_member(table *t,
                              kl_results *results,
                              kl_state state,
                              kl_index member,
                              const selection *s,
                              table_station_row *put_row)
{
    const kl_station_row *rows = NULL;
    kl_index count = 0;
    if (!table_stations(t, results, s, member, s->every, &rows, &count)) {
        return;
    }
    for (kl_index i = 0; i < count && t->status == KL_OK; ++i) {
        table_put_state(t, results, state);
        table_put_station(t, results, member, rows, count, i);
        put_row(t, results, state, member, &rows[i]);
    }
}

void table_walk_stations(table *t, kl_results *results, const selection *s, table_station_row *row)
{
    const kl_model *model = kl_results_model(results);
    for (kl_index i = 0; i < s->state_count; ++i) {
        for (kl_index member = 0; member < model->member_count; ++member) {
            if (selection_takes(s, member) && kl_member_stands(results, s->states[i], member)) {
                table_walk_member(t, results, s->states[i], member, s, row);
            }
        }
    }
}
