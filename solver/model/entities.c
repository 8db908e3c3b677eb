/* entities.c - see entities.h and kernline/model.h: a model's life, its names and its simple geometry.
 * SPDX-License-Identifier: MIT */
#include "entities.h"

#include <math.h>
#include <string.h>

#include "mem.h"

/* ---- life --------------------------------------------------------------------------------------------- */

kl_model *kl_model_create(kl_diags *diags)
{
    kl_model *model = mem_array(1, sizeof *model);
    kl_model_store *store = mem_array(1, sizeof *store);
    if (model == NULL || store == NULL) {
        mem_free(model);
        mem_free(store);
        return NULL;
    }
    store->diags = diags;
    store->low = (kl_point){INFINITY, INFINITY};
    store->high = (kl_point){-INFINITY, -INFINITY};
    model->store = store;
    model->title = "";
    model->humidity = NAN;
    return model;
}

void kl_model_destroy(kl_model *model)
{
    if (model == NULL) {
        return;
    }
    kl_model_store *store = model->store;
    for (int i = 0; i < ENTITY_LIST_COUNT; i++) {
        mem_free(store->blocks[i].items);
    }
    for (int i = 0; i < KL_KIND_COUNT; i++) {
        name_table_free(&store->names[i]);
    }
    arena_free(&store->memory);
    mem_free(store);
    mem_free(model);
}

/* ---- what holds for the whole model ------------------------------------------------------------------- */

void kl_model_set_title(kl_model *model, const char *title)
{
    if (title == NULL) {
        model->title = "";
        return;
    }
    const char *copy = arena_text(&model->store->memory, title, strlen(title));
    if (copy != NULL) {
        model->title = copy;
    }
}

void kl_model_set_display(kl_model *model, const kl_display *display)
{
    kl_display copy = *display;
    for (int i = 0; i < KL_MEASURE_COUNT; i++) {
        const char *unit = display->unit_of[i];
        if (unit != NULL) {
            copy.unit_of[i] = arena_text(&model->store->memory, unit, strlen(unit));
        }
    }
    model->display = copy;
}

void kl_model_set_skew(kl_model *model, double skew)
{
    model->skew = skew;
    model->has_skew = true;
}

void kl_model_set_humidity(kl_model *model, double ratio)
{
    model->humidity = ratio;
}

void kl_model_set_sections_gross(kl_model *model, bool gross)
{
    model->sections_gross = gross;
}

/* ---- questions ---------------------------------------------------------------------------------------- */

kl_index kl_model_find(const kl_model *model, kl_kind kind, const char *name)
{
    if (name == NULL || (int)kind < 0 || kind >= KL_KIND_COUNT) {
        return KL_NONE;
    }
    return name_table_find(&model->store->names[kind], name, strlen(name));
}

double kl_member_length(const kl_model *model, kl_index member)
{
    const kl_member *m = &model->members[member];
    const kl_node *from = &model->nodes[m->from];
    const kl_node *to = &model->nodes[m->to];
    return hypot(to->x - from->x, to->y - from->y);
}

kl_point kl_member_point(const kl_model *model, kl_index member, double station)
{
    const kl_member *m = &model->members[member];
    const kl_node *from = &model->nodes[m->from];
    const kl_node *to = &model->nodes[m->to];
    const double share = station / kl_member_length(model, member);
    /* Weighted from the nearer end, so that both ends are met exactly. */
    if (share > 0.5) {
        const double back = 1.0 - share;
        return (kl_point){to->x + back * (from->x - to->x), to->y + back * (from->y - to->y)};
    }
    return (kl_point){from->x + share * (to->x - from->x), from->y + share * (to->y - from->y)};
}

double kl_tendon_range(const kl_model *model, kl_index tendon)
{
    const kl_tendon *t = &model->tendons[tendon];
    double range = 0.0;
    for (kl_index i = 0; i < t->member_count; i++) {
        range += kl_member_length(model, t->members[i]);
    }
    return range;
}

double kl_tendon_gauge(const kl_tendon *tendon, double jack_force)
{
    return jack_force / (tendon->ram_area * (1.0 - tendon->jack_friction));
}

double entities_size(const kl_model *model)
{
    if (model->node_count == 0) {
        return 0.0;
    }
    const kl_point low = model->store->low;
    const kl_point high = model->store->high;
    return hypot(high.x - low.x, high.y - low.y);
}

/* ---- texts -------------------------------------------------------------------------------------------- */

const char *kl_cause_name(const kl_model *model, kl_cause cause)
{
    switch (cause.kind) {
    case KL_CAUSE_ALL:
        return "all";
    case KL_CAUSE_WEIGHT:
        return "weight";
    case KL_CAUSE_CASE:
        return cause.load_case >= 0 && cause.load_case < model->case_count
                   ? model->cases[cause.load_case].name
                   : "loads";
    case KL_CAUSE_PRESTRESS:
        return "prestress";
    case KL_CAUSE_CREEP:
        return "creep";
    case KL_CAUSE_SHRINKAGE:
        return "shrinkage";
    case KL_CAUSE_RELAXATION:
        return "relaxation";
    case KL_CAUSE_LOSSES:
        return "losses";
    case KL_CAUSE_TEMPERATURE:
        return "temperature";
    case KL_CAUSE_MOVEMENT:
        return "movement";
    case KL_CAUSE_COUNT:
        break;
    }
    return "unknown cause";
}

const char *kl_quantity_name(kl_quantity quantity)
{
    switch (quantity) {
    case KL_MOMENT:
        return "moment";
    case KL_SHEAR:
        return "shear";
    case KL_AXIAL:
        return "axial";
    case KL_DEFLECTION:
        return "deflection";
    case KL_SWAY:
        return "sway";
    case KL_ROTATION:
        return "rotation";
    case KL_STRESS_TOP:
        return "stress top";
    case KL_STRESS_BOTTOM:
        return "stress bottom";
    case KL_CAMBER:
        return "camber";
    case KL_REACTION:
        return "reaction";
    case KL_TENDON_FORCE:
        return "force";
    case KL_ELONGATION:
        return "elongation";
    case KL_POST:
        return "post";
    }
    return "unknown quantity";
}

const char *kl_kind_name(kl_kind kind)
{
    switch (kind) {
    case KL_KIND_MATERIAL:
        return "material";
    case KL_KIND_SECTION:
        return "section";
    case KL_KIND_NODE:
        return "node";
    case KL_KIND_MEMBER:
        return "member";
    case KL_KIND_TENDON:
        return "tendon";
    case KL_KIND_FALSEWORK:
        return "falsework";
    case KL_KIND_CASE:
        return "load case";
    case KL_KIND_STAGE:
        return "stage";
    case KL_KIND_COMBINATION:
        return "combination";
    case KL_KIND_CHECK:
        return "check";
    case KL_KIND_COUNT:
        break;
    }
    return "thing";
}
