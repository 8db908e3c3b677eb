/* reference_compare.h - the program's results beside those of the reference frame, number by number.
 *
 * Differences are held against the largest number of the same kind along the member (or among the things of a list).
 * What differs is printed; reference_compare_end fails the test when anything did.
 * SPDX-License-Identifier: MIT */
#ifndef KERNLINE_REFERENCE_COMPARE_H
#define KERNLINE_REFERENCE_COMPARE_H

#include "reference_frame.h"
#include "solved.h"

enum { REF_STATIONS = 64 };

typedef struct ref_compare {
    const solved *program;
    const ref_frame *frame;
    double tolerance;
    double shift; /* stations of the reference begin here in the program's member */
    int looked, wrong;
    double worst; /* ratio of a difference to what it is held against */
    const char *where;
} ref_compare;

/* One number held against `scale`. */
void reference_compare_value(
    ref_compare *c, const char *what, double station, double got, double want, double scale);

/* Stations where elements of the reference end. */
typedef struct ref_stations {
    double at[REF_STATIONS];
    int count;
} ref_stations;
void reference_station(ref_stations *s, double x); /* kept rising, once each */

/* Total, primary, secondary and concrete actions, stresses and deflections on both sides of each station. `secondary`:
 * two causes of the reference whose sum is the secondary action. */
void reference_compare_member(ref_compare *c,
                              kl_state state,
                              const char *name,
                              int member,
                              const ref_stations *stations,
                              const int secondary[2]);
/* Moments and shears of one cause: the program's, the reference's. */
void reference_compare_cause(ref_compare *c,
                             kl_state state,
                             kl_cause cause,
                             int column,
                             const char *name,
                             int member,
                             const ref_stations *stations);
void reference_compare_tendon(
    ref_compare *c, kl_state state, const char *name, int tendon, const ref_stations *stations);
void reference_compare_end(const ref_compare *c);

#endif
