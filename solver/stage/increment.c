/* increment.c - see increment.h.
 *
 * A row of posts carries max(0, phi) with phi = f0 + k c, c its closing since set; phi moves on by k dc whether it
 * bears or not, so one number a row tells force and gap. Within an increment:
 *   bears before and after:  a spring
 *   bears, then open:        its force goes, cause by cause, as a load
 *   open, then bears:        a spring that starts at phi < 0 (the gap to travel), charged to the operation
 *   open before and after:   nothing
 * Push supports and bearings are rigid: held or free, with a gap in metres.
 * SPDX-License-Identifier: MIT */
#include "increment.h"

#include <math.h>
#include <string.h>

#include "contact.h"
#include "coupling.h"
#include "mechanism.h"
#include "mem.h"
#include "near.h"

/* ---- the structure under a set of contacts -------------------------------------------------------------- */

static void list_structure(analysis_run *run, const contact_list *contacts)
{
    frame_structure *s = &run->structure;
    stage_state *state = &run->state;
    *s                 = (frame_structure){.on     = state->element_on,
                                           .hinge  = (const bool(*)[2])(void *)state->hinge,
                                           .holds  = run->holds,
                                           .joints = run->joints,
                                           .struts = run->struts};
    for (kl_index i = 0; i < state->hold_count; i++) {
        const hold_state *hold = &state->holds[i];
        const bool held        = hold->kind != KL_SPRING && contact_holds(contacts, CONTACT_HOLD, i, hold->bears);
        if (hold->active) {
            run->holds[s->hold_count++] = (frame_hold){run->model->supports[hold->support].node, hold->direction, held,
                                                       hold->kind == KL_SPRING ? hold->stiffness : 0.0};
        }
    }
    for (kl_index i = 0; i < state->joint_count; i++) {
        const joint_state *joint  = &state->joints[i];
        const kl_bearing *bearing = &run->model->bearings[joint->bearing];
        const bool joined = joint->kind != KL_SPRING && contact_holds(contacts, CONTACT_JOINT, i, joint->bears);
        run->joints[s->joint_count++] = (frame_joint){bearing->node, bearing->base, joint->direction, joined,
                                                      joint->kind == KL_SPRING ? joint->stiffness : 0.0};
    }
    for (kl_index i = 0; i < run->mesh.row_count; i++) {
        const mesh_row *row = &run->mesh.rows[i];
        if (state->rows[i].phase == ROW_SET && contact_holds(contacts, CONTACT_ROW, i, state->rows[i].bears)) {
            run->struts[s->strut_count++] = (frame_strut){row->top, row->foot, row->stiffness};
        }
    }
}

static kl_status form_elements(analysis_run *run)
{
    section_book_update(&run->book, &run->state, run->ageless);
    for (kl_index e = 0; e < run->mesh.element_count; e++) {
        if (!run->state.element_on[e]) {
            continue;
        }
        const kl_status status =
            element_form(&run->mesh, e, run->book.rigidity[e], run->state.hinge[e], &run->system.matrix[e]);
        if (status != KL_OK) {
            const kl_member *member = &run->model->members[run->mesh.elements[e].member];
            kl_diags_add(run->diags, KL_ERROR, "no-stiffness", member->origin,
                         "a section of member %s has no stiffness left (its ducts take more than the concrete has, or "
                         "its modulus is not known on that day)",
                         member->name);
            return KL_BAD_MODEL;
        }
    }
    return KL_OK;
}

static kl_status factor_structure(analysis_run *run, const contact_list *contacts, bool quiet)
{
    list_structure(run, contacts);
    system_assemble(&run->system, &run->structure);
    return mechanism_factor(&run->system, &run->structure, quiet, run->diags);
}

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
    v[0]               = hold->direction == 0 ? cos(slope) : hold->direction == 1 ? -sin(slope) : 0.0;
    v[1]               = hold->direction == 0 ? sin(slope) : hold->direction == 1 ? cos(slope) : 0.0;
    v[2]               = hold->direction == 2 ? 1.0 : 0.0;
}

static void push_hold(const analysis_run *run, const hold_state *hold, double amount, double *node_values)
{
    double v[3];
    hold_vector(run, hold, v);
    for (int d = 0; d < 3; d++) {
        node_values[3 * run->model->supports[hold->support].node + d] += amount * v[d];
    }
}

/* The part of a node's vector along a hold. */
static double along_hold(const analysis_run *run, const hold_state *hold, const double *node_values)
{
    double v[3];
    hold_vector(run, hold, v);
    const double *at = &node_values[3 * run->model->supports[hold->support].node];
    return v[0] * at[0] + v[1] * at[1] + v[2] * at[2];
}

