/* build_material.c - kl_model_add_material and kl_model_add_section.
 *
 * A property is required where something uses it (kl_model_check knows); here what is given must make sense by
 * itself. A section's dimensions are section_check's business.
 * SPDX-License-Identifier: MIT */
#include <math.h>

#include "build.h"
#include "section.h"

#define MATERIAL_MOST_REBAR  10000
#define MATERIAL_MOST_POINTS 1000
#define MATERIAL_MOST_RELAXATION                                                                   \
    0.5 /* of the stress in 1000 hours: several times that of any steel */
#define SECTION_MOST_POINTS 10000
#define SECTION_MOST_VOIDS  1000

static const char *material_word(kl_material_kind kind)
{
    switch (kind) {
    case KL_CONCRETE:
        return "concrete";
    case KL_PRESTRESSING:
        return "prestressing";
    case KL_REINFORCING:
        return "reinforcing";
    case KL_ELASTIC:
        break;
    }
    return "material";
}

/* ---- curves of creep and shrinkage ---------------------------------------------------------------------- */

static void check_point(build_item *item, const char *word, const kl_time_curve *curve, kl_index i)
{
    const kl_time_point *point = &curve->points[i];
    const bool final = curve->count == 1 && isinf(point->time);
    const double before = i > 0 ? point[-1].time : 0.0;
    if (!final && !(point->time > before && isfinite(point->time))) {
        build_error(item, "curve-order", point->origin,
                    "The points of the %s of %s must come in the order of their days, the first of "
                    "them after day 0.",
                    word, build_subject(item));
    }
    if (!(point->value >= 0.0 && isfinite(point->value))) {
        build_error(item, "curve-negative", point->origin, "The %s of %s must not be negative.",
                    word, build_subject(item));
        build_hint(item, "creep and shrinkage are written without sign");
    } else if (i > 0 && point->value < point[-1].value) {
        build_error(item, "curve-falls", point->origin,
                    "The %s of %s must not become less from one point to the next.", word,
                    build_subject(item));
    }
}

static void check_curve(
    build_item *item, const char *word, const char *example, kl_law law, const kl_time_curve *curve)
{
    build_limit(item, "points of a curve", curve->count, MATERIAL_MOST_POINTS);
    if (item->bad) {
        return;
    }
    if (law == KL_LAW_USER && curve->count == 0) {
        build_error(item, "no-curve", curve->origin, "`%s user` of %s has no curve.", word,
                    build_subject(item));
        build_hint(item, "for example `%s`", example);
    }
    if (law != KL_LAW_USER && curve->count > 0) {
        build_error(item, "curve-of-law", curve->points[0].origin,
                    "A curve belongs to `%s user`; the %s of %s is by another law.", word, word,
                    build_subject(item));
    }
    for (kl_index i = 0; i < curve->count && !item->bad; i++) {
        check_point(item, word, curve, i);
    }
}

static kl_status copy_curve(kl_model *model, kl_time_curve *curve)
{
    const void *points = NULL;
    KL_TRY(build_copy(model, curve->points, curve->count, sizeof *curve->points, &points));
    curve->points = points;
    return KL_OK;
}

/* ---- materials ------------------------------------------------------------------------------------------ */

static void check_material(build_item *item, const kl_material *material)
{
    build_positive(item, "strength", material->strength);
    build_positive(item, "transfer_strength", material->transfer_strength);
    build_not_negative(item, "unit_weight", material->unit_weight);
    build_positive(item, "modulus", material->modulus);
    build_not_negative(item, "modulus factor", material->modulus_factor);
    build_positive(item, "shear_modulus", material->shear_modulus);
    build_not_negative(item, "expansion", material->expansion);
    build_not_negative(item, "cured", material->cured);
    build_positive(item, "ultimate", material->ultimate);
    build_positive(item, "yield", material->yield);
    if (material->modulus_law == KL_LAW_VALUE && isnan(material->modulus)) {
        build_need_positive(item, "modulus", material->modulus);
    }
    check_curve(item, "creep", "creep user { phi 2.0 }", material->creep, &material->creep_curve);
    check_curve(item, "shrinkage", "shrinkage user { strain 300e-6 }", material->shrinkage,
                &material->shrinkage_curve);
    if (material->relaxation == KL_RELAXATION_VALUE) {
        build_need_finite(item, "relaxation", material->relaxation_loss);
        build_between(item, "relaxation", material->relaxation_loss, 0.0, MATERIAL_MOST_RELAXATION);
    }
    if (material->yield > material->ultimate) {
        build_error(item, "yield-above-ultimate", material->origin,
                    "The yield stress of %s is above its ultimate.", build_subject(item));
    }
}

