/* operations_change.c - loads on and off, supports added and freed, hinges opened and closed.
 * SPDX-License-Identifier: MIT */
#include <math.h>

#include "increment.h"
#include "near.h"
#include "operations.h"

/* ---- loads ----------------------------------------------------------------------------------------------- */

static kl_cause_kind cause_of(const kl_load *load)
{
    switch (load->kind) {
    case KL_LOAD_WEIGHT:
        return KL_CAUSE_WEIGHT;
    case KL_LOAD_SETTLE:
    case KL_LOAD_TURN:
        return KL_CAUSE_MOVEMENT;
    case KL_LOAD_TEMPERATURE:
    case KL_LOAD_GRADIENT:
    case KL_LOAD_PROFILE:
        return KL_CAUSE_TEMPERATURE;
    case KL_LOAD_TENDON:
        return KL_CAUSE_PRESTRESS;
    case KL_LOAD_POINT:
    case KL_LOAD_DISTRIBUTED:
    case KL_LOAD_MOMENT:
        break;
    }
    return KL_CAUSE_CASE;
}

static bool stands_for(const analysis_run *run, const kl_load *load)
{
    if (load->member != KL_NONE) {
        return run->state.members[load->member].stands;
    }
    return load->node == KL_NONE || run->state.node_stands[load->node];
}

static kl_status refuse_turn(analysis_run *run, const kl_load *load)
{
    kl_diags_add(
        run->diags, KL_ERROR, "mechanism", load->origin,
        "A couple acts at node %s, where only hinged ends meet: nothing resists turning there.",
        run->model->nodes[load->node].name);
    return KL_MECHANISM;
}

/* A couple needs something that turns with it. */
static kl_status check_couple(analysis_run *run, const kl_load *load)
{
    if (load->kind != KL_LOAD_MOMENT || load->node == KL_NONE) {
        return KL_OK;
    }
    if (run->state.node_turns[load->node]) {
        return KL_OK;
    }
    for (kl_index i = 0; i < run->state.hold_count; i++) {
        const hold_state *hold = &run->state.holds[i];
        if (hold->active && hold->direction == KL_TURN &&
            run->model->supports[hold->support].node == load->node) {
            return KL_OK;
        }
    }
    for (kl_index i = 0; i < run->state.joint_count; i++) {
        const kl_bearing *bearing = &run->model->bearings[run->state.joints[i].bearing];
        if (run->state.joints[i].direction == KL_TURN &&
            (bearing->node == load->node || bearing->base == load->node)) {
            return KL_OK;
        }
    }
    return refuse_turn(run, load);
}

static kl_status
add_tendon_load(analysis_run *run, const kl_load *load, kl_index load_case, double factor)
{
    force_curve before;
    force_curve after;
    force_record r;
    const kl_index t = load->tendon;
    const tendon_trace *trace = &run->traces[t];
    const kl_tendon *tendon = &run->model->tendons[t];
    KL_TRY(
        force_stress(run->model, t, &run->paths[t], 1.0, NULL, run->a, NULL, &before, &after, &r));
    double *change = arena_array(run->a, (size_t)trace->count * QUADRATURE_POINTS, sizeof(double));
    if (!change) {
        return KL_NO_MEMORY;
    }
    for (kl_index i = 0; i < trace->count * QUADRATURE_POINTS; i++) {
        const double x = trace->elements[i / QUADRATURE_POINTS].at[i % QUADRATURE_POINTS].x;
        change[i] = factor * tendon->count * force_at(tendon, &run->paths[t], &after, x, KL_RIGHT);
    }
    run->state.tendons[t] = (tendon_state){.phase = KL_TENDON_STRESSED, .curve = after};
    const stressing_pull pull = {.tendon = t, .share = 1.0, .load_case = load_case};
    KL_TRY(operation_record(run, &pull, &r, &before, &after));
    return operation_tendon_change(run, t, change, KL_CAUSE_PRESTRESS, load_case);
}

static kl_status apply_load(analysis_run *run, kl_index load_case, kl_index index, double factor)
{
    const kl_load *load = &run->model->cases[load_case].loads[index];
    if (!stands_for(run, load)) { /* kl_model_check refuses it */
        return KL_MISUSE;
    }
    KL_TRY(check_couple(run, load));
    run->state.load_on[run->state.first_load[load_case] + index] += factor;
    if (load->kind == KL_LOAD_TENDON) {
        return add_tendon_load(run, load, load_case, factor);
    }
    pending_column *p = run_pending(run, cause_of(load), load_case);
    if (!p) {
        return KL_NO_MEMORY;
    }
    return loads_add(&run->mesh, load, factor, &p->loads);
}

kl_status operation_load_case(analysis_run *run, kl_index load_case, double factor)
{
    for (kl_index i = 0; i < run->model->cases[load_case].load_count; i++) {
        KL_TRY(apply_load(run, load_case, i, factor));
    }
    run->state.case_factor[load_case] += factor;
    return KL_OK;
}

kl_status operation_unload_case(analysis_run *run, kl_index load_case)
{
    for (kl_index i = 0; i < run->model->cases[load_case].load_count; i++) {
        const double on = run->state.load_on[run->state.first_load[load_case] + i];
        if (fabs(on) > 0.0) {
            KL_TRY(apply_load(run, load_case, i, -on));
        }
    }
    run->state.case_factor[load_case] = 0.0;
    return KL_OK;
}

/* ---- supports -------------------------------------------------------------------------------------------- */

