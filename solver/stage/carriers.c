/* carriers.c - see carriers.h.
 * SPDX-License-Identifier: MIT */
#include "carriers.h"

#include <math.h>
#include <stdlib.h>

#include "mem.h"
#include "near.h"

#define CARRIER_LIMIT 1000000

/* ---- who carries ----------------------------------------------------------------------------------------- */

const kl_bearing *carriers_bearing_of(const kl_model *model, kl_index node)
{
    for (kl_index i = 0; i < model->bearing_count; i++) {
        if (model->bearings[i].node == node) {
            return &model->bearings[i];
        }
    }
    return NULL;
}

bool carriers_hold_up(const analysis_run *run, kl_index node)
{
    for (kl_index i = 0; i < run->state.hold_count; i++) {
        const hold_state *hold = &run->state.holds[i];
        if (hold->active && hold->direction == KL_Y &&
            run->model->supports[hold->support].node == node) {
            return true;
        }
    }
    return false;
}

static bool node_carries(const analysis_run *run, kl_index node)
{
    if (run->state.node_stands[node] || carriers_hold_up(run, node)) {
        return true;
    }
    const kl_bearing *bearing = carriers_bearing_of(run->model, node);
    return bearing && bearing->hold[KL_Y].kind != KL_FREE && node_carries(run, bearing->base);
}

static kl_status add_carrier(carrier_list *list, double x, kl_index row, kl_index node)
{
    void *items = list->items;
    KL_TRY(mem_grow(&items, &list->capacity, list->count + 1, sizeof(form_carrier), CARRIER_LIMIT));
    list->items = items;
    list->items[list->count++] = (form_carrier){x, row, node, 0.0, 0.0};
    return KL_OK;
}

static int compare_carriers(const void *a, const void *b)
{
    const form_carrier *p = a;
    const form_carrier *q = b;
    if (p->x < q->x || p->x > q->x) {
        return p->x < q->x ? -1 : 1;
    }
    return (p->row == KL_NONE) - (q->row == KL_NONE);
}

kl_status carriers_of_member(const analysis_run *run, kl_index member, carrier_list *list)
{
    const frame_mesh *mesh = &run->mesh;
    for (kl_index i = 0; i < mesh->row_count; i++) {
        if (run->model->falsework[mesh->rows[i].falsework].member == member &&
            run->state.rows[i].phase == ROW_READY) {
            KL_TRY(add_carrier(list, mesh->rows[i].x, i, KL_NONE));
        }
    }
    const mesh_member *of = &mesh->members[member];
    for (kl_index e = of->first; e < of->first + of->count; e++) {
        for (int end = 0; end < 2; end++) {
            const kl_index node = mesh->elements[e].node[end];
            const bool twice = end == 0 && e > of->first;
            if (!twice && node < run->model->node_count && node_carries(run, node)) {
                KL_TRY(add_carrier(list, mesh->nodes[node].x, KL_NONE, node));
            }
        }
    }
    return KL_OK;
}

void carriers_merge(carrier_list *list)
{
    qsort(list->items, list->count, sizeof(form_carrier), compare_carriers);
    const double tolerance = NEAR_PLACE * fabs(list->items[list->count - 1].x - list->items[0].x);
    size_t kept = 0;
    for (size_t i = 0; i < list->count; i++) {
        if (kept > 0 && list->items[i].x - list->items[kept - 1].x <= tolerance) {
            if (list->items[i].node != KL_NONE) {
                list->items[kept - 1] = list->items[i];
            }
            continue;
        }
        list->items[kept++] = list->items[i];
    }
    list->count = kept;
}

/* ---- what gives way --------------------------------------------------------------------------------------- */

static double hold_spring(const analysis_run *run, kl_index node)
{
    double stiffness = INFINITY;
    for (kl_index i = 0; i < run->state.hold_count; i++) {
        const hold_state *hold = &run->state.holds[i];
        if (hold->active && hold->direction == KL_Y && hold->kind == KL_SPRING &&
            run->model->supports[hold->support].node == node) {
            stiffness = hold->stiffness;
        }
    }
    return stiffness;
}

static double now(const analysis_run *run, size_t entry)
{
    return state_sum(&run->state.set, (kl_cause){KL_CAUSE_ALL, KL_NONE}, entry);
}

/* How high what carries stands. A node that stands moves with the frame. One that does not yet is carried by what load_node
 * puts its weight on, a support, or a bearing and its base, and goes down by what springs of these give. */
static double level_of(const analysis_run *run, const form_carrier *c)
{
    const column_layout *layout = &run->layout;
    double level = 0.0;
    kl_index node = c->node == KL_NONE ? run->mesh.rows[c->row].foot : c->node;
    while (c->node != KL_NONE && !run->state.node_stands[node]) {
        const kl_bearing *bearing =
            carriers_hold_up(run, node) ? NULL : carriers_bearing_of(run->model, node);
        if (!bearing) {
            return level -
                   now(run, layout->reaction + 3 * (size_t)node + KL_Y) / hold_spring(run, node);
        }
        const size_t at = layout->bearing + 3 * (size_t)(bearing - run->model->bearings) + KL_Y;
        const kl_hold *hold = &bearing->hold[KL_Y];
        level -= hold->kind == KL_SPRING ? now(run, at) / hold->stiffness : 0.0;
        node = bearing->base;
    }
    return level + (node == KL_NONE ? 0.0 : now(run, layout->node + 3 * (size_t)node + 1));
}

kl_status carriers_keep(analysis_run *run,
                        const kl_index *members,
                        kl_index count,
                        const carrier_list *list,
                        const double range[2])
{
    form_pour *kept = arena_array(run->a, 1, sizeof(form_pour));
    form_carrier *carriers = arena_copy(run->a, list->items, list->count, sizeof(form_carrier));
    if (!kept || !carriers) {
        return KL_NO_MEMORY;
    }
    for (size_t i = 0; i < list->count; i++) {
        carriers[i].moved = -level_of(run, &carriers[i]);
    }
    *kept = (form_pour){.before = run->state.pour,
                        .step = run->step,
                        .from = range[0],
                        .to = range[1],
                        .members = members,
                        .member_count = count,
                        .carriers = carriers,
                        .carrier_count = (kl_index)list->count};
    run->state.pour = kept;
    return KL_OK;
}

void carriers_yield(analysis_run *run, const form_pour *before)
{
    for (form_pour *p = run->state.pour; p != before; p = p->before) {
        for (kl_index k = 0; k < p->carrier_count; k++) {
            p->carriers[k].moved += level_of(run, &p->carriers[k]);
        }
    }
}