kl_status kl_model_add_material(kl_model *model, const kl_material *material, kl_index *added)
{
    build_item item = build_start(model, KL_KIND_MATERIAL, material->name, material->origin);
    item.word = material_word(material->kind);
    check_material(&item, material);
    if (item.bad) {
        return KL_BAD_MODEL;
    }
    kl_material copy = *material;
    KL_TRY(build_copy_name(&item, &copy.name));
    KL_TRY(copy_curve(model, &copy.creep_curve));
    KL_TRY(copy_curve(model, &copy.shrinkage_curve));
    return build_append(&item, &copy, sizeof copy, &model->material_count, added);
}

/* ---- sections ----------------------------------------------------------------------------------------- */

static void check_rebar(build_item *item, const kl_section *section)
{
    const kl_model *model = item->model;
    for (kl_index i = 0; i < section->rebar_count; i++) {
        const kl_rebar_layer *layer = &section->rebar[i];
        build_need_positive(item, "number of bars", layer->count);
        build_need_positive(item, "area of one bar", layer->bar_area);
        build_not_negative(item, "depth of rebar", layer->depth);
        build_need_finite(item, "depth of rebar", layer->depth);
        if (build_reference(item, "rebar's steel", layer->material, model->material_count, false) &&
            model->materials[layer->material].kind != KL_REINFORCING) {
            build_error(item, "wrong-material", layer->origin,
                        "The rebar of %s is of %s, which is not a reinforcing steel.",
                        build_subject(item), model->materials[layer->material].name);
            build_hint(item, "name one declared with `reinforcing`");
        }
    }
}

static void check_section_lists(build_item *item, const kl_section *section)
{
    build_limit(item, "layers of rebar", section->rebar_count, MATERIAL_MOST_REBAR);
    build_limit(item, "points in its outline", section->outline.count, SECTION_MOST_POINTS);
    build_limit(item, "voids", section->void_count, SECTION_MOST_VOIDS);
    for (kl_index i = 0; !item->bad && i < section->void_count; i++) {
        build_limit(item, "points in a void", section->voids[i].count, SECTION_MOST_POINTS);
    }
}

static kl_status copy_polygon(kl_model *model, kl_polygon *polygon)
{
    const void *points = NULL;
    KL_TRY(build_copy(model, polygon->points, polygon->count, sizeof *polygon->points, &points));
    polygon->points = points;
    return KL_OK;
}

static kl_status copy_voids(kl_model *model, kl_section *section)
{
    if (section->void_count <= 0) {
        section->voids = NULL;
        return KL_OK;
    }
    const size_t count = (size_t)section->void_count;
    kl_polygon *voids = arena_copy(&model->store->memory, section->voids, count, sizeof *voids);
    if (voids == NULL) {
        return KL_NO_MEMORY;
    }
    for (size_t i = 0; i < count; i++) {
        KL_TRY(copy_polygon(model, &voids[i]));
    }
    section->voids = voids;
    return KL_OK;
}

kl_status kl_model_add_section(kl_model *model, const kl_section *section, kl_index *added)
{
    build_item item = build_start(model, KL_KIND_SECTION, section->name, section->origin);
    check_section_lists(&item, section);
    if (item.bad) {
        return KL_BAD_MODEL;
    }
    check_rebar(&item, section);
    build_need_finite(&item, "turned", section->turned);
    const kl_status dimensions = section_check(section, model->store->diags);
    if (dimensions == KL_BAD_MODEL) {
        item.bad = true;
    } else {
        KL_TRY(dimensions);
    }
    if (item.bad) {
        return KL_BAD_MODEL;
    }
    kl_section copy = *section;
    const void *rebar = NULL;
    KL_TRY(build_copy_name(&item, &copy.name));
    KL_TRY(copy_polygon(model, &copy.outline));
    KL_TRY(copy_voids(model, &copy));
    KL_TRY(build_copy(model, copy.rebar, copy.rebar_count, sizeof *copy.rebar, &rebar));
    copy.rebar = rebar;
    return build_append(&item, &copy, sizeof copy, &model->section_count, added);
}
