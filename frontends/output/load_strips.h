/* load_strips.h - spread loads as strips that stack on their members: where each one begins, and where its value is told.
 *
 * On each side of a member strips stand one upon the other. The value of one that is even is told over a stretch of it on which
 * nothing stands; where there is none, one text tells all that stand there, the nearest to the member first: "2 + 1.5 kip/ft";
 * of more than LOAD_STRIPS_APART the sum: "sum of 6: 12 kip/ft". A strip that is not even is told so at both ends, and where it is
 * least and most between them.
 * SPDX-License-Identifier: MIT */
#ifndef KERNLINE_LOAD_STRIPS_H
#define KERNLINE_LOAD_STRIPS_H

#include <stdbool.h>

#include "kernline/model.h"

#define LOAD_STRIP_POINTS 9 /* a tapered member's weight is curved */
#define LOAD_STRIP_PLACES 4 /* at which one that is not even is told */
#define LOAD_STRIPS_APART 4
#define LOAD_STRIPS_TEXT  400

typedef struct load_strip {
    kl_index member;
    kl_point direction;                /* that a positive value acts in */
    double station[LOAD_STRIP_POINTS]; /* m, rising */
    double value[LOAD_STRIP_POINTS];   /* N/m along the direction */
    int count;
    int side;          /* of the member it stands on: + its left hand, - its right */
    bool silent;       /* told only together with others */
    const char *word;  /* before the value: "weight " */
    const char *after; /* behind it: " level" */
    double height;     /* px, where it is highest */
    /* found by load_strips_push and load_strips_tell */
    double base;                  /* px between the member's line and the strip */
    bool told[LOAD_STRIP_PLACES]; /* an even one: wherever it is */
    kl_index before, behind;      /* on the same member, in order; KL_NONE: none */
} load_strip;

/* What a picture measures by. */
typedef struct load_scale {
    const kl_display *display;
    double pixels; /* along members, to the metre */
    double size;   /* px, the highest strip */
    double most;   /* N/m, its value */
} load_scale;

typedef struct load_strips {
    load_scale scale;
    load_strip *strips; /* owned */
    kl_index count;
    size_t room;
    kl_index *first, *last; /* owned: strips of each member */
} load_strips;

kl_status load_strips_start(load_strips *s, const load_scale *scale, kl_index members);
void load_strips_free(load_strips *s);

/* Put a strip on its member. @return it, until the next one is put; NULL: no memory */
const load_strip *load_strips_push(load_strips *s, const load_strip *strip);

/* px from the member's line up to which strips stand somewhere in the stretch, on that side; 0: none. */
double load_strips_top(const load_strips *s, kl_index member, int side, double from, double to);

double load_strip_value(const load_strip *strip, double station);
/* px from the member's line to the strip's far edge. */
double load_strip_edge(const load_scale *scale, const load_strip *strip, double station);

/* One value or several, over a strip at a station; `share` of the largest of the picture. */
typedef void load_strips_say(
    void *context, const load_strip *over, double station, double share, const char *text);
void load_strips_tell(load_strips *s, load_strips_say *say, void *context);

#endif
