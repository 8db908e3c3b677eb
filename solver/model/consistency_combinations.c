/* consistency_combinations.c - combinations: whether each names what there is, all of it and once.
 * SPDX-License-Identifier: MIT */
#include "consistency_causes.h"
#include "material.h"
#include "near.h"

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

arising_causes causes_arising(const kl_model *model)
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

/* ---- what the stages leave ---------------------------------------------------------------------------- */

typedef struct final_state {
    bool *on;            /* by case: loaded and not taken off */
    kl_index *taken_off; /* by case: the stage that unloaded it for good, or KL_NONE */
    bool *stands;        /* by member */
    bool *stressed;      /* by tendon */
    bool arises
        [KL_CAUSE_COUNT]; /* by cause, but for cases, temperatures and movements, which cases bring */
} final_state;

static void follow(const kl_operation *operation, kl_index stage, final_state *final)
{
    const kl_operation_kind kind = operation->kind;
    for (kl_index i = 0; i < operation->items.count; i++) {
        const kl_index item = operation->items.items[i];
        if (kind == KL_OP_CAST || kind == KL_OP_PLACE || kind == KL_OP_REMOVE) {
            final->stands[item] = kind != KL_OP_REMOVE;
        } else if (kind == KL_OP_STRESS || kind == KL_OP_SLACKEN) {
            final->stressed[item] = kind == KL_OP_STRESS;
        } else if (kind == KL_OP_LOAD || kind == KL_OP_UNLOAD) {
            final->on[item] = kind == KL_OP_LOAD;
            final->taken_off[item] = kind == KL_OP_LOAD ? KL_NONE : stage;
        }
    }
}

