/* consistency_nodes.c - nodes on members, nodes at one place that nothing joins, nodes that nothing uses.
 *
 * Nodes are sorted by x; runs of nearly equal x are sorted by y and neighbours compared. O(n log n).
 * SPDX-License-Identifier: MIT */
#include <math.h>
#include <stdlib.h>

#include "consistency.h"
#include "near.h"

typedef struct placed_node {
    double x, y;
    kl_index node;
} placed_node;

static int compare(double a, double b)
{
    return (a > b) - (a < b);
}

static int compare_x(const void *a, const void *b)
{
    const placed_node *l = a;
    const placed_node *r = b;
    const int by_x = compare(l->x, r->x);
    return by_x != 0 ? by_x : (l->node > r->node) - (l->node < r->node);
}

static int compare_y(const void *a, const void *b)
{
    const placed_node *l = a;
    const placed_node *r = b;
    const int by_y = compare(l->y, r->y);
    return by_y != 0 ? by_y : compare_x(a, b);
}

/* ---- nodes on members --------------------------------------------------------------------------------- */

/* Two nodes of one place would be two joints of which the member knows one. */
static void
say_same_place(consistency *c, const kl_node *node, const kl_node *other, const kl_member *member)
{
    kl_diags_add(c->diags, KL_ERROR, "node-on-node", node->origin,
                 "Node %s on member %s stands where its node %s is already.", node->name,
                 member->name, other->name);
    kl_diags_hint(c->diags, "use %s for both", other->name);
}

/* @return false after telling that the node cannot be there. */
static bool check_on_member(consistency *c, kl_index m, const kl_node *node, const kl_node *before)
{
    const kl_model *model = c->model;
    const kl_member *member = &model->members[m];
    const double length = kl_member_length(model, m);
    const double spare = NEAR_STATION * length;
    if (node->station <= spare) {
        say_same_place(c, node, &model->nodes[member->from], member);
    } else if (node->station >= length - spare) {
        say_same_place(c, node, &model->nodes[member->to], member);
    } else if (node->station <= member->rigid_start + spare ||
               node->station >= length - member->rigid_end - spare) {
        const bool start = node->station <= member->rigid_start + spare;
        kl_diags_add(c->diags, KL_ERROR, "node-in-rigid-end", node->origin,
                     "Node %s stands in the rigid %s of member %s, where nothing can be joined.",
                     node->name, start ? "start" : "end", member->name);
        kl_diags_hint(c->diags, "join at node %s, or let the rigid part end before %s",
                      model->nodes[start ? member->from : member->to].name, node->name);
    } else if (before != NULL && node->station - before->station <= spare) {
        say_same_place(c, node, before, member);
    } else {
        return true;
    }
    return false;
}

/* Nodes that are told here are told: they no longer count as used. */
static void nodes_on_members(consistency *c, bool *used)
{
    for (kl_index m = 0; m < c->model->member_count; m++) {
        const kl_node *before = NULL;
        for (kl_index i = c->on_start[m]; i < c->on_start[m + 1]; i++) {
            const kl_node *node = &c->model->nodes[c->on_nodes[i]];
            used[c->on_nodes[i]] = check_on_member(c, m, node, before);
            before = node;
        }
    }
}

/* ---- nodes at one place, nodes of nothing ------------------------------------------------------------- */

/* Nodes of members and bearings. The others are told apart, so they do not count as a place. */
static bool *mark_used(consistency *c)
{
    const kl_model *model = c->model;
    bool *used = arena_array(&c->memory, (size_t)model->node_count, sizeof *used);
    if (used == NULL) {
        return NULL;
    }
    for (kl_index n = 0; n < model->node_count; n++) {
        used[n] = consistency_has_member(c, n);
    }
    for (kl_index b = 0; b < model->bearing_count; b++) {
        used[model->bearings[b].node] = used[model->bearings[b].base] = true;
    }
    return used;
}

