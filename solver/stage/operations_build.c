/* operations_build.c - erecting, casting, placing and releasing.
 * SPDX-License-Identifier: MIT */
#include <math.h>
#include <string.h>

#include "carriers.h"
#include "forms.h"
#include "increment.h"
#include "near.h"
#include "operations.h"

static void stand(analysis_run *run, kl_index member, double age)
{
    const mesh_member *of = &run->mesh.members[member];
    run->state.members[member] = (member_state){true, run->state.time - age};
    run->phase = STRUCTURE_CHANGED;
    for (kl_index e = of->first; e < of->first + of->count; e++) {
        run->state.element_on[e] = true;
    }
}

void operation_stand_all(analysis_run *run)
{
    for (kl_index m = 0; m < run->model->member_count; m++) {
        stand(run, m, 0.0);
    }
    for (kl_index i = 0; i < run->state.hold_count; i++) {
        run->state.holds[i].active = true;
    }
    state_count_nodes(&run->mesh, &run->state);
}

/* kl_model_check refuses what stands already. */
static kl_status need_none_standing(const analysis_run *run, const kl_operation *op)
{
    for (kl_index i = 0; i < op->items.count; i++) {
        if (run->state.members[op->items.items[i]].stands) {
            return KL_MISUSE;
        }
    }
    return KL_OK;
}

/* Rows under members that stand bear from now on, without force. */
static void set_ready_rows(analysis_run *run)
{
    for (kl_index i = 0; i < run->mesh.row_count; i++) {
        row_state *row = &run->state.rows[i];
        const kl_index member = run->model->falsework[run->mesh.rows[i].falsework].member;
        if (row->phase == ROW_READY && run->state.members[member].stands) {
            *row = (row_state){ROW_SET, true, 0.0};
            run->phase = STRUCTURE_CHANGED;
        }
    }
}

kl_status operation_erect(analysis_run *run, const kl_operation *op)
{
    for (kl_index i = 0; i < op->items.count; i++) {
        const kl_index falsework = op->items.items[i];
        const kl_falsework *item = &run->model->falsework[falsework];
        /* kl_model_check sees to the carrier, and that nothing is erected twice */
        if (item->carrier != KL_NONE && !run->state.members[item->carrier].stands) {
            return KL_MISUSE;
        }
        for (kl_index r = run->mesh.first_row[falsework]; r < run->mesh.first_row[falsework + 1];
             r++) {
            if (run->state.rows[r].phase == ROW_READY || run->state.rows[r].phase == ROW_SET) {
                return KL_MISUSE;
            }
            run->state.rows[r] = (row_state){ROW_READY, false, 0.0};
        }
    }
    set_ready_rows(run);
    return KL_OK;
}

static bool has_ready_rows(const analysis_run *run, kl_index member)
{
    for (kl_index i = 0; i < run->mesh.row_count; i++) {
        if (run->state.rows[i].phase == ROW_READY &&
            run->model->falsework[run->mesh.rows[i].falsework].member == member) {
            return true;
        }
    }
    return false;
}

static kl_status weigh(analysis_run *run, const kl_index *members, kl_index count)
{
    pending_column *c = run_pending(run, KL_CAUSE_WEIGHT, KL_NONE);
    if (!c) {
        return KL_NO_MEMORY;
    }
    for (kl_index i = 0; i < count; i++) {
        KL_TRY(loads_add_weight(&run->mesh, members[i], 1.0, &c->loads));
    }
    return increment_solve(run, KL_CAUSE_WEIGHT, KL_NONE, KL_NONE);
}

/* ---- casting --------------------------------------------------------------------------------------------- */

/* Members of a cast that are poured on forms: one line of those joined end to end at a time, found by walking over
 * shared nodes. */
static kl_index gather_line(
    const analysis_run *run, const kl_index *wet, kl_index count, bool *taken, kl_index *line)
{
    kl_index size = 0;
    for (kl_index i = 0; i < count && size == 0; i++) {
        if (!taken[i]) {
            taken[i] = true;
            line[size++] = wet[i];
        }
    }
    for (bool grew = size > 0; grew;) {
        grew = false;
        for (kl_index i = 0; i < count; i++) {
            const kl_member *a = &run->model->members[wet[i]];
            for (kl_index k = 0; k < size && !taken[i]; k++) {
                const kl_member *b = &run->model->members[line[k]];
                if (a->from == b->from || a->from == b->to || a->to == b->from || a->to == b->to) {
                    taken[i] = true;
                    line[size++] = wet[i];
                    grew = true;
                }
            }
        }
    }
    return size;
}

