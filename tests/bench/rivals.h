/* rivals.h - general-purpose solvers to compare with, behind one interface. None of them is part of the program.
 * SPDX-License-Identifier: MIT */
#ifndef KERNLINE_RIVALS_H
#define KERNLINE_RIVALS_H

#include "frames.h"

/* A solver with its state between the calls. Calls end the program with a message when something fails. */
typedef struct rival {
    const char *name;
    int method;    /* the rival's own business */
    bool packaged; /* with the library's own parallel regions, else one after the other */
    void *state;
    void (*analyze)(struct rival *rival, const frame_matrix *matrix); /* order, symbolic, room */
    void (*factor)(struct rival *rival, const frame_matrix *matrix);
    /* Columns of 3 * node_count. @return the answers, which are x or the solver's own. */
    const double *(*solve)(struct rival *rival, const double *b, double *x, int columns);
    void (*release)(struct rival *rival);
    double (*megabytes)(const struct rival *rival); /* factor and work */
} rival;

/* Called with the matrix before anything is timed, and after. */
void rivals_open(const frame_matrix *matrix);
void rivals_close(void);

/* Our own first, then the others; `count` of them. */
rival *rivals_list(int *count);

#endif
