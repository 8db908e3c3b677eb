/* element_load.c - see element_load.h.
 *
 * Concentrated loads stand on mesh nodes and distributed ones end there, so each element carries a smooth load.
 * What acts on a rigid part goes to its node by statics; so does what acts across an axial member.
 * SPDX-License-Identifier: MIT */
#include "element_load.h"

#include <math.h>
#include <string.h>

#include "near.h"

/* A force (global) at a distance `lever` along the member from a node: force and couple on the node. */
static void add_at_node(const frame_mesh *mesh,
                        kl_index member,
                        kl_index node,
                        double lever,
                        kl_point force,
                        frame_loads *loads)
{
    const mesh_member *of = &mesh->members[member];
    loads->node[3 * node] += force.x;
    loads->node[3 * node + 1] += force.y;
    loads->node[3 * node + 2] += lever * (of->cosine * force.y - of->sine * force.x);
}

static kl_point global_force(const mesh_member *of, const kl_load *load, double value)
{
    if (load->frame == KL_GLOBAL) {
        return (kl_point){value * load->dx, value * load->dy};
    }
    return (kl_point){value * (load->dx * of->cosine - load->dy * of->sine),
                      value * (load->dx * of->sine + load->dy * of->cosine)};
}

/* ---- concentrated ------------------------------------------------------------------------------------- */

/* An axial member hands a force with a first moment (force times station) to its ends as a simple beam does. */
static void add_at_ends(
    const frame_mesh *mesh, kl_index member, kl_point force, kl_point first, frame_loads *loads)
{
    const kl_member *item = &mesh->model->members[member];
    const double length = mesh->members[member].length;
    const kl_point end = {first.x / length, first.y / length};
    add_at_node(mesh, member, item->from, 0.0, (kl_point){force.x - end.x, force.y - end.y}, loads);
    add_at_node(mesh, member, item->to, 0.0, end, loads);
}

static void add_force_on_member(
    const frame_mesh *mesh, kl_index member, double station, kl_point force, frame_loads *loads)
{
    const kl_member *item = &mesh->model->members[member];
    const double length = mesh->members[member].length;
    if (item->axial_only) {
        add_at_ends(mesh, member, force, (kl_point){force.x * station, force.y * station}, loads);
        return;
    }
    const kl_index node = mesh_node_at(mesh, member, station);
    if (node != KL_NONE) {
        add_at_node(mesh, member, node, 0.0, force, loads);
    } else if (station < 0.5 * length) { /* in a rigid end or, by rounding, just beyond it */
        add_at_node(mesh, member, item->from, station, force, loads);
    } else {
        add_at_node(mesh, member, item->to, station - length, force, loads);
    }
}

static void add_couple_on_member(
    const frame_mesh *mesh, kl_index member, double station, double couple, frame_loads *loads)
{
    const kl_member *item = &mesh->model->members[member];
    const mesh_member *of = &mesh->members[member];
    if (item->axial_only) { /* its ends do not turn: a pair of forces across it */
        const kl_point first = {-couple * of->sine, couple * of->cosine};
        add_at_ends(mesh, member, (kl_point){0.0, 0.0}, first, loads);
        return;
    }
    kl_index node = mesh_node_at(mesh, member, station);
    if (node == KL_NONE) {
        node = station < 0.5 * of->length ? item->from : item->to;
    }
    loads->node[3 * node + 2] += couple;
}

/* ---- distributed -------------------------------------------------------------------------------------- */

/* Intensity along a distributed load at a station. */
static double intensity(const kl_load *load, double from, double to, double station)
{
    const double share = to > from ? (station - from) / (to - from) : 0.0;
    return load->value + (load->value_end - load->value) * share;
}

/* Force between two stations of the load's line of intensity, a trapezoid, and its first moment about `about`: so a
 * total of zero needs no lever. */
static void trapezoid(const kl_load *load,
                      const double range[2],
                      const double part[2],
                      double about,
                      double *total,
                      double *first)
{
    const double l = part[1] - part[0];
    const double a = intensity(load, range[0], range[1], part[0]);
    const double b = intensity(load, range[0], range[1], part[1]);
    *total = 0.5 * (a + b) * l;
    *first = 0.5 * l * (a + b) * (part[0] - about) + l * l * (a + 2.0 * b) / 6.0;
}

