/* solve.c - see solve.h.
 *
 * Columns are carried through the factor in panels: the numbers of one row stand side by side, so that each
 * entry of the factor is read once for all of them. Every lane does the same operations in the same order, in a
 * panel of eight as in a panel of one, which makes an answer independent of its company.
 * SPDX-License-Identifier: MIT */
#include "solve.h"

#include <math.h>
#include <string.h>

#include "band.h"
#include "dense.h"

/* The first `rows` rows and columns of one segment's factor. */
typedef struct solve_band {
    const double *band;
    int64_t width;
    int64_t rows;
} solve_band;

static inline int64_t solve_last_row(const solve_band *b, int64_t column)
{
    const int64_t below = b->rows - 1 - column;
    return below < b->width ? below : b->width;
}

/* L y = x, column by column. */
static inline void solve_forward(const solve_band *b, double *x, int lanes)
{
    for (int64_t j = 0; j < b->rows; j++) {
        const double *column = b->band + j * (b->width + 1);
        const int64_t last = solve_last_row(b, j);
        double *pivot_row = x + j * lanes;
        double y[BAND_LANES];
        for (int c = 0; c < lanes; c++) {
            y[c] = pivot_row[c] / column[0];
            pivot_row[c] = y[c];
        }
        for (int64_t i = 1; i <= last; i++) {
            double *row = pivot_row + i * lanes;
            for (int c = 0; c < lanes; c++) {
                row[c] -= column[i] * y[c];
            }
        }
    }
}

/* L' z = y, from the last row up. */
static inline void solve_backward(const solve_band *b, double *x, int lanes)
{
    for (int64_t j = b->rows - 1; j >= 0; j--) {
        const double *column = b->band + j * (b->width + 1);
        const int64_t last = solve_last_row(b, j);
        double *pivot_row = x + j * lanes;
        double sum[BAND_LANES];
        for (int c = 0; c < lanes; c++) {
            sum[c] = pivot_row[c];
        }
        for (int64_t i = 1; i <= last; i++) {
            const double *row = pivot_row + i * lanes;
            for (int c = 0; c < lanes; c++) {
                sum[c] -= column[i] * row[c];
            }
        }
        for (int c = 0; c < lanes; c++) {
            pivot_row[c] = sum[c] / column[0];
        }
    }
}

/* Bring a segment's rows of `lanes` columns into the panel, or back. */
static inline void solve_gather(const sparse_symbolic *symbolic,
                                const band_segment *segment,
                                const double *x,
                                double *panel,
                                int lanes)
{
    const size_t stride = DENSE_SIDE * (size_t)symbolic->graph->node_count;
    for (kl_index k = segment->begin; k < segment->end; k++) {
        const double *from = x + DENSE_SIDE * (size_t)symbolic->order[k];
        for (int d = 0; d < DENSE_SIDE; d++) {
            for (int c = 0; c < lanes; c++) {
                *panel++ = from[(size_t)d + stride * (size_t)c];
            }
        }
    }
}

static inline bool solve_scatter(const sparse_symbolic *symbolic,
                                 const band_segment *segment,
                                 const double *panel,
                                 double *x,
                                 int lanes)
{
    const size_t stride = DENSE_SIDE * (size_t)symbolic->graph->node_count;
    bool finite = true;
    for (kl_index k = segment->begin; k < segment->end; k++) {
        double *to = x + DENSE_SIDE * (size_t)symbolic->order[k];
        for (int d = 0; d < DENSE_SIDE; d++) {
            for (int c = 0; c < lanes; c++) {
                finite = finite && isfinite(*panel);
                to[(size_t)d + stride * (size_t)c] = *panel++;
            }
        }
    }
    return finite;
}

/* Inlined with a constant number of lanes, so that the compiler unrolls them. */
static inline bool solve_panel(sparse_factor *factor, double *x, int lanes)
{
    const sparse_symbolic *symbolic = factor->symbolic;
    bool finite = true;
    for (kl_index s = 0; s < symbolic->segment_count; s++) {
        const band_segment *segment = &symbolic->segments[s];
        const solve_band b = {
            .band = factor->band + segment->at,
            .width = segment->width,
            .rows = (int64_t)DENSE_SIDE * (segment->end - segment->begin),
        };
        solve_gather(symbolic, segment, x, factor->panel, lanes);
        solve_forward(&b, factor->panel, lanes);
        solve_backward(&b, factor->panel, lanes);
        finite = solve_scatter(symbolic, segment, factor->panel, x, lanes) && finite;
    }
    return finite;
}

static bool solve_eight(sparse_factor *factor, double *x)
{
    return solve_panel(factor, x, BAND_LANES);
}

static bool solve_one(sparse_factor *factor, double *x)
{
    return solve_panel(factor, x, 1);
}

