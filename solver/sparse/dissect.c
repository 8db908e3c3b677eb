/* dissect.c - see dissect.h.
 *
 * Along an edge the distance from any node changes by one at most; so do half the sum and half the difference, rounded down,
 * of two such distances. So the nodes where one of these four has a value separate those below it from those above it, in
 * the whole graph and in every part: the graph is not looked at again once the distances are known. From two corners of a
 * grid at the ends of one side they are the diagonals and, for half the sum and half the difference, the rows and columns.
 *
 * Of all levels of a part the one is taken that has the least nodes for the product of what it leaves on its two sides (the
 * ratio cut of Wei and Cheng 1989, of nodes). Nested dissection: George (1973).
 * SPDX-License-Identifier: MIT */
#include "dissect.h"

#include <string.h>

#include "corner.h"

/* Parts up to this size are taken as they are. */
#define DISSECT_LEAF 3
/* Each side keeps at least one in so many of a part's nodes; this bounds the number of steps. */
#define DISSECT_BALANCE 8
/* The square of a separator's size, over the size of the part: at most, in a part that is like a grid. */
#define DISSECT_THICK 2
/* A strip as long as the square of its width over so many is better eliminated from its ends: that costs the square of the
 * width for each node, where the separators of the strip cost a multiple of the width in each of their levels. */
#define DISSECT_STRIP 3
/* Nodes in parts that no level takes apart: a few, and one in so many. */
#define DISSECT_UNTOLD       8
#define DISSECT_UNTOLD_SHARE 200

/* The two distances, half the sum, half the difference; of the last two no values are negative. */
#define DISSECT_FORMS 4

/* Parts that wait: each is at most half of the one before, and a graph has less than 2^31 nodes. */
#define DISSECT_WAITING 32

typedef struct dissect_item {
    kl_index node;
    kl_index at[DISSECT_FORMS];
} dissect_item;

/* items[begin …], whose places in the order begin there too. */
typedef struct dissect_part {
    kl_index begin, count;
    kl_index low[DISSECT_FORMS]; /* no item is at a lower level */
} dissect_part;

typedef struct dissect_cut {
    int form;
    kl_index level;
    kl_index below, on, above; /* nodes */
} dissect_cut;

typedef struct dissection {
    const core_graph *core;
    kl_index *order;
    corner_distances distances;
    dissect_item *items;            /* count */
    dissect_item *aside;            /* count: the nodes above a cut, while they are moved */
    kl_index *level[DISSECT_FORMS]; /* count each: a part's nodes at each level; zero in between */
    kl_index untold;
} dissection;

static kl_status dissect_allocate(dissection *d, arena *a)
{
    const size_t count = (size_t)d->core->count;
    KL_TRY(corner_create(d->core, a, &d->distances));
    d->items = arena_array(a, count, sizeof *d->items);
    d->aside = arena_array(a, count, sizeof *d->aside);
    for (int f = 0; f < DISSECT_FORMS; f++) {
        d->level[f] = arena_array(a, count, sizeof(kl_index));
        if (!d->level[f]) {
            return KL_NO_MEMORY;
        }
    }
    return d->items && d->aside ? KL_OK : KL_NO_MEMORY;
}

/* ---- a cut --------------------------------------------------------------------------------------------- */

static void dissect_count(const dissection *d, const dissect_part *part)
{
    kl_index *const a = d->level[0];
    kl_index *const b = d->level[1];
    kl_index *const sum = d->level[2];
    kl_index *const difference = d->level[3];
    const dissect_item *item = d->items + part->begin;
    for (const dissect_item *end = item + part->count; item < end; item++) {
        a[item->at[0]]++;
        b[item->at[1]]++;
        sum[item->at[2]]++;
        difference[item->at[3]]++;
    }
}

/* The best level of one form, if it is better than the best so far. Its counts become zero again, and the
 * part's bound becomes exact. */
static void dissect_compare(dissection *d, dissect_part *part, int f, dissect_cut *best)
{
    kl_index *level = d->level[f];
    while (level[part->low[f]] == 0) {
        part->low[f]++;
    }
    kl_index below = 0;
    for (kl_index value = part->low[f]; below < part->count; value++) {
        const kl_index on = level[value];
        const kl_index above = part->count - below - on;
        level[value] = 0;
        if ((int64_t)below * DISSECT_BALANCE >= part->count &&
            (int64_t)above * DISSECT_BALANCE >= part->count) {
            const double sides = (double)below * above;
            const double best_sides = (double)best->below * best->above;
            if (on * best_sides < best->on * sides) {
                *best = (dissect_cut){f, value, below, on, above};
            }
        }
        below += on;
    }
}