/* The part of a load between two stations of a rigid end goes to the node. */
static void add_on_rigid(const frame_mesh *mesh,
                         const kl_load *load,
                         double factor,
                         const double range[2],
                         const double part[2],
                         kl_index node,
                         double node_station,
                         frame_loads *loads)
{
    double total;
    double first;
    if (!(part[1] > part[0])) {
        return;
    }
    trapezoid(load, range, part, node_station, &total, &first);
    const mesh_member *of = &mesh->members[load->member];
    const kl_point force = global_force(of, load, factor * total);
    const kl_point arm = global_force(of, load, factor * first);
    add_at_node(mesh, load->member, node, 0.0, force, loads);
    loads->node[3 * node + 2] += of->cosine * arm.y - of->sine * arm.x;
}

static kl_status
add_distributed(const frame_mesh *mesh, const kl_load *load, double factor, frame_loads *loads)
{
    const mesh_member *of = &mesh->members[load->member];
    const kl_member *item = &mesh->model->members[load->member];
    const double range[2] = {isnan(load->from) ? 0.0 : load->from,
                             isnan(load->to) ? of->length : load->to};
    const double tolerance = NEAR_STATION * of->length;
    if (load->per_level) {
        factor *= fabs(of->cosine);
    }
    const bool whole = range[0] <= tolerance && range[1] >= of->length - tolerance;
    if (item->axial_only && !whole) { /* its one element carries a smooth load only */
        double total;
        double first;
        trapezoid(load, range, range, 0.0, &total, &first);
        add_at_ends(mesh, load->member, global_force(of, load, factor * total),
                    global_force(of, load, factor * first), loads);
        return KL_OK;
    }
    KL_TRY(loads_open_line(mesh, loads));
    for (kl_index i = 0; i < of->count; i++) {
        const mesh_element *e = &mesh->elements[of->first + i];
        if (e->to <= range[0] + tolerance || e->from >= range[1] - tolerance) {
            continue;
        }
        line_load *on = &loads->line[of->first + i];
        for (int p = 0; p < QUADRATURE_POINTS; p++) {
            const double station = e->from + (e->to - e->from) * mesh->rule.xi[p];
            const kl_point force =
                global_force(of, load, factor * intensity(load, range[0], range[1], station));
            on->along[p] += force.x * of->cosine + force.y * of->sine;
            on->across[p] += -force.x * of->sine + force.y * of->cosine;
        }
    }
    const double face_end = of->length - item->rigid_end;
    add_on_rigid(mesh, load, factor, range,
                 (double[2]){range[0], fmin(range[1], item->rigid_start)}, item->from, 0.0, loads);
    add_on_rigid(mesh, load, factor, range, (double[2]){fmax(range[0], face_end), range[1]},
                 item->to, of->length, loads);
    return KL_OK;
}

/* ---- weight ------------------------------------------------------------------------------------------- */

static double unit_weight(const frame_mesh *mesh, kl_index member)
{
    const kl_member *item = &mesh->model->members[member];
    const double weight = mesh->model->materials[item->material].unit_weight;
    return item->weightless || isnan(weight) ? 0.0 : weight;
}

static void add_area_moments(const frame_mesh *mesh,
                             kl_index member,
                             double from,
                             double to,
                             double about,
                             double *volume,
                             double *first)
{
    for (int p = 0; p < QUADRATURE_POINTS && to > from; p++) {
        const double station = from + (to - from) * mesh->rule.xi[p];
        section_value v;
        member_section_values(mesh->model, member, station, KL_RIGHT, &v);
        *volume += (to - from) * mesh->rule.weight[p] * v.area;
        *first += (to - from) * mesh->rule.weight[p] * v.area * (station - about);
    }
}

/* Gross area integrated over [from, to] and its first moment about `about`: Gauss points between section rows (no
 * element ends at those in a rigid part), exact for areas that are polynomials of the station. */
static void area_moments(const frame_mesh *mesh,
                         kl_index member,
                         double from,
                         double to,
                         double about,
                         double *volume,
                         double *first)
{
    const kl_member *item = &mesh->model->members[member];
    *volume = *first = 0.0;
    for (kl_index i = 0; i < item->section_count; i++) {
        const double row = item->sections[i].station;
        if (item->section_count > 1 && row > from && row < to) {
            add_area_moments(mesh, member, from, row, about, volume, first);
            from = row;
        }
    }
    add_area_moments(mesh, member, from, to, about, volume, first);
}

static void add_rigid_weight(const frame_mesh *mesh,
                             kl_index member,
                             const double part[2],
                             kl_index node,
                             double node_station,
                             double factor,
                             frame_loads *loads)
{
    double volume;
    double first;
    area_moments(mesh, member, part[0], part[1], node_station, &volume, &first);
    const double gamma = factor * unit_weight(mesh, member);
    loads->node[3 * node + 1] -= gamma * volume;
    loads->node[3 * node + 2] -= gamma * first * mesh->members[member].cosine;
}

