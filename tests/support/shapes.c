/* shapes.c - see shapes.h.
 * SPDX-License-Identifier: MIT */
#include "shapes.h"

#include <math.h>

kl_section shapes_blank(kl_shape shape)
{
    kl_section s = {.shape = shape, .name = "s", .origin = KL_NOWHERE};
    s.width = s.depth = s.diameter = s.thickness = s.flange_thickness = s.web_width = NAN;
    s.top_slab = s.bottom_slab = s.overhang = s.overhang_edge = NAN;
    s.area = s.inertia = s.to_top = s.to_bottom = s.shear_area = s.volume_to_surface = NAN;
    return s;
}

kl_section shapes_rectangle(double width, double depth)
{
    kl_section s = shapes_blank(KL_RECTANGLE);
    s.width = width;
    s.depth = depth;
    return s;
}

kl_section shapes_tee(void)
{
    kl_section s = shapes_blank(KL_TEE);
    s.width = 2.0;
    s.flange_thickness = 0.25;
    s.web_width = 0.4;
    s.depth = 1.5;
    return s;
}

kl_section shapes_box(kl_index cells, double overhang, double edge)
{
    kl_section s = shapes_blank(KL_BOX);
    s.width = 12.0;
    s.depth = 2.0;
    s.cells = cells;
    s.top_slab = 0.25;
    s.bottom_slab = 0.2;
    s.web_width = 0.3;
    s.overhang = overhang;
    s.overhang_edge = edge;
    return s;
}
