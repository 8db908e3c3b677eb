/* nearest.h - the known word nearest to a misspelt one, for "did you mean …?".
 * SPDX-License-Identifier: MIT */
#ifndef KERNLINE_NEAREST_H
#define KERNLINE_NEAREST_H

#include <stddef.h>

typedef struct nearest {
    const char *text;
    size_t length;
    const char *best; /* NULL: nothing is near enough */
    int distance;
} nearest;

nearest nearest_start(const char *text, size_t length);
/* Hold one known word against it; `word` must outlive the search. */
void nearest_try(nearest *search, const char *word);

#endif
