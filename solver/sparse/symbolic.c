/* symbolic.c - see symbolic.h and, for the layout, supernode.h.
 *
 * The rows of the supernodes come from walking up the tree from every entry of the matrix, row by row, until a supernode is
 * met that has the row already; so each list is ascending without being sorted.
 * SPDX-License-Identifier: MIT */
#include "symbolic.h"

#include "amalgamate.h"
#include "mem.h"
#include "supernode.h"
#include "tree.h"

/* What is needed only while the object is made. */
typedef struct symbolic_making {
    arena memory;
    elimination_tree tree;
    kl_index *super;  /* node_count: the supernode of each place */
    kl_index *parent; /* of each supernode */
    kl_index *count;  /* of each supernode: rows found, then children found */
    kl_index *mark;   /* of each supernode */
} symbolic_making;

static kl_index *symbolic_indices(arena *a, int64_t count)
{
    return arena_array(a, (size_t)count, sizeof(kl_index));
}

/* Widths and numbers of rows, where each part of the lists begins, and the size of everything. */
static kl_status
symbolic_measure(sparse_symbolic *symbolic, symbolic_making *work, const kl_index *first)
{
    int64_t rows = 0;
    int64_t entries = 0;
    for (kl_index i = 0; i < symbolic->count; i++) {
        supernode *s = &symbolic->supernodes[i];
        const kl_index last = first[i + 1] - 1;
        const kl_index up = work->tree.parent[last];
        work->parent[i] = up == KL_NONE ? KL_NONE : work->super[up];
        s->first = first[i];
        s->width = first[i + 1] - first[i];
        s->rows = work->tree.column[last] - 1;
        s->row_at = (kl_index)rows;
        rows += s->rows;
        entries = supernode_is_small(s) ? entries : supernode_round(entries);
        s->panel = entries;
        entries += supernode_room(s);
        if (entries > SUPERNODE_ENTRY_LIMIT) {
            return KL_TOO_LARGE;
        }
        symbolic->widest = s->width > symbolic->widest ? s->width : symbolic->widest;
        symbolic->tallest =
            s->width + s->rows > symbolic->tallest ? s->width + s->rows : symbolic->tallest;
    }
    symbolic->entries = entries;
    symbolic->supernodes[symbolic->count] =
        (supernode){.first = symbolic->graph->node_count, .row_at = (kl_index)rows};
    return KL_OK;
}

static kl_status symbolic_find_supernodes(sparse_symbolic *symbolic, symbolic_making *work)
{
    const kl_index nodes = symbolic->graph->node_count;
    kl_index *first = symbolic_indices(&work->memory, (int64_t)nodes + 1);
    work->super = symbolic_indices(&work->memory, nodes);
    if (!first || !work->super) {
        return KL_NO_MEMORY;
    }
    symbolic->count = amalgamate(&work->tree, &work->memory, first, work->super);
    if (symbolic->count == KL_NONE) {
        return KL_NO_MEMORY;
    }
    symbolic->supernodes =
        arena_array(&symbolic->memory, (size_t)symbolic->count + 1, sizeof(supernode));
    work->parent = symbolic_indices(&work->memory, symbolic->count);
    work->count = symbolic_indices(&work->memory, symbolic->count);
    work->mark = symbolic_indices(&work->memory, symbolic->count);
    if (!symbolic->supernodes || !work->parent || !work->count || !work->mark) {
        return KL_NO_MEMORY;
    }
    return symbolic_measure(symbolic, work, first);
}

/* A row has an entry in the column of a place below: hand it to the supernodes from that place's up to its own. */
static void
symbolic_hand_row(sparse_symbolic *symbolic, symbolic_making *work, kl_index row, kl_index below)
{
    const kl_index own = work->super[row];
    for (kl_index s = work->super[below]; s != own && work->mark[s] != row; s = work->parent[s]) {
        work->mark[s] = row;
        symbolic->row[symbolic->supernodes[s].row_at + work->count[s]++] = row;
    }
}

static void symbolic_find_rows(sparse_symbolic *symbolic, symbolic_making *work)
{
    const elimination_tree *tree = &work->tree;
    for (kl_index s = 0; s < symbolic->count; s++) {
        work->mark[s] = KL_NONE;
    }
    for (kl_index row = 0; row < tree->count; row++) {
        for (kl_index i = tree->below_first[row]; i < tree->below_first[row + 1]; i++) {
            symbolic_hand_row(symbolic, work, row, tree->below[i]);
        }
    }
}

