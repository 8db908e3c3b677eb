/* peak.h - the most memory in use since a moment, that of every library included.
 *
 * The bench has malloc and its like of its own, which stand before the C library's: solvers that work in libraries of theirs
 * are counted like our own. What a solver gets from the system past malloc is not seen.
 * SPDX-License-Identifier: MIT */
#ifndef KERNLINE_PEAK_H
#define KERNLINE_PEAK_H

/* From now on. */
void peak_begin(void);
/* Bytes beyond what was in use then. */
double peak_bytes(void);

#endif
