/* choose.c - look up what the options name, and propose the nearest name where there is none.
 * SPDX-License-Identifier: MIT */
#include "choose.h"

#include <math.h>
#include <stdarg.h>
#include <stdlib.h>
#include <string.h>

#include "length_text.h"
#include "near.h"
#include "nearest.h"
#include "work.h"

#define CHOOSE_TEXT  600
#define CHOOSE_NAMES 5 /* that are told of what the model has */

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

void choose_refuse(const options *o, option_id option, const char *format, ...)
{
    char why[CHOOSE_TEXT];
    va_list arguments;
    va_start(arguments, format);
    vsnprintf(why, sizeof why, format, arguments);
    va_end(arguments);
    const char *value = o->values[option];
    work_complain("`%s %s`: %s", options_row(option)->name, value[0] != '\0' ? value : "''", why);
}

/* "its members are cap, col_1, col_2 and 3 more": what could have been named. */
static void choose_list(const kl_model *model, choose_kind kind, char text[CHOOSE_TEXT])
{
    const kl_index count = choose_count(model, kind.kind);
    const kl_index shown = count > CHOOSE_NAMES + 1 ? CHOOSE_NAMES : count;
    size_t used = (size_t)snprintf(text, CHOOSE_TEXT,
                                   count == 0   ? "it has none"
                                   : count == 1 ? "its only %s is "
                                                : "its %ss are ",
                                   kind.word);
    for (kl_index i = 0; i < shown && used < CHOOSE_TEXT; ++i) {
        const char *before = i == 0 ? "" : i + 1 == count ? " and " : ", ";
        used += (size_t)snprintf(text + used, CHOOSE_TEXT - used, "%s%.60s", before,
                                 choose_name(model, kind.kind, i));
    }
    if (shown < count && used < CHOOSE_TEXT) {
        snprintf(text + used, CHOOSE_TEXT - used, " and %d more", (int)(count - shown));
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
    if (near.best != NULL) {
        choose_refuse(o, option, "the model has no %s of this name; did you mean `%s`?", kind.word,
                      near.best);
    } else {
        char list[CHOOSE_TEXT];
        choose_list(model, kind, list);
        choose_refuse(o, option, "the model has no %s of this name; %s", kind.word, list);
    }
    return false;
}

static void choose_list_causes(const kl_model *model, char text[CHOOSE_TEXT])
{
    size_t used = 0;
    for (int kind = KL_CAUSE_ALL + 1; kind < KL_CAUSE_COUNT && used < CHOOSE_TEXT; ++kind) {
        if (kind != KL_CAUSE_CASE) {
            used +=
                (size_t)snprintf(text + used, CHOOSE_TEXT - used, "%s%s", used > 0 ? ", " : "",
                                 kl_cause_name(model, (kl_cause){(kl_cause_kind)kind, KL_NONE}));
        }
    }
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
    if (near.best != NULL) {
        choose_refuse(o, OPTION_CAUSE, "there is no such cause; did you mean `%s`?", near.best);
    } else {
        char list[CHOOSE_TEXT];
        choose_list_causes(model, list);
        choose_refuse(o, OPTION_CAUSE,
                      "there is no such cause; a load case is expected or one of %s", list);
    }
    return false;
}

static bool choose_length(const options *o, option_id option, bool may_be_zero, double *metres)
{
    double length = 0.0;
    if (!length_read(o->values[option], &length) || !(may_be_zero || length > 0.0)) {
        choose_refuse(o, option, "a length%s with its unit is expected, such as '2 ft' or '500 mm'",
                      may_be_zero ? "" : " above 0");
        return false;
    }
    *metres = length;
    return true;
}

/* Where the member ends, or the longest of all. */
static void choose_refuse_station(const options *o, const kl_model *model, kl_index member)
{
    double end = 0.0;
    for (kl_index i = 0; i < model->member_count; ++i) {
        if (member == KL_NONE || member == i) {
            end = fmax(end, kl_member_length(model, i));
        }
    }
    choose_refuse(o, OPTION_AT, "%s ends at %.10g %s",
                  member == KL_NONE ? "the longest member" : "the member",
                  end / kl_show_factor(&model->display, KL_MEASURE_STATION),
                  kl_show_unit(&model->display, KL_MEASURE_STATION));
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
    choose_refuse_station(o, model, wish->member);
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
        choose_refuse(o, OPTION_DAY, "a number of days is expected, such as 365");
        return false;
    }
    if (!choose_days(model, &from, &to)) {
        choose_refuse(o, OPTION_DAY, "no stage of the model has a day");
        return false;
    }
    if (!(day >= from && day <= to)) {
        choose_refuse(o, OPTION_DAY, "the stages go from day %.10g to day %.10g", from, to);
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
