/* vary.c - see vary.h.
 * SPDX-License-Identifier: MIT */
#include "vary.h"

#include <math.h>

#include "material.h"
#include "near.h"

static bool is_factor(double factor)
{
    return factor >= 0.0 && isfinite(factor);
}

static bool is_sound(const kl_settings *s)
{
    return is_factor(s->creep_factor) && is_factor(s->shrinkage_factor) &&
           is_factor(s->friction_factor) && is_factor(s->wobble_factor) &&
           is_factor(s->modulus_factor) && s->modulus_factor > 0.0 &&
           is_factor(s->tendon_modulus_factor) && s->tendon_modulus_factor > 0.0;
}

static bool is_as_declared(const kl_settings *s)
{
    return is_exact_zero(s->friction_factor - 1.0) && is_exact_zero(s->wobble_factor - 1.0) &&
           is_exact_zero(s->modulus_factor - 1.0) && is_exact_zero(s->tendon_modulus_factor - 1.0);
}

static void vary_materials(const kl_settings *s, kl_material *materials, kl_index count)
{
    for (kl_index i = 0; i < count; i++) {
        kl_material *m = &materials[i];
        if (m->kind == KL_CONCRETE) {
            m->modulus_factor = material_modulus_factor(m) * s->modulus_factor;
        } else if (m->kind == KL_PRESTRESSING) {
            m->modulus *= s->tendon_modulus_factor;
        }
    }
}

static void vary_tendons(const kl_settings *s, kl_tendon *tendons, kl_index count)
{
    for (kl_index i = 0; i < count; i++) {
        tendons[i].friction *= s->friction_factor;
        tendons[i].wobble *= s->wobble_factor;
    }
}

kl_status
vary_model(const kl_model *model, const kl_settings *settings, arena *a, const kl_model **varied)
{
    *varied = model;
    if (settings == NULL) {
        return KL_OK;
    }
    if (!is_sound(settings)) {
        return KL_MISUSE;
    }
    if (is_as_declared(settings)) {
        return KL_OK;
    }
    kl_model *copy = arena_copy(a, model, 1, sizeof *copy);
    kl_material *materials =
        arena_copy(a, model->materials, (size_t)model->material_count, sizeof *materials);
    kl_tendon *tendons =
        arena_copy(a, model->tendons, (size_t)model->tendon_count, sizeof *tendons);
    if (!copy || !materials || !tendons) {
        return KL_NO_MEMORY;
    }
    vary_materials(settings, materials, model->material_count);
    vary_tendons(settings, tendons, model->tendon_count);
    copy->materials = materials;
    copy->tendons = tendons;
    *varied = copy;
    return KL_OK;
}
