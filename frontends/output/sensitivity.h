/* sensitivity.h - one model analysed again and again, each time with another of the things that nobody knows well varied.
 *
 * The tables hold checks, elongations and cambers of all these analyses side by side. A variant that can change nothing
 * (creep where nothing creeps) is not analysed.
 * SPDX-License-Identifier: MIT */
#ifndef KERNLINE_SENSITIVITY_H
#define KERNLINE_SENSITIVITY_H

#include "arena.h"
#include "kernline/check.h"
#include "table.h"

#define SENSITIVITY_KINDS    6
#define SENSITIVITY_VARIANTS (2 * SENSITIVITY_KINDS) /* low and high of each kind */

/* Something that varies, and how far. */
typedef struct sensitivity_kind {
    const char *key;     /* "tendon_modulus": of columns, for programs */
    const char *name;    /* "tendon modulus" */
    const char *heading; /* "tendon\nE" */
    double low, high;    /* factors */
    bool (*applies)(const kl_model *model);
    double *(*factor)(kl_settings *settings);
} sensitivity_kind;

extern const sensitivity_kind sensitivity_kinds[SENSITIVITY_KINDS];

/* The place of a member's largest camber after the last stage, as computed. */
typedef struct sensitivity_place {
    kl_peak peak;
    bool is_there;
} sensitivity_place;

typedef struct sensitivity {
    const kl_results *results; /* as computed; borrowed */
    const kl_check_report *report;
    bool applies[SENSITIVITY_KINDS];
    kl_index pull_count;
    double *
        draw; /* m, elongation at start and end of each pull, as computed; 0 where there is no jack */
    sensitivity_place *places; /* of each member */
    /* Of each variant; NULL: not analysed, or it cannot be. */
    kl_check_report *reports[SENSITIVITY_VARIANTS];
    double *draws[SENSITIVITY_VARIANTS];
    double *cambers[SENSITIVITY_VARIANTS];     /* m at `places`; NAN: not there */
    const char *trouble[SENSITIVITY_VARIANTS]; /* why it cannot be analysed; NULL */
    arena memory;
} sensitivity;

/* Analyse every variant, one after the other: of each only what is shown is kept. A variant that cannot be analysed has
 * `trouble` and is no failure.
 * @param results, report as computed; they must outlive it. sensitivity_free in any case.
 * @return KL_OK, KL_NO_MEMORY. */
kl_status
sensitivity_make(sensitivity *s, const kl_results *results, const kl_check_report *report);
void sensitivity_free(sensitivity *s);

/* "creep x 0.7" of variant 0. */
#define SENSITIVITY_LABEL 40
void sensitivity_label(char room[SENSITIVITY_LABEL], int variant);

/* ---- tables: table_sensitivity.c -------------------------------------------------------------------------- */

typedef void sensitivity_builder(table *t, const sensitivity *s);

typedef struct sensitivity_table {
    const char *name; /* "checks" */
    sensitivity_builder *build;
} sensitivity_table;

#define SENSITIVITY_TABLES 3
extern const sensitivity_table sensitivity_tables[SENSITIVITY_TABLES];

#endif
