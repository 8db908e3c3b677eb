/* build_stage.c - kl_model_add_stage: what is done in a stage, and to what.
 * SPDX-License-Identifier: MIT */
#include <math.h>
#include <stdlib.h>
#include <string.h>

#include "build.h"
#include "mem.h"
#include "near.h"

#define STAGE_MOST_OPERATIONS 10000
#define OPERATION_MOST_ITEMS  1000000
/* 300 years: later than any structure is looked at, and as far as the chain of kelvin.h follows creep. */
#define STAGE_LATEST (300.0 * 365.25 * KL_DAY)

/* What an operation is done to. */
typedef struct operation_object {
    const char *word;
    kl_index count; /* how many of them the model has */
    bool single;    /* exactly one */
} operation_object;

static operation_object object_of(const kl_model *model, kl_operation_kind kind)
{
    switch (kind) {
    case KL_OP_ERECT:
        return (operation_object){"falsework", model->falsework_count, false};
    case KL_OP_RELEASE:
        return (operation_object){"falsework", model->falsework_count, true};
    case KL_OP_CAST:
    case KL_OP_PLACE:
    case KL_OP_REMOVE:
        return (operation_object){"member", model->member_count, false};
    case KL_OP_UNLOCK:
    case KL_OP_LOCK:
        return (operation_object){"member", model->member_count, true};
    case KL_OP_STRESS:
    case KL_OP_SLACKEN:
    case KL_OP_GROUT:
    case KL_OP_LOSE:
        return (operation_object){"tendon", model->tendon_count, false};
    case KL_OP_LOAD:
    case KL_OP_UNLOAD:
        return (operation_object){"load case", model->case_count, false};
    case KL_OP_SUPPORT:
        return (operation_object){"support", model->support_count, true};
    case KL_OP_FREE:
        return (operation_object){"node", model->node_count, true};
    }
    return (operation_object){"thing", 0, false};
}

static int compare_index(const void *a, const void *b)
{
    const kl_index left = *(const kl_index *)a;
    const kl_index right = *(const kl_index *)b;
    return (left > right) - (left < right);
}

/* A name twice in one list would be done twice. */
static kl_status check_twice(build_item *item, const kl_operation *operation, const char *word)
{
    const kl_list list = operation->items;
    kl_index *sorted = mem_array((size_t)list.count, sizeof *sorted);
    if (sorted == NULL) {
        return KL_NO_MEMORY;
    }
    memcpy(sorted, list.items, (size_t)list.count * sizeof *sorted);
    qsort(sorted, (size_t)list.count, sizeof *sorted, compare_index);
    bool twice = false;
    for (kl_index i = 1; i < list.count; i++) {
        twice = twice || sorted[i] == sorted[i - 1];
    }
    mem_free(sorted);
    if (twice) {
        build_error(item, "named-twice", operation->origin,
                    "In %s: the same %s is named twice in one operation.", build_subject(item),
                    word);
    }
    return KL_OK;
}

static kl_status check_items(build_item *item, const kl_operation *operation)
{
    const operation_object object = object_of(item->model, operation->kind);
    const kl_index count = operation->items.count;
    if (count < 1 || (object.single && count != 1)) {
        build_error(item, "operation-items", operation->origin, "In %s: the operation needs %s %s.",
                    build_subject(item), object.single ? "exactly one" : "at least one",
                    object.word);
        return KL_OK;
    }
    build_limit(item, "things in one operation", count, OPERATION_MOST_ITEMS);
    for (kl_index i = 0; !item->bad && i < count; i++) {
        (void)build_reference(item, object.word, operation->items.items[i], object.count, false);
    }
    return item->bad ? KL_OK : check_twice(item, operation, object.word);
}

static void check_release(build_item *item, kl_operation *operation)
{
    const kl_model *model = item->model;
    const kl_falsework *falsework = &model->falsework[operation->items.items[0]];
    const double length = kl_member_length(model, falsework->member);
    const char *line = model->members[falsework->member].name;
    build_station(item, operation->origin, length, line, &operation->from);
    build_station(item, operation->origin, length, line, &operation->to);
    if (operation->from > operation->to) {
        build_error(item, "release-range", operation->origin,
                    "In %s: release runs from a station to a later one.", build_subject(item));
        return;
    }
    const double spare = NEAR_STATION * length;
    const double from = isnan(operation->from) ? 0.0 : operation->from;
    const double to = isnan(operation->to) ? length : operation->to;
    for (kl_index i = 0; i < falsework->row_count; i++) {
        if (falsework->stations[i] >= from - spare && falsework->stations[i] <= to + spare) {
            return;
        }
    }
    build_error(item, "release-nothing", operation->origin,
                "In %s: no row of %s stands in that range.", build_subject(item), falsework->name);
}