static kl_status find_final(consistency *c, final_state *final)
{
    const kl_model *model = c->model;
    const arising_causes arise = causes_arising(model);
    *final = (final_state){
        .on = arena_array(&c->memory, (size_t)model->case_count, sizeof(bool)),
        .taken_off = arena_array(&c->memory, (size_t)model->case_count, sizeof(kl_index)),
        .stands = arena_array(&c->memory, (size_t)model->member_count, sizeof(bool)),
        .stressed = arena_array(&c->memory, (size_t)model->tendon_count, sizeof(bool)),
        .arises = {[KL_CAUSE_CREEP] = arise.creep,
                   [KL_CAUSE_SHRINKAGE] = arise.shrinkage,
                   [KL_CAUSE_RELAXATION] = arise.relaxation,
                   [KL_CAUSE_LOSSES] = arise.losses}};
    if (!final->on || !final->taken_off || !final->stands || !final->stressed) {
        return KL_NO_MEMORY;
    }
    for (kl_index k = 0; k < model->case_count; k++) {
        final->taken_off[k] = KL_NONE;
    }
    for (kl_index s = 0; s < model->stage_count; s++) {
        for (kl_index o = 0; o < model->stages[s].operation_count; o++) {
            follow(&model->stages[s].operations[o], s, final);
        }
    }
    for (kl_index m = 0; m < model->member_count; m++) {
        if (final->stands[m] && !model->members[m].weightless) {
            final->arises[KL_CAUSE_WEIGHT] = true;
        }
    }
    for (kl_index t = 0; t < model->tendon_count; t++) {
        if (final->stressed[t]) {
            final->arises[KL_CAUSE_PRESTRESS] = true;
        }
    }
    return KL_OK;
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

/* Is a case brought by the causes that a combination names, one by one? A case brings all of its own. */
static bool brings_case(const kl_model *model, kl_index load_case, const kl_index *last, kl_index k)
{
    const kl_case *item = &model->cases[load_case];
    bool whole = true;
    for (kl_index i = 0; i < item->load_count; i++) {
        const kl_load_kind kind = item->loads[i].kind;
        const bool moves = kind == KL_LOAD_SETTLE || kind == KL_LOAD_TURN;
        const bool warms =
            kind == KL_LOAD_TEMPERATURE || kind == KL_LOAD_GRADIENT || kind == KL_LOAD_PROFILE;
        whole = whole && ((moves && last[KL_CAUSE_MOVEMENT] == k + 1) ||
                          (warms && last[KL_CAUSE_TEMPERATURE] == k + 1));
    }
    return whole || last[KL_CAUSE_COUNT + load_case] == k + 1;
}

static void tell_left_out(consistency *c, const kl_combination *combination, kl_cause cause)
{
    const char *name = kl_cause_name(c->model, cause);
    kl_diags_add(c->diags, KL_WARNING, "cause-left-out", combination->origin,
                 "Combination %s has no factor for %s, which %s: its share is left out.",
                 combination->name, name,
                 cause.kind == KL_CAUSE_CASE ? "is on the structure after the last stage"
                                             : "the model brings about");
    kl_diags_hint(c->diags,
                  "write `factor 1 of %s`, or `factor 0 of %s` where it is meant to be left out",
                  name, name);
}

/* A combination that names causes of the construction one by one stands for the whole only with all of them. */
static void
check_left_out(consistency *c, kl_index k, const kl_index *last, const final_state *final)
{
    const kl_model *model = c->model;
    const kl_combination *combination = &model->combinations[k];
    const bool names_causes = last[KL_CAUSE_WEIGHT] == k + 1 || last[KL_CAUSE_PRESTRESS] == k + 1;
    if (!names_causes || last[KL_CAUSE_ALL] == k + 1 || !c->staged) {
        return;
    }
    for (kl_cause_kind kind = KL_CAUSE_WEIGHT; kind < KL_CAUSE_COUNT; kind++) {
        if (final->arises[kind] && last[kind] != k + 1) {
            tell_left_out(c, combination, (kl_cause){kind, KL_NONE});
        }
    }
    consistency_tally tally = {0};
    for (kl_index i = 0; i < model->case_count; i++) {
        if (final->on[i] && !brings_case(model, i, last, k) && consistency_tell(&tally)) {
            tell_left_out(c, combination, (kl_cause){KL_CAUSE_CASE, i});
        }
    }
    consistency_tell_rest(c, tally, KL_WARNING, "cause-left-out");
}

/* A combination sums what is there after the last stage; a case that was taken off by then counts nothing. */
static void
check_taken_off(consistency *c, const kl_combination *combination, const final_state *final)
{
    const kl_model *model = c->model;
    for (kl_index i = 0; i < combination->factor_count; i++) {
        const kl_factor *factor = &combination->factors[i];
        const kl_index k = factor->cause.load_case;
        if (factor->cause.kind != KL_CAUSE_CASE || final->taken_off[k] == KL_NONE ||
            is_exact_zero(factor->factor)) {
            continue;
        }
        kl_diags_add(c->diags, KL_ERROR, "factor-taken-off", factor->origin,
                     "Combination %s factors %s, which stage %s unloads: after the last stage, "
                     "which a combination is of, it is not on the structure.",
                     combination->name, model->cases[k].name,
                     model->stages[final->taken_off[k]].name);
        kl_diags_hint(c->diags, "factor a case with the same loads that no stage loads: it is "
                                "solved on the finished structure");
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

kl_status consistency_combinations(consistency *c)
{
    const kl_model *model = c->model;
    const arising_causes arise = causes_arising(model);
    const size_t slots = (size_t)KL_CAUSE_COUNT + (size_t)model->case_count;
    kl_index *last = arena_array(&c->memory, slots, sizeof *last);
    case_weight *weights = arena_array(&c->memory, (size_t)model->case_count, sizeof *weights);
    if (last == NULL || weights == NULL) {
        return KL_NO_MEMORY;
    }
    final_state final;
    KL_TRY(find_final(c, &final));
    for (kl_index k = 0; k < model->case_count; k++) {
        weights[k] = weight_of(&model->cases[k]);
    }
    for (kl_index k = 0; k < model->combination_count; k++) {
        check_combination(c, k, last, arise);
        check_left_out(c, k, last, &final);
        check_taken_off(c, &model->combinations[k], &final);
        check_weight_twice(c, &model->combinations[k], weights);
    }
    return KL_OK;
}

/* ---- what can lift ------------------------------------------------------------------------------------ */

static bool only_pushes(kl_hold_kind kind)
{
    return kind == KL_PUSH_PLUS || kind == KL_PUSH_MINUS;
}

void consistency_contacts(consistency *c, const unsigned char *supports, bool rows)
{
    const kl_model *model = c->model;
    bool lifts = rows;
    for (kl_index s = 0; s < model->support_count; s++) {
        for (int d = 0; d < 3; d++) {
            const bool held =
                supports == NULL ? !model->supports[s].added_later : (supports[s] & 1 << d) != 0;
            lifts = lifts || (held && only_pushes(model->supports[s].hold[d].kind));
        }
    }
    for (kl_index b = 0; b < model->bearing_count; b++) {
        for (int d = 0; d < 3; d++) {
            lifts = lifts || only_pushes(model->bearings[b].hold[d].kind);
        }
    }
    if (!lifts || model->combination_count == 0) {
        return;
    }
    const kl_combination *first = &model->combinations[0];
    kl_diags_add(c->diags, KL_ERROR, "combination-with-contact", first->origin,
                 "Combination %s factors causes, but posts, bearings or supports that only push "
                 "are still there: sums of factored causes would not see them lift.",
                 first->name);
    kl_diags_hint(c->diags, "load the factored case in a stage of its own: `load live times 1.4`");
}
