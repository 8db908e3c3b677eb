/* build_frame.c - kl_model_add_node, _member, _support and _bearing.
 * SPDX-License-Identifier: MIT */
#include <math.h>

#include "build.h"
#include "near.h"
#include "section.h"

#define MEMBER_MOST_SECTIONS 10000
#define NODE_FARTHEST        1e5 /* m: no structure is as long, and sums of moments keep their digits */
#define MEMBER_MOST_HINGES   1000
/* A finer mesh than this many elements a member is a slip of the pen and would exhaust the machine. */
#define MEMBER_MOST_ELEMENTS 2000

/* ---- nodes -------------------------------------------------------------------------------------------- */

static void check_node_on_member(build_item *item, kl_node *node)
{
    const kl_model *model = item->model;
    if (!build_reference(item, "member", node->member, model->member_count, true)) {
        return;
    }
    build_need_finite(item, "station", node->station);
    if (item->bad) {
        return;
    }
    const double length = kl_member_length(model, node->member);
    const char *line = model->members[node->member].name;
    build_station(item, node->origin, length, line, &node->station);
    if (!item->bad) {
        const kl_point place = kl_member_point(model, node->member, node->station);
        node->x = place.x;
        node->y = place.y;
    }
}

static void widen_box(kl_model_store *store, const kl_node *node)
{
    store->low.x = fmin(store->low.x, node->x);
    store->low.y = fmin(store->low.y, node->y);
    store->high.x = fmax(store->high.x, node->x);
    store->high.y = fmax(store->high.y, node->y);
}

kl_status kl_model_add_node(kl_model *model, const kl_node *node, kl_index *added)
{
    build_item item = build_start(model, KL_KIND_NODE, node->name, node->origin);
    kl_node copy = *node;
    if (node->member != KL_NONE) {
        check_node_on_member(&item, &copy);
    }
    if (!item.bad) {
        build_need_finite(&item, "place", copy.x + copy.y);
    }
    if (!item.bad && hypot(copy.x, copy.y) > NODE_FARTHEST) {
        build_error(&item, "node-too-far", copy.origin,
                    "Node %s lies more than %g km from the origin.", copy.name,
                    NODE_FARTHEST / 1e3);
    }
    if (item.bad) {
        return KL_BAD_MODEL;
    }
    KL_TRY(build_copy_name(&item, &copy.name));
    KL_TRY(build_append(&item, &copy, sizeof copy, &model->node_count, added));
    widen_box(model->store, &copy);
    return KL_OK;
}

/* ---- members ------------------------------------------------------------------------------------------ */

/* Between two rows the dimensions vary; that needs two sections of one make. */
static void check_pair(build_item *item, const kl_section_at *a, const kl_section_at *b)
{
    const kl_section *sections = item->model->sections;
    if (a->section == b->section ||
        section_can_vary(&sections[a->section], &sections[b->section])) {
        return;
    }
    build_error(item, "section-cannot-vary", b->origin,
                "Section %s cannot change gradually into %s along %s: they are of different make.",
                sections[a->section].name, sections[b->section].name, build_subject(item));
    build_hint(item, "end %s where %s begins: two rows at one station make a step",
               sections[a->section].name, sections[b->section].name);
}

static void
check_section_order(build_item *item, const kl_section_at *rows, kl_index count, double length)
{
    const double one_place = NEAR_STATION * length;
    for (kl_index i = 1; i < count; i++) {
        const double step = rows[i].station - rows[i - 1].station;
        if (step < -one_place) {
            build_error(item, "section-order", rows[i].origin,
                        "The sections of %s must be given in the order of their stations.",
                        build_subject(item));
        } else if (step <= one_place) {
            if (i > 1 && rows[i].station - rows[i - 2].station <= one_place) {
                build_error(item, "section-order", rows[i].origin,
                            "%s has three sections at one station; a step has two.",
                            build_subject(item));
            }
        } else {
            check_pair(item, &rows[i - 1], &rows[i]);
        }
    }
}

