/* build_tendon.c - kl_model_add_tendon and kl_model_add_falsework.
 *
 * Here a tendon's rows must be in order, on its members, and between two anchors; whether each curve has the
 * facts it needs is the profile's business (solver/tendon/profile.c).
 * SPDX-License-Identifier: MIT */
#include <math.h>

#include "build.h"
#include "near.h"

#define TENDON_MOST_ROWS     1000
#define TENDON_MOST_BENDS    1000
#define TENDON_MOST_MEMBERS  1000
#define TENDON_MOST_COUNT    10000
#define FALSEWORK_MOST_ROWS  2000
#define FALSEWORK_MOST_POSTS 1000

/* Directions closer than this are one line: coordinates are typed to six digits or so. */
#define TENDON_ONE_LINE 1e-6

/* ---- the line a tendon lies in ------------------------------------------------------------------------ */

static bool joins(const kl_model *model, const kl_member *a, const kl_member *b)
{
    const kl_node *end = &model->nodes[a->to];
    const kl_node *start = &model->nodes[b->from];
    return a->to == b->from ||
           hypot(end->x - start->x, end->y - start->y) <= NEAR_PLACE * entities_size(model);
}

static bool same_direction(const kl_model *model, const kl_member *a, const kl_member *b)
{
    const kl_node *a0 = &model->nodes[a->from];
    const kl_node *a1 = &model->nodes[a->to];
    const kl_node *b0 = &model->nodes[b->from];
    const kl_node *b1 = &model->nodes[b->to];
    const double ax = a1->x - a0->x;
    const double ay = a1->y - a0->y;
    const double bx = b1->x - b0->x;
    const double by = b1->y - b0->y;
    const double product = hypot(ax, ay) * hypot(bx, by);
    return ax * bx + ay * by > 0.0 && fabs(ax * by - ay * bx) <= TENDON_ONE_LINE * product;
}

/* All members exist and follow one another in one line. @return the line's length, NAN when they do not. */
static double check_line(build_item *item, const kl_tendon *tendon)
{
    const kl_model *model = item->model;
    if (tendon->member_count < 1) {
        build_error(item, "no-member", item->origin, "%s is in no member.", build_subject(item));
        return NAN;
    }
    double length = 0.0;
    for (kl_index i = 0; i < tendon->member_count; i++) {
        const kl_index at = tendon->members[i];
        if (!build_reference(item, "member", at, model->member_count, false)) {
            return NAN;
        }
        length += kl_member_length(model, at);
        if (i == 0) {
            continue;
        }
        const kl_member *before = &model->members[tendon->members[i - 1]];
        const kl_member *here = &model->members[at];
        if (!joins(model, before, here) || !same_direction(model, before, here)) {
            build_error(item, "members-not-in-line", item->origin,
                        "%s runs through %s and %s, but %s does not go on in one line where %s "
                        "ends.",
                        build_subject(item), before->name, here->name, here->name, before->name);
            build_hint(item, "name the members in their order, all drawn the same way");
            return NAN;
        }
    }
    return length;
}

/* ---- rows --------------------------------------------------------------------------------------------- */

static void
check_row(build_item *item, kl_profile_row *rows, kl_index i, kl_index count, double length)
{
    kl_profile_row *row = &rows[i];
    const bool at_end = i == 0 || i == count - 1;
    if (!isfinite(row->station)) {
        build_error(item, "not-finite", row->origin, "A row of %s has no station.", item->name);
        return;
    }
    build_station(item, row->origin, length, "the tendon's members", &row->station);
    if (i > 0 && row->station - rows[i - 1].station <= NEAR_STATION * length) {
        build_error(item, "profile-order", row->origin,
                    "The rows of %s must stand in the order of their stations, each at its own.",
                    build_subject(item));
    }
    if (at_end != (row->kind == KL_ROW_ANCHOR)) {
        build_error(item, "profile-ends", row->origin,
                    at_end ? "The profile of %s must begin and end with an anchor."
                           : "The profile of %s has an anchor between its ends.",
                    build_subject(item));
        if (row->kind == KL_ROW_ANCHOR) {
            build_hint(item, "at a harping point write `low` (or `high`) with `straight`");
        }
    }
    if (i == 0 && row->straight) {
        build_error(item, "straight-from-nowhere", row->origin,
                    "The first row of %s cannot be straight: no row stands before it.",
                    build_subject(item));
    }
    if (row->kind != KL_ROW_INFLECTION && !isfinite(row->ordinate)) {
        build_error(item, "no-ordinate", row->origin, "A row of %s has no height or depth.",
                    build_subject(item));
    }
}

