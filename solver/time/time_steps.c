/* time_steps.c - see time_steps.h.
 * SPDX-License-Identifier: MIT */
#include "time_steps.h"

#include <math.h>

int time_steps_count(double span, int per_decade)
{
    if (!(span > 0.0)) {
        return 0;
    }
    if (span <= TIME_STEPS_FIRST) {
        return 1;
    }
    return 1 + (int)ceil(per_decade * log10(span / TIME_STEPS_FIRST));
}

double time_steps_end(double span, int count, int i)
{
    if (i >= count - 1) {
        return span;
    }
    return TIME_STEPS_FIRST * pow(span / TIME_STEPS_FIRST, (double)i / (count - 1));
}
