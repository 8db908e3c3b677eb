/* warn_lift.c - where stressing sends the load: rows that lift off, and rows that take over.
 *
 * A run of `stress` steps in one stage is looked at as one act, from the state before it to the state after.
 * SPDX-License-Identifier: MIT */
#include <math.h>
#include <string.h>

#include "check_text.h"
#include "warn.h"

/* Gains below this share of what was lost are not named. */
#define WARN_LIFT_SHARE 0.02
/* A row that more than doubles, by more than this share of all the rows carried, has taken over. */
#define WARN_LIFT_TIMES      2.0
#define WARN_LIFT_TAKES_OVER 0.05

typedef struct warn_run {
    kl_index first, last; /* steps */
} warn_run;

/* The rows under one member before and after a run; same order. */
typedef struct warn_lift {
    const warn_context *c;
    warn_run run;
    kl_index member;
    const warn_row *before, *after;
    kl_index count;
    double *places; /* room for count stations */
    double lost;    /* N, carried before by the rows that lifted */
    double gained;  /* N, more on the rows that gained */
    kl_index lifted;
} warn_lift;

static bool warn_is_stress(const kl_results *results, kl_index step)
{
    const kl_operation *operation = warn_operation(results, step);
    return operation != NULL && operation->kind == KL_OP_STRESS;
}

/* The next run that begins at or after `from`; first is the step count when there is none. */
static warn_run warn_next_run(const kl_results *results, kl_index from)
{
    const kl_index steps = kl_step_count(results);
    warn_run run = {from, from};
    while (run.first < steps && !warn_is_stress(results, run.first)) {
        run.first++;
    }
    run.last = run.first;
    while (run.last + 1 < steps && warn_is_stress(results, run.last + 1) &&
           kl_step_at(results, run.last + 1)->stage == kl_step_at(results, run.first)->stage) {
        run.last++;
    }
    return run;
}

#define WARN_LIFT_FLOOR                                                                            \
    1.0 /* N: a row that carries nothing, on a column say, has nothing to lift from */

static bool warn_lifts(const warn_lift *l, kl_index i)
{
    return l->before[i].state.bears && l->before[i].state.force > WARN_LIFT_FLOOR &&
           l->after[i].state.stands && !l->after[i].state.bears;
}

static double warn_gain(const warn_lift *l, kl_index i)
{
    return l->after[i].state.stands ? l->after[i].state.force - l->before[i].state.force : 0.0;
}

static void warn_sum_lift(warn_lift *l)
{
    for (kl_index i = 0; i < l->count; i++) {
        if (warn_lifts(l, i)) {
            l->lifted++;
            l->lost += l->before[i].state.force;
        }
        l->gained += fmax(0.0, warn_gain(l, i));
    }
}

/* "the rows from 36 to 60 ft" for three or more neighbours, else "the rows at 36 and 60 ft". */
static const char *warn_lifted_places(const warn_lift *l)
{
    const kl_display *display = &l->c->model->display;
    kl_index n = 0, first = KL_NONE, last = KL_NONE;
    for (kl_index i = 0; i < l->count; i++) {
        if (warn_lifts(l, i)) {
            first = first == KL_NONE ? i : first;
            last = i;
            l->places[n++] = l->before[i].station;
        }
    }
    if (n < 3 || last - first + 1 != n) {
        const char *places = text_stations(l->c->memory, display, l->places, n);
        return places == NULL
                   ? NULL
                   : arena_print(l->c->memory, "%s at %s", n == 1 ? "the row" : "the rows", places);
    }
    char number[40];
    text_number(number, sizeof number, l->places[0] / kl_show_factor(display, KL_MEASURE_STATION));
    const char *end = text_value(l->c->memory, display, KL_MEASURE_STATION, l->places[n - 1]);
    return end == NULL ? NULL : arena_print(l->c->memory, "the rows from %s to %s", number, end);
}

/* Where it went: rows that gained, and what else the member stands on for the rest. */
static const char *warn_where_it_went(const warn_lift *l)
{
    kl_index n = 0;
    for (kl_index i = 0; i < l->count; i++) {
        if (warn_gain(l, i) > WARN_LIFT_SHARE * l->lost) {
            l->places[n++] = l->after[i].station;
        }
    }
    if (n == 0) {
        return "its columns and supports";
    }
    const char *places = text_stations(l->c->memory, &l->c->model->display, l->places, n);
    const bool all = l->gained > (1.0 - WARN_LIFT_SHARE) * l->lost;
    return places == NULL ? NULL
                          : arena_print(l->c->memory, "%s at %s%s", n == 1 ? "the row" : "the rows",
                                        places, all ? "" : ", its columns and supports");
}

