/* results_station.c - stations worth a row in a table, and sections along members.
 * SPDX-License-Identifier: MIT */
#include <math.h>
#include <stdlib.h>
#include <string.h>

#include "material.h"
#include "mem.h"
#include "near.h"
#include "pi.h"
#include "result_store.h"

#define STATION_LIMIT 2000000

typedef struct place {
    double station;
    kl_index node;
    bool is_face, is_jump;
} place;

typedef struct place_list {
    place *items;
    size_t count, capacity;
} place_list;

static kl_status add_place(place_list *list, place p)
{
    void *items = list->items;
    KL_TRY(mem_grow(&items, &list->capacity, list->count + 1, sizeof(place), STATION_LIMIT));
    list->items = items;
    list->items[list->count++] = p;
    return KL_OK;
}

static int compare_places(const void *a, const void *b)
{
    const place *p = a;
    const place *q = b;
    return (p->station > q->station) - (p->station < q->station);
}

/* ---- collecting ------------------------------------------------------------------------------------------ */

/* Where a column's faces cross the member: half of the column's depth to both sides of its node. */
static kl_status faces_at_node(
    const kl_results *results, kl_index member, kl_index node, double station, place_list *list)
{
    const frame_mesh *mesh = &results->run.mesh;
    const mesh_member *of = &mesh->members[member];
    for (kl_index i = results->first_at_node[node]; i < results->first_at_node[node + 1]; i++) {
        const kl_index other = results->member_at_node[i];
        const mesh_member *cross = &mesh->members[other];
        const double sine = fabs(of->cosine * cross->sine - of->sine * cross->cosine);
        if (other == member || sine < 0.5 || mesh->model->members[other].axial_only) {
            continue;
        }
        const bool at_start = mesh->model->members[other].from == node;
        const mesh_element *end =
            &mesh->elements[at_start ? cross->first : cross->first + cross->count - 1];
        const mesh_section *s =
            &mesh->sections[end->section + (at_start ? 0 : QUADRATURE_POINTS - 1)];
        const double half = 0.5 * (s->top - s->bottom) / sine;
        for (int way = -1; way <= 1 && !isnan(half); way += 2) {
            const double face = station + way * half;
            if (face > 0.0 && face < of->length) {
                KL_TRY(add_place(list, (place){face, KL_NONE, true, false}));
            }
        }
    }
    return KL_OK;
}

static kl_status places_of_nodes(const kl_results *results, kl_index member, place_list *list)
{
    const frame_mesh *mesh = &results->run.mesh;
    const kl_member *item = &mesh->model->members[member];
    const double length = mesh->members[member].length;
    KL_TRY(add_place(list, (place){0.0, item->from, false, false}));
    KL_TRY(add_place(list, (place){length, item->to, false, false}));
    KL_TRY(faces_at_node(results, member, item->from, 0.0, list));
    KL_TRY(faces_at_node(results, member, item->to, length, list));
    const mesh_member *of = &mesh->members[member];
    for (kl_index e = of->first; e + 1 < of->first + of->count; e++) {
        const kl_index node = mesh->elements[e].node[1];
        if (node < mesh->model->node_count) {
            KL_TRY(add_place(list, (place){mesh->elements[e].to, node, false, true}));
            KL_TRY(faces_at_node(results, member, node, mesh->elements[e].to, list));
        }
    }
    if (item->rigid_start > 0.0) {
        KL_TRY(add_place(list, (place){item->rigid_start, KL_NONE, true, false}));
    }
    if (item->rigid_end > 0.0) {
        KL_TRY(add_place(list, (place){length - item->rigid_end, KL_NONE, true, false}));
    }
    return KL_OK;
}

static kl_status places_of_loads(const kl_model *model, kl_index member, place_list *list)
{
    for (kl_index c = 0; c < model->case_count; c++) {
        for (kl_index i = 0; i < model->cases[c].load_count; i++) {
            const kl_load *load = &model->cases[c].loads[i];
            if (load->member != member) {
                continue;
            }
            const bool jump = load->kind == KL_LOAD_POINT || load->kind == KL_LOAD_MOMENT;
            if (!isnan(load->from) && load->kind != KL_LOAD_WEIGHT) {
                KL_TRY(add_place(list, (place){load->from, KL_NONE, false, jump}));
            }
            if (!isnan(load->to)) {
                KL_TRY(add_place(list, (place){load->to, KL_NONE, false, false}));
            }
        }
    }
    return KL_OK;
}

