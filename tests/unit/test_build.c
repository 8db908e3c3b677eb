/* test_build.c - kl_model_add_…: copies, names, geometry, and every message of the builder.
 *
 * Each row of a table spoils one thing of a sound model and names the message that must come, once, with nothing
 * added. Geometry is held against closed forms.
 * SPDX-License-Identifier: MIT */
#include <math.h>
#include <stdio.h>
#include <string.h>

#include "assert_close.h"
#include "build.h"
#include "fault.h"
#include "kernline/model.h"

#define DIM(array) ((int)(sizeof(array) / sizeof((array)[0])))

static const kl_origin here = {0, 5, 9};

/* A sound model: a 5 m beam AB up a 3-4-5 slope, a level beam BC and its continuation CD, and something of each
 * kind. */
typedef struct world {
    kl_diags *diags;
    kl_model *model;
} world;

/* ---- sound entities ---------------------------------------------------------------------------------------- */

static kl_material concrete(void)
{
    return (kl_material){.kind = KL_CONCRETE,
                         .name = "mix",
                         .origin = here,
                         .strength = 40e6,
                         .transfer_strength = NAN,
                         .unit_weight = 24e3,
                         .modulus_law = KL_LAW_VALUE,
                         .modulus = 30e9,
                         .shear_modulus = NAN,
                         .expansion = NAN,
                         .cured = NAN,
                         .ultimate = NAN,
                         .yield = NAN};
}

static kl_material strand(void)
{
    kl_material steel = concrete();
    steel.kind = KL_PRESTRESSING;
    steel.name = "strand";
    steel.modulus = 195e9;
    steel.ultimate = 1860e6;
    steel.yield = 1670e6;
    return steel;
}

static kl_section bare_section(void)
{
    return (kl_section){.shape = KL_BARE,
                        .name = "beam",
                        .origin = here,
                        .width = NAN,
                        .depth = NAN,
                        .diameter = NAN,
                        .thickness = NAN,
                        .flange_thickness = NAN,
                        .web_width = NAN,
                        .top_slab = NAN,
                        .bottom_slab = NAN,
                        .overhang = NAN,
                        .overhang_edge = NAN,
                        .area = 1.0,
                        .inertia = 0.1,
                        .to_top = 0.5,
                        .to_bottom = 0.5,
                        .shear_area = NAN,
                        .volume_to_surface = NAN};
}

static kl_node node(const char *name, double x, double y)
{
    return (kl_node){.name = name, .origin = here, .x = x, .y = y, .member = KL_NONE};
}

static const kl_section_at prismatic = {.section = 0, .station = NAN, .origin = {0, 1, 2}};

static kl_member member(const char *name, kl_index from, kl_index to)
{
    return (kl_member){.name = name,
                       .origin = here,
                       .from = from,
                       .to = to,
                       .material = 0,
                       .sections = &prismatic,
                       .section_count = 1,
                       .mesh = NAN,
                       .age = NAN};
}

static kl_support support(kl_index at)
{
    return (kl_support){.origin = here, .node = at, .hold = {{KL_FIXED, 0}, {KL_FIXED, 0}}};
}

static const kl_index beam_bc[] = {1};
static const kl_profile_row sound_rows[] = {
    {KL_ROW_ANCHOR, {0, 20, 21}, 0.0, 0.0, KL_FROM_LINE, false},
    {KL_ROW_LOW, {0, 22, 23}, 5.0, -0.3, KL_FROM_LINE, false},
    {KL_ROW_ANCHOR, {0, 24, 25}, 10.0, 0.0, KL_FROM_LINE, false},
};

static kl_tendon tendon(void)
{
    return (kl_tendon){.name = "T1",
                       .origin = here,
                       .members = beam_bc,
                       .member_count = 1,
                       .material = 1,
                       .units = 12,
                       .unit_area = 140e-6,
                       .count = 2,
                       .rows = sound_rows,
                       .row_count = 3,
                       .jack_force = 2e6,
                       .ram_area = NAN,
                       .reference = NAN};
}

static const double sound_stations[] = {1.0, 4.0, 7.0};

static kl_falsework falsework(void)
{
    return (kl_falsework){.name = "posts",
                          .origin = here,
                          .member = 1,
                          .stations = sound_stations,
                          .row_count = 3,
                          .posts = 2,
                          .stiffness = 50e6,
                          .capacity = NAN,
                          .carrier = KL_NONE,
                          .stringer_section = KL_NONE,
                          .stringer_material = KL_NONE};
}

static kl_load point_load(void)
{
    return (kl_load){.kind = KL_LOAD_POINT,
                     .origin = here,
                     .member = 1,
                     .node = KL_NONE,
                     .tendon = KL_NONE,
                     .value = 1e5,
                     .value_end = NAN,
                     .dx = 0.0,
                     .dy = -1.0,
                     .from = 2.0,
                     .to = NAN};
}

static kl_expectation expectation(void)
{
    return (kl_expectation){.origin = here,
                            .quantity = KL_MOMENT,
                            .member = 1,
                            .node = KL_NONE,
                            .tendon = KL_NONE,
                            .falsework = KL_NONE,
                            .station = 5.0,
                            .when = {KL_WHEN_AFTER, 0, KL_NONE},
                            .cause = {KL_CAUSE_ALL, KL_NONE},
                            .value = 1e6,
                            .tolerance = 0.001,
                            .tolerance_relative = true,
                            .source = "",
                            .measure = KL_MEASURE_MOMENT};
}

