/* assemble.c - see assemble.h.
 * SPDX-License-Identifier: MIT */
#include "assemble.h"

#include <math.h>
#include <string.h>

#include "mem.h"
#include "near.h"
#include "order.h"

/* ---- pattern ----------------------------------------------------------------------------------------- */

typedef struct pair_list {
    kl_index (*items)[2];
    size_t count, capacity;
} pair_list;

#define PAIR_LIMIT 400000000

static kl_status add_pair(pair_list *list, kl_index a, kl_index b)
{
    void *items = list->items;
    KL_TRY(mem_grow(&items, &list->capacity, list->count + 1, sizeof *list->items, PAIR_LIMIT));
    list->items = items;
    list->items[list->count][0] = a;
    list->items[list->count][1] = b;
    list->count++;
    return KL_OK;
}

/* Bases that a node's unknowns may be folded into, itself first. */
static kl_index bases_of(const kl_model *model,
                         const kl_index *first_bearing,
                         kl_index node,
                         kl_index *bases,
                         kl_index limit)
{
    kl_index count = 0;
    bases[count++] = node;
    if (!first_bearing || node >= model->node_count) {
        return count;
    }
    for (kl_index i = 0; i < count && count < limit; i++) {
        const kl_index bearing = first_bearing[bases[i]];
        if (bearing != KL_NONE) {
            bases[count++] = model->bearings[bearing].base;
        }
    }
    return count;
}

#define BASE_CHAIN 16 /* a bearing on a bearing on a bearing … */

static kl_status couple(
    pair_list *list, const kl_model *model, const kl_index *first_bearing, kl_index a, kl_index b)
{
    kl_index left[BASE_CHAIN];
    kl_index right[BASE_CHAIN];
    const kl_index left_count = bases_of(model, first_bearing, a, left, BASE_CHAIN);
    const kl_index right_count = bases_of(model, first_bearing, b, right, BASE_CHAIN);
    for (kl_index i = 0; i < left_count; i++) {
        for (kl_index j = 0; j < right_count; j++) {
            KL_TRY(add_pair(list, left[i], right[j]));
        }
    }
    return KL_OK;
}

static kl_status
collect_pairs(const frame_mesh *mesh, const kl_index *first_bearing, pair_list *list)
{
    const kl_model *model = mesh->model;
    for (kl_index e = 0; e < mesh->element_count; e++) {
        const kl_index *node = mesh->elements[e].node;
        KL_TRY(couple(list, model, first_bearing, node[0], node[1]));
    }
    for (kl_index r = 0; r < mesh->row_count; r++) {
        if (mesh->rows[r].foot != KL_NONE) {
            KL_TRY(couple(list, model, first_bearing, mesh->rows[r].top, mesh->rows[r].foot));
        }
    }
    for (kl_index i = 0; i < model->bearing_count; i++) {
        KL_TRY(
            couple(list, model, first_bearing, model->bearings[i].node, model->bearings[i].base));
    }
    return KL_OK;
}

/* The bearing that a node rests on (the model allows one), KL_NONE: none. NULL when there are no bearings. */
static kl_status index_bearings(const kl_model *model, arena *a, kl_index **first_bearing)
{
    *first_bearing = NULL;
    if (model->bearing_count == 0) {
        return KL_OK;
    }
    *first_bearing = arena_array(a, (size_t)model->node_count, sizeof(kl_index));
    if (!*first_bearing) {
        return KL_NO_MEMORY;
    }
    for (kl_index i = 0; i < model->node_count; i++) {
        (*first_bearing)[i] = KL_NONE;
    }
    for (kl_index i = 0; i < model->bearing_count; i++) {
        (*first_bearing)[model->bearings[i].node] = i;
    }
    return KL_OK;
}

static kl_status make_graph(frame_system *system, arena *a)
{
    const frame_mesh *mesh = system->mesh;
    kl_index *first_bearing;
    KL_TRY(index_bearings(mesh->model, a, &first_bearing));
    pair_list list = {0};
    kl_status status = collect_pairs(mesh, first_bearing, &list);
    if (status == KL_OK) {
        void *pairs = list.items;
        status = graph_create(mesh->node_count, pairs, (int64_t)list.count, &system->graph);
    }
    mem_free(list.items);
    return status;
}

