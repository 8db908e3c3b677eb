/* consistency_tendons.c - what tendons need of their steel and members, whether ram and duct fit, and a dead end that is none.
 * SPDX-License-Identifier: MIT */
#include <math.h>

#include "consistency.h"
#include "pi.h"

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

static void check_ram(consistency *c, const kl_tendon *tendon)
{
    const double pressure = kl_tendon_gauge(tendon, tendon->jack_force);
    if (!(pressure > USUAL_PUMP)) {
        return; /* also when no ram is given */
    }
    const build_number shown = build_show(c->model, KL_MEASURE_PRESSURE, pressure);
    const build_number usual = build_show(c->model, KL_MEASURE_PRESSURE, USUAL_PUMP);
    const build_number ram = build_show(c->model, KL_MEASURE_STEEL_AREA, tendon->ram_area);
    kl_diags_add(c->diags, KL_WARNING, "ram-small", tendon->origin,
                 "Stressing %s with a ram of %s takes a gauge pressure of %s; usual pumps end at "
                 "about %s.",
                 tendon->name, ram.text, shown.text, usual.text);
}

/* A strand tendon has at least twice its steel's area in its duct, 2.5 times where it is pulled through after the pour
 * (AASHTO LRFD 5.4.6.2, inside the duct; from memory); the `duct` of a model is the hole, which is larger still. A
 * single bar has a quarter of an inch more than its diameter (likewise). */
#define USUAL_DUCT_RATIO 2.0
#define USUAL_BAR_ROOM   6.35e-3 /* m */

static void check_duct(consistency *c, const kl_tendon *tendon)
{
    const double steel = tendon->units * tendon->unit_area;
    const double hole = 0.25 * PI * tendon->duct * tendon->duct;
    const bool one_bar = tendon->is_bar && tendon->units < 1.5;
    const double bar = sqrt(steel / (0.25 * PI));
    const double least =
        one_bar ? bar + USUAL_BAR_ROOM : sqrt(USUAL_DUCT_RATIO * steel / (0.25 * PI));
    if (!(tendon->duct > 0.0) || tendon->duct >= least) {
        return;
    }
    const build_number area = build_show(c->model, KL_MEASURE_STEEL_AREA, steel);
    const build_number room = build_show(c->model, KL_MEASURE_STEEL_AREA, hole);
    const build_number needed = build_show(c->model, KL_MEASURE_SIZE, least);
    kl_diags_add(c->diags, KL_WARNING, "duct-small", tendon->origin,
                 "The duct of tendon %s has an area of %s for %s of steel: %s.", tendon->name,
                 room.text, area.text,
                 hole < steel ? "the steel does not go in"
                 : one_bar    ? "usual is a quarter of an inch more than the bar across"
                              : "usual is twice the steel or more");
    kl_diags_hint(c->diags, "a duct of %s or more is usual (AASHTO LRFD 5.4.6.2, from memory)",
                  needed.text);
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
        check_duct(c, tendon);
        check_dead_end(c, tendon);
    }
    return KL_OK;
}
