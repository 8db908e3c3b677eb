/* passes_avx2.c - the numeric passes for machines with the vectors of the name (the Makefile sets the compiler's flags).
 * SPDX-License-Identifier: MIT */
#include "numeric.h"

#if defined(__AVX2__)
#include "passes.h"

const sparse_passes *passes_avx2(void)
{
    static const sparse_passes table = PASSES_TABLE;
    return &table;
}
#else
const sparse_passes *passes_avx2(void)
{
    return NULL;
}
#endif
