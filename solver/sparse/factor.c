/* factor.c - see factor.h: the frame around the numeric passes (numeric.h).
 * SPDX-License-Identifier: MIT */
#include "factor.h"

#include <math.h>

#include "mem.h"
#include "numeric.h"
#include "pages.h"

/* ---- memory ------------------------------------------------------------------------------------------ */

static kl_status factor_allocate(sparse_factor *factor)
{
    const sparse_symbolic *symbolic = factor->symbolic;
    const elimination_schedule *plan = &factor->schedule;
    const int64_t threads = plan->threads;
    const int64_t most = plan->slivers > plan->local_slivers ? plan->slivers : plan->local_slivers;
    const int64_t panels = supernode_round(symbolic->entries);
    const int64_t stacks = plan->shared + threads * plan->local;
    const int64_t slivers = most + (threads - 1) * plan->local_slivers;
    const int64_t front = supernode_round(3 * (int64_t)symbolic->tallest * NUMERIC_LANES);
    const int64_t columns = 3 * (int64_t)symbolic->graph->node_count * NUMERIC_LANES;
    const size_t list = 2 * (size_t)symbolic->tallest;
    const int64_t numbers = panels + stacks + slivers + front + columns;
    factor->runs = mem_array((size_t)threads * list, sizeof(kl_index));
    factor->members = mem_array((size_t)threads, sizeof *factor->members);
    factor->panels = pages_array((size_t)numbers, &factor->memory);
    if (!factor->runs || !factor->members || !factor->panels) {
        return KL_NO_MEMORY;
    }
    factor->stacks = factor->panels + panels;
    factor->front = factor->stacks + stacks + slivers;
    factor->columns = factor->front + front;
    double *room = factor->stacks + stacks;
    for (int64_t t = 0; t < threads; t++) {
        factor->members[t] = (numeric_pass){
            .factor = factor,
            .shift = t * plan->local,
            .slivers = room,
            .runs = factor->runs + (size_t)t * list,
        };
        room += t == 0 ? most : plan->local_slivers;
    }
    return KL_OK;
}

kl_status factor_create(const sparse_symbolic *symbolic, int threads, sparse_factor **out)
{
    *out = NULL;
    sparse_factor *factor = mem_array(1, sizeof *factor);
    if (factor == NULL) {
        return KL_NO_MEMORY;
    }
    factor->symbolic = symbolic;
    factor->passes = passes_for_machine();
    kl_status status = schedule_create(symbolic, threads, &factor->schedule);
    status = status == KL_OK ? factor_allocate(factor) : status;
    if (status != KL_OK) {
        factor_destroy(factor);
        return status;
    }
    *out = factor;
    return KL_OK;
}

void factor_destroy(sparse_factor *factor)
{
    if (factor == NULL) {
        return;
    }
    schedule_destroy(&factor->schedule);
    mem_free(factor->members);
    mem_free(factor->runs);
    mem_free(factor->memory);
    mem_free(factor);
}

/* ---- pivots ------------------------------------------------------------------------------------------ */

/* By ratio; of equal ones the first in the order of elimination. */
static bool factor_is_before(const sparse_symbolic *symbolic, factor_pivot a, factor_pivot b)
{
    if (a.ratio < b.ratio || a.ratio > b.ratio) {
        return a.ratio < b.ratio;
    }
    const kl_index place_a = symbolic->place[a.node];
    const kl_index place_b = symbolic->place[b.node];
    return place_a < place_b || (place_a == place_b && a.direction < b.direction);
}

/* Keep the smallest ratios, ascending. */
static void
factor_note_suspect(const sparse_symbolic *symbolic, factor_report *report, factor_pivot pivot)
{
    int at = report->suspect_count;
    if (at == FACTOR_SUSPECTS) {
        at--;
        if (!factor_is_before(symbolic, pivot, report->suspects[at])) {
            return;
        }
    } else {
        report->suspect_count++;
    }
    for (; at > 0 && factor_is_before(symbolic, pivot, report->suspects[at - 1]); at--) {
        report->suspects[at] = report->suspects[at - 1];
    }
    report->suspects[at] = pivot;
}

bool numeric_judge(numeric_pass *pass, int64_t unknown, double pivot, double original)
{
    const factor_pivot told = {
        .node = pass->factor->symbolic->order[unknown / 3],
        .direction = (int)(unknown % 3),
        .ratio = original > 0.0 ? pivot / original : 0.0,
    };
    if (!isfinite(pivot)) {
        pass->overflow = true;
        return false;
    }
    if (pivot > 0.0) {
        if (pivot < pass->suspect_limit * original) {
            factor_note_suspect(pass->factor->symbolic, &pass->report, told);
        }
        return true;
    }
    pass->report.stopped = told;
    return false;
}

/* ---- values that are not finite ------------------------------------------------------------------------- */

