/* rivals.h - our solver and general-purpose ones to compare with, behind one interface. Those are no part of the program.
 * SPDX-License-Identifier: MIT */
#ifndef KERNLINE_RIVALS_H
#define KERNLINE_RIVALS_H

#include "frames.h"

typedef enum rival_kind { RIVAL_OWN, RIVAL_CHOLMOD, RIVAL_BAND } rival_kind;

/* What a factor takes, by its structure: as it is computed and stored, with the zeros a solver puts up with. */
typedef struct rival_cost {
    double
        operations; /* of the numeric factorization: the sum over its columns of their lengths squared */
    double entries; /* numbers that a solution reads twice */
} rival_cost;

/* A solver with its state between the calls. Calls end the program with a message when something fails. */
typedef struct rival {
    const char *name;
    rival_kind kind;
    int threads; /* of our own; 0: the library's parallel regions as they come */
    int method;  /* the rival's own business */
    void *state;
    void (*analyze)(struct rival *rival, const frame_matrix *matrix); /* order, symbolic, room */
    void (*factor)(struct rival *rival, const frame_matrix *matrix);
    /* Columns of 3 * node_count. @return the answers, which are x or the solver's own. */
    const double *(*solve)(struct rival *rival, const double *b, double *x, int columns);
    rival_cost (*cost)(const struct rival *rival); /* after factor */
    void (*release)(struct rival *rival);
} rival;

/* Called with the matrix before anything is timed, and after. */
void rivals_open(const frame_matrix *matrix);
void rivals_close(void);

/* Our own first, then the others; `count` of them. */
rival *rivals_list(int *count);

/* End the program when something is not good: what failed. */
void rivals_insist(bool good, const char *what);

#endif
