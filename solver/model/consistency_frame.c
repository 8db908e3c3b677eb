/* consistency_frame.c - what members need of their materials and sections; supports and bearings that contradict.
 * SPDX-License-Identifier: MIT */
#include <math.h>
#include <stdio.h>

#include "consistency.h"
#include "material.h"
#include "near.h"
#include "section.h"

/* What is told once of each material or section, by bits. */
enum {
    TOLD_MODULUS = 1,
    TOLD_STRENGTH = 2,
    TOLD_DENSITY = 4,
    TOLD_WEIGHT = 8,
    TOLD_SHEAR = 16,
    TOLD_INERTIA = 32,
    TOLD_AREA = 64,
    TOLD_NO_WEIGHT = 128
};

typedef struct frame_notes {
    unsigned char *materials, *sections; /* bits told */
    bool *weighs;                        /* by member: something asks for its weight */
} frame_notes;

/* First time for this thing? */
static bool first_time(unsigned char *told, int bit)
{
    if ((*told & bit) != 0) {
        return false;
    }
    *told = (unsigned char)(*told | bit);
    return true;
}

/* ---- who weighs --------------------------------------------------------------------------------------- */

static void weigh_staged(const kl_model *model, bool *weighs)
{
    for (kl_index s = 0; s < model->stage_count; s++) {
        const kl_stage *stage = &model->stages[s];
        for (kl_index o = 0; o < stage->operation_count; o++) {
            const kl_operation *operation = &stage->operations[o];
            if (operation->kind != KL_OP_CAST && operation->kind != KL_OP_PLACE) {
                continue;
            }
            for (kl_index i = 0; i < operation->items.count; i++) {
                weighs[operation->items.items[i]] = true;
            }
        }
    }
}

static void weigh_case(const kl_model *model, const kl_case *load_case, bool *weighs)
{
    for (kl_index i = 0; i < load_case->load_count; i++) {
        const kl_load *load = &load_case->loads[i];
        if (load->kind != KL_LOAD_WEIGHT) {
            continue;
        }
        if (load->member != KL_NONE) {
            weighs[load->member] = true;
            continue;
        }
        for (kl_index m = 0; m < model->member_count; m++) {
            weighs[m] = true;
        }
    }
}

/* Weight of the whole model in one case settles it: the loop over cases ends there. */
static bool weighs_all(const kl_case *load_case)
{
    for (kl_index i = 0; i < load_case->load_count; i++) {
        if (load_case->loads[i].kind == KL_LOAD_WEIGHT && load_case->loads[i].member == KL_NONE) {
            return true;
        }
    }
    return false;
}

static void find_weights(const kl_model *model, bool *weighs)
{
    weigh_staged(model, weighs);
    for (kl_index k = 0; k < model->case_count; k++) {
        weigh_case(model, &model->cases[k], weighs);
        if (weighs_all(&model->cases[k])) {
            break;
        }
    }
    for (kl_index m = 0; m < model->member_count; m++) {
        weighs[m] = weighs[m] && !model->members[m].weightless;
    }
}

/* ---- materials ---------------------------------------------------------------------------------------- */

static void need(consistency *c,
                 const kl_material *material,
                 const char *name,
                 const char *what,
                 const char *user)
{
    kl_diags_add(c->diags, KL_ERROR, name, material->origin, "%s has no `%s`, which %s needs.",
                 material->name, what, user);
}

static void
check_modulus(consistency *c, const kl_material *material, unsigned char *told, const char *user)
{
    const kl_law law = material->modulus_law;
    if (law == KL_LAW_UNSET || (law == KL_LAW_VALUE && isnan(material->modulus))) {
        if (first_time(told, TOLD_MODULUS)) {
            need(c, material, "no-modulus", "modulus", user);
        }
        return;
    }
    if (law != KL_LAW_VALUE && isnan(material->strength) && first_time(told, TOLD_STRENGTH)) {
        need(c, material, "no-strength", "strength", "its law for the modulus");
    }
    if ((law == KL_LAW_AASHTO_2020 || law == KL_LAW_ACI_2019) && !(material->unit_weight > 0.0) &&
        first_time(told, TOLD_DENSITY)) {
        need(c, material, "no-unit-weight", "unit_weight", "its law for the modulus");
    }
}