static kl_status places_of_parts(const kl_results *results, kl_index member, place_list *list)
{
    const kl_model *model = results->run.model;
    const frame_mesh *mesh = &results->run.mesh;
    const kl_member *item = &model->members[member];
    for (kl_index i = 0; i < item->section_count && item->section_count > 1; i++) {
        KL_TRY(add_place(list, (place){item->sections[i].station, KL_NONE, false, true}));
    }
    for (kl_index i = 0; i < item->hinge_count; i++) {
        KL_TRY(add_place(list, (place){item->hinges[i], KL_NONE, false, true}));
    }
    for (kl_index r = 0; r < mesh->row_count; r++) {
        const kl_falsework *f = &model->falsework[mesh->rows[r].falsework];
        if (f->member == member) {
            KL_TRY(add_place(list, (place){f->stations[mesh->rows[r].row], KL_NONE, false, true}));
        } else if (f->carrier == member) {
            const double x0 = model->nodes[item->from].x;
            KL_TRY(add_place(list, (place){(mesh->rows[r].x - x0) / mesh->members[member].cosine,
                                           KL_NONE, false, true}));
        }
    }
    return KL_OK;
}

/* Anchors that lie inside the member. */
static kl_status places_of_tendons(const kl_results *results, kl_index member, place_list *list)
{
    const member_tendons *through = &results->run.through;
    const double length = results->run.mesh.members[member].length;
    for (kl_index k = through->first[member]; k < through->first[member + 1]; k++) {
        const member_tendon *of = &through->items[k];
        const tendon_path *path = &results->run.paths[of->tendon];
        const double ends[2] = {path->begin - of->start, path->end - of->start};
        for (int i = 0; i < 2; i++) {
            if (ends[i] > 0.0 && ends[i] < length) {
                KL_TRY(add_place(list, (place){ends[i], KL_NONE, false, true}));
            }
        }
    }
    return KL_OK;
}

static kl_status divisions(double length, double every, place_list *list)
{
    const double step = isnan(every) || !(every > 0.0) ? length / 20.0 : every;
    const double count = floor(length / step + NEAR_STATION);
    if (count > STATION_LIMIT) {
        return KL_TOO_LARGE;
    }
    for (long i = 1; i <= (long)count; i++) {
        KL_TRY(add_place(list, (place){fmin((double)i * step, length), KL_NONE, false, false}));
    }
    return KL_OK;
}

/* ---- rows ------------------------------------------------------------------------------------------------ */

static size_t merge_places(place *items, size_t count, double tolerance)
{
    size_t kept = 0;
    for (size_t i = 0; i < count; i++) {
        place *before = kept > 0 ? &items[kept - 1] : NULL;
        if (before && items[i].station - before->station <= tolerance) {
            before->is_face = before->is_face || items[i].is_face;
            before->is_jump = before->is_jump || items[i].is_jump;
            before->node = before->node == KL_NONE ? items[i].node : before->node;
            continue;
        }
        items[kept++] = items[i];
    }
    return kept;
}

static kl_status make_rows(kl_results *results,
                           place_list *list,
                           double length,
                           const kl_station_row **rows,
                           kl_index *count)
{
    qsort(list->items, list->count, sizeof(place), compare_places);
    list->count = merge_places(list->items, list->count, NEAR_STATION * length);
    kl_station_row *out = arena_array(&results->a, 2 * list->count, sizeof(kl_station_row));
    kl_index n = 0;
    if (!out) {
        return KL_NO_MEMORY;
    }
    for (size_t i = 0; i < list->count; i++) {
        const place *p = &list->items[i];
        const bool is_end = i == 0 || i + 1 == list->count;
        if (p->is_jump && !is_end) {
            out[n++] = (kl_station_row){p->station, KL_LEFT, p->node, p->is_face};
        }
        out[n++] = (kl_station_row){p->station, i + 1 == list->count ? KL_LEFT : KL_RIGHT, p->node,
                                    p->is_face};
    }
    *rows = out;
    *count = n;
    return KL_OK;
}

static kl_status collect(const kl_results *results, kl_index member, double every, place_list *list)
{
    KL_TRY(places_of_nodes(results, member, list));
    KL_TRY(places_of_loads(results->run.model, member, list));
    KL_TRY(places_of_parts(results, member, list));
    KL_TRY(places_of_tendons(results, member, list));
    return divisions(results->run.mesh.members[member].length, every, list);
}

kl_status kl_station_rows(kl_results *results,
                          kl_index member,
                          double every,
                          const kl_station_row **rows,
                          kl_index *count)
{
    place_list list = {0};
    kl_status status = collect(results, member, every, &list);
    if (status == KL_OK) {
        status = make_rows(results, &list, results->run.mesh.members[member].length, rows, count);
    }
    mem_free(list.items);
    return status;
}

/* ---- sections -------------------------------------------------------------------------------------------- */