static const double *old_block(const analysis_run *run, const pending_column *pending)
{
    for (kl_index i = 0; i < run->state.set.count; i++) {
        const column *c = &run->state.set.columns[i];
        if (c->kind == pending->kind && c->load_case == pending->load_case) {
            return c->data;
        }
    }
    return NULL;
}

/* What a contact carries under one cause now, direct changes of this increment included. */
static double carried(const analysis_run *run, const pending_column *column, const contact *c)
{
    const double *old = old_block(run, column);
    if (c->kind == CONTACT_ROW) {
        const size_t at = run->layout.row + (size_t)c->index;
        return (old ? old[at] : 0.0) + column->delta[at];
    }
    if (c->kind == CONTACT_HOLD) {
        const hold_state *hold = &run->state.holds[c->index];
        const size_t at        = run->layout.reaction;
        return (old ? along_hold(run, hold, old + at) : 0.0) + along_hold(run, hold, column->delta + at);
    }
    const joint_state *joint = &run->state.joints[c->index];
    const size_t at          = run->layout.bearing + 3 * (size_t)joint->bearing + (size_t)joint->direction;
    return (old ? old[at] : 0.0) + column->delta[at];
}

/* Give back what an opening contact carried under a column's cause. */
static void give_back(analysis_run *run, const contact *c, pending_column *column)
{
    const double force = carried(run, column, c);
    if (c->kind == CONTACT_ROW) {
        push_row(run, c->index, -force, &column->loads);
    } else if (c->kind == CONTACT_HOLD) {
        push_hold(run, &run->state.holds[c->index], -force, column->loads.node);
    } else {
        const joint_state *joint  = &run->state.joints[c->index];
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
        push_hold(run, hold, -hold->gap * push_sign(hold->kind), own->loads.moved);
    } else {
        const joint_state *joint  = &run->state.joints[c->index];
        const kl_bearing *bearing = &run->model->bearings[joint->bearing];
        own->loads.moved[3 * bearing->node + joint->direction] -= joint->gap * push_sign(joint->kind);
    }
}

static void contact_loads(analysis_run *run, const contact_list *contacts, pending_column *own)
{
    const size_t n = 3 * (size_t)run->mesh.node_count * sizeof(double);
    for (kl_index i = 0; i < run->pending_count; i++) {
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

/* ---- response -------------------------------------------------------------------------------------------- */

static kl_status respond(analysis_run *run, const kl_index *tendons, kl_index tendon_count)
{
    KL_TRY(coupling_units(run, tendons, tendon_count));
    for (kl_index i = 0; i < run->pending_count; i++) {
        pending_column *c = &run->pending[i];
        KL_TRY(system_solve(&run->system, &run->structure, &c->loads, 1, c->u, run->right));
        recover_elements(&run->system, &run->structure, &c->loads, c->u, c->field, c->start, c->sum);
        KL_TRY(coupling_apply(run, tendons, tendon_count, c));
    }
    return KL_OK;
}

static double row_closing(const analysis_run *run, kl_index row, const double *u)
{
    const mesh_row *r = &run->mesh.rows[row];
    return (r->foot == KL_NONE ? 0.0 : u[3 * r->foot + 1]) - u[3 * r->top + 1];
}

/* Sum over the causes of what an increment does to a contact: force (closed) or the measure that says whether it is
 * still open. */
static double contact_value(const analysis_run *run, const contact *c)
{
    double value = 0.0;
    if (c->kind == CONTACT_ROW) {
        const double k = run->mesh.rows[c->index].stiffness;
        value          = run->state.rows[c->index].virtual_force;
        for (kl_index i = 0; i < run->pending_count; i++) {
            value += k * row_closing(run, c->index, run->pending[i].u);
        }
        return value; /* phi: > 0 bears */
    }
    const bool is_hold = c->kind == CONTACT_HOLD;
    const kl_hold_kind kind = is_hold ? run->state.holds[c->index].kind : run->state.joints[c->index].kind;
    if (c->closed) { /* the force now, from all causes */
        value = c->was_closed ? c->force_before : 0.0;
        for (kl_index i = 0; i < run->pending_count; i++) {
            const double *sum = run->pending[i].sum;
            value += is_hold ? along_hold(run, &run->state.holds[c->index], sum)
                             : joint_sum(run, &run->state.joints[c->index], sum);
        }
        return push_sign(kind) * value;
    }
    value = is_hold ? run->state.holds[c->index].gap : run->state.joints[c->index].gap;
    for (kl_index i = 0; i < run->pending_count; i++) {
        const double *u = run->pending[i].u;
        value += push_sign(kind) * (is_hold ? along_hold(run, &run->state.holds[c->index], u)
                                            : joint_slip(run, &run->state.joints[c->index], u));
    }
    return -value; /* minus the gap: > 0 would overlap */
}
