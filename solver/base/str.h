/* str.h - small help with texts that are given by pointer and length.
 * SPDX-License-Identifier: MIT */
#ifndef KERNLINE_STR_H
#define KERNLINE_STR_H

#include <stdbool.h>
#include <stddef.h>
#include <string.h>

/* Longer texts are not compared letter by letter: their distance is STR_FAR, which bounds the cost. */
#define STR_DISTANCE_LENGTH 64
#define STR_FAR             1000

/* Is `text` (zero-ended) the same as the `length` bytes at `other`? */
static inline bool str_equal(const char *text, const char *other, size_t length)
{
    size_t i =
        0; /* words that are not the same differ in their first letters: no call is worth while */
    while (i < length && text[i] == other[i] && text[i] != '\0') {
        i++;
    }
    return i == length && text[i] == '\0';
}

/* Are two words the same? Most differ in their first letter. */
static inline bool str_same(const char *a, const char *b)
{
    return a[0] == b[0] && strcmp(a, b) == 0;
}

/* How many letters must be added, dropped, changed or swapped with their neighbour to turn a into b: the
 * restricted Damerau-Levenshtein distance, for "did you mean …?". Bytes, case-sensitive. */
int str_distance(const char *a, size_t na, const char *b, size_t nb);

/* "3.12", "10008", "41368", "0" (also for -0), "none" for NAN: so many significant figures, whole numbers in full,
 * no zeros behind the last figure, an exponent only below 1e-4 and from 1e9 on. Writes at most `size` bytes. */
void str_number(char *out, size_t size, double value, int figures);

#endif
