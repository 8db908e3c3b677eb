/* forms.c - see forms.h.
 * SPDX-License-Identifier: MIT */
#include "forms.h"

#include <math.h>

#include "carriers.h"
#include "mem.h"
#include "near.h"
#include "str.h"

#define SPAN_LIMIT 1000000

/* ---- spans ----------------------------------------------------------------------------------------------- */

/* Station range of a member between two x, kept inside it. */
static bool station_range(
    const frame_mesh *mesh, kl_index member, double x_from, double x_to, double *from, double *to)
{
    const mesh_member *of = &mesh->members[member];
    const double x0 = mesh->model->nodes[mesh->model->members[member].from].x;
    const double a = (x_from - x0) / of->cosine;
    const double b = (x_to - x0) / of->cosine;
    *from = fmax(fmin(a, b), 0.0);
    *to = fmin(fmax(a, b), of->length);
    return *to - *from > NEAR_STATION * of->length;
}

static void
span_weight(const analysis_run *run, const form_span *span, double *weight, double *moment)
{
    *weight = *moment = 0.0;
    for (kl_index i = 0; i < span->member_count; i++) {
        double from;
        double to;
        double w;
        double m;
        if (station_range(&run->mesh, span->members[i], span->from, span->to, &from, &to)) {
            loads_weight_resultant(&run->mesh, span->members[i], from, to, &w, &m);
            *weight += w;
            *moment += m;
        }
    }
}

static kl_status add_span(analysis_run *run, const form_span *span)
{
    void *items = run->state.spans;
    KL_TRY(mem_grow(&items, &run->state.span_capacity, run->state.span_count + 1, sizeof(form_span),
                    SPAN_LIMIT));
    run->state.spans = items;
    run->state.spans[run->state.span_count++] = *span;
    return KL_OK;
}

static kl_status make_spans(analysis_run *run,
                            const kl_index *members,
                            kl_index count,
                            carrier_list *list,
                            const double range[2])
{
    for (size_t i = 0; i + 1 < list->count; i++) {
        form_carrier *left = &list->items[i];
        form_carrier *right = &list->items[i + 1];
        form_span span = {.from = i == 0 ? range[0] : left->x,
                          .to = i + 2 == list->count ? range[1] : right->x,
                          .members = members,
                          .member_count = count,
                          .row = {left->row, right->row},
                          .node = {left->node, right->node}};
        double weight;
        double moment;
        span_weight(run, &span, &weight, &moment);
        span.share[1] = (moment - weight * left->x) / (right->x - left->x);
        span.share[0] = weight - span.share[1];
        left->force += span.share[0];
        right->force += span.share[1];
        KL_TRY(add_span(run, &span));
    }
    return KL_OK;
}

/* ---- pouring --------------------------------------------------------------------------------------------- */

static kl_status check_carriers(const analysis_run *run,
                                const kl_operation *op,
                                const kl_index *members,
                                const carrier_list *list)
{
    const char *name = run->model->members[members[0]].name;
    if (list->count < 2) {
        kl_diags_add(run->diags, KL_ERROR, "form-without-carriers", op->origin,
                     "The form of %s has %s to stand on; it needs two.", name,
                     list->count == 0 ? "nothing" : "only one carrier");
        return KL_BAD_MODEL;
    }
    return KL_OK;
}

/* A form that just balances on a carrier leaves its other end without force: what rounding makes of that zero, as a
 * share of the weight, is no pull. Places are told apart to the same share. */
#define FORM_ROUNDING NEAR_PLACE

