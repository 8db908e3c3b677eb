/* audit_body.c - free bodies: cutting members at the model's nodes, loading them, and whether they balance.
 *
 * With N tension +, M sagging + and V = dM/dx the node at a body's start pushes it with (-N, V) along and across the
 * member and turns it with -M; the node at its end with (N, -V) and M.
 * SPDX-License-Identifier: MIT */
#include <math.h>

#include "audit_parts.h"
#include "mem.h"
#include "near.h"

/* ---- cutting --------------------------------------------------------------------------------------------- */

static bool is_model_node(const audit_work *w, kl_index node)
{
    return node < w->model->node_count;
}

static void cut_member(audit_work *w, kl_index member, kl_index *count)
{
    const mesh_member *of = &w->mesh->members[member];
    kl_index first = of->first;
    for (kl_index e = of->first; e < of->first + of->count; e++) {
        const mesh_element *start = &w->mesh->elements[first];
        const mesh_element *end = &w->mesh->elements[e];
        if (is_model_node(w, end->node[1])) {
            w->bodies[(*count)++] = (audit_body){.member = member,
                                                 .first = first,
                                                 .last = e,
                                                 .node = {start->node[0], end->node[1]},
                                                 .rigid = {start->rigid[0], end->rigid[1]},
                                                 .from = start->from,
                                                 .to = end->to};
            first = e + 1;
        }
    }
}

kl_status audit_cut(audit_work *w)
{
    /* every model node lies inside one member at most */
    const size_t most = (size_t)w->model->member_count + (size_t)w->model->node_count;
    w->bodies = mem_array(most + 1, sizeof(audit_body));
    w->first_body = mem_array((size_t)w->model->member_count + 1, sizeof(kl_index));
    if (!w->bodies || !w->first_body) {
        return KL_NO_MEMORY;
    }
    kl_index count = 0;
    for (kl_index m = 0; m < w->model->member_count; m++) {
        w->first_body[m] = count;
        if (w->record->members[m].stands) {
            cut_member(w, m, &count);
        }
    }
    w->first_body[w->model->member_count] = count;
    return KL_OK;
}

/* ---- loading --------------------------------------------------------------------------------------------- */

static void measure(audit_work *w, const double f[3])
{
    w->largest_force = fmax(w->largest_force, hypot(f[0], f[1]));
    w->largest_moment = fmax(w->largest_moment, fabs(f[2]));
}

void audit_sum_add(audit_sum *sum, const double f[3])
{
    for (int d = 0; d < 3; d++) {
        const double before = sum->value[d];
        const double after = before + f[d];
        sum->lost[d] +=
            fabs(before) >= fabs(f[d]) ? (before - after) + f[d] : (f[d] - after) + before;
        sum->value[d] = after;
    }
}

void audit_sum_value(const audit_sum *sum, double out[3])
{
    for (int d = 0; d < 3; d++) {
        out[d] = sum->value[d] + sum->lost[d];
    }
}

void audit_total(const audit_work *w, kl_point at, const double f[3], audit_sum *total)
{
    if (total) {
        const double turn = (at.x - w->middle.x) * f[1] - (at.y - w->middle.y) * f[0];
        audit_sum_add(total, (const double[3]){f[0], f[1], f[2] + turn});
    }
}

void audit_at_node(audit_work *w, kl_index node, const double f[3], audit_sum *total)
{
    for (int d = 0; d < 3; d++) {
        w->node[3 * node + d] += f[d];
    }
    measure(w, f);
    audit_total(w, (kl_point){w->model->nodes[node].x, w->model->nodes[node].y}, f, total);
}

void audit_on_body(audit_work *w, audit_body *body, const double f[3], audit_sum *total)
{
    for (int d = 0; d < 3; d++) {
        body->load[d] += f[d];
    }
    measure(w, f);
    audit_total(w, kl_member_point(w->model, body->member, body->from), f, total);
}

/* Moment of a force at a distance along the member's line. */
static double turn(const mesh_member *of, double lever, const double f[3])
{
    return lever * (of->cosine * f[1] - of->sine * f[0]);
}

double audit_snap(const audit_work *w, kl_index member, double station)
{
    const mesh_member *of = &w->mesh->members[member];
    const double tolerance = 2.0 * NEAR_STATION * of->length;
    kl_index low = of->first;
    kl_index high = of->first + of->count - 1;
    while (low < high) { /* the first element that ends at or beyond the station */
        const kl_index middle = low + (high - low) / 2;
        if (w->mesh->elements[middle].to < station - tolerance) {
            low = middle + 1;
        } else {
            high = middle;
        }
    }
    const mesh_element *e = &w->mesh->elements[low];
    if (fabs(station - e->to) <= tolerance) {
        return e->to;
    }
    return fabs(station - e->from) <= tolerance ? e->from : station;
}

static audit_body *body_at(const audit_work *w, kl_index member, double station)
{
    kl_index low = w->first_body[member];
    kl_index high = w->first_body[member + 1] - 1;
    while (low < high) {
        const kl_index middle = low + (high - low) / 2;
        if (w->bodies[middle].to < station) {
            low = middle + 1;
        } else {
            high = middle;
        }
    }
    return &w->bodies[low];
}

