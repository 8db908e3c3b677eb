/* warn_time.c - laws of creep, shrinkage and relaxation beyond what they were made for: scope, stress, and curves no analysis follows.
 * SPDX-License-Identifier: MIT */
#include <math.h>
#include <string.h>

#include "check_text.h"
#include "kelvin.h"
#include "relaxation.h"
#include "section.h"
#include "shrinkage.h"
#include "warn.h"

/* A member counts as loaded when a face is first compressed by this share of the most it ever is. */
#define WARN_LOADED_SHARE 0.1
/* Share of J by which the chain of kelvin.h may miss a curve of the user's own without a word. */
#define WARN_CURVE_ERROR 0.02

/* Greatest compression of a member at each step, Pa, positive. */
typedef struct warn_compression {
    double stress, station;
    kl_face face;
    double age; /* s, of the concrete */
} warn_compression;

static const kl_material *concrete_of(const warn_context *c, kl_index member)
{
    return &c->model->materials[c->model->members[member].material];
}

static kl_status
find_compression(const warn_context *c, kl_index step, kl_index member, warn_compression *out)
{
    const kl_state state = kl_state_step(step);
    double modulus = 0.0, strength = 0.0;
    *out = (warn_compression){.face = KL_FACE_TOP};
    if (!kl_member_stands(c->results, state, member)) {
        return KL_OK;
    }
    kl_concrete_of_state(c->results, state, member, &modulus, &strength, &out->age);
    for (int face = KL_FACE_TOP; face <= KL_FACE_BOTTOM; face++) {
        const kl_quantity quantity = face == KL_FACE_TOP ? KL_STRESS_TOP : KL_STRESS_BOTTOM;
        kl_peak peak;
        const kl_status status =
            kl_peak_on_member(c->results, state, quantity, KL_TOTAL, member, 0.0,
                              kl_member_length(c->model, member), KL_SMALLEST, &peak);
        if (status == KL_NO_MEMORY) {
            return status;
        }
        if (status == KL_OK && -peak.value > out->stress) {
            out->stress = -peak.value;
            out->station = peak.station;
            out->face = (kl_face)face;
        }
    }
    return KL_OK;
}

/* ---- scope ------------------------------------------------------------------------------------------------ */

/* Age at which the member is first loaded; NAN: it never is, or its stresses are not known. */
static double loading_age(const warn_compression *steps, kl_index count)
{
    double most = 0.0;
    for (kl_index i = 0; i < count; i++) {
        most = fmax(most, steps[i].stress);
    }
    for (kl_index i = 0; i < count; i++) {
        if (steps[i].stress > 0.0 && steps[i].stress >= WARN_LOADED_SHARE * most) {
            return steps[i].age;
        }
    }
    return (double)NAN;
}

/* Of its sections the one that dries slowest. */
static double largest_size(const kl_model *model, const kl_member *member)
{
    double largest = 0.0;
    for (kl_index i = 0; i < member->section_count; i++) {
        const kl_section *section = &model->sections[member->sections[i].section];
        largest = fmax(largest, section_volume_to_surface(section, section, 0.0));
    }
    return largest;
}

/* What is told once of all members of a material that are outside in the same way. */
typedef struct scope_note {
    kl_index material;
    const char *what; /* "creep" */
    const char *law;
    const char *outside; /* "humidity below 40 %, slow cement" */
    kl_index member;     /* the first */
    kl_index more;
} scope_note;

typedef struct scope_notes {
    scope_note *items;
    kl_index count;
} scope_notes;

static kl_status note_scope(const warn_context *c,
                            kl_index member,
                            const char *what,
                            time_law law,
                            const time_scope *scope,
                            scope_notes *notes)
{
    const kl_index material = c->model->members[member].material;
    const char *list = "";
    for (int i = 0; i < scope->count && list != NULL; i++) {
        list = arena_print(c->memory, "%s%s%s", list, i > 0 ? ", " : "", scope->outside[i]);
    }
    if (list == NULL) {
        return KL_NO_MEMORY;
    }
    if (scope->count == 0) {
        return KL_OK;
    }
    for (kl_index i = 0; i < notes->count; i++) {
        scope_note *note = &notes->items[i];
        if (note->material == material && strcmp(note->what, what) == 0 &&
            strcmp(note->outside, list) == 0) {
            note->more++;
            return KL_OK;
        }
    }
    notes->items[notes->count++] =
        (scope_note){material, what, time_law_name(law), list, member, 0};
    return KL_OK;
}

