/* test_bind_stage.c - from a text to a model: stages, combinations, checks, expectations.
 *
 * Rows of tables: a text, one number of the model made of it, and the value worked out by hand from the definitions
 * of the units and of the language.
 * SPDX-License-Identifier: MIT */
#include <math.h>

#include "bound_text.h"

#define DIM(array) ((int)(sizeof(array) / sizeof((array)[0])))

GET(stage_time, m->stages[m->stage_count - 1].time)
GET(stage_has_time, m->stages[m->stage_count - 1].has_time)
GET(operations, m->stages[0].operation_count)
GET(op_kind, m->stages[0].operations[0].kind)
GET(op_items, m->stages[0].operations[0].items.count)
GET(op_item, m->stages[0].operations[0].items.items[0])
GET(op_factor, m->stages[0].operations[0].factor)
GET(op_value, m->stages[0].operations[0].value)
GET(op_from, m->stages[0].operations[0].from)
GET(op_station, m->stages[0].operations[0].station)
GET(op_free,
    100 * m->stages[0].operations[0].directions[0] + 10 * m->stages[0].operations[0].directions[1] +
        m->stages[0].operations[0].directions[2])
GET(late, m->supports[m->stages[0].operations[1].items.items[0]].added_later)
GET(late_node, m->supports[m->stages[0].operations[1].items.items[0]].node)

#define STAGE(text)                                                                                \
    FRAME_US TENDON_US "falsework f under cap at 4 ft, 20 ft { stiffness 450 kip/in }\n"           \
                       "load dead { uniform 1 klf on cap }\nload live { uniform 2 klf on cap }\n"  \
                       "set loads dead live\nstage s at 3 day { " text " }"

/* clang-format off */
static const number_case stages[] = {
    {"at", STAGE("cast cap"), stage_time, 3 * 86400.0},
    {"wait", STAGE("cast cap") "\nstage u wait 2 day", stage_time, 5 * 86400.0},
    {"wait_of_wait", STAGE("cast cap") "\nstage u wait 2 day\nstage v wait 12 hour", stage_time,
     5.5 * 86400.0},
    {"without_day", STAGE("cast cap") "\nstage u \"Next\" { grout T1 }", stage_time, 3 * 86400.0},
    {"no_day_at_all", FRAME_US "stage u { place cap }", stage_has_time, 0},
    {"cast_set", STAGE("cast columns"), op_items, 2},
    {"cast_list", STAGE("cast cap columns"), op_items, 3},
    {"order", STAGE("cast columns; erect f; cast cap; stress T1"), operations, 4},
    {"erect", STAGE("erect f"), op_kind, KL_OP_ERECT},
    {"place", STAGE("place rafter"), op_item, 3},
    {"stress_share", STAGE("stress T1 to 50 %"), op_factor, 0.5},
    {"stress_all", STAGE("stress T1"), op_factor, 1.0},
    {"lose", STAGE("lose T1 22 ksi"), op_value, 22 * KSI},
    {"lose_tendon", STAGE("lose T1 22 ksi"), op_item, 0},
    {"release", STAGE("release f"), op_kind, KL_OP_RELEASE},
    {"release_from", STAGE("release f from 16 ft to end"), op_from, 16 * FT},
    {"load_times", STAGE("load dead times 1.4"), op_factor, 1.4},
    {"load_set", STAGE("load loads"), op_items, 2},
    {"unload", STAGE("unload live"), op_item, 1},
    {"free", STAGE("free A turn"), op_free, 1},
    {"free_all", STAGE("free A"), op_free, 111},
    {"unlock_end", STAGE("unlock col_2 end"), op_station, 24 * FT},
    {"unlock_start", STAGE("unlock col_2 start"), op_station, 0},
    {"lock_at", STAGE("lock cap at mid"), op_station, 20 * FT},
    {"support", STAGE("cast cap; support C y fixed"), late, 1},
    {"support_node", STAGE("cast cap; support C y fixed"), late_node, 6},
};
/* clang-format on */

GET(factors, m->combinations[0].factor_count)
GET(factor_0, m->combinations[0].factors[0].factor)
GET(factor_cause, m->combinations[0].factors[0].cause.kind)
GET(factor_case, m->combinations[0].factors[1].cause.load_case)
GET(check_when, m->checks[0].when.kind)
GET(check_last, m->checks[0].when.last)
GET(check_rules, m->checks[0].rules)
GET(check_condition, m->checks[0].condition)
GET(check_compression, m->checks[0].compression)
GET(check_tension, m->checks[0].tension)
GET(check_face, m->checks[0].face)
GET(check_members, m->checks[0].members.count)
GET(check_tendons, m->checks[0].tendons.count)
GET(check_class, m->checks[0].uncracked_class)
GET(check_severe, m->checks[0].exposure_severe)
GET(check_bonded, m->checks[0].bonded_steel)

