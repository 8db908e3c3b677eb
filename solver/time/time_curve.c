/* time_curve.c - see time_curve.h.
 * SPDX-License-Identifier: MIT */
#include "time_curve.h"

#include <math.h>

/* Mean slope from point i to the next, in x = log t. */
static double secant(const kl_time_point *points, kl_index i)
{
    return (points[i + 1].value - points[i].value) / log(points[i + 1].time / points[i].time);
}

/* Slope at point i in x. No more than three times the secant beside it, so that the cubic does not turn back (Fritsch and
 * Carlson 1980); inside the harmonic mean of the two secants, weighted by length (Fritsch and Butland 1984). */
static double slope_at(const kl_time_curve *curve, kl_index i)
{
    const kl_time_point *points = curve->points;
    if (i == curve->count - 1) {
        return 0.0;
    }
    const double after = secant(points, i);
    if (i == 0) {
        return fmin(0.5 * points[0].value, 3.0 * after); /* of the square root */
    }
    const double before = secant(points, i - 1);
    if (!(before > 0.0 && after > 0.0)) {
        return 0.0;
    }
    const double left = log(points[i].time / points[i - 1].time);
    const double right = log(points[i + 1].time / points[i].time);
    const double a = 2.0 * right + left, b = right + 2.0 * left;
    return (a + b) / (a / before + b / after);
}

/* Hermite's cubic from point i to the next, in x. */
static double between(const kl_time_curve *curve, kl_index i, double since)
{
    const kl_time_point *a = &curve->points[i], *b = &curve->points[i + 1];
    const double length = log(b->time / a->time);
    const double s = log(since / a->time) / length, r = 1.0 - s;
    return a->value * (1.0 + 2.0 * s) * r * r + b->value * s * s * (1.0 + 2.0 * r) +
           length * s * r * (slope_at(curve, i) * r - slope_at(curve, i + 1) * s);
}

double time_curve_at(const kl_time_curve *curve, double since)
{
    if (!(since > 0.0) || curve->count == 0) {
        return 0.0;
    }
    const kl_time_point *first = &curve->points[0];
    if (isinf(first->time)) {
        return first->value * -expm1(-since / TIME_CURVE_CONSTANT);
    }
    if (since <= first->time) {
        return first->value * sqrt(since / first->time);
    }
    for (kl_index i = 0; i + 1 < curve->count; i++) {
        if (since <= curve->points[i + 1].time) {
            return between(curve, i, since);
        }
    }
    return curve->points[curve->count - 1].value;
}