kl_status loads_add_weight_between(const frame_mesh *mesh,
                                   kl_index member,
                                   double from,
                                   double to,
                                   double factor,
                                   frame_loads *loads)
{
    const mesh_member *of = &mesh->members[member];
    const kl_member *item = &mesh->model->members[member];
    const double gamma = factor * unit_weight(mesh, member);
    const double tolerance = NEAR_STATION * of->length;
    if (is_exact_zero(gamma)) {
        return KL_OK;
    }
    KL_TRY(loads_open_line(mesh, loads));
    for (kl_index i = 0; i < of->count; i++) {
        const mesh_element *e = &mesh->elements[of->first + i];
        if (e->to <= from + tolerance || e->from >= to - tolerance) {
            continue;
        }
        line_load *on = &loads->line[of->first + i];
        for (int p = 0; p < QUADRATURE_POINTS; p++) {
            const double w = gamma * mesh->sections[e->section + p].area;
            on->along[p] -= w * of->sine;
            on->across[p] -= w * of->cosine;
        }
    }
    const double face_end = of->length - item->rigid_end;
    add_rigid_weight(mesh, member, (double[2]){from, fmin(to, item->rigid_start)}, item->from, 0.0,
                     factor, loads);
    add_rigid_weight(mesh, member, (double[2]){fmax(from, face_end), to}, item->to, of->length,
                     factor, loads);
    return KL_OK;
}

kl_status
loads_add_weight(const frame_mesh *mesh, kl_index member, double factor, frame_loads *loads)
{
    return loads_add_weight_between(mesh, member, 0.0, mesh->members[member].length, factor, loads);
}

void loads_weight_resultant(
    const frame_mesh *mesh, kl_index member, double from, double to, double *weight, double *moment)
{
    const mesh_member *of = &mesh->members[member];
    const kl_member *item = &mesh->model->members[member];
    const double gamma = unit_weight(mesh, member);
    const double face_end = of->length - item->rigid_end;
    const double tolerance = NEAR_STATION * of->length;
    double volume;
    double first; /* about the member's start, along the line */
    area_moments(mesh, member, from, fmin(to, item->rigid_start), 0.0, &volume, &first);
    *weight = volume;
    *moment = first;
    area_moments(mesh, member, fmax(from, face_end), to, 0.0, &volume, &first);
    *weight += volume;
    *moment += first;
    for (kl_index i = 0; i < of->count; i++) {
        const mesh_element *e = &mesh->elements[of->first + i];
        if (e->to <= from + tolerance || e->from >= to - tolerance) {
            continue;
        }
        for (int p = 0; p < QUADRATURE_POINTS; p++) {
            const double share =
                (e->to - e->from) * mesh->rule.weight[p] * mesh->sections[e->section + p].area;
            *weight += share;
            *moment += share * (e->from + (e->to - e->from) * mesh->rule.xi[p]);
        }
    }
    *moment = gamma * (*weight * mesh->model->nodes[item->from].x + *moment * of->cosine);
    *weight *= gamma;
}

/* ---- temperature -------------------------------------------------------------------------------------- */

static void add_free_strain(const frame_mesh *mesh,
                            kl_index e,
                            int p,
                            double at_centroid,
                            double curvature,
                            frame_loads *loads)
{
    const mesh_section *s = &mesh->sections[mesh->elements[e].section + p];
    section_strain *const added[2] = {&loads->strain[e][p], &loads->fibre[e].plane[p]};
    for (int i = 0; i < 2; i++) {
        added[i]->e += at_centroid + curvature * s->centroid;
        added[i]->k += curvature;
    }
}

static kl_status
add_temperature(const frame_mesh *mesh, const kl_load *load, double factor, frame_loads *loads)
{
    const mesh_member *of = &mesh->members[load->member];
    const kl_member *item = &mesh->model->members[load->member];
    const double expansion = factor * mesh->model->materials[item->material].expansion;
    KL_TRY(loads_open_fibre(mesh, loads));
    for (kl_index i = of->first; i < of->first + of->count; i++) {
        for (int p = 0; p < QUADRATURE_POINTS; p++) {
            const mesh_section *s = &mesh->sections[mesh->elements[i].section + p];
            double strain = 0.0;
            double curvature = 0.0;
            if (load->kind == KL_LOAD_TEMPERATURE) {
                strain = expansion * load->value;
            } else {
                curvature = -expansion * load->value / s->depth; /* top warmer: it humps up */
            }
            add_free_strain(mesh, i, p, strain, curvature, loads);
            loads->fibre[i].top[p] += strain - curvature * (s->top - s->centroid);
            loads->fibre[i].bottom[p] += strain - curvature * (s->bottom - s->centroid);
        }
    }
    return KL_OK;
}