static void
check_sections(build_item *item, const kl_member *member, kl_section_at *rows, double length)
{
    const kl_model *model = item->model;
    for (kl_index i = 0; i < member->section_count; i++) {
        (void)build_reference(item, "section", rows[i].section, model->section_count, false);
        if (member->section_count > 1) {
            build_need_finite(item, "section's station", rows[i].station);
            build_station(item, rows[i].origin, length, item->name, &rows[i].station);
        }
    }
    if (!item->bad) {
        check_section_order(item, rows, member->section_count, length);
    }
}

static void check_hinges(build_item *item, const kl_member *member, double *hinges, double length)
{
    const double spare = NEAR_STATION * length;
    for (kl_index i = 0; i < member->hinge_count; i++) {
        build_need_finite(item, "hinge's station", hinges[i]);
        build_station(item, item->origin, length, item->name, &hinges[i]);
        if (hinges[i] < member->rigid_start + spare ||
            hinges[i] > length - member->rigid_end - spare) {
            const build_number at = build_show(item->model, KL_MEASURE_STATION, hinges[i]);
            build_error(item, "hinge-place", item->origin,
                        "The hinge at %s of %s is not between its ends or rigid parts.", at.text,
                        build_subject(item));
            build_hint(item, "a hinge at an end is written `hinge start` or `hinge end`");
        }
        for (kl_index k = 0; k < i; k++) {
            if (fabs(hinges[i] - hinges[k]) <= spare) {
                build_error(item, "hinge-twice", item->origin, "%s has two hinges at one station.",
                            build_subject(item));
            }
        }
    }
}

/* What needs no length: the references. */
static void check_member_references(build_item *item, const kl_member *member)
{
    const kl_model *model = item->model;
    (void)build_reference(item, "start", member->from, model->node_count, false);
    (void)build_reference(item, "end", member->to, model->node_count, false);
    if (build_reference(item, "material", member->material, model->material_count, false)) {
        const kl_material *material = &model->materials[member->material];
        if (material->kind != KL_CONCRETE && material->kind != KL_ELASTIC) {
            build_error(item, "wrong-material", member->origin,
                        "%s is of %s, which is a steel for tendons or rebar.", build_subject(item),
                        material->name);
            build_hint(item, "name one declared with `concrete` or `material`");
        }
    }
    if (member->section_count < 1) {
        build_error(item, "no-section", member->origin, "%s has no section.", build_subject(item));
    }
    build_limit(item, "sections", member->section_count, MEMBER_MOST_SECTIONS);
    build_limit(item, "hinges", member->hinge_count, MEMBER_MOST_HINGES);
}

static double member_span(build_item *item, const kl_member *member)
{
    const kl_model *model = item->model;
    const kl_node *from = &model->nodes[member->from];
    const kl_node *to = &model->nodes[member->to];
    const double length = hypot(to->x - from->x, to->y - from->y);
    if (!(length > NEAR_PLACE * entities_size(model))) {
        build_error(item, "no-length", member->origin,
                    "%s has no length: its ends %s and %s stand at one place.", build_subject(item),
                    from->name, to->name);
    }
    return length;
}

static void check_member_lengths(build_item *item, const kl_member *member, double length)
{
    build_not_negative(item, "rigid start", member->rigid_start);
    build_not_negative(item, "rigid end", member->rigid_end);
    build_positive(item, "mesh", member->mesh);
    build_not_negative(item, "age", member->age);
    if (!(member->rigid_start + member->rigid_end < length * (1.0 - NEAR_STATION))) {
        const build_number rigid =
            build_show(item->model, KL_MEASURE_STATION, member->rigid_start + member->rigid_end);
        const build_number all = build_show(item->model, KL_MEASURE_STATION, length);
        build_error(item, "rigid-too-long", member->origin,
                    "The rigid parts of %s take %s of its %s; nothing is left to bend.",
                    build_subject(item), rigid.text, all.text);
    }
    if (member->mesh > 0.0 && length > member->mesh * MEMBER_MOST_ELEMENTS) {
        build_error(item, "mesh-too-fine", member->origin,
                    "The mesh of %s would make more than %d elements.", build_subject(item),
                    MEMBER_MOST_ELEMENTS);
    }
    if (member->axial_only &&
        (member->hinge_start || member->hinge_end || member->hinge_count > 0)) {
        build_error(item, "axial-hinge", member->origin,
                    "%s is axial_only: it has a hinge at both ends already and none inside.",
                    build_subject(item));
    }
}

