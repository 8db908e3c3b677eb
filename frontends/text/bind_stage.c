/* bind_stage.c - stages: their days and their operations.
 * SPDX-License-Identifier: MIT */
#include <math.h>
#include <string.h>

#include "bind_context.h"

/* ---- days -------------------------------------------------------------------------------------------------- */

/* A stage without a day happens at the day of the one before; `wait` counts from there. */
static void take_time(binder *b, const phrase *p, kl_stage *stage)
{
    stage->time = b->stage_time;
    stage->has_time = b->stage_has_time;
    const text_value *wait = phrase_value(p, "wait");
    if (phrase_has(p, "at")) {
        stage->time = phrase_number(p, "at", 0.0);
        stage->has_time = true;
    } else if (wait != NULL) {
        if (!b->stage_has_time) {
            bind_error(b, "wait-since-when", wait->origin,
                       "`wait` counts from the stage before, and no stage before has a day.");
            bind_hint(b, "write `at` and a day in this stage or in an earlier one");
        }
        if (wait->quantities[0].value < 0.0) {
            bind_error(b, "wait-backwards", wait->origin, "`wait` must not be negative.");
        }
        stage->time += wait->quantities[0].value;
    }
    b->stage_time = stage->time;
    b->stage_has_time = stage->has_time;
}

/* ---- operations -------------------------------------------------------------------------------------------- */

typedef struct operation_word {
    const char *word;
    kl_operation_kind kind;
    int of; /* kind of the names */
} operation_word;

static const operation_word operation_words[] = {
    {"erect", KL_OP_ERECT, KL_KIND_FALSEWORK},  {"cast", KL_OP_CAST, KL_KIND_MEMBER},
    {"place", KL_OP_PLACE, KL_KIND_MEMBER},     {"stress", KL_OP_STRESS, KL_KIND_TENDON},
    {"slacken", KL_OP_SLACKEN, KL_KIND_TENDON}, {"grout", KL_OP_GROUT, KL_KIND_TENDON},
    {"lose", KL_OP_LOSE, KL_KIND_TENDON},       {"release", KL_OP_RELEASE, KL_KIND_FALSEWORK},
    {"load", KL_OP_LOAD, KL_KIND_CASE},         {"unload", KL_OP_UNLOAD, KL_KIND_CASE},
    {"remove", KL_OP_REMOVE, KL_KIND_MEMBER},   {"support", KL_OP_SUPPORT, KL_KIND_NODE},
    {"free", KL_OP_FREE, KL_KIND_NODE},         {"unlock", KL_OP_UNLOCK, KL_KIND_MEMBER},
    {"lock", KL_OP_LOCK, KL_KIND_MEMBER},
};

static const operation_word *operation_of(const phrase *p)
{
    for (size_t i = 0; i < sizeof operation_words / sizeof operation_words[0]; i++) {
        if (strcmp(p->word, operation_words[i].word) == 0) {
            return &operation_words[i];
        }
    }
    return NULL;
}

static void take_range(binder *b, const phrase *p, kl_operation *operation)
{
    const kl_falsework *falsework = &b->model->falsework[operation->items.items[0]];
    const bind_line line = bind_line_of_member(b, &falsework->member);
    operation->from = bind_mark_station(b, &line, p, "from", NAN);
    operation->to = bind_mark_station(b, &line, p, "to", NAN);
}

/* The support itself was bound before the stages, in the same order. */
static kl_status take_support(binder *b, kl_operation *operation)
{
    kl_index *support = arena_array(&b->scratch, 1, sizeof *support);
    if (support == NULL) {
        return KL_NO_MEMORY;
    }
    *support = b->late_supports[b->late_count++];
    b->bad = b->bad || *support == KL_NONE;
    operation->items = (kl_list){support, 1};
    return KL_OK;
}

/* Without a direction all that is held is freed; all three where nothing is, so that kl_model_check tells. */
static void take_directions(const binder *b, const phrase *p, kl_operation *operation)
{
    static const char *const marks[3] = {"x", "y", "turn"};
    const bool *held = &b->held[3 * (size_t)operation->items.items[0]];
    const bool named = phrase_has(p, "x") || phrase_has(p, "y") || phrase_has(p, "turn");
    const bool none = !held[0] && !held[1] && !held[2];
    for (int d = 0; d < 3; d++) {
        operation->directions[d] = named ? phrase_has(p, marks[d]) : none || held[d];
    }
}

