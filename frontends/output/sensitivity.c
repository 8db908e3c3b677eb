/* sensitivity.c - see sensitivity.h.
 * SPDX-License-Identifier: MIT */
#include "sensitivity.h"

#include <math.h>
#include <stdio.h>

/* ---- what varies ---------------------------------------------------------------------------------------- */

static bool sensitivity_is_law(kl_law law)
{
    return law != KL_LAW_UNSET && law != KL_LAW_NONE;
}

static bool sensitivity_creeps(const kl_model *model)
{
    bool any = false;
    for (kl_index i = 0; i < model->material_count; ++i) {
        any = any || sensitivity_is_law(model->materials[i].creep);
    }
    return any;
}

static bool sensitivity_shrinks(const kl_model *model)
{
    bool any = false;
    for (kl_index i = 0; i < model->material_count; ++i) {
        any = any || sensitivity_is_law(model->materials[i].shrinkage);
    }
    return any;
}

static bool sensitivity_has_friction(const kl_model *model)
{
    bool any = false;
    for (kl_index i = 0; i < model->tendon_count; ++i) {
        any = any || model->tendons[i].friction > 0.0;
    }
    return any;
}

static bool sensitivity_has_wobble(const kl_model *model)
{
    bool any = false;
    for (kl_index i = 0; i < model->tendon_count; ++i) {
        any = any || model->tendons[i].wobble > 0.0;
    }
    return any;
}

static bool sensitivity_has_concrete(const kl_model *model)
{
    bool any = false;
    for (kl_index i = 0; i < model->material_count; ++i) {
        any = any || model->materials[i].kind == KL_CONCRETE;
    }
    return any;
}

static bool sensitivity_has_tendons(const kl_model *model)
{
    return model->tendon_count > 0;
}

static double *sensitivity_creep(kl_settings *s)
{
    return &s->creep_factor;
}

static double *sensitivity_shrinkage(kl_settings *s)
{
    return &s->shrinkage_factor;
}

static double *sensitivity_friction(kl_settings *s)
{
    return &s->friction_factor;
}

static double *sensitivity_wobble(kl_settings *s)
{
    return &s->wobble_factor;
}

static double *sensitivity_concrete(kl_settings *s)
{
    return &s->modulus_factor;
}

static double *sensitivity_steel(kl_settings *s)
{
    return &s->tendon_modulus_factor;
}

/* Ranges, all from memory:
 * creep, shrinkage: laws of them scatter by about thirty per cent;
 * friction: 0.15 to 0.25 for strand in galvanized ducts (AASHTO LRFD table 5.9.3.2.2b-1), 0.20 being usual;
 * wobble: 0.0005 to 0.0020 per ft for strand in ducts (ACI 318-08 table R18.6.2), half and twice its geometric mean;
 * E of concrete: 80 to 120 % of what is computed (ACI 318-08 R8.5.1); by the aggregate 70 to 120 % (EN 1992-1-1:2004 3.1.3 (2));
 * E of tendons: 185 to 205 GPa for strand that counts as 195 (EN 1992-1-1:2004 3.3.6 (3)). */
const sensitivity_kind sensitivity_kinds[SENSITIVITY_KINDS] = {
    {"creep", "creep", "creep", 0.7, 1.3, sensitivity_creeps, sensitivity_creep},
    {"shrinkage", "shrinkage", "shrink-\nage", 0.7, 1.3, sensitivity_shrinks,
     sensitivity_shrinkage},
    {"friction", "friction", "friction", 0.75, 1.25, sensitivity_has_friction,
     sensitivity_friction},
    {"wobble", "wobble", "wobble", 0.5, 2.0, sensitivity_has_wobble, sensitivity_wobble},
    {"concrete_modulus", "concrete E", "concrete\nE", 0.8, 1.2, sensitivity_has_concrete,
     sensitivity_concrete},
    {"tendon_modulus", "tendon E", "tendon\nE", 0.95, 1.05, sensitivity_has_tendons,
     sensitivity_steel},
};

static double sensitivity_factor(int variant)
{
    const sensitivity_kind *kind = &sensitivity_kinds[variant / 2];
    return variant % 2 == 0 ? kind->low : kind->high;
}

void sensitivity_label(char room[SENSITIVITY_LABEL], int variant)
{
    snprintf(room, SENSITIVITY_LABEL, "%s x %g", sensitivity_kinds[variant / 2].name,
             sensitivity_factor(variant));
}

/* ---- what is kept of an analysis ------------------------------------------------------------------------- */