static kl_check check(void)
{
    static const kl_index members[] = {1};
    return (kl_check){.name = "limits",
                      .origin = here,
                      .members = {members, 1},
                      .when = {KL_WHEN_AFTER, 0, KL_NONE},
                      .compression = 20e6,
                      .tension = NAN};
}

/* ---- the sound model --------------------------------------------------------------------------------------- */

static kl_status add_frame(kl_model *model)
{
    const kl_material mix = concrete();
    const kl_material steel = strand();
    const kl_section beam = bare_section();
    KL_TRY(kl_model_add_material(model, &mix, NULL));
    KL_TRY(kl_model_add_material(model, &steel, NULL));
    KL_TRY(kl_model_add_section(model, &beam, NULL));
    const kl_node nodes[] = {node("A", 0, 0), node("B", 4, 3), node("C", 14, 3), node("D", 20, 3),
                             node("E", 4, 3)};
    for (int i = 0; i < DIM(nodes); i++) {
        KL_TRY(kl_model_add_node(model, &nodes[i], NULL));
    }
    const kl_member members[] = {member("ab", 0, 1), member("bc", 1, 2), member("cd", 2, 3)};
    for (int i = 0; i < DIM(members); i++) {
        KL_TRY(kl_model_add_member(model, &members[i], NULL));
    }
    const kl_support at_a = support(0);
    return kl_model_add_support(model, &at_a, NULL);
}

static kl_status add_rest(kl_model *model)
{
    static const kl_index first[] = {0};
    const kl_operation cast = {KL_OP_PLACE, here, {first, 1}, 1.0, NAN, NAN, NAN, {0}, NAN};
    const kl_stage stages[] = {{"s0", "", here, KL_DAY, true, &cast, 1},
                               {"s1", "", here, 2 * KL_DAY, true, NULL, 0}};
    const kl_tendon t = tendon();
    const kl_falsework f = falsework();
    const kl_load load = point_load();
    const kl_case dead = {"dead", here, &load, 1};
    const kl_factor factor = {1.25, {KL_CAUSE_CASE, 0}, here};
    const kl_combination all = {"all_loads", here, &factor, 1};
    const kl_check c = check();
    const kl_expectation e = expectation();
    KL_TRY(kl_model_add_tendon(model, &t, NULL));
    KL_TRY(kl_model_add_falsework(model, &f, NULL));
    KL_TRY(kl_model_add_case(model, &dead, NULL));
    KL_TRY(kl_model_add_stage(model, &stages[0], NULL));
    KL_TRY(kl_model_add_stage(model, &stages[1], NULL));
    KL_TRY(kl_model_add_combination(model, &all, NULL));
    KL_TRY(kl_model_add_check(model, &c, NULL));
    return kl_model_add_expectation(model, &e, NULL);
}

static kl_status make_world(world *w)
{
    w->model = NULL;
    w->diags = kl_diags_create();
    if (w->diags == NULL) {
        return KL_NO_MEMORY;
    }
    w->model = kl_model_create(w->diags);
    if (w->model == NULL) {
        return KL_NO_MEMORY;
    }
    KL_TRY(add_frame(w->model));
    return add_rest(w->model);
}

static void destroy_world(world *w)
{
    kl_model_destroy(w->model);
    kl_diags_destroy(w->diags);
}

/* ---- what is wrong ----------------------------------------------------------------------------------------- */

typedef struct wrong {
    const char *test;
    const char *name; /* of the message */
    kl_status (*add)(kl_model *model);
} wrong;

#define WRONG_MATERIAL(function, change)                                                           \
    static kl_status function(kl_model *model)                                                     \
    {                                                                                              \
        kl_material it = concrete();                                                               \
        it.name = "other";                                                                         \
        change;                                                                                    \
        return kl_model_add_material(model, &it, NULL);                                            \
    }
WRONG_MATERIAL(material_without_name, it.name = "")
WRONG_MATERIAL(material_name_taken, it.name = "strand")
WRONG_MATERIAL(material_strength_zero, it.strength = 0.0)
WRONG_MATERIAL(material_weight_negative, it.unit_weight = -1.0)
WRONG_MATERIAL(material_modulus_missing, it.modulus = NAN)
WRONG_MATERIAL(material_yield_high, it.yield = 2e9; it.ultimate = 1e9)
WRONG_MATERIAL(material_infinite, it.strength = INFINITY)

#define WRONG_SECTION(function, change)                                                            \
    static kl_status function(kl_model *model)                                                     \
    {                                                                                              \
        kl_section it = bare_section();                                                            \
        it.name = "other";                                                                         \
        change;                                                                                    \
        return kl_model_add_section(model, &it, NULL);                                             \
    }
static const kl_rebar_layer of_concrete = {4, 1e-3, 0.1, 0, {0, 1, 2}};
static const kl_rebar_layer of_nothing = {4, 1e-3, 0.1, 99, {0, 1, 2}};
static const kl_rebar_layer no_depth = {4, 1e-3, NAN, 99, {0, 1, 2}};
WRONG_SECTION(section_name_taken, it.name = "beam")
WRONG_SECTION(section_turned_nan, it.turned = NAN)
WRONG_SECTION(section_rebar_of_concrete, it.rebar = &of_concrete; it.rebar_count = 1)
WRONG_SECTION(section_rebar_of_nothing, it.rebar = &of_nothing; it.rebar_count = 1)
WRONG_SECTION(section_rebar_without_depth, it.rebar = &no_depth; it.rebar_count = 1)
WRONG_SECTION(section_many_voids, it.void_count = 1001)

