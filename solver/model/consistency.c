/* consistency.c - kl_model_check: the parts in their order, and what they share.
 * SPDX-License-Identifier: MIT */
#include "consistency.h"

#include <math.h>
#include <stdlib.h>

#include "near.h"

bool consistency_tell(consistency_tally *tally)
{
    tally->count++;
    return tally->count <= CONSISTENCY_MOST_TOLD;
}

void consistency_tell_rest(consistency *c,
                           consistency_tally tally,
                           kl_severity severity,
                           const char *name)
{
    if (tally.count > CONSISTENCY_MOST_TOLD) {
        kl_diags_add(c->diags, severity, name, KL_NOWHERE, "… and %d more of these.",
                     (int)(tally.count - CONSISTENCY_MOST_TOLD));
    }
}

static kl_point direction(const consistency *c, kl_index member)
{
    const kl_member *m = &c->model->members[member];
    const kl_node *from = &c->model->nodes[m->from];
    const kl_node *to = &c->model->nodes[m->to];
    return (kl_point){to->x - from->x, to->y - from->y};
}

bool consistency_is_vertical(const consistency *c, kl_index member)
{
    const kl_point d = direction(c, member);
    return 10.0 * fabs(d.x) <= fabs(d.y);
}

bool consistency_is_level(const consistency *c, kl_index member)
{
    const kl_point d = direction(c, member);
    return fabs(d.y) <= fabs(d.x);
}

bool consistency_has_member(const consistency *c, kl_index node)
{
    return c->at_start[node + 1] > c->at_start[node] || c->model->nodes[node].member != KL_NONE;
}

kl_index consistency_base(const consistency *c, kl_index node)
{
    /* A circle of bearings is an error told elsewhere; here it only must end. */
    for (kl_index i = 0; i < c->model->bearing_count; i++) {
        const kl_index bearing = c->bearing_of[node];
        if (bearing == KL_NONE) {
            break;
        }
        node = c->model->bearings[bearing].base;
    }
    return node;
}

/* ---- tables ------------------------------------------------------------------------------------------- */

/* From counts at start[i + 1] to places: start[i] is where row i begins. */
static void add_up(kl_index *start, kl_index count)
{
    for (kl_index i = 0; i < count; i++) {
        start[i + 1] += start[i];
    }
}

/* After filling, start[i] has moved to the end of row i: move all back by one row. */
static void move_back(kl_index *start, kl_index count)
{
    for (kl_index i = count; i > 0; i--) {
        start[i] = start[i - 1];
    }
    start[0] = 0;
}

static void table_members_at_nodes(consistency *c)
{
    const kl_model *model = c->model;
    for (kl_index m = 0; m < model->member_count; m++) {
        c->at_start[model->members[m].from + 1]++;
        c->at_start[model->members[m].to + 1]++;
    }
    add_up(c->at_start, model->node_count);
    for (kl_index m = 0; m < model->member_count; m++) {
        c->at_members[c->at_start[model->members[m].from]++] = m;
        c->at_members[c->at_start[model->members[m].to]++] = m;
    }
    move_back(c->at_start, model->node_count);
}

/* A node on a member with what it is sorted by. */
typedef struct node_on {
    kl_index member, node;
    double station;
} node_on;

static int compare_node_on(const void *a, const void *b)
{
    const node_on *l = a;
    const node_on *r = b;
    if (l->member != r->member) {
        return (l->member > r->member) - (l->member < r->member);
    }
    if (l->station < r->station || l->station > r->station) {
        return l->station > r->station ? 1 : -1;
    }
    return (l->node > r->node) - (l->node < r->node);
}

static kl_status table_nodes_on_members(consistency *c)
{
    const kl_model *model = c->model;
    node_on *sorted = arena_array(&c->memory, (size_t)model->node_count, sizeof *sorted);
    if (sorted == NULL) {
        return KL_NO_MEMORY;
    }
    kl_index count = 0;
    for (kl_index n = 0; n < model->node_count; n++) {
        const kl_node *node = &model->nodes[n];
        if (node->member != KL_NONE) {
            sorted[count++] = (node_on){node->member, n, node->station};
            c->on_start[node->member + 1]++;
        }
    }
    add_up(c->on_start, model->member_count);
    qsort(sorted, (size_t)count, sizeof *sorted, compare_node_on);
    for (kl_index i = 0; i < count; i++) {
        c->on_nodes[i] = sorted[i].node;
    }
    return KL_OK;
}

static void table_holds(consistency *c)
{
    const kl_model *model = c->model;
    for (kl_index n = 0; n < model->node_count; n++) {
        c->bearing_of[n] = c->support_first[n] = KL_NONE;
    }
    for (kl_index b = model->bearing_count; b-- > 0;) {
        c->bearing_of[model->bearings[b].node] = b; /* the first one stays */
    }
    for (kl_index s = model->support_count; s-- > 0;) {
        const kl_index node = model->supports[s].node;
        c->support_next[s] = c->support_first[node];
        c->support_first[node] = s;
    }
}

static kl_status prepare(consistency *c)
{
    const kl_model *model = c->model;
    const size_t nodes = (size_t)model->node_count;
    const size_t members = (size_t)model->member_count;
    c->at_start = arena_array(&c->memory, nodes + 1, sizeof(kl_index));
    c->at_members = arena_array(&c->memory, 2 * members, sizeof(kl_index));
    c->on_start = arena_array(&c->memory, members + 1, sizeof(kl_index));
    c->on_nodes = arena_array(&c->memory, nodes, sizeof(kl_index));
    c->bearing_of = arena_array(&c->memory, nodes, sizeof(kl_index));
    c->support_first = arena_array(&c->memory, nodes, sizeof(kl_index));
    c->support_next = arena_array(&c->memory, (size_t)model->support_count, sizeof(kl_index));
    if (c->at_start == NULL || c->at_members == NULL || c->on_start == NULL ||
        c->on_nodes == NULL || c->bearing_of == NULL || c->support_first == NULL ||
        c->support_next == NULL) {
        return KL_NO_MEMORY;
    }
    table_members_at_nodes(c);
    KL_TRY(table_nodes_on_members(c));
    table_holds(c);
    return KL_OK;
}

/* ---- the check ---------------------------------------------------------------------------------------- */

static kl_status run_parts(consistency *c)
{
    KL_TRY(prepare(c));
    KL_TRY(consistency_frame(c));
    KL_TRY(consistency_tendons(c));
    KL_TRY(consistency_falsework(c));
    KL_TRY(consistency_loads(c));
    KL_TRY(consistency_hinges(c));
    KL_TRY(consistency_stages(c));
    KL_TRY(consistency_time(c));
    KL_TRY(consistency_combinations(c));
    KL_TRY(consistency_asked(c));
    KL_TRY(consistency_grades(c));
    KL_TRY(consistency_nodes(c));
    KL_TRY(consistency_crossings(c));
    return consistency_uses(c);
}

kl_status kl_model_check(const kl_model *model)
{
    kl_diags *diags = model->store->diags;
    const kl_index before = kl_diags_count_of(diags, KL_ERROR);
    consistency c = {.model = model, .diags = diags, .staged = model->stage_count > 0};
    c.near = NEAR_PLACE * entities_size(model);
    if (model->member_count == 0) {
        kl_diags_add(diags, KL_ERROR, "no-members", KL_NOWHERE, "The model has no members.");
    }
    const kl_status status = run_parts(&c);
    arena_free(&c.memory);
    KL_TRY(status);
    return kl_diags_count_of(diags, KL_ERROR) > before ? KL_BAD_MODEL : KL_OK;
}
