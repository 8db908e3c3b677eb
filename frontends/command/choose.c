/* choose.c - look up what the options name, and propose the nearest name where there is none.
 * SPDX-License-Identifier: MIT */
#include "choose.h"

#include <string.h>

#include "length_text.h"
#include "nearest.h"
#include "work.h"

typedef struct choose_kind {
    kl_kind kind;
    const char *word;
} choose_kind;

static kl_index choose_count(const kl_model *model, kl_kind kind)
{
    switch (kind) {
    case KL_KIND_STAGE:
        return model->stage_count;
    case KL_KIND_CASE:
        return model->case_count;
    case KL_KIND_COMBINATION:
        return model->combination_count;
    case KL_KIND_MEMBER:
        return model->member_count;
    case KL_KIND_MATERIAL:
    case KL_KIND_SECTION:
    case KL_KIND_NODE:
    case KL_KIND_TENDON:
    case KL_KIND_FALSEWORK:
    case KL_KIND_CHECK:
    case KL_KIND_COUNT:
        return 0;
    }
    return 0;
}

static const char *choose_name(const kl_model *model, kl_kind kind, kl_index i)
{
    switch (kind) {
    case KL_KIND_STAGE:
        return model->stages[i].name;
    case KL_KIND_CASE:
        return model->cases[i].name;
    case KL_KIND_COMBINATION:
        return model->combinations[i].name;
    case KL_KIND_MEMBER:
        return model->members[i].name;
    case KL_KIND_MATERIAL:
    case KL_KIND_SECTION:
    case KL_KIND_NODE:
    case KL_KIND_TENDON:
    case KL_KIND_FALSEWORK:
    case KL_KIND_CHECK:
    case KL_KIND_COUNT:
        return "";
    }
    return "";
}

static void choose_complain(const char *word, const char *name, const char *best)
{
    if (best != NULL) {
        work_complain("the model has no %s `%s`; did you mean `%s`?", word, name, best);
    } else {
        work_complain("the model has no %s `%s`", word, name);
    }
}

/* Look up the name an option gives; without the option nothing happens. */
static bool choose_find(
    const options *o, option_id option, const kl_model *model, choose_kind kind, kl_index *found)
{
    const char *name = o->values[option];
    if (!o->given[option]) {
        return true;
    }
    *found = kl_model_find(model, kind.kind, name);
    if (*found != KL_NONE) {
        return true;
    }
    nearest near = nearest_start(name, strlen(name));
    for (kl_index i = 0; i < choose_count(model, kind.kind); ++i) {
        nearest_try(&near, choose_name(model, kind.kind, i));
    }
    choose_complain(kind.word, name, near.best);
    return false;
}

/* Causes are the words weight, prestress, … and the names of cases. */
static bool choose_cause(const options *o, const kl_model *model, kl_cause *cause)
{
    if (!o->given[OPTION_CAUSE]) {
        return true;
    }
    const char *name = o->values[OPTION_CAUSE];
    nearest near = nearest_start(name, strlen(name));
    for (int kind = KL_CAUSE_ALL + 1; kind < KL_CAUSE_COUNT; ++kind) {
        const kl_cause candidate = {(kl_cause_kind)kind, KL_NONE};
        if (kind == KL_CAUSE_CASE) {
            continue;
        }
        if (strcmp(kl_cause_name(model, candidate), name) == 0) {
            *cause = candidate;
            return true;
        }
        nearest_try(&near, kl_cause_name(model, candidate));
    }
    for (kl_index i = 0; i < model->case_count; ++i) {
        if (strcmp(model->cases[i].name, name) == 0) {
            *cause = (kl_cause){KL_CAUSE_CASE, i};
            return true;
        }
        nearest_try(&near, model->cases[i].name);
    }
    choose_complain("cause", name, near.best);
    return false;
}

bool choose_wish(const options *o, const kl_model *model, selection_wish *wish)
{
    static const choose_kind stage = {KL_KIND_STAGE, "stage"};
    static const choose_kind load_case = {KL_KIND_CASE, "load case"};
    static const choose_kind combination = {KL_KIND_COMBINATION, "combination"};
    static const choose_kind member = {KL_KIND_MEMBER, "member"};
    *wish = selection_wish_none();
    wish->every_step = o->given[OPTION_STEPS];
    wish->by_cause = o->given[OPTION_BY_CAUSE];
    if (!choose_find(o, OPTION_STAGE, model, stage, &wish->stage) ||
        !choose_find(o, OPTION_CASE, model, load_case, &wish->load_case) ||
        !choose_find(o, OPTION_COMBINATION, model, combination, &wish->combination) ||
        !choose_find(o, OPTION_MEMBER, model, member, &wish->member) ||
        !choose_cause(o, model, &wish->cause)) {
        return false;
    }
    if (o->given[OPTION_EVERY] && !length_read(o->values[OPTION_EVERY], &wish->every)) {
        work_complain(
            "`--every` takes a length with its unit, such as '2 ft' or '500 mm', not `%s`",
            o->values[OPTION_EVERY]);
        return false;
    }
    return true;
}
