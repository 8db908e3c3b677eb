/* band_solver.c - see band_solver.h.
 *
 * In the order of elimination the nodes fall into segments that no edge joins. Each is a band matrix of its own in LAPACK's
 * lower band storage: column j of a segment begins at at + j (width + 1) and holds the rows j … j + width. Unknown d of the
 * node at place k of the order is 3 k + d.
 * SPDX-License-Identifier: MIT */
#include "band_solver.h"

#include <math.h>
#include <string.h>

#include "dense.h"
#include "lapack.h"
#include "mem.h"
#include "rcm.h"

#define BAND_ENTRY_LIMIT ((int64_t)1 << 30)

/* Right-hand sides that are carried through the factor side by side. */
#define BAND_LANES 8

typedef struct band_segment {
    kl_index begin; /* places begin … end - 1 of the order */
    kl_index end;
    int32_t width; /* unknowns below the diagonal */
    int64_t at;    /* of its first entry */
} band_segment;

/* Where the first entry of a 3x3 block goes; entry (i, j) of the block is at + j width + i from there, or
 * (j, i) when the block is stored the other way. */
typedef struct band_place {
    int64_t at;
    int32_t width;
    bool transposed;
} band_place;

struct band_solver {
    const sparse_graph *graph; /* borrowed */
    kl_index *order;           /* node_count: the node at each place */
    kl_index *place;           /* node_count: the place of each node */
    band_segment *segments;    /* segment_count, in order */
    kl_index segment_count;
    band_place *node_at; /* node_count: where diag[node] goes */
    band_place *edge_at; /* edge_count: where off[edge] goes */
    int64_t entries;     /* of all bands */
    kl_index largest;    /* nodes of the largest segment */
    double *band;        /* entries */
    double *panel;       /* 3 * largest * BAND_LANES: work of the solver */
};

/* How far from place k its edges reach forward, in places. */
static kl_index band_reach(const band_solver *solver, kl_index k)
{
    const sparse_graph *graph = solver->graph;
    const kl_index node = solver->order[k];
    kl_index reach = 0;
    for (kl_index i = graph->first[node]; i < graph->first[node + 1]; i++) {
        const kl_index ahead = solver->place[graph->neighbour[i]] - k;
        reach = ahead > reach ? ahead : reach;
    }
    return reach;
}

/* The segment that begins at a place: it ends where no edge reaches beyond. */
static band_segment band_segment_from(const band_solver *solver, kl_index begin)
{
    kl_index end = begin + 1;
    kl_index widest = 0;
    for (kl_index k = begin; k < end; k++) {
        const kl_index reach = band_reach(solver, k);
        widest = reach > widest ? reach : widest;
        end = k + reach + 1 > end ? k + reach + 1 : end;
    }
    /* The last row of the farthest block against the first column of the nearest. */
    return (band_segment){
        .begin = begin, .end = end, .width = DENSE_SIDE * widest + DENSE_SIDE - 1, .at = 0};
}

static kl_index band_count_segments(const band_solver *solver)
{
    kl_index count = 0;
    for (kl_index begin = 0; begin < solver->graph->node_count; count++) {
        begin = band_segment_from(solver, begin).end;
    }
    return count;
}

static kl_status band_make_segments(band_solver *solver)
{
    solver->segment_count = band_count_segments(solver);
    solver->segments = mem_array((size_t)solver->segment_count, sizeof(band_segment));
    if (solver->segments == NULL) {
        return KL_NO_MEMORY;
    }
    kl_index begin = 0;
    for (kl_index s = 0; s < solver->segment_count; s++) {
        band_segment *segment = &solver->segments[s];
        *segment = band_segment_from(solver, begin);
        begin = segment->end;
        const kl_index nodes = segment->end - segment->begin;
        solver->largest = nodes > solver->largest ? nodes : solver->largest;
        segment->at = solver->entries;
        solver->entries += (int64_t)DENSE_SIDE * nodes * ((int64_t)segment->width + 1);
        if (solver->entries > BAND_ENTRY_LIMIT) {
            return KL_TOO_LARGE;
        }
    }
    return KL_OK;
}

