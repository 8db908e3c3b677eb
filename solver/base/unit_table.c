/* unit_table.c - the one table of units (kernline/units.h).
 *
 * Every factor follows from definitions, nothing is a rounded table value: international foot and inch
 * (0.3048 m, 0.0254 m), avoirdupois pound (0.453 592 37 kg) and standard gravity (9.806 65 m/s^2), which together
 * make the pound-force. Source: NIST SP 811 (2008), appendix B. A year is 365 days, as creep laws count it.
 * SPDX-License-Identifier: MIT */
#include "kernline/units.h"

#include <stdio.h>
#include <string.h>

#include "str.h"
#include "unit_text.h"

#define UNIT_PI  3.14159265358979323846
#define UNIT_FT  0.3048
#define UNIT_IN  0.0254
#define UNIT_LB  (0.45359237 * 9.80665)
#define UNIT_KIP (1000.0 * UNIT_LB)
#define UNIT_DAY 86400.0

#define UNIT_DIMENSION(l, f, t, d)                                                                 \
    {                                                                                              \
        .length = (l), .force = (f), .time = (t), .temperature = (d), .is_angle = false            \
    }
#define UNIT_NUMBER      UNIT_DIMENSION(0, 0, 0, 0)
#define UNIT_LENGTH      UNIT_DIMENSION(1, 0, 0, 0)
#define UNIT_FORCE       UNIT_DIMENSION(0, 1, 0, 0)
#define UNIT_MOMENT      UNIT_DIMENSION(1, 1, 0, 0)
#define UNIT_STRESS      UNIT_DIMENSION(-2, 1, 0, 0)
#define UNIT_LINE_LOAD   UNIT_DIMENSION(-1, 1, 0, 0)
#define UNIT_WEIGHT      UNIT_DIMENSION(-3, 1, 0, 0)
#define UNIT_TIME        UNIT_DIMENSION(0, 0, 1, 0)
#define UNIT_TEMPERATURE UNIT_DIMENSION(0, 0, 0, 1)
/* In a set with force as a base, mass is force per acceleration: kg = N s^2/m. */
#define UNIT_MASS UNIT_DIMENSION(-1, 1, 2, 0)
#define UNIT_ANGLE                                                                                 \
    {                                                                                              \
        .is_angle = true                                                                           \
    }