#define ASK(text)                                                                                  \
    STAGE("cast cap") "\nstage u at 9 day\ncombination both { factor 1.25 of weight dead }\n" text
#define CHECK(text) ASK("check c stress { members cap; " text " }")

/* clang-format off */
static const number_case checks[] = {
    {"factor", ASK(""), factor_0, 1.25},
    {"factors", ASK(""), factors, 2},
    {"cause", ASK(""), factor_cause, KL_CAUSE_WEIGHT},
    {"case", ASK(""), factor_case, 0},
    {"factors_of_set", STAGE("") "\ncombination c { factor 1 of loads prestress losses }", factors,
     4},
    {"after", CHECK("after u; condition service; rules aashto 2020"), check_when, KL_WHEN_AFTER},
    {"during", CHECK("during u; condition service; rules aashto 2020"), check_when, KL_WHEN_DURING},
    {"run", CHECK("from s to u; condition service; rules aashto 2020"), check_when,
     KL_WHEN_FROM_TO},
    {"run_last", CHECK("from s to u; condition service; rules aashto 2020"), check_last, 1},
    {"under", CHECK("under both; condition service; rules aashto 2020"), check_when,
     KL_WHEN_COMBINATION},
    {"under_case", CHECK("under live; condition service; rules aashto 2020"), check_when,
     KL_WHEN_CASE},
    {"rules", CHECK("after u; condition transfer; rules aci318 2019"), check_rules,
     KL_RULES_ACI318_2019},
    {"rules_en", CHECK("after u; condition transfer; rules en1992 2004"), check_rules,
     KL_RULES_EN1992_2004},
    {"condition", CHECK("after u; condition sustained; rules aashto 2020"), check_condition,
     KL_SUSTAINED},
    {"own_limits", CHECK("after u; compression 2.7 ksi; tension 0 ksi"), check_compression,
     2.7 * KSI},
    {"own_tension", CHECK("after u; compression 2.7 ksi; tension 0 ksi"), check_tension, 0},
    {"face", CHECK("after u; face top; compression 2.7 ksi"), check_face, KL_FACE_TOP},
    {"members", CHECK("after u; compression 2.7 ksi"), check_members, 1},
    {"tendons", ASK("check c stress { tendons T1; after u; condition service; rules aashto 2020 }"),
     check_tendons, 1},
    {"class", CHECK("after u; class t; condition service; rules aci318 2019"), check_class, 't'},
    {"strict_class", CHECK("after u; condition service; rules aci318 2019"), check_class, 'u'},
    {"strict_exposure", CHECK("after u; condition service; rules aashto 2020"), check_severe, 1},
    {"strict_steel", CHECK("after u; condition service; rules aashto 2020"), check_bonded, 0},
    {"bonded_steel", CHECK("after u; bonded_steel yes; condition service; rules aashto 2020"),
     check_bonded, 1},
};
/* clang-format on */

GET(e_quantity, m->expectations[0].quantity)
GET(e_value, m->expectations[0].value)
GET(e_station, m->expectations[0].station)
GET(e_tolerance, m->expectations[0].tolerance)
GET(e_relative, m->expectations[0].tolerance_relative)
GET(e_part, m->expectations[0].part)
GET(e_extreme, m->expectations[0].extreme)
GET(e_side, m->expectations[0].side)
GET(e_node, m->expectations[0].node)
GET(e_member, m->expectations[0].member)
GET(e_direction, m->expectations[0].direction)
GET(e_measure, m->expectations[0].measure)
GET(e_falsework, m->expectations[0].falsework)
GET(e_total, m->expectations[0].tendon_total)
GET(e_when, m->expectations[0].when.kind)
GET(e_cause, m->expectations[0].cause.kind)
GET(e_case, m->expectations[0].cause.load_case)
GET(e_end, isnan(m->expectations[0].station))

#define EXPECT(text) ASK("expect " text)

