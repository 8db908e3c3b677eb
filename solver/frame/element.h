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

/* f = D^-1: e and k under N and M, and the shear strain under V, 1/(G As). Zeros: a section without the stiffness it
 * should have. */
typedef struct section_flexibility {
    double ee, ek, kk, gg;
} section_flexibility;

typedef struct section_action {
    double n, m, v; /* N, N·m, N about the member's line */
} section_action;

typedef struct section_strain {
    double e, k, g; /* of the line, curvature 1/m, shear */
} section_strain;

typedef struct element_matrix {
    double length, cosine, sine, rigid[2];
    const section_flexibility *f; /* at each quadrature point; borrowed, elements may share them */
    double k
        [6]; /* basic stiffness: its symmetric half, by rows; rows and columns of hinged ends are zero */
} element_matrix;

/* Distributed loads along an element, local axes, increments. */
typedef struct line_load {
    double along[QUADRATURE_POINTS], across[QUADRATURE_POINTS]; /* N/m of the line */
} line_load;

/* What turns an element: couples along it, and moments forced on the ends where hinges are (opening one that carried). */
typedef struct line_couple {
    double along[QUADRATURE_POINTS]; /* N·m/m, anticlockwise */
    double end[2];                   /* N·m */
} line_couple;

/* What acts on an element; a part that there is nothing of points at zeros. */
typedef struct element_load {
    const line_load *line;
    const line_couple *couple;
    const section_strain *strain; /* initial strains, one a quadrature point */
} element_load;

/* Section actions that balance the loads on the basic system, and what they are at the two ends. */
typedef struct element_statics {
    section_action at[QUADRATURE_POINTS];
    section_action end[2];
} element_statics;

section_flexibility section_soften(const section_rigidity *d);

/* Form k from the flexibilities at the points, which must outlive the matrix. @return KL_MECHANISM when the element has no
 * stiffness it should have (EA <= 0 …). */
kl_status element_form(const frame_mesh *mesh,
                       kl_index e,
                       const section_flexibility f[QUADRATURE_POINTS],
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

/* The movement of the flexible part's start in local axes, from the movements of the two nodes (as element_deformation
 * has them) and the strains between. Where a hinge is, the part turns by itself: so that it arrives at its other end. */
void element_start_movement(const quadrature *rule,
                            const element_matrix *m,
                            const double u[6],
                            const section_strain strain[QUADRATURE_POINTS],
                            double local[3]);

/* f s. */
section_strain element_section_strain(const section_flexibility *f, section_action s);

#endif
