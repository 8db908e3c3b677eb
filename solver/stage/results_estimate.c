/* results_estimate.c - what the one-line formulas of the codes are given at a place of a tendon, and what they say.
 * SPDX-License-Identifier: MIT */
#include <math.h>

#include "loss_estimate.h"
#include "material.h"
#include "shrinkage.h"
#include "tendon_course.h"
#include "tendon_origin.h"

/* A place of a tendon, and the time between its stressing and the state. */
typedef struct estimate_place {
    const kl_results *results;
    kl_index tendon, member;
    double along, station; /* of the tendon, of the member */
    kl_side side;
    kl_index stage;              /* of the stressing */
    kl_index bound;              /* steps before this one lie before the state */
    double loaded, end;          /* ages of the concrete, s: at the stressing and at the state */
    kl_section_values section;   /* gross */
    double steel_area, steel_at; /* m^2; m above the member's line */
    const kl_material *concrete;
    const ageing_mix *mix; /* NULL: neither creeps nor shrinks */
} estimate_place;

/* ---- the place ------------------------------------------------------------------------------------------- */

/* Tendons that carry at the state and pass the place: one layer of steel at their common centroid. */
static void gather_steel(estimate_place *p, const state_record *record)
{
    const analysis_run *run = &p->results->run;
    double moment = 0.0;
    for (kl_index t = 0; t < run->model->tendon_count; t++) {
        const kl_tendon *tendon = &run->model->tendons[t];
        const kl_tendon_phase phase = record->tendons[t].phase;
        double x = p->station;
        for (kl_index k = 0; k < tendon->member_count; k++) {
            const bool here = tendon->members[k] == p->member && x >= run->paths[t].begin &&
                              x <= run->paths[t].end;
            if (here && (phase == KL_TENDON_STRESSED || phase == KL_TENDON_GROUTED)) {
                p->steel_area += run->traces[t].area;
                moment += run->traces[t].area * profile_at(&run->paths[t], x, p->side).height;
            }
            x += run->mesh.members[tendon->members[k]].length;
        }
    }
    p->steel_at = moment / p->steel_area;
}

static kl_index last_step_of(const estimate_place *p, kl_index stage)
{
    const kl_index last = p->results->first_step[stage + 1] - 1;
    return last < p->bound ? last : p->bound - 1;
}

static kl_status find_place(const kl_results *results,
                            kl_state state,
                            const tendon_origin *origin,
                            estimate_place *p)
{
    const analysis_run *run = &results->run;
    const state_record *record = store_record_of(results, state);
    if (origin->step == KL_NONE || run->ageless ||
        run->model->tendons[p->tendon].bond == KL_UNBONDED) {
        return KL_NOT_THERE;
    }
    tendon_course_member(results, p->tendon, p->along, &p->member, &p->station);
    const double birth = record->members[p->member].birth;
    const kl_step *pull = &results->steps[origin->step].step;
    const kl_index mix = run->ageing.mix_of[p->member];
    p->stage = pull->stage;
    p->bound = tendon_origin_bound(results, state);
    p->loaded = pull->time - birth;
    p->end = record->time - birth;
    p->concrete = &run->model->materials[run->model->members[p->member].material];
    p->mix = mix == KL_NONE ? NULL : &run->ageing.mixes[mix];
    gather_steel(p, record);
    return p->end > p->loaded
               ? kl_section_at_station(results, p->member, p->station, p->side, &p->section)
               : KL_NOT_THERE;
}

/* ---- the concrete at the steel --------------------------------------------------------------------------- */

/* What acts at a step: all but what time, lumps of losses and temperature brought. */
static kl_status
acting_at_face(const estimate_place *p, kl_index step, kl_quantity face, double *stress)
{
    static const kl_cause_kind others[] = {KL_CAUSE_CREEP, KL_CAUSE_SHRINKAGE, KL_CAUSE_RELAXATION,
                                           KL_CAUSE_LOSSES, KL_CAUSE_TEMPERATURE};
    const kl_state whole = kl_state_step(step);
    KL_TRY(kl_value_on_member(p->results, whole, face, KL_TOTAL, p->member, p->station, p->side,
                              stress));
    for (size_t i = 0; i < sizeof others / sizeof others[0]; i++) {
        const kl_state state = kl_state_of_cause(whole, (kl_cause){others[i], KL_NONE});
        double part = 0.0;
        KL_TRY(kl_value_on_member(p->results, state, face, KL_TOTAL, p->member, p->station, p->side,
                                  &part));
        *stress -= part;
    }
    return KL_OK;
}

/* Compression of the concrete at the steel. */
static kl_status acting_at_steel(const estimate_place *p, kl_index step, double *stress)
{
    const double depth = p->section.to_top + p->section.to_bottom;
    const double up = p->steel_at - (p->section.centroid - p->section.to_bottom);
    double top = 0.0;
    double bottom = 0.0;
    KL_TRY(acting_at_face(p, step, KL_STRESS_TOP, &top));
    KL_TRY(acting_at_face(p, step, KL_STRESS_BOTTOM, &bottom));
    *stress = -(bottom + (top - bottom) * up / depth);
    return isnan(*stress) ? KL_NOT_THERE : KL_OK;
}

/* ---- the laws -------------------------------------------------------------------------------------------- */

/* Strain of creep until the state under a unit stress put on at an age. */
static double creep_of_unit(const estimate_place *p, double loading)
{
    if (!p->mix || p->mix->subject.law == TIME_LAW_NONE) {
        return 0.0;
    }
    const time_concrete *concrete = &p->mix->subject.concrete;
    return p->results->run.ageing.creep_factor *
           creep_coefficient(p->mix->subject.law, concrete, p->end, loading) /
           creep_reference_modulus(p->mix->subject.law, concrete, loading);
}