static void tell_tipping(const analysis_run *run,
                         const kl_operation *op,
                         const char *name,
                         const form_carrier *c,
                         bool rooted)
{
    enum { FIGURE = 40 };
    const kl_display *display = &run->model->display;
    const bool at_node = c->node != KL_NONE;
    char force[FIGURE];
    char x[FIGURE];
    str_number(force, sizeof force, -c->force / kl_show_factor(display, KL_MEASURE_FORCE), 4);
    str_number(x, sizeof x, c->x / kl_show_factor(display, KL_MEASURE_STATION), 5);
    kl_diags_add(
        run->diags, rooted ? KL_WARNING : KL_ERROR, rooted ? "form-cantilever" : "form-tips",
        op->origin,
        "The concrete of %s beyond the next carrier lifts its form off %s%s at x = %s %s "
        "with %s %s when it is placed.",
        name, at_node ? "node " : "the row", at_node ? run->model->nodes[c->node].name : "", x,
        kl_show_unit(display, KL_MEASURE_STATION), force, kl_show_unit(display, KL_MEASURE_FORCE));
    kl_diags_hint(run->diags,
                  "tie the form down there, or set a row nearer the end of the concrete");
}

static kl_status check_tipping(const analysis_run *run,
                               const kl_operation *op,
                               const kl_index *members,
                               const carrier_list *list)
{
    const char *name = run->model->members[members[0]].name;
    double weight = 0.0;
    for (size_t i = 0; i < list->count; i++) {
        weight += list->items[i].force;
    }
    for (size_t i = 0; i < list->count; i++) {
        const form_carrier *c = &list->items[i];
        if (c->force >= -FORM_ROUNDING * weight) {
            continue;
        }
        const bool at_end = i == 0 || i + 1 == list->count;
        const form_carrier *next = i == 0 ? &list->items[1] : &list->items[i - 1];
        const bool rooted = c->node != KL_NONE || (at_end && next->node != KL_NONE);
        tell_tipping(run, op, name, c, rooted);
        if (!rooted) {
            return KL_BAD_MODEL;
        }
    }
    return KL_OK;
}

/* Wet weight on a node that is a carrier: on what stands there, else through a bearing, else straight into the
 * support. */
static void load_node(analysis_run *run, kl_index node, double force, pending_column *c)
{
    if (run->state.node_stands[node]) {
        c->loads.node[3 * node + 1] -= force;
        return;
    }
    const kl_bearing *bearing = carriers_bearing_of(run->model, node);
    if (bearing && !carriers_hold_up(run, node)) {
        c->delta[run->layout.bearing + 3 * (size_t)(bearing - run->model->bearings) + KL_Y] +=
            force;
        load_node(run, bearing->base, force, c);
        return;
    }
    c->delta[run->layout.reaction + 3 * (size_t)node + KL_Y] += force;
}

static kl_status load_carriers(analysis_run *run, const carrier_list *list)
{
    pending_column *c = run_pending(run, KL_CAUSE_WEIGHT, KL_NONE);
    if (!c) {
        return KL_NO_MEMORY;
    }
    for (size_t i = 0; i < list->count; i++) {
        const form_carrier *k = &list->items[i];
        if (k->node != KL_NONE) {
            load_node(run, k->node, k->force, c);
            continue;
        }
        const mesh_row *row = &run->mesh.rows[k->row];
        c->delta[run->layout.row + (size_t)k->row] += k->force;
        run->state.rows[k->row].virtual_force = k->force;
        if (row->foot != KL_NONE) {
            c->loads.node[3 * row->foot + 1] -= k->force;
        }
    }
    return KL_OK;
}

static kl_status pour(analysis_run *run,
                      const kl_operation *op,
                      const kl_index *members,
                      kl_index count,
                      carrier_list *list)
{
    double range[2] = {HUGE_VAL, -HUGE_VAL};
    for (kl_index i = 0; i < count; i++) {
        const kl_member *member = &run->model->members[members[i]];
        const double x[2] = {run->model->nodes[member->from].x, run->model->nodes[member->to].x};
        range[0] = fmin(range[0], fmin(x[0], x[1]));
        range[1] = fmax(range[1], fmax(x[0], x[1]));
        KL_TRY(carriers_of_member(run, members[i], list));
    }
    KL_TRY(check_carriers(run, op, members, list));
    carriers_merge(list);
    KL_TRY(check_carriers(run, op, members, list));
    KL_TRY(make_spans(run, members, count, list, range));
    KL_TRY(check_tipping(run, op, members, list));
    KL_TRY(carriers_keep(run, members, count, list, range));
    return load_carriers(run, list);
}