/* clang-format off */
static const kl_unit unit_words[] = {
    {"in",     UNIT_LENGTH,      UNIT_IN,                        false, "inch, 0.0254 m"},
    {"ft",     UNIT_LENGTH,      UNIT_FT,                        false, "foot, 12 in"},
    {"mm",     UNIT_LENGTH,      1e-3,                           false, "millimetre"},
    {"cm",     UNIT_LENGTH,      1e-2,                           false, "centimetre"},
    {"m",      UNIT_LENGTH,      1.0,                            false, "metre"},
    {"km",     UNIT_LENGTH,      1e3,                            false, "kilometre"},
    {"lb",     UNIT_FORCE,       UNIT_LB,                        false, "pound-force, 4.448222 N"},
    {"kip",    UNIT_FORCE,       UNIT_KIP,                       false, "kilopound-force, 1000 lb"},
    {"N",      UNIT_FORCE,       1.0,                            false, "newton"},
    {"kN",     UNIT_FORCE,       1e3,                            false, "kilonewton"},
    {"MN",     UNIT_FORCE,       1e6,                            false, "meganewton"},
    {"psi",    UNIT_STRESS,      UNIT_LB / (UNIT_IN * UNIT_IN),  false, "lb/in^2"},
    {"ksi",    UNIT_STRESS,      UNIT_KIP / (UNIT_IN * UNIT_IN), false, "kip/in^2"},
    {"psf",    UNIT_STRESS,      UNIT_LB / (UNIT_FT * UNIT_FT),  false, "lb/ft^2"},
    {"ksf",    UNIT_STRESS,      UNIT_KIP / (UNIT_FT * UNIT_FT), false, "kip/ft^2"},
    {"Pa",     UNIT_STRESS,      1.0,                            false, "pascal, N/m^2"},
    {"kPa",    UNIT_STRESS,      1e3,                            false, "kilopascal, kN/m^2"},
    {"MPa",    UNIT_STRESS,      1e6,                            false, "megapascal, N/mm^2"},
    {"GPa",    UNIT_STRESS,      1e9,                            false, "gigapascal, kN/mm^2"},
    {"bar",    UNIT_STRESS,      1e5,                            false, "bar, 100 kPa"},
    {"plf",    UNIT_LINE_LOAD,   UNIT_LB / UNIT_FT,              false, "lb/ft"},
    {"klf",    UNIT_LINE_LOAD,   UNIT_KIP / UNIT_FT,             false, "kip/ft"},
    {"pcf",    UNIT_WEIGHT,      UNIT_LB / (UNIT_FT * UNIT_FT * UNIT_FT), false, "lb/ft^3"},
    {"kip-ft", UNIT_MOMENT,      UNIT_KIP * UNIT_FT,             false, "kip times foot"},
    {"kip-in", UNIT_MOMENT,      UNIT_KIP * UNIT_IN,             false, "kip times inch"},
    {"lb-ft",  UNIT_MOMENT,      UNIT_LB * UNIT_FT,              false, "pound-force times foot"},
    {"lb-in",  UNIT_MOMENT,      UNIT_LB * UNIT_IN,              false, "pound-force times inch"},
    {"kN-m",   UNIT_MOMENT,      1e3,                            false, "kilonewton times metre"},
    {"N-m",    UNIT_MOMENT,      1.0,                            false, "newton times metre"},
    {"deg",    UNIT_ANGLE,       UNIT_PI / 180.0,                false, "degree of angle"},
    {"rad",    UNIT_ANGLE,       1.0,                            false, "radian"},
    {"degF",   UNIT_TEMPERATURE, 5.0 / 9.0,                      false, "degree Fahrenheit, as a difference"},
    {"degC",   UNIT_TEMPERATURE, 1.0,                            false, "degree Celsius, as a difference"},
    {"day",    UNIT_TIME,        UNIT_DAY,                       false, "day, 24 hours"},
    {"hour",   UNIT_TIME,        3600.0,                         false, "hour"},
    {"year",   UNIT_TIME,        365.0 * UNIT_DAY,               false, "year of 365 days"},
    {"%",      UNIT_NUMBER,      0.01,                           false, "hundredth"},
    {"kg",     UNIT_MASS,        1.0,                            true,  "kilogram, in densities kg/m^3 only"},
};

typedef struct unit_measure {
    const char *name;
    kl_dimension dimension;
    const char *shown[2]; /* by kl_unit_system: US, SI */
} unit_measure;

