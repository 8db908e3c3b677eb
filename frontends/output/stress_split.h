/* stress_split.h - the moment, the axial force and the stresses at one place as the sum of what brought them, so that a checker
 * can follow any printed figure.
 * SPDX-License-Identifier: MIT */
#ifndef KERNLINE_STRESS_SPLIT_H
#define KERNLINE_STRESS_SPLIT_H

#include "kernline/results.h"

#define SPLIT_LIMIT 64

typedef struct split_part {
    const char *name;     /* "weight", "primary: P / A" …: static or the model's */
    double axial, moment; /* N, N·m of the section's total */
    double axial_concrete, moment_concrete; /* of the concrete's share */
    double top, bottom;                     /* Pa; NAN on a section without faces */
} split_part;

typedef struct stress_split {
    split_part parts[SPLIT_LIMIT];
    int count;
    split_part whole;          /* as every table shows it */
    kl_section_values section; /* gross */
} stress_split;

/* Prestress comes in three parts, P / A, P e y / I and its secondary action, each on the gross section; what the sections of
 * each day (net of ducts, with the tendons' steel) make different is a part of its own. A case that stresses tendons, as it can in a
 * model without stages, comes in these parts and the rest of it. The parts add up to the whole.
 * @return KL_NOT_THERE when the member does not stand. */
kl_status split_make(const kl_results *results,
                     kl_state state,
                     kl_index member,
                     double station,
                     kl_side side,
                     stress_split *out);

#endif
