/* material.c - see material.h.
 *
 * Every strength law is a ratio beta(t) = f_cm(t) / f_cm(28 d); the modulus laws take that ratio or the strength.
 * Inside a law the ages are in days and the stresses in the unit of its publication.
 * SPDX-License-Identifier: MIT */
#include "material.h"

#include <math.h>

#include "near.h"

#define MPA 1e6
#define GPA 1e9
#define PSI 6894.757293168361  /* Pa: 1 lbf / 1 in^2, both exact by definition */
#define PCF 157.08746384624618 /* N/m^3: 1 lbf / 1 ft^3 */

/* f_cm = f_ck + 8 MPa: EN 1992-1-1:2004 table 3.1, CEB-FIP MC 1990 2.1-1. */
#define MEAN_ABOVE_CHARACTERISTIC (8.0 * MPA)

/* No published law covers concrete under a day old, and at age 0 all of them give none: for its stiffness concrete
 * that has set counts as a day old, so that what is cast and loaded on one day stands. */
#define YOUNGEST_STIFF_AGE KL_DAY

/* Constants of the strength laws by cement. */
typedef struct material_gain {
    double a, b; /* ACI 209R-92 eq. 2-1: t / (a + b t) */
    double s_en; /* EN 1992-1-1:2004 3.1.2 (6): exp(s (1 - sqrt(28 / t))) */
    double s_mc; /* MC 1990 2.1.6.1, the same form */
} material_gain;

/* ACI 209R-92 table 2.2.1, moist cured: type I 4.0 and 0.85, type III 2.3 and 0.92. It has no constants for slow
 * cement; 5.8 and 0.79 are our own: the same form, one at 28 days, with the 7-day ratio of type I lowered as
 * EN 1992 lowers its own from s = 0.25 to 0.38 (0.70 x 0.684 / 0.779 = 0.62). All constants are from memory;
 * a and b of types I and III give the 7-day ratios 0.70 and 0.80 that are commonly tabled. MC 1990 has one s = 0.25
 * for normal and rapid cement and 0.20 for rapid high-strength cement, which `rapid` is taken to mean. */
static material_gain gain_of(kl_cement cement)
{
    static const material_gain gains[] = {
        [KL_CEMENT_NORMAL] = {4.0, 0.85, 0.25, 0.25},
        [KL_CEMENT_SLOW] = {5.8, 0.79, 0.38, 0.38},
        [KL_CEMENT_RAPID] = {2.3, 0.92, 0.20, 0.20},
    };
    return gains[cement];
}

static kl_law gain_law(const kl_material *material)
{
    return material->gain == KL_LAW_UNSET ? KL_LAW_ACI209_1992 : material->gain;
}

static double exponential_ratio(double s, double days)
{
    return exp(s * (1.0 - sqrt(28.0 / days)));
}

/* f_cm(t) / f_cm(28 days), age > 0. */
static double gain_ratio(const kl_material *material, double age)
{
    const material_gain gain = gain_of(material->cement);
    const double days = age / KL_DAY;
    switch (gain_law(material)) {
    case KL_LAW_ACI209_1992:
        return days / (gain.a + gain.b * days);
    case KL_LAW_EN1992_2004:
        return exponential_ratio(gain.s_en, days);
    case KL_LAW_MC1990:
        return exponential_ratio(gain.s_mc, days);
    case KL_LAW_UNSET:
    case KL_LAW_NONE:
    case KL_LAW_VALUE:
    case KL_LAW_USER:
    case KL_LAW_AASHTO_2020:
    case KL_LAW_ACI_2019:
    case KL_LAW_MC1999:
    case KL_LAW_MC2010:
        break;
    }
    return 1.0; /* `gain none` */
}

double material_strength(const kl_material *material, double age)
{
    if (material->kind != KL_CONCRETE || isnan(age)) {
        return NAN;
    }
    if (age <= 0.0) {
        return 0.0;
    }
    const double ratio = gain_ratio(material, age);
    if (gain_law(material) != KL_LAW_EN1992_2004) {
        return ratio * material->strength;
    }
    /* EN 1992-1-1:2004 3.1.2 (5): f_ck(t) = f_cm(t) - 8 MPa below 28 days, f_ck from there. */
    const double mean = ratio * (material->strength + MEAN_ABOVE_CHARACTERISTIC);
    return fmin(fmax(mean - MEAN_ABOVE_CHARACTERISTIC, 0.0), material->strength);
}

