/* coupling.c - see coupling.h.
 * SPDX-License-Identifier: MIT */
#include "coupling.h"

#include <string.h>

#include "lapack.h"
#include "mem.h"
#include "near.h"

kl_index coupling_list(const analysis_run *run, kl_index excepted, kl_index *tendons)
{
    kl_index count = 0;
    if (run->model->stage_count == 0) {
        return 0; /* each case stands by itself: a tendon acts with its force after seating */
    }
    for (kl_index t = 0; t < run->model->tendon_count; t++) {
        if (t != excepted && run->state.tendons[t].phase == KL_TENDON_STRESSED) {
            tendons[count++] = t;
        }
    }
    return count;
}

static kl_status respond(analysis_run *run, pending_column *column)
{
    KL_TRY(response_solve(&run->system, &run->structure, &column->loads, column->u, run->basic,
                          column->sum));
    recover_elements(&run->system, &run->structure, &column->loads, column->u, run->basic,
                     column->field, column->start, column->turn, column->sum);
    return KL_OK;
}

kl_status
coupling_act(const analysis_run *run, kl_index tendon, const double *change, frame_loads *loads)
{
    const tendon_trace *trace = &run->traces[tendon];
    return run->settings.tendons_as_loads
               ? action_add_as_loads(&run->mesh, trace, change, loads)
               : action_add(&run->mesh, trace, run->system.matrix, change, loads);
}

kl_status coupling_units(analysis_run *run, const kl_index *tendons, kl_index count)
{
    for (kl_index i = 0; i < count; i++) {
        const tendon_trace *trace = &run->traces[tendons[i]];
        pending_column *unit = &run->unit[i];
        const size_t points = (size_t)trace->count * QUADRATURE_POINTS;
        double *one = mem_array(points, sizeof(double));
        if (!one) {
            return KL_NO_MEMORY;
        }
        for (size_t p = 0; p < points; p++) {
            one[p] = 1.0;
        }
        loads_clear(&run->mesh, &unit->loads);
        const kl_status status = coupling_act(run, tendons[i], one, &unit->loads);
        mem_free(one);
        KL_TRY(status);
        KL_TRY(respond(run, unit));
    }
    return KL_OK;
}

static void add_scaled(double *to, const double *from, double factor, size_t count)
{
    for (size_t i = 0; i < count; i++) {
        to[i] += factor * from[i];
    }
}

kl_status
coupling_apply(analysis_run *run, const kl_index *tendons, kl_index count, pending_column *column)
{
    const frame_mesh *mesh = &run->mesh;
    memset(column->coupled, 0, (size_t)run->model->tendon_count * sizeof(double));
    if (count == 0) {
        return KL_OK;
    }
    double *matrix = mem_array((size_t)count * (size_t)count + (size_t)count, sizeof(double));
    if (!matrix) {
        return KL_NO_MEMORY;
    }
    double *x = matrix + (size_t)count * (size_t)count;
    for (kl_index i = 0; i < count; i++) {
        const tendon_trace *trace = &run->traces[tendons[i]];
        x[i] = action_elongation(mesh, trace, column->field);
        for (kl_index j = 0; j < count; j++) {
            matrix[j * count + i] = -action_elongation(mesh, trace, run->unit[j].field);
        }
        matrix[i * count + i] += trace->length / (trace->modulus * trace->area);
    }
    int64_t stopped;
    kl_status status = lapack_dense_solve(count, matrix, 1, x, &stopped);
    if (status == KL_OK && stopped >= 0) {
        status = KL_NUMERIC; /* cannot be: a tendon's own give is positive */
    }
    for (kl_index j = 0; j < count && status == KL_OK; j++) {
        const pending_column *unit = &run->unit[j];
        column->coupled[tendons[j]] = x[j];
        add_scaled(column->u, unit->u, x[j], 3 * (size_t)mesh->node_count);
        add_scaled(column->sum, unit->sum, x[j], 3 * (size_t)mesh->node_count);
        add_scaled(column->start, unit->start, x[j], 3 * (size_t)mesh->element_count);
        add_scaled(column->turn, unit->turn, x[j], 2 * (size_t)mesh->model->member_count);
        add_scaled(column->field, unit->field, x[j], FIELD_AT(mesh->element_count, 0));
    }
    mem_free(matrix);
    return status;
}
