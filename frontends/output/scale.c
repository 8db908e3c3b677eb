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

double scale_place(const scale *s, double value)
{
    return s->at + (value - s->from) / (s->to - s->from) * s->length;
}

/* The smallest of 1, 2, 5, 10 times a power of ten that is not below `size`. */
static double scale_step(double size)
{
    const double power = pow(10.0, floor(log10(size)));
    const double share = size / power * (1.0 - 1e-9); /* 2.0000000001 is 2 */
    return power * (share <= 1.0 ? 1.0 : share <= 2.0 ? 2.0 : share <= 5.0 ? 5.0 : 10.0);
}

double scale_round_down(double size)
{
    const double power = pow(10.0, floor(log10(size)));
    const double share = size / power * (1.0 + 1e-9); /* 1.9999999999 is 2 */
    return power * (share >= 10.0 ? 10.0 : share >= 5.0 ? 5.0 : share >= 2.0 ? 2.0 : 1.0);
}

void scale_round(double *low, double *high, int about)
{
    const scale s = scale_over(*low, *high, 0.0, 1.0);
    double step = 0.0;
    double wanted = scale_step((s.to - s.from) / about);
    while (wanted >
           step) { /* the wider range may ask for a larger step: ticks must fall on its ends */
        step = wanted;
        *low = step * floor(s.from / step + 1e-9);
        *high = step * ceil(s.to / step - 1e-9);
        wanted = scale_step((*high - *low) / about);
    }
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
