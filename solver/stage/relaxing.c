/* relaxing.c - see relaxing.h.
 * SPDX-License-Identifier: MIT */
#include "relaxing.h"

#include <math.h>

static relaxation_steel steel_of(const kl_model *model, kl_index tendon)
{
    return relaxation_steel_of(&model->materials[model->tendons[tendon].material]);
}

static kl_index count_of(const relaxing *r, kl_index tendon)
{
    return r->first_trace[tendon + 1] - r->first_trace[tendon];
}

kl_status relaxing_create(const frame_mesh *mesh,
                          const tendon_trace *traces,
                          const kl_index *first_trace,
                          arena *a,
                          relaxing *out)
{
    const kl_model *model = mesh->model;
    kl_index most = 0;
    *out = (relaxing){.mesh = mesh, .traces = traces, .first_trace = first_trace};
    for (kl_index t = 0; t < model->tendon_count; t++) {
        most = count_of(out, t) > most ? count_of(out, t) : most;
    }
    out->points = arena_array(a, (size_t)first_trace[model->tendon_count], sizeof *out->points);
    out->change = arena_array(a, (size_t)most, sizeof(double));
    return out->points && out->change ? KL_OK : KL_NO_MEMORY;
}

void relaxing_begin(relaxing *r, kl_index tendon)
{
    for (kl_index i = r->first_trace[tendon]; i < r->first_trace[tendon + 1]; i++) {
        r->points[i] = (relaxing_point){.reference = 0.0};
    }
}

void relaxing_interrupt(relaxing *r)
{
    r->pace = r->pace_ratio = 0.0;
}

void relaxing_pace(relaxing *r, double since, double duration)
{
    const double pace = since > 0.0 ? log1p(duration / since) : 0.0;
    r->pace_ratio = r->pace > 0.0 ? pace / r->pace : 0.0;
    r->pace = pace;
}

bool relaxing_is_under_way(const relaxing *r, const stage_state *state, kl_index tendon)
{
    const kl_tendon_phase phase = state->tendons[tendon].phase;
    return (phase == KL_TENDON_STRESSED || phase == KL_TENDON_GROUTED) &&
           steel_of(r->mesh->model, tendon).law != RELAXATION_NONE;
}

/* The reference in the middle of a step, from its change in the step before: creep and shrinkage go about evenly on the
 * scale of log time. */
static double middle_reference(const relaxing *r, const relaxing_point *point, double reference)
{
    return reference + 0.5 * r->pace_ratio * (reference - point->reference);
}

/* The same all along: the mean over the tendon's true length. */
static void level(const relaxing *r, kl_index tendon)
{
    const tendon_trace *trace = &r->traces[tendon];
    double sum = 0.0;
    double length = 0.0;
    for (kl_index i = 0; i < count_of(r, tendon); i++) {
        const trace_element *at = &trace->elements[i / QUADRATURE_POINTS];
        const mesh_element *element = &r->mesh->elements[at->element];
        const int p = i % QUADRATURE_POINTS;
        const double part =
            (element->to - element->from) * r->mesh->rule.weight[p] / at->at[p].cosine;
        sum += part * r->change[i];
        length += part;
    }
    for (kl_index i = 0; i < count_of(r, tendon); i++) {
        r->change[i] = sum / length;
    }
}

void relaxing_step(relaxing *r, kl_index tendon, double duration, bool slips)
{
    const relaxation_steel steel = steel_of(r->mesh->model, tendon);
    const double area = r->traces[tendon].area;
    relaxing_point *points = &r->points[r->first_trace[tendon]];
    for (kl_index i = 0; i < count_of(r, tendon); i++) {
        const double reference = r->change[i] / area + points[i].state.lost;
        const double middle = middle_reference(r, &points[i], reference);
        r->change[i] = -area * relaxation_step(&steel, middle, duration, &points[i].state);
        points[i].reference = reference;
    }
    if (slips) {
        level(r, tendon);
    }
}