static kl_status warn_tell_lift(const warn_lift *l)
{
    const kl_model *model = l->c->model;
    const kl_index stage = kl_step_at(l->c->results, l->run.first)->stage;
    const char *lifted = warn_lifted_places(l);
    const char *lost = text_value(l->c->memory, &model->display, KL_MEASURE_FORCE, l->lost);
    const char *went = warn_where_it_went(l);
    if (lifted == NULL || lost == NULL || went == NULL) {
        return KL_NO_MEMORY;
    }
    kl_diags_add(l->c->diags, KL_WARNING, "lift-off",
                 warn_operation(l->c->results, l->run.first)->origin,
                 "Stressing in %s lifts %s off %s of its falsework; %s %s went to %s.",
                 model->stages[stage].name, model->members[l->member].name, lifted,
                 l->lifted == 1 ? "its" : "their", lost, went);
    return KL_OK;
}

/* ---- rows that take over -------------------------------------------------------------------------------- */

static bool warn_has_bearing(const kl_model *model, kl_index node)
{
    for (kl_index i = 0; i < model->bearing_count; i++) {
        if (model->bearings[i].node == node || model->bearings[i].base == node) {
            return true;
        }
    }
    return false;
}

/* Is a hinge of the member nearer to row i than the next row is? */
static bool warn_is_under_hinge(const warn_lift *l, kl_index i)
{
    const kl_model *model = l->c->model;
    const kl_member *member = &model->members[l->member];
    const double length = kl_member_length(model, l->member), at = l->after[i].station;
    const double left = i > 0 ? at - l->after[i - 1].station : length;
    const double right = i + 1 < l->count ? l->after[i + 1].station - at : length;
    const double reach = fmin(left, right);
    for (kl_index h = 0; h < member->hinge_count; h++) {
        if (fabs(member->hinges[h] - at) < reach) {
            return true;
        }
    }
    return ((member->hinge_start || warn_has_bearing(model, member->from)) && at < reach) ||
           ((member->hinge_end || warn_has_bearing(model, member->to)) && length - at < reach);
}

static kl_index warn_row_that_takes_over(const warn_lift *l)
{
    kl_index worst = KL_NONE;
    double all = 0.0;
    for (kl_index i = 0; i < l->count; i++) {
        all += l->before[i].state.force;
    }
    for (kl_index i = 0; i < l->count; i++) {
        const double gain = warn_gain(l, i);
        if (l->after[i].state.force > WARN_LIFT_TIMES * l->before[i].state.force &&
            gain > WARN_LIFT_TAKES_OVER * all && (worst == KL_NONE || gain > warn_gain(l, worst))) {
            worst = i;
        }
    }
    return worst;
}

static kl_status warn_tell_gain(const warn_lift *l)
{
    const kl_index i = warn_row_that_takes_over(l);
    if (i == KL_NONE) {
        return KL_OK;
    }
    const kl_model *model = l->c->model;
    const kl_index stage = kl_step_at(l->c->results, l->run.first)->stage;
    const kl_falsework *falsework = &model->falsework[l->after[i].falsework];
    const char *place =
        text_value(l->c->memory, &model->display, KL_MEASURE_STATION, l->after[i].station);
    const char *from =
        text_value(l->c->memory, &model->display, KL_MEASURE_FORCE, l->before[i].state.force);
    const char *to =
        text_value(l->c->memory, &model->display, KL_MEASURE_FORCE, l->after[i].state.force);
    if (place == NULL || from == NULL || to == NULL) {
        return KL_NO_MEMORY;
    }
    kl_diags_add(l->c->diags, KL_WARNING, "row-gains-load", falsework->origin,
                 "The row of %s %sat %s goes from %s to %s in %s with no load added: stressing "
                 "sends it there.",
                 falsework->name, warn_is_under_hinge(l, i) ? "under the hinge " : "", place, from,
                 to, model->stages[stage].name);
    return KL_OK;
}

static kl_status warn_lift_under(const warn_context *c, warn_run run, kl_index member)
{
    warn_row *before = NULL, *after = NULL;
    kl_index count = 0;
    KL_TRY(warn_rows_under(c, kl_state_step(run.first - 1), member, &before, &count));
    KL_TRY(warn_rows_under(c, kl_state_step(run.last), member, &after, &count));
    warn_lift l = {c, run, member, before, after, count, NULL, 0.0, 0.0, 0};
    l.places = arena_array(c->memory, (size_t)count + 1, sizeof *l.places);
    if (l.places == NULL) {
        return KL_NO_MEMORY;
    }
    warn_sum_lift(&l);
    if (l.lifted > 0) {
        KL_TRY(warn_tell_lift(&l));
    }
    return warn_tell_gain(&l);
}

kl_status warn_lift_off(const warn_context *c)
{
    const kl_index steps = kl_step_count(c->results);
    for (warn_run run = warn_next_run(c->results, 0); run.first < steps;
         run = warn_next_run(c->results, run.last + 1)) {
        for (kl_index m = 0; run.first > 0 && m < c->model->member_count; m++) {
            KL_TRY(warn_lift_under(c, run, m));
        }
    }
    return KL_OK;
}
