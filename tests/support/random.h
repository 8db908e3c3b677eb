/* random.h - numbers for tests that are random but the same in every run.
 * SPDX-License-Identifier: MIT */
#ifndef KERNLINE_RANDOM_H
#define KERNLINE_RANDOM_H

#include <stdint.h>

/* The generator's state; start with any seed. */
typedef struct random_source {
    uint64_t state;
} random_source;

/* 64 bits (Steele, Lea and Flood, "Fast splittable pseudorandom number generators", 2014: SplitMix64). */
static inline uint64_t random_bits(random_source *source)
{
    source->state += UINT64_C(0x9e3779b97f4a7c15);
    uint64_t z = source->state;
    z = (z ^ (z >> 30)) * UINT64_C(0xbf58476d1ce4e5b9);
    z = (z ^ (z >> 27)) * UINT64_C(0x94d049bb133111eb);
    return z ^ (z >> 31);
}

/* 0 … below-1 */
static inline int32_t random_index(random_source *source, int32_t below)
{
    return (int32_t)(random_bits(source) % (uint64_t)below);
}

/* from … to */
static inline double random_between(random_source *source, double from, double to)
{
    return from + (to - from) * ((double)(random_bits(source) >> 11) * 0x1p-53);
}

#endif
