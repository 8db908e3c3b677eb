/* element.h - the flexibility-based frame element.
 *
 * Basic system: simply supported between the faces of its rigid ends, q = (N, M_start, M_end). Section actions
 * s(x) = b(x) q + s_p(x) are in exact equilibrium with the element's loads; the deformations follow from
 * v = integral of b^T (f s + e_init) dx, so F = integral of b^T f b dx, k = F^-1, q = k (v - v_init).
 * Everything that is not elastic is an initial section strain.
 *
 * Section: e(y) = e0 - k y, N = sum of stress (tension +), M = -sum of stress times y (sagging +), V = dM/dx,
 * D = [[EA, -ES], [-ES, EI]] about the member's line, f = D^-1; shear strain V/(G As).
 * Local axes: x along the member, y to its left hand. A hinge takes its end moment out of q.
 * SPDX-License-Identifier: MIT */
#ifndef KERNLINE_ELEMENT_H
#define KERNLINE_ELEMENT_H

#include "mesh.h"

typedef struct section_rigidity {
    double ea, es, ei; /* N, N·m, N·m^2 about the member's line; axial members: ei = es = 0 */
    double shear;      /* G As, N; infinite: rigid in shear */
} section_rigidity;

typedef struct section_action {
    double n, m, v; /* N, N·m, N about the member's line */
} section_action;

typedef struct section_strain {
    double e, k, g; /* of the line, curvature 1/m, shear */
} section_strain;

typedef struct element_matrix {
    double length, cosine, sine, rigid[2];
    double f[QUADRATURE_POINTS][4]; /* f11, f12, f22 of the section, 1/(G As) */
    double k[3][3];                 /* basic stiffness; rows and columns of hinged ends are zero */
} element_matrix;

/* What acts on an element, increments. */
typedef struct element_load {
    double along[QUADRATURE_POINTS], across[QUADRATURE_POINTS]; /* N/m of the line, local axes */
    double couple[QUADRATURE_POINTS];                           /* N·m/m, anticlockwise */
    section_strain strain[QUADRATURE_POINTS];                   /* initial strains */
    double hinge_moment
        [2]; /* N·m forced on the ends where hinges are (opening a hinge that carried) */
} element_load;

/* Section actions that balance the loads on the basic system, and what they are at the two ends. */
typedef struct element_statics {
    section_action at[QUADRATURE_POINTS];
    section_action end[2];
} element_statics;

/* Form f and k. @return KL_MECHANISM when the element has no stiffness it should have (EA <= 0 …). */
kl_status element_form(const frame_mesh *mesh,
                       kl_index e,
                       const section_rigidity d[QUADRATURE_POINTS],
                       const bool hinge[2],
                       element_matrix *out);

/* Stiffness between its two nodes in global axes: block[i][j] is 3x3 by rows. */
void element_stiffness(const element_matrix *m, double block[2][2][9]);

void element_balance(const quadrature *rule,
                     double length,
                     const element_load *load,
                     element_statics *s);

/* Basic deformations of the unrestrained element: integral of b^T (f s_p + e_init). */
void element_free_deformation(const quadrature *rule,
                              const element_matrix *m,
                              const element_statics *s,
                              const section_strain *initial,
                              double v[3]);

/* Basic deformations from the movements of the two nodes (u, v, r at start, then end; global axes). */
void element_deformation(const element_matrix *m, const double u[6], double v[3]);

/* q = k (v - v_free). */
void element_basic_force(const element_matrix *m,
                         const double v[3],
                         const double v_free[3],
                         double q[3]);

/* Actions at the points and at the ends: s = b q + s_p. */
void element_actions(const quadrature *rule,
                     double length,
                     const double q[3],
                     const element_statics *s,
                     section_action at[QUADRATURE_POINTS],
                     section_action end[2]);

/* The same at the ends only, for those who balance nodes. */
void element_end_actions(const quadrature *rule,
                         double length,
                         const double q[3],
                         const element_load *load,
                         section_action end[2]);

/* Forces that the nodes exert on the element, global axes, from the actions at its ends. */
void element_end_forces(const element_matrix *m, const section_action end[2], double force[6]);

/* The movement of the flexible part's start in local axes, from the start node's movement. */
void element_start_movement(const element_matrix *m, const double u[3], double local[3]);

/* f s. */
section_strain element_section_strain(const double f[4], section_action s);

#endif
