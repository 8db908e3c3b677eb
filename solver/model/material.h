/* material.h - strength and modulus of a material at an age, from published models.
 *
 * Sources: ACI 209R-92 and ACI 318-19 19.2.2, AASHTO LRFD 2020 5.4.2.4, EN 1992-1-1:2004 3.1.2 and 3.1.3,
 * CEB-FIP Model Code 1990. Which constants are from memory is said beside them.
 * SPDX-License-Identifier: MIT */
#ifndef KERNLINE_MATERIAL_H
#define KERNLINE_MATERIAL_H

#include "kernline/model.h"

/* Concrete's compressive strength at an age (s), Pa. Beyond the law's start (age <= 0): 0. Characteristic
 * strength for en1992 (f_ck(t) = f_cm(t) - 8 MPa, at most f_ck). Other kinds: NAN. */
double material_strength(const kl_material *material, double age);

/* Young's modulus at an age, Pa, times the material's factor: constant where it is a value. NAN when it is not known. For aashto and aci the
 * formula is taken with the strength of that age. An age below one day counts as one day here: concrete that has set is
 * not without stiffness, and no published law covers it. */
double material_modulus(const kl_material *material, double age);

/* The factor of both moduli; 1 where none is given. */
double material_modulus_factor(const kl_material *material);

/* Shear modulus at an age, Pa: given, or E/2.4 for concrete, else NAN. */
double material_shear_modulus(const kl_material *material, double age);

/* First age at which the strength reaches `strength`, s; INFINITY when it never does. */
double material_age_of_strength(const kl_material *material, double strength);

/* Does the modulus change with age? */
bool material_ages(const kl_material *material);

/* Has it a law of creep, of shrinkage, of relaxation? */
bool material_creeps(const kl_material *material);
bool material_shrinks(const kl_material *material);
bool material_relaxes(const kl_material *material);

/* Words for a report: "aashto 2020 (5.4.2.4)", "given". Static text. */
const char *material_modulus_source(const kl_material *material);
const char *material_gain_source(const kl_material *material);

#endif