static double shrinkage_between(const estimate_place *p)
{
    if (!p->mix) {
        return 0.0;
    }
    const time_concrete *concrete = &p->mix->subject.concrete;
    return p->results->run.ageing.shrinkage_factor *
           (shrinkage_strain(p->mix->shrinkage, concrete, p->loaded) -
            shrinkage_strain(p->mix->shrinkage, concrete, p->end));
}

static kl_status creep_of_later_loads(const estimate_place *p, double first, double *strain)
{
    const kl_results *results = p->results;
    double before = first;
    *strain = 0.0;
    for (kl_index s = p->stage + 1;
         s < results->run.model->stage_count && results->first_step[s] < p->bound; s++) {
        const kl_index step = last_step_of(p, s);
        const state_record *record = &results->steps[step];
        double now = 0.0;
        KL_TRY(acting_at_steel(p, step, &now));
        *strain +=
            (now - before) * creep_of_unit(p, record->time - record->members[p->member].birth);
        before = now;
    }
    return KL_OK;
}

/* ---- the formulas ---------------------------------------------------------------------------------------- */

static loss_place given(const estimate_place *p, const kl_loss_estimate *e)
{
    return (loss_place){.area = e->area,
                        .inertia = e->inertia,
                        .steel_area = e->steel_area,
                        .eccentricity = e->eccentricity,
                        .concrete_stress = e->concrete_stress,
                        .later_creep = e->later_creep,
                        .concrete_modulus = e->concrete_modulus,
                        .steel_modulus = p->results->run.traces[p->tendon].modulus,
                        .creep = e->creep_coefficient,
                        .shrinkage = e->shrinkage_strain};
}

static void take(const loss_parts *parts, bool relaxes, kl_loss_estimate *out)
{
    out->creep = parts->creep;
    out->shrinkage = parts->shrinkage;
    out->relaxation = relaxes ? parts->relaxation : (double)NAN;
    out->factor = parts->factor;
}

/* phi over the strain at loading; what comes later with an age of its own. */
static kl_status
by_aashto(const estimate_place *p, const relaxation_steel *steel, kl_loss_estimate *out)
{
    const bool low = steel->law == RELAXATION_LOG_LOW || steel->law == RELAXATION_EN1992_CLASS_2;
    out->concrete_modulus = material_modulus(p->concrete, p->loaded);
    KL_TRY(acting_at_steel(p, last_step_of(p, p->stage), &out->concrete_stress));
    KL_TRY(creep_of_later_loads(p, out->concrete_stress, &out->later_creep));
    out->creep_coefficient = creep_of_unit(p, p->loaded) * out->concrete_modulus;
    const loss_place place = given(p, out);
    const loss_parts parts = loss_estimate_aashto_2020(&place, out->stress, steel->yield, low);
    take(&parts, steel->law != RELAXATION_NONE && !isnan(steel->yield), out);
    return KL_OK;
}

/* phi of the code's own law as it is, though it belongs to the tangent modulus; of others over the strain at E_cm. All
 * loads as if put on with the prestress. */
static kl_status
by_en1992(const estimate_place *p, const relaxation_steel *steel, kl_loss_estimate *out)
{
    const bool own = p->mix && p->mix->subject.law == TIME_LAW_EN1992_2004;
    const time_concrete *concrete = p->mix ? &p->mix->subject.concrete : NULL;
    out->concrete_modulus = material_modulus(p->concrete, 28.0 * KL_DAY);
    KL_TRY(acting_at_steel(p, p->bound - 1, &out->concrete_stress));
    out->creep_coefficient =
        creep_of_unit(p, p->loaded) *
        (own ? creep_reference_modulus(TIME_LAW_EN1992_2004, concrete, p->loaded)
             : out->concrete_modulus);
    const loss_place place = given(p, out);
    const loss_parts parts =
        loss_estimate_en1992_2004(&place, relaxation_intrinsic(steel, out->stress, out->duration));
    take(&parts, steel->law != RELAXATION_NONE, out);
    return KL_OK;
}

kl_status kl_estimate_losses(const kl_results *results,
                             kl_state state,
                             kl_index tendon,
                             double station,
                             kl_side side,
                             kl_loss_code code,
                             kl_loss_estimate *out)
{
    const kl_model *model = results->run.model;
    tendon_origin origin;
    kl_tendon_losses after;
    estimate_place p = {.results = results, .tendon = tendon, .along = station, .side = side};
    KL_TRY(tendon_origin_find(results, state, tendon, &origin));
    KL_TRY(find_place(results, state, &origin, &p));
    KL_TRY(kl_losses_at_station(results, kl_state_step(last_step_of(&p, p.stage)), tendon, station,
                                side, &after));
    const relaxation_steel steel =
        relaxation_steel_of(&model->materials[model->tendons[tendon].material]);
    *out = (kl_loss_estimate){.duration = p.end - p.loaded,
                              .area = p.section.area,
                              .inertia = p.section.inertia,
                              .steel_area = p.steel_area,
                              .eccentricity = p.steel_at - p.section.centroid,
                              .shrinkage_strain = shrinkage_between(&p),
                              .stress = after.left};
    return code == KL_LOSS_AASHTO_2020 ? by_aashto(&p, &steel, out) : by_en1992(&p, &steel, out);
}
