/* assemble.h - the system of equations of a frame: pattern once, values for each structure, columns solved.
 * SPDX-License-Identifier: MIT */
#ifndef KERNLINE_ASSEMBLE_H
#define KERNLINE_ASSEMBLE_H

#include "constraints.h"
#include "element_load.h"
#include "factor.h"
#include "graph.h"
#include "solve.h"
#include "symbolic.h"

typedef struct frame_system {
    const frame_mesh *mesh;
    sparse_graph *graph;
    sparse_symbolic *symbolic;
    sparse_factor *factor;
    kl_index *edge_of; /* graph edge of each element */
    double *diag, *off;
    unknown_map map;
    element_matrix *matrix; /* of each element that is on */
    double *work, *step;    /* 3 a node */
    double worst_residual;  /* of all solves so far */
    bool braced;            /* to the ground (system_brace): answers are a guess, out of balance */
} frame_system;

/* Pattern, ordering, symbolic analysis and all workspace. @param threads as factor_create. */
kl_status system_create(const frame_mesh *mesh, int threads, arena *a, frame_system *system);
void system_destroy(frame_system *system);

/* Assemble the stiffness of a structure. system->matrix must hold its elements. */
void system_assemble(frame_system *system, const frame_structure *structure);
/* Factor it. `report` tells how; KL_OK even when it stopped (see factor.h). */
kl_status system_factor(frame_system *system, factor_report *report);

/* Brace every free unknown to the ground by a share of its own diagonal: only for guesses at contacts, never for an
 * answer. */
void system_brace(frame_system *system, double share);

/* Double one unknown's own diagonal (mechanism search). @return what was added. */
double system_stiffen(frame_system *system, kl_index node, int direction);

#endif
