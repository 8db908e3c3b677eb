/* test_bind_tendon.c - from a text to a model: tendons, falsework, loads.
 *
 * Rows of tables: a text, one number of the model made of it, and the value worked out by hand from the definitions
 * of the units and of the language.
 * SPDX-License-Identifier: MIT */
#include <math.h>

#include "bound_text.h"

#define DIM(array) ((int)(sizeof(array) / sizeof((array)[0])))

GET(jack_force, m->tendons[m->tendon_count - 1].jack_force)
GET(jack_ends, m->tendons[m->tendon_count - 1].jack_ends)
GET(wobble, m->tendons[m->tendon_count - 1].wobble)
GET(has_wobble, m->tendons[m->tendon_count - 1].has_wobble)
GET(seating, m->tendons[0].seating)
GET(duct, m->tendons[m->tendon_count - 1].duct)
GET(offset, m->tendons[m->tendon_count - 1].offset)
GET(row_count, m->tendons[m->tendon_count - 1].row_count)
GET(row_station, m->tendons[m->tendon_count - 1].rows[1].station)
GET(row_height, m->tendons[m->tendon_count - 1].rows[1].ordinate)
GET(row_datum, m->tendons[m->tendon_count - 1].rows[1].datum)
GET(row_kind, m->tendons[m->tendon_count - 1].rows[1].kind)
GET(row_straight, m->tendons[m->tendon_count - 1].rows[1].straight)
GET(row_last, m->tendons[m->tendon_count - 1].rows[2].station)
GET(bend_angle, m->tendons[m->tendon_count - 1].bends[0].angle)
GET(bend_to, m->tendons[m->tendon_count - 1].bends[0].to)
GET(bend_count, m->tendons[m->tendon_count - 1].bend_count)
GET(bond, m->tendons[m->tendon_count - 1].bond)
GET(is_bar, m->tendons[m->tendon_count - 1].is_bar)
GET(units, m->tendons[m->tendon_count - 1].units)
GET(count, m->tendons[m->tendon_count - 1].count)
GET(reference, m->tendons[m->tendon_count - 1].reference)
GET(range, kl_tendon_range(m, m->tendon_count - 1))

#define TENDON_WITH(jack) "tendon T in cap { " STEEL_US "count 4; " PROFILE_US jack " }"
#define AREA              (19 * 0.217 * INCH * INCH)
#define SPANS                                                                                      \
    FRAME_US "node S at (80 ft, 24 ft)\nmember next from R to S section cap of mix\n"              \
             "tendon T in cap next { " STEEL_US                                                    \
             "profile { anchor at start height 0 ft; low at R height -1 ft; "                      \
             "anchor at 0.75 of length height 0 ft }\njack start ratio 0.7; friction 0.2 }"