static kl_status
pour_lines(analysis_run *run, const kl_operation *op, const kl_index *wet, kl_index count)
{
    bool *taken = arena_array(run->a, (size_t)count, sizeof(bool));
    kl_index *line = arena_array(run->a, (size_t)count, sizeof(kl_index));
    if (!taken || !line) {
        return KL_NO_MEMORY;
    }
    const form_pour *before = run->state.pour;
    while (count > 0) {
        const kl_index size = gather_line(run, wet, count, taken, line);
        if (size == 0) {
            break;
        }
        const kl_index *members = arena_copy(run->a, line, (size_t)size, sizeof(kl_index));
        if (!members) {
            return KL_NO_MEMORY;
        }
        KL_TRY(forms_pour(run, op, members, size));
    }
    /* wet: the carriers and what they stand on take the weight … */
    KL_TRY(increment_solve(run, KL_CAUSE_WEIGHT, KL_NONE, KL_NONE));
    carriers_yield(run, before);
    /* … set: the members join, free of stress, where they are */
    for (kl_index i = 0; i < count; i++) {
        stand(run, wet[i], 0.0);
    }
    state_count_nodes(&run->mesh, &run->state);
    forms_set(run, wet, count);
    return KL_OK;
}

static bool meets(const kl_model *model, kl_index member, kl_index node)
{
    const kl_member *m = &model->members[member];
    return m->from == node || m->to == node || model->nodes[node].member == member;
}

/* Does a support that holds its turning too, or another member that stands, hold an end of the member? */
static bool is_rooted(const analysis_run *run, kl_index member)
{
    const kl_model *model = run->model;
    const kl_index ends[2] = {model->members[member].from, model->members[member].to};
    for (int end = 0; end < 2; end++) {
        for (kl_index i = 0; i < run->state.hold_count; i++) {
            const hold_state *hold = &run->state.holds[i];
            if (hold->active && hold->direction == KL_TURN &&
                model->supports[hold->support].node == ends[end]) {
                return true;
            }
        }
        for (kl_index m = 0; m < model->member_count; m++) {
            if (m != member && run->state.members[m].stands && meets(model, m, ends[end])) {
                return true;
            }
        }
    }
    return false;
}

/* What was set first and falls: members that only the fresh concrete of others would hold. */
static void tell_hanging(const analysis_run *run,
                         const kl_operation *op,
                         const kl_index *set,
                         kl_index set_count,
                         const kl_index *wet,
                         kl_index wet_count)
{
    const kl_model *model = run->model;
    for (kl_index i = 0; i < set_count; i++) {
        const kl_member *hangs = &model->members[set[i]];
        for (kl_index k = 0; k < wet_count; k++) {
            if ((!meets(model, wet[k], hangs->from) && !meets(model, wet[k], hangs->to)) ||
                is_rooted(run, set[i])) {
                continue;
            }
            const char *other = model->members[wet[k]].name;
            kl_diags_add(run->diags, KL_NOTE, "hangs-from-fresh", op->origin,
                         "Member %s has no carrier of its own: nothing but %s would hold it up, "
                         "and %s, poured with it, is still fresh then. What has no falsework under "
                         "it is set first.",
                         hangs->name, other, other);
            kl_diags_hint(run->diags, "cast it when the other has set: `cast %s; cast %s`", other,
                          hangs->name);
            break;
        }
    }
}