/* A temperature by depth: the section strain is that of the plane closest to the free strain, the rest is locked
 * in the fibres. */
static kl_status
add_profile(const frame_mesh *mesh, const kl_load *load, double factor, frame_loads *loads)
{
    const mesh_member *of = &mesh->members[load->member];
    const kl_member *item = &mesh->model->members[load->member];
    const double expansion = factor * mesh->model->materials[item->material].expansion;
    KL_TRY(loads_open_fibre(mesh, loads));
    for (kl_index i = of->first; i < of->first + of->count; i++) {
        for (int p = 0; p < QUADRATURE_POINTS; p++) {
            const mesh_section *s = &mesh->sections[mesh->elements[i].section + p];
            const double station = mesh_point_station(mesh, i, p);
            const member_section where =
                member_section_at(mesh->model, load->member, station, KL_RIGHT);
            double t_area;
            double t_moment;
            section_temperature_moments(where.a, where.b, where.t, load->points, load->point_count,
                                        &t_area, &t_moment);
            add_free_strain(mesh, i, p, expansion * t_area / s->area,
                            -expansion * t_moment / s->inertia, loads);
            loads->fibre[i].top[p] +=
                expansion * section_temperature_at(load->points, load->point_count, 0.0);
            loads->fibre[i].bottom[p] +=
                expansion *
                section_temperature_at(load->points, load->point_count, s->top - s->bottom);
        }
    }
    return KL_OK;
}

/* ---- the whole ---------------------------------------------------------------------------------------- */

static void
add_point(const frame_mesh *mesh, const kl_load *load, double factor, frame_loads *loads)
{
    if (load->node != KL_NONE) {
        loads->node[3 * load->node] += factor * load->value * load->dx;
        loads->node[3 * load->node + 1] += factor * load->value * load->dy;
        return;
    }
    const kl_point force = global_force(&mesh->members[load->member], load, factor * load->value);
    add_force_on_member(mesh, load->member, load->from, force, loads);
}

static void
add_moment(const frame_mesh *mesh, const kl_load *load, double factor, frame_loads *loads)
{
    if (load->node != KL_NONE) {
        loads->node[3 * load->node + 2] += factor * load->value;
    } else {
        add_couple_on_member(mesh, load->member, load->from, factor * load->value, loads);
    }
}

static kl_status
add_weights(const frame_mesh *mesh, const kl_load *load, double factor, frame_loads *loads)
{
    for (kl_index i = 0; i < mesh->model->member_count; i++) {
        if (load->member == KL_NONE || load->member == i) {
            KL_TRY(loads_add_weight(mesh, i, factor, loads));
        }
    }
    return KL_OK;
}

/* A support's node moves or turns. */
static kl_status
add_movement(const frame_mesh *mesh, const kl_load *load, double factor, frame_loads *loads)
{
    KL_TRY(loads_open_moved(mesh, loads));
    double *moved = &loads->moved[3 * load->node];
    if (load->kind == KL_LOAD_TURN) {
        moved[2] += factor * load->value;
    } else {
        moved[0] += factor * load->value * load->dx;
        moved[1] += factor * load->value * load->dy;
    }
    return KL_OK;
}

kl_status loads_add(const frame_mesh *mesh, const kl_load *load, double factor, frame_loads *loads)
{
    switch (load->kind) {
    case KL_LOAD_WEIGHT:
        return add_weights(mesh, load, factor, loads);
    case KL_LOAD_POINT:
        add_point(mesh, load, factor, loads);
        break;
    case KL_LOAD_DISTRIBUTED:
        return add_distributed(mesh, load, factor, loads);
    case KL_LOAD_MOMENT:
        add_moment(mesh, load, factor, loads);
        break;
    case KL_LOAD_SETTLE:
    case KL_LOAD_TURN:
        return add_movement(mesh, load, factor, loads);
    case KL_LOAD_TEMPERATURE:
    case KL_LOAD_GRADIENT:
        return add_temperature(mesh, load, factor, loads);
    case KL_LOAD_PROFILE:
        return add_profile(mesh, load, factor, loads);
    case KL_LOAD_TENDON:
        break;
    }
    return KL_OK;
}