#define WRONG_NODE(function, change)                                                               \
    static kl_status function(kl_model *model)                                                     \
    {                                                                                              \
        kl_node it = node("other", 0, 0);                                                          \
        change;                                                                                    \
        return kl_model_add_node(model, &it, NULL);                                                \
    }
WRONG_NODE(node_infinite, it.x = INFINITY)
WRONG_NODE(node_on_nothing, it.member = 17)
WRONG_NODE(node_beyond_member, it.member = 1; it.station = 10.1)
WRONG_NODE(node_before_member, it.member = 1; it.station = -0.1)

#define WRONG_MEMBER(function, change)                                                             \
    static kl_status function(kl_model *model)                                                     \
    {                                                                                              \
        kl_member it = member("other", 1, 3);                                                      \
        change;                                                                                    \
        return kl_model_add_member(model, &it, NULL);                                              \
    }
static const kl_section_at backwards[] = {{0, 5.0, {0, 1, 2}}, {0, 1.0, {0, 3, 4}}};
static const kl_section_at three[] = {
    {0, 5.0, {0, 1, 2}}, {0, 5.0, {0, 3, 4}}, {0, 5.0, {0, 5, 6}}};
static const kl_section_at outside[] = {{0, 0.0, {0, 1, 2}}, {0, 50.0, {0, 3, 4}}};
static const double hinge_at_end[] = {16.0};
static const double hinge_in_rigid[] = {0.5};
static const double hinges_twice[] = {5.0, 5.0};
WRONG_MEMBER(member_from_nothing, it.from = -1)
WRONG_MEMBER(member_of_strand, it.material = 1)
WRONG_MEMBER(member_without_section, it.section_count = 0)
WRONG_MEMBER(member_of_no_length, it.to = 4)
WRONG_MEMBER(member_all_rigid, it.rigid_start = 8; it.rigid_end = 8)
WRONG_MEMBER(member_rigid_negative, it.rigid_start = -1)
WRONG_MEMBER(member_mesh_zero, it.mesh = 0.0)
WRONG_MEMBER(member_mesh_fine, it.mesh = 1e-4)
WRONG_MEMBER(member_sections_backwards, it.sections = backwards; it.section_count = 2)
WRONG_MEMBER(member_sections_three, it.sections = three; it.section_count = 3)
WRONG_MEMBER(member_sections_outside, it.sections = outside; it.section_count = 2)
WRONG_MEMBER(member_hinge_at_end, it.hinges = hinge_at_end; it.hinge_count = 1)
WRONG_MEMBER(member_hinge_in_rigid, it.rigid_start = 1; it.hinges = hinge_in_rigid;
             it.hinge_count = 1)
WRONG_MEMBER(member_hinges_twice, it.hinges = hinges_twice; it.hinge_count = 2)
WRONG_MEMBER(member_axial_hinged, it.axial_only = true; it.hinge_end = true)
WRONG_MEMBER(member_many_hinges, it.hinge_count = 1001)

static kl_status member_of_two_makes(kl_model *model)
{
    kl_section round = bare_section();
    round.name = "round";
    round.shape = KL_CIRCLE;
    round.area = NAN;
    round.inertia = NAN;
    round.to_top = NAN;
    round.to_bottom = NAN;
    round.diameter = 1.0;
    kl_index at = KL_NONE;
    assert_int_equal(kl_model_add_section(model, &round, &at), KL_OK);
    const kl_section_at rows[] = {{0, 0.0, {0, 1, 2}}, {at, 16.0, {0, 3, 4}}};
    kl_member it = member("other", 1, 3);
    it.sections = rows;
    it.section_count = 2;
    return kl_model_add_member(model, &it, NULL);
}

#define WRONG_SUPPORT(function, change)                                                            \
    static kl_status function(kl_model *model)                                                     \
    {                                                                                              \
        kl_support it = support(2);                                                                \
        change;                                                                                    \
        return kl_model_add_support(model, &it, NULL);                                             \
    }
WRONG_SUPPORT(support_at_nothing, it.node = 9)
WRONG_SUPPORT(support_holds_nothing, it.hold[0].kind = KL_FREE; it.hold[1].kind = KL_FREE)
WRONG_SUPPORT(support_spring_zero, it.hold[0].kind = KL_SPRING)
WRONG_SUPPORT(support_pushes_turn, it.hold[2].kind = KL_PUSH_PLUS)

#define WRONG_BEARING(function, on, under)                                                         \
    static kl_status function(kl_model *model)                                                     \
    {                                                                                              \
        const kl_bearing it = {here, on, under, {{KL_FREE, 0}, {KL_FIXED, 0}, {KL_FREE, 0}}};      \
        return kl_model_add_bearing(model, &it, NULL);                                             \
    }
WRONG_BEARING(bearing_on_itself, 1, 1)
WRONG_BEARING(bearing_apart, 1, 2)
WRONG_BEARING(bearing_on_nothing, 1, 77)

#define WRONG_TENDON(function, change)                                                             \
    static kl_status function(kl_model *model)                                                     \
    {                                                                                              \
        kl_tendon it = tendon();                                                                   \
        kl_profile_row rows[3] = {sound_rows[0], sound_rows[1], sound_rows[2]};                    \
        kl_bend bend = {0.1, 2.0, 4.0, {0, 30, 31}};                                               \
        it.name = "other";                                                                         \
        it.rows = rows;                                                                            \
        it.bends = &bend;                                                                          \
        change;                                                                                    \
        return kl_model_add_tendon(model, &it, NULL);                                              \
    }
