/* state.c - see state.h.
 * SPDX-License-Identifier: MIT */
#include "state.h"

#include <string.h>

column_layout
state_layout(const frame_mesh *mesh, const tendon_trace *traces, kl_index *first_trace)
{
    const size_t nodes = (size_t)mesh->node_count;
    const size_t elements = (size_t)mesh->element_count;
    first_trace[0] = 0;
    for (kl_index t = 0; t < mesh->model->tendon_count; t++) {
        first_trace[t + 1] = first_trace[t] + traces[t].count * QUADRATURE_POINTS;
    }
    column_layout l;
    l.node = 0;
    l.reaction = l.node + 3 * nodes;
    l.start = l.reaction + 3 * (size_t)mesh->model->node_count;
    l.turn = l.start + 3 * elements;
    l.field = l.turn + 2 * (size_t)mesh->model->member_count;
    l.row = l.field + elements * QUADRATURE_POINTS * FIELD_COUNT;
    l.bearing = l.row + (size_t)mesh->row_count;
    l.tendon = l.bearing + 3 * (size_t)mesh->model->bearing_count;
    l.size = l.tendon + (size_t)first_trace[mesh->model->tendon_count];
    return l;
}

static kl_status list_holds(const kl_model *model, arena *a, stage_state *state)
{
    state->holds = arena_array(a, 3 * (size_t)model->support_count, sizeof(hold_state));
    if (!state->holds) {
        return KL_NO_MEMORY;
    }
    for (kl_index i = 0; i < model->support_count; i++) {
        for (int d = 0; d < 3; d++) {
            const kl_hold *hold = &model->supports[i].hold[d];
            if (hold->kind != KL_FREE) {
                state->holds[state->hold_count++] =
                    (hold_state){.support = i,
                                 .direction = d,
                                 .kind = hold->kind,
                                 .stiffness = hold->stiffness,
                                 .active = !model->supports[i].added_later,
                                 .bears = true};
            }
        }
    }
    return KL_OK;
}

static kl_status list_joints(const kl_model *model, arena *a, stage_state *state)
{
    state->joints = arena_array(a, 3 * (size_t)model->bearing_count, sizeof(joint_state));
    if (!state->joints) {
        return KL_NO_MEMORY;
    }
    for (kl_index i = 0; i < model->bearing_count; i++) {
        for (int d = 0; d < 3; d++) {
            const kl_hold *hold = &model->bearings[i].hold[d];
            if (hold->kind != KL_FREE) {
                state->joints[state->joint_count++] = (joint_state){.bearing = i,
                                                                    .direction = d,
                                                                    .kind = hold->kind,
                                                                    .stiffness = hold->stiffness,
                                                                    .bears = true};
            }
        }
    }
    return KL_OK;
}

static kl_status list_loads(const kl_model *model, arena *a, stage_state *state)
{
    state->first_load = arena_array(a, (size_t)model->case_count + 1, sizeof(kl_index));
    if (!state->first_load) {
        return KL_NO_MEMORY;
    }
    for (kl_index c = 0; c < model->case_count; c++) {
        state->first_load[c + 1] = state->first_load[c] + model->cases[c].load_count;
    }
    state->load_on = arena_array(a, (size_t)state->first_load[model->case_count], sizeof(double));
    return state->load_on ? KL_OK : KL_NO_MEMORY;
}

kl_status state_create(const frame_mesh *mesh, arena *a, stage_state *state)
{
    const kl_model *model = mesh->model;
    *state = (stage_state){0};
    state->element_on = arena_array(a, (size_t)mesh->element_count, sizeof(bool));
    state->hinge = arena_array(a, (size_t)mesh->element_count, sizeof *state->hinge);
    state->node_stands = arena_array(a, (size_t)mesh->node_count, sizeof(bool));
    state->node_turns = arena_array(a, (size_t)mesh->node_count, sizeof(bool));
    state->rows = arena_array(a, (size_t)mesh->row_count, sizeof(row_state));
    state->tendons = arena_array(a, (size_t)model->tendon_count, sizeof(tendon_state));
    state->members = arena_array(a, (size_t)model->member_count, sizeof(member_state));
    state->case_factor = arena_array(a, (size_t)model->case_count, sizeof(double));
    KL_TRY(list_loads(model, a, state));
    if (!state->element_on || !state->hinge || !state->node_stands || !state->node_turns ||
        !state->rows || !state->tendons || !state->members || !state->case_factor) {
        return KL_NO_MEMORY;
    }
    for (kl_index e = 0; e < mesh->element_count; e++) {
        memcpy(state->hinge[e], mesh->elements[e].hinge, sizeof state->hinge[e]);
    }
    KL_TRY(list_holds(model, a, state));
    state_count_nodes(mesh, state);
    return list_joints(model, a, state);
}

/* A fixture is there once a support holds it, and stays: what rests on it must not lose it unseen. */
static void count_fixtures(const frame_mesh *mesh, stage_state *state)
{
    for (kl_index n = 0; n < mesh->node_count; n++) {
        state->node_stands[n] = mesh->fixture[n] && state->node_stands[n];
    }
    for (kl_index i = 0; i < state->hold_count; i++) {
        const kl_index node = mesh->model->supports[state->holds[i].support].node;
        if (state->holds[i].active && mesh->fixture[node]) {
            state->node_stands[node] = true;
        }
    }
}

void state_count_nodes(const frame_mesh *mesh, stage_state *state)
{
    count_fixtures(mesh, state);
    memset(state->node_turns, 0, (size_t)mesh->node_count * sizeof(bool));
    for (kl_index e = 0; e < mesh->element_count; e++) {
        const mesh_element *element = &mesh->elements[e];
        const bool axial_only = mesh->model->members[element->member].axial_only;
        for (int end = 0; end < 2 && state->element_on[e]; end++) {
            state->node_stands[element->node[end]] = true;
            if (!axial_only && !state->hinge[e][end]) {
                state->node_turns[element->node[end]] = true;
            }
        }
    }
}

cause_column *state_column(arena *a, column_set *set, kl_cause_kind kind, kl_index load_case)
{
    for (kl_index i = 0; i < set->count; i++) {
        if (set->columns[i].kind == kind && set->columns[i].load_case == load_case) {
            return &set->columns[i];
        }
    }
    cause_column *grown = arena_array(a, (size_t)set->count + 1, sizeof(cause_column));
    if (!grown) {
        return NULL;
    }
    if (set->count > 0) {
        memcpy(grown, set->columns, (size_t)set->count * sizeof(cause_column));
    }
    grown[set->count] = (cause_column){kind, load_case, NULL, false};
    set->columns = grown;
    return &set->columns[set->count++];
}

bool state_matches(const cause_column *c, kl_cause cause)
{
    if (cause.kind == KL_CAUSE_ALL) {
        return true;
    }
    if (cause.kind == KL_CAUSE_CASE) {
        return c->load_case == cause.load_case && c->kind != KL_CAUSE_CREEP;
    }
    return c->kind == cause.kind &&
           (cause.kind != KL_CAUSE_CREEP || cause.load_case <= KL_CAUSE_ALL ||
            c->load_case == cause.load_case);
}

double state_sum(const column_set *set, kl_cause cause, size_t entry)
{
    double sum = 0.0;
    for (kl_index i = 0; i < set->count; i++) {
        if (set->columns[i].data && state_matches(&set->columns[i], cause)) {
            sum += set->columns[i].data[entry];
        }
    }
    return sum;
}