kl_status operation_support(analysis_run *run, const kl_operation *op)
{
    for (kl_index i = 0; i < run->state.hold_count; i++) {
        hold_state *hold = &run->state.holds[i];
        if (hold->support == op->items.items[0]) {
            hold->active = hold->bears = true;
            hold->gap = 0.0;
            run->phase = STRUCTURE_CHANGED;
        }
    }
    state_count_nodes(&run->mesh, &run->state);
    return KL_OK;
}

/* A hold's direction as the language names it: with a slope, x is along and y across it. */
static kl_status free_hold(analysis_run *run, hold_state *hold)
{
    const kl_index node = run->model->supports[hold->support].node;
    const double slope = run->model->supports[hold->support].slope;
    double v[3] = {0.0, 0.0, hold->direction == KL_TURN ? 1.0 : 0.0};
    if (hold->direction != KL_TURN) {
        v[0] = hold->direction == KL_X ? cos(slope) : -sin(slope);
        v[1] = hold->direction == KL_X ? sin(slope) : cos(slope);
    }
    for (kl_index i = 0; i < run->state.set.count; i++) {
        const cause_column *c = &run->state.set.columns[i];
        pending_column *p = run_pending(run, c->kind, c->load_case);
        if (!p) {
            return KL_NO_MEMORY;
        }
        const size_t at = run->layout.reaction + 3 * (size_t)node;
        const double reaction =
            v[0] * c->data[at] + v[1] * c->data[at + 1] + v[2] * c->data[at + 2];
        for (size_t d = 0; d < 3; d++) {
            p->loads.node[3 * (size_t)node + d] -= reaction * v[d];
            p->delta[at + d] -= reaction * v[d];
        }
    }
    hold->active = false;
    run->phase = STRUCTURE_CHANGED;
    return KL_OK;
}

kl_status operation_free(analysis_run *run, const kl_operation *op)
{
    kl_index freed = 0;
    for (kl_index i = 0; i < run->state.hold_count; i++) {
        hold_state *hold = &run->state.holds[i];
        if (hold->active && run->model->supports[hold->support].node == op->items.items[0] &&
            op->directions[hold->direction]) {
            KL_TRY(free_hold(run, hold));
            freed++;
        }
    }
    if (freed == 0) { /* kl_model_check refuses it */
        return KL_MISUSE;
    }
    return increment_solve(run, KL_CAUSE_MOVEMENT, KL_NONE, KL_NONE);
}

/* ---- hinges ---------------------------------------------------------------------------------------------- */

/* The element end that a hinge of a member belongs to: the start of the first element, or the end of the one that ends
 * at the station. */
static kl_status hinge_place(analysis_run *run, const kl_operation *op, kl_index *element, int *end)
{
    const kl_index member = op->items.items[0];
    const mesh_member *of = &run->mesh.members[member];
    if (!run->state.members[member].stands) { /* kl_model_check refuses it */
        return KL_MISUSE;
    }
    if (op->station <= NEAR_STATION * of->length) {
        *element = of->first;
        *end = 0;
        return KL_OK;
    }
    *element = mesh_element_at(&run->mesh, member, op->station, KL_LEFT);
    *end = 1;
    return KL_OK;
}

static kl_status
refuse_joint(analysis_run *run, const kl_operation *op, const char *name, const char *why)
{
    const kl_display *display = &run->model->display;
    kl_diags_add(run->diags, KL_ERROR, name, op->origin, "The joint of member %s at %.6g %s %s.",
                 run->model->members[op->items.items[0]].name,
                 op->station / kl_show_factor(display, KL_MEASURE_STATION),
                 kl_show_unit(display, KL_MEASURE_STATION), why);
    return KL_BAD_MODEL;
}

kl_status operation_unlock(analysis_run *run, const kl_operation *op)
{
    kl_index e;
    int end;
    KL_TRY(hinge_place(run, op, &e, &end));
    if (run->state.hinge[e][end]) {
        return refuse_joint(run, op, "hinge-open", "is open already and cannot be unlocked");
    }
    for (kl_index i = 0; i < run->state.set.count; i++) {
        const cause_column *c = &run->state.set.columns[i];
        pending_column *p = run_pending(run, c->kind, c->load_case);
        if (!p) {
            return KL_NO_MEMORY;
        }
        double coefficients[QUADRATURE_POINTS];
        quadrature_fit(&run->mesh.rule, c->data + run->layout.field + FIELD_AT(e, 0) + FIELD_M,
                       FIELD_COUNT, coefficients);
        KL_TRY(loads_open_couple(&run->mesh, &p->loads));
        p->loads.couple[e].end[end] -= quadrature_value(coefficients, end);
    }
    run->state.hinge[e][end] = true;
    state_count_nodes(&run->mesh, &run->state);
    run->phase = STRUCTURE_CHANGED;
    return increment_solve(run, KL_CAUSE_MOVEMENT, KL_NONE, KL_NONE);
}

kl_status operation_lock(analysis_run *run, const kl_operation *op)
{
    kl_index e;
    int end;
    KL_TRY(hinge_place(run, op, &e, &end));
    if (!run->state.hinge[e][end]) {
        return refuse_joint(run, op, "no-hinge", "has no open hinge that could be locked");
    }
    run->state.hinge[e][end] = false;
    state_count_nodes(&run->mesh, &run->state);
    run->phase = STRUCTURE_CHANGED;
    return KL_OK;
}