static void symbolic_find_children(sparse_symbolic *symbolic, symbolic_making *work)
{
    for (kl_index s = 0; s < symbolic->count; s++) {
        work->count[s] = 0;
    }
    for (kl_index s = 0; s < symbolic->count; s++) {
        if (work->parent[s] != KL_NONE) {
            work->count[work->parent[s]]++;
        }
    }
    kl_index at = 0;
    for (kl_index s = 0; s < symbolic->count; s++) {
        symbolic->supernodes[s].child_at = at;
        at += work->count[s];
        work->count[s] = symbolic->supernodes[s].child_at;
    }
    symbolic->supernodes[symbolic->count].child_at = at;
    for (kl_index s = 0; s < symbolic->count; s++) {
        if (work->parent[s] != KL_NONE) {
            symbolic->children[work->count[work->parent[s]]++] = s;
        }
    }
}

/* The node rows of a front, by place; what other places have there is not of this front. */
static void
symbolic_number_front(const sparse_symbolic *symbolic, const supernode *s, kl_index *local)
{
    const kl_index *row = symbolic->row + s->row_at;
    for (kl_index k = 0; k < s->width; k++) {
        local[s->first + k] = k;
    }
    for (kl_index k = 0; k < s->rows; k++) {
        local[row[k]] = s->width + k;
    }
}

/* Where the matrix's blocks go in a front's panel. */
static void symbolic_find_links(sparse_symbolic *symbolic,
                                const elimination_tree *tree,
                                const supernode *s,
                                const kl_index *local)
{
    const int64_t stride = supernode_stride(s);
    for (kl_index k = s->first; k < s->first + s->width; k++) {
        const int64_t column = 3 * (int64_t)(k - s->first) * stride;
        for (kl_index j = tree->above_first[k]; j < tree->above_first[k + 1]; j++) {
            const kl_index row = tree->above[j];
            /* The block of the matrix has the smaller node's rows. */
            const bool transposed = symbolic->order[k] < symbolic->order[row];
            symbolic->links[j] = (supernode_link){
                .source = 2 * tree->above_edge[j] + (transposed ? 1 : 0),
                .to = (kl_index)(column + 3 * (int64_t)local[row]),
            };
        }
    }
}

/* Where the matrix's blocks and the children's contributions go in each front. `local` is work, node_count. */
static void
symbolic_find_ways(sparse_symbolic *symbolic, const symbolic_making *work, kl_index *local)
{
    const elimination_tree *tree = &work->tree;
    for (kl_index i = 0; i < symbolic->count; i++) {
        supernode *s = &symbolic->supernodes[i];
        s->link_at = tree->above_first[s->first];
        symbolic_number_front(symbolic, s, local);
        symbolic_find_links(symbolic, tree, s, local);
        for (kl_index c = s->child_at; c < s[1].child_at; c++) {
            const supernode *child = &symbolic->supernodes[symbolic->children[c]];
            for (kl_index k = child->row_at; k < child->row_at + child->rows; k++) {
                symbolic->relative[k] = local[symbolic->row[k]];
            }
        }
    }
    symbolic->supernodes[symbolic->count].link_at = tree->above_first[tree->count];
}

static kl_status
symbolic_fill(sparse_symbolic *symbolic, const kl_index *order, symbolic_making *work)
{
    KL_TRY(tree_create(symbolic->graph, order, &symbolic->memory, &work->memory, &work->tree));
    symbolic->order = work->tree.node;
    symbolic->place = work->tree.place;
    KL_TRY(symbolic_find_supernodes(symbolic, work));
    const kl_index rows = symbolic->supernodes[symbolic->count].row_at;
    symbolic->row = symbolic_indices(&symbolic->memory, rows);
    symbolic->relative = symbolic_indices(&symbolic->memory, rows);
    symbolic->children = symbolic_indices(&symbolic->memory, symbolic->count);
    symbolic->links =
        arena_array(&symbolic->memory, (size_t)symbolic->graph->edge_count, sizeof(supernode_link));
    if (!symbolic->row || !symbolic->relative || !symbolic->children || !symbolic->links) {
        return KL_NO_MEMORY;
    }
    symbolic_find_rows(symbolic, work);
    symbolic_find_children(symbolic, work);
    symbolic_find_ways(symbolic, work, work->tree.column); /* no column is counted any more */
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
    symbolic_making work = {0};
    const kl_status status = symbolic_fill(symbolic, order, &work);
    arena_free(&work.memory);
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
    arena_free(&symbolic->memory);
    mem_free(symbolic);
}

const kl_index *symbolic_order(const sparse_symbolic *symbolic)
{
    return symbolic->order;
}

int64_t symbolic_entries(const sparse_symbolic *symbolic)
{
    return symbolic->entries;
}
