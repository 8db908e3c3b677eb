/* grammar_load.c - rows of the table: load cases.
 * SPDX-License-Identifier: MIT */
#include "grammar_rows.h"

/* clang-format off */
/* The way a force acts, in the context of each load that has one. */
#define DIRECTION(context, word, says)                                                             \
    {context, word, {{0}}, .group = "direction", .example = (word), .help = (says)}
#define DIRECTION_ROWS(context)                                                                    \
    DIRECTION(context, "down", "acts down (default)"),                                             \
    DIRECTION(context, "up", "acts up"),                                                           \
    DIRECTION(context, "left", "acts to the left"),                                                \
    DIRECTION(context, "right", "acts to the right"),                                              \
    DIRECTION(context, "across", "acts across the member, toward its bottom"),                     \
    DIRECTION(context, "along", "acts along the member, from start to end")

#define ON_ROW(context)                                                                            \
    {context, "on", {NAMES("member")}, .example = "on cap", .help = "the members it acts on"}
#define REQUIRED_ON_ROW(context)                                                                   \
    {context, "on", {NAMES("member")}, .flags = GRAMMAR_REQUIRED, .example = "on cap",             \
     .help = "the members it acts on"}

#define RANGE_ROWS(context)                                                                        \
    {context, "from", {STATION}, .flags = GRAMMAR_SQUARE, .otherwise = "start",                    \
     .example = "from 3 ft", .help = "where it begins"},                                           \
    {context, "to", {STATION}, .flags = GRAMMAR_FOLLOWS | GRAMMAR_SQUARE, .otherwise = "end",      \
     .example = "to 40 ft", .help = "where it ends"}

#define MEASURE_ROWS(context)                                                                      \
    {context, "level", {{0}}, .group = "length", .example = "uniform 2 klf on rafter level",       \
     .help = "per horizontal length instead of per length of the member's line"},                  \
    {context, "square", {{0}}, .group = "length", .example = "uniform 2 klf on cap square",        \
     .help = "per length of the square section: multiplied by the cosine of the skew"}

#define SENSE_ROWS(context)                                                                        \
    {context, "clockwise", {{0}}, .group = "sense", .example = "clockwise",                        \
     .help = "turns clockwise"},                                                                   \
    {context, "anticlockwise", {{0}}, .group = "sense", .example = "anticlockwise",                \
     .help = "turns anticlockwise (default)"}

