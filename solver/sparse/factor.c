/* factor.c - see factor.h: the frame around the numeric passes (numeric.h).
 * SPDX-License-Identifier: MIT */
#include "factor.h"

#include <math.h>

#include "mem.h"
#include "numeric.h"
#include "pages.h"

/* Fronts are computed in whole lines of the cache, past the end of the last panel or contribution. */
#define FACTOR_SLACK (4 * SUPERNODE_LINE)

/* ---- memory ------------------------------------------------------------------------------------------ */

/* Entries of the slivers of the front that needs most. */
static int64_t factor_slivers(const sparse_symbolic *symbolic)
{
    int64_t most = 0;
    for (kl_index i = 0; i < symbolic->count; i++) {
        const supernode *s = &symbolic->supernodes[i];
        const int64_t pivots = 3 * (int64_t)s->width;
        const int64_t rows = pivots + 3 * (int64_t)s->rows + 2 * NUMERIC_SLIVER;
        const int64_t entries = pivots < NUMERIC_WIDE ? 0 : pivots * rows;
        most = entries > most ? entries : most;
    }
    return supernode_round(most);
}

static kl_status factor_allocate(sparse_factor *factor)
{
    const sparse_symbolic *symbolic = factor->symbolic;
    const int64_t panels = supernode_round(symbolic->entries) + FACTOR_SLACK;
    const int64_t stacks = supernode_round(symbolic->stack) + FACTOR_SLACK;
    const int64_t front = supernode_round(3 * (int64_t)symbolic->tallest * NUMERIC_LANES);
    const int64_t slivers = factor_slivers(symbolic);
    const int64_t columns = 3 * (int64_t)symbolic->graph->node_count * NUMERIC_LANES;
    factor->runs = mem_array(2 * (size_t)symbolic->tallest, sizeof(kl_index));
    factor->panels =
        pages_array((size_t)(panels + stacks + slivers + front + columns), &factor->memory);
    if (factor->runs == NULL || factor->panels == NULL) {
        return KL_NO_MEMORY;
    }
    factor->stacks = factor->panels + panels;
    factor->slivers = factor->stacks + stacks;
    factor->front = factor->slivers + slivers;
    factor->columns = factor->front + front;
    return KL_OK;
}

kl_status factor_create(const sparse_symbolic *symbolic, sparse_factor **out)
{
    *out = NULL;
    sparse_factor *factor = mem_array(1, sizeof *factor);
    if (factor == NULL) {
        return KL_NO_MEMORY;
    }
    factor->symbolic = symbolic;
    factor->passes = passes_for_machine();
    const kl_status status = factor_allocate(factor);
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
    mem_free(factor->runs);
    mem_free(factor->memory);
    mem_free(factor);
}

/* ---- pivots ------------------------------------------------------------------------------------------ */

/* Keep the smallest ratios, ascending; of equal ones the first in the order of elimination. */
static void factor_note_suspect(factor_report *report, factor_pivot pivot)
{
    int at = report->suspect_count;
    if (at == FACTOR_SUSPECTS) {
        at--;
        if (!(pivot.ratio < report->suspects[at].ratio)) {
            return;
        }
    } else {
        report->suspect_count++;
    }
    for (; at > 0 && pivot.ratio < report->suspects[at - 1].ratio; at--) {
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
            factor_note_suspect(pass->report, told);
        }
        return true;
    }
    pass->report->stopped = told;
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
    return pass->report->complete || (factor_is_finite(pass->diag, 9 * (size_t)graph->node_count) &&
                                      factor_is_finite(pass->off, 9 * (size_t)graph->edge_count));
}

/* ---- the whole --------------------------------------------------------------------------------------- */

kl_status factor_compute(sparse_factor *factor,
                         const double *diag,
                         const double *off,
                         double suspect_limit,
                         factor_report *report)
{
    *report = (factor_report){.stopped = {.node = KL_NONE}};
    factor->complete = false;
    factor->eliminated = 0;
    numeric_pass pass = {
        .factor = factor,
        .runs = factor->runs,
        .diag = diag,
        .off = off,
        .suspect_limit = suspect_limit,
        .report = report,
    };
    factor->passes->factor(&pass);
    report->positive_pivots = factor->eliminated;
    if (!factor_saw_finite(&pass)) {
        report->complete = false;
        return KL_NUMERIC;
    }
    factor->complete = report->complete;
    return KL_OK;
}
