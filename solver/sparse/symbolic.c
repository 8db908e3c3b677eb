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
        entries += 3 * (int64_t)s->width * supernode_stride(s);
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

/* Place k has entries with the places above it: hand each as a row to the supernodes from k's own up. */
static void
symbolic_hand_rows(sparse_symbolic *symbolic, symbolic_making *work, kl_index row, kl_index below)
{
    const kl_index own = work->super[row];
    for (kl_index s = work->super[below]; s != own && work->mark[s] != row; s = work->parent[s]) {
        work->mark[s] = row;
        symbolic->row[symbolic->supernodes[s].row_at + work->count[s]++] = row;
    }
}

static void symbolic_find_rows(sparse_symbolic *symbolic, symbolic_making *work)
{
    for (kl_index s = 0; s < symbolic->count; s++) {
        work->mark[s] = KL_NONE;
    }
    const sparse_graph *graph = symbolic->graph;
    for (kl_index row = 0; row < graph->node_count; row++) {
        const kl_index node = symbolic->order[row];
        for (kl_index i = graph->first[node]; i < graph->first[node + 1]; i++) {
            const kl_index below = symbolic->place[graph->neighbour[i]];
            if (below < row) {
                symbolic_hand_rows(symbolic, work, row, below);
            }
        }
    }
}

/* The node row of a place in a front. The place must be there. */
static kl_index symbolic_local(const sparse_symbolic *symbolic, const supernode *s, kl_index place)
{
    if (place < s->first + s->width) {
        return place - s->first;
    }
    const kl_index *row = symbolic->row + s->row_at;
    kl_index low = 0;
    kl_index high = s->rows - 1;
    while (low < high) {
        const kl_index middle = low + (high - low) / 2;
        if (row[middle] < place) {
            low = middle + 1;
        } else {
            high = middle;
        }
    }
    return s->width + low;
}

static void symbolic_find_relative(sparse_symbolic *symbolic, const symbolic_making *work)
{
    for (kl_index i = 0; i < symbolic->count; i++) {
        const supernode *s = &symbolic->supernodes[i];
        if (work->parent[i] == KL_NONE) {
            continue;
        }
        const supernode *up = &symbolic->supernodes[work->parent[i]];
        const kl_index *up_row = symbolic->row + up->row_at;
        const kl_index *row = symbolic->row + s->row_at;
        kl_index *relative = symbolic->relative + s->row_at;
        kl_index next = 0; /* most rows follow the one before in the parent too */
        for (kl_index k = 0; k < s->rows; k++) {
            const bool follows = next >= up->width && next < up->width + up->rows &&
                                 up_row[next - up->width] == row[k];
            relative[k] = follows ? next : symbolic_local(symbolic, up, row[k]);
            next = relative[k] + 1;
        }
    }
}

static void symbolic_find_links(sparse_symbolic *symbolic, const symbolic_making *work)
{
    const elimination_tree *tree = &work->tree;
    kl_index count = 0;
    for (kl_index i = 0; i < symbolic->count; i++) {
        supernode *s = &symbolic->supernodes[i];
        s->link_at = count;
        const int64_t stride = supernode_stride(s);
        for (kl_index k = s->first; k < s->first + s->width; k++) {
            for (kl_index j = tree->above_first[k]; j < tree->above_first[k + 1]; j++) {
                const kl_index row = tree->above[j];
                /* The block of the matrix has the smaller node's rows. */
                const bool transposed = symbolic->order[k] < symbolic->order[row];
                const int64_t column = 3 * (int64_t)(k - s->first);
                symbolic->links[count++] = (supernode_link){
                    .source = 2 * tree->above_edge[j] + (transposed ? 1 : 0),
                    .to =
                        (kl_index)(column * stride + 3 * (int64_t)symbolic_local(symbolic, s, row)),
                };
            }
        }
    }
    symbolic->supernodes[symbolic->count].link_at = count;
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

static int64_t symbolic_contribution_size(const supernode *s)
{
    return supernode_round(3 * (int64_t)s->rows * supernode_contribution_stride(s));
}

/* Where each contribution lives. Supernodes of even and of odd depth have a stack each: children are on the other stack
 * than their parent, on top, so all of them can be taken up while the parent's own is being made. */
static kl_status symbolic_stack(sparse_symbolic *symbolic, symbolic_making *work)
{
    kl_index *odd = work->mark;
    for (kl_index s = symbolic->count - 1; s >= 0; s--) {
        odd[s] = work->parent[s] == KL_NONE ? 0 : 1 - odd[work->parent[s]];
    }
    int64_t height[2] = {0, 0};
    int64_t highest[2] = {0, 0};
    for (kl_index i = 0; i < symbolic->count; i++) {
        supernode *s = &symbolic->supernodes[i];
        s->contribution = height[odd[i]];
        height[odd[i]] += symbolic_contribution_size(s);
        highest[odd[i]] = height[odd[i]] > highest[odd[i]] ? height[odd[i]] : highest[odd[i]];
        for (kl_index c = s->child_at; c < symbolic->supernodes[i + 1].child_at; c++) {
            height[1 - odd[i]] -=
                symbolic_contribution_size(&symbolic->supernodes[symbolic->children[c]]);
        }
    }
    for (kl_index i = 0; i < symbolic->count; i++) {
        symbolic->supernodes[i].contribution += odd[i] ? highest[0] : 0;
    }
    symbolic->stack = highest[0] + highest[1];
    return symbolic->stack > SUPERNODE_ENTRY_LIMIT ? KL_TOO_LARGE : KL_OK;
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
    symbolic_find_relative(symbolic, work);
    symbolic_find_links(symbolic, work);
    symbolic_find_children(symbolic, work);
    return symbolic_stack(symbolic, work);
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