/* A hinge that can be opened or closed: an end of the member, or any station between its rigid parts. */
static void check_joint(build_item *item, kl_operation *operation)
{
    const kl_model *model = item->model;
    const kl_member *member = &model->members[operation->items.items[0]];
    const double length = kl_member_length(model, operation->items.items[0]);
    build_need_finite(item, "joint's station", operation->station);
    build_station(item, operation->origin, length, member->name, &operation->station);
    if (member->axial_only) {
        build_error(item, "axial-hinge", operation->origin,
                    "Member %s is axial_only: it has no joint that could be locked or unlocked.",
                    member->name);
    }
}

static void check_free(build_item *item, const kl_operation *operation)
{
    if (!operation->directions[0] && !operation->directions[1] && !operation->directions[2]) {
        build_error(item, "free-nothing", operation->origin, "In %s: `free` names no direction.",
                    build_subject(item));
    }
}

/* `stress T to 50` is five thousand per cent. */
static void check_pull(build_item *item, const kl_operation *operation)
{
    const kl_model *model = item->model;
    for (kl_index i = 0; i < operation->items.count; i++) {
        const kl_tendon *tendon = &model->tendons[operation->items.items[i]];
        const double most =
            model->materials[tendon->material].ultimate * tendon->units * tendon->unit_area;
        if (operation->factor * tendon->jack_force > most) {
            const build_number strength = build_show(model, KL_MEASURE_FORCE, most);
            build_error(item, "jack-above-ultimate", operation->origin,
                        "In %s: stressing %s to %.4g %% of its jacking force would break it: its "
                        "ultimate is %s.",
                        build_subject(item), tendon->name, 100.0 * operation->factor,
                        strength.text);
            build_hint(item, "half the jacking force is `to 50 %%`");
            return;
        }
    }
}

static kl_status check_operation(build_item *item, kl_operation *operation)
{
    KL_TRY(check_items(item, operation));
    if (item->bad) {
        return KL_OK;
    }
    switch (operation->kind) {
    case KL_OP_STRESS:
        build_need_positive(item, "share to stress to", operation->factor);
        check_pull(item, operation);
        break;
    case KL_OP_LOSE:
        build_need_positive(item, "loss", operation->value);
        break;
    case KL_OP_RELEASE:
        check_release(item, operation);
        break;
    case KL_OP_LOAD:
        build_need_finite(item, "factor", operation->factor);
        break;
    case KL_OP_FREE:
        check_free(item, operation);
        break;
    case KL_OP_UNLOCK:
    case KL_OP_LOCK:
        check_joint(item, operation);
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
    return KL_OK;
}

static void check_time(build_item *item, const kl_stage *stage)
{
    const kl_model *model = item->model;
    if (!stage->has_time) {
        return;
    }
    build_need_finite(item, "day", stage->time);
    if (stage->time > STAGE_LATEST) {
        build_error(item, "stage-too-late", stage->origin, "%s is more than 300 years after day 0.",
                    build_subject(item));
    }
    if (model->stage_count == 0) {
        return;
    }
    const kl_stage *before = &model->stages[model->stage_count - 1];
    if (before->has_time && stage->time < before->time) {
        const build_number here = build_show(model, KL_MEASURE_TIME, stage->time);
        const build_number there = build_show(model, KL_MEASURE_TIME, before->time);
        build_error(item, "stage-order", stage->origin, "%s is at %s, before %s at %s.",
                    build_subject(item), here.text, before->name, there.text);
        build_hint(item, "write the stages in the order of their days");
    }
}

static kl_status copy_items(kl_model *model, kl_operation *operations, kl_index count)
{
    for (kl_index i = 0; i < count; i++) {
        kl_list *list = &operations[i].items;
        const void *items = NULL;
        KL_TRY(build_copy(model, list->items, list->count, sizeof *list->items, &items));
        list->items = items;
    }
    return KL_OK;
}

kl_status kl_model_add_stage(kl_model *model, const kl_stage *stage, kl_index *added)
{
    build_item item = build_start(model, KL_KIND_STAGE, stage->name, stage->origin);
    check_time(&item, stage);
    build_limit(&item, "operations", stage->operation_count, STAGE_MOST_OPERATIONS);
    if (item.bad) {
        return KL_BAD_MODEL;
    }
    kl_stage copy = *stage;
    kl_operation *operations = arena_copy(&model->store->memory, stage->operations,
                                          (size_t)stage->operation_count, sizeof *operations);
    if (operations == NULL) {
        return KL_NO_MEMORY;
    }
    bool bad = false;
    for (kl_index i = 0; i < copy.operation_count; i++) {
        KL_TRY(check_operation(&item, &operations[i]));
        bad = bad || item.bad;
        item.bad = false;
    }
    item.bad = bad;
    if (item.bad) {
        return KL_BAD_MODEL;
    }
    copy.operations = operations;
    KL_TRY(copy_items(model, operations, copy.operation_count));
    KL_TRY(build_copy_text(model, stage->title, &copy.title));
    KL_TRY(build_copy_name(&item, &copy.name));
    return build_append(&item, &copy, sizeof copy, &model->stage_count, added);
}
