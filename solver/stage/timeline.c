/* timeline.c - see timeline.h.
 * SPDX-License-Identifier: MIT */
#include "timeline.h"

#include <string.h>

#include "audit.h"
#include "increment.h"
#include "moments.h"
#include "operations.h"
#include "passage.h"

/* ---- room ------------------------------------------------------------------------------------------------ */

/* All states are kept until the results are destroyed: some ten thousand steps of a large bent, or four cases of a million
 * elements. */
#define RESULTS_BYTES ((size_t)4 << 30)

static kl_status check_room(const kl_results *results, kl_origin origin, const char *name)
{
    if (results->a.bytes <= RESULTS_BYTES) {
        return KL_OK;
    }
    kl_diags_add(results->run.diags, KL_ERROR, "results-too-large", origin,
                 "The results up to %s take more than %d MiB.", name, (int)(RESULTS_BYTES >> 20));
    kl_diags_hint(results->run.diags, "a coarser mesh, fewer stages or fewer cases will do");
    return KL_TOO_LARGE;
}

/* ---- stages ---------------------------------------------------------------------------------------------- */

/* At most: one more for each stage that time leads to. */
static kl_index count_steps(const kl_model *model)
{
    kl_index count = model->stage_count;
    for (kl_index s = 0; s < model->stage_count; s++) {
        const kl_stage *stage = &model->stages[s];
        for (kl_index o = 0; o < stage->operation_count; o++) {
            count += operation_steps(&stage->operations[o]);
        }
        count += stage->operation_count == 0;
    }
    return count;
}

static void begin_step(kl_results *results, kl_step step)
{
    results->steps[results->step_count].step = step;
    results->run.step = results->step_count;
    results->run.contact_changes = 0;
}

static kl_status keep_step(kl_results *results, kl_index stage, kl_origin origin)
{
    const kl_stage *of = &results->run.model->stages[stage];
    state_record *record = &results->steps[results->step_count];
    record->step.contact_changes = results->run.contact_changes;
    KL_TRY(store_record(results, record));
    results->step_count++;
    KL_TRY(check_room(results, of->origin, of->name));
    return audit_require(results, kl_state_step(results->step_count - 1), origin);
}

static kl_status take_step(kl_results *results, kl_index stage, kl_index operation, kl_index item)
{
    analysis_run *run = &results->run;
    const kl_stage *of = &run->model->stages[stage];
    const kl_operation *op = operation == KL_NONE ? NULL : &of->operations[operation];
    const bool is_list = op && operation_steps(op) == op->items.count && op->kind >= KL_OP_STRESS &&
                         op->kind <= KL_OP_LOSE;
    const char *label = op ? operation_label(run->model, op, item, &results->a) : "";
    if (!label) {
        return KL_NO_MEMORY;
    }
    begin_step(results, (kl_step){.stage = stage,
                                  .operation = operation,
                                  .item = is_list ? op->items.items[item] : KL_NONE,
                                  .label = label,
                                  .time = of->time});
    if (op) {
        KL_TRY(operation_apply(run, op, item));
    }
    return keep_step(results, stage, op ? op->origin : of->origin);
}

/* ---- between stages -------------------------------------------------------------------------------------- */

static kl_status keep_moment(kl_results *results, kl_index stage)
{
    const kl_stage *of = &results->run.model->stages[stage];
    state_record *record = &results->moments[results->moment_count];
    record->step = results->steps[results->step_count].step;
    record->step.time = results->run.state.time;
    KL_TRY(store_record(results, record));
    results->moment_count++;
    KL_TRY(check_room(results, of->origin, of->name));
    return audit_require(results, kl_state_moment(results->moment_count - 1), of->origin);
}

/* Let time pass up to a stage. What it brought is recorded before the stage's first operation; a stage that only looks
 * sees it by itself. */
static kl_status reach_stage(kl_results *results, kl_index stage)
{
    analysis_run *run = &results->run;
    const kl_stage *of = &run->model->stages[stage];
    if (!(of->time > run->state.time)) {
        return KL_OK;
    }
    passage p;
    const char *label = arena_print(&results->a, "until day %.6g", of->time / KL_DAY);
    if (!label) {
        return KL_NO_MEMORY;
    }
    begin_step(results, (kl_step){.stage = stage,
                                  .operation = KL_NONE,
                                  .item = KL_NONE,
                                  .label = label,
                                  .time = of->time});
    KL_TRY(passage_begin(run, of->time, &p));
    while (results->moment_count < results->moment_total &&
           results->moment_times[results->moment_count] < of->time) {
        KL_TRY(passage_go(run, &p, results->moment_times[results->moment_count]));
        KL_TRY(keep_moment(results, stage));
    }
    KL_TRY(passage_go(run, &p, of->time));
    return p.acts && of->operation_count > 0 ? keep_step(results, stage, of->origin) : KL_OK;
}

