/* audit_load.c - everything that acts: weights, loads, bearings, supports (forms and rows: audit_forms.c).
 * SPDX-License-Identifier: MIT */
#include <math.h>

#include "audit_parts.h"
#include "near.h"

/* ---- weight ---------------------------------------------------------------------------------------------- */

/* Area and its first moment about `about` between two stations over which the section changes smoothly: Boole's rule
 * (7, 32, 12, 32, 7)/90, exact to the fifth degree; areas are quadratic at most. */
static void area_resultant(
    const audit_work *w, kl_index member, double from, double to, double about, double sums[2])
{
    static const double rule[5] = {7.0 / 90.0, 32.0 / 90.0, 12.0 / 90.0, 32.0 / 90.0, 7.0 / 90.0};
    section_value v;
    if (w->model->members[member].section_count == 1) {
        member_section_values(w->model, member, 0.0, KL_RIGHT, &v);
        sums[0] += v.area * (to - from);
        sums[1] += v.area * (to - from) * (0.5 * (from + to) - about);
        return;
    }
    for (int i = 0; i < 5; i++) {
        const double station = from + 0.25 * i * (to - from);
        member_section_values(w->model, member, station, i < 2 ? KL_RIGHT : KL_LEFT, &v);
        sums[0] += rule[i] * (to - from) * v.area;
        sums[1] += rule[i] * (to - from) * v.area * (station - about);
    }
}

/* The same over a piece of a rigid end, in which section rows may fall. */
static void rigid_resultant(
    const audit_work *w, kl_index member, double from, double to, double about, double sums[2])
{
    const kl_member *item = &w->model->members[member];
    for (kl_index i = 0; item->section_count > 1 && i < item->section_count; i++) {
        const double row = item->sections[i].station;
        if (row > from && row < to) {
            area_resultant(w, member, from, row, about, sums);
            from = row;
        }
    }
    area_resultant(w, member, from, to, about, sums);
}

static void weigh_rigid(audit_work *w,
                        kl_index member,
                        kl_index node,
                        const double range[2],
                        double node_station,
                        double gamma,
                        audit_sum *total)
{
    double sums[2] = {0.0, 0.0};
    if (!(range[1] > range[0])) {
        return;
    }
    rigid_resultant(w, member, range[0], range[1], node_station, sums);
    const double f[3] = {0.0, -gamma * sums[0], -gamma * sums[1] * w->mesh->members[member].cosine};
    audit_at_node(w, node, f, total);
}

static void
weigh_body(audit_work *w, audit_body *body, const double range[2], double gamma, audit_sum *total)
{
    double sums[2] = {0.0, 0.0};
    for (kl_index e = body->first; e <= body->last; e++) {
        const mesh_element *at = &w->mesh->elements[e];
        const double middle = 0.5 * (at->from + at->to);
        if (middle > range[0] && middle < range[1]) {
            area_resultant(w, body->member, at->from, at->to, body->from, sums);
        }
    }
    const double f[3] = {0.0, -gamma * sums[0],
                         -gamma * sums[1] * w->mesh->members[body->member].cosine};
    audit_on_body(w, body, f, total);
}

static double unit_weight(const kl_model *model, kl_index member)
{
    const kl_member *item = &model->members[member];
    const double weight = model->materials[item->material].unit_weight;
    return item->weightless || isnan(weight) ? 0.0 : weight;
}

void audit_weigh(
    audit_work *w, kl_index member, double from, double to, double factor, audit_sum *total)
{
    const kl_member *item = &w->model->members[member];
    const mesh_member *of = &w->mesh->members[member];
    const double gamma = factor * unit_weight(w->model, member);
    if (is_exact_zero(gamma)) {
        return;
    }
    const double start[2] = {from, fmin(to, item->rigid_start)};
    const double end[2] = {fmax(from, of->length - item->rigid_end), to};
    weigh_rigid(w, member, item->from, start, 0.0, gamma, total);
    weigh_rigid(w, member, item->to, end, of->length, gamma, total);
    const double range[2] = {from, to};
    for (kl_index b = w->first_body[member]; b < w->first_body[member + 1]; b++) {
        if (w->bodies[b].to > from && w->bodies[b].from < to) {
            weigh_body(w, &w->bodies[b], range, gamma, total);
        }
    }
}