static void check_rows(build_item *item, kl_profile_row *rows, kl_index count, double length)
{
    if (count < 2) {
        build_error(item, "no-profile", item->origin,
                    "%s needs a profile of at least two rows, an anchor at each end.",
                    build_subject(item));
        return;
    }
    for (kl_index i = 0; i < count; i++) {
        check_row(item, rows, i, count, length);
    }
}

static void check_bends(build_item *item, kl_bend *bends, kl_index count, double length)
{
    for (kl_index i = 0; i < count; i++) {
        kl_bend *bend = &bends[i];
        build_need_finite(item, "bend", bend->angle);
        build_need_finite(item, "bend's range", bend->from + bend->to);
        build_station(item, bend->origin, length, "the tendon's members", &bend->from);
        build_station(item, bend->origin, length, "the tendon's members", &bend->to);
        if (!(bend->to - bend->from > NEAR_STATION * length)) {
            build_error(item, "bend-range", bend->origin,
                        "A bend of %s must run from a station to a later one.",
                        build_subject(item));
        }
    }
}

/* ---- numbers ------------------------------------------------------------------------------------------ */

static void check_steel(build_item *item, const kl_tendon *tendon)
{
    const kl_model *model = item->model;
    build_need_positive(item, tendon->is_bar ? "bars" : "strands", tendon->units);
    build_need_positive(item, "area", tendon->unit_area);
    if (tendon->count < 1 || tendon->count > TENDON_MOST_COUNT) {
        build_error(item, "tendon-count", item->origin,
                    "%s stands for 1 to %d like tendons, not %d.", build_subject(item),
                    TENDON_MOST_COUNT, (int)tendon->count);
    }
    if (!build_reference(item, "steel", tendon->material, model->material_count, false)) {
        return;
    }
    const kl_material *steel = &model->materials[tendon->material];
    if (steel->kind != KL_PRESTRESSING) {
        build_error(item, "wrong-material", item->origin,
                    "%s is of %s, which is not a prestressing steel.", build_subject(item),
                    steel->name);
        build_hint(item, "name one declared with `prestressing`");
        return;
    }
    build_need_positive(item, "jacking force", tendon->jack_force);
    const double strength = steel->ultimate * tendon->units * tendon->unit_area;
    if (strength > 0.0 && tendon->jack_force > strength) {
        const build_number force = build_show(model, KL_MEASURE_FORCE, tendon->jack_force);
        const build_number most = build_show(model, KL_MEASURE_FORCE, strength);
        build_error(item, "jack-above-ultimate", item->origin,
                    "The jacking force of %s, %s in one tendon, would break it: its ultimate is "
                    "%s.",
                    build_subject(item), force.text, most.text);
    }
}

static void check_friction_and_rest(build_item *item, const kl_tendon *tendon)
{
    build_not_negative(item, "friction", tendon->friction);
    build_not_negative(item, "wobble", tendon->wobble);
    build_not_negative(item, "seating", tendon->seating);
    build_positive(item, "ram area", tendon->ram_area);
    build_between(item, "jack_friction", tendon->jack_friction, 0.0, 0.5);
    build_between(item, "anchorage_friction", tendon->anchorage_friction, 0.0, 0.5);
    build_between(item, "reference", tendon->reference, 0.0, 0.95);
    build_not_negative(item, "grip", tendon->grip);
    build_not_negative(item, "dead_end", tendon->dead_end);
    build_not_negative(item, "duct", tendon->duct);
    build_not_negative(item, "offset", tendon->offset);
}

/* The lists of a tendon while they are still the add function's own. */
typedef struct tendon_lists {
    kl_profile_row *rows;
    kl_bend *bends;
} tendon_lists;

static kl_status copy_tendon_lists(kl_model *model, kl_tendon *copy, tendon_lists *own)
{
    arena *memory = &model->store->memory;
    const void *members = NULL;
    KL_TRY(build_copy(model, copy->members, copy->member_count, sizeof *copy->members, &members));
    own->rows = arena_copy(memory, copy->rows, (size_t)copy->row_count, sizeof *own->rows);
    own->bends = arena_copy(memory, copy->bends, (size_t)copy->bend_count, sizeof *own->bends);
    copy->members = members;
    copy->rows = own->rows;
    copy->bends = own->bends;
    return own->rows != NULL && own->bends != NULL ? KL_OK : KL_NO_MEMORY;
}

