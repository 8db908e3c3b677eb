/* choose.c - look up what the options name, and propose the nearest name where there is none.
 * SPDX-License-Identifier: MIT */
#include "choose.h"

#include <math.h>
#include <stdlib.h>
#include <string.h>

#include "length_text.h"
#include "near.h"
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
    case KL_KIND_TENDON:
        return model->tendon_count;
    case KL_KIND_MATERIAL:
    case KL_KIND_SECTION:
    case KL_KIND_NODE:
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
    case KL_KIND_TENDON:
        return model->tendons[i].name;
    case KL_KIND_MATERIAL:
    case KL_KIND_SECTION:
    case KL_KIND_NODE:
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

static bool choose_length(const options *o, option_id option, bool may_be_zero, double *metres)
{
    double length = 0.0;
    if (!length_read(o->values[option], &length) || !(may_be_zero || length > 0.0)) {
        work_complain("`%s` takes a length with its unit, such as '2 ft' or '500 mm', not `%s`",
                      options_row(option)->name, o->values[option]);
        return false;
    }
    *metres = length;
    return true;
}

/* --every and --at; a station must be on one member at least that is shown. */
static bool choose_stations(const options *o, const kl_model *model, selection_wish *wish)
{
    if (o->given[OPTION_EVERY] && !choose_length(o, OPTION_EVERY, false, &wish->every)) {
        return false;
    }
    if (!o->given[OPTION_AT]) {
        return true;
    }
    if (!choose_length(o, OPTION_AT, true, &wish->at)) {
        return false;
    }
    for (kl_index i = 0; i < model->member_count; ++i) {
        const bool is_shown = wish->member == KL_NONE || wish->member == i;
        if (is_shown && wish->at <= kl_member_length(model, i) + NEAR_STATION) {
            return true;
        }
    }
    work_complain(wish->member != KL_NONE ? "the member ends before %s" : "no member reaches %s",
                  o->values[OPTION_AT]);
    return false;
}

/* Days from the first dated stage to the last. @return false: no stage has a day. */
static bool choose_days(const kl_model *model, double *from, double *to)
{
    for (kl_index i = 0; i < model->stage_count; ++i) {
        if (model->stages[i].has_time) {
            *from = model->stages[i].time / KL_DAY;
            *to = model->stages[model->stage_count - 1].time / KL_DAY;
            return true;
        }
    }
    work_complain("`--day` cannot be answered: no stage of the model has a day");
    return false;
}

static bool choose_day(const options *o, const kl_model *model, selection_wish *wish)
{
    if (!o->given[OPTION_DAY]) {
        return true;
    }
    const char *text = o->values[OPTION_DAY];
    char *end = NULL;
    const double day = strtod(text, &end);
    double from = 0.0, to = 0.0;
    if (end == text || *end != '\0' || !isfinite(day)) {
        work_complain("`--day` takes a number of days, such as 365, not `%s`", text);
        return false;
    }
    if (!choose_days(model, &from, &to)) {
        return false;
    }
    if (!(day >= from && day <= to)) {
        work_complain("day %s is outside the stages, which go from day %.10g to day %.10g", text,
                      from, to);
        return false;
    }
    wish->day = day * KL_DAY;
    return true;
}

bool choose_wish(const options *o, const kl_model *model, selection_wish *wish)
{
    static const choose_kind stage = {KL_KIND_STAGE, "stage"};
    static const choose_kind load_case = {KL_KIND_CASE, "load case"};
    static const choose_kind combination = {KL_KIND_COMBINATION, "combination"};
    static const choose_kind member = {KL_KIND_MEMBER, "member"};
    static const choose_kind tendon = {KL_KIND_TENDON, "tendon"};
    *wish = selection_wish_none();
    wish->every_step = o->given[OPTION_STEPS];
    wish->by_cause = o->given[OPTION_BY_CAUSE];
    if (!choose_find(o, OPTION_STAGE, model, stage, &wish->stage) ||
        !choose_find(o, OPTION_CASE, model, load_case, &wish->load_case) ||
        !choose_find(o, OPTION_COMBINATION, model, combination, &wish->combination) ||
        !choose_find(o, OPTION_MEMBER, model, member, &wish->member) ||
        !choose_find(o, OPTION_TENDON, model, tendon, &wish->tendon) ||
        !choose_cause(o, model, &wish->cause)) {
        return false;
    }
    return choose_stations(o, model, wish) && choose_day(o, model, wish);
}
