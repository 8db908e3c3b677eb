/* units.h - the one unit table: what a unit word means and how a quantity is shown.
 *
 * Inside the library every number is in one coherent set: m, N, Pa, rad, s, K. Front ends convert when they
 * read and when they print, through this table and nowhere else.
 * SPDX-License-Identifier: MIT */
#ifndef KERNLINE_UNITS_H
#define KERNLINE_UNITS_H

#include <stdbool.h>
#include <stddef.h>

/* A dimension is four exponents; angles count as pure numbers but are remembered (see is_angle). */
typedef struct kl_dimension {
    signed char length, force, time, temperature;
    bool is_angle; /* rad or deg: a pure number that was written as an angle */
} kl_dimension;

typedef struct kl_unit {
    const char *word;       /* as written in a model: "kip" */
    kl_dimension dimension; /* force 1 */
    double factor;          /* value in the base set = number * factor */
    bool is_mass; /* kg: only as a density kg/m^3, multiplied by standard gravity by the reader */
    const char *help; /* "kilopound-force, 1000 lb" */
} kl_unit;

/* The kinds of value a result or a phrase can have; each has a dimension, a name and a shown unit a system. */
typedef enum kl_measure {
    KL_MEASURE_NUMBER,
    KL_MEASURE_RATIO,           /* shown in % */
    KL_MEASURE_ANGLE,           /* shown in deg when a profile or skew, see kl_show */
    KL_MEASURE_ROTATION,        /* small rotations, shown in rad */
    KL_MEASURE_STATION,         /* ft | m */
    KL_MEASURE_SIZE,            /* section sizes, duct, set, elongation: in | mm */
    KL_MEASURE_DEFLECTION,      /* in | mm */
    KL_MEASURE_AREA,            /* in^2 | m^2 */
    KL_MEASURE_STEEL_AREA,      /* in^2 | mm^2 */
    KL_MEASURE_INERTIA,         /* in^4 | m^4 */
    KL_MEASURE_SECTION_MODULUS, /* in^3 | m^3 */
    KL_MEASURE_FORCE,           /* kip | kN */
    KL_MEASURE_MOMENT,          /* kip-ft | kN-m */
    KL_MEASURE_LINE_LOAD,       /* kip/ft | kN/m */
    KL_MEASURE_STRESS,          /* ksi | MPa */
    KL_MEASURE_PRESSURE,        /* psi | MPa: gauge */
    KL_MEASURE_UNIT_WEIGHT,     /* pcf | kN/m^3 */
    KL_MEASURE_STIFFNESS,       /* kip/in | kN/mm */
    KL_MEASURE_TURN_STIFFNESS,  /* kip-ft/rad | kN-m/rad */
    KL_MEASURE_TIME,            /* day */
    KL_MEASURE_TEMPERATURE,     /* degF | degC, differences */
    KL_MEASURE_EXPANSION,       /* per degF | per degC */
    KL_MEASURE_WOBBLE,          /* per ft | per m */
    KL_MEASURE_PLAN_BEND,       /* rad/ft | rad/m */
    KL_MEASURE_COUNT
} kl_measure;

typedef enum kl_unit_system { KL_UNITS_US, KL_UNITS_SI } kl_unit_system;

/* How results are shown: a system, and the unit words that `show` replaced (NULL: the system's own). */
typedef struct kl_display {
    kl_unit_system system;
    const char *unit_of[KL_MEASURE_COUNT];
} kl_display;

/* A unit word, or NULL. `length` bytes are read; the words are case-sensitive. */
const kl_unit *kl_unit_find(const char *word, size_t length);
/* All unit words, in the table's order, for lists and suggestions. */
const kl_unit *kl_unit_table(size_t *count);

const char *kl_measure_name(kl_measure measure); /* "length", "force", "moment": for messages */
kl_dimension kl_measure_dimension(kl_measure measure);
bool kl_dimension_equal(kl_dimension a, kl_dimension b); /* angles count as pure numbers */
/* A name for any dimension: "force", "force per length", "length^2 temperature". Writes at most size bytes. */
void kl_dimension_name(kl_dimension dimension, char *text, size_t size);

/* The text of the unit a measure is shown in ("kip-ft"), and the factor: shown = value / factor. */
const char *kl_show_unit(const kl_display *display, kl_measure measure);
double kl_show_factor(const kl_display *display, kl_measure measure);

#endif