static kl_status make_symbolic(frame_system *system)
{
    kl_index *order = mem_array((size_t)system->mesh->node_count, sizeof(kl_index));
    kl_status status = order ? order_nodes(system->graph, order) : KL_NO_MEMORY;
    if (status == KL_OK) {
        status = symbolic_create(system->graph, order, &system->symbolic);
    }
    mem_free(order);
    return status;
}

kl_status system_create(const frame_mesh *mesh, int threads, arena *a, frame_system *system)
{
    *system = (frame_system){.mesh = mesh};
    KL_TRY(constraints_create(mesh, a, &system->map));
    KL_TRY(make_graph(system, a));
    KL_TRY(make_symbolic(system));
    KL_TRY(factor_create(system->symbolic, threads, &system->factor));
    system->edge_of = arena_array(a, (size_t)mesh->element_count, sizeof(kl_index));
    system->diag = arena_array(a, 9 * (size_t)mesh->node_count, sizeof(double));
    system->off = arena_array(a, 9 * (size_t)system->graph->edge_count, sizeof(double));
    system->matrix = arena_array(a, (size_t)mesh->element_count, sizeof(element_matrix));
    system->work = arena_array(a, 3 * (size_t)mesh->node_count, sizeof(double));
    system->step = arena_array(a, 3 * (size_t)mesh->node_count, sizeof(double));
    if (!system->edge_of || !system->diag || !system->off || !system->matrix || !system->work ||
        !system->step) {
        return KL_NO_MEMORY;
    }
    for (kl_index e = 0; e < mesh->element_count; e++) {
        system->edge_of[e] =
            graph_edge(system->graph, mesh->elements[e].node[0], mesh->elements[e].node[1]);
    }
    return KL_OK;
}

void system_destroy(frame_system *system)
{
    factor_destroy(system->factor);
    symbolic_destroy(system->symbolic);
    graph_destroy(system->graph);
    *system = (frame_system){0};
}

/* ---- values ------------------------------------------------------------------------------------------ */

/* One term of the matrix; terms come in symmetric pairs and only those with row node <= column node are kept. */
static void add_term(frame_system *system, kl_index row, kl_index column, double value)
{
    const kl_index a = row / 3;
    const kl_index b = column / 3;
    const int at = 3 * (int)(row % 3) + (int)(column % 3);
    if (a == b) {
        system->diag[9 * (size_t)a + (size_t)at] += value;
    } else if (a < b) {
        const kl_index edge = graph_edge(system->graph, a, b);
        system->off[9 * (size_t)edge + (size_t)at] += value;
    }
}

/* Turn a block between global axes into one between node axes: R_a^T B R_b. */
static void turn_block(node_axis a, node_axis b, double *block)
{
    for (int j = 0; j < 3; j++) {
        const double x = block[j];
        const double y = block[3 + j];
        block[j] = a.cosine * x + a.sine * y;
        block[3 + j] = a.cosine * y - a.sine * x;
    }
    for (int i = 0; i < 3; i++) {
        const double x = block[3 * i];
        const double y = block[3 * i + 1];
        block[3 * i] = x * b.cosine + y * b.sine;
        block[3 * i + 1] = y * b.cosine - x * b.sine;
    }
}

static void add_block(frame_system *system, kl_index a, kl_index b, const double *global)
{
    const unknown_map *map = &system->map;
    double block[9];
    memcpy(block, global, sizeof block);
    if (!is_exact_zero(map->axis[a].sine) || !is_exact_zero(map->axis[b].sine)) {
        turn_block(map->axis[a], map->axis[b], block);
    }
    for (int i = 0; i < 3; i++) {
        const kl_index row = map->master[3 * a + i];
        if (map->kind[row] != UNKNOWN_FREE) {
            continue;
        }
        for (int j = 0; j < 3; j++) {
            const kl_index column = map->master[3 * b + j];
            if (map->kind[column] == UNKNOWN_FREE && !is_exact_zero(block[3 * i + j])) {
                add_term(system, row, column, block[3 * i + j]);
            }
        }
    }
}

