/* effect.c - see effect.h.
 * SPDX-License-Identifier: MIT */
#include "effect.h"

#include <math.h>
#include <string.h>

/* ---- loads of contacts that change ----------------------------------------------------------------------- */

static void push_row(const analysis_run *run, kl_index row, double force, frame_loads *loads)
{
    const mesh_row *r = &run->mesh.rows[row];
    loads->node[3 * r->top + 1] += force;
    if (r->foot != KL_NONE) {
        loads->node[3 * r->foot + 1] -= force;
    }
}

/* Unit vector of a hold in global axes. */
static void hold_vector(const analysis_run *run, const hold_state *hold, double v[3])
{
    const double slope = run->model->supports[hold->support].slope;
    v[0] = hold->direction == 0 ? cos(slope) : hold->direction == 1 ? -sin(slope) : 0.0;
    v[1] = hold->direction == 0 ? sin(slope) : hold->direction == 1 ? cos(slope) : 0.0;
    v[2] = hold->direction == 2 ? 1.0 : 0.0;
}

void effect_push_hold(const analysis_run *run,
                      const hold_state *hold,
                      double amount,
                      double *node_values)
{
    double v[3];
    hold_vector(run, hold, v);
    for (int d = 0; d < 3; d++) {
        node_values[3 * run->model->supports[hold->support].node + d] += amount * v[d];
    }
}

/* The part of a node's vector along a hold. */
double effect_along_hold(const analysis_run *run, const hold_state *hold, const double *node_values)
{
    double v[3];
    hold_vector(run, hold, v);
    const double *at = &node_values[3 * run->model->supports[hold->support].node];
    return v[0] * at[0] + v[1] * at[1] + v[2] * at[2];
}

static const double *old_block(const analysis_run *run, const pending_column *pending)
{
    for (kl_index i = 0; i < run->state.set.count; i++) {
        const cause_column *c = &run->state.set.columns[i];
        if (c->kind == pending->kind && c->load_case == pending->load_case) {
            return c->data;
        }
    }
    return NULL;
}

/* What a contact carries under one cause now, direct changes of this increment included. */
double effect_carried(const analysis_run *run, const pending_column *column, const contact *c)
{
    const double *old = old_block(run, column);
    if (c->kind == CONTACT_ROW) {
        const size_t at = run->layout.row + (size_t)c->index;
        return (old ? old[at] : 0.0) + column->delta[at];
    }
    if (c->kind == CONTACT_HOLD) {
        const hold_state *hold = &run->state.holds[c->index];
        const size_t at = run->layout.reaction;
        return (old ? effect_along_hold(run, hold, old + at) : 0.0) +
               effect_along_hold(run, hold, column->delta + at);
    }
    const joint_state *joint = &run->state.joints[c->index];
    const size_t at = run->layout.bearing + 3 * (size_t)joint->bearing + (size_t)joint->direction;
    return (old ? old[at] : 0.0) + column->delta[at];
}

/* Give back what an opening contact carried under a column's cause. */
static void give_back(analysis_run *run, const contact *c, pending_column *column)
{
    const double force = effect_carried(run, column, c);
    if (c->kind == CONTACT_ROW) {
        push_row(run, c->index, -force, &column->loads);
    } else if (c->kind == CONTACT_HOLD) {
        effect_push_hold(run, &run->state.holds[c->index], -force, column->loads.node);
    } else {
        const joint_state *joint = &run->state.joints[c->index];
        const kl_bearing *bearing = &run->model->bearings[joint->bearing];
        column->loads.node[3 * bearing->node + joint->direction] -= force;
        column->loads.node[3 * bearing->base + joint->direction] += force;
    }
}

static double push_sign(kl_hold_kind kind)
{
    return kind == KL_PUSH_MINUS ? -1.0 : 1.0;
}

/* Close a contact through its gap, as part of the operation's own column. */
static void travel_gap(analysis_run *run, const contact *c, pending_column *own)
{
    if (c->kind == CONTACT_ROW) {
        push_row(run, c->index, run->state.rows[c->index].virtual_force, &own->loads);
    } else if (c->kind == CONTACT_HOLD) {
        const hold_state *hold = &run->state.holds[c->index];
        effect_push_hold(run, hold, -hold->gap * push_sign(hold->kind), own->loads.moved);
    } else {
        const joint_state *joint = &run->state.joints[c->index];
        const kl_bearing *bearing = &run->model->bearings[joint->bearing];
        own->loads.moved[3 * bearing->node + joint->direction] -=
            joint->gap * push_sign(joint->kind);
    }
}

