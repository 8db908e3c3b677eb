/* pi.h - the number that C17 leaves out of math.h.
 * SPDX-License-Identifier: MIT */
#ifndef KERNLINE_PI_H
#define KERNLINE_PI_H

#define PI 3.14159265358979323846

#endif
