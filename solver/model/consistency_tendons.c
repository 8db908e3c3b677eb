/* consistency_tendons.c - what tendons need of their steel and members, whether the ram fits, and a dead end that is none.
 * SPDX-License-Identifier: MIT */
#include <math.h>

#include "consistency.h"

/* Common stressing pumps end at 10,000 psi (some 700 bar): practice, from memory. */
#define USUAL_PUMP 68.95e6

static void check_steel(consistency *c, const kl_tendon *tendon, bool *told)
{
    const kl_material *steel = &c->model->materials[tendon->material];
    if (*told) {
        return;
    }
    if (steel->modulus_law != KL_LAW_VALUE || isnan(steel->modulus)) {
        kl_diags_add(c->diags, KL_ERROR, "no-modulus", steel->origin,
                     "%s has no `modulus`, which tendon %s needs.", steel->name, tendon->name);
        *told = true;
    }
    if (isnan(steel->ultimate)) {
        kl_diags_add(c->diags, KL_ERROR, "no-ultimate", steel->origin,
                     "%s has no `ultimate`, which tendon %s needs.", steel->name, tendon->name);
        *told = true;
    }
}

static void check_members(consistency *c, const kl_tendon *tendon)
{
    for (kl_index i = 0; i < tendon->member_count; i++) {
        const kl_member *member = &c->model->members[tendon->members[i]];
        if (member->axial_only) {
            kl_diags_add(c->diags, KL_ERROR, "tendon-in-axial-member", tendon->origin,
                         "Tendon %s runs in member %s, which is axial_only and cannot bend.",
                         tendon->name, member->name);
        }
    }
}

/* Gauge pressure = force at the jack / (ram (1 - jack friction)). */
static void check_ram(consistency *c, const kl_tendon *tendon)
{
    if (isnan(tendon->ram_area)) {
        return;
    }
    const double pressure = tendon->jack_force / (tendon->ram_area * (1.0 - tendon->jack_friction));
    if (!(pressure > USUAL_PUMP)) {
        return;
    }
    const build_number shown = build_show(c->model, KL_MEASURE_PRESSURE, pressure);
    const build_number usual = build_show(c->model, KL_MEASURE_PRESSURE, USUAL_PUMP);
    const build_number ram = build_show(c->model, KL_MEASURE_STEEL_AREA, tendon->ram_area);
    kl_diags_add(c->diags, KL_WARNING, "ram-small", tendon->origin,
                 "Stressing %s with a ram of %s takes a gauge pressure of %s; usual pumps end at "
                 "about %s.",
                 tendon->name, ram.text, shown.text, usual.text);
}

/* Pulled at one end, or one after the other, a tendon has a far anchor that draws in; pulled at both at once it has none. */
static void check_dead_end(consistency *c, const kl_tendon *tendon)
{
    if (!(tendon->dead_end > 0.0) || tendon->jack_ends != KL_JACK_BOTH) {
        return;
    }
    const build_number shown = build_show(c->model, KL_MEASURE_SIZE, tendon->dead_end);
    kl_diags_add(c->diags, KL_WARNING, "dead-end-idle", tendon->origin,
                 "Tendon %s gives a `dead_end` of %s and is pulled at both ends at once: no far "
                 "anchor draws in, and it changes nothing.",
                 tendon->name, shown.text);
    kl_diags_hint(c->diags, "leave it out, or pull one end after the other: `jack start then end`");
}

kl_status consistency_tendons(consistency *c)
{
    const kl_model *model = c->model;
    bool *told = arena_array(&c->memory, (size_t)model->material_count, sizeof *told);
    if (told == NULL) {
        return KL_NO_MEMORY;
    }
    for (kl_index t = 0; t < model->tendon_count; t++) {
        const kl_tendon *tendon = &model->tendons[t];
        check_steel(c, tendon, &told[tendon->material]);
        check_members(c, tendon);
        check_ram(c, tendon);
        check_dead_end(c, tendon);
    }
    return KL_OK;
}