/* Where the block of rows of place `row` and columns of place `column` begins; row >= column. */
static band_place band_block_place(const band_segment *segment, kl_index row, kl_index column)
{
    const int64_t from = (int64_t)DENSE_SIDE * (column - segment->begin);
    const int64_t below = (int64_t)DENSE_SIDE * (row - column);
    const int64_t at = segment->at + from * ((int64_t)segment->width + 1) + below;
    return (band_place){.at = at, .width = segment->width, .transposed = false};
}

static void band_place_blocks(band_solver *solver, const band_segment *segment)
{
    const sparse_graph *graph = solver->graph;
    for (kl_index k = segment->begin; k < segment->end; k++) {
        const kl_index node = solver->order[k];
        solver->node_at[node] = band_block_place(segment, k, k);
        for (kl_index i = graph->first[node]; i < graph->first[node + 1]; i++) {
            const kl_index other = graph->neighbour[i];
            const kl_index row = solver->place[other];
            if (row > k) {
                band_place *at = &solver->edge_at[graph->edge_of[i]];
                *at = band_block_place(segment, row, k);
                /* The value block has the smaller node's rows. */
                at->transposed = node < other;
            }
        }
    }
}

static kl_status band_analyse(band_solver *solver)
{
    const size_t nodes = (size_t)solver->graph->node_count;
    const size_t edges = (size_t)solver->graph->edge_count;
    solver->order = mem_array(nodes, sizeof(kl_index));
    solver->place = mem_array(nodes, sizeof(kl_index));
    solver->node_at = mem_array(nodes, sizeof(band_place));
    solver->edge_at = mem_array(edges, sizeof(band_place));
    if (!solver->order || !solver->place || !solver->node_at || !solver->edge_at) {
        return KL_NO_MEMORY;
    }
    KL_TRY(rcm_nodes(solver->graph, solver->order));
    for (size_t k = 0; k < nodes; k++) {
        solver->place[solver->order[k]] = (kl_index)k;
    }
    KL_TRY(band_make_segments(solver));
    for (kl_index s = 0; s < solver->segment_count; s++) {
        band_place_blocks(solver, &solver->segments[s]);
    }
    solver->band = mem_array((size_t)solver->entries, sizeof(double));
    solver->panel = mem_array(DENSE_SIDE * (size_t)solver->largest * BAND_LANES, sizeof(double));
    return solver->band && solver->panel ? KL_OK : KL_NO_MEMORY;
}

kl_status band_create(const sparse_graph *graph, band_solver **out)
{
    *out = mem_array(1, sizeof **out);
    if (*out == NULL) {
        return KL_NO_MEMORY;
    }
    (*out)->graph = graph;
    const kl_status status = band_analyse(*out);
    if (status != KL_OK) {
        band_destroy(*out);
        *out = NULL;
    }
    return status;
}

void band_destroy(band_solver *solver)
{
    if (solver == NULL) {
        return;
    }
    mem_free(solver->order);
    mem_free(solver->place);
    mem_free(solver->segments);
    mem_free(solver->node_at);
    mem_free(solver->edge_at);
    mem_free(solver->band);
    mem_free(solver->panel);
    mem_free(solver);
}

static void band_put_diagonal(double *band, band_place place, const double *block)
{
    for (int j = 0; j < DENSE_SIDE; j++) {
        for (int i = j; i < DENSE_SIDE; i++) {
            band[place.at + (int64_t)j * place.width + i] = block[DENSE_SIDE * i + j];
        }
    }
}

static void band_put_block(double *band, band_place place, const double *block)
{
    const int row_step = place.transposed ? 1 : DENSE_SIDE;
    const int column_step = place.transposed ? DENSE_SIDE : 1;
    for (int j = 0; j < DENSE_SIDE; j++) {
        for (int i = 0; i < DENSE_SIDE; i++) {
            band[place.at + (int64_t)j * place.width + i] = block[row_step * i + column_step * j];
        }
    }
}

