/* passes_plain.c - the numeric passes for any machine, and the choice among what the machine offers.
 * SPDX-License-Identifier: MIT */
#include "passes.h"

const sparse_passes *passes_plain(void)
{
    static const sparse_passes table = PASSES_TABLE;
    return &table;
}

#if defined(__x86_64__) && defined(__GNUC__)
static bool passes_has_avx2(void)
{
    return __builtin_cpu_supports("avx2") && __builtin_cpu_supports("fma") &&
           __builtin_cpu_supports("bmi2");
}

static bool passes_has_avx512(void)
{
    return __builtin_cpu_supports("avx512f") && __builtin_cpu_supports("avx512vl") &&
           __builtin_cpu_supports("avx512dq") && __builtin_cpu_supports("avx512bw") &&
           __builtin_cpu_supports("avx512cd");
}
#else
static bool passes_has_avx2(void)
{
    return false;
}

static bool passes_has_avx512(void)
{
    return false;
}
#endif

const sparse_passes *passes_for_machine(void)
{
    if (passes_has_avx2() && passes_has_avx512() && passes_avx512() != NULL) {
        return passes_avx512();
    }
    return passes_has_avx2() && passes_avx2() != NULL ? passes_avx2() : passes_plain();
}
