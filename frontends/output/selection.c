/* selection.c - from what was asked to a list of states.
 *
 * The list is built twice: states is NULL on the first pass, which only counts.
 * SPDX-License-Identifier: MIT */
#include "selection.h"

#include <math.h>
#include <string.h>

#include "mem.h"

#define SAME_MOMENT 1.0 /* s: what the analysis takes for one moment */

selection_wish selection_wish_none(void)
{
    selection_wish wish;
    memset(&wish, 0, sizeof wish);
    wish.stage = wish.load_case = wish.combination = wish.member = wish.tendon = KL_NONE;
    wish.cause = (kl_cause){KL_CAUSE_ALL, KL_NONE};
    wish.every = wish.at = wish.day = NAN;
    return wish;
}

typedef struct selection_maker {
    const kl_results *results;
    const selection_wish *wish;
    kl_cause *causes; /* room for all there can be */
    kl_index cause_room;
    kl_state *states; /* NULL: count only */
    kl_index count;
} selection_maker;

static void selection_push(selection_maker *maker, kl_state state)
{
    if (maker->states != NULL) {
        maker->states[maker->count] = state;
    }
    ++maker->count;
}

/* One moment, whole or cause by cause. */
static void selection_add(selection_maker *maker, kl_state state)
{
    if (!maker->wish->by_cause) {
        selection_push(maker, kl_state_of_cause(state, maker->wish->cause));
        return;
    }
    kl_index count = maker->cause_room;
    kl_state_causes(maker->results, state, maker->causes, &count);
    for (kl_index i = 0; i < count; ++i) {
        selection_push(maker, kl_state_of_cause(state, maker->causes[i]));
    }
}

static void selection_add_steps(selection_maker *maker, kl_index first, kl_index last)
{
    for (kl_index step = first; step <= last; ++step) {
        selection_add(maker, kl_state_step(step));
    }
}

/* The moments on the way to a stage and then its steps. */
static void selection_add_history(selection_maker *maker, kl_index stage)
{
    for (kl_index i = 0; i < kl_moment_count(maker->results); ++i) {
        if (kl_moment_at(maker->results, i)->stage == stage) {
            selection_add(maker, kl_state_moment(i));
        }
    }
    selection_add_steps(maker, kl_first_step(maker->results, stage),
                        kl_last_step(maker->results, stage));
}

static void selection_add_cases(selection_maker *maker)
{
    const kl_model *model = kl_results_model(maker->results);
    for (kl_index i = 0; i < model->case_count; ++i) {
        if (kl_case_is_solved(maker->results, i)) {
            selection_add(maker, kl_state_case(i));
        }
    }
}

static void selection_add_combinations(selection_maker *maker)
{
    const kl_model *model = kl_results_model(maker->results);
    for (kl_index i = 0; i < model->combination_count; ++i) {
        selection_add(maker, kl_state_combination(i));
    }
}

static void selection_add_default(selection_maker *maker, selection_span span)
{
    const kl_model *model = kl_results_model(maker->results);
    const kl_index last = kl_step_count(maker->results) - 1;
    if (span == SELECTION_ENVELOPE) {
        selection_add_steps(maker, 0, last);
        if (model->stage_count ==
            0) { /* beside stages a case by itself is no state of the structure */
            selection_add_cases(maker);
        }
        selection_add_combinations(maker);
    } else if (span == SELECTION_HISTORY) {
        for (kl_index stage = 0; stage < model->stage_count; ++stage) {
            selection_add_history(maker, stage);
        }
    } else if (span == SELECTION_STAGES && !maker->wish->every_step) {
        for (kl_index stage = 0; stage < model->stage_count; ++stage) {
            selection_add(maker, kl_state_step(kl_last_step(maker->results, stage)));
        }
        selection_add_cases(maker);
    } else if (span == SELECTION_ALL || maker->wish->every_step) {
        selection_add_steps(maker, 0, last);
        selection_add_cases(maker);
    } else if (span == SELECTION_FINAL) {
        for (kl_index stage = 0; maker->wish->every_stage && stage + 1 < model->stage_count;
             ++stage) {
            selection_add(maker, kl_state_step(kl_last_step(maker->results, stage)));
        }
        selection_add_steps(maker, last < 0 ? 0 : last, last);
        selection_add_cases(maker);
        selection_add_combinations(maker);
    }
}