/* ---- messages -------------------------------------------------------------------------------------------- */

/* Arithmetic that breaks down has no message of its own but for pieces that are too short. */
static void tell_breakdown(const analysis_run *run, kl_origin origin, const char *where)
{
    if (kl_diags_count_of(run->diags, KL_ERROR) == 0) {
        kl_diags_add(run->diags, KL_ERROR, "arithmetic", origin,
                     "The numbers differ or grow beyond what can be computed %s.", where);
        kl_diags_hint(
            run->diags,
            "look for a size, a stiffness or a load that is out of all proportion, and for "
            "places on a member that lie very close together");
    }
}

/* Errors of an operation are told once more with the stage they happened in. */
static void tell_stage(const kl_results *results, kl_index stage, kl_status status)
{
    const analysis_run *run = &results->run;
    const kl_stage *of = &run->model->stages[stage];
    if (status == KL_MECHANISM || status == KL_NO_CONTACT) {
        kl_diags_add(run->diags, KL_NOTE, "in-stage", of->origin, "It happens in stage %s, %s.",
                     of->name, results->steps[results->step_count].step.label);
    }
    if (status == KL_NUMERIC) {
        tell_breakdown(run, of->origin, "in this stage");
    }
}

static void tell_case(const analysis_run *run, kl_index load_case, kl_status status)
{
    const kl_case *of = &run->model->cases[load_case];
    if (status == KL_MECHANISM || status == KL_NO_CONTACT) {
        kl_diags_add(run->diags, KL_NOTE, "in-case", of->origin, "It happens under load case %s.",
                     of->name);
    }
    if (status == KL_NUMERIC) {
        tell_breakdown(run, of->origin, "under this load case");
    }
}

static kl_status run_stage(kl_results *results, kl_index stage)
{
    const kl_stage *of = &results->run.model->stages[stage];
    results->first_step[stage] = results->step_count;
    const kl_status reached = reach_stage(results, stage);
    if (reached != KL_OK) {
        tell_stage(results, stage, reached);
        return reached;
    }
    if (of->operation_count == 0) {
        return take_step(results, stage, KL_NONE, 0);
    }
    for (kl_index o = 0; o < of->operation_count; o++) {
        const kl_index steps = operation_steps(&of->operations[o]);
        for (kl_index i = 0; i < steps; i++) {
            const kl_status status = take_step(results, stage, o, i);
            if (status != KL_OK) {
                tell_stage(results, stage, status);
                return status;
            }
        }
    }
    return KL_OK;
}

/* ---- cases by themselves --------------------------------------------------------------------------------- */

static bool loaded_by_stage(const kl_model *model, kl_index load_case)
{
    for (kl_index s = 0; s < model->stage_count; s++) {
        for (kl_index o = 0; o < model->stages[s].operation_count; o++) {
            const kl_operation *op = &model->stages[s].operations[o];
            for (kl_index i = 0; op->kind == KL_OP_LOAD && i < op->items.count; i++) {
                if (op->items.items[i] == load_case) {
                    return true;
                }
            }
        }
    }
    return false;
}

/* Is there anything left that can lift or close? */
static bool has_contacts(const analysis_run *run)
{
    for (kl_index i = 0; i < run->mesh.row_count; i++) {
        if (run->state.rows[i].phase == ROW_SET) {
            return true;
        }
    }
    for (kl_index i = 0; i < run->state.hold_count; i++) {
        const kl_hold_kind kind = run->state.holds[i].kind;
        if (run->state.holds[i].active && (kind == KL_PUSH_PLUS || kind == KL_PUSH_MINUS)) {
            return true;
        }
    }
    for (kl_index i = 0; i < run->state.joint_count; i++) {
        const kl_hold_kind kind = run->state.joints[i].kind;
        if (kind == KL_PUSH_PLUS || kind == KL_PUSH_MINUS) {
            return true;
        }
    }
    return false;
}

/* A state to go back to: the arrays that an increment moves. */
typedef struct saved_state {
    stage_state state;
    const row_state *rows;
    const hold_state *holds;
    const joint_state *joints;
    const tendon_state *tendons;
} saved_state;

static kl_status save_state(analysis_run *run, saved_state *saved)
{
    const kl_model *model = run->model;
    saved->state = run->state;
    saved->rows =
        arena_copy(run->a, run->state.rows, (size_t)run->mesh.row_count, sizeof(row_state));
    saved->holds =
        arena_copy(run->a, run->state.holds, (size_t)run->state.hold_count, sizeof(hold_state));
    saved->joints =
        arena_copy(run->a, run->state.joints, (size_t)run->state.joint_count, sizeof(joint_state));
    saved->tendons =
        arena_copy(run->a, run->state.tendons, (size_t)model->tendon_count, sizeof(tendon_state));
    return saved->rows && saved->holds && saved->joints && saved->tendons ? KL_OK : KL_NO_MEMORY;
}