/* clang-format off */
static const number_case expects[] = {
    {"moment", EXPECT("moment on cap at mid after u = 1200 kip-ft"), e_value, 1200 * KIP *FT},
    {"mid", EXPECT("moment on cap at mid after u = 1200 kip-ft"), e_station, 20 * FT},
    {"default_tolerance", EXPECT("moment on cap at mid after u = 1200 kip-ft"), e_tolerance, 0.001},
    {"percent", EXPECT("shear on cap at 3 ft after u = 12 kip within 0.5 %"), e_tolerance, 0.005},
    {"absolute", EXPECT("shear on cap at 3 ft after u = 12 kip within 0.5 kip"), e_tolerance,
     0.5 * KIP},
    {"absolute_not_relative", EXPECT("shear on cap at 3 ft after u = 0 kip within 0.5 kip"),
     e_relative, 0},
    {"left", EXPECT("shear on cap at 10 ft left after u = 12 kip"), e_side, KL_LEFT},
    {"right_default", EXPECT("shear on cap at 10 ft after u = 12 kip"), e_side, KL_RIGHT},
    {"secondary", EXPECT("secondary moment on cap at mid after u = 5 kip-ft"), e_part,
     KL_SECONDARY},
    {"primary", EXPECT("primary axial on cap at mid after u = 5 kip"), e_part, KL_PRIMARY},
    {"concrete", EXPECT("concrete axial on cap at mid after u = 5 kip"), e_part, KL_CONCRETE_SHARE},
    {"max", EXPECT("max moment on cap during u = 5 kip-ft"), e_extreme, KL_LARGEST},
    {"min_whole", EXPECT("min moment on cap during u = 5 kip-ft"), e_end, 1},
    {"deflection_node", EXPECT("deflection at C after u = -5 mm"), e_node, 6},
    {"deflection_member", EXPECT("deflection on cap at C after u = -5 mm"), e_station, 10 * FT},
    {"rotation", EXPECT("rotation at C after u = 0.001 rad"), e_measure, KL_MEASURE_ROTATION},
    {"stress_top", EXPECT("stress top on cap at mid after u = -0.8 ksi"), e_quantity,
     KL_STRESS_TOP},
    {"stress_bottom", EXPECT("stress bottom on cap at mid after u = -0.8 ksi"), e_quantity,
     KL_STRESS_BOTTOM},
    {"stress_value", EXPECT("stress bottom on cap at mid after u = -0.8 ksi"), e_value, -0.8 * KSI},
    {"reaction", EXPECT("reaction y at A after u = 560 kip"), e_direction, KL_Y},
    {"reaction_turn", EXPECT("reaction turn at A after u = 560 kip-ft"), e_measure,
     KL_MEASURE_MOMENT},
    {"force", EXPECT("force of T1 at mid after u = 800 kip"), e_station, 20 * FT},
    {"force_total", EXPECT("force of T1 at mid total after u = 1600 kip"), e_total, 1},
    {"elongation", EXPECT("elongation of T1 at start after u = 7 in"), e_station, 0},
    {"elongation_end", EXPECT("elongation of T1 at end after u = 7 in"), e_end, 1},
    {"post", EXPECT("post of f at 20 ft after s = 23.9 kip"), e_falsework, 0},
    {"post_row", EXPECT("post of f at 20 ft after s = 23.9 kip"), e_station, 20 * FT},
    {"camber", EXPECT("camber on cap at mid after u = 1/4 in"), e_member, 0},
    {"under_case", EXPECT("moment on cap at mid under live = 5 kip-ft"), e_when, KL_WHEN_CASE},
    {"under_combination", EXPECT("moment on cap at mid under both = 5 kip-ft"), e_when,
     KL_WHEN_COMBINATION},
    {"from_cause", EXPECT("moment on cap at mid after u from weight = 5 kip-ft"), e_cause,
     KL_CAUSE_WEIGHT},
    {"from_case", EXPECT("moment on cap at mid after u from live = 5 kip-ft"), e_case, 1},
    {"from_creep", EXPECT("moment on cap at mid after u from creep = 5 kip-ft"), e_cause,
     KL_CAUSE_CREEP},
    {"from_shrinkage", EXPECT("moment on cap at mid after u from shrinkage = 5 kip-ft"), e_cause,
     KL_CAUSE_SHRINKAGE},
    {"from_relaxation", EXPECT("moment on cap at mid after u from relaxation = 5 kip-ft"), e_cause,
     KL_CAUSE_RELAXATION},
    {"from_all", EXPECT("moment on cap at mid after u = 5 kip-ft"), e_cause, KL_CAUSE_ALL},
};
/* clang-format on */

int main(void)
{
    int failed = number_case_run("bind: stages", stages, DIM(stages));
    failed += number_case_run("bind: checks", checks, DIM(checks));
    failed += number_case_run("bind: expectations", expects, DIM(expects));
    return failed;
}
