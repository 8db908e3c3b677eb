/* time_case.h - concrete for tests of creep and shrinkage, and a redundant force that creep relaxes.
 * SPDX-License-Identifier: MIT */
#ifndef KERNLINE_TIME_CASE_H
#define KERNLINE_TIME_CASE_H

#include <math.h>

#include "creep.h"

#define MPA  1e6
#define GPA  1e9
#define DAY  KL_DAY
#define KSI  6894757.293168361
#define INCH 0.0254
#define MM   0.001

/* Curves of the user's own: phi of 2 and 300e-6 in the end. */
static const kl_time_point time_case_phi = {.time = (double)INFINITY, .value = 2.0};
static const kl_time_point time_case_strain = {.time = (double)INFINITY, .value = 300e-6};

/* Normal cement, cured 7 days, a constant modulus of 30 GPa. */
static inline kl_material time_case_mix(double strength)
{
    return (kl_material){.kind = KL_CONCRETE,
                         .name = "mix",
                         .strength = strength,
                         .transfer_strength = (double)NAN,
                         .unit_weight = 23600.0,
                         .modulus_law = KL_LAW_VALUE,
                         .modulus = 30.0 * GPA,
                         .shear_modulus = (double)NAN,
                         .creep_curve = {.points = &time_case_phi, .count = 1},
                         .shrinkage_curve = {.points = &time_case_strain, .count = 1},
                         .cement = KL_CEMENT_NORMAL,
                         .cured = 7.0 * DAY};
}

/* 70 % humidity, 250 mm volume to surface (notional size 500 mm). */
static inline time_concrete time_case_concrete(const kl_material *mix)
{
    return (time_concrete){.material = mix, .humidity = 0.70, .volume_to_surface = 250.0 * MM};
}

#endif
