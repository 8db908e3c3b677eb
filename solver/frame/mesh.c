/* mesh.c - see mesh.h.
 *
 * All stations where elements must end are collected in one list, sorted by member and station, merged and
 * walked once: time n log n in the number of stations.
 * SPDX-License-Identifier: MIT */
#include "mesh.h"

#include <math.h>
#include <stdlib.h>

#include "mem.h"
#include "near.h"

#define MESH_LIMIT_ELEMENTS 2000000 /* some 4 GB with all that belongs to them */
#define MESH_DIVISIONS      20      /* language: the default element is a twentieth of the member */
/* Share of a member's length. A kink 1e-4 of the length from an element's end, unseen, changes the end rotation by
 * the square of it, 1e-8 of what friction brings; a piece of that length costs k twelve digits, which refinement
 * (response.h) still wins back. */
#define KINK_NEAR      1e-4
#define UPRIGHT_COSINE 0.05

typedef struct stop {
    kl_index member;
    kl_index node; /* model node here, or KL_NONE */
    double station;
    bool is_kink; /* a mesh_break: good to have, not needed */
} stop;

typedef struct stop_list {
    stop *items;
    size_t count, capacity;
} stop_list;

typedef struct mesher {
    const kl_model *model;
    frame_mesh *mesh;
    kl_diags *diags;
    stop_list stops;
    size_t element_capacity, node_capacity, section_capacity;
    mesh_element *elements; /* growing; copied to the arena at the end */
    kl_point *nodes;
    mesh_section *sections;
    kl_index section_count;
} mesher;

static kl_status add_stop(mesher *m, kl_index member, double station, kl_index node)
{
    void *items = m->stops.items;
    KL_TRY(mem_grow(&items, &m->stops.capacity, m->stops.count + 1, sizeof(stop),
                    MESH_LIMIT_ELEMENTS));
    m->stops.items = items;
    m->stops.items[m->stops.count++] = (stop){member, node, station, false};
    return KL_OK;
}

