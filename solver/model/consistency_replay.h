/* consistency_replay.h - the stages of a model gone through in their order: what stands, what has been done.
 *
 * Nothing is computed; each operation is held against what stands at its time. Members and supports are in
 * consistency_stages.c, tendons and falsework in files of their own.
 * SPDX-License-Identifier: MIT */
#ifndef KERNLINE_CONSISTENCY_REPLAY_H
#define KERNLINE_CONSISTENCY_REPLAY_H

#include "consistency_hinges.h"

typedef struct replay_member {
    bool stands;
    bool ever;      /* has stood */
    kl_index stage; /* of its cast or place */
    double born;    /* s, when its concrete was made: its cast, or its place less its `age` */
    bool told_young;
    kl_index rows;    /* rows of falsework standing under it */
    kl_index carried; /* rows standing on it */
} replay_member;

typedef struct replay_tendon {
    bool stressed, grouted, ever;
    double time;    /* s, of its first stressing */
    kl_index stage; /* likewise */
} replay_tendon;

typedef struct replay_falsework {
    bool erected;
    kl_index stage;     /* of erect */
    kl_index first_row; /* into rows */
    kl_index standing;  /* rows */
    kl_index emptied;   /* stage of the last release; KL_NONE: not yet */
} replay_falsework;

#define REPLAY_ROW_STANDS     (-1)
#define REPLAY_SUPPORT_STANDS 8 /* beside the bits 1, 2, 4 of x, y, turn */

typedef struct replay {
    consistency *c;
    kl_index stage; /* where we are */
    const kl_stage *at;
    const kl_operation *operation;
    replay_member *members;
    replay_tendon *tendons;
    replay_falsework *falsework;
    kl_index *
        rows; /* by row of all falsework: REPLAY_ROW_STANDS, or the number of the release that took it */
    kl_index releases;
    kl_index *standing_at; /* by node: members that stand there */
    unsigned char
        *supports;  /* by support: bits of the directions it holds now, and that it stands */
    double *loaded; /* by case: how many times it is on */
    hinge_book hinges;
    bool told_day;   /* that a stage has no day */
    bool *case_used; /* by case: a stage loads it */
    bool *case_on;   /* by case: and it is on now */
} replay;

/* "In stage cap_cast: " and a message about the operation at hand. */
#define REPLAY_SAY(r, severity, name, ...)                                                         \
    kl_diags_add((r)->c->diags, (severity), (name), (r)->operation->origin, __VA_ARGS__)

/* One operation on tendons: stress, slacken, grout, lose. */
void replay_tendons(replay *r);
/* What is left to say about tendons at the end. */
void replay_tendons_end(replay *r);

void replay_erect(replay *r);
void replay_release(replay *r);
kl_status replay_falsework_end(replay *r);

/* At the end of a stage: does what shall have its grade then stand? */
void replay_grades(replay *r);

#endif
