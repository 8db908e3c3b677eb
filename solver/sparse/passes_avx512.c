/* passes_avx512.c - the numeric passes for machines with the vectors of the name (the Makefile sets the compiler's flags).
 * SPDX-License-Identifier: MIT */
#include "numeric.h"

#if defined(__AVX512F__)
#include "passes.h"

const sparse_passes *passes_avx512(void)
{
    static const sparse_passes table = PASSES_TABLE;
    return &table;
}
#else
const sparse_passes *passes_avx512(void)
{
    return NULL;
}
#endif
