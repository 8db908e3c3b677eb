/* consistency_loads.c - load cases: what their loads need, and weight that counts twice or not at all.
 * SPDX-License-Identifier: MIT */
#include <math.h>

#include "consistency.h"
#include "section.h"

/* Parts of a direction smaller than this are rounding. */
#define NO_PART 1e-9

/* ---- movements of supports ---------------------------------------------------------------------------- */

static bool holds_along(const kl_support *support, double dx, double dy)
{
    const double along = dx * cos(support->slope) + dy * sin(support->slope);
    const double across = dy * cos(support->slope) - dx * sin(support->slope);
    return (fabs(along) <= NO_PART || support->hold[KL_X].kind != KL_FREE) &&
           (fabs(across) <= NO_PART || support->hold[KL_Y].kind != KL_FREE);
}

static void check_movement(consistency *c, const kl_load *load)
{
    const kl_model *model = c->model;
    for (kl_index s = c->support_first[load->node]; s != KL_NONE; s = c->support_next[s]) {
        const kl_support *support = &model->supports[s];
        const bool held = load->kind == KL_LOAD_TURN ? support->hold[KL_TURN].kind != KL_FREE
                                                     : holds_along(support, load->dx, load->dy);
        if (held) {
            return;
        }
    }
    const char *node = model->nodes[load->node].name;
    if (load->kind == KL_LOAD_TURN) {
        kl_diags_add(c->diags, KL_ERROR, "movement-not-held", load->origin,
                     "No support of node %s holds its turning, so none can turn it.", node);
    } else {
        kl_diags_add(c->diags, KL_ERROR, "movement-not-held", load->origin,
                     "No support of node %s holds it in the direction of the settlement.", node);
    }
}

/* ---- nodes -------------------------------------------------------------------------------------------- */

/* A load at a node that no member meets acts on nothing, unless a bearing and a support hold the node. */
static void check_loaded_node(consistency *c, const kl_load *load)
{
    const kl_model *model = c->model;
    bool there = consistency_has_member(c, load->node);
    for (kl_index b = 0; b < model->bearing_count && !there; b++) {
        there = c->support_first[load->node] != KL_NONE &&
                (model->bearings[b].node == load->node || model->bearings[b].base == load->node);
    }
    if (!there) {
        kl_diags_add(c->diags, KL_ERROR, "load-on-nothing", load->origin,
                     "The load acts at node %s, which no member meets.",
                     model->nodes[load->node].name);
    }
}

/* ---- temperature -------------------------------------------------------------------------------------- */

static bool is_temperature(kl_load_kind kind)
{
    return kind == KL_LOAD_TEMPERATURE || kind == KL_LOAD_GRADIENT || kind == KL_LOAD_PROFILE;
}

/* `told`, by material: that it has no expansion. */
static void check_temperature(consistency *c, const kl_load *load, bool *told)
{
    const kl_model *model = c->model;
    const kl_member *member = &model->members[load->member];
    const kl_material *material = &model->materials[member->material];
    if (isnan(material->expansion) && !told[member->material]) {
        told[member->material] = true;
        kl_diags_add(c->diags, KL_ERROR, "no-expansion", load->origin,
                     "Temperature acts on member %s, whose material %s has no `expansion`.",
                     member->name, material->name);
    }
    if (load->kind == KL_LOAD_TEMPERATURE || member->axial_only) {
        return;
    }
    for (kl_index i = 0; i < member->section_count; i++) {
        const kl_section *section = &model->sections[member->sections[i].section];
        if (section->shape == KL_BARE && isnan(section->to_top + section->to_bottom)) {
            kl_diags_add(c->diags, KL_ERROR, "no-depth", load->origin,
                         "A gradient on member %s needs the depth of section %s: give its `to_top` "
                         "and `to_bottom`.",
                         member->name, section->name);
            return;
        }
    }
}

/* ---- tendons ------------------------------------------------------------------------------------------ */

