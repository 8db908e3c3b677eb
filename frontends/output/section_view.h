/* section_view.h - one section on the page, to scale: concrete and voids, the centroid, bars and ducts at their height.
 *
 * Where bars and ducts lie across the section no model says: they are spread evenly over the concrete at their level.
 * SPDX-License-Identifier: MIT */
#ifndef KERNLINE_SECTION_VIEW_H
#define KERNLINE_SECTION_VIEW_H

#include "drawing.h"
#include "kernline/results.h"

typedef struct section_view {
    drawing *drawing;
    kl_results *results;
    kl_index member;
    double station;
    kl_side side;
    kl_section_values values;
    const kl_section_outline *outline; /* NULL: the section is given by numbers */
    double left, right, bottom, top;   /* m, x from the middle, y above the member's line */
    double at_x, at_y, pixels;         /* px of x = y = 0, and to the metre */
} section_view;

/* Look the section up; its size is then known. A section that says no height gets NAN for bottom and top. */
kl_status section_view_gather(section_view *v,
                              drawing *d,
                              kl_results *results,
                              kl_index member,
                              double station,
                              kl_side side);
bool section_view_has_size(const section_view *v);
/* Put its middle at x and its top at y. */
void section_view_place(section_view *v, double x, double y, double pixels);
double section_view_y(const section_view *v, double height);

/* Concrete and voids; of a section given by numbers a dashed frame as high as it is. */
void section_view_concrete(const section_view *v);
/* An axis a little longer than the section, with its name at the right end. */
void section_view_centroid(const section_view *v);
void section_view_bars(const section_view *v);
/* Of all tendons that pass, stressed or not; `names`: each group by its name and height. */
void section_view_ducts(const section_view *v, bool names);
/* The whole height at the left, the whole width below. */
void section_view_dimensions(const section_view *v);

#endif
