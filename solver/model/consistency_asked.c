/* consistency_asked.c - checks and expectations: whether what they ask can be answered.
 * SPDX-License-Identifier: MIT */
#include <math.h>
#include <stdio.h>

#include "consistency_causes.h"

/* ---- faces -------------------------------------------------------------------------------------------- */

/* By section, what has been told of it: one missing distance is one mistake, however many ask for it. */
enum { TOLD_TOP = 1, TOLD_BOTTOM = 2 };

/* A bare section must say how far its faces are. @return false where it does not; told when it is news. */
static bool check_faces(consistency *c,
                        unsigned char *told,
                        kl_origin origin,
                        const char *asker,
                        kl_index m,
                        kl_face face)
{
    const kl_model *model = c->model;
    const kl_member *member = &model->members[m];
    for (kl_index i = 0; i < member->section_count; i++) {
        const kl_index s = member->sections[i].section;
        const kl_section *section = &model->sections[s];
        const bool no_top = face != KL_FACE_BOTTOM && isnan(section->to_top);
        const bool no_bottom = face != KL_FACE_TOP && isnan(section->to_bottom);
        const unsigned missing = (no_top ? TOLD_TOP : 0u) | (no_bottom ? TOLD_BOTTOM : 0u);
        if (section->shape != KL_BARE || missing == 0) {
            continue;
        }
        if ((missing & ~(unsigned)told[s]) != 0) {
            kl_diags_add(c->diags, KL_ERROR, "no-faces", origin,
                         "%s asks for stresses of member %s, but section %s has no %s.", asker,
                         member->name, section->name,
                         !no_bottom ? "`to_top`"
                         : !no_top  ? "`to_bottom`"
                                    : "`to_top` and no `to_bottom`");
            told[s] = (unsigned char)(told[s] | missing);
        }
        return false;
    }
    return true;
}

/* ---- checks ------------------------------------------------------------------------------------------- */

/* What the rules take their limits from. @return false after telling that it is not there. */
static bool check_strength(consistency *c, const kl_check *check, kl_index m)
{
    const kl_member *member = &c->model->members[m];
    const kl_material *material = &c->model->materials[member->material];
    if (material->kind != KL_CONCRETE) {
        kl_diags_add(c->diags, KL_ERROR, "rules-for-concrete", check->origin,
                     "Check %s holds member %s against rules for concrete, but it is of %s.",
                     check->name, member->name, material->name);
        return false;
    }
    const bool transfer = check->condition == KL_AT_TRANSFER;
    if (isnan(transfer ? material->transfer_strength : material->strength)) {
        kl_diags_add(c->diags, KL_ERROR, transfer ? "no-transfer-strength" : "no-strength",
                     check->origin, "Check %s needs the `%s` of %s, the concrete of member %s.",
                     check->name, transfer ? "transfer_strength" : "strength", material->name,
                     member->name);
        return false;
    }
    return true;
}

static void check_check(consistency *c, unsigned char *told, const kl_check *check)
{
    const bool rules = check->rules != KL_RULES_NONE;
    char asker[160];
    (void)snprintf(asker, sizeof asker, "Check %s", check->name);
    for (kl_index i = 0; i < check->members.count; i++) {
        const kl_index m = check->members.items[i];
        const bool known = check_faces(c, told, check->origin, asker, m, check->face);
        if (!known || (rules && !check_strength(c, check, m))) {
            break; /* one member is enough of a sign */
        }
    }
    for (kl_index i = 0; i < check->tendons.count && rules; i++) {
        const kl_tendon *tendon = &c->model->tendons[check->tendons.items[i]];
        const kl_material *steel = &c->model->materials[tendon->material];
        if (isnan(steel->yield)) {
            kl_diags_add(c->diags, KL_ERROR, "no-yield", check->origin,
                         "Check %s needs the `yield` of %s, the steel of tendon %s.", check->name,
                         steel->name, tendon->name);
            break;
        }
    }
}

/* Service limits held against stresses that no long-term loss has touched. */
static void check_losses(consistency *c, arising_causes arise)
{
    const kl_model *model = c->model;
    if (model->tendon_count == 0 || arise.creep || arise.losses) {
        return;
    }
    for (kl_index k = 0; k < model->check_count; k++) {
        const kl_check *check = &model->checks[k];
        if (check->condition == KL_IN_SERVICE || check->condition == KL_SUSTAINED) {
            kl_diags_add(
                c->diags, KL_WARNING, "no-losses", check->origin,
                "Check %s is of service, but no long-term loss of prestress is in the model: "
                "it has neither a law for creep nor a `lose`.",
                check->name);
            return;
        }
    }
}

kl_status consistency_asked(consistency *c)
{
    const kl_model *model = c->model;
    const arising_causes arise = causes_arising(model);
    unsigned char *told = arena_array(&c->memory, (size_t)model->section_count, sizeof *told);
    if (told == NULL) {
        return KL_NO_MEMORY;
    }
    for (kl_index k = 0; k < model->check_count; k++) {
        check_check(c, told, &model->checks[k]);
    }
    check_losses(c, arise);
    for (kl_index k = 0; k < model->expectation_count; k++) {
        const kl_expectation *expectation = &model->expectations[k];
        const bool top = expectation->quantity == KL_STRESS_TOP;
        if ((top || expectation->quantity == KL_STRESS_BOTTOM) && expectation->member != KL_NONE) {
            (void)check_faces(c, told, expectation->origin, "This expectation", expectation->member,
                              top ? KL_FACE_TOP : KL_FACE_BOTTOM);
        }
    }
    return KL_OK;
}
