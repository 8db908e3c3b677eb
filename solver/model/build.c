/* build.c - see build.h.
 * SPDX-License-Identifier: MIT */
#include "build.h"

#include <math.h>
#include <stdarg.h>
#include <stdio.h>
#include <string.h>

#include "mem.h"
#include "near.h"
#include "str.h"

/* Far above any real job, far below what exhausts a machine. */
typedef struct build_bound {
    const char *plural;
    kl_index most;
} build_bound;

static const build_bound bounds[ENTITY_LIST_COUNT] = {
    [KL_KIND_MATERIAL] = {"materials", 10000},
    [KL_KIND_SECTION] = {"sections", 100000},
    [KL_KIND_NODE] = {"nodes", 1000000},
    [KL_KIND_MEMBER] = {"members", 1000000},
    [KL_KIND_TENDON] = {"tendons", 10000},
    [KL_KIND_FALSEWORK] = {"falseworks", 10000},
    [KL_KIND_CASE] = {"load cases", 10000},
    [KL_KIND_STAGE] = {"stages", 10000},
    [KL_KIND_COMBINATION] = {"combinations", 10000},
    [KL_KIND_CHECK] = {"checks", 10000},
    [ENTITY_SUPPORT] = {"supports", 1000000},
    [ENTITY_BEARING] = {"bearings", 1000000},
    [ENTITY_EXPECTATION] = {"expectations", 1000000},
    [ENTITY_GRADE] = {"grades", 10000},
};

static bool has_names(int list)
{
    return list < KL_KIND_COUNT;
}

static const char *list_word(int list)
{
    if (has_names(list)) {
        return kl_kind_name((kl_kind)list);
    }
    static const char *const words[ENTITY_LIST_COUNT - KL_KIND_COUNT] = {"support", "bearing",
                                                                         "expectation", "grade"};
    return words[list - KL_KIND_COUNT];
}

/* ---- messages ----------------------------------------------------------------------------------------- */

void build_error(build_item *item, const char *diag_name, kl_origin origin, const char *format, ...)
{
    char text[512];
    va_list arguments;
    va_start(arguments, format);
    (void)vsnprintf(text, sizeof text, format, arguments);
    va_end(arguments);
    /* A message that begins with "member cap" begins a sentence. */
    if (strncmp(text, item->word, strlen(item->word)) == 0 && text[0] >= 'a' && text[0] <= 'z') {
        text[0] = (char)(text[0] - 'a' + 'A');
    }
    item->bad = true;
    kl_diags_add(item->model->store->diags, KL_ERROR, diag_name, origin, "%s", text);
}

void build_hint(const build_item *item, const char *format, ...)
{
    char text[512];
    va_list arguments;
    va_start(arguments, format);
    (void)vsnprintf(text, sizeof text, format, arguments);
    va_end(arguments);
    kl_diags_hint(item->model->store->diags, "%s", text);
}

const char *build_subject(const build_item *item)
{
    const bool named = item->name[0] != '\0';
    const char *text = arena_print(&item->model->store->memory, "%s %s",
                                   named ? item->word : "this", named ? item->name : item->word);
    return text != NULL ? text : "";
}

enum { BUILD_FIGURE = 32 };

build_number build_show(const kl_model *model, kl_measure measure, double value)
{
    const double shown = value / kl_show_factor(&model->display, measure);
    build_number number;
    char figure[BUILD_FIGURE];
    str_number(figure, sizeof figure, shown, measure == KL_MEASURE_STATION ? 6 : 4);
    (void)snprintf(number.text, sizeof number.text, "%s %s", figure,
                   kl_show_unit(&model->display, measure));
    return number;
}

/* ---- start -------------------------------------------------------------------------------------------- */

static kl_origin named_origin(const kl_model *model, kl_kind kind, kl_index index)
{
    switch (kind) {
    case KL_KIND_MATERIAL:
        return model->materials[index].origin;
    case KL_KIND_SECTION:
        return model->sections[index].origin;
    case KL_KIND_NODE:
        return model->nodes[index].origin;
    case KL_KIND_MEMBER:
        return model->members[index].origin;
    case KL_KIND_TENDON:
        return model->tendons[index].origin;
    case KL_KIND_FALSEWORK:
        return model->falsework[index].origin;
    case KL_KIND_CASE:
        return model->cases[index].origin;
    case KL_KIND_STAGE:
        return model->stages[index].origin;
    case KL_KIND_COMBINATION:
        return model->combinations[index].origin;
    case KL_KIND_CHECK:
        return model->checks[index].origin;
    case KL_KIND_COUNT:
        break;
    }
    return KL_NOWHERE;
}

build_item build_start(kl_model *model, int list, const char *name, kl_origin origin)
{
    build_item item = {model, list, list_word(list), name == NULL ? "" : name, origin, false};
    if (!has_names(list)) {
        return item;
    }
    if (item.name[0] == '\0') {
        build_error(&item, "no-name", origin, "A %s has no name.", item.word);
        return item;
    }
    const kl_index taken = kl_model_find(model, (kl_kind)list, name);
    if (taken != KL_NONE) {
        build_error(&item, "name-taken", origin, "There is already a %s.", build_subject(&item));
        build_hint(&item, "give each %s a name of its own", item.word);
        kl_diags_add(model->store->diags, KL_NOTE, "name-taken-here",
                     named_origin(model, (kl_kind)list, taken), "The first %s %s is here.",
                     item.word, item.name);
    }
    return item;
}

/* ---- numbers ------------------------------------------------------------------------------------------ */

