/* supernode.h - the layout shared by symbolic.c, factor.c, solve.c and the numeric passes, and by nobody else.
 *
 * A supernode is a run of nodes, in the order of elimination, whose columns of the factor have the same rows. Its columns
 * and rows make a front: `width` nodes that are eliminated and `rows` nodes below. The front's left part is the supernode's
 * panel of the factor, column-major; the rest is its contribution to the parent, which lives on a stack until the parent has
 * taken it up (schedule.h).
 * In the panel the diagonal entry of a column holds 1 / l_jj, because the solver would divide by nothing else. A small supernode's
 * panel holds L D L' of the node's own 3x3 block, with a diagonal of 1 and 1 / d_jj in its place, and below it M, by which the
 * movements of the node follow those of the rows below: z - M' x. (The Cholesky factor's rows there would be M L D^1/2.)
 * SPDX-License-Identifier: MIT */
#ifndef KERNLINE_SUPERNODE_H
#define KERNLINE_SUPERNODE_H

#include "arena.h"
#include "factor.h"

/* Two gigabytes of factor. A frame of a bridge takes a thousandth of it. */
#define SUPERNODE_ENTRY_LIMIT ((int64_t)1 << 28)

/* Doubles of a cache line, and of the widest vectors. Fronts begin on one and have columns of whole lines. */
#define SUPERNODE_LINE 8

typedef struct supernode {
    int64_t panel;     /* its first entry */
    kl_index first;    /* place of its first node */
    kl_index width;    /* nodes eliminated */
    kl_index rows;     /* nodes below */
    kl_index row_at;   /* begin of its part of `row` and `relative` */
    kl_index link_at;  /* begin of its part of `links`; it ends where the next supernode's begins */
    kl_index child_at; /* of `children`, likewise */
} supernode;

/* An off-diagonal block of the matrix on its way into a panel. */
typedef struct supernode_link {
    kl_index source; /* 2 * edge, and 1 more when its transpose goes there */
    kl_index to;     /* entry of the panel where the block begins */
} supernode_link;

struct sparse_symbolic {
    arena memory;
    const sparse_graph *graph; /* borrowed */
    kl_index *order;           /* node_count: the node at each place */
    kl_index *place;           /* node_count: the place of each node */
    supernode *supernodes;     /* count + 1; the last one only ends the lists */
    kl_index count;
    kl_index *row;      /* places of the rows below, ascending for each supernode */
    kl_index *relative; /* the same as node rows of the parent's front */
    supernode_link *links;
    kl_index *children;
    int64_t entries;  /* of all panels */
    kl_index widest;  /* the largest width */
    kl_index tallest; /* the largest width + rows */
};

/* One node with at most two below, like nearly all of a line of members: packed without gaps, and eliminated by code of its
 * own. */
static inline bool supernode_is_small(const supernode *s)
{
    return s->width == 1 && s->rows <= 2;
}

static inline int64_t supernode_round(int64_t count)
{
    return (count + SUPERNODE_LINE - 1) / SUPERNODE_LINE * SUPERNODE_LINE;
}

/* Entries from one column of the panel to the next. */
static inline int64_t supernode_stride(const supernode *s)
{
    const int64_t rows = 3 * ((int64_t)s->width + s->rows);
    return supernode_is_small(s) ? rows : supernode_round(rows);
}

/* Entries of a panel. Fronts are computed in whole lines, past the end of the last column too; what is read there goes into
 * numbers that nobody reads, but it must not be another thread's. */
static inline int64_t supernode_room(const supernode *s)
{
    const int64_t entries = 3 * (int64_t)s->width * supernode_stride(s);
    return supernode_is_small(s) ? entries : entries + SUPERNODE_LINE;
}

/* Entries from one column of the contribution to the next. */
static inline int64_t supernode_contribution_stride(const supernode *s)
{
    const int64_t rows = 3 * (int64_t)s->rows;
    return supernode_is_small(s) ? rows : supernode_round(rows);
}

#endif