static const kl_index slope_and_level[] = {0, 1};
static const kl_index not_joined[] = {1, 0};
WRONG_TENDON(tendon_in_nothing, it.member_count = 0)
WRONG_TENDON(tendon_round_a_corner, it.members = slope_and_level; it.member_count = 2)
WRONG_TENDON(tendon_not_joined, it.members = not_joined; it.member_count = 2)
WRONG_TENDON(tendon_of_concrete, it.material = 0)
WRONG_TENDON(tendon_no_strands, it.units = 0)
WRONG_TENDON(tendon_no_force, it.jack_force = NAN)
WRONG_TENDON(tendon_too_strong, it.jack_force = 1860e6 * 12 * 140e-6 * 1.001)
WRONG_TENDON(tendon_none_of_it, it.count = 0)
WRONG_TENDON(tendon_one_row, it.row_count = 1)
WRONG_TENDON(tendon_rows_backwards, rows[1].station = 0.0)
WRONG_TENDON(tendon_row_outside, rows[2].station = 11.0)
WRONG_TENDON(tendon_row_nowhere, rows[1].station = NAN)
WRONG_TENDON(tendon_no_anchor, rows[2].kind = KL_ROW_LOW)
WRONG_TENDON(tendon_anchor_inside, rows[1].kind = KL_ROW_ANCHOR)
WRONG_TENDON(tendon_straight_first, rows[0].straight = true)
WRONG_TENDON(tendon_no_height, rows[1].ordinate = NAN)
WRONG_TENDON(tendon_friction_negative, it.friction = -0.1)
WRONG_TENDON(tendon_reference_high, it.reference = 1.5)
WRONG_TENDON(tendon_bend_backwards, it.bend_count = 1; bend.to = 1.0)

#define WRONG_FALSEWORK(function, change)                                                          \
    static kl_status function(kl_model *model)                                                     \
    {                                                                                              \
        kl_falsework it = falsework();                                                             \
        double stations[3] = {1.0, 4.0, 7.0};                                                      \
        it.name = "other";                                                                         \
        it.stations = stations;                                                                    \
        change;                                                                                    \
        return kl_model_add_falsework(model, &it, NULL);                                           \
    }
WRONG_FALSEWORK(falsework_no_rows, it.row_count = 0)
WRONG_FALSEWORK(falsework_rows_mixed, stations[1] = 9.0)
WRONG_FALSEWORK(falsework_row_outside, stations[2] = 10.5)
WRONG_FALSEWORK(falsework_soft, it.stiffness = NAN)
WRONG_FALSEWORK(falsework_no_posts, it.posts = 0)
WRONG_FALSEWORK(falsework_on_itself, it.carrier = 1)
WRONG_FALSEWORK(falsework_half_stringer, it.stringer_section = 0)

#define WRONG_LOAD(function, change)                                                               \
    static kl_status function(kl_model *model)                                                     \
    {                                                                                              \
        kl_load it = point_load();                                                                 \
        kl_temperature_point points[2] = {{0.0, 10.0}, {0.5, 0.0}};                                \
        it.points = points;                                                                        \
        change;                                                                                    \
        const kl_case one = {"other", here, &it, 1};                                               \
        return kl_model_add_case(model, &one, NULL);                                               \
    }
WRONG_LOAD(load_outside, it.from = 10.1)
WRONG_LOAD(load_no_value, it.value = NAN)
WRONG_LOAD(load_not_unit, it.dy = -2.0)
WRONG_LOAD(load_two_places, it.node = 0)
WRONG_LOAD(load_local_at_node, it.node = 0; it.member = KL_NONE; it.frame = KL_LOCAL)
WRONG_LOAD(load_no_length, it.kind = KL_LOAD_DISTRIBUTED; it.value_end = 1.0; it.to = 2.0)
WRONG_LOAD(load_tendon_missing, it.kind = KL_LOAD_TENDON; it.member = KL_NONE; it.tendon = 5)
WRONG_LOAD(load_profile_short, it.kind = KL_LOAD_PROFILE; it.point_count = 1)
WRONG_LOAD(load_profile_rises, it.kind = KL_LOAD_PROFILE; it.point_count = 2; points[1].depth = 0.0)

static kl_status case_of_nothing(kl_model *model)
{
    const kl_case none = {"other", here, NULL, 0};
    return kl_model_add_case(model, &none, NULL);
}

#define WRONG_STAGE(function, change)                                                              \
    static kl_status function(kl_model *model)                                                     \
    {                                                                                              \
        kl_index items[2] = {0, 1};                                                                \
        kl_operation op = {KL_OP_PLACE, here, {items, 1}, 1.0, NAN, NAN, NAN, {0}, NAN};           \
        kl_stage it = {"other", "", here, 3 * KL_DAY, true, &op, 1};                               \
        change;                                                                                    \
        return kl_model_add_stage(model, &it, NULL);                                               \
    }
