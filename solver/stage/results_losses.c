/* results_losses.c - what a tendon has lost since its last stressing, cause by cause.
 *
 * At each trace point, N in the group: friction is the jack's force less the curve of the jacks alone, seating that
 * curve less the seated one, and every column's change since the step of the stressing is the loss of its cause. What
 * the tendon differs by from the seated curve at the end of that very step is its own elastic shortening. The course of
 * each through the points of an element has the same terms as that of the force, so the sum holds to rounding.
 * SPDX-License-Identifier: MIT */
#include <math.h>
#include <string.h>

#include "stressing.h"
#include "tendon_course.h"
#include "tendon_origin.h"

/* ---- the stressing --------------------------------------------------------------------------------------- */

kl_index tendon_origin_bound(const kl_results *results, kl_state state)
{
    return state.kind == KL_STATE_MOMENT
               ? results->first_step[results->moments[state.index].step.stage]
               : state.index + 1;
}

static kl_status
last_pull(const kl_results *results, kl_state state, kl_index tendon, tendon_origin *origin)
{
    const kl_index bound = tendon_origin_bound(results, state);
    for (kl_index i = results->run.pull_count - 1; i >= 0; i--) {
        const pull_record *pull = &results->run.pulls[i];
        if (pull->tendon == tendon && pull->done.step < bound) {
            *origin = (tendon_origin){pull->done.step, pull->done.jack_force, &pull->unseated,
                                      &pull->seated, &results->steps[pull->done.step].set};
            return KL_OK;
        }
    }
    return KL_NOT_THERE;
}

kl_status tendon_origin_find(const kl_results *results,
                             kl_state state,
                             kl_index tendon,
                             tendon_origin *origin)
{
    const bool staged = results->step_count > 0;
    const bool of_time = state.kind == KL_STATE_STEP || state.kind == KL_STATE_MOMENT;
    const kl_tendon_phase phase = kl_tendon_state(results, state, tendon);
    if ((phase != KL_TENDON_STRESSED && phase != KL_TENDON_GROUTED) ||
        (staged ? !of_time : state.kind != KL_STATE_CASE)) {
        return KL_NOT_THERE;
    }
    if (staged) {
        return last_pull(results, state, tendon, origin);
    }
    const stressing *whole = &results->run.from_slack[tendon];
    *origin = (tendon_origin){KL_NONE, results->run.model->tendons[tendon].jack_force,
                              &whole->record.unseated, &whole->after, NULL};
    return KL_OK;
}

/* ---- points of one element ------------------------------------------------------------------------------- */

enum { LEFT_OVER = KL_LOSS_COUNT, LOSS_ROWS };

/* N in the group at the points of one element: each loss, and what is left. */
typedef struct loss_points {
    double at[LOSS_ROWS][QUADRATURE_POINTS];
} loss_points;

static kl_loss loss_of(kl_cause_kind kind)
{
    switch (kind) {
    case KL_CAUSE_PRESTRESS:
        return KL_LOSS_SHORTENING;
    case KL_CAUSE_CREEP:
        return KL_LOSS_CREEP;
    case KL_CAUSE_SHRINKAGE:
        return KL_LOSS_SHRINKAGE;
    case KL_CAUSE_RELAXATION:
        return KL_LOSS_RELAXATION;
    case KL_CAUSE_LOSSES:
        return KL_LOSS_LUMP;
    case KL_CAUSE_TEMPERATURE:
        return KL_LOSS_TEMPERATURE;
    case KL_CAUSE_MOVEMENT:
        return KL_LOSS_MOVEMENT;
    case KL_CAUSE_ALL:
    case KL_CAUSE_WEIGHT:
    case KL_CAUSE_CASE:
    case KL_CAUSE_COUNT:
        break;
    }
    return KL_LOSS_LOADS;
}

static void add(double *to, const double *values, double factor)
{
    for (int p = 0; p < QUADRATURE_POINTS; p++) {
        to[p] += factor * values[p];
    }
}

/* What columns took until the state, and, `since` the stressing, had not taken yet. */
static void
add_columns(const column_set *now, const column_set *since, size_t entry, loss_points *points)
{
    for (kl_index i = 0; i < now->count; i++) {
        const cause_column *c = &now->columns[i];
        if (c->data) {
            add(points->at[loss_of(c->kind)], c->data + entry, -1.0);
            add(points->at[LEFT_OVER], c->data + entry, 1.0);
        }
    }
    for (kl_index i = 0; since && i < since->count; i++) {
        const cause_column *c = &since->columns[i];
        if (c->data) {
            add(points->at[loss_of(c->kind)], c->data + entry, 1.0);
            add(points->at[KL_LOSS_SHORTENING], c->data + entry,
                -1.0); /* left after the seated curve */
        }
    }
}