kl_status solve_columns(sparse_factor *factor, double *x, kl_index columns)
{
    if (!factor->complete || columns < 0) {
        return KL_MISUSE;
    }
    const size_t stride = DENSE_SIDE * (size_t)factor->symbolic->graph->node_count;
    bool finite = true;
    kl_index column = 0;
    for (; columns - column >= BAND_LANES; column += BAND_LANES) {
        finite = solve_eight(factor, x + stride * (size_t)column) && finite;
    }
    for (; column < columns; column++) {
        finite = solve_one(factor, x + stride * (size_t)column) && finite;
    }
    return finite ? KL_OK : KL_NUMERIC;
}

/* The segment of a place of the order. */
static const band_segment *solve_segment_of(const sparse_symbolic *symbolic, kl_index place)
{
    kl_index s = 0;
    while (symbolic->segments[s].end <= place) {
        s++;
    }
    return &symbolic->segments[s];
}

/* With the leading part A11 = L11 L11' and row j of the factor l = L11^-1 a1j, the mode (-A11^-1 a1j, 1, 0) is
 * (-L11'^-1 l, 1, 0): one backward pass over the rows before j. */
static void
solve_mode_of_row(const sparse_factor *factor, const band_segment *segment, int64_t j, double *x)
{
    const double *band = factor->band + segment->at;
    const int64_t width = segment->width;
    const solve_band leading = {.band = band, .width = width, .rows = j};
    for (int64_t k = 0; k < j; k++) {
        x[k] = j - k <= width ? -band[k * (width + 1) + (j - k)] : 0.0;
    }
    solve_backward(&leading, x, 1);
    x[j] = 1.0;
}

kl_status solve_pivot_mode(sparse_factor *factor, const factor_pivot *pivot, double *mode)
{
    const sparse_symbolic *symbolic = factor->symbolic;
    const kl_index nodes = symbolic->graph->node_count;
    const bool known = pivot->node >= 0 && pivot->node < nodes && pivot->direction >= 0 &&
                       pivot->direction < DENSE_SIDE;
    if (!known) {
        return KL_MISUSE;
    }
    const kl_index place = symbolic->place[pivot->node];
    const int64_t unknown = (int64_t)DENSE_SIDE * place + pivot->direction;
    if (unknown > factor->eliminated) {
        return KL_MISUSE;
    }
    const band_segment *segment = solve_segment_of(symbolic, place);
    const size_t rows = DENSE_SIDE * (size_t)(segment->end - segment->begin);
    memset(factor->panel, 0, rows * sizeof(double));
    solve_mode_of_row(factor, segment, unknown - (int64_t)DENSE_SIDE * segment->begin,
                      factor->panel);
    memset(mode, 0, DENSE_SIDE * (size_t)nodes * sizeof(double));
    return solve_scatter(symbolic, segment, factor->panel, mode, 1) ? KL_OK : KL_NUMERIC;
}

/* The larger of two, NAN when one is. */
static double solve_larger(double a, double b)
{
    return isnan(a) || a > b ? a : b;
}

static double solve_largest(const double *values, size_t count)
{
    double largest = 0.0;
    for (size_t i = 0; i < count; i++) {
        largest = solve_larger(largest, fabs(values[i]));
    }
    return largest;
}

static void solve_add_row_sums(const double *block, bool transposed, double *sums)
{
    for (int i = 0; i < DENSE_SIDE; i++) {
        for (int j = 0; j < DENSE_SIDE; j++) {
            sums[i] += fabs(transposed ? block[DENSE_SIDE * j + i] : block[DENSE_SIDE * i + j]);
        }
    }
}

/* |A| in the maximum norm: the largest sum of a row. */
static double solve_matrix_norm(const sparse_graph *graph, const double *diag, const double *off)
{
    double norm = 0.0;
    for (kl_index node = 0; node < graph->node_count; node++) {
        double sums[DENSE_SIDE] = {0.0};
        solve_add_row_sums(diag + DENSE_BLOCK * (size_t)node, false, sums);
        for (kl_index i = graph->first[node]; i < graph->first[node + 1]; i++) {
            solve_add_row_sums(off + DENSE_BLOCK * (size_t)graph->edge_of[i],
                               graph->neighbour[i] < node, sums);
        }
        norm = solve_larger(norm, solve_largest(sums, DENSE_SIDE));
    }
    return norm;
}

double solve_residual(const sparse_graph *graph,
                      const double *diag,
                      const double *off,
                      const double *x,
                      const double *b,
                      double *work,
                      kl_index columns)
{
    const size_t rows = DENSE_SIDE * (size_t)graph->node_count;
    const double norm = solve_matrix_norm(graph, diag, off);
    double worst = 0.0;
    for (kl_index column = 0; column < columns; column++) {
        const double *x_column = x + rows * (size_t)column;
        const double *b_column = b + rows * (size_t)column;
        graph_multiply(graph, diag, off, x_column, work, 1);
        for (size_t i = 0; i < rows; i++) {
            work[i] -= b_column[i];
        }
        const double size = norm * solve_largest(x_column, rows) + solve_largest(b_column, rows);
        const double residual = solve_largest(work, rows);
        /* Nothing asked and nothing answered: no residual rather than 0/0. */
        worst = solve_larger(worst, size > 0.0 ? residual / size : residual);
    }
    return worst;
}