WRONG_STAGE(stage_too_early, it.time = KL_DAY)
WRONG_STAGE(stage_too_late, it.time = 1e12)
WRONG_STAGE(stage_of_no_item, op.items.count = 0)
WRONG_STAGE(stage_of_two_releases, op.kind = KL_OP_RELEASE; op.items.count = 2)
WRONG_STAGE(stage_of_missing, items[0] = 40)
WRONG_STAGE(stage_twice_the_same, items[1] = 0; op.items.count = 2)
WRONG_STAGE(stage_stress_to_zero, op.kind = KL_OP_STRESS; op.factor = 0.0)
WRONG_STAGE(stage_lose_nothing, op.kind = KL_OP_LOSE)
WRONG_STAGE(stage_release_backwards, op.kind = KL_OP_RELEASE; op.from = 5.0; op.to = 4.0)
WRONG_STAGE(stage_release_no_row, op.kind = KL_OP_RELEASE; op.from = 8.0; op.to = 9.0)
WRONG_STAGE(stage_free_nothing, op.kind = KL_OP_FREE)
WRONG_STAGE(stage_unlock_outside, op.kind = KL_OP_UNLOCK; op.station = 5.2)

static kl_status stage_unlocks_axial(kl_model *model)
{
    kl_member strut = member("strut", 0, 3);
    strut.axial_only = true;
    kl_index at = KL_NONE;
    assert_int_equal(kl_model_add_member(model, &strut, &at), KL_OK);
    const kl_operation op = {KL_OP_UNLOCK, here, {&at, 1}, 1.0, NAN, NAN, NAN, {0}, 0.0};
    const kl_stage it = {"other", "", here, 3 * KL_DAY, true, &op, 1};
    return kl_model_add_stage(model, &it, NULL);
}

#define WRONG_COMBINATION(function, change)                                                        \
    static kl_status function(kl_model *model)                                                     \
    {                                                                                              \
        kl_factor factor = {1.25, {KL_CAUSE_CASE, 0}, here};                                       \
        kl_combination it = {"other", here, &factor, 1};                                           \
        change;                                                                                    \
        return kl_model_add_combination(model, &it, NULL);                                         \
    }
WRONG_COMBINATION(combination_empty, it.factor_count = 0)
WRONG_COMBINATION(combination_of_missing, factor.cause.load_case = 3)
WRONG_COMBINATION(combination_infinite, factor.factor = INFINITY)

#define WRONG_CHECK(function, change)                                                              \
    static kl_status function(kl_model *model)                                                     \
    {                                                                                              \
        kl_check it = check();                                                                     \
        it.name = "other";                                                                         \
        change;                                                                                    \
        return kl_model_add_check(model, &it, NULL);                                               \
    }
WRONG_CHECK(check_of_nothing, it.members.count = 0)
WRONG_CHECK(check_without_limit, it.compression = NAN)
WRONG_CHECK(check_with_both, it.rules = KL_RULES_AASHTO_2020; it.condition = KL_IN_SERVICE)
WRONG_CHECK(check_without_condition, it.rules = KL_RULES_AASHTO_2020; it.compression = NAN)
WRONG_CHECK(check_at_no_time, it.when.kind = KL_WHEN_UNSET)
WRONG_CHECK(check_backwards, it.when.kind = KL_WHEN_FROM_TO; it.when.first = 1; it.when.last = 0)
WRONG_CHECK(check_under_missing, it.when.kind = KL_WHEN_COMBINATION; it.when.first = 4)

#define WRONG_EXPECT(function, change)                                                             \
    static kl_status function(kl_model *model)                                                     \
    {                                                                                              \
        kl_expectation it = expectation();                                                         \
        change;                                                                                    \
        return kl_model_add_expectation(model, &it, NULL);                                         \
    }
WRONG_EXPECT(expect_outside, it.station = 12.0)
WRONG_EXPECT(expect_nowhere, it.member = KL_NONE)
WRONG_EXPECT(expect_no_station, it.station = NAN)
WRONG_EXPECT(expect_no_row, it.quantity = KL_POST; it.member = KL_NONE; it.falsework = 0;
             it.station = 4.5)
WRONG_EXPECT(expect_primary_sway, it.quantity = KL_SWAY; it.part = KL_PRIMARY)
WRONG_EXPECT(expect_no_when, it.when.kind = KL_WHEN_UNSET)
WRONG_EXPECT(expect_during_once, it.when.kind = KL_WHEN_DURING)
WRONG_EXPECT(expect_percent_of_zero, it.value = 0.0)
WRONG_EXPECT(expect_negative_tolerance, it.tolerance = -0.1)

