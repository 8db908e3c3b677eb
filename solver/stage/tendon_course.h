/* tendon_course.h - where a station of a tendon lies in the mesh, and the course of its force along one element.
 *
 * Courses are the polynomials of degree 4 through the trace points of an element, as those of members (course.h).
 * SPDX-License-Identifier: MIT */
#ifndef KERNLINE_TENDON_COURSE_H
#define KERNLINE_TENDON_COURSE_H

#include "result_store.h"

/* A station of a tendon: an element of its trace, and where in it, 0 to 1. */
typedef struct tendon_spot {
    kl_index element;
    double xi;
} tendon_spot;

/* At an end of elements `side` chooses. @return KL_NOT_THERE: the tendon meets no element. */
kl_status tendon_course_find(
    const kl_results *results, kl_index tendon, double station, kl_side side, tendon_spot *spot);

/* Range of a trace element in stations of the tendon. */
void tendon_course_range(const kl_results *results,
                         const trace_element *element,
                         double *from,
                         double *to);

/* Force of the group on trace element i in a state, for quadrature_value. */
kl_status tendon_course_force(const kl_results *results,
                              kl_state state,
                              kl_index tendon,
                              kl_index i,
                              double c[QUADRATURE_POINTS]);

/* The member at a station of the tendon, and the station along that member. */
void tendon_course_member(
    const kl_results *results, kl_index tendon, double x, kl_index *member, double *station);

#endif