static void check_weight(consistency *c, kl_index m, unsigned char *told)
{
    const kl_member *member = &c->model->members[m];
    const kl_material *material = &c->model->materials[member->material];
    if (isnan(material->unit_weight) && (*told & TOLD_DENSITY) == 0 &&
        first_time(told, TOLD_WEIGHT)) {
        kl_diags_add(c->diags, KL_ERROR, "no-unit-weight", material->origin,
                     "%s has no `unit_weight`, which member %s needs: it weighs.", material->name,
                     member->name);
        kl_diags_hint(c->diags, "write `weightless` in the member if it should not weigh");
    }
    if (is_exact_zero(material->unit_weight) && first_time(told, TOLD_NO_WEIGHT)) {
        kl_diags_add(c->diags, KL_WARNING, "no-weight", material->origin,
                     "Member %s has no weight: the unit weight of %s is zero.", member->name,
                     material->name);
    }
}

/* ---- sections ----------------------------------------------------------------------------------------- */

static void section_need(consistency *c,
                         const kl_section *section,
                         const kl_member *member,
                         const char *name,
                         const char *text)
{
    kl_diags_add(c->diags, KL_ERROR, name, section->origin, "Section %s %s, which member %s needs.",
                 section->name, text, member->name);
}

static void check_shear(consistency *c, const kl_member *member, kl_index s, frame_notes *notes)
{
    const kl_section *section = &c->model->sections[s];
    const kl_material *material = &c->model->materials[member->material];
    section_value value;
    section_evaluate(section, section, 0.0, &value);
    if (isnan(value.shear_area) && first_time(&notes->sections[s], TOLD_AREA)) {
        section_need(c, section, member, "no-shear-area",
                     "is `shear flexible` and has no shear area of its own kind");
        kl_diags_hint(c->diags, "give its `shear_area`");
    }
    if (material->kind != KL_CONCRETE && isnan(material->shear_modulus) &&
        first_time(&notes->materials[member->material], TOLD_SHEAR)) {
        need(c, material, "no-shear-modulus", "shear_modulus", "a shear flexible section");
    }
}

static void check_sections(consistency *c, const kl_member *member, frame_notes *notes)
{
    for (kl_index i = 0; i < member->section_count; i++) {
        const kl_index s = member->sections[i].section;
        const kl_section *section = &c->model->sections[s];
        if (member->axial_only) {
            continue; /* its area is all that counts */
        }
        if (section->shape == KL_BARE && isnan(section->inertia) &&
            first_time(&notes->sections[s], TOLD_INERTIA)) {
            section_need(c, section, member, "no-inertia", "has no `inertia`");
        }
        if (section->shear_flexible) {
            check_shear(c, member, s, notes);
        }
    }
}

static void check_member(consistency *c, kl_index m, frame_notes *notes)
{
    const kl_member *member = &c->model->members[m];
    unsigned char *told = &notes->materials[member->material];
    const kl_material *material = &c->model->materials[member->material];
    if ((*told & TOLD_MODULUS) == 0) {
        char user[160];
        (void)snprintf(user, sizeof user, "member %s", member->name);
        check_modulus(c, material, told, user);
    }
    check_sections(c, member, notes);
    if (notes->weighs[m]) {
        check_weight(c, m, told);
    }
}

static void check_stringers(consistency *c, frame_notes *notes)
{
    const kl_model *model = c->model;
    for (kl_index f = 0; f < model->falsework_count; f++) {
        const kl_falsework *falsework = &model->falsework[f];
        if (falsework->stringer_section == KL_NONE || falsework->stringer_material == KL_NONE) {
            continue;
        }
        char user[160];
        (void)snprintf(user, sizeof user, "the stringer of %s", falsework->name);
        check_modulus(c, &model->materials[falsework->stringer_material],
                      &notes->materials[falsework->stringer_material], user);
        const kl_section *section = &model->sections[falsework->stringer_section];
        if (section->shape == KL_BARE && isnan(section->inertia) &&
            first_time(&notes->sections[falsework->stringer_section], TOLD_INERTIA)) {
            kl_diags_add(c->diags, KL_ERROR, "no-inertia", section->origin,
                         "Section %s has no `inertia`, which the stringer of %s needs.",
                         section->name, falsework->name);
        }
    }
}

/* ---- supports and bearings ---------------------------------------------------------------------------- */

static const char *direction_name(int direction)
{
    static const char *const names[3] = {"x", "y", "turn"};
    return names[direction];
}

static bool same_hold(kl_hold a, kl_hold b)
{
    return a.kind == b.kind &&
           (a.kind != KL_SPRING || near_equal(a.stiffness, b.stiffness, 1e-12, 0.0));
}