static kl_status
check_scope(const warn_context *c, kl_index member, double loading, scope_notes *notes)
{
    const kl_material *material = concrete_of(c, member);
    const time_law creep = time_law_of(material->creep);
    const time_law shrinkage = time_law_of(material->shrinkage);
    const time_concrete concrete = {.material = material,
                                    .humidity = c->model->humidity,
                                    .volume_to_surface =
                                        largest_size(c->model, &c->model->members[member])};
    time_scope dries = shrinkage_outside(shrinkage, &concrete);
    if (isnan(loading)) {
        return note_scope(c, member, "shrinkage", shrinkage, &dries, notes);
    }
    time_scope creeps = creep_outside(creep, &concrete, loading);
    if (creep != shrinkage) {
        KL_TRY(note_scope(c, member, "creep", creep, &creeps, notes));
        return note_scope(c, member, "shrinkage", shrinkage, &dries, notes);
    }
    for (int i = 0; i < dries.count; i++) {
        time_scope_add(&creeps, true, dries.outside[i]);
    }
    return note_scope(c, member, "creep and shrinkage", creep, &creeps, notes);
}

static kl_status tell_scope(const warn_context *c, const scope_notes *notes)
{
    for (kl_index i = 0; i < notes->count; i++) {
        const scope_note *note = &notes->items[i];
        const kl_member *member = &c->model->members[note->member];
        const char *more =
            note->more == 0 ? "" : arena_print(c->memory, " and %d more", (int)note->more);
        if (more == NULL) {
            return KL_NO_MEMORY;
        }
        kl_diags_add(c->diags, KL_WARNING, "law-out-of-scope", member->origin,
                     "%s%s, of %s: outside the scope that %s states for %s (%s).", member->name,
                     more, c->model->materials[note->material].name, note->law, note->what,
                     note->outside);
    }
    return KL_OK;
}

/* ---- stress ----------------------------------------------------------------------------------------------- */

/* Does time pass under what stands after the step? */
static bool stays(const warn_context *c, kl_index step)
{
    return step + 1 < kl_step_count(c->results) &&
           kl_step_at(c->results, step + 1)->time > kl_step_at(c->results, step)->time;
}

static kl_status tell_stress(const warn_context *c,
                             kl_index member,
                             kl_index step,
                             const warn_compression *worst,
                             double limit)
{
    const kl_display *display = &c->model->display;
    const char *stress = text_value(c->memory, display, KL_MEASURE_STRESS, worst->stress);
    const char *most = text_value(c->memory, display, KL_MEASURE_STRESS, limit);
    const char *place = text_value(c->memory, display, KL_MEASURE_STATION, worst->station);
    const char *moment = text_state(c->memory, c->results, kl_state_step(step));
    if (stress == NULL || most == NULL || place == NULL || moment == NULL) {
        return KL_NO_MEMORY;
    }
    kl_diags_add(
        c->diags, KL_WARNING, "creep-not-linear", c->model->members[member].origin,
        "The %s of %s at %s stays compressed by %s %s; %s has creep proportional to stress "
        "up to %s at that age. Beyond, it creeps more than is computed.",
        worst->face == KL_FACE_TOP ? "top" : "bottom", c->model->members[member].name, place,
        stress, moment, time_law_name(time_law_of(concrete_of(c, member)->creep)), most);
    return KL_OK;
}

static kl_status check_stress(const warn_context *c, kl_index member, const warn_compression *steps)
{
    const kl_material *material = concrete_of(c, member);
    double ratio = 1.0, limit = 0.0;
    kl_index worst = KL_NONE;
    for (kl_index s = 0; s < kl_step_count(c->results); s++) {
        const double most =
            creep_linear_stress(time_law_of(material->creep), material, steps[s].age);
        if (stays(c, s) && steps[s].stress > ratio * most) {
            ratio = steps[s].stress / most;
            limit = most;
            worst = s;
        }
    }
    return worst == KL_NONE ? KL_OK : tell_stress(c, member, worst, &steps[worst], limit);
}

