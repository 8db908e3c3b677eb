/* readings.h - everything a state shows, as one list of numbers that laws compare.
 *
 * Of each member, at 21 stations and both sides: moment, shear and axial force (total and in the concrete), movements,
 * stresses; of each node its movement and reaction; of each row its force and gap; of each tendon its force. What is
 * not there is NAN, and two NANs are equal. Differences are held against the largest number of the same kind.
 * SPDX-License-Identifier: MIT */
#ifndef KERNLINE_READINGS_H
#define KERNLINE_READINGS_H

#include "solved.h"

typedef enum reading_kind {
    READING_MOMENT, /* N m */
    READING_FORCE,  /* N */
    READING_LENGTH, /* m */
    READING_ANGLE,  /* rad */
    READING_STRESS, /* Pa */
    READING_KINDS
} reading_kind;

typedef struct reading {
    double value;
    reading_kind kind;
    const char
        *name; /* of member, node, falsework or tendon: for messages; borrowed from the model */
    const char *what;
    double station;
} reading;

typedef struct readings {
    reading *items;
    kl_index count, room;
} readings;

/* Read a state of `m`. The order is that of the things in `like`, found in `m` by name; NULL: m's own. */
readings readings_take(const solved *m, kl_state state, const solved *like);
void readings_free(readings *r);

/* a + factor b, in a. */
void readings_add(readings *a, const readings *b, double factor);
/* Fails unless the lists agree within rtol times the largest |number| of the same kind in either. A moment is held
 * against the largest force times a metre, and a length or an angle against one ten-thousandth of a metre or radian, when these are
 * larger: what a solve leaves of an exact zero. */
void readings_agree(const readings *got, const readings *want, double rtol);
/* The largest |number| of a kind. */
double readings_largest(const readings *r, reading_kind kind);

/* All states of a model: its steps, then the cases solved by themselves. */
kl_index states_count(const solved *m);
kl_state states_at(const solved *m, kl_index i);

#endif