/* clang-format off */
static const number_case tendons[] = {
    {"ratio", FRAME_US TENDON_US, jack_force, 0.75 * 270 * KSI *AREA},
    {"stress", FRAME_US TENDON_WITH("jack both stress 200 ksi"), jack_force, 200 * KSI *AREA},
    {"force", FRAME_US TENDON_WITH("jack both force 800 kip"), jack_force, 800 * KIP},
    {"force_total", FRAME_US TENDON_WITH("jack both force 3200 kip total"), jack_force, 800 * KIP},
    {"anchorage_friction_is_outside",
     FRAME_US TENDON_WITH("anchorage_friction 3 %; jack both force 800 kip"), jack_force,
     800 * KIP},
    {"ends", FRAME_US TENDON_US, jack_ends, KL_JACK_START_THEN_END},
    {"ends_both", FRAME_US TENDON_WITH("jack both ratio 0.7"), jack_ends, KL_JACK_BOTH},
    {"ends_back", FRAME_US TENDON_WITH("jack end then start ratio 0.7"), jack_ends,
     KL_JACK_END_THEN_START},
    {"wobble", FRAME_US TENDON_US, wobble, 0.0002 / FT},
    {"unintended_angle",
     FRAME_US TENDON_WITH("jack both ratio 0.7; unintended_angle 0.01 per m; friction 0.19"),
     wobble, 0.0019},
    {"no_wobble", FRAME_US TENDON_WITH("jack both ratio 0.7"), has_wobble, 0},
    {"seating", FRAME_US TENDON_US, seating, 0.25 * INCH},
    {"duct", FRAME_US TENDON_US, duct, 4.5 * INCH},
    {"offset", FRAME_US TENDON_US, offset, 0.75 * INCH},
    {"rows", FRAME_US TENDON_US, row_count, 3},
    {"row_mid", FRAME_US TENDON_US, row_station, 20 * FT},
    {"row_bottom", FRAME_US TENDON_US, row_datum, KL_FROM_BOTTOM},
    {"row_low", FRAME_US TENDON_US, row_kind, KL_ROW_LOW},
    {"like", FRAME_US TENDON_US "tendon T2 like T1 { raise 9 in }", jack_force,
     0.75 * 270 * KSI *AREA},
    {"like_duct", FRAME_US TENDON_US "tendon T2 like T1 { raise 9 in }", offset, 0.75 * INCH},
    {"raise", FRAME_US TENDON_US "tendon T2 like T1 { raise 9 in }", row_height, 1 * FT + 9 * INCH},
    {"raise_twice",
     FRAME_US "tendon T3 like T2 { raise 3 in }\ntendon T2 like T1 { raise 9 in }\n" TENDON_US,
     row_height, 2 * FT},
    {"raise_depth",
     FRAME_US "tendon T in cap { " STEEL_US "profile from top { anchor at start depth 3 ft\n"
     "low at mid depth 5 ft\nanchor at end depth 3 ft }\njack start ratio 0.7 }\n"
     "tendon U like T { raise 1 ft }", row_height, 4 * FT},
    {"depth_from_top",
     FRAME_US "tendon T in cap { " STEEL_US "profile from top { anchor at start depth 3 ft\n"
     "low at mid depth 5 ft\nanchor at end depth 3 ft }\njack start ratio 0.7 }\n", row_datum,
     KL_FROM_TOP},
    {"straight", FRAME_US "tendon T in cap { " STEEL_US "profile { anchor at start height 0 ft\n"
     "anchor at 30 ft height 1 ft straight }\njack start ratio 0.7 }\n", row_straight, 1},
    {"like_count", FRAME_US TENDON_US "tendon T2 like T1 { count 3 }", count, 3},
    {"like_strands", FRAME_US TENDON_US "tendon T2 like T1 { strands 12 area 0.217 in^2 }",
     jack_force, 0.75 * 270 * KSI * 12 * 0.217 * INCH *INCH},
    {"like_duct_is_replaced_whole", FRAME_US TENDON_US "tendon T2 like T1 { duct 5 in }", offset,
     0},
    {"like_bars", FRAME_US TENDON_US "tendon T2 like T1 { bars 2 area 1 in^2 }", units, 2},
    {"like_jack", FRAME_US TENDON_US "tendon T2 like T1 { jack end force 500 kip }", jack_force,
     500 * KIP},
    {"bars", FRAME_US "tendon T in cap { of steel; bars 1 area 1.58 in^2; " PROFILE_US
     "jack start ratio 0.6 }", is_bar, 1},
    {"bond", FRAME_US TENDON_WITH("jack both ratio 0.7; bonded grouted"), bond, KL_GROUTED},
    {"unbonded", FRAME_US TENDON_WITH("jack both ratio 0.7; unbonded"), bond, KL_UNBONDED},
    {"reference", FRAME_US TENDON_WITH("jack both ratio 0.7; reference 20 %"), reference, 0.2},
    {"bend", FRAME_US TENDON_WITH("jack both ratio 0.7; bend 3 deg from 4 ft to mid"), bend_angle,
     PI / 60},
    {"bend_to", FRAME_US TENDON_WITH("jack both ratio 0.7; bend 3 deg from 4 ft to mid"), bend_to,
     20 * FT},
    {"bend_inherited", FRAME_US "tendon T in cap { " STEEL_US PROFILE_US
     "bend 0.05 rad from 0 ft to 10 ft\njack start ratio 0.7 }\ntendon U like T { count 3 }",
     bend_count, 1},
    {"spans_range", SPANS, range, 80 * FT},
    {"spans_node", SPANS, row_station, 40 * FT},
    {"spans_share", SPANS, row_last, 60 * FT},
    {"spans_line_datum", SPANS, row_datum, KL_FROM_LINE},
};
/* clang-format on */

GET(rows, m->falsework[m->falsework_count - 1].row_count)
GET(row_0, m->falsework[m->falsework_count - 1].stations[0])
GET(row_end,
    m->falsework[m->falsework_count - 1]
        .stations[m->falsework[m->falsework_count - 1].row_count - 1])
