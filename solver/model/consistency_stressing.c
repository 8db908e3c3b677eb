/* consistency_stressing.c - the tendons of a staged model: stressed on concrete that stands and is strong enough,
 * grouted after that and not long after.
 * SPDX-License-Identifier: MIT */
#include <math.h>

#include "consistency_replay.h"
#include "material.h"

/* Bare strand in a duct begins to be at risk: practice allows some weeks, less in damp air. From memory. */
#define LONG_UNGROUTED (28.0 * KL_DAY)

static const char *tendon_name(const replay *r, kl_index t)
{
    return r->c->model->tendons[t].name;
}

/* Strength at the age of the day against the strength that stressing asks for. */
static void check_strength(replay *r, kl_index t, kl_index m)
{
    const kl_model *model = r->c->model;
    const kl_member *member = &model->members[m];
    const kl_material *concrete = &model->materials[member->material];
    replay_member *state = &r->members[m];
    const bool ages = concrete->kind == KL_CONCRETE && !isnan(concrete->strength) &&
                      !isnan(concrete->transfer_strength);
    if (!ages || !r->at->has_time || state->told_young) {
        return;
    }
    const double age = r->at->time - state->born;
    const double strength = material_strength(concrete, age);
    /* a ten-thousandth below is rounding of an age that was chosen to fit */
    if (!(strength < 0.9999 * concrete->transfer_strength)) {
        return;
    }
    state->told_young = true;
    const build_number shown = build_show(model, KL_MEASURE_STRESS, strength);
    const build_number needed = build_show(model, KL_MEASURE_STRESS, concrete->transfer_strength);
    const build_number days = build_show(model, KL_MEASURE_TIME, age);
    REPLAY_SAY(r, KL_WARNING, "stressed-young",
               "Stage %s stresses tendon %s when member %s is at an age of %s and has %s by %s; "
               "its transfer "
               "strength is %s.",
               r->at->name, tendon_name(r, t), member->name, days.text, shown.text,
               material_gain_source(concrete), needed.text);
    const double enough = material_age_of_strength(concrete, concrete->transfer_strength);
    if (isfinite(enough)) {
        const build_number then = build_show(model, KL_MEASURE_TIME, enough);
        kl_diags_hint(r->c->diags, "it has that strength at an age of %s", then.text);
    }
}

static void stress(replay *r, kl_index t)
{
    const kl_tendon *tendon = &r->c->model->tendons[t];
    replay_tendon *state = &r->tendons[t];
    for (kl_index i = 0; i < tendon->member_count; i++) {
        const kl_index m = tendon->members[i];
        if (!r->members[m].stands) {
            REPLAY_SAY(r, KL_ERROR, "stressed-before-cast",
                       "Stage %s stresses tendon %s, but member %s does not stand then.",
                       r->at->name, tendon->name, r->c->model->members[m].name);
            break;
        }
        check_strength(r, t, m);
    }
    if (state->grouted && state->ever) {
        REPLAY_SAY(r, KL_ERROR, "stressed-after-grout",
                   "Stage %s stresses tendon %s, which is grouted.", r->at->name, tendon->name);
    }
    hinge_crossing crossing;
    if (hinges_cross(&r->hinges, r->c, tendon, &crossing)) {
        REPLAY_SAY(r, KL_ERROR, "tendon-through-hinge",
                   "Stage %s stresses tendon %s, which runs through %s: that is not analysed.",
                   r->at->name, tendon->name, hinges_name(r->c, &crossing));
        kl_diags_hint(r->c->diags, "anchor the tendon there, or `lock` the hinge before");
    }
    if (!state->ever) {
        state->time = r->at->time;
        state->stage = r->stage;
    }
    state->stressed = state->ever = true;
}

static void grout(replay *r, kl_index t)
{
    replay_tendon *state = &r->tendons[t];
    if (state->grouted) {
        REPLAY_SAY(r, KL_ERROR, "grouted-twice",
                   "Stage %s grouts tendon %s, which is grouted already.", r->at->name,
                   tendon_name(r, t));
    } else if (!state->stressed) {
        REPLAY_SAY(r, KL_ERROR, "grouted-unstressed",
                   "Stage %s grouts tendon %s before it is stressed.", r->at->name,
                   tendon_name(r, t));
        kl_diags_hint(r->c->diags, "grout holds a tendon fast: `stress` it first");
    } else if (r->at->has_time && r->at->time - state->time > LONG_UNGROUTED) {
        const build_number days =
            build_show(r->c->model, KL_MEASURE_TIME, r->at->time - state->time);
        REPLAY_SAY(r, KL_WARNING, "long-ungrouted",
                   "Tendon %s lies stressed and ungrouted for %s, from stage %s to stage %s.",
                   tendon_name(r, t), days.text, r->c->model->stages[state->stage].name,
                   r->at->name);
    }
    if (r->c->model->tendons[t].bond == KL_UNBONDED) {
        REPLAY_SAY(r, KL_ERROR, "grouted-unbonded", "Stage %s grouts tendon %s, which is unbonded.",
                   r->at->name, tendon_name(r, t));
    }
    state->grouted = true;
}

/* Slackening or losing asks for a tendon that carries force. */
static void slacken_or_lose(replay *r, kl_index t)
{
    replay_tendon *state = &r->tendons[t];
    const bool slackens = r->operation->kind == KL_OP_SLACKEN;
    if (!state->stressed) {
        REPLAY_SAY(r, KL_ERROR, "not-stressed", "Stage %s %s tendon %s, which is not stressed.",
                   r->at->name, slackens ? "slackens" : "takes a loss from", tendon_name(r, t));
    } else if (slackens && state->grouted) {
        REPLAY_SAY(r, KL_ERROR, "slackened-grouted",
                   "Stage %s slackens tendon %s, which is grouted.", r->at->name,
                   tendon_name(r, t));
    }
    state->stressed = state->stressed && !slackens;
}

void replay_tendons(replay *r)
{
    const kl_list items = r->operation->items;
    for (kl_index i = 0; i < items.count; i++) {
        if (r->operation->kind == KL_OP_STRESS) {
            stress(r, items.items[i]);
        } else if (r->operation->kind == KL_OP_GROUT) {
            grout(r, items.items[i]);
        } else {
            slacken_or_lose(r, items.items[i]);
        }
    }
}

void replay_tendons_end(replay *r)
{
    const kl_model *model = r->c->model;
    for (kl_index t = 0; t < model->tendon_count; t++) {
        const kl_tendon *tendon = &model->tendons[t];
        const replay_tendon *state = &r->tendons[t];
        if (!state->ever) {
            kl_diags_add(r->c->diags, KL_WARNING, "never-stressed", tendon->origin,
                         "No stage stresses tendon %s: it acts nowhere.", tendon->name);
        } else if (!state->grouted && state->stressed && tendon->bond != KL_UNBONDED) {
            kl_diags_add(r->c->diags, KL_WARNING, "never-grouted", tendon->origin,
                         "No stage grouts tendon %s.", tendon->name);
            kl_diags_hint(r->c->diags, "write `unbonded` if it stays without grout");
        }
    }
}