static void weigh_members(audit_work *w)
{
    for (kl_index m = 0; m < w->model->member_count; m++) {
        if (!w->record->members[m].stands) {
            continue;
        }
        if (!is_exact_zero(w->weight_on)) {
            audit_sum all = {0};
            double total[3];
            audit_weigh(w, m, 0.0, w->mesh->members[m].length, w->weight_on, &all);
            audit_sum_value(&all, total);
            audit_sum_add(&w->load, total);
            w->weight -= total[1] / w->weight_on;
        } else {
            const double length = w->mesh->members[m].length;
            double sums[2] = {0.0, 0.0};
            rigid_resultant(w, m, 0.0, length, 0.0, sums);
            w->weight += unit_weight(w->model, m) * sums[0];
        }
    }
}

/* ---- loads ----------------------------------------------------------------------------------------------- */

/* value times the load's direction, global axes. */
static void direct(const mesh_member *of, const kl_load *load, double value, double f[2])
{
    const bool local = load->frame == KL_LOCAL;
    f[0] = value * (local ? load->dx * of->cosine - load->dy * of->sine : load->dx);
    f[1] = value * (local ? load->dx * of->sine + load->dy * of->cosine : load->dy);
}

/* Resultant and first moment about `about` of the load's line of intensity between two stations. */
static void ramp_resultant(const kl_load *load,
                           const double range[2],
                           double from,
                           double to,
                           double about,
                           double sums[2])
{
    const double slope = (load->value_end - load->value) / (range[1] - range[0]);
    const double l = to - from;
    const double at_from = load->value + slope * (from - range[0]);
    sums[0] = (at_from + 0.5 * slope * l) * l;
    sums[1] =
        at_from * l * (from - about + 0.5 * l) + slope * l * l * (0.5 * (from - about) + l / 3.0);
}

/* The part of a distributed load between two stations, as force and moment about the place `about`. */
static void part_of_load(const audit_work *w,
                         const kl_load *load,
                         double factor,
                         const double piece[2],
                         double about,
                         double f[3])
{
    const mesh_member *of = &w->mesh->members[load->member];
    const double range[2] = {load->from, isnan(load->to) ? of->length : load->to};
    double sums[2];
    double first[2];
    ramp_resultant(load, range, piece[0], piece[1], about, sums);
    const double level = load->per_level ? fabs(of->cosine) : 1.0;
    direct(of, load, factor * level * sums[0], f);
    direct(of, load, factor * level * sums[1], first);
    f[2] = of->cosine * first[1] - of->sine * first[0];
}

/* A load on a part of an axial member goes to the ends as on a simple beam, by its lever. */
static void
distribute_on_axial(audit_work *w, const kl_load *load, double factor, const double range[2])
{
    const mesh_member *of = &w->mesh->members[load->member];
    const kl_member *item = &w->model->members[load->member];
    double f[3];
    double first[2];
    double sums[2];
    part_of_load(w, load, factor, range, 0.0, f);
    ramp_resultant(load, range, range[0], range[1], 0.0, sums);
    direct(of, load, factor * (load->per_level ? fabs(of->cosine) : 1.0) * sums[1] / of->length,
           first);
    const double start[3] = {f[0] - first[0], f[1] - first[1], 0.0};
    const double end[3] = {first[0], first[1], 0.0};
    audit_at_node(w, item->from, start, &w->load);
    audit_at_node(w, item->to, end, &w->load);
}

