/* tree.c - see tree.h.
 *
 * The tree with compressed paths: Liu (1986). Column counts by the skeleton graph: Gilbert, Ng and Peyton (1994); a place's
 * row of the factor is a subtree, and its leaves are found by comparing first descendants in postorder.
 * SPDX-License-Identifier: MIT */
#include "tree.h"

static kl_index *tree_indices(arena *a, kl_index count)
{
    return arena_array(a, (size_t)count, sizeof(kl_index));
}

static void tree_clear(kl_index *list, kl_index count)
{
    for (kl_index i = 0; i < count; i++) {
        list[i] = KL_NONE;
    }
}

/* @return KL_MISUSE when `order` is no permutation. */
static kl_status tree_set_order(const kl_index *order, elimination_tree *tree)
{
    tree_clear(tree->place, tree->count);
    for (kl_index k = 0; k < tree->count; k++) {
        const kl_index node = order[k];
        if (node < 0 || node >= tree->count || tree->place[node] != KL_NONE) {
            return KL_MISUSE;
        }
        tree->node[k] = node;
        tree->place[node] = k;
    }
    return KL_OK;
}

/* The graph in the order of elimination. Which of its neighbours a place has below it cannot be foreseen, so every one is
 * written to both lists and stays in one. */
static void tree_list_neighbours(const sparse_graph *graph, elimination_tree *tree)
{
    kl_index below = 0;
    kl_index above = 0;
    for (kl_index k = 0; k < tree->count; k++) {
        tree->below_first[k] = below;
        tree->above_first[k] = above;
        const kl_index node = tree->node[k];
        for (kl_index i = graph->first[node]; i < graph->first[node + 1]; i++) {
            const kl_index other = tree->place[graph->neighbour[i]];
            tree->below[below] = other;
            tree->above[above] = other;
            tree->above_edge[above] = graph->edge_of[i];
            below += other < k ? 1 : 0;
            above += other > k ? 1 : 0;
        }
    }
    tree->below_first[tree->count] = below;
    tree->above_first[tree->count] = above;
}

/* `top` is the highest ancestor found so far. */
static void tree_find_parents(elimination_tree *tree, kl_index *top)
{
    for (kl_index k = 0; k < tree->count; k++) {
        tree->parent[k] = KL_NONE;
        top[k] = KL_NONE;
        for (kl_index i = tree->below_first[k]; i < tree->below_first[k + 1]; i++) {
            kl_index at = tree->below[i];
            while (at < k) {
                const kl_index next = top[at];
                top[at] = k;
                tree->parent[at] = next == KL_NONE ? k : tree->parent[at];
                at = next == KL_NONE ? k : next;
            }
        }
    }
}

/* to[k] becomes the postorder number of k. Children are taken in their order, so a postorder stays as it is, and what is
 * listed already need not be listed again.
 * `child` and `next` are work. */
static void tree_postorder(
    const kl_index *parent, kl_index count, kl_index *child, kl_index *next, kl_index *to)
{
    tree_clear(child, count);
    kl_index root = KL_NONE;
    for (kl_index k = count - 1; k >= 0; k--) {
        kl_index *list = parent[k] == KL_NONE ? &root : &child[parent[k]];
        next[k] = *list;
        *list = k;
    }
    kl_index number = 0;
    kl_index at = root;
    while (at != KL_NONE) {
        while (child[at] != KL_NONE) {
            at = child[at];
        }
        to[at] = number++;
        while (next[at] == KL_NONE && parent[at] != KL_NONE) {
            at = parent[at];
            to[at] = number++;
        }
        at = next[at];
    }
}

static bool tree_is_in_order(const kl_index *to, kl_index count)
{
    kl_index k = 0;
    while (k < count && to[k] == k) {
        k++;
    }
    return k == count;
}

/* `parent` is work and becomes the tree's. */
static void
tree_renumber(elimination_tree *tree, const kl_index *order, const kl_index *to, kl_index *parent)
{
    for (kl_index k = 0; k < tree->count; k++) {
        const kl_index up = tree->parent[k];
        tree->node[to[k]] = order[k];
        tree->place[order[k]] = to[k];
        parent[to[k]] = up == KL_NONE ? KL_NONE : to[up];
    }
    tree->parent = parent;
}

