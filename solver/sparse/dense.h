/* dense.h - 3x3 blocks by rows: the unknowns u, v, r of one node against those of another.
 * SPDX-License-Identifier: MIT */
#ifndef KERNLINE_DENSE_H
#define KERNLINE_DENSE_H

#define DENSE_SIDE  3
#define DENSE_BLOCK 9

/* y += A x */
static inline void dense_add_times(const double *a, const double *x, double *y)
{
    for (int i = 0; i < DENSE_SIDE; i++) {
        const double *row = a + DENSE_SIDE * i;
        y[i] += row[0] * x[0] + row[1] * x[1] + row[2] * x[2];
    }
}

/* y += A' x */
static inline void dense_add_transposed_times(const double *a, const double *x, double *y)
{
    for (int i = 0; i < DENSE_SIDE; i++) {
        y[i] += a[i] * x[0] + a[3 + i] * x[1] + a[6 + i] * x[2];
    }
}

#endif