static void points_of_element(const kl_results *results,
                              const tendon_origin *origin,
                              const column_set *now,
                              kl_index tendon,
                              kl_index i,
                              loss_points *points)
{
    const analysis_run *run = &results->run;
    const kl_tendon *item = &run->model->tendons[tendon];
    const size_t entry =
        run->layout.tendon + (size_t)run->first_trace[tendon] + (size_t)i * QUADRATURE_POINTS;
    memset(points, 0, sizeof *points);
    for (int p = 0; p < QUADRATURE_POINTS; p++) {
        const double x = run->traces[tendon].elements[i].at[p].x;
        const tendon_path *path = &run->paths[tendon];
        const double unseated = force_at(item, path, origin->unseated, x, KL_RIGHT);
        const double seated = force_at(item, path, origin->seated, x, KL_RIGHT);
        points->at[KL_LOSS_FRICTION][p] = item->count * (origin->jack - unseated);
        points->at[KL_LOSS_SEATING][p] = item->count * (unseated - seated);
        points->at[KL_LOSS_SHORTENING][p] = item->count * seated;
    }
    add_columns(now, origin->set, entry, points);
}

/* ---- questions ------------------------------------------------------------------------------------------- */

static void begin(const kl_results *results,
                  const tendon_origin *origin,
                  kl_index tendon,
                  kl_tendon_losses *out)
{
    const double count = results->run.model->tendons[tendon].count;
    memset(out, 0, sizeof *out);
    out->step = origin->step;
    out->jack = count * origin->jack / results->run.traces[tendon].area;
}

static double *row_of(kl_tendon_losses *out, int row)
{
    return row == LEFT_OVER ? &out->left : &out->lost[row];
}

kl_status kl_losses_at_station(const kl_results *results,
                               kl_state state,
                               kl_index tendon,
                               double station,
                               kl_side side,
                               kl_tendon_losses *out)
{
    tendon_origin origin;
    tendon_spot spot;
    loss_points points;
    KL_TRY(tendon_origin_find(results, state, tendon, &origin));
    KL_TRY(tendon_course_find(results, tendon, station, side, &spot));
    points_of_element(results, &origin, &store_record_of(results, state)->set, tendon, spot.element,
                      &points);
    begin(results, &origin, tendon, out);
    for (int row = 0; row < LOSS_ROWS; row++) {
        double c[QUADRATURE_POINTS];
        quadrature_fit(&results->run.mesh.rule, points.at[row], 1, c);
        *row_of(out, row) = quadrature_value(c, spot.xi) / results->run.traces[tendon].area;
    }
    return KL_OK;
}

/* Add the element's part of the integrals along the tendon. @return its length */
static double add_element(const kl_results *results,
                          const trace_element *at,
                          const loss_points *points,
                          kl_tendon_losses *out)
{
    const frame_mesh *mesh = &results->run.mesh;
    const mesh_element *element = &mesh->elements[at->element];
    double length = 0.0;
    for (int p = 0; p < QUADRATURE_POINTS; p++) {
        const double part = (element->to - element->from) * mesh->rule.weight[p] / at->at[p].cosine;
        for (int row = 0; row < LOSS_ROWS; row++) {
            *row_of(out, row) += part * points->at[row][p];
        }
        length += part;
    }
    return length;
}

kl_status kl_losses_on_average(const kl_results *results,
                               kl_state state,
                               kl_index tendon,
                               kl_tendon_losses *out)
{
    const tendon_trace *trace = &results->run.traces[tendon];
    tendon_origin origin;
    double length = 0.0;
    KL_TRY(tendon_origin_find(results, state, tendon, &origin));
    begin(results, &origin, tendon, out);
    for (kl_index i = 0; i < trace->count; i++) {
        loss_points points;
        points_of_element(results, &origin, &store_record_of(results, state)->set, tendon, i,
                          &points);
        length += add_element(results, &trace->elements[i], &points, out);
    }
    for (int row = 0; row < LOSS_ROWS && length > 0.0; row++) {
        *row_of(out, row) /= length * trace->area;
    }
    return length > 0.0 ? KL_OK : KL_NOT_THERE;
}
