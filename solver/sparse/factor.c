/* factor.c - see factor.h: banded Cholesky, a segment at a time, through LAPACK.
 * SPDX-License-Identifier: MIT */
#include "factor.h"

#include <math.h>
#include <string.h>

#include "band.h"
#include "dense.h"
#include "lapack.h"
#include "mem.h"

/* Doubles of a cache line. Arrays begin on one, so that vector code meets the same alignment in every run. */
#define FACTOR_LINE 8

static double *factor_align(double *memory)
{
    const uintptr_t line = FACTOR_LINE * sizeof(double);
    const uintptr_t past = (uintptr_t)memory % line;
    return past == 0 ? memory : memory + (line - past) / sizeof(double);
}

kl_status factor_create(const sparse_symbolic *symbolic, sparse_factor **out)
{
    *out = NULL;
    sparse_factor *factor = mem_array(1, sizeof *factor);
    if (factor == NULL) {
        return KL_NO_MEMORY;
    }
    const size_t band = (size_t)(symbolic->entries + FACTOR_LINE - 1) / FACTOR_LINE * FACTOR_LINE;
    const size_t panel = (size_t)DENSE_SIDE * (size_t)symbolic->largest * BAND_LANES;
    factor->memory = mem_array(band + panel + FACTOR_LINE, sizeof(double));
    if (factor->memory == NULL) {
        factor_destroy(factor);
        return KL_NO_MEMORY;
    }
    factor->symbolic = symbolic;
    factor->band = factor_align(factor->memory);
    factor->panel = factor->band + band;
    *out = factor;
    return KL_OK;
}

void factor_destroy(sparse_factor *factor)
{
    if (factor == NULL) {
        return;
    }
    mem_free(factor->memory);
    mem_free(factor);
}

static bool factor_is_finite(const double *values, size_t count)
{
    for (size_t i = 0; i < count; i++) {
        if (!isfinite(values[i])) {
            return false;
        }
    }
    return true;
}

static void factor_put_diagonal(double *band, band_place place, const double *block)
{
    for (int j = 0; j < DENSE_SIDE; j++) {
        for (int i = j; i < DENSE_SIDE; i++) {
            band[place.at + (int64_t)j * place.width + i] = block[DENSE_SIDE * i + j];
        }
    }
}

static void factor_put_block(double *band, band_place place, const double *block)
{
    const int row_step = place.transposed ? 1 : DENSE_SIDE;
    const int column_step = place.transposed ? DENSE_SIDE : 1;
    for (int j = 0; j < DENSE_SIDE; j++) {
        for (int i = 0; i < DENSE_SIDE; i++) {
            band[place.at + (int64_t)j * place.width + i] = block[row_step * i + column_step * j];
        }
    }
}

static void factor_put_values(sparse_factor *factor, const double *diag, const double *off)
{
    const sparse_symbolic *symbolic = factor->symbolic;
    memset(factor->band, 0, (size_t)symbolic->entries * sizeof(double));
    for (kl_index node = 0; node < symbolic->graph->node_count; node++) {
        factor_put_diagonal(factor->band, symbolic->node_at[node],
                            diag + DENSE_BLOCK * (size_t)node);
    }
    for (kl_index edge = 0; edge < symbolic->graph->edge_count; edge++) {
        factor_put_block(factor->band, symbolic->edge_at[edge], off + DENSE_BLOCK * (size_t)edge);
    }
}

/* The original diagonal of unknown `row` of a segment. */
static double factor_original(const sparse_symbolic *symbolic,
                              const band_segment *segment,
                              int64_t row,
                              const double *diag)
{
    const kl_index node = symbolic->order[segment->begin + row / DENSE_SIDE];
    return diag[DENSE_BLOCK * (size_t)node + (DENSE_SIDE + 1) * (size_t)(row % DENSE_SIDE)];
}

