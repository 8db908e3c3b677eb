/* lapack.h - the few dense and banded routines the program and its tests use; lapack.c alone includes lapacke.h and cblas.h.
 *
 * Matrices are column-major. Sizes are checked against the library's 32-bit integers: what does not fit is
 * KL_TOO_LARGE. Nothing here allocates.
 * SPDX-License-Identifier: MIT */
#ifndef KERNLINE_LAPACK_H
#define KERNLINE_LAPACK_H

#include <stdbool.h>
#include <stdint.h>

#include "kernline/status.h"

/* Cholesky factor A = L L' of a symmetric positive definite band matrix, in place. Column j begins at
 * band + j * (width + 1) and holds rows j … j + width of the lower triangle (LAPACK DPBTRF, lower).
 * @param stopped out: -1, or the first column whose pivot is not positive (or not a number). */
kl_status lapack_band_factor(int64_t n, int64_t width, double *band, int64_t *stopped);

/* Solve a dense symmetric positive definite system in place for `columns` columns; a (n x n, lower triangle
 * read) becomes its factor. `stopped` as above (LAPACK DPOSV). */
kl_status lapack_dense_solve(int64_t n, double *a, int64_t columns, double *x, int64_t *stopped);

#endif
