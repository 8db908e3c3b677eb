/* fuzz_solve.c - any model: results that pass the audit, are finite, and are the same bytes when solved again.
 * SPDX-License-Identifier: MIT */
#include "try_text.h"

int fuzz_solve(const uint8_t *data, size_t size)
{
    try_twice(data, size);
    return 0;
}

FUZZ_ENTRY(fuzz_solve)
