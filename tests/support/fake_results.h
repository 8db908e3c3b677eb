/* fake_results.h - results whose every value a test writes itself, so that checks, expectations and warnings are
 * tested against numbers known beforehand.
 *
 * fake_results.c answers the questions of kernline/results.h that the check layer asks. It is linked into the test programs
 * that include this header, and the library's own answers are then not (Makefile: FAKED). Courses along members are
 * a + b x + c x^2.
 * SPDX-License-Identifier: MIT */
#ifndef KERNLINE_FAKE_RESULTS_H
#define KERNLINE_FAKE_RESULTS_H

#include <math.h>

#include "kernline/check.h"

#define FAKE_STEPS   6
#define FAKE_MEMBERS 3
#define FAKE_NODES   4
#define FAKE_ROWS    6
#define FAKE_PULLS   3

typedef struct fake_course {
    double a, b, c; /* value = a + b x + c x^2 */
} fake_course;

struct kl_results {
    kl_model model;
    kl_step steps[FAKE_STEPS];
    kl_index step_count;
    bool absent[FAKE_STEPS][FAKE_MEMBERS];
    bool no_stress; /* as a bare section without to_top has none */
    fake_course top[FAKE_STEPS][FAKE_MEMBERS], bottom[FAKE_STEPS][FAKE_MEMBERS];
    fake_course other[FAKE_STEPS][FAKE_MEMBERS]; /* moment, deflection …; camber is minus it */
    double reaction[FAKE_STEPS][FAKE_NODES][3], movement[FAKE_STEPS][FAKE_NODES];
    kl_post_row rows[FAKE_STEPS][FAKE_ROWS]; /* falsework 0 */
    fake_course tendon[FAKE_STEPS];          /* force in one tendon, tendon 0 */
    kl_tendon_phase phase[FAKE_STEPS];
    kl_stressing pulls[FAKE_PULLS]; /* of tendon 0, the last one the fullest */
    kl_index pull_count;
    double strength[FAKE_STEPS], age[FAKE_STEPS];
    kl_station_row faces[2];
    kl_index face_count;
};

/* One model for all: a 30 m cap on two columns, cast, stressed by two tendons, released. Stages: cap_cast: erect, cast;
 * step_1: stress twice; released: release. */
extern kl_material fake_materials[2];
extern kl_member fake_members[FAKE_MEMBERS];
extern kl_support fake_supports[2];
extern kl_falsework fake_falsework[1];
extern kl_tendon fake_tendons[1];

static const double fake_none = (double)NAN;

/* Everything stands, nothing is stressed, rows bear 100 kN after the pour and stand until the release. */
void fake_start(kl_results *r);

/* A row of six posts a group keeps `force` at step s; 0: it has lifted. */
void fake_row(kl_results *r, kl_index step, kl_index row, double force);

/* How many diagnostics of that name there are; *text receives the message of the first. */
int fake_told(const kl_diags *diags, const char *name, const char **text);

#endif