kl_status band_factor(band_solver *solver, const double *diag, const double *off)
{
    memset(solver->band, 0, (size_t)solver->entries * sizeof(double));
    for (kl_index node = 0; node < solver->graph->node_count; node++) {
        band_put_diagonal(solver->band, solver->node_at[node], diag + DENSE_BLOCK * (size_t)node);
    }
    for (kl_index edge = 0; edge < solver->graph->edge_count; edge++) {
        band_put_block(solver->band, solver->edge_at[edge], off + DENSE_BLOCK * (size_t)edge);
    }
    for (kl_index s = 0; s < solver->segment_count; s++) {
        const band_segment *segment = &solver->segments[s];
        int64_t stopped = -1;
        KL_TRY(lapack_band_factor((int64_t)DENSE_SIDE * (segment->end - segment->begin),
                                  segment->width, solver->band + segment->at, &stopped));
        if (stopped >= 0) {
            return KL_NUMERIC;
        }
    }
    return KL_OK;
}

int64_t band_entries(const band_solver *solver)
{
    return solver->entries;
}

/* The first `rows` rows and columns of one segment's solver. */
typedef struct band_part {
    const double *band;
    int64_t width;
    int64_t rows;
} band_part;

static inline int64_t band_solve_last_row(const band_part *b, int64_t column)
{
    const int64_t below = b->rows - 1 - column;
    return below < b->width ? below : b->width;
}

/* L y = x, column by column. */
static inline void band_solve_forward(const band_part *b, double *x, int lanes)
{
    for (int64_t j = 0; j < b->rows; j++) {
        const double *column = b->band + j * (b->width + 1);
        const int64_t last = band_solve_last_row(b, j);
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
static inline void band_solve_backward(const band_part *b, double *x, int lanes)
{
    for (int64_t j = b->rows - 1; j >= 0; j--) {
        const double *column = b->band + j * (b->width + 1);
        const int64_t last = band_solve_last_row(b, j);
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
static inline void band_solve_gather(const band_solver *solver,
                                     const band_segment *segment,
                                     const double *x,
                                     double *panel,
                                     int lanes)
{
    const size_t stride = DENSE_SIDE * (size_t)solver->graph->node_count;
    for (kl_index k = segment->begin; k < segment->end; k++) {
        const double *from = x + DENSE_SIDE * (size_t)solver->order[k];
        for (int d = 0; d < DENSE_SIDE; d++) {
            for (int c = 0; c < lanes; c++) {
                *panel++ = from[(size_t)d + stride * (size_t)c];
            }
        }
    }
}

static inline bool band_solve_scatter(const band_solver *solver,
                                      const band_segment *segment,
                                      const double *panel,
                                      double *x,
                                      int lanes)
{
    const size_t stride = DENSE_SIDE * (size_t)solver->graph->node_count;
    bool finite = true;
    for (kl_index k = segment->begin; k < segment->end; k++) {
        double *to = x + DENSE_SIDE * (size_t)solver->order[k];
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
static inline bool band_solve_panel(band_solver *solver, double *x, int lanes)
{
    bool finite = true;
    for (kl_index s = 0; s < solver->segment_count; s++) {
        const band_segment *segment = &solver->segments[s];
        const band_part b = {
            .band = solver->band + segment->at,
            .width = segment->width,
            .rows = (int64_t)DENSE_SIDE * (segment->end - segment->begin),
        };
        band_solve_gather(solver, segment, x, solver->panel, lanes);
        band_solve_forward(&b, solver->panel, lanes);
        band_solve_backward(&b, solver->panel, lanes);
        finite = band_solve_scatter(solver, segment, solver->panel, x, lanes) && finite;
    }
    return finite;
}

void band_solve(band_solver *solver, double *x, kl_index columns)
{
    const size_t stride = DENSE_SIDE * (size_t)solver->graph->node_count;
    kl_index column = 0;
    for (; columns - column >= BAND_LANES; column += BAND_LANES) {
        band_solve_panel(solver, x + stride * (size_t)column, BAND_LANES);
    }
    for (; column < columns; column++) {
        band_solve_panel(solver, x + stride * (size_t)column, 1);
    }
}
