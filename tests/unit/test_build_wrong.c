/* test_build_wrong.c - every message of the builder.
 *
 * Each row of the table spoils one thing of a sound model and names the message that must come, with nothing added.
 * SPDX-License-Identifier: MIT */
#include <math.h>
#include <string.h>

#include "assert_close.h"
#include "sound_model.h"

typedef struct wrong {
    const char *test;
    const char *name; /* of the message */
    kl_status (*add)(kl_model *model);
} wrong;

#define WRONG_MATERIAL(function, change)                                                           \
    static kl_status function(kl_model *model)                                                     \
    {                                                                                              \
        kl_material it = sound_concrete();                                                         \
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
static const kl_time_point endless[] = {{.time = 1e6, .value = 1.0},
                                        {.time = (double)INFINITY, .value = 2.0}};
static const kl_time_point unknown = {.time = 1e6, .value = (double)NAN};
WRONG_MATERIAL(material_creep_without_curve, it.creep = KL_LAW_USER)
WRONG_MATERIAL(material_curve_without_law, it.creep_curve.points = endless;
               it.creep_curve.count = 1)
WRONG_MATERIAL(material_curve_to_infinity, it.creep = KL_LAW_USER; it.creep_curve.points = endless;
               it.creep_curve.count = 2)
WRONG_MATERIAL(material_curve_unknown, it.shrinkage = KL_LAW_USER;
               it.shrinkage_curve.points = &unknown;
               it.shrinkage_curve.count = 1)
WRONG_MATERIAL(material_curve_long, it.creep = KL_LAW_USER; it.creep_curve.points = endless;
               it.creep_curve.count = 1001)
WRONG_MATERIAL(material_relaxation_missing, it.relaxation = KL_RELAXATION_VALUE;
               it.relaxation_loss = NAN)

#define WRONG_SECTION(function, change)                                                            \
    static kl_status function(kl_model *model)                                                     \
    {                                                                                              \
        kl_section it = sound_bare_section();                                                      \
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
        kl_node it = sound_node("other", 0, 0);                                                    \
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
        kl_member it = sound_member("other", 1, 3);                                                \
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
    kl_section round = sound_bare_section();
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
    kl_member it = sound_member("other", 1, 3);
    it.sections = rows;
    it.section_count = 2;
    return kl_model_add_member(model, &it, NULL);
}

#define WRONG_SUPPORT(function, change)                                                            \
    static kl_status function(kl_model *model)                                                     \
    {                                                                                              \
        kl_support it = sound_support(2);                                                          \
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
        const kl_bearing it = {                                                                    \
            sound_place, on, under, {{KL_FREE, 0}, {KL_FIXED, 0}, {KL_FREE, 0}}};                  \
        return kl_model_add_bearing(model, &it, NULL);                                             \
    }
WRONG_BEARING(bearing_on_itself, 1, 1)
WRONG_BEARING(bearing_apart, 1, 2)
WRONG_BEARING(bearing_on_nothing, 1, 77)

#define WRONG_TENDON(function, change)                                                             \
    static kl_status function(kl_model *model)                                                     \
    {                                                                                              \
        kl_tendon it = sound_tendon();                                                             \
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
        kl_falsework it = sound_falsework();                                                       \
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
        kl_load it = sound_point_load();                                                           \
        kl_temperature_point points[2] = {{0.0, 10.0}, {0.5, 0.0}};                                \
        it.points = points;                                                                        \
        change;                                                                                    \
        const kl_case one = {"other", sound_place, &it, 1};                                        \
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
    const kl_case none = {"other", sound_place, NULL, 0};
    return kl_model_add_case(model, &none, NULL);
}

#define WRONG_STAGE(function, change)                                                              \
    static kl_status function(kl_model *model)                                                     \
    {                                                                                              \
        kl_index items[2] = {0, 1};                                                                \
        kl_operation op = {KL_OP_PLACE, sound_place, {items, 1}, 1.0, NAN, NAN, NAN, {0}, NAN};    \
        kl_stage it = {"other", "", sound_place, 3 * KL_DAY, true, &op, 1};                        \
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
    kl_member strut = sound_member("strut", 0, 3);
    strut.axial_only = true;
    kl_index at = KL_NONE;
    assert_int_equal(kl_model_add_member(model, &strut, &at), KL_OK);
    const kl_operation op = {KL_OP_UNLOCK, sound_place, {&at, 1}, 1.0, NAN, NAN, NAN, {0}, 0.0};
    const kl_stage it = {"other", "", sound_place, 3 * KL_DAY, true, &op, 1};
    return kl_model_add_stage(model, &it, NULL);
}

#define WRONG_COMBINATION(function, change)                                                        \
    static kl_status function(kl_model *model)                                                     \
    {                                                                                              \
        kl_factor factor = {1.25, {KL_CAUSE_CASE, 0}, sound_place};                                \
        kl_combination it = {"other", sound_place, &factor, 1};                                    \
        change;                                                                                    \
        return kl_model_add_combination(model, &it, NULL);                                         \
    }
WRONG_COMBINATION(combination_empty, it.factor_count = 0)
WRONG_COMBINATION(combination_of_missing, factor.cause.load_case = 3)
WRONG_COMBINATION(combination_infinite, factor.factor = INFINITY)

#define WRONG_CHECK(function, change)                                                              \
    static kl_status function(kl_model *model)                                                     \
    {                                                                                              \
        kl_check it = sound_check();                                                               \
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
        kl_expectation it = sound_expectation();                                                   \
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

#define WRONG_GRADE(function, change)                                                              \
    static kl_status function(kl_model *model)                                                     \
    {                                                                                              \
        kl_grade_point at[] = {{0.0, 30.0, {0, 1, 2}}, {10.0, 31.0, {0, 3, 4}}};                   \
        kl_grade it = {{0, 1, 2}, 1, 0, at, 2};                                                    \
        change;                                                                                    \
        return kl_model_add_grade(model, &it, NULL);                                               \
    }
WRONG_GRADE(grade_of_nothing, it.member = 99)
WRONG_GRADE(grade_for_no_stage, it.target = KL_NONE)
WRONG_GRADE(grade_without_points, it.point_count = 0)
WRONG_GRADE(grade_long, it.point_count = 10001)
WRONG_GRADE(grade_unknown, at[1].elevation = NAN)
WRONG_GRADE(grade_infinite, at[0].elevation = INFINITY)
WRONG_GRADE(grade_nowhere, at[1].station = NAN)
WRONG_GRADE(grade_outside, at[1].station = 10.1)
WRONG_GRADE(grade_backwards, at[0].station = 10.0; at[1].station = 0.0)
WRONG_GRADE(grade_at_one_place, at[0].station = 10.0)
WRONG_GRADE(grade_twice, (void)kl_model_add_grade(model, &it, NULL))

/* clang-format off */
static const wrong wrongs[] = {
    {"material_without_name", "no-name", material_without_name},
    {"material_name_taken", "name-taken", material_name_taken},
    {"material_strength_zero", "not-positive", material_strength_zero},
    {"material_infinite", "not-positive", material_infinite},
    {"material_creep_without_curve", "no-curve", material_creep_without_curve},
    {"material_curve_without_law", "curve-of-law", material_curve_without_law},
    {"material_curve_to_infinity", "curve-order", material_curve_to_infinity},
    {"material_curve_unknown", "curve-negative", material_curve_unknown},
    {"material_curve_long", "too-many", material_curve_long},
    {"material_relaxation_missing", "not-finite", material_relaxation_missing},
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
    {"grade_of_nothing", "bad-reference", grade_of_nothing},
    {"grade_for_no_stage", "bad-reference", grade_for_no_stage},
    {"grade_without_points", "no-points", grade_without_points},
    {"grade_long", "too-many", grade_long},
    {"grade_unknown", "not-finite", grade_unknown},
    {"grade_infinite", "not-finite", grade_infinite},
    {"grade_nowhere", "not-finite", grade_nowhere},
    {"grade_outside", "outside-member", grade_outside},
    {"grade_backwards", "grade-points-order", grade_backwards},
    {"grade_at_one_place", "grade-points-order", grade_at_one_place},
    {"grade_twice", "grade-twice", grade_twice},
};
/* clang-format on */

static void add_wrong_thing_is_reported(void **state)
{
    const wrong *row = *state;
    sound_model w;
    assert_int_equal(sound_model_make(&w), KL_OK);
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
    assert_int_equal(w.model->grade_count, strcmp(row->name, "grade-twice") == 0);
    assert_int_equal(kl_model_find(w.model, KL_KIND_TENDON, "other"), KL_NONE);
    assert_int_equal(kl_model_find(w.model, KL_KIND_MEMBER, "other"), KL_NONE);
    sound_model_destroy(&w);
}

int main(void)
{
    struct CMUnitTest tests[sizeof wrongs / sizeof wrongs[0]];
    for (int i = 0; i < (int)(sizeof wrongs / sizeof wrongs[0]); i++) {
        /* cmocka hands the row on as a plain pointer; nobody writes through it. */
        void *row = (void *)(uintptr_t)&wrongs[i];
        tests[i] =
            (struct CMUnitTest){wrongs[i].test, add_wrong_thing_is_reported, NULL, NULL, row};
    }
    return cmocka_run_group_tests_name("build: wrong", tests, NULL, NULL);
}
