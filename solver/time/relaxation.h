/* relaxation.h - stress that prestressing steel loses at constant length, and how it goes on while the length changes.
 *
 * The intrinsic laws give the loss of a steel held at its initial stress s_i for a time t (hours):
 *
 *     log law       s_i log10(t) / 45 (s_i / f_py - 0.55), low relaxation; / 10, stress-relieved; 0 below 0.55 f_py
 *                   and in the first hour. AASHTO LRFD 2020 C5.9.3.4.2c; the unit of time from memory.
 *     en1992 2004   (3.28) to (3.30): s_i a rho e^(b mu) (t / 1000)^(0.75 (1 - mu)) 1e-5, mu = s_i / f_pk, rho the
 *                   loss in percent at 1000 hours under 0.7 f_p: a, b = 5.39, 6.7 class 1 (ordinary wire and strand);
 *                   0.66, 9.1 class 2 (low relaxation); 1.98, 8 class 3 (bars). From memory. It does not give rho
 *                   back at 1000 hours, and is not to be "corrected".
 *
 * In a structure the steel shortens with the concrete. By the method of equivalent time (EN 1992-1-1:2004 annex D) the
 * steel is at each step one that was always held at s_ref = present stress + what relaxation has taken so far, that
 * is, at the stress its present length alone would give; the time in which that steel would have lost as much is where
 * the law goes on from. At constant length that is the intrinsic law exactly, in whatever steps; strain lost to creep and
 * shrinkage lowers s_ref and slows it.
 *
 * Units: s, Pa. Losses are positive.
 * SPDX-License-Identifier: MIT */
#ifndef KERNLINE_RELAXATION_H
#define KERNLINE_RELAXATION_H

#include "kernline/model.h"
#include "time_scope.h"

typedef enum relaxation_law {
    RELAXATION_NONE,
    RELAXATION_LOG_LOW,
    RELAXATION_LOG_NORMAL,
    RELAXATION_EN1992_CLASS_1,
    RELAXATION_EN1992_CLASS_2,
    RELAXATION_EN1992_CLASS_3
} relaxation_law;

typedef struct relaxation_steel {
    relaxation_law law;
    double ultimate; /* f_pu, f_pk */
    double yield;    /* f_py; en1992 does not ask */
    double
        loss_1000; /* en1992: loss at 1000 hours, RATIO; NAN: 8, 2.5, 4 % by class. The log law does not ask. */
} relaxation_steel;

/* The law a prestressing steel of the model asks for: `low`, `normal` the log law; `bar` class 3 of EN 1992; a loss at 1000
 * hours the class of EN 1992 which the steel can be: a steel of less than 1400 MPa is a bar (class 3), for strand and wire have
 * 1570 MPa and more, bars 1230 MPa and less (EN 10138, from memory); else class 2, and class 1 from 4.5 % on, the mean by
 * ratio of their 2.5 and 8 %. */
relaxation_steel relaxation_steel_of(const kl_material *material);

/* Stress lost by a steel held at `initial` for a time. */
double relaxation_intrinsic(const relaxation_steel *steel, double initial, double time);

typedef struct relaxation_state {
    double time; /* since tensioned */
    double lost; /* by relaxation, so far */
} relaxation_state;

/* Further loss in a step, under the stress s_ref without any relaxation (present stress + state->lost: the initial
 * stress less E_p times the strain lost), taken at the middle of the step for second order. Updates the state. */
double relaxation_step(const relaxation_steel *steel,
                       double reference,
                       double duration,
                       relaxation_state *state);

/* What is outside the stated scope of the law for steel tensioned to `initial`. */
time_scope relaxation_outside(const relaxation_steel *steel, double initial);

/* Edition and article, with what is from memory. Static text. */
const char *relaxation_source(relaxation_law law);

#endif