void build_positive(build_item *item, const char *what, double value)
{
    if (!isnan(value) && !(value > 0.0 && isfinite(value))) {
        build_error(item, "not-positive", item->origin, "The %s of %s must be greater than zero.",
                    what, build_subject(item));
    }
}

void build_need_positive(build_item *item, const char *what, double value)
{
    if (isnan(value)) {
        build_error(item, "not-given", item->origin, "The %s of %s is not given.", what,
                    build_subject(item));
        return;
    }
    build_positive(item, what, value);
}

void build_not_negative(build_item *item, const char *what, double value)
{
    if (!isnan(value) && !(value >= 0.0 && isfinite(value))) {
        build_error(item, "negative", item->origin, "The %s of %s must not be negative.", what,
                    build_subject(item));
    }
}

void build_need_finite(build_item *item, const char *what, double value)
{
    if (!isfinite(value)) {
        build_error(item, "not-finite", item->origin, "The %s of %s must be a finite number.", what,
                    build_subject(item));
    }
}

void build_between(build_item *item, const char *what, double value, double low, double high)
{
    if (!isnan(value) && !(value >= low && value <= high)) {
        build_error(item, "out-of-range", item->origin, "The %s of %s must lie between %g and %g.",
                    what, build_subject(item), low, high);
    }
}

bool build_reference(
    build_item *item, const char *what, kl_index index, kl_index count, bool optional)
{
    if (index >= 0 && index < count) {
        return true;
    }
    if (!(optional && index == KL_NONE)) {
        build_error(item, "bad-reference", item->origin,
                    "The %s of %s does not exist in the model.", what, build_subject(item));
    }
    return false;
}

void build_station(
    build_item *item, kl_origin origin, double length, const char *line, double *station)
{
    if (isnan(*station)) {
        return;
    }
    const double slack = NEAR_STATION * length;
    if (!(*station >= -slack && *station <= length + slack)) {
        const build_number at = build_show(item->model, KL_MEASURE_STATION, *station);
        const build_number all = build_show(item->model, KL_MEASURE_STATION, length);
        build_error(item, "outside-member", origin,
                    "The station %s lies outside %s, which is %s long.", at.text, line, all.text);
        return;
    }
    *station = fmin(fmax(*station, 0.0), length);
}

void build_limit(build_item *item, const char *what, kl_index count, kl_index limit)
{
    if (count < 0 || count > limit) {
        build_error(item, "too-many", item->origin,
                    "%s has more than %d %s, which is the most that one may have.",
                    build_subject(item), (int)limit, what);
    }
}

/* ---- into the model ----------------------------------------------------------------------------------- */

kl_status
build_copy(kl_model *model, const void *items, kl_index count, size_t size, const void **copy)
{
    *copy = NULL;
    if (count <= 0) {
        return KL_OK;
    }
    *copy = arena_copy(&model->store->memory, items, (size_t)count, size);
    return *copy != NULL ? KL_OK : KL_NO_MEMORY;
}

kl_status build_copy_text(kl_model *model, const char *text, const char **copy)
{
    if (text == NULL) {
        *copy = "";
        return KL_OK;
    }
    *copy = arena_text(&model->store->memory, text, strlen(text));
    return *copy != NULL ? KL_OK : KL_NO_MEMORY;
}

kl_status build_copy_name(build_item *item, const char **copy)
{
    KL_TRY(build_copy_text(item->model, item->name, copy));
    item->name = *copy;
    return KL_OK;
}

/* A block that grew has moved: the model's own pointers follow. */
static void follow_blocks(kl_model *model)
{
    const entity_block *blocks = model->store->blocks;
    model->materials = blocks[KL_KIND_MATERIAL].items;
    model->sections = blocks[KL_KIND_SECTION].items;
    model->nodes = blocks[KL_KIND_NODE].items;
    model->members = blocks[KL_KIND_MEMBER].items;
    model->tendons = blocks[KL_KIND_TENDON].items;
    model->falsework = blocks[KL_KIND_FALSEWORK].items;
    model->cases = blocks[KL_KIND_CASE].items;
    model->stages = blocks[KL_KIND_STAGE].items;
    model->combinations = blocks[KL_KIND_COMBINATION].items;
    model->checks = blocks[KL_KIND_CHECK].items;
    model->supports = blocks[ENTITY_SUPPORT].items;
    model->bearings = blocks[ENTITY_BEARING].items;
    model->expectations = blocks[ENTITY_EXPECTATION].items;
    model->grades = blocks[ENTITY_GRADE].items;
}

kl_status
build_append(build_item *item, const void *entity, size_t size, kl_index *count, kl_index *added)
{
    if (item->bad) {
        return KL_BAD_MODEL;
    }
    kl_model_store *store = item->model->store;
    const build_bound *bound = &bounds[item->list];
    entity_block *block = &store->blocks[item->list];
    const size_t at = (size_t)*count;
    const kl_status grown =
        mem_grow(&block->items, &block->capacity, at + 1, size, (size_t)bound->most);
    if (grown == KL_TOO_LARGE) {
        build_error(item, "too-many", item->origin, "A model may have at most %d %s.",
                    (int)bound->most, bound->plural);
    }
    KL_TRY(grown);
    follow_blocks(item->model);
    if (has_names(item->list)) {
        KL_TRY(name_table_add(&store->names[item->list], item->name, strlen(item->name), *count));
    }
    memcpy((char *)block->items + at * size, entity, size);
    if (added != NULL) {
        *added = *count;
    }
    (*count)++;
    return KL_OK;
}