kl_status kl_section_at_station(const kl_results *results,
                                kl_index member,
                                double station,
                                kl_side side,
                                kl_section_values *values)
{
    const member_section at = member_section_at(results->run.model, member, station, side);
    section_value v;
    section_evaluate(at.a, at.b, at.t, &v);
    *values = (kl_section_values){.area = v.area,
                                  .inertia = v.inertia,
                                  .to_top = v.to_top,
                                  .to_bottom = v.to_bottom,
                                  .centroid = v.centroid - v.line,
                                  .shear_area = v.shear_area,
                                  .perimeter_exposed = v.perimeter_exposed,
                                  .width = v.width_bottom,
                                  .volume_to_surface = section_volume_to_surface(at.a, at.b, at.t)};
    return KL_OK;
}

kl_status kl_section_outline_at(kl_results *results,
                                kl_index member,
                                double station,
                                kl_side side,
                                const kl_section_outline **outline)
{
    const member_section at = member_section_at(results->run.model, member, station, side);
    section_value v;
    kl_section_outline *out = arena_array(&results->a, 1, sizeof *out);
    if (!out) {
        return KL_NO_MEMORY;
    }
    section_evaluate(at.a, at.b, at.t, &v);
    KL_TRY(section_outline(at.a, at.b, at.t, v.line, KL_ROUND_SIDES, &results->a, out));
    *outline = out;
    return KL_OK;
}

void kl_concrete_of_state(const kl_results *results,
                          kl_state state,
                          kl_index member,
                          double *modulus,
                          double *strength,
                          double *age)
{
    const kl_material *material =
        &results->run.model->materials[results->run.model->members[member].material];
    const state_record *record = store_record_of(results, state);
    *modulus = *strength = *age = NAN;
    if (!record) {
        return;
    }
    const double since = record->time - record->members[member].birth;
    *age = results->run.ageless ? 28.0 * KL_DAY : fmax(since, KL_DAY);
    *modulus = material_modulus(material, *age);
    *strength = material_strength(material, *age);
}

/* Add modular-ratio area at height y above the line. */
static void add_area(double area, double y, double *a, double *s, double *i)
{
    *a += area;
    *s += area * y;
    *i += area * y * y;
}

/* One tendon's hole or steel where it passes a station. */
static void add_tendon(const kl_results *results,
                       const state_record *record,
                       kl_index t,
                       double x,
                       double modulus,
                       double sums[3])
{
    const kl_tendon *tendon = &results->run.model->tendons[t];
    const tendon_trace *trace = &results->run.traces[t];
    const path_point at = profile_at(&results->run.paths[t], x, KL_RIGHT);
    if (record->tendons[t].phase != KL_TENDON_GROUTED) {
        const double hole = 0.25 * PI * tendon->duct * tendon->duct * tendon->count;
        add_area(-hole, at.duct, &sums[0], &sums[1], &sums[2]);
        return;
    }
    const double cosine = 1.0 / sqrt(1.0 + at.slope * at.slope);
    const double ratio = trace->modulus / modulus * cosine * cosine * cosine;
    add_area((ratio - 1.0) * trace->area, at.height, &sums[0], &sums[1], &sums[2]);
}

static void add_rebar(const kl_model *model,
                      kl_index member,
                      double station,
                      kl_side side,
                      double modulus,
                      double sums[3])
{
    section_value v;
    const member_section where = member_section_at(model, member, station, side);
    section_evaluate(where.a, where.b, where.t, &v);
    const rebar_sums r = rebar_at(model, &where, v.centroid - v.line + v.to_top);
    sums[0] += r.ea / modulus - r.area;
    sums[1] += r.es / modulus - r.first;
    sums[2] += r.ei / modulus - r.second;
}

kl_status kl_section_of_state(const kl_results *results,
                              kl_state state,
                              kl_index member,
                              double station,
                              kl_side side,
                              kl_section_values *values)
{
    const state_record *record = store_record_of(results, state);
    const kl_model *model = results->run.model;
    double modulus;
    double strength;
    double age;
    if (!record) {
        return KL_NOT_THERE;
    }
    KL_TRY(kl_section_at_station(results, member, station, side, values));
    kl_concrete_of_state(results, state, member, &modulus, &strength, &age);
    double sums[3] = {values->area, values->area * values->centroid,
                      values->inertia + values->area * values->centroid * values->centroid};
    if (!model->sections_gross) {
        add_rebar(model, member, station, side, modulus, sums);
    }
    const member_tendons *through = &results->run.through;
    for (kl_index k = through->first[member];
         k < through->first[member + 1] && !model->sections_gross; k++) {
        const kl_index t = through->items[k].tendon;
        const double x = through->items[k].start + station;
        if (x >= results->run.paths[t].begin && x <= results->run.paths[t].end) {
            add_tendon(results, record, t, x, modulus, sums);
        }
    }
    const double shift = sums[1] / sums[0] - values->centroid;
    values->area = sums[0];
    values->centroid += shift;
    values->to_top -= shift;
    values->to_bottom += shift;
    values->inertia = sums[2] - sums[1] * sums[1] / sums[0];
    return KL_OK;
}