/* A pass that stopped has not seen all values. */
static bool factor_is_finite(const double *values, size_t count)
{
    double nothing = 0.0;
    for (size_t i = 0; i < count; i++) {
        nothing += 0.0 * values[i];
    }
    return isfinite(nothing);
}

static bool factor_saw_finite(const numeric_pass *pass)
{
    const sparse_graph *graph = pass->factor->symbolic->graph;
    if (pass->overflow || !isfinite(pass->nothing)) {
        return false;
    }
    return pass->report.complete || (factor_is_finite(pass->diag, 9 * (size_t)graph->node_count) &&
                                     factor_is_finite(pass->off, 9 * (size_t)graph->edge_count));
}

/* ---- one thread, and several ------------------------------------------------------------------------------------- */

static void factor_in_order(sparse_factor *factor)
{
    const sparse_symbolic *symbolic = factor->symbolic;
    numeric_pass *pass = &factor->members[0];
    factor->eliminated = factor->passes->factor(pass, 0, symbolic->count - 1);
    pass->report.complete = factor->eliminated == 3 * symbolic->graph->node_count;
}

static void factor_begin(sparse_factor *factor, const double *diag, const double *off, double limit)
{
    for (int t = 0; t < factor->schedule.threads; t++) {
        numeric_pass *pass = &factor->members[t];
        pass->diag = diag;
        pass->off = off;
        pass->suspect_limit = limit;
        pass->report = (factor_report){.stopped = {.node = KL_NONE}};
        pass->nothing = 0.0;
        pass->overflow = false;
        pass->team = NULL;
    }
}

typedef struct factor_tasks {
    sparse_factor *factor;
    _Atomic int64_t next;
    _Atomic bool stopped;
} factor_tasks;

/* @return whether all unknowns of the supernodes were eliminated. */
static bool factor_part(numeric_pass *pass, kl_index first, kl_index last)
{
    const supernode *supernodes = pass->factor->symbolic->supernodes;
    const kl_index nodes = supernodes[last + 1].first - supernodes[first].first;
    return pass->factor->passes->factor(pass, first, last) == 3 * nodes;
}

static void factor_work_tasks(void *context, int member)
{
    factor_tasks *work = context;
    const elimination_schedule *plan = &work->factor->schedule;
    int64_t i = atomic_fetch_add(&work->next, 1);
    while (i < plan->task_count && !atomic_load(&work->stopped)) {
        const schedule_task *task = &plan->tasks[i];
        if (!factor_part(&work->factor->members[member], task->first, task->root)) {
            atomic_store(&work->stopped, true);
        }
        i = atomic_fetch_add(&work->next, 1);
    }
}

/* Each thread has kept its smallest ratios, so the smallest of all are among them. */
static void factor_merge(sparse_factor *factor)
{
    numeric_pass *first = &factor->members[0];
    for (int t = 1; t < factor->schedule.threads; t++) {
        const numeric_pass *pass = &factor->members[t];
        for (int i = 0; i < pass->report.suspect_count; i++) {
            factor_note_suspect(factor->symbolic, &first->report, pass->report.suspects[i]);
        }
        first->nothing += pass->nothing;
    }
    factor->eliminated = 3 * factor->symbolic->graph->node_count;
    first->report.complete = true;
}

/* @return whether everything was eliminated. */
static bool factor_with_team(sparse_factor *factor, team *t)
{
    const elimination_schedule *plan = &factor->schedule;
    factor_tasks work = {.factor = factor};
    team_run(t, factor_work_tasks, &work);
    numeric_pass *pass = &factor->members[0];
    pass->team = t;
    bool goes_on = !atomic_load(&work.stopped);
    for (kl_index i = 0; i < plan->top_count && goes_on; i++) {
        goes_on = factor_part(pass, plan->top[i], plan->top[i]);
    }
    pass->team = NULL;
    return goes_on;
}

/* @return whether it could be done so: with a single thread, and where the factorization stops, it is left to be done in
 * order, which alone knows what comes first. */
static bool factor_together(sparse_factor *factor)
{
    team t;
    if (factor->schedule.threads == 1 || !team_open(&t, factor->schedule.threads)) {
        return false;
    }
    const bool done = factor_with_team(factor, &t);
    team_close(&t);
    if (done) {
        factor_merge(factor);
    }
    return done;
}

/* ---- the whole --------------------------------------------------------------------------------------- */

kl_status factor_compute(sparse_factor *factor,
                         const double *diag,
                         const double *off,
                         double suspect_limit,
                         factor_report *report)
{
    factor->complete = false;
    factor_begin(factor, diag, off, suspect_limit);
    if (!factor_together(factor)) {
        factor_begin(factor, diag, off, suspect_limit);
        factor_in_order(factor);
    }
    numeric_pass *pass = &factor->members[0];
    const bool finite = factor_saw_finite(pass);
    *report = pass->report;
    report->positive_pivots = factor->eliminated;
    report->complete = report->complete && finite;
    factor->complete = report->complete;
    return finite ? KL_OK : KL_NUMERIC;
}
