/* operations.c - see operations.h: which function does which operation, and what a step is called.
 * SPDX-License-Identifier: MIT */
#include "operations.h"

#include <math.h>

#include "increment.h"

static bool is_tendon_list(kl_operation_kind kind)
{
    return kind == KL_OP_STRESS || kind == KL_OP_SLACKEN || kind == KL_OP_GROUT ||
           kind == KL_OP_LOSE;
}

kl_index operation_steps(const kl_operation *op)
{
    return is_tendon_list(op->kind) ? op->items.count : 1;
}

/* ---- labels ---------------------------------------------------------------------------------------------- */

typedef struct operation_words {
    const char *word;
    kl_kind kind; /* of the items */
} operation_words;

static operation_words words_of(kl_operation_kind kind)
{
    switch (kind) {
    case KL_OP_ERECT:
        return (operation_words){"erect", KL_KIND_FALSEWORK};
    case KL_OP_CAST:
        return (operation_words){"cast", KL_KIND_MEMBER};
    case KL_OP_PLACE:
        return (operation_words){"place", KL_KIND_MEMBER};
    case KL_OP_STRESS:
        return (operation_words){"stress", KL_KIND_TENDON};
    case KL_OP_SLACKEN:
        return (operation_words){"slacken", KL_KIND_TENDON};
    case KL_OP_GROUT:
        return (operation_words){"grout", KL_KIND_TENDON};
    case KL_OP_LOSE:
        return (operation_words){"lose", KL_KIND_TENDON};
    case KL_OP_RELEASE:
        return (operation_words){"release", KL_KIND_FALSEWORK};
    case KL_OP_LOAD:
        return (operation_words){"load", KL_KIND_CASE};
    case KL_OP_UNLOAD:
        return (operation_words){"unload", KL_KIND_CASE};
    case KL_OP_REMOVE:
        return (operation_words){"remove", KL_KIND_MEMBER};
    case KL_OP_SUPPORT:
        return (operation_words){"support", KL_KIND_NODE};
    case KL_OP_FREE:
        return (operation_words){"free", KL_KIND_NODE};
    case KL_OP_UNLOCK:
        return (operation_words){"unlock", KL_KIND_MEMBER};
    case KL_OP_LOCK:
        break;
    }
    return (operation_words){"lock", KL_KIND_MEMBER};
}

static const char *item_name(const kl_model *model, const kl_operation *op, kl_index i)
{
    const kl_index item = op->items.items[i];
    if (op->kind == KL_OP_SUPPORT) {
        return model->nodes[model->supports[item].node].name;
    }
    switch ((int)words_of(op->kind).kind) {
    case KL_KIND_FALSEWORK:
        return model->falsework[item].name;
    case KL_KIND_MEMBER:
        return model->members[item].name;
    case KL_KIND_TENDON:
        return model->tendons[item].name;
    case KL_KIND_CASE:
        return model->cases[item].name;
    default:
        return model->nodes[item].name;
    }
}

#define LABEL_NAMES 4 /* more names than this are told as "and 3 more" */

const char *operation_label(const kl_model *model, const kl_operation *op, kl_index item, arena *a)
{
    const char *label = words_of(op->kind).word;
    if (is_tendon_list(op->kind)) {
        const bool partial = op->kind == KL_OP_STRESS && fabs(op->factor - 1.0) > 1e-9;
        return partial ? arena_print(a, "%s %s to %.4g %%", label, item_name(model, op, item),
                                     100.0 * op->factor)
                       : arena_print(a, "%s %s", label, item_name(model, op, item));
    }
    for (kl_index i = 0; label && i < op->items.count && i < LABEL_NAMES; i++) {
        label = arena_print(a, "%s %s", label, item_name(model, op, i));
    }
    if (label && op->items.count > LABEL_NAMES) {
        label = arena_print(a, "%s and %d more", label, (int)(op->items.count - LABEL_NAMES));
    }
    if (label && op->kind == KL_OP_LOAD && fabs(op->factor - 1.0) > 1e-9) {
        label = arena_print(a, "%s times %.4g", label, op->factor);
    }
    if (label && op->kind == KL_OP_RELEASE && !isnan(op->from)) {
        label = arena_print(a, "%s (part)", label);
    }
    return label;
}

/* ---- carrying out ---------------------------------------------------------------------------------------- */

static kl_status load_cases(analysis_run *run, const kl_operation *op, double factor)
{
    for (kl_index i = 0; i < op->items.count; i++) {
        KL_TRY(operation_load_case(run, op->items.items[i], factor));
    }
    return KL_OK;
}

static kl_status unload_cases(analysis_run *run, const kl_operation *op)
{
    for (kl_index i = 0; i < op->items.count; i++) {
        const kl_index load_case = op->items.items[i];
        if (!(fabs(run->state.case_factor[load_case]) > 0.0)) {
            kl_diags_add(run->diags, KL_WARNING, "unload-nothing", op->origin,
                         "Case %s is unloaded, but it is not on.",
                         run->model->cases[load_case].name);
            continue;
        }
        KL_TRY(operation_unload_case(run, load_case));
    }
    return KL_OK;
}

static kl_status load_and_solve(analysis_run *run, const kl_operation *op)
{
    KL_TRY(op->kind == KL_OP_LOAD ? load_cases(run, op, op->factor) : unload_cases(run, op));
    return increment_solve(run, KL_CAUSE_CASE, op->items.items[0], KL_NONE);
}

kl_status operation_apply(analysis_run *run, const kl_operation *op, kl_index item)
{
    const kl_index one = op->items.count > 0 ? op->items.items[item] : KL_NONE;
    switch (op->kind) {
    case KL_OP_ERECT:
        return operation_erect(run, op);
    case KL_OP_CAST:
        return operation_cast(run, op);
    case KL_OP_PLACE:
        return operation_place(run, op);
    case KL_OP_STRESS:
        return operation_stress(run, op, one);
    case KL_OP_SLACKEN:
        return operation_slacken(run, one);
    case KL_OP_GROUT:
        return operation_grout(run, one);
    case KL_OP_LOSE:
        return operation_lose(run, one, op);
    case KL_OP_RELEASE:
        return operation_release(run, op);
    case KL_OP_LOAD:
    case KL_OP_UNLOAD:
        return load_and_solve(run, op);
    case KL_OP_REMOVE:
        return operation_remove(run, op);
    case KL_OP_SUPPORT:
        return operation_support(run, op);
    case KL_OP_FREE:
        return operation_free(run, op);
    case KL_OP_UNLOCK:
        return operation_unlock(run, op);
    case KL_OP_LOCK:
        return operation_lock(run, op);
    }
    return KL_MISUSE;
}
