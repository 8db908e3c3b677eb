/* band.h - the layout shared by symbolic.c, factor.c and solve.c, and by nobody else.
 *
 * In the elimination order the nodes fall into segments that no edge joins (at least one a component). Each is
 * a band matrix of its own in LAPACK's lower band storage: column j of a segment begins at at + j (width + 1) and
 * holds the rows j … j + width. Unknown d of the node at place k of the order is 3 k + d.
 * SPDX-License-Identifier: MIT */
#ifndef KERNLINE_BAND_H
#define KERNLINE_BAND_H

#include "factor.h"

/* One gigabyte of factor. A frame of a bridge takes a thousandth of it; a web of members as wide as long that
 * comes near it would take minutes. */
#define BAND_ENTRY_LIMIT ((int64_t)1 << 27)

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

struct sparse_symbolic {
    const sparse_graph *graph; /* borrowed */
    kl_index *order;           /* node_count: the node at each place */
    kl_index *place;           /* node_count: the place of each node */
    band_segment *segments;    /* segment_count, in order */
    kl_index segment_count;
    band_place *node_at; /* node_count: where diag[node] goes */
    band_place *edge_at; /* edge_count: where off[edge] goes */
    int64_t entries;     /* of all bands */
    kl_index largest;    /* nodes of the largest segment */
};

struct sparse_factor {
    const sparse_symbolic *symbolic; /* borrowed */
    double *band;                    /* entries */
    double *panel;                   /* 3 * largest * BAND_LANES: work of the solver */
    kl_index eliminated; /* unknowns with a positive pivot, from the start of the order */
    bool complete;
    void *memory; /* what band and panel are cut from */
};

#endif
