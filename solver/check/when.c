/* when.c - from `after`, `during`, `from … to`, `under` to states.
 * SPDX-License-Identifier: MIT */
#include "when.h"

static kl_status when_steps(
    kl_index first, kl_index last, kl_index room, arena *a, kl_state **items, kl_index *count)
{
    const kl_index steps = last >= first && first >= 0 ? last - first + 1 : 0;
    kl_state *list = arena_array(a, (size_t)(steps + room) + 1, sizeof *list);
    if (list == NULL) {
        return KL_NO_MEMORY;
    }
    for (kl_index i = 0; i < steps; i++) {
        list[i] = kl_state_step(first + i);
    }
    *items = list;
    *count = steps;
    return KL_OK;
}

kl_status when_all(const kl_results *results, arena *a, when_states *states)
{
    const kl_model *model = kl_results_model(results);
    kl_state *items = NULL;
    kl_index count = 0;
    KL_TRY(when_steps(0, kl_step_count(results) - 1, model->combination_count + model->case_count,
                      a, &items, &count));
    const bool cases_too = count == 0 && model->combination_count == 0;
    for (kl_index i = 0; i < model->combination_count; i++) {
        items[count++] = kl_state_combination(i);
    }
    for (kl_index i = 0; cases_too && i < model->case_count; i++) {
        if (kl_case_is_solved(results, i)) {
            items[count++] = kl_state_case(i);
        }
    }
    *states = (when_states){items, count};
    return KL_OK;
}

kl_status when_find(const kl_results *results, const kl_when *when, arena *a, when_states *states)
{
    kl_state *items = NULL;
    kl_index count = 0, first = -1, last = -2;
    switch (when->kind) {
    case KL_WHEN_UNSET:
        return when_all(results, a, states);
    case KL_WHEN_AFTER:
        first = last = kl_last_step(results, when->first);
        break;
    case KL_WHEN_DURING:
        first = kl_first_step(results, when->first);
        last = kl_last_step(results, when->first);
        break;
    case KL_WHEN_FROM_TO:
        first = kl_first_step(results, when->first);
        last = kl_last_step(results, when->last);
        break;
    case KL_WHEN_CASE:
    case KL_WHEN_COMBINATION:
        break;
    }
    KL_TRY(when_steps(first, last, 1, a, &items, &count));
    if (when->kind == KL_WHEN_COMBINATION) {
        items[count++] = kl_state_combination(when->first);
    } else if (when->kind == KL_WHEN_CASE && kl_case_is_solved(results, when->first)) {
        items[count++] = kl_state_case(when->first);
    }
    *states = (when_states){items, count};
    return KL_OK;
}

bool when_is_on_the_way(const kl_results *results, kl_state state, kl_state *last)
{
    if (state.kind != KL_STATE_STEP) {
        return false;
    }
    *last = kl_state_step(kl_last_step(results, kl_step_at(results, state.index)->stage));
    last->cause = state.cause;
    return last->index != state.index;
}
