/* force_cells.h - a force curve cut at every place where curve or path changes its law, with what seating needs of each.
 *
 * On a cell the force is B = scale exp(sign phi) + add and phi = mu alpha + K s is smooth. A branch is what friction
 * makes of a tendon that moves one way: level exp(+-phi). Branch and force meet at most once in a cell, because level and
 * scale are positive. At a corner phi steps between two cells: branch and force may cross inside the step.
 * SPDX-License-Identifier: MIT */
#ifndef KERNLINE_FORCE_CELLS_H
#define KERNLINE_FORCE_CELLS_H

#include "cell_book.h"
#include "force.h"

typedef struct force_cell {
    kl_index piece; /* of the path */
    double from, to;
    double phi_from, phi_to;
    double up, down, length; /* integrals of exp(phi) ds, exp(-phi) ds, ds */
    force_piece force;       /* its law; from … to as the cell's */
} force_cell;

typedef struct force_cells {
    const cell_book *book;
    force_cell *items;
    kl_index count;
} force_cells;

typedef struct force_branch {
    double level; /* N */
    int sign;     /* +1: let back at the start or pulled from the end; -1: the other way round */
} force_branch;

/* phi at X. */
double force_phi(const kl_tendon *tendon, const tendon_path *path, double x, kl_side side);

/* phi from the first anchor to the last. */
double force_whole_phi(const kl_tendon *tendon, const tendon_path *path);

/* A curve of one piece: the branch all along the path. */
kl_status
force_curve_of_branch(const tendon_path *path, force_branch branch, arena *a, force_curve *curve);

/* What a jack delivers past the friction: `pull` N just inside its anchor (at_end: the last one). */
force_branch force_branch_of_pull(const cell_book *book, double pull, bool at_end);

/* Force just inside an anchor; 0 of a curve of count 0: slack. */
double force_at_anchor(const cell_book *book, const force_curve *curve, bool at_end);

/* The larger of a curve (count 0: slack) and of a branch. */
kl_status force_curve_raise(const cell_book *book,
                            const force_curve *curve,
                            force_branch branch,
                            arena *a,
                            force_curve *raised);

kl_status
force_cells_make(const cell_book *book, const force_curve *curve, arena *a, force_cells *cells);

/* The part from … to of a cell, its integrals included. */
force_cell
force_cell_part(const force_cells *cells, const force_cell *cell, double from, double to);

/* X where phi has this value in the cell; it must lie between the ends'. */
double force_cell_place(const force_cells *cells, const force_cell *cell, double phi);

/* Integral of B ds and of the branch of level 1 over a cell. */
double force_cell_sum(const force_cell *cell);
double force_cell_branch_sum(const force_cell *cell, int sign);

/* Integral of the force of a curve over from … to (X) of the tendon's true length, N·m; curve NULL or empty: 0. */
kl_status force_curve_sum(
    const cell_book *book, const force_curve *curve, double from, double to, arena *a, double *sum);

/* Divide a cell where branch and force cross.
 * @return the number of parts (1 or 2); branch_larger[]: is the branch above the force there? */
int force_cell_divide(const force_cells *cells,
                      const force_cell *cell,
                      force_branch branch,
                      force_cell parts[2],
                      bool branch_larger[2]);

/* The larger (take_larger) or the smaller of curve and branch, point by point. */
kl_status force_cells_envelope(
    const force_cells *cells, force_branch branch, bool take_larger, arena *a, force_curve *curve);

#endif