kl_status kl_model_add_tendon(kl_model *model, const kl_tendon *tendon, kl_index *added)
{
    build_item item = build_start(model, KL_KIND_TENDON, tendon->name, tendon->origin);
    build_limit(&item, "members", tendon->member_count, TENDON_MOST_MEMBERS);
    build_limit(&item, "rows", tendon->row_count, TENDON_MOST_ROWS);
    build_limit(&item, "bends", tendon->bend_count, TENDON_MOST_BENDS);
    if (item.bad) {
        return KL_BAD_MODEL;
    }
    kl_tendon copy = *tendon;
    tendon_lists own = {NULL, NULL};
    KL_TRY(copy_tendon_lists(model, &copy, &own));
    check_steel(&item, tendon);
    check_friction_and_rest(&item, tendon);
    const double length = check_line(&item, tendon);
    if (isfinite(length)) {
        check_rows(&item, own.rows, copy.row_count, length);
        check_bends(&item, own.bends, copy.bend_count, length);
    }
    if (item.bad) {
        return KL_BAD_MODEL;
    }
    KL_TRY(build_copy_name(&item, &copy.name));
    return build_append(&item, &copy, sizeof copy, &model->tendon_count, added);
}

/* ---- falsework ---------------------------------------------------------------------------------------- */

static void check_falsework_rows(build_item *item, const kl_falsework *falsework, double *stations)
{
    const kl_model *model = item->model;
    const double length = kl_member_length(model, falsework->member);
    const char *line = model->members[falsework->member].name;
    for (kl_index i = 0; i < falsework->row_count; i++) {
        build_need_finite(item, "row's station", stations[i]);
        build_station(item, item->origin, length, line, &stations[i]);
        if (i > 0 && !(stations[i] - stations[i - 1] > NEAR_STATION * length)) {
            const build_number at = build_show(model, KL_MEASURE_STATION, stations[i]);
            build_error(item, "row-order", item->origin,
                        "The rows of %s must stand in the order of their stations, each at its "
                        "own: see %s.",
                        build_subject(item), at.text);
        }
    }
}

static void check_falsework_references(build_item *item, const kl_falsework *falsework)
{
    const kl_model *model = item->model;
    (void)build_reference(item, "member", falsework->member, model->member_count, false);
    (void)build_reference(item, "carrier", falsework->carrier, model->member_count, true);
    (void)build_reference(item, "stringer's section", falsework->stringer_section,
                          model->section_count, true);
    (void)build_reference(item, "stringer's material", falsework->stringer_material,
                          model->material_count, true);
    if (falsework->carrier != KL_NONE && falsework->carrier == falsework->member) {
        build_error(item, "carries-itself", item->origin, "%s carries %s and stands on it too.",
                    build_subject(item),
                    item->bad ? "a member" : model->members[falsework->member].name);
    }
    if ((falsework->stringer_section == KL_NONE) != (falsework->stringer_material == KL_NONE)) {
        build_error(item, "half-a-stringer", item->origin,
                    "The stringer of %s needs a section and a material.", build_subject(item));
    }
    if (falsework->row_count < 1) {
        build_error(item, "no-rows", item->origin, "%s has no rows.", build_subject(item));
    }
    build_limit(item, "rows", falsework->row_count, FALSEWORK_MOST_ROWS);
}

kl_status kl_model_add_falsework(kl_model *model, const kl_falsework *falsework, kl_index *added)
{
    build_item item = build_start(model, KL_KIND_FALSEWORK, falsework->name, falsework->origin);
    build_need_positive(&item, "stiffness", falsework->stiffness);
    build_positive(&item, "capacity", falsework->capacity);
    build_not_negative(&item, "takeup", falsework->takeup);
    if (falsework->posts < 1 || falsework->posts > FALSEWORK_MOST_POSTS) {
        build_error(&item, "posts-count", item.origin, "A row of %s has 1 to %d posts, not %d.",
                    build_subject(&item), FALSEWORK_MOST_POSTS, (int)falsework->posts);
    }
    check_falsework_references(&item, falsework);
    if (item.bad) {
        return KL_BAD_MODEL;
    }
    kl_falsework copy = *falsework;
    double *stations = arena_copy(&model->store->memory, falsework->stations,
                                  (size_t)falsework->row_count, sizeof *falsework->stations);
    if (stations == NULL) {
        return KL_NO_MEMORY;
    }
    copy.stations = stations;
    check_falsework_rows(&item, falsework, stations);
    if (item.bad) {
        return KL_BAD_MODEL;
    }
    KL_TRY(build_copy_name(&item, &copy.name));
    return build_append(&item, &copy, sizeof copy, &model->falsework_count, added);
}