static double *sensitivity_keep_draws(sensitivity *s, const kl_results *results)
{
    double *draws = arena_array(&s->memory, 2 * (size_t)s->pull_count, sizeof *draws);
    for (kl_index i = 0; draws != NULL && i < s->pull_count; ++i) {
        kl_index tendon;
        kl_stressing g;
        if (kl_pull_at(results, i, &tendon, &g) == KL_OK) {
            draws[2 * i] = g.elongation[0];
            draws[2 * i + 1] = g.elongation[1];
        }
    }
    return draws;
}

/* After the last stage; a model without stages has no camber. */
static sensitivity_place *sensitivity_find_places(sensitivity *s)
{
    const kl_model *model = kl_results_model(s->results);
    const kl_index steps = kl_step_count(s->results);
    sensitivity_place *places =
        arena_array(&s->memory, (size_t)model->member_count, sizeof *places);
    for (kl_index m = 0; places != NULL && steps > 0 && m < model->member_count; ++m) {
        kl_peak low, high;
        if (kl_range_on_member(s->results, kl_state_step(steps - 1), KL_CAMBER, KL_TOTAL, m, 0.0,
                               kl_member_length(model, m), &low, &high) == KL_OK) {
            places[m] = (sensitivity_place){fabs(low.value) > fabs(high.value) ? low : high, true};
        }
    }
    return places;
}

static double *sensitivity_keep_cambers(sensitivity *s, const kl_results *results)
{
    const kl_index members = kl_results_model(results)->member_count;
    const kl_state last = kl_state_step(kl_step_count(results) - 1);
    double *cambers = arena_array(&s->memory, (size_t)members, sizeof *cambers);
    for (kl_index m = 0; cambers != NULL && m < members; ++m) {
        const kl_peak *peak = &s->places[m].peak;
        if (!s->places[m].is_there ||
            kl_value_on_member(results, last, KL_CAMBER, KL_TOTAL, m, peak->station, peak->side,
                               &cambers[m]) != KL_OK) {
            cambers[m] = NAN;
        }
    }
    return cambers;
}

/* ---- analyses ------------------------------------------------------------------------------------------- */

/* The first error's words, or the status's own. */
static const char *sensitivity_trouble(sensitivity *s, kl_status status, const kl_diags *diags)
{
    for (kl_index i = 0; i < kl_diags_count(diags); ++i) {
        if (kl_diags_get(diags, i)->severity == KL_ERROR) {
            return arena_print(&s->memory, "%s", kl_diags_get(diags, i)->message);
        }
    }
    return kl_status_text(status);
}

/* What the analysis as computed has told of warnings is not told again: `unheard`. */
static kl_status sensitivity_analyse(sensitivity *s, int variant, kl_diags *unheard)
{
    kl_settings settings = kl_settings_default();
    *sensitivity_kinds[variant / 2].factor(&settings) = sensitivity_factor(variant);
    kl_results *results = NULL;
    kl_status status = kl_analyze(kl_results_model(s->results), &settings, unheard, &results);
    if (status == KL_OK) {
        status = kl_run_checks(results, unheard, &s->reports[variant]);
    }
    if (status == KL_OK) {
        s->draws[variant] = sensitivity_keep_draws(s, results);
        s->cambers[variant] = sensitivity_keep_cambers(s, results);
        status = s->draws[variant] && s->cambers[variant] ? KL_OK : KL_NO_MEMORY;
    }
    kl_results_destroy(results);
    return status;
}

static kl_status sensitivity_vary(sensitivity *s, int variant)
{
    kl_diags *unheard = kl_diags_create();
    if (unheard == NULL) {
        return KL_NO_MEMORY;
    }
    kl_status status = sensitivity_analyse(s, variant, unheard);
    if (status != KL_OK && status != KL_NO_MEMORY) {
        s->trouble[variant] = sensitivity_trouble(s, status, unheard);
        status = s->trouble[variant] != NULL ? KL_OK : KL_NO_MEMORY;
    }
    kl_diags_destroy(unheard);
    return status;
}

kl_status sensitivity_make(sensitivity *s, const kl_results *results, const kl_check_report *report)
{
    const kl_model *model = kl_results_model(results);
    *s = (sensitivity){.results = results, .report = report};
    s->pull_count = kl_pull_count(results);
    s->draw = sensitivity_keep_draws(s, results);
    s->places = sensitivity_find_places(s);
    if (!s->draw || !s->places) {
        return KL_NO_MEMORY;
    }
    for (int i = 0; i < SENSITIVITY_VARIANTS; ++i) {
        s->applies[i / 2] = sensitivity_kinds[i / 2].applies(model);
        if (s->applies[i / 2]) {
            KL_TRY(sensitivity_vary(s, i));
        }
    }
    return KL_OK;
}

void sensitivity_free(sensitivity *s)
{
    for (int i = 0; i < SENSITIVITY_VARIANTS; ++i) {
        kl_check_report_destroy(s->reports[i]);
    }
    arena_free(&s->memory);
}