static factor_pivot factor_make_pivot(const sparse_symbolic *symbolic,
                                      const band_segment *segment,
                                      int64_t row,
                                      double pivot,
                                      double original)
{
    return (factor_pivot){
        .node = symbolic->order[segment->begin + row / DENSE_SIDE],
        .direction = (int)(row % DENSE_SIDE),
        .ratio = original > 0.0 ? pivot / original : 0.0,
    };
}

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

/* Look through the pivots of the first `rows` unknowns of a segment.
 * @return KL_NUMERIC when one is not finite. */
static kl_status factor_judge(const sparse_factor *factor,
                              const band_segment *segment,
                              int64_t rows,
                              const double *diag,
                              double suspect_limit,
                              factor_report *report)
{
    const double *column = factor->band + segment->at;
    for (int64_t row = 0; row < rows; row++, column += (int64_t)segment->width + 1) {
        const double pivot = column[0] * column[0];
        const double original = factor_original(factor->symbolic, segment, row, diag);
        if (!isfinite(pivot)) {
            return KL_NUMERIC;
        }
        if (pivot < suspect_limit * original) {
            factor_note_suspect(report,
                                factor_make_pivot(factor->symbolic, segment, row, pivot, original));
        }
    }
    return KL_OK;
}

/* The pivot at which the factorization stopped, from the definition: a_jj - sum over k < j of l_jk^2. All
 * columns before j are final then, and so are their entries in row j. */
static double factor_stopped_pivot(const sparse_factor *factor,
                                   const band_segment *segment,
                                   int64_t row,
                                   double original)
{
    const int64_t width = segment->width;
    double pivot = original;
    for (int64_t k = row > width ? row - width : 0; k < row; k++) {
        const double entry = factor->band[segment->at + k * (width + 1) + (row - k)];
        pivot -= entry * entry;
    }
    return pivot;
}

static kl_status factor_stop(const sparse_factor *factor,
                             const band_segment *segment,
                             int64_t row,
                             const double *diag,
                             factor_report *report)
{
    const double original = factor_original(factor->symbolic, segment, row, diag);
    const double pivot = factor_stopped_pivot(factor, segment, row, original);
    report->complete = false;
    report->stopped = factor_make_pivot(factor->symbolic, segment, row, pivot, original);
    return isfinite(pivot) ? KL_OK : KL_NUMERIC;
}

static kl_status factor_segment(sparse_factor *factor,
                                const band_segment *segment,
                                const double *diag,
                                double suspect_limit,
                                factor_report *report)
{
    const int64_t unknowns = (int64_t)DENSE_SIDE * (segment->end - segment->begin);
    int64_t stopped = -1;
    KL_TRY(lapack_band_factor(unknowns, segment->width, factor->band + segment->at, &stopped));
    const int64_t rows = stopped < 0 ? unknowns : stopped;
    KL_TRY(factor_judge(factor, segment, rows, diag, suspect_limit, report));
    report->positive_pivots += (kl_index)rows;
    factor->eliminated = report->positive_pivots;
    return stopped < 0 ? KL_OK : factor_stop(factor, segment, stopped, diag, report);
}

kl_status factor_compute(sparse_factor *factor,
                         const double *diag,
                         const double *off,
                         double suspect_limit,
                         factor_report *report)
{
    const sparse_symbolic *symbolic = factor->symbolic;
    *report = (factor_report){.stopped = {.node = KL_NONE}};
    factor->complete = false;
    factor->eliminated = 0;
    const size_t nodes = (size_t)symbolic->graph->node_count;
    const size_t edges = (size_t)symbolic->graph->edge_count;
    if (!factor_is_finite(diag, DENSE_BLOCK * nodes) ||
        !factor_is_finite(off, DENSE_BLOCK * edges)) {
        return KL_NUMERIC;
    }
    factor_put_values(factor, diag, off);
    report->complete = true;
    for (kl_index s = 0; s < symbolic->segment_count && report->complete; s++) {
        const kl_status status =
            factor_segment(factor, &symbolic->segments[s], diag, suspect_limit, report);
        if (status != KL_OK) {
            report->complete = false;
            return status;
        }
    }
    factor->complete = report->complete;
    return KL_OK;
}
