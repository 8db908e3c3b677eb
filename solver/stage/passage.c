/* passage.c - see passage.h.
 * SPDX-License-Identifier: MIT */
#include "passage.h"

#include "increment.h"
#include "material.h"
#include "operations.h"
#include "time_steps.h"

/* ---- one step ------------------------------------------------------------------------------------------- */

static kl_status creep(analysis_run *run)
{
    for (int source = 0; source < KL_CAUSE_COUNT; source++) {
        if (!memory_has(&run->memory, (kl_cause_kind)source)) {
            continue;
        }
        pending_column *c = run_pending(run, KL_CAUSE_CREEP, (kl_index)source);
        if (!c) {
            return KL_NO_MEMORY;
        }
        KL_TRY(loads_open_fibre(&run->mesh, &c->loads));
        memory_creep(&run->memory, &run->ageing, &run->book, run->system.matrix,
                     (kl_cause_kind)source, &c->loads);
    }
    return KL_OK;
}

static void shrink_member(const analysis_run *run, kl_index m, double strain, frame_loads *loads)
{
    const mesh_member *of = &run->mesh.members[m];
    for (kl_index e = of->first; e < of->first + of->count; e++) {
        for (int p = 0; p < QUADRATURE_POINTS; p++) {
            section_add_free_strain(&run->book, &run->system.matrix[e], e, p,
                                    (section_strain){.e = strain}, loads);
        }
    }
}

static kl_status shrink(analysis_run *run)
{
    for (kl_index m = 0; m < run->model->member_count; m++) {
        const kl_index batch = run->ageing.batch_of[m];
        if (batch == KL_NONE) {
            continue;
        }
        const double strain = run->ageing.batches[batch].shrinkage;
        if (!(strain < 0.0)) {
            continue;
        }
        pending_column *c = run_pending(run, KL_CAUSE_SHRINKAGE, KL_NONE);
        if (!c) {
            return KL_NO_MEMORY;
        }
        KL_TRY(loads_open_fibre(&run->mesh, &c->loads));
        shrink_member(run, m, strain, &c->loads);
    }
    return KL_OK;
}

/* Force of the group at a tendon's trace points, all causes. */
static void present_force(const analysis_run *run, kl_index tendon, double *force)
{
    const kl_index first = run->first_trace[tendon];
    const kl_index count = run->first_trace[tendon + 1] - first;
    const kl_cause all = {KL_CAUSE_ALL, KL_NONE};
    for (kl_index i = 0; i < count; i++) {
        force[i] = state_sum(&run->state.set, all, run->layout.tendon + (size_t)(first + i));
    }
}

static kl_status relax(analysis_run *run, double duration)
{
    for (kl_index t = 0; t < run->model->tendon_count; t++) {
        tendon_state *state = &run->state.tendons[t];
        const bool slips = state->phase == KL_TENDON_STRESSED;
        double *change = run->relaxing.change;
        if (!relaxing_is_under_way(&run->relaxing, &run->state, t)) {
            continue;
        }
        present_force(run, t, change);
        relaxing_step(&run->relaxing, t, duration, slips);
        state->uniform += slips ? change[0] / run->model->tendons[t].count : 0.0;
        KL_TRY(operation_tendon_change(run, t, change, KL_CAUSE_RELAXATION, KL_NONE));
    }
    return KL_OK;
}

static kl_status step(analysis_run *run, double event, double to)
{
    const double from = run->state.time;
    relaxing_pace(&run->relaxing, from - event, to - from);
    ageing_step(&run->ageing, &run->state, from, to, &run->book);
    run->phase = STRUCTURE_CHANGED;
    run->state.time = to;
    KL_TRY(increment_form(run));
    KL_TRY(creep(run));
    KL_TRY(shrink(run));
    KL_TRY(relax(run, to - from));
    KL_TRY(increment_solve(run, KL_CAUSE_CREEP, KL_CAUSE_WEIGHT, KL_NONE));
    run->book.passing = false;
    run->phase = STRUCTURE_CHANGED; /* the moduli of the day again */
    return KL_OK;
}

/* ---- all of them ---------------------------------------------------------------------------------------- */

static bool something_relaxes(const analysis_run *run)
{
    for (kl_index t = 0; t < run->model->tendon_count; t++) {
        if (relaxing_is_under_way(&run->relaxing, &run->state, t)) {
            return true;
        }
    }
    return false;
}

kl_status passage_begin(analysis_run *run, double end, passage *p)
{
    const int wanted = run->settings.steps_per_decade;
    const double span = end - run->state.time;
    *p = (passage){.event = run->state.time, .end = end};
    if (run->ageless || !(span > 0.0)) {
        return KL_OK;
    }
    KL_TRY(ageing_follow(&run->ageing, &run->state, run->a));
    relaxing_interrupt(&run->relaxing);
    p->acts = ageing_is_under_way(&run->ageing) || something_relaxes(run);
    p->count = time_steps_count(span, wanted > 0 ? wanted : TIME_STEPS_PER_DECADE);
    return KL_OK;
}

/* A new day changes the modulus of what ages. */
static void grow_older(analysis_run *run, double time)
{
    run->state.time = time;
    for (kl_index m = 0; m < run->model->member_count; m++) {
        if (run->state.members[m].stands &&
            material_ages(&run->model->materials[run->model->members[m].material])) {
            run->phase = STRUCTURE_CHANGED;
        }
    }
}

kl_status passage_go(analysis_run *run, passage *p, double time)
{
    while (p->acts && time > run->state.time) {
        const double end = p->event + time_steps_end(p->end - p->event, p->count, p->next);
        const bool whole = end <= time;
        KL_TRY(step(run, p->event, whole ? end : time));
        p->next += whole;
    }
    if (!run->ageless && time > run->state.time) {
        grow_older(run, time);
    }
    return KL_OK;
}