static const wrong wrongs[] = {
    {"material_without_name", "no-name", material_without_name},
    {"material_name_taken", "name-taken", material_name_taken},
    {"material_strength_zero", "not-positive", material_strength_zero},
    {"material_infinite", "not-positive", material_infinite},
    {"material_weight_negative", "negative", material_weight_negative},
    {"material_modulus_missing", "not-given", material_modulus_missing},
    {"material_yield_high", "yield-above-ultimate", material_yield_high},
    {"section_name_taken", "name-taken", section_name_taken},
    {"section_turned_nan", "not-finite", section_turned_nan},
    {"section_rebar_of_concrete", "wrong-material", section_rebar_of_concrete},
    {"section_rebar_of_nothing", "bad-reference", section_rebar_of_nothing},
    {"section_rebar_without_depth", "not-finite", section_rebar_without_depth},
    {"section_many_voids", "too-many", section_many_voids},
    {"node_infinite", "not-finite", node_infinite},
    {"node_on_nothing", "bad-reference", node_on_nothing},
    {"node_beyond_member", "outside-member", node_beyond_member},
    {"node_before_member", "outside-member", node_before_member},
    {"member_from_nothing", "bad-reference", member_from_nothing},
    {"member_of_strand", "wrong-material", member_of_strand},
    {"member_without_section", "no-section", member_without_section},
    {"member_of_no_length", "no-length", member_of_no_length},
    {"member_all_rigid", "rigid-too-long", member_all_rigid},
    {"member_rigid_negative", "negative", member_rigid_negative},
    {"member_mesh_zero", "not-positive", member_mesh_zero},
    {"member_mesh_fine", "mesh-too-fine", member_mesh_fine},
    {"member_sections_backwards", "section-order", member_sections_backwards},
    {"member_sections_three", "section-order", member_sections_three},
    {"member_sections_outside", "outside-member", member_sections_outside},
    {"member_of_two_makes", "section-cannot-vary", member_of_two_makes},
    {"member_hinge_at_end", "hinge-place", member_hinge_at_end},
    {"member_hinge_in_rigid", "hinge-place", member_hinge_in_rigid},
    {"member_hinges_twice", "hinge-twice", member_hinges_twice},
    {"member_axial_hinged", "axial-hinge", member_axial_hinged},
    {"member_many_hinges", "too-many", member_many_hinges},
    {"support_at_nothing", "bad-reference", support_at_nothing},
    {"support_holds_nothing", "holds-nothing", support_holds_nothing},
    {"support_spring_zero", "not-positive", support_spring_zero},
    {"support_pushes_turn", "push-turn", support_pushes_turn},
    {"bearing_on_itself", "bearing-on-itself", bearing_on_itself},
    {"bearing_apart", "bearing-apart", bearing_apart},
    {"bearing_on_nothing", "bad-reference", bearing_on_nothing},
    {"tendon_in_nothing", "no-member", tendon_in_nothing},
    {"tendon_round_a_corner", "members-not-in-line", tendon_round_a_corner},
    {"tendon_not_joined", "members-not-in-line", tendon_not_joined},
    {"tendon_of_concrete", "wrong-material", tendon_of_concrete},
    {"tendon_no_strands", "not-positive", tendon_no_strands},
    {"tendon_no_force", "not-given", tendon_no_force},
    {"tendon_too_strong", "jack-above-ultimate", tendon_too_strong},
    {"tendon_none_of_it", "tendon-count", tendon_none_of_it},
    {"tendon_one_row", "no-profile", tendon_one_row},
    {"tendon_rows_backwards", "profile-order", tendon_rows_backwards},
    {"tendon_row_outside", "outside-member", tendon_row_outside},
    {"tendon_row_nowhere", "not-finite", tendon_row_nowhere},
    {"tendon_no_anchor", "profile-ends", tendon_no_anchor},
    {"tendon_anchor_inside", "profile-ends", tendon_anchor_inside},
    {"tendon_straight_first", "straight-from-nowhere", tendon_straight_first},
    {"tendon_no_height", "no-ordinate", tendon_no_height},
    {"tendon_friction_negative", "negative", tendon_friction_negative},
    {"tendon_reference_high", "out-of-range", tendon_reference_high},
    {"tendon_bend_backwards", "bend-range", tendon_bend_backwards},
    {"falsework_no_rows", "no-rows", falsework_no_rows},
    {"falsework_rows_mixed", "row-order", falsework_rows_mixed},
    {"falsework_row_outside", "outside-member", falsework_row_outside},
    {"falsework_soft", "not-given", falsework_soft},
    {"falsework_no_posts", "posts-count", falsework_no_posts},
    {"falsework_on_itself", "carries-itself", falsework_on_itself},
    {"falsework_half_stringer", "half-a-stringer", falsework_half_stringer},
    {"load_outside", "outside-member", load_outside},
    {"load_no_value", "not-finite", load_no_value},
    {"load_not_unit", "bad-direction", load_not_unit},
    {"load_two_places", "load-place", load_two_places},
    {"load_local_at_node", "load-frame", load_local_at_node},
    {"load_no_length", "load-range", load_no_length},
    {"load_tendon_missing", "bad-reference", load_tendon_missing},
    {"load_profile_short", "gradient-points", load_profile_short},
    {"load_profile_rises", "gradient-points", load_profile_rises},
    {"case_of_nothing", "no-load", case_of_nothing},
    {"stage_too_early", "stage-order", stage_too_early},
    {"stage_too_late", "stage-too-late", stage_too_late},
    {"stage_of_no_item", "operation-items", stage_of_no_item},
    {"stage_of_two_releases", "operation-items", stage_of_two_releases},
    {"stage_of_missing", "bad-reference", stage_of_missing},
    {"stage_twice_the_same", "named-twice", stage_twice_the_same},
    {"stage_stress_to_zero", "not-positive", stage_stress_to_zero},
    {"stage_lose_nothing", "not-given", stage_lose_nothing},
    {"stage_release_backwards", "release-range", stage_release_backwards},
    {"stage_release_no_row", "release-nothing", stage_release_no_row},
    {"stage_free_nothing", "free-nothing", stage_free_nothing},
    {"stage_unlock_outside", "outside-member", stage_unlock_outside},
    {"stage_unlocks_axial", "axial-hinge", stage_unlocks_axial},
    {"combination_empty", "no-factor", combination_empty},
    {"combination_of_missing", "bad-reference", combination_of_missing},
    {"combination_infinite", "not-finite", combination_infinite},
    {"check_of_nothing", "checks-nothing", check_of_nothing},
    {"check_without_limit", "no-limits", check_without_limit},
    {"check_with_both", "rules-and-limits", check_with_both},
    {"check_without_condition", "no-condition", check_without_condition},
    {"check_at_no_time", "no-when", check_at_no_time},
    {"check_backwards", "stages-backwards", check_backwards},
    {"check_under_missing", "bad-reference", check_under_missing},
    {"expect_outside", "outside-member", expect_outside},
    {"expect_nowhere", "bad-reference", expect_nowhere},
    {"expect_no_station", "no-station", expect_no_station},
    {"expect_no_row", "no-row-there", expect_no_row},
    {"expect_primary_sway", "part-of-what", expect_primary_sway},
    {"expect_no_when", "no-when", expect_no_when},
    {"expect_during_once", "during-one-value", expect_during_once},
    {"expect_percent_of_zero", "relative-to-zero", expect_percent_of_zero},
    {"expect_negative_tolerance", "negative", expect_negative_tolerance},
};

