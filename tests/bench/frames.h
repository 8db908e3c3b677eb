/* frames.h - stiffness matrices of plane frames to time solvers on, as node blocks.
 * SPDX-License-Identifier: MIT */
#ifndef KERNLINE_FRAMES_H
#define KERNLINE_FRAMES_H

#include <stdbool.h>

#include "graph.h"

typedef struct frame_matrix {
    sparse_graph *graph;
    double *diag;
    double *off;
} frame_matrix;

/* Names: cap (a line of 200 elements), unit (a deck and its columns, 1,000), ladder (20,000), long (a line of 100,000),
 * gridN (N x N nodes). Supports are springs.
 * @param shuffled the nodes are numbered at random.
 * @return false when there is no case of that name or no memory. */
bool frame_make(const char *name, bool shuffled, frame_matrix *matrix);
void frame_free(frame_matrix *matrix);

#endif