/* The best cut of a part. @return false when the part is not like a grid's. */
static bool dissect_find_cut(dissection *d, dissect_part *part, dissect_cut *cut)
{
    *cut = (dissect_cut){.on = 1};
    dissect_count(d, part);
    for (int f = 0; f < DISSECT_FORMS; f++) {
        dissect_compare(d, part, f, cut);
    }
    return cut->below > 0 && (int64_t)cut->on * cut->on <= DISSECT_THICK * (int64_t)part->count;
}

/* Put the nodes on the cut to the end of the part's places, the others in two parts before them. */
static void dissect_divide(dissection *d, const dissect_part *part, const dissect_cut *cut)
{
    dissect_item *items = d->items + part->begin;
    const int form = cut->form;
    kl_index below = 0;
    kl_index above = 0;
    kl_index place = part->begin + cut->below + cut->above;
    for (kl_index i = 0; i < part->count; i++) {
        const dissect_item item = items[i];
        const kl_index value = item.at[form];
        if (value < cut->level) {
            items[below++] = item;
        } else if (value > cut->level) {
            d->aside[above++] = item;
        } else {
            d->order[place++] = item.node;
        }
    }
    memcpy(items + below, d->aside, (size_t)above * sizeof *items);
}

/* ---- the whole ------------------------------------------------------------------------------------------- */

static void dissect_take_as_is(dissection *d, const dissect_part *part)
{
    for (kl_index i = part->begin; i < part->begin + part->count; i++) {
        d->order[i] = d->items[i].node;
    }
}

/* The two parts beside a cut, the larger one first. */
static void dissect_split(const dissect_part *part, const dissect_cut *cut, dissect_part two[2])
{
    dissect_part below = *part;
    dissect_part above = *part;
    below.count = cut->below;
    above.begin += cut->below;
    above.count = cut->above;
    above.low[cut->form] = cut->level + 1;
    two[0] = cut->below > cut->above ? below : above;
    two[1] = cut->below > cut->above ? above : below;
}

static bool dissect_is_strip(const dissect_part *part, const dissect_cut *cut)
{
    const double width = cut->on;
    return width * width * width < DISSECT_STRIP * (double)part->count;
}

/* Divide a part and its parts, the smaller ones first, so that few wait. @return false: the graph is not like a grid. */
static bool dissect_part_by_part(dissection *d, const dissect_part *whole)
{
    dissect_part waiting[DISSECT_WAITING];
    int height = 0;
    waiting[height++] = *whole;
    while (height > 0) {
        dissect_part part = waiting[--height];
        dissect_cut cut;
        if (part.count <= DISSECT_LEAF) {
            dissect_take_as_is(d, &part);
        } else if (dissect_find_cut(d, &part, &cut)) {
            if (part.count == whole->count && dissect_is_strip(&part, &cut)) {
                return false;
            }
            dissect_divide(d, &part, &cut);
            dissect_split(&part, &cut, waiting + height);
            height += 2;
        } else {
            dissect_take_as_is(d, &part);
            d->untold += part.count;
            if (d->untold > DISSECT_UNTOLD + d->core->count / DISSECT_UNTOLD_SHARE) {
                return false;
            }
        }
    }
    return true;
}

static bool dissect_piece(dissection *d, kl_index piece)
{
    const kl_index begin = d->core->piece[piece];
    const kl_index end = d->core->piece[piece + 1];
    const corner_distances *distances = &d->distances;
    corner_measure(d->core, piece, &d->distances);
    dissect_part whole = {.begin = begin, .count = end - begin};
    for (kl_index k = begin; k < end; k++) {
        const kl_index a = distances->a[k];
        const kl_index b = distances->b[k];
        const kl_index sum = (a + b - distances->apart) / 2;
        const kl_index difference = (a - b + distances->apart) / 2;
        d->items[k] = (dissect_item){k, {a, b, sum, difference}};
    }
    return dissect_part_by_part(d, &whole);
}

kl_status dissect(const core_graph *core, arena *a, kl_index *order, bool *fits)
{
    dissection d = {.core = core};
    d.order = order;
    *fits = false;
    KL_TRY(dissect_allocate(&d, a));
    for (kl_index piece = 0; piece < core->pieces; piece++) {
        if (!dissect_piece(&d, piece)) {
            return KL_OK;
        }
    }
    *fits = true;
    return KL_OK;
}
