/* operations_remove.c - taking members away: what they carried goes back on the structure, cause by cause.
 *
 * An element's end forces go back on its nodes, so that its own loads go with it. Loads and weight of the member that
 * had gone to nodes (at its ends, on its rigid parts) are taken off there.
 * SPDX-License-Identifier: MIT */
#include <math.h>

#include "increment.h"
#include "operations.h"

/* kl_model_check refuses members that do not stand, that falsework stands under or on, or that a tendon pulls on. */
static bool is_free_to_go(const analysis_run *run, kl_index member)
{
    for (kl_index i = 0; i < run->mesh.row_count; i++) {
        const kl_falsework *item = &run->model->falsework[run->mesh.rows[i].falsework];
        if (run->state.rows[i].phase == ROW_SET &&
            (item->member == member || item->carrier == member)) {
            return false;
        }
    }
    for (kl_index t = 0; t < run->model->tendon_count; t++) {
        const kl_tendon_phase phase = run->state.tendons[t].phase;
        for (kl_index k = 0; k < run->model->tendons[t].member_count; k++) {
            if (run->model->tendons[t].members[k] == member &&
                (phase == KL_TENDON_STRESSED || phase == KL_TENDON_GROUTED)) {
                return false;
            }
        }
    }
    return run->state.members[member].stands;
}

/* Actions at the two ends of an element under one column. */
static void
end_actions(const analysis_run *run, kl_index e, const double *data, section_action end[2])
{
    double c[3][QUADRATURE_POINTS];
    const double *row = &data[run->layout.field + FIELD_AT(e, 0)];
    quadrature_fit(&run->mesh.rule, row + FIELD_N, FIELD_COUNT, c[0]);
    quadrature_fit(&run->mesh.rule, row + FIELD_M, FIELD_COUNT, c[1]);
    quadrature_fit(&run->mesh.rule, row + FIELD_V, FIELD_COUNT, c[2]);
    for (int k = 0; k < 2; k++) {
        end[k] = (section_action){quadrature_value(c[0], k), quadrature_value(c[1], k),
                                  quadrature_value(c[2], k)};
    }
}

/* The forces an element took from its nodes go back on them. (Its own courses end where all columns are committed.) */
static kl_status lift_element(analysis_run *run, kl_index e)
{
    const mesh_element *element = &run->mesh.elements[e];
    for (kl_index i = 0; i < run->state.set.count; i++) {
        const cause_column *c = &run->state.set.columns[i];
        pending_column *p = run_pending(run, c->kind, c->load_case);
        if (!p) {
            return KL_NO_MEMORY;
        }
        section_action end[2];
        double force[6];
        end_actions(run, e, c->data, end);
        element_end_forces(&run->system.matrix[e], end, force);
        for (int d = 0; d < 3; d++) {
            p->loads.node[3 * element->node[0] + d] += force[d];
            p->loads.node[3 * element->node[1] + d] += force[3 + d];
        }
    }
    return KL_OK;
}

/* ---- loads ----------------------------------------------------------------------------------------------- */

/* Take off what the member's loads and weight put on nodes. Their parts on elements are off already and do nothing. */
static kl_status take_off(analysis_run *run, kl_index member)
{
    const kl_model *model = run->model;
    const kl_member *item = &model->members[member];
    const double length = run->mesh.members[member].length;
    pending_column *p = run_pending(run, KL_CAUSE_WEIGHT, KL_NONE);
    if (!p) {
        return KL_NO_MEMORY;
    }
    KL_TRY(loads_add_weight_between(&run->mesh, member, 0.0, item->rigid_start, -1.0, &p->loads));
    KL_TRY(loads_add_weight_between(&run->mesh, member, length - item->rigid_end, length, -1.0,
                                    &p->loads));
    for (kl_index c = 0; c < model->case_count; c++) {
        for (kl_index i = 0; i < model->cases[c].load_count; i++) {
            const kl_load *load = &model->cases[c].loads[i];
            double *on = &run->state.load_on[run->state.first_load[c] + i];
            const bool acts = load->kind == KL_LOAD_POINT || load->kind == KL_LOAD_DISTRIBUTED ||
                              load->kind == KL_LOAD_MOMENT;
            if (load->member != member || !(fabs(*on) > 0.0)) {
                continue;
            }
            p = run_pending(run, KL_CAUSE_CASE, c);
            if (!p) {
                return KL_NO_MEMORY;
            }
            if (acts) {
                KL_TRY(loads_add(&run->mesh, load, -*on, &p->loads));
            }
            *on = 0.0;
        }
    }
    return KL_OK;
}