/* AASHTO LRFD 2020 (9th edition) 5.4.2.4-1: E_c = 120,000 K1 w_c^2.0 f'c^0.33, ksi and kcf, K1 = 1. From memory. */
static double aashto_modulus(double strength, double unit_weight)
{
    const double kcf = unit_weight / (1000.0 * PCF);
    const double ksi = strength / (1000.0 * PSI);
    return 120000.0 * kcf * kcf * pow(ksi, 0.33) * 1000.0 * PSI;
}

/* ACI 318-19 19.2.2.1 (a): E_c = 33 w_c^1.5 sqrt(f'c), psi and pcf. */
static double aci_modulus(double strength, double unit_weight)
{
    return 33.0 * pow(unit_weight / PCF, 1.5) * sqrt(strength / PSI) * PSI;
}

double material_modulus_factor(const kl_material *material)
{
    return material->modulus_factor > 0.0 ? material->modulus_factor : 1.0;
}

static double declared_modulus(const kl_material *material, double age)
{
    const double counted = isnan(age) ? age : fmax(age, YOUNGEST_STIFF_AGE);
    const double mean = material->strength + MEAN_ABOVE_CHARACTERISTIC;
    switch (material->modulus_law) {
    case KL_LAW_VALUE:
        return material->modulus;
    case KL_LAW_AASHTO_2020:
        return aashto_modulus(material_strength(material, counted), material->unit_weight);
    case KL_LAW_ACI_2019:
        return aci_modulus(material_strength(material, counted), material->unit_weight);
    case KL_LAW_EN1992_2004:
        /* 3.1.2 table 3.1: E_cm = 22 (f_cm / 10 MPa)^0.3 GPa; 3.1.3 (3): (f_cm(t) / f_cm)^0.3 of it. From memory. */
        return 22.0 * GPA * pow(mean / (10.0 * MPA), 0.3) * pow(gain_ratio(material, counted), 0.3);
    case KL_LAW_MC1990:
        /* 2.1.4.2: E_ci = 21.5 (f_cm / 10 MPa)^(1/3) GPa, tangent at the origin, quartzite aggregate; 2.1.6.3:
         * E_ci(t) = sqrt(beta_cc(t)) E_ci. From memory. */
        return 21.5 * GPA * cbrt(mean / (10.0 * MPA)) * sqrt(gain_ratio(material, counted));
    case KL_LAW_UNSET:
    case KL_LAW_NONE:
    case KL_LAW_USER:
    case KL_LAW_ACI209_1992:
    case KL_LAW_MC1999:
    case KL_LAW_MC2010:
        break;
    }
    return NAN;
}

double material_modulus(const kl_material *material, double age)
{
    return material_modulus_factor(material) * declared_modulus(material, age);
}

double material_shear_modulus(const kl_material *material, double age)
{
    if (!isnan(material->shear_modulus)) {
        return material_modulus_factor(material) * material->shear_modulus;
    }
    /* G = E / (2 (1 + 0.2)): Poisson's ratio of uncracked concrete. */
    return material->kind == KL_CONCRETE ? material_modulus(material, age) / 2.4 : (double)NAN;
}

/* Day at which exp(s (1 - sqrt(28 / t))) reaches a ratio. */
static double exponential_day(double s, double ratio)
{
    const double root = 1.0 - log(ratio) / s; /* sqrt(28 / t) */
    return root > 0.0 ? 28.0 / (root * root) : (double)INFINITY;
}

