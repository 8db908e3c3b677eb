/* constraints.c - see constraints.h.
 * SPDX-License-Identifier: MIT */
#include "constraints.h"

#include <math.h>
#include <string.h>

#include "near.h"

/* kl_model_check refuses supports of one node that differ in slope, and slopes at bearings. */
static void take_slopes(const frame_mesh *mesh, unknown_map *map)
{
    const kl_model *model = mesh->model;
    for (kl_index i = 0; i < model->support_count; i++) {
        const kl_support *support = &model->supports[i];
        if (!is_exact_zero(support->slope)) {
            map->axis[support->node] = (node_axis){cos(support->slope), sin(support->slope)};
        }
    }
}

kl_status constraints_create(const frame_mesh *mesh, arena *a, unknown_map *map)
{
    const size_t nodes = (size_t)mesh->node_count;
    map->kind = arena_array(a, 3 * nodes, sizeof(unsigned char));
    map->master = arena_array(a, 3 * nodes, sizeof(kl_index));
    map->axis = arena_array(a, nodes, sizeof(node_axis));
    map->plain = arena_array(a, nodes, sizeof(bool));
    if (!map->kind || !map->master || !map->axis || !map->plain) {
        return KL_NO_MEMORY;
    }
    for (size_t i = 0; i < nodes; i++) {
        map->axis[i] = (node_axis){1.0, 0.0};
    }
    take_slopes(mesh, map);
    return KL_OK;
}

/* Whatever an element or a spring gives stiffness to exists. */
static void mark_present(const frame_mesh *mesh, const frame_structure *s, unknown_map *map)
{
    memset(map->kind, UNKNOWN_ABSENT, 3 * (size_t)mesh->node_count);
    for (kl_index e = 0; e < mesh->element_count; e++) {
        if (!s->on[e]) {
            continue;
        }
        const mesh_element *element = &mesh->elements[e];
        const bool axial_only = mesh->model->members[element->member].axial_only;
        for (int end = 0; end < 2; end++) {
            unsigned char *kind = &map->kind[3 * element->node[end]];
            kind[0] = kind[1] = UNKNOWN_FREE;
            const bool lever = element->rigid[end] > 0.0;
            if (!axial_only && (!s->hinge[e][end] || lever)) {
                kind[2] = UNKNOWN_FREE;
            }
        }
    }
    for (kl_index n = 0; s->stands && n < mesh->model->node_count; n++) {
        if (mesh->fixture[n] && s->stands[n]) { /* it turns only with what holds or joins it */
            map->kind[3 * n] = map->kind[3 * n + 1] = UNKNOWN_FREE;
        }
    }
}

static bool stands(const unknown_map *map, kl_index node)
{
    return map->kind[3 * node] != UNKNOWN_ABSENT || map->kind[3 * node + 1] != UNKNOWN_ABSENT;
}

static void mark_held(const frame_structure *s, unknown_map *map)
{
    for (kl_index i = 0; i < s->hold_count; i++) {
        const frame_hold *hold = &s->holds[i];
        if (!stands(map, hold->node)) {
            continue;
        }
        unsigned char *kind = &map->kind[3 * hold->node + hold->direction];
        if (hold->held) {
            *kind = UNKNOWN_HELD;
        } else if (hold->stiffness > 0.0 && *kind == UNKNOWN_ABSENT) {
            *kind = UNKNOWN_FREE;
        }
    }
}

static kl_index root_of(const unknown_map *map, kl_index unknown)
{
    while (map->master[unknown] != unknown) {
        unknown = map->master[unknown];
    }
    return unknown;
}

/* A joined unknown follows the base's. What either has (stiffness, a support) both have. */
static void join(const frame_structure *s, unknown_map *map)
{
    for (kl_index i = 0; i < s->joint_count; i++) {
        const frame_joint *joint = &s->joints[i];
        if (!stands(map, joint->node) || !stands(map, joint->base)) {
            continue;
        }
        unsigned char *kind = map->kind;
        const kl_index slave = root_of(map, 3 * joint->node + joint->direction);
        const kl_index master = root_of(map, 3 * joint->base + joint->direction);
        if (joint->joined && slave != master) {
            map->master[slave] = master;
            if (kind[slave] == UNKNOWN_HELD || kind[master] == UNKNOWN_HELD) {
                kind[master] = UNKNOWN_HELD;
            } else if (kind[slave] == UNKNOWN_FREE) {
                kind[master] = UNKNOWN_FREE;
            }
            kind[slave] = UNKNOWN_SLAVE;
        } else if (joint->stiffness > 0.0) {
            kind[slave] = kind[slave] == UNKNOWN_ABSENT ? UNKNOWN_FREE : kind[slave];
            kind[master] = kind[master] == UNKNOWN_ABSENT ? UNKNOWN_FREE : kind[master];
        }
    }
}

void constraints_update(const frame_mesh *mesh, const frame_structure *structure, unknown_map *map)
{
    const kl_index unknowns = 3 * mesh->node_count;
    for (kl_index i = 0; i < unknowns; i++) {
        map->master[i] = i;
    }
    mark_present(mesh, structure, map);
    mark_held(structure, map);
    join(structure, map);
    for (kl_index i = 0; i < unknowns; i++) {
        map->master[i] = root_of(map, i);
    }
    for (kl_index i = 0; i < mesh->node_count; i++) {
        const unsigned char *kind = &map->kind[3 * i];
        map->plain[i] = kind[0] == UNKNOWN_FREE && kind[1] == UNKNOWN_FREE &&
                        kind[2] == UNKNOWN_FREE && is_exact_zero(map->axis[i].sine);
    }
}

void constraints_to_node_axes(const frame_mesh *mesh, const unknown_map *map, double *v)
{
    for (kl_index i = 0; i < mesh->node_count; i++) {
        const node_axis axis = map->axis[i];
        const double x = v[3 * i];
        const double y = v[3 * i + 1];
        v[3 * i] = axis.cosine * x + axis.sine * y;
        v[3 * i + 1] = axis.cosine * y - axis.sine * x;
    }
}

void constraints_to_global(const frame_mesh *mesh, const unknown_map *map, double *v)
{
    for (kl_index i = 0; i < mesh->node_count; i++) {
        const node_axis axis = map->axis[i];
        const double x = v[3 * i];
        const double y = v[3 * i + 1];
        v[3 * i] = axis.cosine * x - axis.sine * y;
        v[3 * i + 1] = axis.sine * x + axis.cosine * y;
    }
}
