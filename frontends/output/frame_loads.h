/* frame_loads.h - loads drawn on the frame: strips, arrows, and what is no force in words.
 *
 * Strips stand on the side that the load comes from, as high as its intensity asks for, one upon the other where several act on
 * a member; arrows end at the place they act on, one for all that act there alike. What tendons do is not drawn.
 * SPDX-License-Identifier: MIT */
#ifndef KERNLINE_FRAME_LOADS_H
#define KERNLINE_FRAME_LOADS_H

#include "frame_view.h"
#include "load_sum.h"

/* `size`: px that the largest strip is high, and the largest arrow half as long again. With `values` they are written where
 * there is room. Failures are kept in the drawing. */
void frame_loads_draw(
    const frame_view *v, const load_share *shares, kl_index count, double size, bool values);

#endif