static void add_nine(double *to, const double *block)
{
    for (int i = 0; i < 9; i++) {
        to[i] += block[i];
    }
}

static void add_element(frame_system *system, kl_index e)
{
    const kl_index *node = system->mesh->elements[e].node;
    double block[2][2][9];
    element_stiffness(&system->matrix[e], block);
    if (system->map.plain[node[0]] && system->map.plain[node[1]]) {
        add_nine(&system->diag[9 * (size_t)node[0]], block[0][0]);
        add_nine(&system->diag[9 * (size_t)node[1]], block[1][1]);
        const double *off = node[0] < node[1] ? block[0][1] : block[1][0];
        add_nine(&system->off[9 * (size_t)system->edge_of[e]], off);
        return;
    }
    for (int i = 0; i < 2; i++) {
        for (int j = 0; j < 2; j++) {
            add_block(system, node[i], node[j], block[i][j]);
        }
    }
}

/* A spring in one global direction between two nodes, or from one to the ground. */
static void
add_spring(frame_system *system, kl_index a, kl_index b, int direction, double stiffness)
{
    double block[9] = {0};
    block[3 * direction + direction] = stiffness;
    add_block(system, a, a, block);
    if (b == KL_NONE) {
        return;
    }
    add_block(system, b, b, block);
    block[3 * direction + direction] = -stiffness;
    add_block(system, a, b, block);
    add_block(system, b, a, block);
}

/* Support springs act along the node's own axes. */
static void add_hold(frame_system *system, const frame_hold *hold)
{
    const kl_index unknown = system->map.master[3 * hold->node + hold->direction];
    if (!hold->held && hold->stiffness > 0.0 && system->map.kind[unknown] == UNKNOWN_FREE) {
        add_term(system, unknown, unknown, hold->stiffness);
    }
}

void system_assemble(frame_system *system, const frame_structure *s)
{
    system->braced = false;
    const frame_mesh *mesh = system->mesh;
    constraints_update(mesh, s, &system->map);
    memset(system->diag, 0, 9 * (size_t)mesh->node_count * sizeof(double));
    memset(system->off, 0, 9 * (size_t)system->graph->edge_count * sizeof(double));
    for (kl_index e = 0; e < mesh->element_count; e++) {
        if (s->on[e]) {
            add_element(system, e);
        }
    }
    for (kl_index i = 0; i < s->strut_count; i++) {
        add_spring(system, s->struts[i].top, s->struts[i].foot, 1, s->struts[i].stiffness);
    }
    for (kl_index i = 0; i < s->joint_count; i++) {
        const frame_joint *joint = &s->joints[i];
        if (!joint->joined && joint->stiffness > 0.0) {
            add_spring(system, joint->node, joint->base, joint->direction, joint->stiffness);
        }
    }
    for (kl_index i = 0; i < s->hold_count; i++) {
        add_hold(system, &s->holds[i]);
    }
    for (kl_index i = 0; i < 3 * mesh->node_count; i++) {
        if (system->map.kind[i] != UNKNOWN_FREE) {
            system->diag[9 * (size_t)(i / 3) + 4 * (size_t)(i % 3)] = 1.0;
        }
    }
}

/* A pivot this far below its own diagonal is looked at: a sound cantilever of n equal elements reaches 1/(8 n^3). */
#define SUSPECT_RATIO 1e-8

kl_status system_factor(frame_system *system, factor_report *report)
{
    return factor_compute(system->factor, system->diag, system->off, SUSPECT_RATIO, report);
}

void system_brace(frame_system *system, double share)
{
    system->braced = true;
    for (size_t i = 0; i < 3 * (size_t)system->mesh->node_count; i++) {
        system->diag[9 * (i / 3) + 4 * (i % 3)] *= 1.0 + share;
    }
}

double system_stiffen(frame_system *system, kl_index node, int direction)
{
    double *own = &system->diag[9 * (size_t)node + 4 * (size_t)direction];
    const double size = fabs(*own) > 0.0 ? fabs(*own) : 1.0;
    *own += size;
    return size;
}
