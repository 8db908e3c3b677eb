/* grammar_frame.c - rows of the table: nodes, members, supports, bearings.
 * SPDX-License-Identifier: MIT */
#include "grammar_rows.h"

#define X_CHOICES    "fixed|free|push left|push right"
#define Y_CHOICES    "fixed|free|push up|push down"
#define TURN_CHOICES "fixed|free"

/* clang-format off */
static const grammar_row frame_rows[] = {
    {IN_NODE, "at", {POINT_OR_STATION}, .flags = GRAMMAR_REQUIRED | GRAMMAR_SQUARE,
     .example = "at (0 ft, 24 ft)",
     .help = "coordinates x right and y up, or a station of the member"},
    {IN_NODE, "on", {NAME("member")}, .example = "node C on cap at 22 ft",
     .help = "the member the node lies on"},

    {IN_MEMBER, "from", {NAME("node")}, .flags = GRAMMAR_REQUIRED, .example = "from L",
     .help = "the node where the member starts"},
    {IN_MEMBER, "to", {NAME("node")}, .flags = GRAMMAR_FOLLOWS | GRAMMAR_REQUIRED,
     .example = "to R", .help = "the node where the member ends"},
    {IN_MEMBER, "section", {NAME("section")}, .inner = IN_SECTION_AT,
     .flags = GRAMMAR_REQUIRED | GRAMMAR_MANY | GRAMMAR_INLINE, .example = "section cap at 0 ft",
     .help = "its section; several `at` stations: sizes vary linearly between, two at one station step"},
    {IN_MEMBER, "of", {NAME("material")}, .flags = GRAMMAR_REQUIRED, .example = "of cap_mix",
     .help = "concrete or another elastic material"},
    {IN_MEMBER, "rigid", {{0}}, .inner = IN_RIGID, .flags = GRAMMAR_BLOCK,
     .example = "rigid start 2 ft end 3 ft 3 in", .help = "lengths at the ends that do not bend"},
    {IN_MEMBER, "hinge", {{0}}, .inner = IN_HINGE, .flags = GRAMMAR_MANY | GRAMMAR_BLOCK,
     .example = "hinge end", .help = "a joint that carries no moment"},
    {IN_MEMBER, "mesh", {QUANTITY(STATION)}, .example = "mesh 2 ft",
     .help = "the longest element; a twentieth of the member when not given"},
    {IN_MEMBER, "axial_only", {{0}}, .example = "axial_only",
     .help = "carries axial force only; needs `area` only"},
    {IN_MEMBER, "weightless", {{0}}, .example = "weightless", .help = "has no weight"},
    {IN_MEMBER, "age", {QUANTITY(TIME)}, .low = 0, .high = 3650, .range_unit = "day",
     .example = "age 60 day", .help = "how old the member is when it is placed"},

    {IN_SECTION_AT, "at", {STATION}, .flags = GRAMMAR_SQUARE, .example = "section deep at 0 ft",
     .help = "the station of this section"},

    {IN_RIGID, "start", {QUANTITY(STATION)}, .flags = GRAMMAR_SQUARE, .otherwise = "0 ft",
     .example = "rigid start 2 ft", .help = "rigid length at the start"},
    {IN_RIGID, "end", {QUANTITY(STATION)}, .flags = GRAMMAR_SQUARE, .otherwise = "0 ft",
     .example = "rigid end 3 ft 3 in", .help = "rigid length at the end"},

    {IN_HINGE, "start", {{0}}, .example = "hinge start", .help = "at the start"},
    {IN_HINGE, "end", {{0}}, .example = "hinge end", .help = "at the end"},
    {IN_HINGE, "at", {STATION}, .flags = GRAMMAR_SQUARE, .example = "hinge at 30 ft",
     .help = "at a station"},

    {IN_SUPPORT, "fixed", {{0}}, .group = "kind", .example = "support A fixed",
     .help = "holds x, y and turning"},
    {IN_SUPPORT, "pinned", {{0}}, .group = "kind", .example = "support A pinned",
     .help = "holds x and y"},
    {IN_SUPPORT, "roller", {{0}}, .group = "kind", .example = "support A roller",
     .help = "holds y"},
    {IN_SUPPORT, "slope", {QUANTITY(ANGLE)}, .example = "support A roller slope 30 deg",
     .help = "a roller's free direction, up from horizontal"},
    {IN_SUPPORT, "x", {CHOICE_OR(STIFFNESS, X_CHOICES)}, .otherwise = "free", .example = "x fixed",
     .help = "horizontal: fixed, free, a stiffness, or the way the support can push"},
    {IN_SUPPORT, "y", {CHOICE_OR(STIFFNESS, Y_CHOICES)}, .otherwise = "free",
     .example = "y push up",
     .help = "vertical: fixed, free, a stiffness, or the way the support can push"},
    {IN_SUPPORT, "turn", {CHOICE_OR(TURN_STIFFNESS, TURN_CHOICES)}, .otherwise = "free",
     .example = "turn 1e6 kip-ft/rad", .help = "turning: fixed, free or a stiffness"},

    {IN_BEARING, "on", {NAME("node")}, .flags = GRAMMAR_REQUIRED, .example = "bearing P on Q",
     .help = "the node that carries the other"},
    {IN_BEARING, "x", {CHOICE_OR(STIFFNESS, X_CHOICES)}, .otherwise = "free", .example = "x free",
     .help = "horizontal: fixed, free, a stiffness, or the way the bearing can push"},
    {IN_BEARING, "y", {CHOICE_OR(STIFFNESS, Y_CHOICES)}, .otherwise = "free",
     .example = "y push up",
     .help = "vertical: fixed, free, a stiffness, or the way the bearing can push"},
    {IN_BEARING, "turn", {CHOICE_OR(TURN_STIFFNESS, TURN_CHOICES)}, .otherwise = "free",
     .example = "turn free", .help = "turning: fixed, free or a stiffness"},
};
/* clang-format on */

grammar_part grammar_frame_part(void)
{
    return GRAMMAR_PART(frame_rows);
}
