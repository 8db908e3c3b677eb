/* consistency_time.c - what the laws of creep, shrinkage and relaxation need, and whether they can act.
 *
 * A published law needs the strength, the air's humidity and how fast the member dries; a curve of the user's own needs
 * none of these. All of them need days that pass.
 * SPDX-License-Identifier: MIT */
#include <math.h>

#include "consistency.h"
#include "material.h"

/* The usual day of long-term results: 10,000 days are 27 years, when the published models have a few percent to go. A
 * ten-thousandth below is rounding of a day that was chosen to fit. */
#define LONG_TERM (10000.0 * KL_DAY * 0.9999)

static bool is_published(kl_law law)
{
    return law != KL_LAW_UNSET && law != KL_LAW_NONE && law != KL_LAW_USER;
}

static bool has_published(const kl_material *material)
{
    return material->kind == KL_CONCRETE &&
           (is_published(material->creep) || is_published(material->shrinkage));
}

static bool ages_by_law(const kl_material *material)
{
    return material_creeps(material) || material_shrinks(material);
}

/* ---- what published laws need --------------------------------------------------------------------------- */

static void need_strength(consistency *c, const kl_material *material)
{
    const bool told =
        material->modulus_law != KL_LAW_VALUE; /* the law of the modulus wants it too */
    if (isnan(material->strength) && !told) {
        kl_diags_add(c->diags, KL_ERROR, "no-strength", material->origin,
                     "%s has no `strength`, which its law of creep or shrinkage needs.",
                     material->name);
    }
}

static void need_humidity(consistency *c, const kl_material *material)
{
    const double humidity = c->model->humidity;
    if (!(humidity >= 0.0 && humidity <= 1.0)) {
        kl_diags_add(
            c->diags, KL_ERROR, "no-humidity", material->origin,
            "%s has a law of creep or shrinkage, which needs the humidity of the air, 0 to "
            "100 %%.",
            material->name);
        kl_diags_hint(c->diags, "for example `site { humidity 70 %% }`");
    }
}

static void need_size(consistency *c, const kl_member *member, bool *told)
{
    for (kl_index i = 0; i < member->section_count; i++) {
        const kl_index s = member->sections[i].section;
        const kl_section *section = &c->model->sections[s];
        if (section->shape != KL_BARE || !isnan(section->volume_to_surface) || told[s]) {
            continue;
        }
        told[s] = true;
        kl_diags_add(c->diags, KL_ERROR, "no-volume-to-surface", section->origin,
                     "Section %s has no `volume_to_surface`, which member %s needs: it creeps or "
                     "shrinks by a law.",
                     section->name, member->name);
        kl_diags_hint(c->diags, "how fast it dries cannot be seen from `area` and `inertia`");
    }
}

/* ---- time that passes ----------------------------------------------------------------------------------- */

static bool time_passes(const kl_model *model)
{
    kl_index first = 0;
    while (first < model->stage_count && !model->stages[first].has_time) {
        first++;
    }
    return first < model->stage_count &&
           model->stages[model->stage_count - 1].time > model->stages[first].time;
}

static void tell_idle(consistency *c, const kl_material *material)
{
    kl_diags_add(c->diags, KL_WARNING, "time-law-idle", material->origin,
                 "%s has a law of %s, but %s: it never acts.", material->name,
                 material->kind == KL_PRESTRESSING ? "relaxation" : "creep or shrinkage",
                 c->staged ? "all stages are on one day" : "the model has no stages");
    kl_diags_hint(c->diags, "for example `stage long_term at 10000 day`");
}

static bool looks_far(const kl_check *check)
{
    return check->condition == KL_IN_SERVICE || check->condition == KL_SUSTAINED;
}

/* What asks for long-term results: the first check of service or camber. NULL: nothing. */
static const kl_origin *find_asker(const kl_model *model)
{
    for (kl_index k = 0; k < model->check_count; k++) {
        if (looks_far(&model->checks[k])) {
            return &model->checks[k].origin;
        }
    }
    for (kl_index k = 0; k < model->expectation_count; k++) {
        if (model->expectations[k].quantity == KL_CAMBER) {
            return &model->expectations[k].origin;
        }
    }
    return NULL;
}

