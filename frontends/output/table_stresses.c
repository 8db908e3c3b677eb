/* table_stresses.c - stresses at the extreme fibres, and the section values behind them.
 * SPDX-License-Identifier: MIT */
#include "tables.h"

#include <math.h>
#include <string.h>

#include "label.h"
#include "near.h"

/* ---- stresses ------------------------------------------------------------------------------------------ */

static void stress_row(
    table *t, kl_results *results, kl_state state, kl_index member, const kl_station_row *row)
{
    static const kl_quantity faces[] = {KL_STRESS_TOP, KL_STRESS_BOTTOM};
    for (int i = 0; i < 2; ++i) {
        table_put(t, table_member_value(t, results, state, faces[i], KL_TOTAL, member, row->station,
                                        row->side));
    }
}

/* Which side is the top of a member drawn steeply. */
static void stress_note_steep(table *t, const kl_model *model, const selection *s)
{
    for (kl_index member = 0; member < model->member_count && t->note_count + 3 < TABLE_NOTE_LIMIT;
         ++member) {
        char text[LABEL_SIZE];
        label_member(text, model, member);
        if (selection_takes(s, member) && strchr(text, '(') != NULL) {
            table_note(t, "Member %s.", text);
        }
    }
}

void table_build_stresses(table *t, kl_results *results, const selection *s)
{
    const kl_model *model = kl_results_model(results);
    table_title(t, "Stresses at the extreme fibres");
    table_add_state(t);
    table_add_station(t);
    table_add(t, COLUMN_FIGURE, "stress_top", "stress\ntop", KL_MEASURE_STRESS, 4);
    table_add(t, COLUMN_FIGURE, "stress_bottom", "stress\nbottom", KL_MEASURE_STRESS, 4);
    table_walk_stations(t, results, s, stress_row);
    table_note(t, "%s", LABEL_SIGNS_STRESS);
    stress_note_steep(t, model, s);
    table_note(t, model->sections_gross ? "Sections: gross throughout."
                                        : "Sections: each increment on the section of its day, net "
                                          "of ducts before grouting and "
                                          "with the tendons' steel afterwards.");
}

/* ---- sections ------------------------------------------------------------------------------------------ */

typedef struct section_pair {
    kl_section_values gross, carrying;
} section_pair;

static section_pair section_at(
    table *t, const kl_results *results, kl_state state, kl_index member, const kl_station_row *row)
{
    static const kl_section_values none = {NAN, NAN, NAN, NAN, NAN, NAN, NAN, NAN, NAN};
    section_pair pair = {none, none};
    if (!table_accepts(
            t, kl_section_at_station(results, member, row->station, row->side, &pair.gross))) {
        pair.gross = none;
    }
    if (!table_accepts(t, kl_section_of_state(results, state, member, row->station, row->side,
                                              &pair.carrying))) {
        pair.carrying = none;
    }
    return pair;
}

static bool section_same_value(double a, double b)
{
    return (isnan(a) && isnan(b)) || near_equal(a, b, 1e-9, 0.0);
}

static bool section_same(const section_pair *a, const section_pair *b)
{
    const kl_section_values *g = &a->gross, *h = &b->gross, *c = &a->carrying, *d = &b->carrying;
    return section_same_value(g->area, h->area) && section_same_value(g->inertia, h->inertia) &&
           section_same_value(g->to_top, h->to_top) &&
           section_same_value(g->to_bottom, h->to_bottom) &&
           section_same_value(g->centroid, h->centroid) && section_same_value(c->area, d->area) &&
           section_same_value(c->inertia, d->inertia) &&
           section_same_value(c->centroid, d->centroid);
}

static void section_put(
    table *t, const kl_results *results, kl_state state, kl_index member, const section_pair *pair)
{
    const kl_section_values *g = &pair->gross, *c = &pair->carrying;
    double modulus = NAN, strength = NAN, age = NAN;
    kl_concrete_of_state(results, state, member, &modulus, &strength, &age);
    table_put(t, g->area);
    table_put(t, g->inertia);
    table_put(t, g->to_top);
    table_put(t, g->to_bottom);
    table_put(t, g->centroid);
    table_put(t, g->shear_area);
    table_put(t, c->area);
    table_put(t, c->inertia);
    table_put(t, c->centroid);
    table_put(t, modulus);
    table_put(t, strength);
    table_put(t, age);
}

/* Rows equal to both neighbours are left out: nothing changes there. */
static void
section_member(table *t, kl_results *results, kl_state state, kl_index member, const selection *s)
{
    const kl_station_row *rows = NULL;
    kl_index count = 0;
    if (!table_stations(t, results, s, member, s->every, &rows, &count)) {
        return;
    }
    section_pair before = {0}, here = section_at(t, results, state, member, &rows[0]), after = here;
    for (kl_index i = 0; i < count && t->status == KL_OK; ++i) {
        const bool inside = i > 0 && i + 1 < count;
        if (i + 1 < count) {
            after = section_at(t, results, state, member, &rows[i + 1]);
        }
        if (!inside || !section_same(&before, &here) || !section_same(&here, &after)) {
            table_put_state(t, results, state);
            table_put_station(t, results, member, rows, count, i);
            section_put(t, results, state, member, &here);
        }
        before = here;
        here = after;
    }
}

static void section_add_columns(table *t)
{
    table_add(t, COLUMN_FIGURE, "area", "area\n(gross)", KL_MEASURE_AREA, 5);
    table_add(t, COLUMN_FIGURE, "inertia", "inertia\n(gross)", KL_MEASURE_INERTIA, 5);
    table_add(t, COLUMN_FIGURE, "to_top", "centroid\nto top", KL_MEASURE_SIZE, 5);
    table_add(t, COLUMN_FIGURE, "to_bottom", "centroid\nto bottom", KL_MEASURE_SIZE, 5);
    table_add(t, COLUMN_FIGURE, "centroid", "centroid\nabove line", KL_MEASURE_SIZE, 5);
    table_add(t, COLUMN_FIGURE, "shear_area", "shear\narea", KL_MEASURE_AREA, 5);
    table_add(t, COLUMN_FIGURE, "area_carrying", "area\n(carrying)", KL_MEASURE_AREA, 5);
    table_add(t, COLUMN_FIGURE, "inertia_carrying", "inertia\n(carrying)", KL_MEASURE_INERTIA, 5);
    table_add(t, COLUMN_FIGURE, "centroid_carrying", "centroid\n(carrying)", KL_MEASURE_SIZE, 5);
    table_add(t, COLUMN_FIGURE, "modulus", "modulus", KL_MEASURE_STRESS, 4);
    table_add(t, COLUMN_FIGURE, "strength", "strength", KL_MEASURE_STRESS, 4);
    table_add(t, COLUMN_EXACT, "age", "age", KL_MEASURE_TIME, 2);
}

void table_build_sections(table *t, kl_results *results, const selection *s)
{
    const kl_model *model = kl_results_model(results);
    table_title(t, "Sections along members");
    table_add_state(t);
    table_add_station(t);
    section_add_columns(t);
    for (kl_index i = 0; i < s->state_count; ++i) {
        for (kl_index member = 0; member < model->member_count; ++member) {
            if (selection_takes(s, member) && kl_member_stands(results, s->states[i], member)) {
                section_member(t, results, s->states[i], member, s);
            }
        }
    }
    table_note(t, "Carrying: the section that takes the next increment, net of ducts before "
                  "grouting, with the "
                  "steel times its modular ratio afterwards. Stations between which nothing "
                  "changes are left out.");
}
