/* time_curve.h - a curve of creep or shrinkage of the user's own.
 *
 * By points it is what a test report gives: with the square root of time up to the first point, as drying and young creep
 * begin; between points a cubic in the logarithm of time that passes through them smoothly and does not fall; level after the
 * last. (A smooth curve is what the chain of kelvin.h can follow: straight pieces would be missed by some percent.) By a final value alone it is the textbooks' standard solid,
 *
 *     final (1 - exp(-t / 100 days)),
 *
 * which is no code's model of concrete: the final value is there to a ten-thousandth after 1000 days, and one Kelvin unit
 * of the chain (kelvin.h) is that curve exactly, so that closed forms of textbooks come out.
 * SPDX-License-Identifier: MIT */
#ifndef KERNLINE_TIME_CURVE_H
#define KERNLINE_TIME_CURVE_H

#include "kernline/model.h"

#define TIME_CURVE_CONSTANT (100.0 * KL_DAY) /* s */

/* The curve's value so long after its start, s; 0 up to it, and where no curve is given. */
double time_curve_at(const kl_time_curve *curve, double since);

#endif