kl_status kl_model_add_member(kl_model *model, const kl_member *member, kl_index *added)
{
    build_item item = build_start(model, KL_KIND_MEMBER, member->name, member->origin);
    check_member_references(&item, member);
    if (item.bad) {
        return KL_BAD_MODEL;
    }
    arena *memory = &model->store->memory;
    kl_member copy = *member;
    kl_section_at *rows = arena_copy(memory, member->sections, (size_t)member->section_count,
                                     sizeof *member->sections);
    double *hinges =
        arena_copy(memory, member->hinges, (size_t)member->hinge_count, sizeof *member->hinges);
    if (rows == NULL || (hinges == NULL && member->hinge_count > 0)) {
        return KL_NO_MEMORY;
    }
    copy.sections = rows;
    copy.hinges = hinges;
    const double length = member_span(&item, member);
    if (!item.bad) {
        check_member_lengths(&item, member, length);
        check_sections(&item, member, rows, length);
        check_hinges(&item, member, hinges, length);
    }
    if (item.bad) {
        return KL_BAD_MODEL;
    }
    KL_TRY(build_copy_name(&item, &copy.name));
    return build_append(&item, &copy, sizeof copy, &model->member_count, added);
}

/* ---- supports and bearings ---------------------------------------------------------------------------- */

static void check_holds(build_item *item, const kl_hold hold[3])
{
    static const char *const stiffness_of[3] = {"x stiffness", "y stiffness", "turn stiffness"};
    bool holds = false;
    for (int d = 0; d < 3; d++) {
        if (hold[d].kind == KL_SPRING) {
            build_need_positive(item, stiffness_of[d], hold[d].stiffness);
        }
        if (d == KL_TURN && (hold[d].kind == KL_PUSH_PLUS || hold[d].kind == KL_PUSH_MINUS)) {
            build_error(item, "push-turn", item->origin,
                        "A %s pushes along x or y; a turn cannot be pushed.", item->word);
        }
        holds = holds || hold[d].kind != KL_FREE;
    }
    if (!holds) {
        build_error(item, "holds-nothing", item->origin, "This %s holds nothing: all is free.",
                    item->word);
        build_hint(item, "name what is held, as in `y fixed`");
    }
}

kl_status kl_model_add_support(kl_model *model, const kl_support *support, kl_index *added)
{
    build_item item = build_start(model, ENTITY_SUPPORT, NULL, support->origin);
    (void)build_reference(&item, "node", support->node, model->node_count, false);
    build_need_finite(&item, "slope", support->slope);
    check_holds(&item, support->hold);
    return build_append(&item, support, sizeof *support, &model->support_count, added);
}

kl_status kl_model_add_bearing(kl_model *model, const kl_bearing *bearing, kl_index *added)
{
    build_item item = build_start(model, ENTITY_BEARING, NULL, bearing->origin);
    const bool upper = build_reference(&item, "node", bearing->node, model->node_count, false);
    const bool lower = build_reference(&item, "base", bearing->base, model->node_count, false);
    check_holds(&item, bearing->hold);
    if (upper && lower) {
        const kl_node *node = &model->nodes[bearing->node];
        const kl_node *base = &model->nodes[bearing->base];
        if (bearing->node == bearing->base) {
            build_error(&item, "bearing-on-itself", bearing->origin,
                        "A bearing joins two nodes; node %s is named twice.", node->name);
        } else if (hypot(node->x - base->x, node->y - base->y) >
                   NEAR_PLACE * entities_size(model)) {
            build_error(&item, "bearing-apart", bearing->origin,
                        "A bearing joins two nodes at one place; %s and %s stand apart.",
                        node->name, base->name);
        }
    }
    return build_append(&item, bearing, sizeof *bearing, &model->bearing_count, added);
}