kl_status warn_time_laws(const warn_context *c)
{
    const kl_index count = kl_step_count(c->results);
    warn_compression *steps = arena_array(c->memory, (size_t)count + 1, sizeof *steps);
    scope_notes notes = {.count = 0}; /* two a member at most */
    notes.items = arena_array(c->memory, 2 * (size_t)c->model->member_count, sizeof *notes.items);
    if (steps == NULL || notes.items == NULL) {
        return KL_NO_MEMORY;
    }
    for (kl_index m = 0; count > 0 && m < c->model->member_count; m++) {
        const kl_material *material = concrete_of(c, m);
        if (material->kind != KL_CONCRETE || (time_law_of(material->creep) == TIME_LAW_NONE &&
                                              time_law_of(material->shrinkage) == TIME_LAW_NONE)) {
            continue;
        }
        for (kl_index s = 0; s < count; s++) {
            KL_TRY(find_compression(c, s, m, &steps[s]));
        }
        KL_TRY(check_scope(c, m, loading_age(steps, count), &notes));
        KL_TRY(check_stress(c, m, steps));
    }
    return tell_scope(c, &notes);
}

/* ---- relaxation ------------------------------------------------------------------------------------------- */

/* By the most stress it has once it is seated: below a law's least even that does not relax, by the law. */
static kl_status check_relaxation(const warn_context *c, kl_index tendon)
{
    const kl_tendon *item = &c->model->tendons[tendon];
    const relaxation_steel steel = relaxation_steel_of(&c->model->materials[item->material]);
    kl_stressing done;
    const kl_status status = kl_tendon_stressing(c->results, tendon, &done);
    if (steel.law == RELAXATION_NONE || status == KL_NOT_THERE) {
        return KL_OK;
    }
    KL_TRY(status);
    const double stress = done.largest_force / (item->units * item->unit_area);
    const time_scope scope = relaxation_outside(&steel, stress);
    for (int i = 0; i < scope.count; i++) {
        const char *most = text_value(c->memory, &c->model->display, KL_MEASURE_STRESS, stress);
        if (most == NULL) {
            return KL_NO_MEMORY;
        }
        kl_diags_add(c->diags, KL_WARNING, "relaxation-out-of-scope", item->origin,
                     "%s has %s at most when it is seated, outside the scope of its law of "
                     "relaxation: %s. The law: %s.",
                     item->name, most, scope.outside[i], relaxation_source(steel.law));
    }
    return KL_OK;
}

kl_status warn_relaxation(const warn_context *c)
{
    for (kl_index t = 0; kl_step_count(c->results) > 0 && t < c->model->tendon_count; t++) {
        KL_TRY(check_relaxation(c, t));
    }
    return KL_OK;
}

/* ---- curves ----------------------------------------------------------------------------------------------- */

static bool is_used(const kl_model *model, kl_index material)
{
    for (kl_index m = 0; m < model->member_count; m++) {
        if (model->members[m].material == material) {
            return true;
        }
    }
    return false;
}

static void
check_curve(const warn_context *c, const kelvin_basis *basis, const kl_material *material)
{
    const creep_subject subject = {TIME_LAW_USER, {.material = material}};
    const creep_function function = creep_function_of(&subject);
    kelvin_chain chain;
    kelvin_chain_set(&chain, basis, &function);
    const double error = kelvin_fit_error(&chain, 28.0 * KL_DAY);
    if (error > WARN_CURVE_ERROR) {
        kl_diags_add(
            c->diags, KL_WARNING, "creep-curve-rough", material->creep_curve.origin,
            "The creep curve of %s is followed within %.2g %% of the strain only: concrete "
            "creeps ever more slowly after loading, and so does what the analysis fits.",
            material->name, 100.0 * error);
        kl_diags_hint(c->diags, "give more points, the first of them soon after loading");
    }
}

kl_status warn_creep_curves(const warn_context *c)
{
    kelvin_basis *basis = NULL;
    for (kl_index i = 0; i < c->model->material_count; i++) {
        const kl_material *material = &c->model->materials[i];
        if (material->creep != KL_LAW_USER || !is_used(c->model, i) ||
            kl_step_count(c->results) == 0) {
            continue;
        }
        if (basis == NULL) {
            basis = arena_array(c->memory, 1, sizeof *basis);
            if (basis == NULL) {
                return KL_NO_MEMORY;
            }
            kelvin_basis_fill(basis);
        }
        check_curve(c, basis, material);
    }
    return KL_OK;
}
