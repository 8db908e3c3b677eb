/* grammar_stage.c - rows of the table: stages of construction and their operations.
 * SPDX-License-Identifier: MIT */
#include "grammar_rows.h"

/* clang-format off */
static const grammar_row stage_rows[] = {
    {IN_STAGE, "at", {QUANTITY(TIME)}, .group = "day", .low = 0, .high = 55000, .range_unit = "day",
     .example = "stage released at 46 day { release bents }",
     .help = "when the stage is, from day 0"},
    {IN_STAGE, "wait", {QUANTITY(TIME)}, .group = "day", .low = 0, .high = 55000,
     .range_unit = "day", .example = "stage released wait 2 day { release bents }",
     .help = "time after the stage before; at once when neither is given"},
    {IN_STAGE, "erect", {NAMES("falsework")}, .flags = GRAMMAR_MANY, .example = "erect bents",
     .help = "falsework is set up, free of stress"},
    {IN_STAGE, "cast", {NAMES("member")}, .flags = GRAMMAR_MANY, .example = "cast cap",
     .help = "members are poured together: wet on the forms first, then set"},
    {IN_STAGE, "place", {NAMES("member")}, .flags = GRAMMAR_MANY, .example = "place girder_1",
     .help = "members that arrive hard: precast, steel"},
    {IN_STAGE, "stress", {NAMES("tendon")}, .inner = IN_STRESS, .flags = GRAMMAR_MANY,
     .example = "stress T1 T2 to 50 %", .help = "tendons are pulled one after the other"},
    {IN_STAGE, "slacken", {NAMES("tendon")}, .flags = GRAMMAR_MANY, .example = "slacken T1",
     .help = "tendons are let go"},
    {IN_STAGE, "grout", {NAMES("tendon")}, .flags = GRAMMAR_MANY, .example = "grout T1 T2",
     .help = "tendons are bonded to the concrete from now on"},
    {IN_STAGE, "lose", {NAMES("tendon"), QUANTITY(STRESS)}, .flags = GRAMMAR_MANY, .low = 5,
     .high = 50, .range_unit = "ksi", .example = "lose T1 T2 22 ksi",
     .help = "a lump-sum long-term loss of stress, where no creep law is used"},
    {IN_STAGE, "release", {NAME("falsework")}, .inner = IN_RELEASE, .flags = GRAMMAR_MANY,
     .example = "release bents from 16 ft to 48 ft", .help = "rows of falsework are taken away"},
    {IN_STAGE, "load", {NAMES("load case")}, .inner = IN_LOAD_NOW, .flags = GRAMMAR_MANY,
     .example = "load girders", .help = "load cases come on"},
    {IN_STAGE, "unload", {NAMES("load case")}, .flags = GRAMMAR_MANY, .example = "unload girders",
     .help = "load cases go off"},
    {IN_STAGE, "remove", {NAMES("member")}, .flags = GRAMMAR_MANY, .example = "remove strut",
     .help = "members are taken away"},
    {IN_STAGE, "support", {NAME("node")}, .inner = IN_SUPPORT,
     .flags = GRAMMAR_MANY | GRAMMAR_BLOCK, .example = "support C y fixed",
     .help = "a support is added now, free of stress"},
    {IN_STAGE, "free", {NAME("node")}, .inner = IN_FREE, .flags = GRAMMAR_MANY,
     .example = "free A turn", .help = "a support lets go, in the directions named or in all"},
    {IN_STAGE, "unlock", {NAME("member")}, .inner = IN_UNLOCK,
     .flags = GRAMMAR_MANY | GRAMMAR_BLOCK, .example = "unlock span end",
     .help = "a hinge opens in a member"},
    {IN_STAGE, "lock", {NAME("member")}, .inner = IN_UNLOCK, .flags = GRAMMAR_MANY | GRAMMAR_BLOCK,
     .example = "lock span end", .help = "a hinge of a member closes"},

    {IN_STRESS, "to", {QUANTITY(RATIO)}, .otherwise = "100 %", .low = 5, .high = 100,
     .range_unit = "%", .example = "stress T1 to 50 %", .help = "share of the jacking force"},

    {IN_RELEASE, "from", {STATION}, .flags = GRAMMAR_SQUARE, .otherwise = "start",
     .example = "release bents from 16 ft to 48 ft", .help = "the first rows to go"},
    {IN_RELEASE, "to", {STATION}, .flags = GRAMMAR_FOLLOWS | GRAMMAR_SQUARE, .otherwise = "end",
     .example = "to 48 ft", .help = "the last rows to go"},

    {IN_LOAD_NOW, "times", {QUANTITY(NUMBER)}, .flags = GRAMMAR_SIGNED, .otherwise = "1", .low = 0,
     .high = 3, .range_unit = "", .example = "load girders times 1.4",
     .help = "a factor on the cases"},

    {IN_FREE, "x", {{0}}, .example = "free A x", .help = "horizontally"},
    {IN_FREE, "y", {{0}}, .example = "free A y", .help = "vertically"},
    {IN_FREE, "turn", {{0}}, .example = "free A turn", .help = "to turn"},

    {IN_UNLOCK, "start", {{0}}, .group = "place", .flags = GRAMMAR_REQUIRED,
     .example = "unlock span start", .help = "at the member's start"},
    {IN_UNLOCK, "end", {{0}}, .group = "place", .flags = GRAMMAR_REQUIRED,
     .example = "unlock span end", .help = "at the member's end"},
    {IN_UNLOCK, "at", {STATION}, .group = "place", .flags = GRAMMAR_REQUIRED | GRAMMAR_SQUARE,
     .example = "unlock span at 30 ft", .help = "at a station"},
};
/* clang-format on */

grammar_part grammar_stage_part(void)
{
    return GRAMMAR_PART(stage_rows);
}
