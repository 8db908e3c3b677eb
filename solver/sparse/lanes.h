/* lanes.h - vectors of doubles as the compiler offers them, as wide as the machine compiled for has them.
 * SPDX-License-Identifier: MIT */
#ifndef KERNLINE_LANES_H
#define KERNLINE_LANES_H

#if defined(__AVX512F__)
#define LANES 8
#elif defined(__AVX__)
#define LANES 4
#else
#define LANES 2
#endif

#if defined(__GNUC__)
#define LANES_INLINE static inline __attribute__((always_inline))
#else
#define LANES_INLINE static inline
#endif

/* Loaded and stored anywhere a double may be. */
typedef double lanes __attribute__((vector_size(8 * LANES), aligned(8), may_alias));
typedef double lanes_two __attribute__((vector_size(16), aligned(8), may_alias));
typedef double lanes_four __attribute__((vector_size(32), aligned(8), may_alias));

#endif
