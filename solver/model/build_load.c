/* build_load.c - kl_model_add_case: the loads of one name.
 * SPDX-License-Identifier: MIT */
#include <math.h>

#include "build.h"
#include "near.h"

#define CASE_MOST_LOADS  800000
#define LOAD_MOST_POINTS 1000

/* A direction is a unit vector to rounding. */
#define LOAD_UNIT_VECTOR 1e-9

static void
load_error(build_item *item, const kl_load *load, const char *diag_name, const char *text)
{
    build_error(item, diag_name, load->origin, "In %s: %s", build_subject(item), text);
}

/* Stations on the load's member; a distributed load needs some length. */
static void check_range(build_item *item, kl_load *load)
{
    const kl_model *model = item->model;
    const double length = kl_member_length(model, load->member);
    const char *line = model->members[load->member].name;
    build_station(item, load->origin, length, line, &load->from);
    build_station(item, load->origin, length, line, &load->to);
    const double end = isnan(load->to) ? length : load->to;
    if (load->kind == KL_LOAD_DISTRIBUTED && !(end - load->from > NEAR_STATION * length)) {
        load_error(item, load, "load-range",
                   "the load must run from a station to a later one of its member.");
    }
}

static void check_direction(build_item *item, const kl_load *load)
{
    if (!(fabs(hypot(load->dx, load->dy) - 1.0) <= LOAD_UNIT_VECTOR)) {
        load_error(item, load, "bad-direction", "the direction of the load is not a unit vector.");
    }
}

/* Where a load may stand: a member, a node, one of the two, a tendon, or the whole model. */
typedef struct load_place {
    bool member, node, needed;
} load_place;

static load_place place_of(kl_load_kind kind)
{
    switch (kind) {
    case KL_LOAD_WEIGHT:
        return (load_place){true, false, false};
    case KL_LOAD_POINT:
    case KL_LOAD_MOMENT:
        return (load_place){true, true, true};
    case KL_LOAD_DISTRIBUTED:
    case KL_LOAD_TEMPERATURE:
    case KL_LOAD_GRADIENT:
    case KL_LOAD_PROFILE:
        return (load_place){true, false, true};
    case KL_LOAD_SETTLE:
    case KL_LOAD_TURN:
        return (load_place){false, true, true};
    case KL_LOAD_TENDON:
        break;
    }
    return (load_place){false, false, false};
}

static void check_place(build_item *item, const kl_load *load)
{
    const kl_model *model = item->model;
    const load_place place = place_of(load->kind);
    const bool on_member =
        build_reference(item, "loaded member", load->member, model->member_count, true);
    const bool at_node = build_reference(item, "loaded node", load->node, model->node_count, true);
    if ((on_member && !place.member) || (at_node && !place.node) || (on_member && at_node) ||
        (place.needed && !on_member && !at_node)) {
        load_error(item, load, "load-place", "the load does not stand on what such a load needs.");
    }
    if (load->kind == KL_LOAD_TENDON) {
        (void)build_reference(item, "tendon", load->tendon, model->tendon_count, false);
    }
}

static void check_profile(build_item *item, const kl_load *load)
{
    if (load->point_count < 2) {
        load_error(item, load, "gradient-points", "a gradient by depth needs at least two points.");
    }
    build_limit(item, "points in a gradient", load->point_count, LOAD_MOST_POINTS);
    for (kl_index i = 0; !item->bad && i < load->point_count; i++) {
        const kl_temperature_point *point = &load->points[i];
        build_need_finite(item, "temperature", point->temperature);
        build_need_finite(item, "depth", point->depth);
        build_not_negative(item, "depth", point->depth);
        if (i > 0 && !(point->depth > load->points[i - 1].depth)) {
            load_error(item, load, "gradient-points",
                       "the points of a gradient go down, each deeper than the one before.");
        }
    }
}

static bool has_value(kl_load_kind kind)
{
    return kind != KL_LOAD_WEIGHT && kind != KL_LOAD_PROFILE && kind != KL_LOAD_TENDON;
}

static void check_load(build_item *item, kl_load *load)
{
    const bool directed = load->kind == KL_LOAD_POINT || load->kind == KL_LOAD_DISTRIBUTED ||
                          load->kind == KL_LOAD_SETTLE;
    check_place(item, load);
    if (item->bad) {
        return;
    }
    if (has_value(load->kind)) {
        build_need_finite(item, "load's value", load->value);
    }
    if (load->kind == KL_LOAD_DISTRIBUTED) {
        build_need_finite(item, "load's end value", load->value_end);
    }
    if (directed) {
        check_direction(item, load);
    }
    if (load->member == KL_NONE) {
        if (directed && load->frame == KL_LOCAL) {
            load_error(item, load, "load-frame", "a node has no `along` or `across`.");
        }
    } else if (load->kind == KL_LOAD_POINT || load->kind == KL_LOAD_MOMENT ||
               load->kind == KL_LOAD_DISTRIBUTED) {
        check_range(item, load);
    }
    if (load->kind == KL_LOAD_PROFILE) {
        check_profile(item, load);
    }
}

/* Each load's own list, once the loads themselves are copied. */
static kl_status copy_points(kl_model *model, kl_load *loads, kl_index count)
{
    for (kl_index i = 0; i < count; i++) {
        const void *points = NULL;
        KL_TRY(build_copy(model, loads[i].points, loads[i].point_count, sizeof *loads[i].points,
                          &points));
        loads[i].points = points;
    }
    return KL_OK;
}

kl_status kl_model_add_case(kl_model *model, const kl_case *load_case, kl_index *added)
{
    build_item item = build_start(model, KL_KIND_CASE, load_case->name, load_case->origin);
    if (load_case->load_count < 1) {
        build_error(&item, "no-load", load_case->origin, "%s has no load in it.",
                    build_subject(&item));
    }
    build_limit(&item, "loads", load_case->load_count, CASE_MOST_LOADS);
    if (item.bad) {
        return KL_BAD_MODEL;
    }
    kl_case copy = *load_case;
    kl_load *loads = arena_copy(&model->store->memory, load_case->loads,
                                (size_t)load_case->load_count, sizeof *load_case->loads);
    if (loads == NULL) {
        return KL_NO_MEMORY;
    }
    bool bad = false;
    for (kl_index i = 0; i < copy.load_count; i++) {
        check_load(&item, &loads[i]);
        bad = bad || item.bad;
        item.bad = false;
    }
    item.bad = bad;
    if (item.bad) {
        return KL_BAD_MODEL;
    }
    copy.loads = loads;
    KL_TRY(copy_points(model, loads, copy.load_count));
    KL_TRY(build_copy_name(&item, &copy.name));
    return build_append(&item, &copy, sizeof copy, &model->case_count, added);
}