/* At a node, from a place `lever` along the member from it. */
static void with_lever(audit_work *w,
                       kl_index member,
                       kl_index node,
                       double lever,
                       const double f[3],
                       audit_sum *total)
{
    const double moved[3] = {f[0], f[1], f[2] + turn(&w->mesh->members[member], lever, f)};
    audit_at_node(w, node, moved, total);
}

void audit_force(
    audit_work *w, kl_index member, double station, const double f[3], audit_sum *total)
{
    const mesh_member *of = &w->mesh->members[member];
    const double at = audit_snap(w, member, station);
    audit_body *body = body_at(w, member, at);
    if (w->model->members[member].axial_only) {
        const double share = station / of->length;
        const double pair = f[2] / of->length; /* a couple: two forces across the member */
        const double end[3] = {f[0] * share - pair * of->sine, f[1] * share + pair * of->cosine,
                               0.0};
        const double start[3] = {f[0] - end[0], f[1] - end[1], 0.0};
        audit_at_node(w, body->node[0], start, total);
        audit_at_node(w, body->node[1], end, total);
        return;
    }
    if (at <= body->from) {
        const double lever = body->rigid[0] > 0.0 ? station - (body->from - body->rigid[0]) : 0.0;
        with_lever(w, member, body->node[0], lever, f, total);
    } else if (at >= body->to) {
        const double lever = body->rigid[1] > 0.0 ? station - (body->to + body->rigid[1]) : 0.0;
        with_lever(w, member, body->node[1], lever, f, total);
    } else {
        const double moved[3] = {f[0], f[1], f[2] + turn(of, at - body->from, f)};
        audit_on_body(w, body, moved, total);
    }
}

/* ---- balance --------------------------------------------------------------------------------------------- */

/* Weights of the five points of the mesh's rule for the value at t = -1 or 1 of the polynomial through them
 * (Lagrange's form). */
static void end_weights(const quadrature *rule, double xi, double weight[QUADRATURE_POINTS])
{
    for (int p = 0; p < QUADRATURE_POINTS; p++) {
        weight[p] = 1.0;
        for (int k = 0; k < QUADRATURE_POINTS; k++) {
            if (k != p) {
                weight[p] *= (xi - rule->xi[k]) / (rule->xi[p] - rule->xi[k]);
            }
        }
    }
}

/* The printed actions at an end of an element, about the member's line. */
static void end_action(const audit_work *w,
                       kl_index element,
                       const double weight[QUADRATURE_POINTS],
                       double s[3])
{
    static const int entry[3] = {FIELD_N, FIELD_V, FIELD_M};
    const size_t field = w->results->run.layout.field + FIELD_AT(element, 0);
    for (int i = 0; i < 3; i++) {
        double value[QUADRATURE_POINTS];
        audit_printed(w, field + (size_t)entry[i], FIELD_COUNT, QUADRATURE_POINTS, value);
        s[i] = 0.0;
        for (int p = 0; p < QUADRATURE_POINTS; p++) {
            s[i] += weight[p] * value[p];
        }
    }
}

/* What the node does to a body's end, global axes. */
static void end_force(const mesh_member *of, const double s[3], bool is_end, double f[3])
{
    const double sign = is_end ? 1.0 : -1.0;
    const double along = sign * s[0];
    const double across = -sign * s[1];
    f[0] = along * of->cosine - across * of->sine;
    f[1] = along * of->sine + across * of->cosine;
    f[2] = sign * s[2];
}

static void enlarge(audit_worst *worst, const double f[3])
{
    worst->force = fmax(worst->force, fmax(fabs(f[0]), fabs(f[1])));
    worst->moment = fmax(worst->moment, fabs(f[2]));
    if (isnan(f[0] + f[1] + f[2])) {
        worst->force = HUGE_VAL;
    }
}

audit_worst audit_balance_bodies(audit_work *w)
{
    double weight[2][QUADRATURE_POINTS];
    audit_worst worst = {0.0, 0.0};
    end_weights(&w->mesh->rule, 0.0, weight[0]);
    end_weights(&w->mesh->rule, 1.0, weight[1]);
    for (kl_index b = 0; b < w->first_body[w->model->member_count]; b++) {
        const audit_body *body = &w->bodies[b];
        const mesh_member *of = &w->mesh->members[body->member];
        double sum[3] = {body->load[0], body->load[1], body->load[2]};
        for (int end = 0; end < 2; end++) {
            double s[3];
            double f[3];
            end_action(w, end == 0 ? body->first : body->last, weight[end], s);
            end_force(of, s, end == 1, f);
            const double to_node = end == 0 ? body->rigid[0] : -body->rigid[1];
            const double back[3] = {-f[0], -f[1], -f[2] - turn(of, to_node, f)};
            audit_at_node(w, body->node[end], back, NULL);
            sum[0] += f[0];
            sum[1] += f[1];
            sum[2] += f[2] + turn(of, end == 0 ? 0.0 : body->to - body->from, f);
        }
        enlarge(&worst, sum);
    }
    return worst;
}

audit_worst audit_balance_nodes(const audit_work *w)
{
    audit_worst worst = {0.0, 0.0};
    for (kl_index n = 0; n < w->model->node_count; n++) {
        enlarge(&worst, &w->node[3 * n]);
    }
    return worst;
}
