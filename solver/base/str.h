/* str.h - small help with texts that are given by pointer and length.
 * SPDX-License-Identifier: MIT */
#ifndef KERNLINE_STR_H
#define KERNLINE_STR_H

#include <stdbool.h>
#include <stddef.h>

/* Longer texts are not compared letter by letter: their distance is STR_FAR, which bounds the cost. */
#define STR_DISTANCE_LENGTH 64
#define STR_FAR             1000

/* Is `text` (zero-ended) the same as the `length` bytes at `other`? */
bool str_equal(const char *text, const char *other, size_t length);

/* How many letters must be added, dropped, changed or swapped with their neighbour to turn a into b: the
 * restricted Damerau-Levenshtein distance, for "did you mean …?". Bytes, case-sensitive. */
int str_distance(const char *a, size_t na, const char *b, size_t nb);

#endif