static void restore_state(analysis_run *run, const saved_state *saved, bool contacts_moved)
{
    column_set set = saved->state.set;
    memcpy(run->state.rows, saved->rows, (size_t)run->mesh.row_count * sizeof(row_state));
    memcpy(run->state.holds, saved->holds, (size_t)run->state.hold_count * sizeof(hold_state));
    memcpy(run->state.joints, saved->joints, (size_t)run->state.joint_count * sizeof(joint_state));
    memcpy(run->state.tendons, saved->tendons,
           (size_t)run->model->tendon_count * sizeof(tendon_state));
    memset(run->state.case_factor, 0, (size_t)run->model->case_count * sizeof(double));
    run->state.set = set;
    if (contacts_moved && run->phase == STRUCTURE_FACTORED) {
        run->phase = STRUCTURE_FORMED;
    }
}

/* What the case changed: its columns less those that were there before. */
static kl_status
subtract_before(kl_results *results, state_record *record, const column_set *before)
{
    const size_t size = results->run.layout.size;
    kl_index kept = 0;
    for (kl_index i = 0; i < record->set.count; i++) {
        cause_column c = record->set.columns[i];
        for (kl_index k = 0; k < before->count; k++) {
            const cause_column *old = &before->columns[k];
            if (old->kind != c.kind || old->load_case != c.load_case || !old->data) {
                continue;
            }
            if (old->data == c.data) {
                c.data = NULL;
                break;
            }
            double *change = arena_copy(&results->a, c.data, size, sizeof(double));
            if (!change) {
                return KL_NO_MEMORY;
            }
            for (size_t n = 0; n < size; n++) {
                change[n] -= old->data[n];
            }
            c.data = change;
            break;
        }
        if (c.data) {
            record->set.columns[kept++] = c;
        }
    }
    record->set.count = kept;
    return KL_OK;
}

static kl_status run_case(kl_results *results, kl_index load_case, const saved_state *saved)
{
    analysis_run *run = &results->run;
    state_record *record = &results->cases[load_case];
    KL_TRY(operation_load_case(run, load_case, 1.0));
    KL_TRY(increment_solve(run, KL_CAUSE_CASE, load_case, KL_NONE));
    record->step = (kl_step){.stage = KL_NONE,
                             .operation = KL_NONE,
                             .item = KL_NONE,
                             .label = run->model->cases[load_case].name,
                             .time = run->state.time};
    KL_TRY(store_record(results, record));
    KL_TRY(subtract_before(results, record, &saved->state.set));
    restore_state(run, saved, has_contacts(run));
    KL_TRY(check_room(results, run->model->cases[load_case].origin,
                      run->model->cases[load_case].name));
    return audit_require(results, kl_state_case(load_case), run->model->cases[load_case].origin);
}

static kl_status run_cases(kl_results *results)
{
    analysis_run *run = &results->run;
    const kl_model *model = run->model;
    saved_state saved;
    KL_TRY(save_state(run, &saved));
    for (kl_index c = 0; c < model->case_count; c++) {
        if (!loaded_by_stage(model, c)) {
            run->step = KL_NONE;
            const kl_status status = run_case(results, c, &saved);
            tell_case(run, c, status);
            KL_TRY(status);
        }
    }
    return KL_OK;
}

/* ---- the whole ------------------------------------------------------------------------------------------- */

kl_status timeline_run(kl_results *results)
{
    analysis_run *run = &results->run;
    const kl_model *model = run->model;
    const size_t steps = (size_t)count_steps(model);
    results->steps = arena_array(&results->a, steps + 1, sizeof(state_record));
    results->first_step =
        arena_array(&results->a, (size_t)model->stage_count + 1, sizeof(kl_index));
    results->cases = arena_array(&results->a, (size_t)model->case_count, sizeof(state_record));
    KL_TRY(moments_list(&run->settings, model, &results->a, &results->moment_times,
                        &results->moment_total));
    results->moments =
        arena_array(&results->a, (size_t)results->moment_total, sizeof(state_record));
    if (!results->moments || !results->steps || !results->first_step || !results->cases) {
        return KL_NO_MEMORY;
    }
    if (model->stage_count == 0) {
        operation_stand_all(run);
        KL_TRY(store_record(results, &results->bare));
    } else {
        run->state.time = model->stages[0].time;
    }
    for (kl_index s = 0; s < model->stage_count; s++) {
        KL_TRY(run_stage(results, s));
    }
    results->first_step[model->stage_count] = results->step_count;
    return run_cases(results);
}
