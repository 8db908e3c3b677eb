/* shapes.h - sections that tests share; what is not given is NAN.
 * SPDX-License-Identifier: MIT */
#ifndef KERNLINE_SHAPES_H
#define KERNLINE_SHAPES_H

#include "kernline/model.h"

kl_section shapes_blank(kl_shape shape);
kl_section shapes_rectangle(double width, double depth);
/* 2.0 m wide and 0.25 m thick on a web of 0.4 m, 1.5 m deep: flange and web have 0.5 m^2 each. */
kl_section shapes_tee(void);
/* A deck 12 m wide and 2 m deep, slabs 0.25 m and 0.2 m, webs 0.3 m. */
kl_section shapes_box(kl_index cells, double overhang, double edge);

#endif