static void add_wrong_thing_is_reported(void **state)
{
    const wrong *row = *state;
    world w;
    assert_int_equal(make_world(&w), KL_OK);
    assert_int_equal(kl_diags_count(w.diags), 0);
    const kl_model before = *w.model;
    assert_int_equal(row->add(w.model), KL_BAD_MODEL);
    bool found = false;
    for (kl_index i = 0; i < kl_diags_count(w.diags); i++) {
        const kl_diag *diag = kl_diags_get(w.diags, i);
        if (diag->severity == KL_ERROR && strcmp(diag->name, row->name) == 0) {
            found = true;
            assert_int_equal(diag->origin.file, 0);
        } else if (diag->severity == KL_ERROR) {
            print_error("also: %s: %s\n", diag->name, diag->message);
        }
    }
    assert_true(found);
    assert_int_equal(w.model->node_count, before.node_count);
    assert_int_equal(w.model->tendon_count, before.tendon_count);
    assert_int_equal(w.model->case_count, before.case_count);
    assert_int_equal(w.model->stage_count, before.stage_count);
    assert_int_equal(w.model->support_count, before.support_count);
    assert_int_equal(w.model->expectation_count, before.expectation_count);
    assert_int_equal(kl_model_find(w.model, KL_KIND_TENDON, "other"), KL_NONE);
    assert_int_equal(kl_model_find(w.model, KL_KIND_MEMBER, "other"), KL_NONE);
    destroy_world(&w);
}

/* ---- what is right ----------------------------------------------------------------------------------------- */

static void model_keeps_copies(void **state)
{
    (void)state;
    world w;
    assert_int_equal(make_world(&w), KL_OK);
    char name[] = "copy";
    double hinges[] = {3.0};
    kl_section_at rows[] = {{0, 0.0, {0, 1, 2}}, {0, 16.0, {0, 3, 4}}};
    kl_member it = member(name, 1, 3);
    it.sections = rows;
    it.section_count = 2;
    it.hinges = hinges;
    it.hinge_count = 1;
    kl_index at = KL_NONE;
    assert_int_equal(kl_model_add_member(w.model, &it, &at), KL_OK);
    name[0] = 'X';
    hinges[0] = -1.0;
    rows[1].station = -1.0;
    const kl_member *kept = &w.model->members[at];
    assert_string_equal(kept->name, "copy");
    assert_close(kept->hinges[0], 3.0, 0, 0);
    assert_close(kept->sections[1].station, 16.0, 0, 0);
    assert_int_equal(kl_model_find(w.model, KL_KIND_MEMBER, "copy"), at);
    assert_int_equal(kl_model_find(w.model, KL_KIND_NODE, "copy"), KL_NONE);
    assert_int_equal(kl_model_find(w.model, KL_KIND_MEMBER, NULL), KL_NONE);
    destroy_world(&w);
}

/* 3-4-5: a point 2.5 m up the sloping member is at (2, 1.5). */
static void member_geometry_follows_pythagoras(void **state)
{
    (void)state;
    world w;
    assert_int_equal(make_world(&w), KL_OK);
    assert_close(kl_member_length(w.model, 0), 5.0, 1e-15, 0);
    const kl_point mid = kl_member_point(w.model, 0, 2.5);
    assert_close(mid.x, 2.0, 1e-15, 0);
    assert_close(mid.y, 1.5, 1e-15, 0);
    const kl_point end = kl_member_point(w.model, 0, kl_member_length(w.model, 0));
    assert_close(end.x, 4.0, 0, 0);
    assert_close(end.y, 3.0, 0, 0);
    kl_node on = {.name = "on", .origin = here, .member = 0, .station = 1.0};
    kl_index at = KL_NONE;
    assert_int_equal(kl_model_add_node(w.model, &on, &at), KL_OK);
    assert_close(w.model->nodes[at].x, 0.8, 1e-15, 0);
    assert_close(w.model->nodes[at].y, 0.6, 1e-15, 0);
    destroy_world(&w);
}

/* A station out by less than 1e-6 of the length is the end itself; a tendon's range is the sum of its members. */
static void stations_are_cut_to_the_member(void **state)
{
    (void)state;
    world w;
    assert_int_equal(make_world(&w), KL_OK);
    kl_node on = {.name = "on", .origin = here, .member = 1, .station = 10.0 + 0.9e-5};
    kl_index at = KL_NONE;
    assert_int_equal(kl_model_add_node(w.model, &on, &at), KL_OK);
    assert_close(w.model->nodes[at].station, 10.0, 0, 0);
    on.name = "off";
    on.station = 10.0 + 1.1e-5;
    assert_int_equal(kl_model_add_node(w.model, &on, &at), KL_BAD_MODEL);
    static const kl_index through[] = {1, 2};
    kl_tendon it = tendon();
    it.name = "through";
    it.members = through;
    it.member_count = 2;
    assert_int_equal(kl_model_add_tendon(w.model, &it, &at), KL_OK);
    assert_close(kl_tendon_range(w.model, at), 16.0, 1e-15, 0);
    destroy_world(&w);
}