static void distribute(audit_work *w, const kl_load *load, double factor)
{
    const mesh_member *of = &w->mesh->members[load->member];
    const kl_member *item = &w->model->members[load->member];
    const double range[2] = {load->from, isnan(load->to) ? of->length : load->to};
    const double at[2] = {audit_snap(w, load->member, range[0]),
                          audit_snap(w, load->member, range[1])};
    const double start[2] = {range[0], fmin(range[1], item->rigid_start)};
    const double end[2] = {fmax(range[0], of->length - item->rigid_end), range[1]};
    double f[3];
    const bool whole = at[0] <= 0.0 && at[1] >= of->length;
    if (item->axial_only && !whole) {
        distribute_on_axial(w, load, factor, range);
        return;
    }
    if (start[1] > start[0]) {
        part_of_load(w, load, factor, start, 0.0, f);
        audit_at_node(w, item->from, f, &w->load);
    }
    if (end[1] > end[0]) {
        part_of_load(w, load, factor, end, of->length, f);
        audit_at_node(w, item->to, f, &w->load);
    }
    for (kl_index b = w->first_body[load->member]; b < w->first_body[load->member + 1]; b++) {
        audit_body *body = &w->bodies[b];
        const double piece[2] = {fmax(at[0], body->from), fmin(at[1], body->to)};
        if (piece[1] > piece[0]) {
            part_of_load(w, load, factor, piece, body->from, f);
            audit_on_body(w, body, f, &w->load);
        }
    }
}

static void concentrate(audit_work *w, const kl_load *load, double factor)
{
    double f[3] = {0.0, 0.0, 0.0};
    if (load->kind == KL_LOAD_MOMENT) {
        f[2] = factor * load->value;
    } else if (load->node != KL_NONE) {
        f[0] = factor * load->value * load->dx;
        f[1] = factor * load->value * load->dy;
    } else {
        direct(&w->mesh->members[load->member], load, factor * load->value, f);
    }
    if (load->node != KL_NONE) {
        audit_at_node(w, load->node, f, &w->load);
    } else {
        audit_force(w, load->member, load->from, f, &w->load);
    }
}

static void apply(audit_work *w, const kl_load *load, double factor)
{
    switch (load->kind) {
    case KL_LOAD_WEIGHT:
        for (kl_index m = 0; m < w->model->member_count; m++) {
            if (load->member == KL_NONE || load->member == m) {
                audit_weigh(w, m, 0.0, w->mesh->members[m].length, factor, &w->load);
            }
        }
        break;
    case KL_LOAD_POINT:
    case KL_LOAD_MOMENT:
        concentrate(w, load, factor);
        break;
    case KL_LOAD_DISTRIBUTED:
        distribute(w, load, factor);
        break;
    case KL_LOAD_SETTLE:
    case KL_LOAD_TURN:
    case KL_LOAD_TEMPERATURE:
    case KL_LOAD_GRADIENT:
    case KL_LOAD_PROFILE:
    case KL_LOAD_TENDON:
        break; /* no resultant */
    }
}

static void apply_loads(audit_work *w)
{
    for (kl_index c = 0; c < w->model->case_count; c++) {
        for (kl_index i = 0; i < w->model->cases[c].load_count; i++) {
            const double factor = w->on[w->first_load[c] + i];
            if (!is_exact_zero(factor)) {
                apply(w, &w->model->cases[c].loads[i], factor);
            }
        }
    }
}

/* ---- bearings and supports ------------------------------------------------------------------------------- */

static void push_bearings(audit_work *w)
{
    for (kl_index b = 0; b < w->model->bearing_count; b++) {
        const kl_bearing *bearing = &w->model->bearings[b];
        double f[3];
        audit_printed(w, w->results->run.layout.bearing + 3 * (size_t)b, 1, 3, f);
        const double back[3] = {-f[0], -f[1], -f[2]};
        audit_at_node(w, bearing->node, f, &w->form);
        audit_at_node(w, bearing->base, back, &w->form);
    }
}

static void push_supports(audit_work *w)
{
    for (kl_index n = 0; n < w->model->node_count; n++) {
        double f[3];
        audit_printed(w, w->results->run.layout.reaction + 3 * (size_t)n, 1, 3, f);
        audit_at_node(w, n, f, &w->reaction);
    }
}

kl_status audit_load_all(audit_work *w)
{
    weigh_members(w);
    apply_loads(w);
    push_bearings(w);
    push_supports(w);
    KL_TRY(audit_press_forms(w));
    audit_push_rows(w);
    return KL_OK;
}