/* A tendon has one force: stressed twice within a case it would act twice. */
static kl_status check_stressed_twice(consistency *c)
{
    const kl_model *model = c->model;
    /* case + 1 that has stressed each tendon last */
    kl_index *stressed = arena_array(&c->memory, (size_t)model->tendon_count, sizeof *stressed);
    if (stressed == NULL) {
        return KL_NO_MEMORY;
    }
    for (kl_index k = 0; k < model->case_count; k++) {
        for (kl_index i = 0; i < model->cases[k].load_count; i++) {
            const kl_load *load = &model->cases[k].loads[i];
            if (load->kind != KL_LOAD_TENDON) {
                continue;
            }
            if (stressed[load->tendon] == k + 1) {
                kl_diags_add(c->diags, KL_ERROR, "stressed-twice", load->origin,
                             "Case %s stresses tendon %s twice.", model->cases[k].name,
                             model->tendons[load->tendon].name);
                kl_diags_hint(c->diags, "for like tendons side by side write `count`");
            }
            stressed[load->tendon] = k + 1;
        }
    }
    return KL_OK;
}

/* ---- weight ------------------------------------------------------------------------------------------- */

/* Within one case: all members and one of them, or one of them twice. `weighed` holds case + 1 by member. */
static void check_weight_twice(consistency *c, kl_index k, kl_index *weighed)
{
    const kl_case *load_case = &c->model->cases[k];
    kl_index all = 0;
    for (kl_index i = 0; i < load_case->load_count; i++) {
        const kl_load *load = &load_case->loads[i];
        all += load->kind == KL_LOAD_WEIGHT && load->member == KL_NONE ? 1 : 0;
    }
    kl_index whole = 0;
    for (kl_index i = 0; i < load_case->load_count; i++) {
        const kl_load *load = &load_case->loads[i];
        if (load->kind != KL_LOAD_WEIGHT) {
            continue;
        }
        bool twice = false;
        if (load->member == KL_NONE) {
            whole++;
            twice = whole > 1;
        } else {
            twice = all > 0 || weighed[load->member] == k + 1;
            weighed[load->member] = k + 1;
        }
        if (twice) {
            kl_diags_add(c->diags, KL_WARNING, "weight-twice", load->origin,
                         load->member == KL_NONE ? "Case %s has the weight of all members twice.%s"
                                                 : "Case %s has the weight of member %s twice.",
                         load_case->name,
                         load->member == KL_NONE ? "" : c->model->members[load->member].name);
        }
    }
}

/* Case k and perhaps others weigh some members; who is left out? */
static void check_weight_left_out(consistency *c, kl_index k, const kl_index *weighed)
{
    const kl_model *model = c->model;
    const kl_case *load_case = &model->cases[k];
    consistency_tally tally = {0};
    for (kl_index m = 0; m < model->member_count; m++) {
        if (weighed[m] != 0 || model->members[m].weightless || !consistency_tell(&tally)) {
            continue;
        }
        kl_diags_add(c->diags, KL_WARNING, "no-weight", model->members[m].origin,
                     "Member %s has no weight: %s weighs others, and no case weighs it.",
                     model->members[m].name, load_case->name);
    }
    consistency_tell_rest(c, tally, KL_WARNING, "no-weight");
}

static kl_status check_weights(consistency *c)
{
    const kl_model *model = c->model;
    kl_index *weighed = arena_array(&c->memory, (size_t)model->member_count, sizeof *weighed);
    if (weighed == NULL) {
        return KL_NO_MEMORY;
    }
    kl_index last = KL_NONE; /* the last case that weighs single members */
    bool all = false;        /* some case weighs the whole model */
    for (kl_index k = 0; k < model->case_count; k++) {
        check_weight_twice(c, k, weighed);
        for (kl_index i = 0; i < model->cases[k].load_count; i++) {
            const kl_load *load = &model->cases[k].loads[i];
            if (load->kind == KL_LOAD_WEIGHT) {
                last = k;
                all = all || load->member == KL_NONE;
            }
        }
    }
    if (last != KL_NONE && !all && !c->staged) {
        check_weight_left_out(c, last, weighed);
    }
    return KL_OK;
}

kl_status consistency_loads(consistency *c)
{
    const kl_model *model = c->model;
    bool *told = arena_array(&c->memory, (size_t)model->material_count, sizeof *told);
    if (told == NULL) {
        return KL_NO_MEMORY;
    }
    for (kl_index k = 0; k < model->case_count; k++) {
        for (kl_index i = 0; i < model->cases[k].load_count; i++) {
            const kl_load *load = &model->cases[k].loads[i];
            if (load->node != KL_NONE) {
                check_loaded_node(c, load);
            }
            if (load->kind == KL_LOAD_SETTLE || load->kind == KL_LOAD_TURN) {
                check_movement(c, load);
            } else if (is_temperature(load->kind)) {
                check_temperature(c, load, told);
            }
        }
    }
    KL_TRY(check_stressed_twice(c));
    return check_weights(c);
}