kl_status operation_cast(analysis_run *run, const kl_operation *op)
{
    KL_TRY(need_none_standing(run, op));
    kl_index *set = arena_array(run->a, (size_t)op->items.count, sizeof(kl_index));
    kl_index *wet = arena_array(run->a, (size_t)op->items.count, sizeof(kl_index));
    if (!set || !wet) {
        return KL_NO_MEMORY;
    }
    kl_index set_count = 0;
    kl_index wet_count = 0;
    for (kl_index i = 0; i < op->items.count; i++) {
        const kl_index member = op->items.items[i];
        if (mesh_is_upright(&run->mesh, member) || !has_ready_rows(run, member)) {
            set[set_count++] = member;
        } else {
            wet[wet_count++] = member;
        }
    }
    for (kl_index i = 0; i < set_count; i++) {
        stand(run, set[i], 0.0);
    }
    state_count_nodes(&run->mesh, &run->state);
    const kl_status status = set_count > 0 ? weigh(run, set, set_count) : KL_OK;
    if (status == KL_MECHANISM) {
        tell_hanging(run, op, set, set_count, wet, wet_count);
    }
    KL_TRY(status);
    return wet_count > 0 ? pour_lines(run, op, wet, wet_count) : KL_OK;
}

kl_status operation_place(analysis_run *run, const kl_operation *op)
{
    KL_TRY(need_none_standing(run, op));
    for (kl_index i = 0; i < op->items.count; i++) {
        const double age = run->model->members[op->items.items[i]].age;
        stand(run, op->items.items[i], isnan(age) ? 28.0 * KL_DAY : age);
    }
    state_count_nodes(&run->mesh, &run->state);
    set_ready_rows(run);
    return weigh(run, op->items.items, op->items.count);
}

/* ---- releasing ------------------------------------------------------------------------------------------- */

/* What a row still carries goes as a force, cause by cause, and the row is gone. */
static kl_status drop_row(analysis_run *run, kl_index index)
{
    const mesh_row *row = &run->mesh.rows[index];
    row_state *state = &run->state.rows[index];
    const size_t at = run->layout.row + (size_t)index;
    for (kl_index i = 0; state->bears && i < run->state.set.count; i++) {
        const cause_column *c = &run->state.set.columns[i];
        pending_column *p = run_pending(run, c->kind, c->load_case);
        if (!p) {
            return KL_NO_MEMORY;
        }
        const double carried = c->data[at] + p->delta[at];
        p->loads.node[3 * row->top + 1] -= carried;
        if (row->foot != KL_NONE) {
            p->loads.node[3 * row->foot + 1] += carried;
        }
        p->delta[at] -= carried;
    }
    *state = (row_state){ROW_GONE, false, 0.0};
    run->phase = STRUCTURE_CHANGED;
    return KL_OK;
}

static bool in_range(const kl_operation *op, double station, double length)
{
    const double tolerance = NEAR_STATION * length;
    return (isnan(op->from) || station >= op->from - tolerance) &&
           (isnan(op->to) || station <= op->to + tolerance);
}

/* Rows of one falsework in the range: spans beside them struck (first pass), rows dropped (second). */
static kl_status release_rows(
    analysis_run *run, const kl_operation *op, kl_index falsework, bool drop, kl_index *released)
{
    const kl_falsework *item = &run->model->falsework[falsework];
    for (kl_index r = 0; r < item->row_count; r++) {
        const kl_index row = run->mesh.first_row[falsework] + r;
        if (!in_range(op, item->stations[r], run->mesh.members[item->member].length)) {
            continue;
        }
        if (run->state.rows[row].phase == ROW_SET) {
            KL_TRY(drop ? drop_row(run, row) : forms_strike_beside(run, row));
            (*released)++;
        } else if (run->state.rows[row].phase == ROW_READY && drop) {
            run->state.rows[row].phase = ROW_GONE;
            (*released)++;
        }
    }
    return KL_OK;
}

kl_status operation_release(analysis_run *run, const kl_operation *op)
{
    kl_index released = 0;
    for (int pass = 0; pass < 2;
         pass++) { /* all spans first: a share may pass through several rows */
        for (kl_index i = 0; i < op->items.count; i++) {
            KL_TRY(release_rows(run, op, op->items.items[i], pass == 1, &released));
        }
    }
    KL_TRY(forms_strike_rest(run));
    if (released == 0) { /* kl_model_check refuses it */
        return KL_MISUSE;
    }
    return increment_solve(run, KL_CAUSE_WEIGHT, KL_NONE, KL_NONE);
}