static void compare_run(consistency *c, placed_node *run, kl_index count, consistency_tally *tally)
{
    qsort(run, (size_t)count, sizeof *run, compare_y);
    for (kl_index i = 1; i < count; i++) {
        const kl_index a = run[i - 1].node;
        const kl_index b = run[i].node;
        if (hypot(run[i].x - run[i - 1].x, run[i].y - run[i - 1].y) > c->near ||
            consistency_base(c, a) == consistency_base(c, b) || !consistency_tell(tally)) {
            continue;
        }
        const kl_node *later = &c->model->nodes[a > b ? a : b];
        const kl_node *earlier = &c->model->nodes[a > b ? b : a];
        kl_diags_add(c->diags, KL_WARNING, "nodes-not-joined", later->origin,
                     "Nodes %s and %s stand at one place and nothing joins them: they move apart "
                     "freely.",
                     earlier->name, later->name);
        kl_diags_hint(c->diags, "use one node for both, or write `bearing %s on %s { … }`",
                      later->name, earlier->name);
    }
}

static kl_status nodes_at_one_place(consistency *c, const bool *used)
{
    const kl_model *model = c->model;
    placed_node *sorted = arena_array(&c->memory, (size_t)model->node_count, sizeof *sorted);
    if (sorted == NULL) {
        return KL_NO_MEMORY;
    }
    kl_index count = 0;
    for (kl_index n = 0; n < model->node_count; n++) {
        if (used[n]) {
            sorted[count++] = (placed_node){model->nodes[n].x, model->nodes[n].y, n};
        }
    }
    qsort(sorted, (size_t)count, sizeof *sorted, compare_x);
    consistency_tally tally = {0};
    kl_index begin = 0;
    for (kl_index i = 1; i <= count; i++) {
        if (i == count || sorted[i].x - sorted[i - 1].x > c->near) {
            compare_run(c, sorted + begin, i - begin, &tally);
            begin = i;
        }
    }
    consistency_tell_rest(c, tally, KL_WARNING, "nodes-not-joined");
    return KL_OK;
}

/* The member on whose line the place lies, between its ends; NAN or KL_NONE when there is none. */
static kl_index member_through(const consistency *c, const kl_node *node, double *station)
{
    for (kl_index m = 0; m < c->model->member_count; m++) {
        const kl_node *from = &c->model->nodes[c->model->members[m].from];
        const kl_node *to = &c->model->nodes[c->model->members[m].to];
        const double length = hypot(to->x - from->x, to->y - from->y);
        const double along =
            ((node->x - from->x) * (to->x - from->x) + (node->y - from->y) * (to->y - from->y)) /
            length;
        const double off =
            ((node->y - from->y) * (to->x - from->x) - (node->x - from->x) * (to->y - from->y)) /
            length;
        if (fabs(off) <= c->near && along > 0.0 && along < length) {
            *station = along;
            return m;
        }
    }
    return KL_NONE;
}

/* A node written with coordinates on the line of a member looks joined to it and is not. */
static void tell_unused(consistency *c, kl_index n)
{
    const kl_node *node = &c->model->nodes[n];
    double station = 0.0;
    const kl_index m = member_through(c, node, &station);
    if (m == KL_NONE) {
        kl_diags_add(c->diags, KL_WARNING, "node-unused", node->origin,
                     "No member and no bearing is at node %s.", node->name);
        return;
    }
    const char *member = c->model->members[m].name;
    const build_number at = build_show(c->model, KL_MEASURE_STATION, station);
    const bool held = c->support_first[n] != KL_NONE;
    kl_diags_add(c->diags, KL_WARNING, "node-unused", node->origin,
                 "Node %s stands on the line of member %s, but they are not joined%s.", node->name,
                 member, held ? ": its support holds nothing" : "");
    kl_diags_hint(c->diags, "write `node %s on %s at %s`", node->name, member, at.text);
}

kl_status consistency_nodes(consistency *c)
{
    bool *used = mark_used(c);
    if (used == NULL) {
        return KL_NO_MEMORY;
    }
    consistency_tally tally = {0};
    for (kl_index n = 0; n < c->model->node_count; n++) {
        if (!used[n] && consistency_tell(&tally)) {
            tell_unused(c, n);
        }
    }
    consistency_tell_rest(c, tally, KL_WARNING, "node-unused");
    nodes_on_members(c, used);
    return nodes_at_one_place(c, used);
}