void effect_loads(analysis_run *run, const contact_list *contacts, pending_column *own)
{
    const size_t n = 3 * (size_t)run->mesh.node_count * sizeof(double);
    for (kl_index i = 0; i < run->pending_count && contacts->count > 0; i++) {
        pending_column *column = &run->pending[i];
        memcpy(column->loads.node, column->base_node, n);
        memcpy(column->loads.moved, column->base_moved, n);
    }
    for (kl_index k = 0; k < contacts->count; k++) {
        const contact *c = &contacts->items[k];
        if (c->was_closed && !c->closed) {
            for (kl_index i = 0; i < run->pending_count; i++) {
                give_back(run, c, &run->pending[i]);
            }
        } else if (!c->was_closed && c->closed) {
            travel_gap(run, c, own);
        }
    }
}

double effect_row_closing(const analysis_run *run, kl_index row, const double *u)
{
    const mesh_row *r = &run->mesh.rows[row];
    return (r->foot == KL_NONE ? 0.0 : u[3 * r->foot + 1]) - u[3 * r->top + 1];
}

/* Movement of a bearing's node against its base. */
static double joint_slip(const analysis_run *run, const joint_state *joint, const double *u)
{
    const kl_bearing *bearing = &run->model->bearings[joint->bearing];
    return u[3 * bearing->node + joint->direction] - u[3 * bearing->base + joint->direction];
}

/* phi of a row at the end of the increment. */
static double row_value(const analysis_run *run, kl_index row)
{
    double value = run->state.rows[row].virtual_force;
    for (kl_index i = 0; i < run->pending_count; i++) {
        value += run->mesh.rows[row].stiffness * effect_row_closing(run, row, run->pending[i].u);
    }
    return value;
}

static double hold_value(const analysis_run *run, const contact *c)
{
    const hold_state *hold = &run->state.holds[c->index];
    double value = c->closed ? c->force_before : -hold->gap;
    if (c->closed && !c->was_closed) {
        value = 0.0;
    }
    for (kl_index i = 0; i < run->pending_count; i++) {
        const pending_column *p = &run->pending[i];
        const double part =
            push_sign(hold->kind) * effect_along_hold(run, hold, c->closed ? p->sum : p->u);
        value += c->closed ? part : -part;
    }
    return value;
}

static double joint_value(const analysis_run *run, const contact *c)
{
    const joint_state *joint = &run->state.joints[c->index];
    double value = c->closed ? c->force_before : -joint->gap;
    if (c->closed && !c->was_closed) {
        value = 0.0;
    }
    for (kl_index i = 0; i < run->pending_count; i++) {
        const pending_column *p = &run->pending[i];
        const double part =
            push_sign(joint->kind) * (c->closed ? p->bearing[3 * joint->bearing + joint->direction]
                                                : joint_slip(run, joint, p->u));
        value += c->closed ? part : -part;
    }
    return value;
}

double effect_largest_movement(const analysis_run *run)
{
    double largest = 0.0;
    for (kl_index i = 0; i < run->pending_count; i++) {
        for (kl_index n = 0; n < run->mesh.node_count; n++) {
            largest = fmax(
                largest, fmax(fabs(run->pending[i].u[3 * n]), fabs(run->pending[i].u[3 * n + 1])));
        }
    }
    return largest;
}

/* The largest force inside the elements, or that their strains would take: what is lost in rounding goes with it. */
static double largest_inside(const analysis_run *run)
{
    double largest = 0.0;
    for (kl_index i = 0; i < run->pending_count; i++) {
        for (kl_index e = 0; e < run->mesh.element_count; e++) {
            for (int p = 0; p < QUADRATURE_POINTS && run->state.element_on[e]; p++) {
                const double *row = &run->pending[i].field[FIELD_AT(e, p)];
                const double strained = run->book.rigidity[run->book.page[e]][p].ea * row[FIELD_E];
                largest = fmax(largest, fmax(fabs(row[FIELD_V]), fabs(strained)));
            }
        }
    }
    return largest;
}

double effect_evaluate(const analysis_run *run, contact_list *contacts)
{
    double largest = contacts->count > 0 ? largest_inside(run) : 0.0;
    for (kl_index i = 0; i < contacts->count; i++) {
        contact *c = &contacts->items[i];
        c->is_length = !c->closed && c->kind != CONTACT_ROW;
        c->value = c->kind == CONTACT_ROW    ? row_value(run, c->index)
                   : c->kind == CONTACT_HOLD ? hold_value(run, c)
                                             : joint_value(run, c);
        largest = c->closed ? fmax(largest, fmax(fabs(c->value), fabs(c->force_before))) : largest;
    }
    return largest;
}

double effect_force(const analysis_run *run, const contact *c)
{
    const kl_hold_kind kind = c->kind == CONTACT_HOLD    ? run->state.holds[c->index].kind
                              : c->kind == CONTACT_JOINT ? run->state.joints[c->index].kind
                                                         : KL_PUSH_PLUS;
    double force = 0.0;
    for (kl_index i = 0; i < run->pending_count; i++) {
        force += effect_carried(run, &run->pending[i], c);
    }
    return push_sign(kind) * force;
}
