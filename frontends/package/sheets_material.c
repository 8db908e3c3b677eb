/* sheets_material.c - sheets 3 and 4: what the members and tendons are made of, their strength and modulus as the site goes on,
 * and sections with the weight that a checker sums up.
 * SPDX-License-Identifier: MIT */
#include <math.h>

#include "law_name.h"
#include "maker.h"

static void material_build_concrete(table *t, kl_results *results, const selection *s)
{
    (void)s;
    const kl_model *model = kl_results_model(results);
    table_title(t, "Concrete and other elastic materials");
    table_add_words(t, COLUMN_WORD, "material", "material");
    table_add(t, COLUMN_EACH, "strength", "f'c", KL_MEASURE_STRESS, 4);
    table_add(t, COLUMN_EACH, "transfer_strength", "f'ci", KL_MEASURE_STRESS, 4);
    table_add(t, COLUMN_EACH, "unit_weight", "unit\nweight", KL_MEASURE_UNIT_WEIGHT, 4);
    table_add_words(t, COLUMN_WORD, "modulus_law", "modulus after");
    table_add(t, COLUMN_EACH, "modulus", "modulus", KL_MEASURE_STRESS, 4);
    table_add(t, COLUMN_SHARE, "expansion", "expansion", KL_MEASURE_EXPANSION, 3);
    table_add_words(t, COLUMN_WORD, "gain", "strength with age");
    table_add_words(t, COLUMN_WORD, "creep", "creep");
    table_add_words(t, COLUMN_WORD, "shrinkage", "shrinkage");
    for (kl_index i = 0; i < model->material_count; i++) {
        const kl_material *c = &model->materials[i];
        if (c->kind != KL_CONCRETE && c->kind != KL_ELASTIC) {
            continue;
        }
        const bool is_concrete = c->kind == KL_CONCRETE;
        table_put_text(t, c->name);
        table_put(t, c->strength);
        table_put(t, c->transfer_strength);
        table_put(t, c->unit_weight);
        table_put_text(t, is_concrete ? law_name(c->modulus_law) : "");
        table_put(t, c->modulus);
        table_put(t, c->expansion);
        table_put_text(t, !is_concrete              ? ""
                          : c->gain == KL_LAW_UNSET ? law_name(KL_LAW_ACI209_1992)
                                                    : law_name(c->gain));
        table_put_text(t, is_concrete ? law_name(c->creep) : "");
        table_put_text(t, is_concrete ? law_name(c->shrinkage) : "");
    }
}

static void material_build_steel(table *t, kl_results *results, const selection *s)
{
    (void)s;
    const kl_model *model = kl_results_model(results);
    table_title(t, "Prestressing and reinforcing steel");
    table_add_words(t, COLUMN_WORD, "material", "material");
    table_add(t, COLUMN_EACH, "ultimate", "ultimate", KL_MEASURE_STRESS, 4);
    table_add(t, COLUMN_EACH, "yield", "yield", KL_MEASURE_STRESS, 4);
    table_add(t, COLUMN_EACH, "modulus", "modulus", KL_MEASURE_STRESS, 5);
    table_add_words(t, COLUMN_WORD, "relaxation", "relaxation");
    for (kl_index i = 0; i < model->material_count; i++) {
        const kl_material *c = &model->materials[i];
        if (c->kind != KL_PRESTRESSING && c->kind != KL_REINFORCING) {
            continue;
        }
        table_put_text(t, c->name);
        table_put(t, c->ultimate);
        table_put(t, c->yield);
        table_put(t, c->modulus);
        table_put_text(t, c->kind == KL_PRESTRESSING ? law_relaxation_name(c->relaxation) : "");
    }
}

static bool material_same(double a, double b)
{
    return (isnan(a) && isnan(b)) || fabs(a - b) <= 1e-9 * fabs(b);
}

/* Members of one concrete and one age have one row: the first of them. */
static void material_put_ages(table *t, const kl_results *results, kl_state state)
{
    const kl_model *model = kl_results_model(results);
    for (kl_index i = 0; i < model->member_count; i++) {
        double here[3];
        double other[3];
        if (!kl_member_stands(results, state, i) ||
            model->materials[model->members[i].material].kind != KL_CONCRETE) {
            continue;
        }
        kl_concrete_of_state(results, state, i, &here[0], &here[1], &here[2]);
        bool is_new = true;
        for (kl_index k = 0; k < i && is_new; k++) {
            if (kl_member_stands(results, state, k) &&
                model->members[k].material == model->members[i].material) {
                kl_concrete_of_state(results, state, k, &other[0], &other[1], &other[2]);
                is_new = !material_same(here[2], other[2]);
            }
        }
        if (is_new) {
            table_put_state(t, results, state);
            table_put_text(t, model->members[i].name);
            table_put_text(t, model->materials[model->members[i].material].name);
            table_put(t, here[2]);
            table_put(t, here[1]);
            table_put(t, here[0]);
        }
    }
}