static int compare_stops(const void *a, const void *b)
{
    const stop *p = a;
    const stop *q = b;
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

static kl_status stops_of_member(mesher *m, kl_index index)
{
    const kl_member *member = &m->model->members[index];
    const double length = m->mesh->members[index].length;
    KL_TRY(add_stop(m, index, member->rigid_start, KL_NONE));
    KL_TRY(add_stop(m, index, length - member->rigid_end, KL_NONE));
    if (member->axial_only) {
        return KL_OK;
    }
    for (kl_index i = 0; i < member->hinge_count; i++) {
        KL_TRY(add_stop(m, index, member->hinges[i], KL_NONE));
    }
    for (kl_index i = 0; member->section_count > 1 && i < member->section_count; i++) {
        KL_TRY(add_stop(m, index, member->sections[i].station, KL_NONE));
    }
    return KL_OK;
}

static kl_status stops_of_loads(mesher *m)
{
    for (kl_index c = 0; c < m->model->case_count; c++) {
        const kl_case *load_case = &m->model->cases[c];
        for (kl_index i = 0; i < load_case->load_count; i++) {
            const kl_load *load = &load_case->loads[i];
            if (load->member == KL_NONE || m->model->members[load->member].axial_only) {
                continue;
            }
            if (!isnan(load->from)) {
                KL_TRY(add_stop(m, load->member, load->from, KL_NONE));
            }
            if (!isnan(load->to)) {
                KL_TRY(add_stop(m, load->member, load->to, KL_NONE));
            }
        }
    }
    return KL_OK;
}

/* A station along a tendon's members, as a stop of the member it falls on. */
static kl_status add_tendon_stop(mesher *m, const kl_tendon *tendon, double station)
{
    for (kl_index k = 0; k < tendon->member_count; k++) {
        const kl_index member = tendon->members[k];
        const double length = m->mesh->members[member].length;
        if (station <= length * (1.0 + NEAR_STATION)) {
            return add_stop(m, member, station, KL_NONE);
        }
        station -= length;
    }
    return KL_OK;
}

static kl_status stops_of_tendons(mesher *m)
{
    for (kl_index t = 0; t < m->model->tendon_count; t++) {
        const kl_tendon *tendon = &m->model->tendons[t];
        for (kl_index i = 0; i < tendon->row_count; i++) {
            KL_TRY(add_tendon_stop(m, tendon, tendon->rows[i].station));
        }
    }
    return KL_OK;
}

static double station_at_x(const frame_mesh *mesh, kl_index member, double x)
{
    const kl_member *item = &mesh->model->members[member];
    return (x - mesh->model->nodes[item->from].x) / mesh->members[member].cosine;
}

static kl_status stops_of_falsework(mesher *m)
{
    for (kl_index f = 0; f < m->model->falsework_count; f++) {
        const kl_falsework *item = &m->model->falsework[f];
        for (kl_index r = 0; r < item->row_count; r++) {
            KL_TRY(add_stop(m, item->member, item->stations[r], KL_NONE));
            if (item->carrier != KL_NONE) {
                const double x = kl_member_point(m->model, item->member, item->stations[r]).x;
                const double station = station_at_x(m->mesh, item->carrier, x);
                KL_TRY(add_stop(m, item->carrier, station, KL_NONE));
            }
        }
    }
    return KL_OK;
}

/* Hinges that stages open or close. */
static kl_status stops_of_stages(mesher *m)
{
    for (kl_index s = 0; s < m->model->stage_count; s++) {
        for (kl_index o = 0; o < m->model->stages[s].operation_count; o++) {
            const kl_operation *op = &m->model->stages[s].operations[o];
            if (op->kind == KL_OP_UNLOCK || op->kind == KL_OP_LOCK) {
                KL_TRY(add_stop(m, op->items.items[0], op->station, KL_NONE));
            }
        }
    }
    return KL_OK;
}

static kl_status collect_stops(mesher *m, const mesh_break *breaks, kl_index break_count)
{
    for (kl_index i = 0; i < m->model->member_count; i++) {
        KL_TRY(stops_of_member(m, i));
    }
    for (kl_index i = 0; i < m->model->node_count; i++) {
        const kl_node *node = &m->model->nodes[i];
        if (node->member != KL_NONE) {
            KL_TRY(add_stop(m, node->member, node->station, i));
        }
    }
    KL_TRY(stops_of_loads(m));
    KL_TRY(stops_of_tendons(m));
    KL_TRY(stops_of_falsework(m));
    KL_TRY(stops_of_stages(m));
    for (kl_index i = 0; i < break_count; i++) {
        KL_TRY(add_stop(m, breaks[i].member, breaks[i].station, KL_NONE));
        m->stops.items[m->stops.count - 1].is_kink = true;
    }
    return KL_OK;
}

/* ---- cutting ----------------------------------------------------------------------------------------- */

static mesh_section gross_section(
    const mesher *m, const kl_member *member, kl_index index, double station, kl_side side)
{
    section_value v;
    member_section_values(m->model, index, station, side, &v);
    const member_section where = member_section_at(m->model, index, station, side);
    mesh_section s;
    s.area = v.area;
    s.inertia = member->axial_only ? 0.0 : v.inertia;
    s.centroid = v.centroid - v.line;
    s.top = s.centroid + v.to_top;
    s.bottom = s.centroid - v.to_bottom;
    s.depth = v.depth;
    s.shear_area = where.a->shear_flexible ? v.shear_area : HUGE_VAL;
    return s;
}

static kl_status add_sections(mesher *m, mesh_element *element)
{
    void *items = m->sections;
    KL_TRY(mem_grow(&items, &m->section_capacity, (size_t)m->section_count + QUADRATURE_POINTS,
                    sizeof(mesh_section), (size_t)MESH_LIMIT_ELEMENTS * QUADRATURE_POINTS));
    m->sections = items;
    const kl_member *member = &m->model->members[element->member];
    const double length = element->to - element->from;
    for (int p = 0; p < QUADRATURE_POINTS; p++) {
        const double station = element->from + length * m->mesh->rule.xi[p];
        m->sections[m->section_count + p] =
            gross_section(m, member, element->member, station, p < 3 ? KL_RIGHT : KL_LEFT);
    }
    element->section = m->section_count;
    m->section_count += QUADRATURE_POINTS;
    return KL_OK;
}

static kl_status add_node(mesher *m, kl_index member, double station, kl_index *node)
{
    void *items = m->nodes;
    KL_TRY(mem_grow(&items, &m->node_capacity, (size_t)m->mesh->node_count + 1, sizeof(kl_point),
                    MESH_LIMIT_ELEMENTS));
    m->nodes = items;
    m->nodes[m->mesh->node_count] = kl_member_point(m->model, member, station);
    *node = m->mesh->node_count++;
    return KL_OK;
}

static kl_status add_element(mesher *m, const mesh_element *element)
{
    void *items = m->elements;
    KL_TRY(mem_grow(&items, &m->element_capacity, (size_t)m->mesh->element_count + 1,
                    sizeof(mesh_element), MESH_LIMIT_ELEMENTS));
    m->elements = items;
    mesh_element *added = &m->elements[m->mesh->element_count];
    *added = *element;
    const kl_member *member = &m->model->members[element->member];
    mesh_member *of = &m->mesh->members[element->member];
    if (member->section_count == 1 && of->count > 0) {
        added->section =
            m->elements[of->first].section; /* prismatic: one set of values serves all */
    } else {
        KL_TRY(add_sections(m, added));
    }
    m->mesh->element_count++;
    of->count++;
    return KL_OK;
}

static bool has_hinge(const kl_member *member, double station, double tolerance)
{
    for (kl_index i = 0; i < member->hinge_count; i++) {
        if (fabs(member->hinges[i] - station) <= tolerance) {
            return true;
        }
    }
    return false;
}

/* Elements between two neighbouring stops, no longer than `longest`. The hinge of a station belongs to the
 * element that ends there. */
static kl_status
cut_gap(mesher *m, mesh_element *current, const stop *end, double longest, bool last)
{
    const kl_member *member = &m->model->members[current->member];
    const double start = current->from;
    const double gap = end->station - start;
    const double tolerance = NEAR_STATION * m->mesh->members[current->member].length;
    const double wanted = member->axial_only ? 1.0 : ceil(gap / longest - NEAR_STATION);
    if (wanted > MESH_LIMIT_ELEMENTS) {
        return KL_TOO_LARGE;
    }
    const long pieces = wanted < 1.0 ? 1 : (long)wanted;
    for (long i = 1; i <= pieces; i++) {
        const bool final = i == pieces;
        current->to = final ? end->station : start + gap * (double)i / (double)pieces;
        if (final && last) {
            current->node[1] = member->to;
            current->rigid[1] = member->rigid_end;
        } else if (final && end->node != KL_NONE) {
            current->node[1] = end->node;
        } else {
            KL_TRY(add_node(m, current->member, current->to, &current->node[1]));
        }
        current->hinge[1] =
            final && (last ? member->hinge_end : has_hinge(member, end->station, tolerance));
        KL_TRY(add_element(m, current));
        current->from = current->to;
        current->node[0] = current->node[1];
        current->rigid[0] = 0.0;
        current->hinge[0] = false;
    }
    return KL_OK;
}

/* One member from its sorted stops first … last-1. */
static kl_status cut_member(mesher *m, kl_index index, size_t first, size_t last)
{
    const kl_member *member = &m->model->members[index];
    mesh_member *of = &m->mesh->members[index];
    const double face_start = member->rigid_start;
    const double face_end = of->length - member->rigid_end;
    const double tolerance = NEAR_STATION * of->length;
    const double longest = isnan(member->mesh) ? of->length / MESH_DIVISIONS : member->mesh;
    mesh_element current = {.member = index,
                            .node = {member->from, KL_NONE},
                            .from = face_start,
                            .rigid = {member->rigid_start, 0.0},
                            .hinge = {member->hinge_start, false}};
    of->first = m->mesh->element_count;
    for (size_t i = first; i < last; i++) {
        const stop *here = &m->stops.items[i];
        if (here->station <= current.from + tolerance || here->station >= face_end - tolerance) {
            continue; /* merged with the stop before, or in a rigid part */
        }
        KL_TRY(cut_gap(m, &current, here, longest, false));
    }
    const stop end = {index, KL_NONE, face_end, false};
    return cut_gap(m, &current, &end, longest, true);
}

/* Stops closer than the tolerance are one; the model's node among them, if any, gives its name. */
static void merge_stops(mesher *m)
{
    size_t kept = 0;
    for (size_t i = 0; i < m->stops.count; i++) {
        const stop *here = &m->stops.items[i];
        stop *before = kept > 0 ? &m->stops.items[kept - 1] : NULL;
        if (before && before->member == here->member &&
            here->station - before->station <=
                NEAR_STATION * m->mesh->members[here->member].length) {
            if ((before->node == KL_NONE && here->node != KL_NONE) ||
                (before->is_kink && !here->is_kink)) {
                *before = *here;
            }
            continue;
        }
        m->stops.items[kept++] = *here;
    }
    m->stops.count = kept;
}

static bool is_beside(const mesher *m, const stop *a, const stop *b)
{
    return a->member == b->member &&
           fabs(a->station - b->station) <= KINK_NEAR * m->mesh->members[a->member].length;
}

/* A kink of a tendon's force falls where it will. Just beside another stop it would only make a piece too short for the
 * arithmetic; inside an element, so near its end, it goes unnoticed. */
static void drop_kinks(mesher *m)
{
    size_t kept = 0;
    for (size_t i = 0; i < m->stops.count; i++) {
        const stop here = m->stops.items[i];
        const bool beside_last = kept > 0 && is_beside(m, &m->stops.items[kept - 1], &here);
        const bool beside_next =
            i + 1 < m->stops.count && is_beside(m, &here, &m->stops.items[i + 1]);
        if (!here.is_kink || !(beside_last || beside_next)) {
            m->stops.items[kept++] = here;
        }
    }
    m->stops.count = kept;
}

static kl_status cut_all(mesher *m)
{
    qsort(m->stops.items, m->stops.count, sizeof(stop), compare_stops);
    merge_stops(m);
    drop_kinks(m);
    size_t first = 0;
    for (kl_index i = 0; i < m->model->member_count; i++) {
        size_t last = first;
        while (last < m->stops.count && m->stops.items[last].member == i) {
            last++;
        }
        KL_TRY(cut_member(m, i, first, last));
        first = last;
    }
    return KL_OK;
}

/* ---- rows of posts ----------------------------------------------------------------------------------- */

static kl_status place_row(mesher *m, const kl_falsework *item, kl_index row, mesh_row *out)
{
    const double station = item->stations[row];
    out->x = kl_member_point(m->model, item->member, station).x;
    out->top = mesh_node_at(m->mesh, item->member, station);
    out->stiffness = item->stiffness * item->posts;
    out->foot = KL_NONE;
    if (out->top == KL_NONE) {
        kl_diags_add(m->diags, KL_ERROR, "row-in-rigid-end", item->origin,
                     "Row %d of %s stands under a rigid end of %s.", (int)(row + 1), item->name,
                     m->model->members[item->member].name);
        kl_diags_hint(m->diags, "move the row, or make the rigid part shorter");
        return KL_BAD_MODEL;
    }
    if (item->carrier != KL_NONE) {
        out->foot =
            mesh_node_at(m->mesh, item->carrier, station_at_x(m->mesh, item->carrier, out->x));
        if (out->foot == KL_NONE) {
            kl_diags_add(m->diags, KL_ERROR, "row-without-foot", item->origin,
                         "Row %d of %s stands on a rigid end of %s.", (int)(row + 1), item->name,
                         m->model->members[item->carrier].name);
            kl_diags_hint(m->diags, "move the row, or make the rigid part shorter");
            return KL_BAD_MODEL;
        }
    }
    return KL_OK;
}

static kl_status place_rows(mesher *m, arena *a)
{
    const kl_model *model = m->model;
    m->mesh->first_row = arena_array(a, (size_t)model->falsework_count + 1, sizeof(kl_index));
    if (!m->mesh->first_row) {
        return KL_NO_MEMORY;
    }
    for (kl_index f = 0; f < model->falsework_count; f++) {
        m->mesh->first_row[f + 1] = m->mesh->first_row[f] + model->falsework[f].row_count;
    }
    m->mesh->row_count = m->mesh->first_row[model->falsework_count];
    m->mesh->rows = arena_array(a, (size_t)m->mesh->row_count, sizeof(mesh_row));
    if (!m->mesh->rows) {
        return KL_NO_MEMORY;
    }
    for (kl_index f = 0; f < model->falsework_count; f++) {
        for (kl_index r = 0; r < model->falsework[f].row_count; r++) {
            mesh_row *row = &m->mesh->rows[m->mesh->first_row[f] + r];
            row->falsework = f;
            row->row = r;
            KL_TRY(place_row(m, &model->falsework[f], r, row));
        }
    }
    return KL_OK;
}

/* ---- the whole --------------------------------------------------------------------------------------- */

static kl_status measure_members(mesher *m, arena *a)
{
    m->mesh->members = arena_array(a, (size_t)m->model->member_count, sizeof(mesh_member));
    if (!m->mesh->members) {
        return KL_NO_MEMORY;
    }
    for (kl_index i = 0; i < m->model->member_count; i++) {
        const kl_member *member = &m->model->members[i];
        const kl_node *from = &m->model->nodes[member->from];
        const kl_node *to = &m->model->nodes[member->to];
        mesh_member *of = &m->mesh->members[i];
        of->length = kl_member_length(m->model, i);
        of->cosine = (to->x - from->x) / of->length;
        of->sine = (to->y - from->y) / of->length;
    }
    return KL_OK;
}

static kl_status keep(mesher *m, arena *a)
{
    frame_mesh *out = m->mesh;
    out->elements = arena_copy(a, m->elements, (size_t)out->element_count, sizeof(mesh_element));
    out->nodes = arena_copy(a, m->nodes, (size_t)out->node_count, sizeof(kl_point));
    out->sections = arena_copy(a, m->sections, (size_t)m->section_count, sizeof(mesh_section));
    return out->elements && out->nodes && out->sections ? KL_OK : KL_NO_MEMORY;
}

/* A bearing may stand on a support, or carry one, without a member between. */
static kl_status find_fixtures(mesher *m, arena *a)
{
    const kl_model *model = m->model;
    bool *fixture = arena_array(a, (size_t)m->mesh->node_count, sizeof(bool));
    if (!fixture) {
        return KL_NO_MEMORY;
    }
    for (kl_index i = 0; i < model->bearing_count; i++) {
        fixture[model->bearings[i].node] = fixture[model->bearings[i].base] = true;
    }
    for (kl_index e = 0; e < m->mesh->element_count; e++) {
        fixture[m->mesh->elements[e].node[0]] = fixture[m->mesh->elements[e].node[1]] = false;
    }
    m->mesh->fixture = fixture;
    return KL_OK;
}

static kl_status create(mesher *m, const mesh_break *breaks, kl_index break_count, arena *a)
{
    const kl_model *model = m->model;
    KL_TRY(measure_members(m, a));
    void *nodes = NULL;
    KL_TRY(mem_grow(&nodes, &m->node_capacity, (size_t)model->node_count + 1, sizeof(kl_point),
                    MESH_LIMIT_ELEMENTS));
    m->nodes = nodes;
    for (kl_index i = 0; i < model->node_count; i++) {
        m->nodes[i] = (kl_point){model->nodes[i].x, model->nodes[i].y};
    }
    m->mesh->node_count = model->node_count;
    KL_TRY(collect_stops(m, breaks, break_count));
    KL_TRY(cut_all(m));
    KL_TRY(keep(m, a));
    KL_TRY(find_fixtures(m, a));
    return place_rows(m, a);
}

kl_status mesh_create(const kl_model *model,
                      const mesh_break *breaks,
                      kl_index break_count,
                      arena *a,
                      kl_diags *diags,
                      frame_mesh *out)
{
    *out = (frame_mesh){.model = model, .rule = quadrature_make()};
    mesher m = {.model = model, .mesh = out, .diags = diags};
    const kl_status status = create(&m, breaks, break_count, a);
    if (status == KL_TOO_LARGE) {
        kl_diags_add(diags, KL_ERROR, "too-many-elements", model->members[0].origin,
                     "The %d members of the model make more than %d elements.",
                     (int)model->member_count, MESH_LIMIT_ELEMENTS);
        kl_diags_hint(diags,
                      "`mesh` sets the longest element of a member; by default it is a twentieth");
    }
    mem_free(m.stops.items);
    mem_free(m.elements);
    mem_free(m.nodes);
    mem_free(m.sections);
    return status;
}

/* ---- looking up -------------------------------------------------------------------------------------- */

kl_index mesh_element_at(const frame_mesh *m, kl_index member, double station, kl_side side)
{
    const mesh_member *of = &m->members[member];
    const double tolerance = NEAR_STATION * of->length;
    const double wanted = side == KL_LEFT ? station - tolerance : station + tolerance;
    kl_index low = 0;
    kl_index high = of->count - 1;
    while (low < high) { /* the first element that ends beyond `wanted` */
        const kl_index middle = low + (high - low) / 2;
        if (m->elements[of->first + middle].to > wanted) {
            high = middle;
        } else {
            low = middle + 1;
        }
    }
    return of->first + low;
}

kl_index mesh_node_at(const frame_mesh *m, kl_index member, double station)
{
    const mesh_member *of = &m->members[member];
    const double tolerance = 2.0 * NEAR_STATION * of->length;
    if (station <= tolerance) {
        return station >= -tolerance ? m->elements[of->first].node[0] : KL_NONE;
    }
    if (station >= of->length - tolerance) {
        return station <= of->length + tolerance ? m->elements[of->first + of->count - 1].node[1]
                                                 : KL_NONE;
    }
    const mesh_element *element = &m->elements[mesh_element_at(m, member, station, KL_LEFT)];
    if (fabs(element->to - station) <= tolerance && is_exact_zero(element->rigid[1])) {
        return element->node[1];
    }
    return KL_NONE;
}

double mesh_point_station(const frame_mesh *m, kl_index element, int p)
{
    const mesh_element *e = &m->elements[element];
    return e->from + (e->to - e->from) * m->rule.xi[p];
}

bool mesh_is_upright(const frame_mesh *m, kl_index member)
{
    return fabs(m->members[member].cosine) < UPRIGHT_COSINE;
}