kl_status
forms_pour(analysis_run *run, const kl_operation *op, const kl_index *members, kl_index count)
{
    carrier_list list = {0};
    const kl_status status = pour(run, op, members, count, &list);
    mem_free(list.items);
    return status;
}

void forms_set(analysis_run *run, const kl_index *members, kl_index count)
{
    for (kl_index i = 0; i < run->mesh.row_count; i++) {
        row_state *row = &run->state.rows[i];
        const kl_index member = run->model->falsework[run->mesh.rows[i].falsework].member;
        for (kl_index k = 0; k < count && row->phase == ROW_READY; k++) {
            if (members[k] == member) {
                row->phase = ROW_SET;
                row->bears = true;
            }
        }
    }
}

/* ---- striking -------------------------------------------------------------------------------------------- */

/* A carrier loses its share: a row that bears carries less (and so does what it stands on); under a row that has
 * lifted the member itself held the form down and is relieved; a node gets its share back. */
static void relieve(analysis_run *run, kl_index row, kl_index node, double share, pending_column *c)
{
    if (row == KL_NONE) {
        c->loads.node[3 * node + 1] += share;
        return;
    }
    row_state *state = &run->state.rows[row];
    const mesh_row *r = &run->mesh.rows[row];
    state->virtual_force -= share;
    if (!state->bears) {
        c->loads.node[3 * r->top + 1] += share;
        return;
    }
    c->delta[run->layout.row + (size_t)row] -= share;
    if (r->foot != KL_NONE) {
        c->loads.node[3 * r->foot + 1] += share;
    }
}

static kl_status strike(analysis_run *run, form_span *span, pending_column *c)
{
    span->struck = true;
    for (kl_index i = 0; i < span->member_count; i++) {
        double from;
        double to;
        if (station_range(&run->mesh, span->members[i], span->from, span->to, &from, &to)) {
            KL_TRY(
                loads_add_weight_between(&run->mesh, span->members[i], from, to, 1.0, &c->loads));
        }
    }
    for (int end = 0; end < 2; end++) {
        relieve(run, span->row[end], span->node[end], span->share[end], c);
    }
    return KL_OK;
}

kl_status forms_strike_beside(analysis_run *run, kl_index row)
{
    pending_column *c = run_pending(run, KL_CAUSE_WEIGHT, KL_NONE);
    if (!c) {
        return KL_NO_MEMORY;
    }
    for (size_t i = 0; i < run->state.span_count; i++) {
        form_span *span = &run->state.spans[i];
        if (!span->struck && (span->row[0] == row || span->row[1] == row)) {
            KL_TRY(strike(run, span, c));
        }
    }
    return KL_OK;
}

/* Does a row still stand under one of a span's members? */
static bool rows_left(const analysis_run *run, const form_span *span)
{
    for (kl_index i = 0; i < run->mesh.row_count; i++) {
        const kl_index member = run->model->falsework[run->mesh.rows[i].falsework].member;
        for (kl_index k = 0; k < span->member_count && run->state.rows[i].phase == ROW_SET; k++) {
            if (span->members[k] == member) {
                return true;
            }
        }
    }
    return false;
}

kl_status forms_strike_rest(analysis_run *run)
{
    for (size_t i = 0; i < run->state.span_count; i++) {
        form_span *span = &run->state.spans[i];
        if (span->struck || span->row[0] != KL_NONE || span->row[1] != KL_NONE ||
            rows_left(run, span)) {
            continue;
        }
        pending_column *c = run_pending(run, KL_CAUSE_WEIGHT, KL_NONE);
        if (!c) {
            return KL_NO_MEMORY;
        }
        strike(run, span, c);
    }
    return KL_OK;
}