static void material_build_ages(table *t, kl_results *results, const selection *s)
{
    table_title(t, "Concrete at the end of each stage");
    table_add_state(t);
    table_add_words(t, COLUMN_WORD, "member", "member");
    table_add_words(t, COLUMN_WORD, "material", "material");
    table_add(t, COLUMN_EXACT, "age", "age", KL_MEASURE_TIME, 2);
    table_add(t, COLUMN_FIGURE, "strength", "strength", KL_MEASURE_STRESS, 4);
    table_add(t, COLUMN_FIGURE, "modulus", "modulus", KL_MEASURE_STRESS, 5);
    for (kl_index i = 0; i < s->state_count; i++) {
        if (s->states[i].kind == KL_STATE_STEP) {
            material_put_ages(t, results, s->states[i]);
        }
    }
    table_note(t, "Members of one concrete and one age stand under the first of them.");
}

/* Of each concrete the curves that it has, for the first member made of it: strength, and what time does to it. */
static void material_put_pictures(maker *m)
{
    for (kl_index i = 0, shown = 0; i < m->model->material_count && shown < MAKER_MEMBERS; i++) {
        const kl_material *c = &m->model->materials[i];
        selection_wish wish = selection_wish_none();
        for (kl_index k = m->model->member_count - 1; k >= 0; k--) {
            wish.member = m->model->members[k].material == i ? k : wish.member;
        }
        if (c->kind != KL_CONCRETE || wish.member == KL_NONE || m->steps == 0) {
            continue;
        }
        shown++;
        maker_picture(m, "strength", &wish);
        if (c->creep > KL_LAW_NONE) {
            maker_picture(m, "creep", &wish);
        }
        if (c->shrinkage > KL_LAW_NONE) {
            maker_picture(m, "shrinkage", &wish);
        }
    }
}

void sheet_materials(maker *m)
{
    const selection_wish none = selection_wish_none();
    selection_wish stages = selection_wish_none();
    stages.every_stage = true;
    if (!isnan(m->model->humidity)) {
        maker_fact(m, "Relative humidity", m->model->humidity, KL_MEASURE_RATIO);
    }
    maker_own_table(m, "materials_concrete", material_build_concrete, SELECTION_NONE, &none);
    maker_own_table(m, "materials_steel", material_build_steel, SELECTION_NONE, &none);
    maker_own_table(m, "concrete_ages", material_build_ages, SELECTION_FINAL, &stages);
    material_put_pictures(m);
}

/* ---- sections --------------------------------------------------------------------------------------------- */

/* Weight of a member per length and in all where its section does not change. */
static void section_build_weights(table *t, kl_results *results, const selection *s)
{
    (void)s;
    const kl_model *model = kl_results_model(results);
    table_title(t, "Weight of members, to be summed by hand");
    table_add_words(t, COLUMN_WORD, "member", "member");
    table_add_words(t, COLUMN_WORD, "section", "section");
    table_add(t, COLUMN_FIGURE, "area", "area\nat start", KL_MEASURE_AREA, 5);
    table_add(t, COLUMN_FIGURE, "inertia", "inertia\nat start", KL_MEASURE_INERTIA, 5);
    table_add(t, COLUMN_EACH, "unit_weight", "unit\nweight", KL_MEASURE_UNIT_WEIGHT, 4);
    table_add(t, COLUMN_FIGURE, "line_weight", "weight\nper length", KL_MEASURE_LINE_LOAD, 4);
    table_add(t, COLUMN_EXACT, "length", "length", KL_MEASURE_STATION, 3);
    table_add(t, COLUMN_FIGURE, "weight", "weight", KL_MEASURE_FORCE, 5);
    for (kl_index i = 0; i < model->member_count; i++) {
        const kl_member *m = &model->members[i];
        const double unit = m->weightless ? 0.0 : model->materials[m->material].unit_weight;
        kl_section_values v;
        if (!table_accepts(t, kl_section_at_station(results, i, 0.0, KL_RIGHT, &v))) {
            continue;
        }
        const double length = kl_member_length(model, i);
        table_put_text(t, m->name);
        table_put_text(t, model->sections[m->sections[0].section].name);
        table_put(t, v.area);
        table_put(t, v.inertia);
        table_put(t, unit);
        table_put(t, unit * v.area);
        table_put(t, length);
        table_put(t, m->section_count == 1 ? unit * v.area * length : (double)NAN);
    }
    table_note(
        t, "Length from node to node. Of members whose section changes only the start is shown.");
}

void sheet_sections(maker *m)
{
    const selection_wish none = selection_wish_none();
    maker_picture(m, "sections", &none);
    maker_own_table(m, "weights", section_build_weights, SELECTION_NONE, &none);
    station_plan plan = maker_plan(m, false);
    kl_state state;
    if (m->steps == 0 && maker_last_state(m, &state)) {
        plan.wish.load_case = state.index; /* sections are the same under every case */
    }
    maker_planned_table(m, &plan, "sections");
}
