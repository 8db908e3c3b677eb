/* rules.h - stress limits of published codes, as data.
 *
 * A row is one line of a code's table: whom it holds for, the formula with the unit it is written in, its cap,
 * its article. sqrt(f) needs f in the row's own unit (ksi, psi or MPa): rule_limit converts both ways.
 * Editions: AASHTO LRFD 2020, ACI 318-19, EN 1992-1-1:2004.
 * SPDX-License-Identifier: MIT */
#ifndef KERNLINE_RULES_H
#define KERNLINE_RULES_H

#include "kernline/model.h"

typedef enum rule_side { RULE_COMPRESSION, RULE_TENSION } rule_side;

/* The unit system of a formula. */
typedef enum rule_unit { RULE_KSI, RULE_PSI, RULE_MPA } rule_unit;

typedef enum rule_form {
    RULE_LINEAR,     /* coefficient x f */
    RULE_ROOT,       /* coefficient x sqrt(f) */
    RULE_TWO_THIRDS, /* coefficient x f^(2/3) */
    RULE_NOTHING     /* 0: no tension */
} rule_form;

/* Which strength the formula takes. */
typedef enum rule_basis {
    RULE_OF_TRANSFER,  /* f'ci as stated in the model */
    RULE_OF_SPECIFIED, /* f'c or fck at 28 days */
    RULE_OF_DAY        /* fck(t) */
} rule_basis;

/* A condition of a row: either answer will do, or one of them. */
typedef enum rule_asks { RULE_ANY, RULE_NO, RULE_YES } rule_asks;

/* What prestress the member has: a row may ask for one kind. */
typedef enum rule_tendons {
    RULE_TENDONS_ANY,
    RULE_TENDONS_NONE,
    RULE_TENDONS_BONDED,  /* all that are stressed are grouted */
    RULE_TENDONS_UNBONDED /* at least one is not, or not yet */
} rule_tendons;

#define RULE_TRANSFER  1u
#define RULE_SERVICE   2u
#define RULE_SUSTAINED 4u

typedef struct rule_row {
    kl_rules edition;
    rule_side side;
    unsigned conditions; /* RULE_TRANSFER | … */
    rule_tendons tendons;
    rule_asks bonded_steel, severe;
    char uncracked_class; /* 'u', 't'; 0: any */
    rule_form form;
    double coefficient;
    rule_basis basis;
    rule_unit unit;
    double cap;          /* in `unit`; NAN */
    bool uses_lambda;    /* lightweight factor multiplies the coefficient */
    const char *symbol;  /* "f'ci" */
    const char *formula; /* "0.0948 sqrt(f'ci), at most 0.2 ksi" */
    const char *article; /* "5.9.2.3.1b" */
    const char *remark;  /* what the row takes for granted, or "" */
    bool from_memory;
} rule_row;

/* What a row is chosen by. */
typedef struct rule_circumstances {
    kl_condition condition;
    rule_tendons tendons; /* never ANY */
    bool bonded_steel, severe, quasi_permanent;
    char uncracked_class;
} rule_circumstances;

/* The row that holds, or NULL: the code says nothing there. */
const rule_row *
rule_find(kl_rules edition, rule_side side, const rule_circumstances *circumstances);

/* The limit in Pa, positive, for a strength in Pa; `capped` (may be NULL) tells whether the cap governs. NAN for an
 * unknown strength, but 0 where no tension is allowed whatever the strength. */
double rule_limit(const rule_row *row, double strength, double lambda, bool *capped);

/* Factor for lightweight concrete by its unit weight in N/m^3: 7.5 w with w in kcf, between 0.75 and 1 (AASHTO LRFD
 * 2020, 5.4.2.8, from memory). NAN counts as normal weight. */
double rule_lambda(double unit_weight);

/* Usual modulus of rupture 7.5 lambda sqrt(f'c), psi (ACI 318-19, 19.2.3.1), in Pa. */
double rule_rupture(double strength, double lambda);

const char *rule_edition_name(kl_rules edition); /* "AASHTO LRFD 2020" */
double rule_unit_factor(rule_unit unit);         /* Pa */
const char *rule_unit_word(rule_unit unit);      /* "ksi" */

/* ---- tendons ---- */

typedef enum rule_moment {
    RULE_AT_JACK,      /* before seating */
    RULE_AT_ANCHOR,    /* at the anchors right after seating */
    RULE_ALONG_TENDON, /* elsewhere right after seating */
    RULE_TENDON_SERVICE
} rule_moment;

/* Limit: the smaller of of_ultimate x ultimate and of_yield x yield (NAN: that one is not asked). */
typedef struct rule_tendon_row {
    kl_rules edition;
    rule_moment moment;
    rule_asks low_relaxation; /* strand of low relaxation, against all other steel */
    double of_ultimate, of_yield;
    const char *formula;
    const char *article;
    bool from_memory;
} rule_tendon_row;

const rule_tendon_row *rule_tendon_find(kl_rules edition, rule_moment moment, bool low_relaxation);
/* Pa; NAN when the strength it needs is unknown. `by_yield` (may be NULL): the yield term governs. */
double rule_tendon_limit(const rule_tendon_row *row, double ultimate, double yield, bool *by_yield);
const char *rule_moment_name(rule_moment moment); /* "at the jack" */

#endif
