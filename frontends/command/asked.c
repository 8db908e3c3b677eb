/* asked.c - see asked.h.
 * SPDX-License-Identifier: MIT */
#include "asked.h"

#include <math.h>

#include "choose.h"
#include "kernline/analysis.h"

void asked_unknown(const char *thing, const char *command, const nearest *search)
{
    if (search->best != NULL) {
        work_complain("there is no %s `%s`; did you mean `%s`?", thing, search->text, search->best);
    } else {
        work_complain("there is no %s `%s`; `kernline %s --help` lists them", thing, search->text,
                      command);
    }
}

/* The summary tells the warnings; a table or a picture, made again and again, only says that there are some. */
static void asked_count_warnings(const work *w)
{
    const kl_index count = kl_diags_count_of(w->diags, KL_WARNING);
    if (count > 0) {
        work_complain("%d warning%s: `kernline run` tells %s", (int)count, count > 1 ? "s" : "",
                      count > 1 ? "them" : "it");
    }
}

static kl_status asked_select(
    work *w, const options *o, const selection_wish *wish, selection_span span, selection *s)
{
    const kl_status status = selection_make(w->results, wish, span, s);
    if (status == KL_NOT_THERE) {
        choose_refuse(o, OPTION_CASE,
                      "a stage loads this case, which therefore has no state of its own: ask for "
                      "the stage, or for `--cause %s`",
                      o->values[OPTION_CASE]);
    } else if (status != KL_OK) {
        work_complain("%s: %s", w->path, kl_status_text(status));
    }
    s->report = w->report;
    return status;
}

/* What time does needs moments between the stages, a day asked for that moment. `wish` is borrowed. */
static kl_settings asked_settings(const selection_wish *wish, selection_span span)
{
    kl_settings settings = kl_settings_default();
    settings.moments_per_decade = span == SELECTION_HISTORY ? ASKED_MOMENTS : 0;
    settings.moments = &wish->day;
    settings.moment_count = isnan(wish->day) ? 0 : 1;
    return settings;
}

bool asked_open(work *w, const options *o, selection_span span, selection *s, exit_status *answer)
{
    selection_wish wish;
    kl_status status = work_read(w, o->operands[0]);
    if (status == KL_OK && !choose_wish(o, w->model, &wish)) {
        *answer = EXIT_WRONG_USE;
        return false;
    }
    if (status == KL_OK) {
        const kl_settings settings = asked_settings(&wish, span);
        status = work_solve(w, &settings);
    }
    *answer = work_tell(w, status, status != KL_OK);
    if (status != KL_OK) {
        return false;
    }
    asked_count_warnings(w);
    status = asked_select(w, o, &wish, span, s);
    *answer = exit_status_of(status);
    return status == KL_OK;
}

static bool asked_refuse(option_id option, const asked_thing *thing, const char *why)
{
    work_complain("`%s` does not apply to `%s`, which %s", options_row(option)->name, thing->name,
                  why);
    return false;
}

/* Why a choice of moment does not apply; NULL: it does. */
static const char *asked_moment_fails(option_id option, selection_span span)
{
    switch (span) {
    case SELECTION_NONE:
        return "is not of one moment";
    case SELECTION_LOADS:
        return option == OPTION_STEPS ? "shows what acts, not what follows" : NULL;
    case SELECTION_HISTORY:
        return option == OPTION_DAY                                    ? "shows all days"
               : option == OPTION_CASE || option == OPTION_COMBINATION ? "follows the stages"
                                                                       : NULL;
    case SELECTION_FINAL:
    case SELECTION_STAGES:
    case SELECTION_ALL:
    case SELECTION_ENVELOPE:
        return NULL;
    }
    return NULL;
}

bool asked_applies(const options *o, const asked_thing *thing)
{
    static const option_id moments[] = {OPTION_STAGE, OPTION_STEPS, OPTION_CASE, OPTION_COMBINATION,
                                        OPTION_DAY};
    static const option_id causes[] = {OPTION_CAUSE, OPTION_BY_CAUSE};
    for (size_t i = 0; i < sizeof moments / sizeof moments[0]; ++i) {
        const char *why = asked_moment_fails(moments[i], thing->span);
        if (o->given[moments[i]] && why != NULL) {
            return asked_refuse(moments[i], thing, why);
        }
    }
    if (o->given[OPTION_AT] && !thing->has_stations) {
        return asked_refuse(OPTION_AT, thing, "is not of one station");
    }
    if (o->given[OPTION_TENDON] && !thing->has_tendons) {
        return asked_refuse(OPTION_TENDON, thing, "is not of tendons");
    }
    for (size_t i = 0; i < sizeof causes / sizeof causes[0]; ++i) {
        if (o->given[causes[i]] && !thing->has_causes) {
            return asked_refuse(causes[i], thing, "always takes all causes");
        }
    }
    return true;
}

exit_status asked_close(const work *w, kl_status status)
{
    if (status != KL_OK && status != KL_FILE_TROUBLE && status != KL_NOT_THERE) {
        work_complain("%s: %s", w->path, kl_status_text(status));
    }
    if (status != KL_OK) {
        return exit_status_of(status);
    }
    return kl_failed_count(w->report) > 0 ? EXIT_CHECK_FAILS : EXIT_ALL_WELL;
}
