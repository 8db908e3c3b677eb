/* scale.c - see scale.h.
 * SPDX-License-Identifier: MIT */
#include "scale.h"

#include <math.h>

#include "near.h"

scale scale_over(double low, double high, double at, double length)
{
    if (!(high > low)) {
        const double around = is_exact_zero(low) ? 1.0 : 0.05 * fabs(low);
        low -= around;
        high += around;
    }
    return (scale){.from = low, .to = high, .at = at, .length = length};
}

scale scale_of_decades(double low, double high, double at, double length)
{
    const double first = floor(log10(low) + 1e-9);
    const double last = fmax(ceil(log10(high) - 1e-9), first + 1.0);
    return (scale){.from = pow(10.0, first),
                   .to = pow(10.0, last),
                   .at = at,
                   .length = length,
                   .decades = true};
}

double scale_place(const scale *s, double value)
{
    const double share = s->decades ? log10(value / s->from) / log10(s->to / s->from)
                                    : (value - s->from) / (s->to - s->from);
    return s->at + share * s->length;
}

/* The smallest of 1, 2, 5, 10 times a power of ten that is not below `size`. */
static double scale_step(double size)
{
    const double power = pow(10.0, floor(log10(size)));
    const double share = size / power * (1.0 - 1e-9); /* 2.0000000001 is 2 */
    return power * (share <= 1.0 ? 1.0 : share <= 2.0 ? 2.0 : share <= 5.0 ? 5.0 : 10.0);
}

void scale_round(double *low, double *high, int about)
{
    const scale s = scale_over(*low, *high, 0.0, 1.0);
    const double step = scale_step((s.to - s.from) / about);
    *low = step * floor(s.from / step + 1e-9);
    *high = step * ceil(s.to / step - 1e-9);
}

scale_ticks scale_ticks_of(const scale *s, int about)
{
    const double low = fmin(s->from, s->to);
    const double high = fmax(s->from, s->to);
    const double step = scale_step((high - low) / about);
    const double first = ceil(low / step - 1e-9);
    const double last = floor(high / step + 1e-9);
    const double digits = -floor(log10(step) + 1e-9);
    return (scale_ticks){
        .first = first * step,
        .step = step,
        .count = (int)(last - first) + 1,
        .decimals = digits > 0.0 ? (int)digits : 0,
    };
}
