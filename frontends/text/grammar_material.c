/* grammar_material.c - rows of the table: concrete, elastic materials, prestressing and reinforcing steel.
 * SPDX-License-Identifier: MIT */
#include "grammar_rows.h"

/* clang-format off */
static const grammar_row material_rows[] = {
    {IN_CONCRETE, "like", {NAME("concrete")}, .example = "like cap_mix",
     .help = "take everything from another mix and replace what is written here"},
    {IN_CONCRETE, "strength", {QUANTITY(STRESS)}, .flags = GRAMMAR_WHEN_USED, .low = 2.5,
     .high = 15, .range_unit = "ksi", .example = "strength 6 ksi",
     .help = "compressive strength at 28 days, f'c"},
    {IN_CONCRETE, "transfer_strength", {QUANTITY(STRESS)}, .flags = GRAMMAR_WHEN_USED, .low = 2,
     .high = 12, .range_unit = "ksi", .example = "transfer_strength 4.8 ksi",
     .help = "least strength when tendons are stressed, f'ci"},
    {IN_CONCRETE, "unit_weight", {QUANTITY(UNIT_WEIGHT)}, .flags = GRAMMAR_WHEN_USED, .low = 90,
     .high = 180, .range_unit = "pcf", .example = "unit_weight 150 pcf",
     .help = "weight per volume; a density in kg/m^3 is multiplied by gravity"},
    {IN_CONCRETE, "modulus", {CHOICE_OR(STRESS, "aashto 2020|aci 2019|en1992 2004|mc1990")},
     .flags = GRAMMAR_WHEN_USED, .low = 2000, .high = 8000, .range_unit = "ksi",
     .example = "modulus aashto 2020",
     .help = "modulus of elasticity: a value, or a published model that follows strength and age"},
    {IN_CONCRETE, "shear_modulus", {QUANTITY(STRESS)}, .low = 800, .high = 3500,
     .range_unit = "ksi", .example = "shear_modulus 1900 ksi",
     .help = "shear modulus; the modulus over 2.4 when not given"},
    {IN_CONCRETE, "expansion", {QUANTITY(EXPANSION)}, .flags = GRAMMAR_WHEN_USED, .low = 3e-6,
     .high = 8e-6, .range_unit = "per degF", .example = "expansion 6e-6 per degF",
     .help = "coefficient of thermal expansion"},
    {IN_CONCRETE, "creep",
     {CHOICE("none|aashto 2020|aci209 1992|mc1990|mc1999|mc2010|en1992 2004|user")},
     .inner = IN_CREEP, .otherwise = "none", .example = "creep aashto 2020",
     .help = "how the concrete creeps: a published model, or a curve of your own"},
    {IN_CONCRETE, "shrinkage",
     {CHOICE("none|aashto 2020|aci209 1992|mc1990|mc1999|mc2010|en1992 2004|user")},
     .inner = IN_SHRINKAGE, .otherwise = "none", .example = "shrinkage aashto 2020",
     .help = "how the concrete shrinks: a published model, or a curve of your own"},
    {IN_CONCRETE, "cement", {CHOICE("slow|normal|rapid")}, .otherwise = "normal",
     .example = "cement rapid", .help = "how fast the cement hardens"},
    {IN_CONCRETE, "gain", {CHOICE("aci209 1992|mc1990|en1992 2004")}, .otherwise = "aci209 1992",
     .example = "gain aci209 1992", .help = "the published model of strength with age"},
    {IN_CONCRETE, "cured", {QUANTITY(TIME)}, .otherwise = "7 day", .low = 1, .high = 28,
     .range_unit = "day", .example = "cured 7 day",
     .help = "how long the concrete is kept moist; it dries from then on"},

    {IN_CREEP, "phi", {QUANTITY(NUMBER)}, .group = "curve", .low = 0.5,
     .high = 5, .range_unit = "", .example = "creep user { phi 2.0 }",
     .help = "the final creep coefficient: 63 % of it has come after 100 days, all after 1000"},
    {IN_CREEP, "point", {QUANTITY(TIME)}, .inner = IN_CREEP_POINT,
     .flags = GRAMMAR_MANY, .group = "curve",
     .example = "creep user { point 7 day phi 0.6; point 1000 day phi 1.8 }",
     .help = "the creep coefficient so long after loading"},

    {IN_CREEP_POINT, "phi", {QUANTITY(NUMBER)}, .flags = GRAMMAR_REQUIRED, .low = 0, .high = 5,
     .range_unit = "", .example = "point 7 day phi 0.6", .help = "the creep coefficient then"},

    {IN_SHRINKAGE, "strain", {QUANTITY(NUMBER)}, .group = "curve", .low = 50e-6,
     .high = 1500e-6, .range_unit = "", .example = "shrinkage user { strain 300e-6 }",
     .help = "the final shrinkage: 63 % of it has come 100 days after curing, all after 1000"},
    {IN_SHRINKAGE, "point", {QUANTITY(TIME)}, .inner = IN_SHRINKAGE_POINT,
     .flags = GRAMMAR_MANY, .group = "curve",
     .example = "shrinkage user { point 28 day strain 100e-6; point 1000 day strain 300e-6 }",
     .help = "the shrinkage so long after the end of curing"},

    {IN_SHRINKAGE_POINT, "strain", {QUANTITY(NUMBER)}, .flags = GRAMMAR_REQUIRED, .low = 0,
     .high = 1500e-6, .range_unit = "", .example = "point 28 day strain 100e-6",
     .help = "the shrinkage then"},

    {IN_MATERIAL, "like", {NAME("material")}, .example = "like oak",
     .help = "take everything from another material and replace what is written here"},
    {IN_MATERIAL, "modulus", {QUANTITY(STRESS)}, .flags = GRAMMAR_REQUIRED,
     .example = "modulus 1600 ksi", .help = "modulus of elasticity"},
    {IN_MATERIAL, "unit_weight", {QUANTITY(UNIT_WEIGHT)}, .flags = GRAMMAR_WHEN_USED, .low = 5,
     .high = 500, .range_unit = "pcf", .example = "unit_weight 35 pcf",
     .help = "weight per volume; a density in kg/m^3 is multiplied by gravity"},
    {IN_MATERIAL, "shear_modulus", {QUANTITY(STRESS)}, .flags = GRAMMAR_WHEN_USED,
     .example = "shear_modulus 100 ksi", .help = "shear modulus, where shear is flexible"},
    {IN_MATERIAL, "expansion", {QUANTITY(EXPANSION)}, .flags = GRAMMAR_WHEN_USED, .low = 1e-6,
     .high = 20e-6, .range_unit = "per degF", .example = "expansion 6.5e-6 per degF",
     .help = "coefficient of thermal expansion"},

    {IN_PRESTRESSING, "ultimate", {QUANTITY(STRESS)}, .flags = GRAMMAR_REQUIRED, .low = 120,
     .high = 320, .range_unit = "ksi", .example = "ultimate 270 ksi",
     .help = "tensile strength, fpu"},
    {IN_PRESTRESSING, "yield", {QUANTITY(STRESS)}, .flags = GRAMMAR_REQUIRED, .low = 100,
     .high = 300, .range_unit = "ksi", .example = "yield 243 ksi", .help = "yield strength, fpy"},
    {IN_PRESTRESSING, "modulus", {QUANTITY(STRESS)}, .flags = GRAMMAR_REQUIRED, .low = 26000,
     .high = 31000, .range_unit = "ksi", .example = "modulus 28500 ksi",
     .help = "modulus of elasticity of the strand or bar"},
    {IN_PRESTRESSING, "relaxation", {CHOICE_OR(RATIO, "none|low|normal|bar")},
     .otherwise = "none", .low = 0.5, .high = 12, .range_unit = "%", .example = "relaxation low",
     .help = "stress lost at constant length: a kind of steel, or a % at 1000 hours"},

    {IN_REINFORCING, "yield", {QUANTITY(STRESS)}, .flags = GRAMMAR_REQUIRED, .low = 30, .high = 120,
     .range_unit = "ksi", .example = "yield 60 ksi", .help = "yield strength, fy"},
    {IN_REINFORCING, "modulus", {QUANTITY(STRESS)}, .flags = GRAMMAR_REQUIRED, .low = 26000,
     .high = 31000, .range_unit = "ksi", .example = "modulus 29000 ksi",
     .help = "modulus of elasticity"},
};
/* clang-format on */

grammar_part grammar_material_part(void)
{
    return GRAMMAR_PART(material_rows);
}