static const unit_measure unit_measures[KL_MEASURE_COUNT] = {
    [KL_MEASURE_NUMBER]          = {"pure number",       UNIT_NUMBER,                   {"", ""}},
    [KL_MEASURE_RATIO]           = {"ratio",             UNIT_NUMBER,                   {"%", "%"}},
    [KL_MEASURE_ANGLE]           = {"angle",             UNIT_ANGLE,                    {"deg", "deg"}},
    [KL_MEASURE_ROTATION]        = {"rotation",          UNIT_ANGLE,                    {"rad", "rad"}},
    [KL_MEASURE_STATION]         = {"length",            UNIT_LENGTH,                   {"ft", "m"}},
    [KL_MEASURE_SIZE]            = {"size",              UNIT_LENGTH,                   {"in", "mm"}},
    [KL_MEASURE_DEFLECTION]      = {"deflection",        UNIT_LENGTH,                   {"in", "mm"}},
    [KL_MEASURE_AREA]            = {"area",              UNIT_DIMENSION(2, 0, 0, 0),    {"in^2", "m^2"}},
    [KL_MEASURE_STEEL_AREA]      = {"steel area",        UNIT_DIMENSION(2, 0, 0, 0),    {"in^2", "mm^2"}},
    [KL_MEASURE_INERTIA]         = {"moment of inertia", UNIT_DIMENSION(4, 0, 0, 0),    {"in^4", "m^4"}},
    [KL_MEASURE_SECTION_MODULUS] = {"section modulus",   UNIT_DIMENSION(3, 0, 0, 0),    {"in^3", "m^3"}},
    [KL_MEASURE_FORCE]           = {"force",             UNIT_FORCE,                    {"kip", "kN"}},
    [KL_MEASURE_MOMENT]          = {"moment",            UNIT_MOMENT,                   {"kip-ft", "kN-m"}},
    [KL_MEASURE_LINE_LOAD]       = {"distributed load",  UNIT_LINE_LOAD,                {"kip/ft", "kN/m"}},
    [KL_MEASURE_STRESS]          = {"stress",            UNIT_STRESS,                   {"ksi", "MPa"}},
    [KL_MEASURE_PRESSURE]        = {"pressure",          UNIT_STRESS,                   {"psi", "MPa"}},
    [KL_MEASURE_UNIT_WEIGHT]     = {"unit weight",       UNIT_WEIGHT,                   {"pcf", "kN/m^3"}},
    [KL_MEASURE_STIFFNESS]       = {"stiffness",         UNIT_LINE_LOAD,                {"kip/in", "kN/mm"}},
    [KL_MEASURE_TURN_STIFFNESS]  = {"turning stiffness", UNIT_MOMENT,                   {"kip-ft/rad", "kN-m/rad"}},
    [KL_MEASURE_TIME]            = {"time",              UNIT_TIME,                     {"day", "day"}},
    [KL_MEASURE_TEMPERATURE]     = {"temperature",       UNIT_TEMPERATURE,              {"degF", "degC"}},
    [KL_MEASURE_EXPANSION]       = {"expansion",         UNIT_DIMENSION(0, 0, 0, -1),   {"per degF", "per degC"}},
    [KL_MEASURE_WOBBLE]          = {"wobble",            UNIT_DIMENSION(-1, 0, 0, 0),   {"per ft", "per m"}},
    [KL_MEASURE_PLAN_BEND]       = {"plan bend",         UNIT_DIMENSION(-1, 0, 0, 0),   {"rad/ft", "rad/m"}},
};

typedef struct unit_named_dimension {
    kl_dimension dimension;
    const char *name;
} unit_named_dimension;

/* What a message calls a dimension; any other is spelled out from its exponents. */
static const unit_named_dimension unit_dimension_names[] = {
    {UNIT_NUMBER,                   "pure number"},
    {UNIT_LENGTH,                   "length"},
    {UNIT_DIMENSION(2, 0, 0, 0),    "area"},
    {UNIT_FORCE,                    "force"},
    {UNIT_MOMENT,                   "moment"},
    {UNIT_LINE_LOAD,                "force per length"},
    {UNIT_STRESS,                   "stress"},
    {UNIT_WEIGHT,                   "unit weight"},
    {UNIT_TIME,                     "time"},
    {UNIT_TEMPERATURE,              "temperature"},
    {UNIT_MASS,                     "mass"},
    {UNIT_DIMENSION(-4, 1, 2, 0),   "mass density"},
};
/* clang-format on */

#define UNIT_COUNT(array) (sizeof(array) / sizeof((array)[0]))

const kl_unit *kl_unit_find(const char *word, size_t length)
{
    for (size_t i = 0; i < UNIT_COUNT(unit_words); i++) {
        if (str_equal(unit_words[i].word, word, length)) {
            return &unit_words[i];
        }
    }
    return NULL;
}

const kl_unit *kl_unit_table(size_t *count)
{
    *count = UNIT_COUNT(unit_words);
    return unit_words;
}

