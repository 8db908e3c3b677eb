/* mesh_stops.c - see mesh_stops.h.
 * SPDX-License-Identifier: MIT */
#include "mesh_stops.h"

#include <math.h>
#include <stdlib.h>

#include "mem.h"
#include "near.h"

/* Share of a member's length. A kink 1e-4 of the length from an element's end, unseen, changes the end rotation by
 * the square of it, 1e-8 of what friction brings; a piece of that length costs k twelve digits, which refinement
 * (response.h) still wins back. */
#define KINK_NEAR 1e-4

static kl_status add_stop(mesh_stops *stops, kl_index member, double station, kl_index node)
{
    void *items = stops->items;
    KL_TRY(mem_grow(&items, &stops->capacity, stops->count + 1, sizeof(mesh_stop),
                    MESH_LIMIT_ELEMENTS));
    stops->items = items;
    stops->items[stops->count++] = (mesh_stop){member, node, station, false};
    return KL_OK;
}

static int compare_stops(const void *a, const void *b)
{
    const mesh_stop *p = a;
    const mesh_stop *q = b;
    if (p->member != q->member) {
        return p->member < q->member ? -1 : 1;
    }
    if (p->station < q->station || p->station > q->station) {
        return p->station < q->station ? -1 : 1;
    }
    /* A model node first, so that merging keeps it. */
    return (p->node == KL_NONE) - (q->node == KL_NONE);
}

/* ---- collecting -------------------------------------------------------------------------------------- */

static kl_status stops_of_member(const frame_mesh *mesh, mesh_stops *stops, kl_index index)
{
    const kl_member *member = &mesh->model->members[index];
    const double length = mesh->members[index].length;
    KL_TRY(add_stop(stops, index, member->rigid_start, KL_NONE));
    KL_TRY(add_stop(stops, index, length - member->rigid_end, KL_NONE));
    if (member->axial_only) {
        return KL_OK;
    }
    for (kl_index i = 0; i < member->hinge_count; i++) {
        KL_TRY(add_stop(stops, index, member->hinges[i], KL_NONE));
    }
    for (kl_index i = 0; member->section_count > 1 && i < member->section_count; i++) {
        KL_TRY(add_stop(stops, index, member->sections[i].station, KL_NONE));
    }
    return KL_OK;
}

static kl_status stops_of_loads(const frame_mesh *mesh, mesh_stops *stops)
{
    for (kl_index c = 0; c < mesh->model->case_count; c++) {
        const kl_case *load_case = &mesh->model->cases[c];
        for (kl_index i = 0; i < load_case->load_count; i++) {
            const kl_load *load = &load_case->loads[i];
            if (load->member == KL_NONE || mesh->model->members[load->member].axial_only) {
                continue;
            }
            if (!isnan(load->from)) {
                KL_TRY(add_stop(stops, load->member, load->from, KL_NONE));
            }
            if (!isnan(load->to)) {
                KL_TRY(add_stop(stops, load->member, load->to, KL_NONE));
            }
        }
    }
    return KL_OK;
}

/* A station along a tendon's members, as a stop of the member it falls on. */
static kl_status
add_tendon_stop(const frame_mesh *mesh, mesh_stops *stops, const kl_tendon *tendon, double station)
{
    for (kl_index k = 0; k < tendon->member_count; k++) {
        const kl_index member = tendon->members[k];
        const double length = mesh->members[member].length;
        if (station <= length * (1.0 + NEAR_STATION)) {
            return add_stop(stops, member, station, KL_NONE);
        }
        station -= length;
    }
    return KL_OK;
}

static kl_status stops_of_tendons(const frame_mesh *mesh, mesh_stops *stops)
{
    for (kl_index t = 0; t < mesh->model->tendon_count; t++) {
        const kl_tendon *tendon = &mesh->model->tendons[t];
        for (kl_index i = 0; i < tendon->row_count; i++) {
            KL_TRY(add_tendon_stop(mesh, stops, tendon, tendon->rows[i].station));
        }
    }
    return KL_OK;
}

double mesh_station_at_x(const frame_mesh *mesh, kl_index member, double x)
{
    const kl_member *item = &mesh->model->members[member];
    return (x - mesh->model->nodes[item->from].x) / mesh->members[member].cosine;
}

