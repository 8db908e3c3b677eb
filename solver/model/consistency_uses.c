/* consistency_uses.c - what the model declares and nothing uses.
 * SPDX-License-Identifier: MIT */
#include "consistency.h"

typedef struct use_marks {
    bool *materials, *sections, *cases, *tendons;
} use_marks;

static void mark(bool *marks, kl_index index)
{
    if (index != KL_NONE) {
        marks[index] = true;
    }
}

static void mark_frame(const kl_model *model, use_marks *marks)
{
    for (kl_index m = 0; m < model->member_count; m++) {
        const kl_member *member = &model->members[m];
        mark(marks->materials, member->material);
        for (kl_index i = 0; i < member->section_count; i++) {
            mark(marks->sections, member->sections[i].section);
        }
    }
    for (kl_index t = 0; t < model->tendon_count; t++) {
        mark(marks->materials, model->tendons[t].material);
    }
    for (kl_index f = 0; f < model->falsework_count; f++) {
        mark(marks->sections, model->falsework[f].stringer_section);
        mark(marks->materials, model->falsework[f].stringer_material);
    }
    for (kl_index s = 0; s < model->section_count; s++) {
        for (kl_index i = 0; i < model->sections[s].rebar_count; i++) {
            mark(marks->materials, model->sections[s].rebar[i].material);
        }
    }
}

static void mark_stages(const kl_model *model, use_marks *marks)
{
    for (kl_index s = 0; s < model->stage_count; s++) {
        for (kl_index o = 0; o < model->stages[s].operation_count; o++) {
            const kl_operation *operation = &model->stages[s].operations[o];
            for (kl_index i = 0; operation->kind == KL_OP_LOAD && i < operation->items.count; i++) {
                mark(marks->cases, operation->items.items[i]);
            }
        }
    }
}

static void mark_when(kl_when when, use_marks *marks)
{
    if (when.kind == KL_WHEN_CASE) {
        mark(marks->cases, when.first);
    }
}

static void mark_asked(const kl_model *model, use_marks *marks)
{
    for (kl_index k = 0; k < model->combination_count; k++) {
        for (kl_index i = 0; i < model->combinations[k].factor_count; i++) {
            const kl_cause cause = model->combinations[k].factors[i].cause;
            mark(marks->cases, cause.kind == KL_CAUSE_CASE ? cause.load_case : KL_NONE);
        }
    }
    for (kl_index k = 0; k < model->check_count; k++) {
        mark_when(model->checks[k].when, marks);
    }
    for (kl_index k = 0; k < model->expectation_count; k++) {
        mark_when(model->expectations[k].when, marks);
    }
}

/* In a model without stages every case is solved; tendons act where a case stresses them. */
static void mark_cases(const kl_model *model, use_marks *marks)
{
    for (kl_index k = 0; k < model->case_count; k++) {
        mark(marks->cases, k);
        for (kl_index i = 0; i < model->cases[k].load_count; i++) {
            if (model->cases[k].loads[i].kind == KL_LOAD_TENDON) {
                mark(marks->tendons, model->cases[k].loads[i].tendon);
            }
        }
    }
}

static void tell_materials_and_sections(consistency *c, const use_marks *marks)
{
    const kl_model *model = c->model;
    for (kl_index m = 0; m < model->material_count; m++) {
        if (!marks->materials[m]) {
            kl_diags_add(c->diags, KL_WARNING, "unused", model->materials[m].origin,
                         "Nothing is made of %s.", model->materials[m].name);
        }
    }
    for (kl_index s = 0; s < model->section_count; s++) {
        if (!marks->sections[s]) {
            kl_diags_add(c->diags, KL_WARNING, "unused", model->sections[s].origin,
                         "No member has section %s.", model->sections[s].name);
        }
    }
}

static void tell_cases_and_tendons(consistency *c, const use_marks *marks)
{
    const kl_model *model = c->model;
    for (kl_index k = 0; k < model->case_count; k++) {
        if (!marks->cases[k]) {
            kl_diags_add(
                c->diags, KL_WARNING, "unused", model->cases[k].origin,
                "No stage loads case %s, and no combination, check or expectation asks for it.",
                model->cases[k].name);
        }
    }
    for (kl_index t = 0; t < model->tendon_count && !c->staged; t++) {
        if (!marks->tendons[t]) {
            kl_diags_add(c->diags, KL_WARNING, "never-stressed", model->tendons[t].origin,
                         "No case stresses tendon %s: it acts nowhere.", model->tendons[t].name);
        }
    }
    for (kl_index f = 0; f < model->falsework_count && !c->staged; f++) {
        kl_diags_add(c->diags, KL_WARNING, "never-erected", model->falsework[f].origin,
                     "Falsework %s is never erected: the model has no stages.",
                     model->falsework[f].name);
    }
}

kl_status consistency_uses(consistency *c)
{
    const kl_model *model = c->model;
    use_marks marks;
    marks.materials = arena_array(&c->memory, (size_t)model->material_count, sizeof(bool));
    marks.sections = arena_array(&c->memory, (size_t)model->section_count, sizeof(bool));
    marks.cases = arena_array(&c->memory, (size_t)model->case_count, sizeof(bool));
    marks.tendons = arena_array(&c->memory, (size_t)model->tendon_count, sizeof(bool));
    if (marks.materials == NULL || marks.sections == NULL || marks.cases == NULL ||
        marks.tendons == NULL) {
        return KL_NO_MEMORY;
    }
    mark_frame(model, &marks);
    mark_asked(model, &marks);
    if (c->staged) {
        mark_stages(model, &marks);
    } else {
        mark_cases(model, &marks);
    }
    tell_materials_and_sections(c, &marks);
    tell_cases_and_tendons(c, &marks);
    return KL_OK;
}
