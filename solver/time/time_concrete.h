/* time_concrete.h - what the laws of creep and shrinkage ask of a concrete member: its material, the air around it, how
 * fast it dries; and the few quantities that several of the published models derive from these in the same way.
 *
 * The laws themselves are one file a published model (aashto_2020.c, aci209_1992.c, mc1990.c, mc1999.c, en1992_2004.c,
 * mc2010.c); inside them ages are in days, stresses in MPa or ksi, sizes in mm or in, as their publications have it.
 * creep.h and shrinkage.h are the way in for everyone else, in s, Pa and m.
 * SPDX-License-Identifier: MIT */
#ifndef KERNLINE_TIME_CONCRETE_H
#define KERNLINE_TIME_CONCRETE_H

#include "kernline/model.h"

/* The published models of creep and shrinkage of concrete, and the user's own curves. */
typedef enum time_law {
    TIME_LAW_NONE,
    TIME_LAW_USER, /* the material's creep_curve, shrinkage_curve: time_curve.h */
    TIME_LAW_AASHTO_2020,
    TIME_LAW_ACI209_1992,
    TIME_LAW_MC1990,
    TIME_LAW_MC1999, /* the 1999 update of MC 1990, printed in ACI 209.2R-08 */
    TIME_LAW_EN1992_2004,
    TIME_LAW_MC2010,
    TIME_LAW_COUNT
} time_law;

/* What the mix is made of: aci209 alone asks. NAN: that factor is 1, an ordinary mix. */
typedef struct time_mix {
    double slump;  /* m */
    double fines;  /* ratio of fine to total aggregate, by weight */
    double cement; /* kg/m^3 */
    double air;    /* ratio of air by volume */
} time_mix;

typedef struct time_concrete {
    const kl_material
        *material;   /* strength, transfer_strength, cement, gain, modulus, cured, curves */
    double humidity; /* of the air, ratio 0 to 1 */
    double volume_to_surface; /* m */
    const time_mix *mix;      /* NULL: an ordinary mix */
} time_concrete;

/* The law a phrase of the language names; TIME_LAW_NONE for those that are no law of creep. */
time_law time_law_of(kl_law law);

/* Its name in the language, "aashto 2020", and edition and article with what is from memory: for reports. Static texts. */
const char *time_law_name(time_law law);
const char *time_law_source(time_law law);

/* f'c at 28 days, f'ci (0.80 f'c where it is not given: AASHTO LRFD 2020 5.4.2.3.2, from memory), and the mean strength
 * f_cm = f_ck + 8 MPa (EN 1992-1-1:2004 table 3.1; MC 1990 2.1-1). Pa. */
double time_concrete_transfer_strength(const time_concrete *c);
double time_concrete_mean_strength(const time_concrete *c);

/* Age at the end of moist curing, s, when drying begins: 7 days where it is not given, the standard case of ACI 209R-92 (2.4,
 * from memory) and common practice under the others; none of them leaves it out. */
double time_concrete_cured(const kl_material *material);

/* Notional size h = 2 A_c / u = 2 V/S, mm (MC 1990 2.1.6.4.3; EN 1992-1-1:2004 3.1.4 (5)). */
double time_concrete_notional_size(const time_concrete *c);

/* Age at loading, in days, as the speed of the cement makes it count: t0 (9 / (2 + t0^1.2) + 1)^a >= 0.5 with
 * a = -1 slow, 0 normal, 1 rapid (EN 1992-1-1:2004 B.9; MC 1990 2.1-72; 20 °C). From memory. `rapid` is the rapid
 * hardening high-strength cement of these codes, as it is for the gain of strength. */
double time_concrete_effective_age(const time_concrete *c, double days);

#endif
