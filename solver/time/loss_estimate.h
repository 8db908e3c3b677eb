/* loss_estimate.h - what the codes' one-line formulas give for the long-term loss of a tendon that is bonded to the concrete.
 *
 * One layer of steel in an uncracked section, one interval from stressing to the end; the concrete's ageing is one factor chi
 * on creep. With n = E_p / E_c, phi the creep coefficient, eps the shrinkage strain, and k = A_p / A (1 + A e^2 / I):
 *
 *   AASHTO LRFD 2020 5.9.3.4, as it applies to post-tensioned members (5.9.3.4.4: what happens before stressing counts as
 *   nothing, and a section cast in one has no deck that shrinks against it); E_c = E_ci, from memory:
 *       K = 1 / (1 + n k (1 + 0.7 phi))
 *       shrinkage = eps E_p K;  creep = n f_cgp phi K + E_p / E_c df_cd phi_d K, the second for each load that comes later,
 *       with its own age;  relaxation = f_pt / K_L (f_pt / f_py - 0.55), K_L = 30 low, 7 other
 *
 *   EN 1992-1-1:2004 (5.46); E_c = E_cm, from memory:
 *       K = 1 / (1 + n k (1 + 0.8 phi))
 *       shrinkage = eps E_p K;  creep = n sigma_c,QP phi K;  relaxation = 0.8 dsigma_pr K
 *
 * Beside the losses that the staged analysis computes, never instead of them. Units: Pa, m; a loss of stress is positive.
 * SPDX-License-Identifier: MIT */
#ifndef KERNLINE_LOSS_ESTIMATE_H
#define KERNLINE_LOSS_ESTIMATE_H

#include <stdbool.h>

/* One place of a member, on the day the steel is stressed. */
typedef struct loss_place {
    double area, inertia; /* of the concrete section, m^2, m^4 */
    double steel_area;    /* of all prestressing steel at the place, m^2 */
    double eccentricity;  /* of that steel from the section's centroid, m */
    double
        concrete_stress; /* at the steel, from prestress and what acts for good; compression positive */
    double
        later_creep; /* strain of creep at the steel by what came after, each at its own age, shortening positive; 0:
                          * concrete_stress holds all */
    double concrete_modulus; /* E_ci or E_cm */
    double steel_modulus;
    double creep;     /* phi from stressing to the end */
    double shrinkage; /* strain in the same time, shortening positive */
} loss_place;

typedef struct loss_parts {
    double shrinkage, creep, relaxation;
    double factor; /* K */
} loss_parts;

/* @param stress f_pt: of the steel right after transfer.
 * @param low_relaxation K_L = 30, else 7. */
loss_parts loss_estimate_aashto_2020(const loss_place *place,
                                     double stress,
                                     double yield,
                                     bool low_relaxation);

/* @param relaxation what the steel would lose in the time at constant length (3.28 to 3.30). */
loss_parts loss_estimate_en1992_2004(const loss_place *place, double relaxation);

#endif
