/* sound_model.h - for tests of the builder: one sound entity of each kind, and a small model made of them.
 * SPDX-License-Identifier: MIT */
#ifndef KERNLINE_SOUND_MODEL_H
#define KERNLINE_SOUND_MODEL_H

#include "kernline/model.h"

/* The origin of every sound entity. */
extern const kl_origin sound_place;
extern const kl_profile_row sound_rows[3];

/* A sound model: a 5 m beam AB up a 3-4-5 slope, a level beam BC and its continuation CD, and something of each
 * kind. */
typedef struct sound_model {
    kl_diags *diags;
    kl_model *model;
} sound_model;

kl_material sound_concrete(void);
kl_material sound_strand(void);
kl_section sound_bare_section(void);
kl_node sound_node(const char *name, double x, double y);
kl_member sound_member(const char *name, kl_index from, kl_index to);
kl_support sound_support(kl_index at);
kl_tendon sound_tendon(void);
kl_falsework sound_falsework(void);
kl_load sound_point_load(void);
kl_expectation sound_expectation(void);
kl_check sound_check(void);
kl_status sound_model_make(sound_model *w);
void sound_model_destroy(sound_model *w); /* what sound_model_make made, or a part of it */

#endif
