/* ageing.h - the concretes of a model as they age: what creeps and shrinks, by which law, and how old it is.
 *
 * A *mix* is all members of one material that dry at one speed (volume to surface): one law, one Kelvin chain. A *batch*
 * is the members of a mix that were cast at one time: one age, and so one compliance for a step of time. A member's
 * volume to surface is the mean along it of its sections' own value, or of area over exposed perimeter.
 * Members without laws of creep and shrinkage belong to no mix.
 * SPDX-License-Identifier: MIT */
#ifndef KERNLINE_AGEING_H
#define KERNLINE_AGEING_H

#include "kelvin.h"
#include "kernline/analysis.h"
#include "section_state.h"

/* A creep function with its delayed part times a factor. */
typedef struct scaled_creep {
    creep_function law;
    double factor;
} scaled_creep;

typedef struct ageing_mix {
    creep_subject subject; /* of creep; TIME_LAW_NONE: it shrinks only */
    scaled_creep scaled;   /* what the chain follows */
    time_law shrinkage;
    kelvin_chain chain;
} ageing_mix;

typedef struct ageing_batch {
    kl_index mix;
    double birth;                 /* s since day 0 */
    double weighed;               /* time of `weights`; NAN: none yet */
    double weights[KELVIN_UNITS]; /* of a stress put on then */
    kelvin_step step;             /* the step of time under way, or the last */
    double shrinkage;             /* strain in that step */
} ageing_batch;

typedef struct ageing {
    const frame_mesh *mesh;
    double creep_factor, shrinkage_factor; /* of what the laws give */
    kelvin_basis *basis;
    ageing_mix *mixes;
    kl_index mix_count;
    kl_index *mix_of; /* of each member; KL_NONE */
    ageing_batch *batches;
    kl_index batch_count, batch_room;
    kl_index *batch_of; /* of each member that stands; KL_NONE */
} ageing;

/* Find the mixes. Nothing is fitted when no member has a law. */
kl_status ageing_create(const frame_mesh *mesh, const kl_settings *settings, arena *a, ageing *out);

/* Put the members that stand into batches. */
kl_status ageing_follow(ageing *g, const stage_state *state, arena *a);

/* Does a member of those that stand creep or shrink? */
bool ageing_is_under_way(const ageing *g);

/* Set the steps of all batches from one time to another, and the moduli of a book to those of the step. */
void ageing_step(ageing *g, const stage_state *state, double from, double to, section_book *book);

/* Kelvin weights of a stress that a batch gets at a time. */
const double *ageing_weights(ageing *g, kl_index batch, double time);

/* Does a member creep? It must be in a batch. */
bool ageing_creeps(const ageing *g, kl_index member);

#endif
