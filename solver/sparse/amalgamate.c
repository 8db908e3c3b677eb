/* amalgamate.c - see amalgamate.h.
 *
 * A supernode joins its parent when the parent follows right behind it and the zeros that this stores are few against the
 * whole; small ones may have more of them. On graphs like lines every zero costs as much as what it saves, so there
 * nothing is joined. Ashcraft and Grimes (1989).
 * SPDX-License-Identifier: MIT */
#include "amalgamate.h"

/* Blocks a column, on average, below which a graph is like a line. */
#define AMALGAMATE_LINE 3.5

/* Up to `width` nodes a share of `zeros` is accepted. */
static const struct amalgamate_rule {
    int64_t width;
    double zeros;
} amalgamate_rules[] = {{2, 0.7}, {6, 0.35}, {16, 0.12}, {INT32_MAX, 0.04}};

typedef struct amalgamate_group {
    int64_t width;
    int64_t rows;
    int64_t zeros; /* blocks stored for nothing */
} amalgamate_group;

static int64_t amalgamate_blocks(const amalgamate_group *g)
{
    return g->width * (g->width + 1) / 2 + g->width * g->rows;
}

static bool amalgamate_pays(const amalgamate_group *joined)
{
    const double share = (double)joined->zeros / (double)amalgamate_blocks(joined);
    size_t rule = 0;
    while (joined->width > amalgamate_rules[rule].width) {
        rule++;
    }
    return share <= amalgamate_rules[rule].zeros;
}

static amalgamate_group amalgamate_join(const amalgamate_group *child,
                                        const amalgamate_group *parent)
{
    amalgamate_group joined = {.width = child->width + parent->width, .rows = parent->rows};
    joined.zeros = child->zeros + parent->zeros + amalgamate_blocks(&joined) -
                   amalgamate_blocks(child) - amalgamate_blocks(parent);
    return joined;
}

static kl_index amalgamate_maximal(const elimination_tree *tree, kl_index *first)
{
    kl_index count = 0;
    for (kl_index k = 0; k < tree->count; k++) {
        const bool goes_on =
            k > 0 && tree->parent[k - 1] == k && tree->column[k - 1] == tree->column[k] + 1;
        if (!goes_on) {
            first[count++] = k;
        }
    }
    first[count] = tree->count;
    return count;
}

static double amalgamate_mean_column(const elimination_tree *tree)
{
    double sum = 0.0;
    for (kl_index k = 0; k < tree->count; k++) {
        sum += tree->column[k];
    }
    return tree->count > 0 ? sum / tree->count : 0.0;
}

/* From the last supernode down, so that whole runs can join: groups[s] is then the group that begins at s. */
static kl_index amalgamate_relax(const elimination_tree *tree,
                                 kl_index *first,
                                 kl_index count,
                                 amalgamate_group *groups,
                                 bool *joins)
{
    for (kl_index s = count - 1; s >= 0; s--) {
        const kl_index last = first[s + 1] - 1;
        groups[s] =
            (amalgamate_group){.width = last + 1 - first[s], .rows = tree->column[last] - 1};
        if (s + 1 < count && tree->parent[last] == last + 1) {
            const amalgamate_group joined = amalgamate_join(&groups[s], &groups[s + 1]);
            joins[s + 1] = amalgamate_pays(&joined);
            groups[s] = joins[s + 1] ? joined : groups[s];
        }
    }
    kl_index kept = 0;
    for (kl_index s = 0; s < count; s++) {
        if (!joins[s]) {
            first[kept++] = first[s];
        }
    }
    first[kept] = tree->count;
    return kept;
}

kl_index amalgamate(const elimination_tree *tree, arena *a, kl_index *first, kl_index *super)
{
    kl_index count = amalgamate_maximal(tree, first);
    if (amalgamate_mean_column(tree) >= AMALGAMATE_LINE) {
        amalgamate_group *groups = arena_array(a, (size_t)count, sizeof *groups);
        bool *joins = arena_array(a, (size_t)count, sizeof *joins);
        if (!groups || !joins) {
            return KL_NONE;
        }
        count = amalgamate_relax(tree, first, count, groups, joins);
    }
    for (kl_index s = 0; s < count; s++) {
        for (kl_index k = first[s]; k < first[s + 1]; k++) {
            super[k] = s;
        }
    }
    return count;
}