GET(post_stiffness, m->falsework[m->falsework_count - 1].stiffness)
GET(posts, m->falsework[m->falsework_count - 1].posts)
GET(capacity, m->falsework[m->falsework_count - 1].capacity)
GET(takeup, m->falsework[m->falsework_count - 1].takeup)
GET(carrier, m->falsework[m->falsework_count - 1].carrier)
GET(stringer, m->falsework[m->falsework_count - 1].stringer_section)

#define FALSEWORK(where, block)                                                                    \
    FRAME_US "falsework f under cap " where " { stiffness 450 kip/in; " block " }\n"

/* clang-format off */
static const number_case falseworks[] = {
    {"list", FALSEWORK("at 4 ft, 10 ft, 36 ft", ""), rows, 3},
    {"list_goes_on", FALSEWORK("at 4 ft, 10 ft,\n 36 ft", ""), row_end, 36 * FT},
    {"every", FALSEWORK("from 2 ft to 38 ft every 6 ft", ""), rows, 7},
    {"every_with_rest", FALSEWORK("from 2 ft to 37 ft every 6 ft", ""), row_end, 32 * FT},
    {"every_includes_end", FALSEWORK("from 0 ft to 5.1 ft every 1.7 ft", ""), rows, 4},
    {"every_level",
     FRAME_US "falsework f under rafter from level 4 ft to level 36 ft every level 8 ft "
     "{ stiffness 450 kip/in }", row_end, 45 * FT},
    {"stiffness", FALSEWORK("at 4 ft", "posts 2"), post_stiffness, 450 * KIP / INCH},
    {"posts", FALSEWORK("at 4 ft", "posts 2"), posts, 2},
    {"one_post", FALSEWORK("at 4 ft", ""), posts, 1},
    {"capacity", FALSEWORK("at 4 ft", "capacity 30 kip"), capacity, 30 * KIP},
    {"takeup", FALSEWORK("at 4 ft", "takeup 0.25 in"), takeup, 0.25 * INCH},
    {"ground", FALSEWORK("at 4 ft", ""), carrier, KL_NONE},
    {"carrier", FRAME_US "falsework f under rafter at 4 ft { stiffness 450 kip/in; on cap }",
     carrier, 0},
    {"no_stringer", FALSEWORK("at 4 ft", ""), stringer, KL_NONE},
    {"stringer", FALSEWORK("at 4 ft", "stringer round of mix"), stringer, 1},
    {"like", FALSEWORK("at 4 ft, 9 ft", "posts 3") "falsework g like f { at 5 ft }", posts, 3},
    {"like_rows", FALSEWORK("at 4 ft, 9 ft", "posts 3") "falsework g like f { at 5 ft }", row_0,
     5 * FT},
    {"like_same_rows", FALSEWORK("at 4 ft, 9 ft", "posts 3") "falsework g like f { posts 4 }", rows,
     2},
};
/* clang-format on */

GET(loads, m->cases[0].load_count)
GET(kind, m->cases[0].loads[0].kind)
GET(value, m->cases[0].loads[0].value)
GET(value_end, m->cases[0].loads[0].value_end)
GET(dx, m->cases[0].loads[0].dx)
GET(dy, m->cases[0].loads[0].dy)
GET(frame, m->cases[0].loads[0].frame)
GET(from, m->cases[0].loads[0].from)
GET(to, m->cases[0].loads[0].to)
GET(last_from_station, m->cases[0].loads[m->cases[0].load_count - 1].from)
GET(last_member, m->cases[0].loads[m->cases[0].load_count - 1].member)
GET(at_node, m->cases[0].loads[0].node)
GET(level, m->cases[0].loads[0].per_level)
GET(point_depth, m->cases[0].loads[0].points[1].depth)
GET(point_warm, m->cases[0].loads[0].points[0].temperature)
GET(load_tendon, m->cases[0].loads[0].tendon)
GET(whole_to, isnan(m->cases[0].loads[0].to))

#define LOAD(text) FRAME_US "load g { " text " }"
#define KLF        (KIP / FT)

