/* pages.h - one large piece of memory for numbers, on large pages where the system gives them.
 * SPDX-License-Identifier: MIT */
#ifndef KERNLINE_PAGES_H
#define KERNLINE_PAGES_H

#include <stddef.h>

/* Room with any content that begins on a line of the cache; NULL when out of memory. Free *memory with mem_free. */
double *pages_array(size_t count, void **memory);

#endif
