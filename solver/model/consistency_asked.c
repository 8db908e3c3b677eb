/* consistency_asked.c - combinations, checks and expectations: whether what they ask can be answered.
 * SPDX-License-Identifier: MIT */
#include <math.h>
#include <stdio.h>

#include "consistency.h"
#include "material.h"

/* ---- which causes arise ------------------------------------------------------------------------------- */

static bool stage_does(const kl_model *model, kl_operation_kind kind)
{
    for (kl_index s = 0; s < model->stage_count; s++) {
        for (kl_index o = 0; o < model->stages[s].operation_count; o++) {
            if (model->stages[s].operations[o].kind == kind) {
                return true;
            }
        }
    }
    return false;
}

typedef struct arising_causes {
    bool creep, shrinkage, relaxation, losses;
} arising_causes;

static arising_causes find_causes(const kl_model *model)
{
    arising_causes arise = {.losses = stage_does(model, KL_OP_LOSE)};
    for (kl_index m = 0; m < model->material_count; m++) {
        const kl_material *material = &model->materials[m];
        arise.creep = arise.creep || material_creeps(material);
        arise.shrinkage = arise.shrinkage || material_shrinks(material);
        arise.relaxation = arise.relaxation || material_relaxes(material);
    }
    return arise;
}

static bool never_arises(kl_cause_kind kind, arising_causes arise)
{
    return (kind == KL_CAUSE_CREEP && !arise.creep) ||
           (kind == KL_CAUSE_SHRINKAGE && !arise.shrinkage) ||
           (kind == KL_CAUSE_RELAXATION && !arise.relaxation) ||
           (kind == KL_CAUSE_LOSSES && !arise.losses);
}

/* ---- combinations ------------------------------------------------------------------------------------- */

/* What a case weighs. */
typedef enum case_weight { WEIGHS_NOTHING, WEIGHS_SOME, WEIGHS_ALL } case_weight;

static case_weight weight_of(const kl_case *load_case)
{
    case_weight weight = WEIGHS_NOTHING;
    for (kl_index i = 0; i < load_case->load_count && weight != WEIGHS_ALL; i++) {
        if (load_case->loads[i].kind == KL_LOAD_WEIGHT) {
            weight = load_case->loads[i].member == KL_NONE ? WEIGHS_ALL : WEIGHS_SOME;
        }
    }
    return weight;
}

/* The cause weight, or a case that weighs all, beside anything else that weighs. */
static void
check_weight_twice(consistency *c, const kl_combination *combination, const case_weight *weights)
{
    int sources = 0;
    bool all = false;
    for (kl_index i = 0; i < combination->factor_count; i++) {
        const kl_factor *factor = &combination->factors[i];
        case_weight weight = WEIGHS_NOTHING;
        if (factor->cause.kind == KL_CAUSE_WEIGHT || factor->cause.kind == KL_CAUSE_ALL) {
            weight = WEIGHS_ALL;
        } else if (factor->cause.kind == KL_CAUSE_CASE) {
            weight = weights[factor->cause.load_case];
        }
        sources += weight == WEIGHS_NOTHING ? 0 : 1;
        all = all || weight == WEIGHS_ALL;
        if (weight != WEIGHS_NOTHING && sources > 1 && all) {
            kl_diags_add(c->diags, KL_WARNING, "weight-twice", factor->origin,
                         "Combination %s counts weight twice: %s brings it too.", combination->name,
                         kl_cause_name(c->model, factor->cause));
            return;
        }
    }
}

/* A combination that names causes of the construction one by one stands for the whole only with those that time brings. */
static void check_left_out(consistency *c, kl_index k, const kl_index *last, arising_causes arise)
{
    static const kl_cause_kind brought_by_time[] = {KL_CAUSE_CREEP, KL_CAUSE_SHRINKAGE,
                                                    KL_CAUSE_RELAXATION, KL_CAUSE_LOSSES};
    const kl_combination *combination = &c->model->combinations[k];
    const bool names_causes = last[KL_CAUSE_WEIGHT] == k + 1 || last[KL_CAUSE_PRESTRESS] == k + 1;
    if (!names_causes || last[KL_CAUSE_ALL] == k + 1 || c->model->stage_count == 0) {
        return;
    }
    for (size_t i = 0; i < sizeof brought_by_time / sizeof brought_by_time[0]; i++) {
        const kl_cause cause = {brought_by_time[i], KL_NONE};
        if (last[cause.kind] != k + 1 && !never_arises(cause.kind, arise)) {
            kl_diags_add(c->diags, KL_WARNING, "cause-left-out", combination->origin,
                         "Combination %s has no factor for %s, which the model brings about: its "
                         "share is left out.",
                         combination->name, kl_cause_name(c->model, cause));
            kl_diags_hint(
                c->diags,
                "write `factor 1 of %s`, or `factor 0 of %s` where it is meant to be left out",
                kl_cause_name(c->model, cause), kl_cause_name(c->model, cause));
        }
    }
}

/* `last` holds, by cause and behind them by case, the combination that named it last, plus one. */
static void check_combination(consistency *c, kl_index k, kl_index *last, arising_causes arise)
{
    const kl_combination *combination = &c->model->combinations[k];
    for (kl_index i = 0; i < combination->factor_count; i++) {
        const kl_factor *factor = &combination->factors[i];
        const char *cause = kl_cause_name(c->model, factor->cause);
        const kl_index slot = factor->cause.kind == KL_CAUSE_CASE
                                  ? KL_CAUSE_COUNT + factor->cause.load_case
                                  : (kl_index)factor->cause.kind;
        if (last[slot] == k + 1) {
            kl_diags_add(c->diags, KL_ERROR, "factor-twice", factor->origin,
                         "Combination %s names %s twice.", combination->name, cause);
        }
        last[slot] = k + 1;
        if (never_arises(factor->cause.kind, arise)) {
            kl_diags_add(
                c->diags, KL_WARNING, "cause-never-arises", factor->origin,
                "Combination %s has a factor for %s, which nothing in the model brings about.",
                combination->name, cause);
        }
    }
}

static kl_status check_combinations(consistency *c, arising_causes arise)
{
    const kl_model *model = c->model;
    const size_t slots = (size_t)KL_CAUSE_COUNT + (size_t)model->case_count;
    kl_index *last = arena_array(&c->memory, slots, sizeof *last);
    case_weight *weights = arena_array(&c->memory, (size_t)model->case_count, sizeof *weights);
    if (last == NULL || weights == NULL) {
        return KL_NO_MEMORY;
    }
    for (kl_index k = 0; k < model->case_count; k++) {
        weights[k] = weight_of(&model->cases[k]);
    }
    for (kl_index k = 0; k < model->combination_count; k++) {
        check_combination(c, k, last, arise);
        check_left_out(c, k, last, arise);
        check_weight_twice(c, &model->combinations[k], weights);
    }
    return KL_OK;
}

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
    const arising_causes arise = find_causes(model);
    unsigned char *told = arena_array(&c->memory, (size_t)model->section_count, sizeof *told);
    if (told == NULL) {
        return KL_NO_MEMORY;
    }
    KL_TRY(check_combinations(c, arise));
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