/* clang-format off */
static const number_case loads_table[] = {
    {"point", LOAD("point 240 kip on cap at 14 ft"), value, 240 * KIP},
    {"point_station", LOAD("point 240 kip on cap at 14 ft"), from, 14 * FT},
    {"point_down", LOAD("point 240 kip on cap at 14 ft"), dy, -1},
    {"point_node", LOAD("point 12 kip at B right"), at_node, 3},
    {"point_right", LOAD("point 12 kip at B right"), dx, 1},
    {"point_up", LOAD("point 12 kip on cap at C up"), dy, 1},
    {"point_at_node_of_member", LOAD("point 12 kip on cap at C up"), from, 10 * FT},
    {"point_across", LOAD("point 12 kip on rafter at mid across"), frame, KL_LOCAL},
    {"point_across_to_bottom", LOAD("point 12 kip on rafter at mid across"), dy, -1},
    {"point_along", LOAD("point 12 kip on rafter at mid along"), dx, 1},
    {"point_signed", LOAD("point -12 kip on cap at 3 ft"), value, -12 * KIP},
    {"every", LOAD("point 240 kip on cap from 4 ft to 38 ft every 8 ft 6 in"), loads, 5},
    {"every_last", LOAD("point 240 kip on cap from 4 ft to 38 ft every 8 ft 6 in"),
     last_from_station, 38 * FT},
    {"set", LOAD("uniform 1 klf on columns right"), loads, 2},
    {"set_members", LOAD("uniform 1 klf on columns right"), last_member, 2},
    {"list", LOAD("uniform 1 klf on cap rafter"), loads, 2},
    {"uniform", LOAD("uniform 2.4 klf on cap from 3 ft to 40 ft"), value, 2.4 * KLF},
    {"uniform_end", LOAD("uniform 2.4 klf on cap from 3 ft to 40 ft"), value_end, 2.4 * KLF},
    {"uniform_to", LOAD("uniform 2.4 klf on cap from 3 ft to 39 ft"), to, 39 * FT},
    {"uniform_whole", LOAD("uniform 2.4 klf on cap"), whole_to, 1},
    {"uniform_level", LOAD("uniform level 2 klf on rafter"), level, 1},
    {"uniform_level_flag", LOAD("uniform 2 klf on rafter level"), value, 2 * KLF},
    {"uniform_square", "skew 60 deg\n" LOAD("uniform square 2 klf on cap"), value, 1 * KLF},
    {"uniform_square_zero", "skew 0 deg\n" LOAD("uniform 2 klf on cap square"), value, 2 * KLF},
    {"uniform_si", LOAD("uniform 35 kN/m on cap"), value, 35e3},
    {"ramp", LOAD("ramp start 0 klf end 3 klf on cap from 0 ft to 40 ft"), value_end, 3 * KLF},
    {"ramp_kind", LOAD("ramp start 0 klf end 3 klf on cap"), kind, KL_LOAD_DISTRIBUTED},
    {"moment_node", LOAD("moment 50 kip-ft at B clockwise"), value, -50 * KIP *FT},
    {"moment_member", LOAD("moment 50 kip-ft on cap at 10 ft"), value, 50 * KIP *FT},
    {"settle", LOAD("settle 0.5 in at A down"), value, 0.5 * INCH},
    {"settle_down", LOAD("settle 0.5 in at A down"), dy, -1},
    {"settle_left", LOAD("settle 0.5 in at A left"), dx, -1},
    {"turn", LOAD("turn 0.002 rad at A"), value, 0.002},
    {"turn_clockwise", LOAD("turn 0.002 rad at A clockwise"), value, -0.002},
    {"warm", LOAD("warm 40 degF on cap"), value, 40 / 1.8},
    {"cool", LOAD("cool 20 degC on cap"), value, -20},
    {"warm_kind", LOAD("warm 40 degF on columns"), kind, KL_LOAD_TEMPERATURE},
    {"gradient", LOAD("gradient 18 degF on cap"), value, 10},
    {"gradient_kind", LOAD("gradient 18 degF on cap"), kind, KL_LOAD_GRADIENT},
    {"profile", LOAD("gradient on cap { point 36 degF depth 0 ft; point 0 degF depth 16 in }"),
     point_depth, 16 * INCH},
    {"profile_top", LOAD("gradient on cap { point 36 degF depth 0 ft; point 0 degF depth 16 in }"),
     point_warm, 20},
    {"weight_all", LOAD("weight"), last_member, KL_NONE},
    {"weight_one", LOAD("weight of cap"), last_member, 0},
    {"weight_set", LOAD("weight of columns"), loads, 2},
    {"tendon", FRAME_US TENDON_US "load g { stress T1 }", load_tendon, 0},
};
/* clang-format on */

int main(void)
{
    int failed = number_case_run("bind: tendons", tendons, DIM(tendons));
    failed += number_case_run("bind: falsework", falseworks, DIM(falseworks));
    failed += number_case_run("bind: loads", loads_table, DIM(loads_table));
    return failed;
}
