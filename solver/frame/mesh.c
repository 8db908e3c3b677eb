/* mesh.c - see mesh.h.
 *
 * The stations where elements must end (mesh_stops.h) are walked twice: to count the elements, and to make them.
 * SPDX-License-Identifier: MIT */
#include "mesh.h"

#include <math.h>

#include "mem.h"
#include "mesh_stops.h"
#include "near.h"

#define MESH_DIVISIONS 20 /* language: the default element is a twentieth of the member */
#define UPRIGHT_COSINE 0.05

typedef struct mesher {
    const kl_model *model;
    frame_mesh *mesh;
    kl_diags *diags;
    mesh_stops stops;
    size_t section_capacity;
    mesh_section *sections; /* growing; copied to the arena at the end */
    kl_index section_count;
} mesher;

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

static kl_index add_node(mesher *m, kl_index member, double station)
{
    m->mesh->nodes[m->mesh->node_count] = kl_member_point(m->model, member, station);
    return m->mesh->node_count++;
}

static kl_status add_element(mesher *m, const mesh_element *element)
{
    mesh_element *added = &m->mesh->elements[m->mesh->element_count];
    *added = *element;
    const kl_member *member = &m->model->members[element->member];
    mesh_member *of = &m->mesh->members[element->member];
    if (member->section_count == 1 && of->count > 0) {
        added->section =
            m->mesh->elements[of->first].section; /* prismatic: one set of values serves all */
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

/* Elements between two neighbouring stops, no longer than the member's longest. */
static double pieces_of(const mesher *m, kl_index index, double gap)
{
    const kl_member *member = &m->model->members[index];
    const double length = m->mesh->members[index].length;
    const double longest = isnan(member->mesh) ? length / MESH_DIVISIONS : member->mesh;
    const double wanted = member->axial_only ? 1.0 : ceil(gap / longest - NEAR_STATION);
    return fmax(wanted, 1.0);
}

/* Cut one gap. The hinge of a station belongs to the element that ends there. */
static kl_status cut_gap(mesher *m, mesh_element *current, const mesh_stop *end, bool last)
{
    const kl_member *member = &m->model->members[current->member];
    const double start = current->from;
    const double gap = end->station - start;
    const double tolerance = NEAR_STATION * m->mesh->members[current->member].length;
    const long pieces = (long)pieces_of(m, current->member, gap);
    for (long i = 1; i <= pieces; i++) {
        const bool final = i == pieces;
        current->to = final ? end->station : start + gap * (double)i / (double)pieces;
        if (final && last) {
            current->node[1] = member->to;
            current->rigid[1] = member->rigid_end;
        } else if (final && end->node != KL_NONE) {
            current->node[1] = end->node;
        } else {
            current->node[1] = add_node(m, current->member, current->to);
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

/* The next of a member's sorted stops first … last-1 that ends an element begun at `from`: not merged with the stop
 * before, not in a rigid part. `last`: none, the member's end does. */
static size_t next_stop(const mesher *m, kl_index index, size_t first, size_t last, double from)
{
    const double length = m->mesh->members[index].length;
    const double face_end = length - m->model->members[index].rigid_end;
    const double tolerance = NEAR_STATION * length;
    while (first < last && (m->stops.items[first].station <= from + tolerance ||
                            m->stops.items[first].station >= face_end - tolerance)) {
        first++;
    }
    return first;
}

/* How many elements a member is cut into. */
static double count_member(const mesher *m, kl_index index, size_t first, size_t last)
{
    const kl_member *member = &m->model->members[index];
    double from = member->rigid_start;
    double count = 0.0;
    for (size_t i = next_stop(m, index, first, last, from); i < last;
         i = next_stop(m, index, i, last, from)) {
        count += pieces_of(m, index, m->stops.items[i].station - from);
        from = m->stops.items[i].station;
    }
    const double face_end = m->mesh->members[index].length - member->rigid_end;
    return count + pieces_of(m, index, face_end - from);
}

/* One member from its sorted stops first … last-1. */
static kl_status cut_member(mesher *m, kl_index index, size_t first, size_t last)
{
    const kl_member *member = &m->model->members[index];
    mesh_member *of = &m->mesh->members[index];
    mesh_element current = {.member = index,
                            .node = {member->from, KL_NONE},
                            .from = member->rigid_start,
                            .rigid = {member->rigid_start, 0.0},
                            .hinge = {member->hinge_start, false}};
    of->first = m->mesh->element_count;
    for (size_t i = next_stop(m, index, first, last, current.from); i < last;
         i = next_stop(m, index, i, last, current.from)) {
        KL_TRY(cut_gap(m, &current, &m->stops.items[i], false));
    }
    const mesh_stop end = {index, KL_NONE, of->length - member->rigid_end, false};
    return cut_gap(m, &current, &end, true);
}

/* The end of a member's stops, which begin at `first`. */
static size_t last_stop(const mesher *m, kl_index member, size_t first)
{
    while (first < m->stops.count && m->stops.items[first].member == member) {
        first++;
    }
    return first;
}

/* Room for all elements and nodes, and the model's nodes in it. */
static kl_status make_room(mesher *m, arena *a)
{
    const kl_model *model = m->model;
    double count = 0.0;
    size_t first = 0;
    for (kl_index i = 0; i < model->member_count; i++) {
        const size_t last = last_stop(m, i, first);
        count += count_member(m, i, first, last);
        first = last;
    }
    if (count > MESH_LIMIT_ELEMENTS) {
        return KL_TOO_LARGE;
    }
    const size_t most = (size_t)count;
    m->mesh->elements = arena_array(a, most, sizeof(mesh_element));
    m->mesh->nodes = arena_array(a, (size_t)model->node_count + most, sizeof(kl_point));
    if (!m->mesh->elements || !m->mesh->nodes) {
        return KL_NO_MEMORY;
    }
    for (kl_index i = 0; i < model->node_count; i++) {
        m->mesh->nodes[i] = (kl_point){model->nodes[i].x, model->nodes[i].y};
    }
    m->mesh->node_count = model->node_count;
    return KL_OK;
}

static kl_status cut_all(mesher *m, arena *a)
{
    KL_TRY(make_room(m, a));
    size_t first = 0;
    for (kl_index i = 0; i < m->model->member_count; i++) {
        const size_t last = last_stop(m, i, first);
        KL_TRY(cut_member(m, i, first, last));
        first = last;
    }
    m->mesh->sections = arena_copy(a, m->sections, (size_t)m->section_count, sizeof(mesh_section));
    return m->mesh->sections ? KL_OK : KL_NO_MEMORY;
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
            mesh_node_at(m->mesh, item->carrier, mesh_station_at_x(m->mesh, item->carrier, out->x));
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
    KL_TRY(measure_members(m, a));
    KL_TRY(mesh_stops_collect(m->mesh, breaks, break_count, &m->stops));
    KL_TRY(cut_all(m, a));
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

bool mesh_gives_way_in_shear(const frame_mesh *m, kl_index element)
{
    const mesh_section *sections = &m->sections[m->elements[element].section];
    for (int p = 0; p < QUADRATURE_POINTS; p++) {
        if (!isinf(sections[p].shear_area)) {
            return true;
        }
    }
    return false;
}