/* A measure from outside the list counts as a pure number. */
static const unit_measure *unit_measure_of(kl_measure measure)
{
    const bool known = (int)measure >= 0 && measure < KL_MEASURE_COUNT;
    return &unit_measures[known ? measure : KL_MEASURE_NUMBER];
}

const char *kl_measure_name(kl_measure measure)
{
    return unit_measure_of(measure)->name;
}

kl_dimension kl_measure_dimension(kl_measure measure)
{
    return unit_measure_of(measure)->dimension;
}

bool kl_dimension_equal(kl_dimension a, kl_dimension b)
{
    return a.length == b.length && a.force == b.force && a.time == b.time &&
           a.temperature == b.temperature;
}

/* Append, cut at the end of the text. */
static void unit_append(char *text, size_t size, const char *more)
{
    const size_t length = strlen(text);
    if (length + 1 < size) {
        snprintf(text + length, size - length, "%s", more);
    }
}

/* The bases whose exponents have the sign, as "length^2 temperature". */
static void unit_append_product(kl_dimension dimension, int sign, char *text, size_t size)
{
    static const char *const bases[4] = {"length", "force", "time", "temperature"};
    const int exponents[4] = {dimension.length, dimension.force, dimension.time,
                              dimension.temperature};
    const char *gap = "";
    for (int i = 0; i < 4; i++) {
        const int power = sign * exponents[i];
        if (power <= 0) {
            continue;
        }
        char term[32];
        if (power == 1) {
            snprintf(term, sizeof term, "%s%s", gap, bases[i]);
        } else {
            snprintf(term, sizeof term, "%s%s^%d", gap, bases[i], power);
        }
        unit_append(text, size, term);
        gap = " ";
    }
}

void kl_dimension_name(kl_dimension dimension, char *text, size_t size)
{
    if (size == 0) {
        return;
    }
    text[0] = '\0';
    for (size_t i = 0; i < UNIT_COUNT(unit_dimension_names); i++) {
        if (kl_dimension_equal(dimension, unit_dimension_names[i].dimension)) {
            const bool angle = i == 0 && dimension.is_angle;
            unit_append(text, size, angle ? "angle" : unit_dimension_names[i].name);
            return;
        }
    }
    unit_append_product(dimension, 1, text, size);
    const bool has_below = dimension.length < 0 || dimension.force < 0 || dimension.time < 0 ||
                           dimension.temperature < 0;
    if (has_below) {
        unit_append(text, size, text[0] != '\0' ? " per " : "per ");
        unit_append_product(dimension, -1, text, size);
    }
}

/* The unit a measure is shown in. One that `show` asks for and that does not fit is passed over, so that text
 * and factor always agree. */
static const char *unit_shown(const kl_display *display, kl_measure measure, double *factor)
{
    const unit_measure *known = unit_measure_of(measure);
    kl_unit unit = {.factor = 1.0};
    const bool listed = (int)measure >= 0 && measure < KL_MEASURE_COUNT;
    const char *asked = display != NULL && listed ? display->unit_of[measure] : NULL;
    if (asked != NULL && unit_text_read(asked, strlen(asked), &unit) &&
        kl_dimension_equal(unit.dimension, known->dimension)) {
        *factor = unit.factor;
        return asked;
    }
    const bool si = display != NULL && display->system == KL_UNITS_SI;
    const char *own = known->shown[si ? KL_UNITS_SI : KL_UNITS_US];
    unit_text_read(own, strlen(own), &unit);
    *factor = unit.factor;
    return own;
}

const char *kl_show_unit(const kl_display *display, kl_measure measure)
{
    double factor = 1.0;
    return unit_shown(display, measure, &factor);
}

double kl_show_factor(const kl_display *display, kl_measure measure)
{
    double factor = 1.0;
    unit_shown(display, measure, &factor);
    return factor;
}
