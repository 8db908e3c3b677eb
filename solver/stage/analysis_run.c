/* analysis_run.c - the entry point: a model in, results out.
 * SPDX-License-Identifier: MIT */
#include "kernline/analysis.h"

#include "increment.h"
#include "mem.h"
#include "result_store.h"
#include "timeline.h"
#include "vary.h"

kl_settings kl_settings_default(void)
{
    return (kl_settings){.contact_start = KL_CONTACT_FROM_STATE,
                         .threads = 1,
                         .creep_factor = 1.0,
                         .shrinkage_factor = 1.0,
                         .friction_factor = 1.0,
                         .wobble_factor = 1.0,
                         .modulus_factor = 1.0,
                         .tendon_modulus_factor = 1.0};
}

static kl_status mark_supported(kl_results *results)
{
    const kl_model *model = results->run.model;
    results->supported = arena_array(&results->a, (size_t)model->node_count, sizeof(bool));
    for (kl_index i = 0; results->supported && i < model->support_count; i++) {
        results->supported[model->supports[i].node] = true;
    }
    return results->supported ? KL_OK : KL_NO_MEMORY;
}

/* Which members end at each model node, for column faces. */
static kl_status index_nodes(kl_results *results)
{
    const kl_model *model = results->run.model;
    results->first_at_node =
        arena_array(&results->a, (size_t)model->node_count + 1, sizeof(kl_index));
    results->member_at_node =
        arena_array(&results->a, 2 * (size_t)model->member_count, sizeof(kl_index));
    if (!results->first_at_node || !results->member_at_node) {
        return KL_NO_MEMORY;
    }
    kl_index *first = results->first_at_node;
    for (kl_index m = 0; m < model->member_count; m++) {
        first[model->members[m].from + 1]++;
        first[model->members[m].to + 1]++;
    }
    for (kl_index n = 0; n < model->node_count; n++) {
        first[n + 1] += first[n];
    }
    for (kl_index m = model->member_count - 1; m >= 0;
         m--) { /* filled backwards: first[n+1] ends up at its start */
        results->member_at_node[--first[model->members[m].from + 1]] = m;
        results->member_at_node[--first[model->members[m].to + 1]] = m;
    }
    for (kl_index n = 0; n < model->node_count; n++) {
        first[n] = first[n + 1];
    }
    first[model->node_count] = 2 * model->member_count;
    return KL_OK;
}

/* Does a stage ever make the member stand? */
static bool ever_stands(const kl_model *model, kl_index member)
{
    bool stands = model->stage_count == 0;
    for (kl_index s = 0; s < model->stage_count && !stands; s++) {
        for (kl_index o = 0; o < model->stages[s].operation_count && !stands; o++) {
            const kl_operation *op = &model->stages[s].operations[o];
            const bool builds = op->kind == KL_OP_CAST || op->kind == KL_OP_PLACE;
            for (kl_index i = 0; builds && i < op->items.count && !stands; i++) {
                stands = op->items.items[i] == member;
            }
        }
    }
    return stands;
}

/* Members begin to stand with all ducts in them empty. Is enough of their sections left? */
static kl_status validate_sections(analysis_run *run)
{
    for (kl_index m = 0; m < run->model->member_count; m++) {
        const mesh_member *of = &run->mesh.members[m];
        const bool stands = ever_stands(run->model, m);
        run->state.members[m].stands = stands;
        for (kl_index e = of->first; e < of->first + of->count; e++) {
            run->state.element_on[e] = stands;
        }
    }
    run->ageless = true;
    run->phase = STRUCTURE_CHANGED;
    return increment_form(run);
}

kl_status kl_validate(const kl_model *model, kl_diags *diags)
{
    arena memory = {0};
    analysis_run run;
    kl_status status = run_prepare(model, NULL, diags, &memory, &run);
    if (status == KL_OK) {
        status = validate_sections(&run);
    }
    run_release(&run);
    arena_free(&memory);
    return status;
}

kl_status
kl_analyze(const kl_model *model, const kl_settings *settings, kl_diags *diags, kl_results **out)
{
    *out = NULL;
    kl_results *results = mem_array(1, sizeof(kl_results));
    if (!results) {
        return KL_NO_MEMORY;
    }
    const kl_model *varied;
    kl_status status = vary_model(model, settings, &results->a, &varied);
    if (status == KL_OK) {
        status = run_prepare(varied, settings, diags, &results->a, &results->run);
    }
    if (status == KL_OK) {
        status = timeline_run(results);
    }
    if (status == KL_OK) {
        status = index_nodes(results);
    }
    if (status == KL_OK) {
        status = mark_supported(results);
    }
    run_release(&results->run);
    if (status != KL_OK) {
        kl_results_destroy(results);
        return status;
    }
    *out = results;
    return KL_OK;
}

void kl_results_destroy(kl_results *results)
{
    if (results) {
        arena_free(&results->a);
        mem_free(results);
    }
}