/* The last state at a time: of a stage, or a moment between stages. @return false when there is none. */
static bool selection_state_at(const kl_results *results, double time, kl_state *state)
{
    for (kl_index step = kl_step_count(results) - 1; step >= 0; --step) {
        if (fabs(kl_step_at(results, step)->time - time) <= SAME_MOMENT) {
            *state = kl_state_step(step);
            return true;
        }
    }
    for (kl_index i = 0; i < kl_moment_count(results); ++i) {
        if (fabs(kl_moment_at(results, i)->time - time) <= SAME_MOMENT) {
            *state = kl_state_moment(i);
            return true;
        }
    }
    return false;
}

static void selection_collect(selection_maker *maker, selection_span span)
{
    const selection_wish *wish = maker->wish;
    maker->count = 0;
    if (span == SELECTION_LOADS) {
        return;
    }
    if (wish->stage != KL_NONE && span == SELECTION_HISTORY) {
        selection_add_history(maker, wish->stage);
    } else if (wish->stage != KL_NONE) {
        const kl_index last = kl_last_step(maker->results, wish->stage);
        const bool each = wish->every_step || span == SELECTION_ALL || span == SELECTION_ENVELOPE;
        selection_add_steps(maker, each ? kl_first_step(maker->results, wish->stage) : last, last);
    }
    kl_state state;
    if (!isnan(wish->day) && selection_state_at(maker->results, wish->day, &state)) {
        selection_add(maker, state);
    }
    if (wish->load_case != KL_NONE) {
        selection_add(maker, kl_state_case(wish->load_case));
    }
    if (wish->combination != KL_NONE) {
        selection_add(maker, kl_state_combination(wish->combination));
    }
    if (wish->stage == KL_NONE && wish->load_case == KL_NONE && wish->combination == KL_NONE &&
        isnan(wish->day)) {
        selection_add_default(maker, span);
    }
}

kl_status selection_make(const kl_results *results,
                         const selection_wish *wish,
                         selection_span span,
                         selection *out)
{
    *out = (selection){.stage = wish->stage,
                       .load_case = wish->load_case,
                       .combination = wish->combination,
                       .member = wish->member,
                       .tendon = wish->tendon,
                       .every = wish->every,
                       .at = wish->at,
                       .folds = wish->folds,
                       .tenths = wish->tenths};
    if (wish->load_case != KL_NONE && span != SELECTION_LOADS &&
        !kl_case_is_solved(results, wish->load_case)) {
        return KL_NOT_THERE;
    }
    kl_state state;
    if (!isnan(wish->day) && !selection_state_at(results, wish->day, &state)) {
        return KL_NOT_THERE;
    }
    const kl_model *model = kl_results_model(results);
    selection_maker maker = {.results = results, .wish = wish};
    maker.cause_room = (kl_index)KL_CAUSE_COUNT + model->case_count;
    maker.causes = mem_array((size_t)maker.cause_room, sizeof *maker.causes);
    if (maker.causes == NULL) {
        return KL_NO_MEMORY;
    }
    selection_collect(&maker, span);
    maker.states = mem_array((size_t)maker.count, sizeof *maker.states);
    if (maker.states != NULL) {
        selection_collect(&maker, span);
    }
    mem_free(maker.causes);
    out->states = maker.states;
    out->state_count = maker.count;
    return maker.states != NULL ? KL_OK : KL_NO_MEMORY;
}

void selection_free(selection *s)
{
    mem_free(s->states);
    s->states = NULL;
    s->state_count = 0;
}

const kl_step *selection_step(const kl_results *results, kl_state state)
{
    switch (state.kind) {
    case KL_STATE_STEP:
        return kl_step_at(results, state.index);
    case KL_STATE_MOMENT:
        return kl_moment_at(results, state.index);
    case KL_STATE_CASE:
    case KL_STATE_COMBINATION:
        return NULL;
    }
    return NULL;
}

bool selection_takes(const selection *s, kl_index member)
{
    return s->member == KL_NONE || s->member == member;
}

bool selection_takes_tendon(const selection *s, const kl_model *model, kl_index tendon)
{
    const kl_tendon *tn = &model->tendons[tendon];
    for (kl_index i = 0; i < tn->member_count; ++i) {
        if (selection_takes(s, tn->members[i])) {
            return true;
        }
    }
    return false;
}

bool selection_is_tenth(const kl_station_row *row, double length)
{
    const double tenths = 10.0 * row->station / length;
    return row->node != KL_NONE || row->is_face || fabs(tenths - round(tenths)) < 1e-6;
}