/* ---- nodes ----------------------------------------------------------------------------------------------- */

/* A bearing of which one side is gone: its force goes back on the other. */
static void part_bearing(analysis_run *run, kl_index b, const cause_column *c, pending_column *p)
{
    const kl_bearing *bearing = &run->model->bearings[b];
    const bool node = run->state.node_stands[bearing->node];
    const bool base = run->state.node_stands[bearing->base];
    for (size_t d = 0; d < 3 && !(node && base); d++) {
        const size_t at = run->layout.bearing + 3 * (size_t)b + d;
        p->loads.node[3 * (size_t)bearing->node + d] -= node ? c->data[at] : 0.0;
        p->loads.node[3 * (size_t)bearing->base + d] += base ? c->data[at] : 0.0;
        p->delta[at] = -c->data[at];
    }
}

/* Loads on nodes that nothing touches any more have nowhere to go and are gone with the member; the reactions and
 * bearing forces of such nodes go too. */
static void forget_column(analysis_run *run, const cause_column *c, pending_column *p)
{
    for (kl_index n = 0; n < run->mesh.node_count; n++) {
        for (size_t d = 0; d < 3 && !run->state.node_stands[n]; d++) {
            p->loads.node[3 * (size_t)n + d] = 0.0;
            if (n < run->model->node_count) {
                const size_t at = run->layout.reaction + 3 * (size_t)n + d;
                p->delta[at] = -c->data[at];
            }
        }
    }
    for (kl_index b = 0; b < run->model->bearing_count; b++) {
        part_bearing(run, b, c, p);
    }
}

/* What stands there later meets supports and bearings that are closed and free of stress. */
static void close_contacts(analysis_run *run)
{
    for (kl_index i = 0; i < run->state.hold_count; i++) {
        hold_state *hold = &run->state.holds[i];
        if (!run->state.node_stands[run->model->supports[hold->support].node]) {
            hold->bears = true;
            hold->gap = 0.0;
        }
    }
    for (kl_index i = 0; i < run->state.joint_count; i++) {
        joint_state *joint = &run->state.joints[i];
        const kl_bearing *bearing = &run->model->bearings[joint->bearing];
        if (!run->state.node_stands[bearing->node] || !run->state.node_stands[bearing->base]) {
            joint->bears = true;
            joint->gap = 0.0;
        }
    }
}

static kl_status forget_nodes(analysis_run *run)
{
    const kl_model *model = run->model;
    close_contacts(run);
    for (kl_index i = 0; i < run->state.set.count; i++) {
        const cause_column *c = &run->state.set.columns[i];
        pending_column *p = run_pending(run, c->kind, c->load_case);
        if (!p) {
            return KL_NO_MEMORY;
        }
        forget_column(run, c, p);
    }
    for (kl_index c = 0; c < model->case_count; c++) {
        for (kl_index i = 0; i < model->cases[c].load_count; i++) {
            const kl_index node = model->cases[c].loads[i].node;
            if (node != KL_NONE && !run->state.node_stands[node]) {
                run->state.load_on[run->state.first_load[c] + i] = 0.0;
            }
        }
    }
    return KL_OK;
}

/* ---- the whole ------------------------------------------------------------------------------------------- */

kl_status operation_remove(analysis_run *run, const kl_operation *op)
{
    for (kl_index i = 0; i < op->items.count; i++) {
        if (!is_free_to_go(run, op->items.items[i])) {
            return KL_MISUSE;
        }
    }
    for (kl_index i = 0; i < op->items.count; i++) {
        const kl_index member = op->items.items[i];
        const mesh_member *of = &run->mesh.members[member];
        for (kl_index e = of->first; e < of->first + of->count; e++) {
            KL_TRY(lift_element(run, e));
            run->state.element_on[e] = false;
        }
        run->state.members[member].stands = false;
        KL_TRY(take_off(run, member));
    }
    run->phase = STRUCTURE_CHANGED;
    state_count_nodes(&run->mesh, &run->state);
    KL_TRY(forget_nodes(run));
    return increment_solve(run, KL_CAUSE_WEIGHT, KL_NONE, KL_NONE);
}
