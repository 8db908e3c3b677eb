/* cell_book.h - integrals along parts of one tendon, each found once.
 *
 * With phi = mu alpha + K s they depend on the path and its friction alone, not on the force. One stressing asks for the
 * same ones again and again: for every jack, every set, every trial of a level.
 * SPDX-License-Identifier: MIT */
#ifndef KERNLINE_CELL_BOOK_H
#define KERNLINE_CELL_BOOK_H

#include "profile.h"

/* Of the part from … to (X) of one piece of the path. */
typedef struct cell_sums {
    double from, to;
    double phi_from, phi_to;
    double up, down, length; /* integrals of exp(phi) ds, exp(-phi) ds, ds */
} cell_sums;

typedef struct cell_page cell_page;

typedef struct cell_book {
    const kl_tendon *tendon;
    const tendon_path *path;
    cell_page *pages; /* one a piece: the last cells asked for */
} cell_book;

/* An empty book; its pages live in the arena. @return KL_NO_MEMORY. */
kl_status
cell_book_make(const kl_tendon *tendon, const tendon_path *path, arena *a, cell_book *book);

/* The integrals over from … to of a piece: out of the book, or found and kept there. */
cell_sums cell_book_find(const cell_book *book, kl_index piece, double from, double to);

/* phi at X of a piece, and dphi/dX. */
double cell_phi(const cell_book *book, kl_index piece, double x);
double cell_phi_rate(const cell_book *book, kl_index piece, double x);

#endif