static void tree_find_first(elimination_tree *tree)
{
    for (kl_index k = 0; k < tree->count; k++) {
        tree->first[k] = k;
    }
    for (kl_index k = 0; k < tree->count; k++) {
        const kl_index up = tree->parent[k];
        if (up != KL_NONE && tree->first[k] < tree->first[up]) {
            tree->first[up] = tree->first[k];
        }
    }
}

/* The root of the part of the tree joined so far, with the path to it shortened. */
static kl_index tree_find(kl_index *joined, kl_index at)
{
    kl_index root = at;
    while (joined[root] != root) {
        root = joined[root];
    }
    while (joined[at] != root) {
        const kl_index next = joined[at];
        joined[at] = root;
        at = next;
    }
    return root;
}

typedef struct tree_rows {
    kl_index *leaf;   /* the last leaf of each row's subtree */
    kl_index *joined; /* sets of places with one root */
} tree_rows;

/* Place k has an entry in row i: count it when k is a leaf of the row's subtree. */
static void tree_count_leaf(elimination_tree *tree, const tree_rows *rows, kl_index k, kl_index i)
{
    const kl_index last = rows->leaf[i];
    if (last != KL_NONE && tree->first[k] <= last) {
        return; /* the last leaf is below k */
    }
    tree->column[k]++;
    if (last != KL_NONE) {
        tree->column[tree_find(rows->joined, last)]--; /* the two paths meet there */
    }
    rows->leaf[i] = k;
}

static void tree_count_columns(elimination_tree *tree, const tree_rows *rows)
{
    tree_clear(rows->leaf, tree->count);
    for (kl_index k = 0; k < tree->count; k++) {
        rows->joined[k] = k;
        tree->column[k] = tree->first[k] == k ? 1 : 0;
    }
    for (kl_index k = 0; k < tree->count; k++) {
        const kl_index up = tree->parent[k];
        if (up != KL_NONE) {
            tree->column[up]--;
        }
        for (kl_index i = tree->above_first[k]; i < tree->above_first[k + 1]; i++) {
            tree_count_leaf(tree, rows, k, tree->above[i]);
        }
        rows->joined[k] = up == KL_NONE ? k : up;
    }
    for (kl_index k = 0; k < tree->count; k++) {
        if (tree->parent[k] != KL_NONE) {
            tree->column[tree->parent[k]] += tree->column[k];
        }
    }
}

static kl_status
tree_allocate(const sparse_graph *graph, arena *kept, arena *a, elimination_tree *tree)
{
    const kl_index count = graph->node_count;
    const kl_index list =
        graph->edge_count + 1; /* what belongs to the other list goes past the end */
    *tree = (elimination_tree){
        .count = count,
        .node = tree_indices(kept, count),
        .place = tree_indices(kept, count),
        .parent = tree_indices(a, count),
        .first = tree_indices(a, count),
        .column = tree_indices(a, count),
        .below_first = tree_indices(a, count + 1),
        .below = tree_indices(a, list),
        .above_first = tree_indices(a, count + 1),
        .above = tree_indices(a, list),
        .above_edge = tree_indices(a, list),
    };
    const bool ready = tree->node && tree->place && tree->parent && tree->first && tree->column &&
                       tree->below_first && tree->below && tree->above_first && tree->above &&
                       tree->above_edge;
    return ready ? KL_OK : KL_NO_MEMORY;
}

kl_status tree_create(
    const sparse_graph *graph, const kl_index *order, arena *kept, arena *a, elimination_tree *tree)
{
    KL_TRY(tree_allocate(graph, kept, a, tree));
    const kl_index count = graph->node_count;
    kl_index *work[3] = {tree_indices(a, count), tree_indices(a, count), tree_indices(a, count)};
    if (!work[0] || !work[1] || !work[2]) {
        return KL_NO_MEMORY;
    }
    KL_TRY(tree_set_order(order, tree));
    tree_list_neighbours(graph, tree);
    tree_find_parents(tree, work[0]);
    tree_postorder(tree->parent, count, work[0], work[1], work[2]);
    if (!tree_is_in_order(work[2], count)) {
        kl_index *parent = tree->parent;
        tree_renumber(tree, order, work[2], work[0]);
        work[0] = parent;
        tree_list_neighbours(graph, tree);
    }
    tree_find_first(tree);
    tree_count_columns(tree, &(tree_rows){.leaf = work[0], .joined = work[1]});
    return KL_OK;
}
