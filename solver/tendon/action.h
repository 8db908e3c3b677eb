/* action.h - what a tendon does to the sections it passes, and what they do to it.
 *
 * A force P in the tendon gives the section action P tau, tau = (cos theta, -cos theta y, -sin theta) for (N, M, V)
 * about the member's line. The concrete carries s - P tau, so the initial strain is -f tau P: the section total s is
 * then the secondary action and nothing is smeared. By the dual of tau the tendon stretches by the integral of
 * cos theta (e - k y) - sin theta gamma dx along it.
 * SPDX-License-Identifier: MIT */
#ifndef KERNLINE_ACTION_H
#define KERNLINE_ACTION_H

#include "element_load.h"
#include "profile.h"

/* The tendon at one quadrature point of an element. */
typedef struct trace_point {
    double x;            /* station along the tendon's members */
    double duct, height; /* m above the member's line: the duct's centre, the tendon's centroid */
    double cosine, sine; /* of theta */
    double curvature;    /* d2y/dx2 */
} trace_point;

typedef struct trace_element {
    kl_index element;
    trace_point at[QUADRATURE_POINTS];
} trace_element;

typedef struct tendon_trace {
    const trace_element *elements; /* in order from the tendon's start */
    kl_index count;
    double area;    /* m^2 of the group */
    double modulus; /* Pa */
    double length;  /* m, true length between the anchors */
} tendon_trace;

/* Where a tendon meets the mesh. Element ends must fall on its rows. */
kl_status action_trace(
    const frame_mesh *mesh, kl_index tendon, const tendon_path *path, arena *a, tendon_trace *out);

/* tau for one newton. */
section_action action_unit(const trace_point *at);

/* Add the action of a change of force in the group (N at each trace point) as initial strains. `matrix` gives the
 * sections' flexibilities. @return KL_NO_MEMORY. */
kl_status action_add(const frame_mesh *mesh,
                     const tendon_trace *trace,
                     const element_matrix *matrix,
                     const double *force,
                     frame_loads *loads);

/* The same change as loads on the concrete: anchor forces and moments, P theta' along the length and at corners,
 * friction tangentially. A second route to the same stresses, for tests and for tables.
 * @return KL_NO_MEMORY. */
kl_status action_add_as_loads(const frame_mesh *mesh,
                              const tendon_trace *trace,
                              const double *force,
                              frame_loads *loads);

/* How much the path lengthens in a field of strains (rows of recover.h), m. */
double action_elongation(const frame_mesh *mesh, const tendon_trace *trace, const double *field);

#endif