static const grammar_row load_rows[] = {
    {IN_LOAD, "weight", {{0}}, .inner = IN_WEIGHT, .flags = GRAMMAR_MANY,
     .example = "weight of cap",
     .help = "the members' own weight, in a model without stages; of all members when none is named"},
    {IN_LOAD, "point", {QUANTITY(FORCE)}, .inner = IN_POINT, .flags = GRAMMAR_MANY,
     .example = "point 240 kip on cap from 14 ft to 82 ft every 8 ft 6 in",
     .help = "a force at a station or a node, perhaps repeated"},
    {IN_LOAD, "uniform", {QUANTITY(LINE_LOAD)}, .inner = IN_UNIFORM, .flags = GRAMMAR_MANY,
     .example = "uniform 2.4 klf on cap from 3 ft to 40 ft", .help = "a load spread evenly"},
    {IN_LOAD, "ramp", {{0}}, .inner = IN_RAMP, .flags = GRAMMAR_MANY,
     .example = "ramp start 0 klf end 3 klf on cap from 0 ft to 40 ft",
     .help = "a load spread with an intensity that varies linearly"},
    {IN_LOAD, "moment", {QUANTITY(MOMENT)}, .inner = IN_MOMENT, .flags = GRAMMAR_MANY,
     .example = "moment 50 kip-ft at B clockwise", .help = "a moment at a node or a station"},
    {IN_LOAD, "settle", {QUANTITY(DEFLECTION)}, .inner = IN_SETTLE, .flags = GRAMMAR_MANY,
     .example = "settle 0.5 in at A down", .help = "a support moves"},
    {IN_LOAD, "turn", {QUANTITY(ROTATION)}, .inner = IN_TURN, .flags = GRAMMAR_MANY,
     .example = "turn 0.002 rad at A", .help = "a support turns"},
    {IN_LOAD, "warm", {QUANTITY(TEMPERATURE)}, .inner = IN_WARM, .flags = GRAMMAR_MANY, .low = 0,
     .high = 120, .range_unit = "degF", .example = "warm 40 degF on cap",
     .help = "members become warmer"},
    {IN_LOAD, "cool", {QUANTITY(TEMPERATURE)}, .inner = IN_WARM, .flags = GRAMMAR_MANY, .low = 0,
     .high = 120, .range_unit = "degF", .example = "cool 35 degF on cap",
     .help = "members become cooler"},
    {IN_LOAD, "gradient", {MAYBE_QUANTITY(TEMPERATURE)}, .inner = IN_GRADIENT,
     .flags = GRAMMAR_MANY | GRAMMAR_SIGNED, .low = 0, .high = 60, .range_unit = "degF",
     .example = "gradient 20 degF on cap",
     .help = "the top is warmer: linear over the depth, or by points of depth and temperature"},
    {IN_LOAD, "stress", {NAMES("tendon")}, .flags = GRAMMAR_MANY, .example = "stress T1",
     .help = "tendons after seating, in a model without stages"},

    {IN_WEIGHT, "of", {NAMES("member")}, .example = "weight of cap",
     .help = "only of these members"},

    ON_ROW(IN_POINT),
    {IN_POINT, "at", {STATION}, .flags = GRAMMAR_SQUARE, .example = "point 12 kip at B right",
     .help = "a station of the member, or a node"},
    {IN_POINT, "from", {STATION}, .flags = GRAMMAR_SQUARE,
     .example = "from 14 ft to 82 ft every 8 ft 6 in", .help = "station of the first"},
    {IN_POINT, "to", {STATION}, .flags = GRAMMAR_FOLLOWS | GRAMMAR_SQUARE, .example = "to 82 ft",
     .help = "station up to which the load is repeated"},
    {IN_POINT, "every", {QUANTITY(STATION)}, .flags = GRAMMAR_FOLLOWS | GRAMMAR_SQUARE,
     .example = "every 8 ft 6 in", .help = "distance between the loads"},
    DIRECTION_ROWS(IN_POINT),

    REQUIRED_ON_ROW(IN_UNIFORM),
    RANGE_ROWS(IN_UNIFORM),
    MEASURE_ROWS(IN_UNIFORM),
    DIRECTION_ROWS(IN_UNIFORM),

    {IN_RAMP, "start", {QUANTITY(LINE_LOAD)}, .flags = GRAMMAR_REQUIRED, .example = "start 0 klf",
     .help = "intensity where it begins"},
    {IN_RAMP, "end", {QUANTITY(LINE_LOAD)}, .flags = GRAMMAR_REQUIRED, .example = "end 3 klf",
     .help = "intensity where it ends"},
    REQUIRED_ON_ROW(IN_RAMP),
    RANGE_ROWS(IN_RAMP),
    MEASURE_ROWS(IN_RAMP),
    DIRECTION_ROWS(IN_RAMP),

    ON_ROW(IN_MOMENT),
    {IN_MOMENT, "at", {STATION}, .flags = GRAMMAR_REQUIRED | GRAMMAR_SQUARE,
     .example = "moment 50 kip-ft on cap at 10 ft", .help = "a station of the member, or a node"},
    SENSE_ROWS(IN_MOMENT),

    {IN_SETTLE, "at", {NAME("node")}, .flags = GRAMMAR_REQUIRED, .example = "at A",
     .help = "the supported node"},
    {IN_SETTLE, "down", {{0}}, .flags = GRAMMAR_REQUIRED, .group = "direction", .example = "down",
     .help = "moves down"},
    {IN_SETTLE, "up", {{0}}, .flags = GRAMMAR_REQUIRED, .group = "direction", .example = "up",
     .help = "moves up"},
    {IN_SETTLE, "left", {{0}}, .flags = GRAMMAR_REQUIRED, .group = "direction", .example = "left",
     .help = "moves left"},
    {IN_SETTLE, "right", {{0}}, .flags = GRAMMAR_REQUIRED, .group = "direction", .example = "right",
     .help = "moves right"},

    {IN_TURN, "at", {NAME("node")}, .flags = GRAMMAR_REQUIRED, .example = "at A",
     .help = "the supported node"},
    SENSE_ROWS(IN_TURN),

    REQUIRED_ON_ROW(IN_WARM),

    REQUIRED_ON_ROW(IN_GRADIENT),
    {IN_GRADIENT, "point", {QUANTITY(TEMPERATURE)}, .inner = IN_GRADIENT_POINT,
     .flags = GRAMMAR_MANY,
     .example = "gradient on deck { point 41 degF depth 0 ft; point 0 degF depth 16 in }",
     .help = "the temperature at a depth, linear between points"},

    {IN_GRADIENT_POINT, "depth", {QUANTITY(SIZE)}, .flags = GRAMMAR_REQUIRED,
     .example = "depth 4 in", .help = "depth below the top"},
};
/* clang-format on */

grammar_part grammar_load_part(void)
{
    return GRAMMAR_PART(load_rows);
}
