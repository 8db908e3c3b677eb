/* symbolic.c - see symbolic.h and, for the layout, band.h.
 * SPDX-License-Identifier: MIT */
#include "symbolic.h"

#include "band.h"
#include "dense.h"
#include "mem.h"

static kl_status symbolic_allocate(sparse_symbolic *symbolic)
{
    const size_t nodes = (size_t)symbolic->graph->node_count;
    const size_t edges = (size_t)symbolic->graph->edge_count;
    symbolic->order = mem_array(nodes, sizeof(kl_index));
    symbolic->place = mem_array(nodes, sizeof(kl_index));
    symbolic->node_at = mem_array(nodes, sizeof(band_place));
    symbolic->edge_at = mem_array(edges, sizeof(band_place));
    const bool ready = symbolic->order != NULL && symbolic->place != NULL &&
                       symbolic->node_at != NULL && symbolic->edge_at != NULL;
    return ready ? KL_OK : KL_NO_MEMORY;
}

static kl_status symbolic_take_order(sparse_symbolic *symbolic, const kl_index *order)
{
    const kl_index nodes = symbolic->graph->node_count;
    for (kl_index node = 0; node < nodes; node++) {
        symbolic->place[node] = KL_NONE;
    }
    for (kl_index k = 0; k < nodes; k++) {
        const kl_index node = order[k];
        if (node < 0 || node >= nodes || symbolic->place[node] != KL_NONE) {
            return KL_MISUSE;
        }
        symbolic->order[k] = node;
        symbolic->place[node] = k;
    }
    return KL_OK;
}

/* How far from place k its edges reach forward, in places. */
static kl_index symbolic_reach(const sparse_symbolic *symbolic, kl_index k)
{
    const sparse_graph *graph = symbolic->graph;
    const kl_index node = symbolic->order[k];
    kl_index reach = 0;
    for (kl_index i = graph->first[node]; i < graph->first[node + 1]; i++) {
        const kl_index ahead = symbolic->place[graph->neighbour[i]] - k;
        reach = ahead > reach ? ahead : reach;
    }
    return reach;
}

/* The segment that begins at a place: it ends where no edge reaches beyond. */
static band_segment symbolic_segment_from(const sparse_symbolic *symbolic, kl_index begin)
{
    kl_index end = begin + 1;
    kl_index widest = 0;
    for (kl_index k = begin; k < end; k++) {
        const kl_index reach = symbolic_reach(symbolic, k);
        widest = reach > widest ? reach : widest;
        end = k + reach + 1 > end ? k + reach + 1 : end;
    }
    /* The last row of the farthest block against the first column of the nearest. */
    return (band_segment){
        .begin = begin, .end = end, .width = DENSE_SIDE * widest + DENSE_SIDE - 1, .at = 0};
}

static kl_index symbolic_count_segments(const sparse_symbolic *symbolic)
{
    kl_index count = 0;
    for (kl_index begin = 0; begin < symbolic->graph->node_count; count++) {
        begin = symbolic_segment_from(symbolic, begin).end;
    }
    return count;
}

static kl_status symbolic_make_segments(sparse_symbolic *symbolic)
{
    symbolic->segment_count = symbolic_count_segments(symbolic);
    symbolic->segments = mem_array((size_t)symbolic->segment_count, sizeof(band_segment));
    if (symbolic->segments == NULL) {
        return KL_NO_MEMORY;
    }
    kl_index begin = 0;
    for (kl_index s = 0; s < symbolic->segment_count; s++) {
        band_segment *segment = &symbolic->segments[s];
        *segment = symbolic_segment_from(symbolic, begin);
        begin = segment->end;
        const kl_index nodes = segment->end - segment->begin;
        symbolic->largest = nodes > symbolic->largest ? nodes : symbolic->largest;
        segment->at = symbolic->entries;
        symbolic->entries += (int64_t)DENSE_SIDE * nodes * ((int64_t)segment->width + 1);
        if (symbolic->entries > BAND_ENTRY_LIMIT) {
            return KL_TOO_LARGE;
        }
    }
    return KL_OK;
}

/* Where the block of rows of place `row` and columns of place `column` begins; row >= column. */
static band_place symbolic_block_place(const band_segment *segment, kl_index row, kl_index column)
{
    const int64_t from = (int64_t)DENSE_SIDE * (column - segment->begin);
    const int64_t below = (int64_t)DENSE_SIDE * (row - column);
    const int64_t at = segment->at + from * ((int64_t)segment->width + 1) + below;
    return (band_place){.at = at, .width = segment->width, .transposed = false};
}

static void symbolic_place_blocks(sparse_symbolic *symbolic, const band_segment *segment)
{
    const sparse_graph *graph = symbolic->graph;
    for (kl_index k = segment->begin; k < segment->end; k++) {
        const kl_index node = symbolic->order[k];
        symbolic->node_at[node] = symbolic_block_place(segment, k, k);
        for (kl_index i = graph->first[node]; i < graph->first[node + 1]; i++) {
            const kl_index other = graph->neighbour[i];
            const kl_index row = symbolic->place[other];
            if (row > k) {
                band_place *at = &symbolic->edge_at[graph->edge_of[i]];
                *at = symbolic_block_place(segment, row, k);
                /* The value block has the smaller node's rows. */
                at->transposed = node < other;
            }
        }
    }
}

static kl_status symbolic_fill(sparse_symbolic *symbolic, const kl_index *order)
{
    KL_TRY(symbolic_allocate(symbolic));
    KL_TRY(symbolic_take_order(symbolic, order));
    KL_TRY(symbolic_make_segments(symbolic));
    for (kl_index s = 0; s < symbolic->segment_count; s++) {
        symbolic_place_blocks(symbolic, &symbolic->segments[s]);
    }
    return KL_OK;
}

kl_status symbolic_create(const sparse_graph *graph, const kl_index *order, sparse_symbolic **out)
{
    *out = NULL;
    sparse_symbolic *symbolic = mem_array(1, sizeof *symbolic);
    if (symbolic == NULL) {
        return KL_NO_MEMORY;
    }
    symbolic->graph = graph;
    const kl_status status = symbolic_fill(symbolic, order);
    if (status != KL_OK) {
        symbolic_destroy(symbolic);
        return status;
    }
    *out = symbolic;
    return KL_OK;
}

void symbolic_destroy(sparse_symbolic *symbolic)
{
    if (symbolic == NULL) {
        return;
    }
    mem_free(symbolic->order);
    mem_free(symbolic->place);
    mem_free(symbolic->segments);
    mem_free(symbolic->node_at);
    mem_free(symbolic->edge_at);
    mem_free(symbolic);
}