static void check_long_term(consistency *c)
{
    const kl_model *model = c->model;
    const kl_stage *last = &model->stages[model->stage_count - 1];
    const kl_origin *asker = find_asker(model);
    if (asker == NULL || last->time >= LONG_TERM) {
        return;
    }
    const build_number day = build_show(model, KL_MEASURE_TIME, last->time);
    kl_diags_add(c->diags, KL_WARNING, "no-long-term", *asker,
                 "The last stage, %s, is at %s. Creep and shrinkage go on after it: results of "
                 "service and camber are usually taken at 10,000 days or later.",
                 last->name, day.text);
    kl_diags_hint(c->diags, "for example `stage long_term at 10000 day` at the end");
}

/* ---- a lump and a law ----------------------------------------------------------------------------------- */

/* The material by whose law the tendon loses force; NULL: none. */
static const kl_material *losing(const kl_model *model, const kl_tendon *tendon)
{
    if (material_relaxes(&model->materials[tendon->material])) {
        return &model->materials[tendon->material];
    }
    for (kl_index i = 0; i < tendon->member_count; i++) {
        const kl_member *member = &model->members[tendon->members[i]];
        if (ages_by_law(&model->materials[member->material])) {
            return &model->materials[member->material];
        }
    }
    return NULL;
}

static void check_lump(consistency *c, const kl_stage *stage, const kl_operation *operation)
{
    for (kl_index i = 0; i < operation->items.count; i++) {
        const kl_tendon *tendon = &c->model->tendons[operation->items.items[i]];
        const kl_material *material = losing(c->model, tendon);
        if (material != NULL) {
            kl_diags_add(
                c->diags, KL_WARNING, "loss-twice", operation->origin,
                "Stage %s takes a lump-sum loss from tendon %s, which also loses by the law "
                "of %s of %s: what the lump has of it is counted twice.",
                stage->name, tendon->name,
                material->kind == KL_PRESTRESSING ? "relaxation" : "creep or shrinkage",
                material->name);
            return; /* one tendon is enough of a sign */
        }
    }
}

static void check_lumps(consistency *c)
{
    for (kl_index s = 0; s < c->model->stage_count; s++) {
        const kl_stage *stage = &c->model->stages[s];
        for (kl_index o = 0; o < stage->operation_count; o++) {
            if (stage->operations[o].kind == KL_OP_LOSE) {
                check_lump(c, stage, &stage->operations[o]);
            }
        }
    }
}

/* ---- the check ------------------------------------------------------------------------------------------ */

static kl_status check_members(consistency *c, bool *used)
{
    const kl_model *model = c->model;
    bool *told = arena_array(&c->memory, (size_t)model->section_count, sizeof *told);
    if (told == NULL) {
        return KL_NO_MEMORY;
    }
    for (kl_index m = 0; m < model->member_count; m++) {
        const kl_member *member = &model->members[m];
        const kl_material *material = &model->materials[member->material];
        if (has_published(material)) {
            need_size(c, member, told);
        }
        used[member->material] = true;
    }
    return KL_OK;
}

/* What the log law of relaxation and the tables of EN 1992 ask of the steel. */
static void check_tendons(consistency *c, bool *used)
{
    const kl_model *model = c->model;
    for (kl_index t = 0; t < model->tendon_count; t++) {
        const kl_material *steel = &model->materials[model->tendons[t].material];
        const bool by_yield =
            steel->relaxation == KL_RELAXATION_LOW || steel->relaxation == KL_RELAXATION_NORMAL;
        if (by_yield && isnan(steel->yield) && !used[model->tendons[t].material]) {
            kl_diags_add(c->diags, KL_ERROR, "no-yield", steel->origin,
                         "%s has no `yield`, which its law of relaxation needs.", steel->name);
        }
        used[model->tendons[t].material] = true;
    }
}

static void check_materials(consistency *c, const bool *used, bool passes, bool *any)
{
    for (kl_index i = 0; i < c->model->material_count; i++) {
        const kl_material *material = &c->model->materials[i];
        if (!used[i] || !(ages_by_law(material) || material_relaxes(material))) {
            continue;
        }
        *any = true;
        if (has_published(material)) {
            need_strength(c, material);
            need_humidity(c, material);
        }
        if (!passes) {
            tell_idle(c, material);
        }
    }
}

kl_status consistency_time(consistency *c)
{
    const bool passes = time_passes(c->model);
    bool *used = arena_array(&c->memory, (size_t)c->model->material_count, sizeof *used);
    bool any = false;
    if (used == NULL) {
        return KL_NO_MEMORY;
    }
    KL_TRY(check_members(c, used));
    check_tendons(c, used);
    check_materials(c, used, passes, &any);
    if (any && passes) {
        check_long_term(c);
        check_lumps(c);
    }
    return KL_OK;
}
