/* signs.h - a small picture of what is positive: axes, moment, shear, axial force.
 * SPDX-License-Identifier: MIT */
#ifndef KERNLINE_SIGNS_H
#define KERNLINE_SIGNS_H

#include "drawing.h"

/* Starts the drawing and finishes it. */
void signs_draw(drawing *d);

#endif