static kl_status stops_of_falsework(const frame_mesh *mesh, mesh_stops *stops)
{
    for (kl_index f = 0; f < mesh->model->falsework_count; f++) {
        const kl_falsework *item = &mesh->model->falsework[f];
        for (kl_index r = 0; r < item->row_count; r++) {
            KL_TRY(add_stop(stops, item->member, item->stations[r], KL_NONE));
            if (item->carrier != KL_NONE) {
                const double x = kl_member_point(mesh->model, item->member, item->stations[r]).x;
                const double station = mesh_station_at_x(mesh, item->carrier, x);
                KL_TRY(add_stop(stops, item->carrier, station, KL_NONE));
            }
        }
    }
    return KL_OK;
}

/* Hinges that stages open or close. */
static kl_status stops_of_stages(const frame_mesh *mesh, mesh_stops *stops)
{
    for (kl_index s = 0; s < mesh->model->stage_count; s++) {
        for (kl_index o = 0; o < mesh->model->stages[s].operation_count; o++) {
            const kl_operation *op = &mesh->model->stages[s].operations[o];
            if (op->kind == KL_OP_UNLOCK || op->kind == KL_OP_LOCK) {
                KL_TRY(add_stop(stops, op->items.items[0], op->station, KL_NONE));
            }
        }
    }
    return KL_OK;
}

static kl_status
collect(const frame_mesh *mesh, const mesh_break *breaks, kl_index break_count, mesh_stops *stops)
{
    for (kl_index i = 0; i < mesh->model->member_count; i++) {
        KL_TRY(stops_of_member(mesh, stops, i));
    }
    for (kl_index i = 0; i < mesh->model->node_count; i++) {
        const kl_node *node = &mesh->model->nodes[i];
        if (node->member != KL_NONE) {
            KL_TRY(add_stop(stops, node->member, node->station, i));
        }
    }
    KL_TRY(stops_of_loads(mesh, stops));
    KL_TRY(stops_of_tendons(mesh, stops));
    KL_TRY(stops_of_falsework(mesh, stops));
    KL_TRY(stops_of_stages(mesh, stops));
    for (kl_index i = 0; i < break_count; i++) {
        KL_TRY(add_stop(stops, breaks[i].member, breaks[i].station, KL_NONE));
        stops->items[stops->count - 1].is_kink = true;
    }
    return KL_OK;
}

/* ---- merging ----------------------------------------------------------------------------------------- */

/* Stops closer than the tolerance are one; the model's node among them, if any, gives its name. */
static void merge_stops(const frame_mesh *mesh, mesh_stops *stops)
{
    size_t kept = 0;
    for (size_t i = 0; i < stops->count; i++) {
        const mesh_stop *here = &stops->items[i];
        mesh_stop *before = kept > 0 ? &stops->items[kept - 1] : NULL;
        if (before && before->member == here->member &&
            here->station - before->station <= NEAR_STATION * mesh->members[here->member].length) {
            if ((before->node == KL_NONE && here->node != KL_NONE) ||
                (before->is_kink && !here->is_kink)) {
                *before = *here;
            }
            continue;
        }
        stops->items[kept++] = *here;
    }
    stops->count = kept;
}

static bool is_beside(const frame_mesh *mesh, const mesh_stop *a, const mesh_stop *b)
{
    return a->member == b->member &&
           fabs(a->station - b->station) <= KINK_NEAR * mesh->members[a->member].length;
}

/* A kink of a tendon's force falls where it will. Just beside another stop it would only make a piece too short for the
 * arithmetic; inside an element, so near its end, it goes unnoticed. */
static void drop_kinks(const frame_mesh *mesh, mesh_stops *stops)
{
    size_t kept = 0;
    for (size_t i = 0; i < stops->count; i++) {
        const mesh_stop here = stops->items[i];
        const bool beside_last = kept > 0 && is_beside(mesh, &stops->items[kept - 1], &here);
        const bool beside_next =
            i + 1 < stops->count && is_beside(mesh, &here, &stops->items[i + 1]);
        if (!here.is_kink || !(beside_last || beside_next)) {
            stops->items[kept++] = here;
        }
    }
    stops->count = kept;
}

kl_status mesh_stops_collect(const frame_mesh *mesh,
                             const mesh_break *breaks,
                             kl_index break_count,
                             mesh_stops *stops)
{
    KL_TRY(collect(mesh, breaks, break_count, stops));
    qsort(stops->items, stops->count, sizeof(mesh_stop), compare_stops);
    merge_stops(mesh, stops);
    drop_kinks(mesh, stops);
    return KL_OK;
}
