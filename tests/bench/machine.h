/* machine.h - what one thread of the machine does at the moment: products of matrices and reading of memory, by the dense
 * library's own kernels. The measure that a factor and a solution are held against.
 * SPDX-License-Identifier: MIT */
#ifndef KERNLINE_MACHINE_H
#define KERNLINE_MACHINE_H

#include <stdbool.h>

enum { MACHINE_SIZES = 3 };

/* Order of the matrices, and kilobytes that are read again and again: within a core's own cache, within the cache that cores
 * share, and beyond all caches. */
extern const int machine_order[MACHINE_SIZES];
extern const int machine_kilobytes[MACHINE_SIZES];

typedef struct machine_speed {
    double product[MACHINE_SIZES]; /* operations a second */
    double reading[MACHINE_SIZES]; /* bytes a second */
} machine_speed;

/* A dense library that is older than the processor takes its oldest kernels, a fifth as fast. Then the program starts anew with
 * OPENBLAS_CORETYPE set to the widest vectors there are, so that all solvers are at their best; what is set already is kept. */
void machine_take_kernels(char **argv);
/* The processor whose kernels the dense library uses. */
const char *machine_kernels(void);

/* Medians of a few tries; a third of a second. @return false when there is no memory. */
bool machine_measure(machine_speed *speed);

#endif