static void take_joint(binder *b, const phrase *p, kl_operation *operation)
{
    const bind_line line = bind_line_of_member(b, &operation->items.items[0]);
    operation->station = phrase_has(p, "start") ? 0.0
                         : phrase_has(p, "end") ? line.length
                                                : bind_mark_station(b, &line, p, "at", NAN);
}

static void take_details(binder *b, const phrase *p, kl_operation *operation)
{
    switch (operation->kind) {
    case KL_OP_STRESS:
        operation->factor = phrase_number(p, "to", 1.0);
        break;
    case KL_OP_LOAD:
        operation->factor = phrase_number(p, "times", 1.0);
        break;
    case KL_OP_LOSE:
        operation->value = bind_own_number(p, 1);
        break;
    case KL_OP_RELEASE:
        take_range(b, p, operation);
        break;
    case KL_OP_FREE:
        take_directions(b, p, operation);
        break;
    case KL_OP_UNLOCK:
    case KL_OP_LOCK:
        take_joint(b, p, operation);
        break;
    case KL_OP_ERECT:
    case KL_OP_CAST:
    case KL_OP_PLACE:
    case KL_OP_SLACKEN:
    case KL_OP_GROUT:
    case KL_OP_UNLOAD:
    case KL_OP_REMOVE:
    case KL_OP_SUPPORT:
        break;
    }
}

static kl_status
bind_operation(binder *b, const phrase *p, const operation_word *word, kl_operation *operation)
{
    *operation = (kl_operation){
        .kind = word->kind,
        .origin = p->origin,
        .factor = 1.0,
        .value = NAN,
        .from = NAN,
        .to = NAN,
        .station = NAN,
    };
    if (word->kind == KL_OP_SUPPORT) {
        return take_support(b, operation);
    }
    KL_TRY(bind_list(b, word->of, grammar_find(IN_STAGE, p->word, strlen(p->word)),
                     phrase_own(p, 0), &operation->items));
    if (!b->bad && operation->items.count > 0) {
        take_details(b, p, operation);
    }
    return KL_OK;
}

/* ---- the stage --------------------------------------------------------------------------------------------- */

static kl_status take_operations(binder *b, const phrase *p, kl_stage *stage)
{
    static const char *const not_operations[] = {"at", "wait", NULL};
    const phrase *parts = NULL;
    kl_index count = 0;
    KL_TRY(bind_parts(b, p, not_operations, &parts, &count));
    kl_operation *operations = arena_array(&b->scratch, (size_t)count, sizeof *operations);
    if (operations == NULL) {
        return KL_NO_MEMORY;
    }
    bool bad = b->bad;
    for (kl_index i = 0; i < count; i++) {
        const operation_word *word = operation_of(&parts[i]);
        if (word == NULL) {
            continue;
        }
        b->bad = false;
        KL_TRY(bind_operation(b, &parts[i], word, &operations[stage->operation_count++]));
        bad = bad || b->bad;
    }
    b->bad = bad;
    stage->operations = operations;
    return KL_OK;
}

/* A stage whose name was taken is no stage, but its supports were counted. */
static kl_status pass_supports(binder *b, const phrase *p)
{
    const phrase *support = NULL;
    while ((support = phrase_child(p, "support", support)) != NULL) {
        b->late_count++;
    }
    return KL_OK;
}

static kl_status bind_stage(binder *b, const phrase *p, bind_symbol *symbol)
{
    if (symbol == NULL) {
        return pass_supports(b, p);
    }
    b->bad = false;
    kl_stage stage = {.name = symbol->name.text, .title = "", .origin = p->origin};
    const text_value *title = phrase_own(p, 1);
    if (title != NULL && title->kind == VALUE_STRING) {
        stage.title = title->string;
    }
    take_time(b, p, &stage);
    KL_TRY(take_operations(b, p, &stage));
    kl_index added = KL_NONE;
    const kl_status status = b->bad ? KL_BAD_MODEL : kl_model_add_stage(b->model, &stage, &added);
    return bind_settle(b, symbol, added, status);
}

kl_status bind_stages(binder *b)
{
    for (kl_index i = 0; i < b->document->phrase_count; i++) {
        const phrase *p = &b->document->phrases[i];
        if (strcmp(p->word, "stage") != 0) {
            continue;
        }
        KL_TRY(bind_stage(b, p, b->declared[i].symbol));
    }
    return KL_OK;
}
