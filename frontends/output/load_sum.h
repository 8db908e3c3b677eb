/* load_sum.h - what the loads of a case come to: the whole force and where it acts, as written in the model.
 * SPDX-License-Identifier: MIT */
#ifndef KERNLINE_LOAD_SUM_H
#define KERNLINE_LOAD_SUM_H

#include "kernline/results.h"

/* Loads of a case, so many times. */
typedef struct load_share {
    kl_index load_case;
    double factor;
} load_share;

/* The cases a stage puts on; those it takes away with the factor -1. Counted only while `shares` is NULL. */
kl_index load_shares_of_stage(const kl_stage *stage, load_share *shares);

typedef struct load_sum {
    double force[2]; /* N, to the right and up */
    double size[2];  /* N, the same with every part's sign left out */
    double first[2]; /* N·m: parts to the right times y, parts upward times x */
    double moment;   /* N·m, of the loads that are moments, anticlockwise */
    int others;      /* loads that are no forces: movements, temperatures, tendons */
} load_sum;

/* Add every load of the case. */
kl_status load_sum_add(load_sum *sum, const kl_results *results, const load_share *share);

/* Moment of all of it about the origin, N·m, anticlockwise. */
double load_sum_about(const load_sum *sum);

/* Weight of a member per length of its line, N/m: 0 when it has none. */
kl_status load_sum_weight_at(
    const kl_results *results, kl_index member, double station, kl_side side, double *weight);

/* Room that load_sum_text fills. */
#define LOAD_SUM_TEXT 300
/* "total 1100 kip down at x = 48.5 ft", in the model's units. */
void load_sum_text(char text[LOAD_SUM_TEXT], const load_sum *sum, const kl_model *model);

/* The force's direction, global axes: of a load on a member or at a node. */
kl_point load_sum_direction(const kl_model *model, const kl_load *load);
/* Where a distributed load ends. */
double load_sum_end(const kl_model *model, const kl_load *load);

#endif
