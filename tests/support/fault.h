/* fault.h - make the k-th allocation fail, and count what is still allocated.
 *
 * Test programs are linked with malloc, calloc, realloc and pthread_create wrapped (Makefile: FAULT_WRAP); nothing of this is in
 * the library. Allocations of shared libraries are not touched.
 * SPDX-License-Identifier: MIT */
#ifndef KERNLINE_FAULT_H
#define KERNLINE_FAULT_H

/* The (k+1)-th allocation or start of a thread from now fails, and so do all after it; k < 0: none fails. Resets fault_struck. */
void fault_after(long k);
/* Has a failure been given since fault_after? */
int fault_struck(void);

#endif