double material_age_of_strength(const kl_material *material, double strength)
{
    if (material->kind != KL_CONCRETE || isnan(strength)) {
        return NAN;
    }
    if (strength <= 0.0) {
        return 0.0;
    }
    const material_gain gain = gain_of(material->cement);
    const double ratio = strength / material->strength;
    switch (gain_law(material)) {
    case KL_LAW_ACI209_1992: {
        const double rest = 1.0 - gain.b * ratio; /* t = a r / (1 - b r) */
        return rest > 0.0 ? KL_DAY * gain.a * ratio / rest : (double)INFINITY;
    }
    case KL_LAW_EN1992_2004: {
        if (ratio > 1.0) {
            return (double)INFINITY;
        }
        const double mean = material->strength + MEAN_ABOVE_CHARACTERISTIC;
        return KL_DAY * exponential_day(gain.s_en, (strength + MEAN_ABOVE_CHARACTERISTIC) / mean);
    }
    case KL_LAW_MC1990:
        return KL_DAY * exponential_day(gain.s_mc, ratio);
    case KL_LAW_UNSET:
    case KL_LAW_NONE:
    case KL_LAW_VALUE:
    case KL_LAW_USER:
    case KL_LAW_AASHTO_2020:
    case KL_LAW_ACI_2019:
    case KL_LAW_MC1999:
    case KL_LAW_MC2010:
        break;
    }
    return ratio <= 1.0 ? 0.0 : (double)INFINITY;
}

static bool acts(const kl_material *material, kl_law law)
{
    return material->kind == KL_CONCRETE && law != KL_LAW_UNSET && law != KL_LAW_NONE;
}

bool material_creeps(const kl_material *material)
{
    return acts(material, material->creep);
}

bool material_shrinks(const kl_material *material)
{
    return acts(material, material->shrinkage);
}

bool material_relaxes(const kl_material *material)
{
    return material->kind == KL_PRESTRESSING && material->relaxation != KL_RELAXATION_UNSET &&
           material->relaxation != KL_RELAXATION_NONE;
}

bool material_ages(const kl_material *material)
{
    return material->kind == KL_CONCRETE && material->modulus_law != KL_LAW_VALUE &&
           gain_law(material) != KL_LAW_NONE;
}

const char *material_modulus_source(const kl_material *material)
{
    switch (material->modulus_law) {
    case KL_LAW_VALUE:
        return "given";
    case KL_LAW_AASHTO_2020:
        return "aashto 2020 (5.4.2.4, from memory)";
    case KL_LAW_ACI_2019:
        return "aci 2019 (ACI 318-19, 19.2.2.1a)";
    case KL_LAW_EN1992_2004:
        return "en1992 2004 (table 3.1 and 3.1.3, from memory)";
    case KL_LAW_MC1990:
        return "mc1990 (2.1.4.2, tangent, from memory)";
    case KL_LAW_UNSET:
    case KL_LAW_NONE:
    case KL_LAW_USER:
    case KL_LAW_ACI209_1992:
    case KL_LAW_MC1999:
    case KL_LAW_MC2010:
        break;
    }
    return "not given";
}

const char *material_gain_source(const kl_material *material)
{
    switch (gain_law(material)) {
    case KL_LAW_ACI209_1992:
        return material->cement == KL_CEMENT_SLOW
                   ? "aci209 1992 (form of 2.2.1; constants for slow cement are kernline's own)"
                   : "aci209 1992 (2.2.1, moist cured, from memory)";
    case KL_LAW_EN1992_2004:
        return "en1992 2004 (3.1.2, from memory)";
    case KL_LAW_MC1990:
        return "mc1990 (2.1.6.1, from memory)";
    case KL_LAW_NONE:
        return "none: the same at every age";
    case KL_LAW_UNSET:
    case KL_LAW_VALUE:
    case KL_LAW_USER:
    case KL_LAW_AASHTO_2020:
    case KL_LAW_ACI_2019:
    case KL_LAW_MC1999:
    case KL_LAW_MC2010:
        break;
    }
    return "not given";
}

/* ---- questions from outside ----------------------------------------------------------------------------------- */

void kl_material_at_age(
    const kl_model *model, kl_index material, double age, double *modulus, double *strength)
{
    const kl_material *m = &model->materials[material];
    *modulus = material_modulus(m, age);
    *strength = material_strength(m, age);
}

bool kl_material_ages(const kl_model *model, kl_index material)
{
    const kl_material *m = &model->materials[material];
    return material_ages(m) || (m->kind == KL_CONCRETE && m->gain != KL_LAW_NONE);
}