/* Two supports that both stand from the start at one node. */
static void compare_supports(consistency *c, const kl_support *first, const kl_support *second)
{
    const char *node = c->model->nodes[second->node].name;
    int twice = -1;
    for (int d = 0; d < 3; d++) {
        if (first->hold[d].kind == KL_FREE || second->hold[d].kind == KL_FREE) {
            continue;
        }
        twice = d;
        if (!same_hold(first->hold[d], second->hold[d])) {
            kl_diags_add(c->diags, KL_ERROR, "supports-contradict", second->origin,
                         "Two supports hold node %s in %s in different ways.", node,
                         direction_name(d));
            return;
        }
    }
    if (twice >= 0) {
        kl_diags_add(c->diags, KL_ERROR, "support-twice", second->origin,
                     "Node %s is held in %s by two supports.", node, direction_name(twice));
    }
}

/* The unknowns of a node turn with its support once and for all: also supports of different times must agree. */
static bool check_slopes(consistency *c, kl_index s)
{
    const kl_model *model = c->model;
    const kl_support *support = &model->supports[s];
    const kl_support *first = &model->supports[c->support_first[support->node]];
    if (near_equal(first->slope, support->slope, 1e-12, 1e-12)) {
        return true;
    }
    kl_diags_add(c->diags, KL_ERROR, "slopes-disagree", support->origin,
                 "Node %s has two supports with different slopes.",
                 model->nodes[support->node].name);
    kl_diags_hint(c->diags,
                  "a node has one slope, also when one support takes the other's place; give them "
                  "nodes of their own");
    return false;
}

static void check_slope_at_bearing(consistency *c, const kl_bearing *bearing)
{
    const kl_index ends[2] = {bearing->node, bearing->base};
    for (int i = 0; i < 2; i++) {
        const kl_index s = c->support_first[ends[i]];
        if (s != KL_NONE && !is_exact_zero(c->model->supports[s].slope)) {
            kl_diags_add(c->diags, KL_ERROR, "slope-at-bearing", bearing->origin,
                         "The bearing is at node %s, which has an inclined support.",
                         c->model->nodes[ends[i]].name);
            kl_diags_hint(c->diags, "bearings act level and upright; put a short member between");
            return;
        }
    }
}

static kl_status check_supports(consistency *c)
{
    const kl_model *model = c->model;
    kl_index *last = arena_array(&c->memory, (size_t)model->node_count, sizeof *last);
    if (last == NULL) {
        return KL_NO_MEMORY;
    }
    for (kl_index s = 0; s < model->support_count; s++) {
        const kl_support *support = &model->supports[s];
        if (!check_slopes(c, s) || support->added_later) {
            continue;
        }
        if (last[support->node] > 0) { /* index + 1 */
            compare_supports(c, &model->supports[last[support->node] - 1], support);
        }
        last[support->node] = s + 1;
    }
    return KL_OK;
}

/* Every node rests on one bearing at most, and following bearings down ends somewhere. */
static kl_status check_bearings(consistency *c)
{
    const kl_model *model = c->model;
    kl_index *walk = arena_array(&c->memory, (size_t)model->node_count, sizeof *walk);
    if (walk == NULL) {
        return KL_NO_MEMORY;
    }
    for (kl_index b = 0; b < model->bearing_count; b++) {
        const kl_bearing *bearing = &model->bearings[b];
        check_slope_at_bearing(c, bearing);
        if (c->bearing_of[bearing->node] != b) {
            kl_diags_add(c->diags, KL_ERROR, "bearing-twice", bearing->origin,
                         "Node %s rests on two bearings.", model->nodes[bearing->node].name);
            kl_diags_hint(c->diags, "name the node in the middle as the base of both");
            continue;
        }
        kl_index node = bearing->node;
        while (node != KL_NONE && walk[node] == 0) {
            walk[node] = b + 1;
            node = c->bearing_of[node] == KL_NONE ? KL_NONE
                                                  : model->bearings[c->bearing_of[node]].base;
        }
        if (node != KL_NONE && walk[node] == b + 1) {
            kl_diags_add(c->diags, KL_ERROR, "bearing-circle", bearing->origin,
                         "The bearings around node %s rest on one another in a circle.",
                         model->nodes[node].name);
        }
    }
    return KL_OK;
}

kl_status consistency_frame(consistency *c)
{
    const kl_model *model = c->model;
    frame_notes notes;
    notes.materials = arena_array(&c->memory, (size_t)model->material_count, 1);
    notes.sections = arena_array(&c->memory, (size_t)model->section_count, 1);
    notes.weighs = arena_array(&c->memory, (size_t)model->member_count, sizeof(bool));
    if (notes.materials == NULL || notes.sections == NULL || notes.weighs == NULL) {
        return KL_NO_MEMORY;
    }
    find_weights(model, notes.weighs);
    for (kl_index m = 0; m < model->member_count; m++) {
        check_member(c, m, &notes);
    }
    check_stringers(c, &notes);
    KL_TRY(check_supports(c));
    return check_bearings(c);
}
