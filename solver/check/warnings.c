/* warnings.c - the run over all warnings that need results, and what they share.
 * SPDX-License-Identifier: MIT */
#include <stddef.h>
#include <stdlib.h>

#include "warn.h"

const kl_operation *warn_operation(const kl_results *results, kl_index step)
{
    const kl_step *s = kl_step_at(results, step);
    return s->operation == KL_NONE
               ? NULL
               : &kl_results_model(results)->stages[s->stage].operations[s->operation];
}

static int warn_compare_rows(const void *a, const void *b)
{
    const warn_row *p = a, *q = b;
    return (p->station > q->station) - (p->station < q->station);
}

kl_status warn_rows_under(
    const warn_context *c, kl_state state, kl_index member, warn_row **rows, kl_index *count)
{
    size_t room = 0;
    for (kl_index f = 0; f < c->model->falsework_count; f++) {
        room +=
            c->model->falsework[f].member == member ? (size_t)c->model->falsework[f].row_count : 0;
    }
    warn_row *list = arena_array(c->memory, room + 1, sizeof *list);
    if (list == NULL) {
        return KL_NO_MEMORY;
    }
    kl_index used = 0;
    for (kl_index f = 0; f < c->model->falsework_count; f++) {
        const kl_falsework *falsework = &c->model->falsework[f];
        for (kl_index i = 0; falsework->member == member && i < falsework->row_count; i++) {
            warn_row *row = &list[used++];
            *row = (warn_row){.falsework = f, .row = i, .station = falsework->stations[i]};
            if (kl_row_state(c->results, state, f, i, &row->state) != KL_OK) {
                row->state = (kl_post_row){0};
            }
        }
    }
    qsort(list, (size_t)used, sizeof *list, warn_compare_rows);
    *rows = list;
    *count = used;
    return KL_OK;
}

static kl_status warnings_run(warn_context *c)
{
    static kl_status (*const families[])(const warn_context *) = {
        warn_overloaded_rows, warn_lift_off,         warn_uneven_settlement,
        warn_still_bearing,   warn_pulling_supports, warn_cracked_sections,
        warn_time_laws,       warn_relaxation,       warn_creep_curves,
    };
    KL_TRY(when_all(c->results, c->memory, &c->states));
    for (size_t i = 0; i < sizeof families / sizeof families[0]; i++) {
        KL_TRY(families[i](c));
    }
    return KL_OK;
}

kl_status kl_run_warnings(kl_results *results, const kl_check_report *report, kl_diags *diags)
{
    (void)report; /* what checks found on the way they have told themselves */
    arena memory = {0};
    warn_context c = {results, kl_results_model(results), diags, &memory, {0}};
    const kl_status status = warnings_run(&c);
    arena_free(&memory);
    return status;
}
