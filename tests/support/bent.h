/* bent.h - a sound bent that tests change in one place: a cap on two columns, cast on falsework, stressed, released,
 * loaded and grouted, with a check and an expectation. As it is it draws no message.
 * SPDX-License-Identifier: MIT */
#ifndef KERNLINE_BENT_H
#define KERNLINE_BENT_H

#include "assert_close.h"
#include "kernline/model.h"

enum { BENT_MOST = 12 };
enum { CONCRETE, STEEL, SPARE_MATERIAL };
enum { CAP_SECTION, COLUMN_SECTION, SPARE_SECTION };
enum { L, R, A, B, C, D, NODES };
enum { CAP, COL_1, COL_2, MEMBERS };
enum { CAST_COLUMNS, CAST_CAP, STRESSED, RELEASED, LOADED, GROUTED, STAGES };

/* Everything to be added, in editable form. */
typedef struct bent {
    double humidity;
    kl_material materials[BENT_MOST];
    kl_index material_count;
    kl_section sections[BENT_MOST];
    kl_index section_count;
    kl_node nodes[BENT_MOST]; /* those on members are added after the cap */
    kl_index node_count;
    kl_member members[BENT_MOST];
    kl_index member_count;
    kl_section_at rows[BENT_MOST];
    kl_support supports[BENT_MOST];
    kl_index support_count;
    kl_bearing bearings[BENT_MOST];
    kl_index bearing_count;
    kl_tendon tendon;
    kl_profile_row profile[3];
    kl_falsework falsework[2];
    kl_index falsework_count;
    double stations[2][5];
    kl_load loads[4];
    kl_case cases[3];
    kl_index case_count;
    kl_stage stages[STAGES + 2];
    kl_index stage_count;
    kl_operation operations[STAGES + 2][4];
    kl_index items[STAGES + 2][4][4];
    kl_factor factors[4];
    kl_combination combination;
    kl_index combination_count;
    kl_check check;
    kl_index checked[2], checked_tendon;
    kl_index check_count;
    kl_expectation expectation;
    kl_index expectation_count;
} bent;

/* Everything at nothing, then the sound bent. Structs point into *b: it must not be copied. */
void bent_make(bent *b);
/* The cap alone on two supports, without stages: one case with a load, its weight and its tendon. */
void bent_make_beam(bent *b);

kl_index bent_add_material(bent *b, kl_material_kind kind, const char *name);
kl_index bent_add_section(bent *b, kl_shape shape, const char *name);
kl_index bent_add_node(bent *b, const char *name, double x, double y);
kl_index bent_add_on_cap(bent *b, const char *name, double station);
kl_index bent_add_member(bent *b, const char *name, kl_index from, kl_index to, kl_index section);
void bent_add_brace(bent *b, kl_index from, kl_index to); /* placed with the columns */
kl_index bent_add_support(bent *b, kl_index node);
void bent_add_falsework(bent *b, const char *name, const double *stations);
kl_operation *bent_add_operation(bent *b, kl_index stage, kl_operation_kind kind, kl_index item);
/* One more load of the first case. */
kl_load *bent_add_load(bent *b, kl_load_kind kind, kl_index member, kl_index node);

/* Into a model: first the frame, then the rest. */
kl_status bent_build_frame(kl_model *model, const bent *b);
kl_status bent_build_rest(kl_model *model, const bent *b);

/* The first message of that name, or NULL. */
const kl_diag *bent_find(const kl_diags *diags, const char *name);

/* Changes one thing in a bent. */
typedef void (*bent_change)(bent *b);

/* A change, and the message that must come of it or must not. */
typedef struct bent_trial {
    const char *title;
    const char *name; /* of the message */
    kl_severity severity;
    bool drawn;
    bent_change start; /* make_bent or make_beam */
    bent_change apply; /* NULL: as it is */
} bent_trial;

/* A cmocka test whose state is a bent_trial. */
void bent_try(void **state);
/* The bent as it is made draws no message. */
void bent_assert_silent(bent_change start);

#define BENT_ERROR(name, change)                                                                   \
    {                                                                                              \
#change, name, KL_ERROR, true, bent_make, change                                           \
    }
#define BENT_WARNS(name, change)                                                                   \
    {                                                                                              \
#change, name, KL_WARNING, true, bent_make, change                                         \
    }
#define BENT_SILENT(name, change)                                                                  \
    {                                                                                              \
#change, name, KL_NOTE, false, bent_make, change                                           \
    }
#define BEAM_WARNS(name, change)                                                                   \
    {                                                                                              \
#change, name, KL_WARNING, true, bent_make_beam, change                                    \
    }
#define BEAM_SILENT(name, change)                                                                  \
    {                                                                                              \
#change, name, KL_NOTE, false, bent_make_beam, change                                      \
    }

#endif