static void names_of_causes_and_quantities_are_words(void **state)
{
    (void)state;
    world w;
    assert_int_equal(make_world(&w), KL_OK);
    assert_string_equal(kl_cause_name(w.model, (kl_cause){KL_CAUSE_CASE, 0}), "dead");
    assert_string_equal(kl_cause_name(w.model, (kl_cause){KL_CAUSE_WEIGHT, KL_NONE}), "weight");
    assert_string_equal(kl_cause_name(w.model, (kl_cause){KL_CAUSE_MOVEMENT, KL_NONE}), "movement");
    for (int kind = 0; kind < KL_CAUSE_COUNT; kind++) {
        for (int other = 0; other < kind; other++) {
            const kl_cause a = {(kl_cause_kind)kind, 0};
            const kl_cause b = {(kl_cause_kind)other, 0};
            assert_string_not_equal(kl_cause_name(w.model, a), kl_cause_name(w.model, b));
        }
    }
    for (int q = KL_MOMENT; q <= KL_POST; q++) {
        for (int other = KL_MOMENT; other < q; other++) {
            assert_string_not_equal(kl_quantity_name((kl_quantity)q),
                                    kl_quantity_name((kl_quantity)other));
        }
    }
    destroy_world(&w);
}

/* Ten thousand names, found each: and more materials than that are refused by number. */
static void model_grows_to_its_limit(void **state)
{
    (void)state;
    world w;
    assert_int_equal(make_world(&w), KL_OK);
    char name[32];
    kl_material it = concrete();
    it.name = name;
    for (int i = w.model->material_count; i < 10000; i++) {
        (void)snprintf(name, sizeof name, "m%d", i);
        kl_index at = KL_NONE;
        assert_int_equal(kl_model_add_material(w.model, &it, &at), KL_OK);
        assert_int_equal(at, i);
    }
    assert_int_equal(kl_model_find(w.model, KL_KIND_MATERIAL, "m4711"), 4711);
    assert_string_equal(w.model->materials[4711].name, "m4711");
    it.name = "one too many";
    assert_int_equal(kl_model_add_material(w.model, &it, NULL), KL_TOO_LARGE);
    assert_int_equal(kl_diags_count(w.diags), 1);
    assert_string_equal(kl_diags_get(w.diags, 0)->name, "too-many");
    destroy_world(&w);
}

static void settings_are_kept(void **state)
{
    (void)state;
    world w;
    assert_int_equal(make_world(&w), KL_OK);
    char title[] = "Bent 7";
    char unit[] = "kPa";
    kl_display display = {.system = KL_UNITS_SI};
    display.unit_of[KL_MEASURE_STRESS] = unit;
    kl_model_set_title(w.model, title);
    kl_model_set_display(w.model, &display);
    kl_model_set_skew(w.model, 0.5);
    kl_model_set_humidity(w.model, 0.7);
    kl_model_set_sections_gross(w.model, true);
    title[0] = unit[0] = 'X';
    assert_string_equal(w.model->title, "Bent 7");
    assert_string_equal(w.model->display.unit_of[KL_MEASURE_STRESS], "kPa");
    assert_close(w.model->skew, 0.5, 0, 0);
    assert_true(w.model->has_skew);
    assert_close(w.model->humidity, 0.7, 0, 0);
    assert_true(w.model->sections_gross);
    kl_model_set_title(w.model, NULL);
    assert_string_equal(w.model->title, "");
    destroy_world(&w);
}

/* For k = 0, 1, 2, … the (k+1)-th allocation fails: never a crash, always KL_NO_MEMORY, everything freed. */
static void build_without_memory_is_clean(void **state)
{
    (void)state;
    long k = 0;
    for (; k < 10000; k++) {
        world w;
        fault_after(k);
        const kl_status status = make_world(&w);
        const int struck = fault_struck();
        fault_after(-1);
        destroy_world(&w);
        if (!struck) {
            assert_int_equal(status, KL_OK);
            break;
        }
        assert_true(status == KL_NO_MEMORY || status == KL_OK);
    }
    assert_true(k > 10 && k < 10000);
}

int main(void)
{
    const struct CMUnitTest right[] = {
        cmocka_unit_test(model_keeps_copies),
        cmocka_unit_test(member_geometry_follows_pythagoras),
        cmocka_unit_test(stations_are_cut_to_the_member),
        cmocka_unit_test(names_of_causes_and_quantities_are_words),
        cmocka_unit_test(model_grows_to_its_limit),
        cmocka_unit_test(settings_are_kept),
        cmocka_unit_test(build_without_memory_is_clean),
    };
    struct CMUnitTest tests[sizeof wrongs / sizeof wrongs[0]];
    for (int i = 0; i < DIM(wrongs); i++) {
        /* cmocka hands the row on as a plain pointer; nobody writes through it. */
        tests[i] = (struct CMUnitTest){wrongs[i].test, add_wrong_thing_is_reported, NULL, NULL,
                                       (void *)(uintptr_t)&wrongs[i]};
    }
    int failed = cmocka_run_group_tests_name("build: right", right, NULL, NULL);
    failed += cmocka_run_group_tests_name("build: wrong", tests, NULL, NULL);
    return failed;
}
