/* fill_extents.c - the box of a filled outline, answered here in place of cairo.
 *
 * librsvg asks for it after every text and shape, and keeps it for gradients and clips that speak of an object's own box, which
 * kernline's pictures do not have. cairo finds it by cutting the whole outline, every letter of it, into trapezoids: half of the
 * time of a PDF. The box of the outline itself is as large or larger, and costs next to nothing. A program's own functions go
 * before those of its libraries; where they did not, pages would be the same and take twice as long.
 * SPDX-License-Identifier: MIT */
#include <cairo.h>

void cairo_fill_extents(cairo_t *cairo, double *left, double *top, double *right, double *bottom)
{
    cairo_path_extents(cairo, left, top, right, bottom);
}
