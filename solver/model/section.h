/* section.h - what a section is worth: area, centroid, inertia, shear area, width by level.
 *
 * Section coordinate y is measured up from the section's *bottom* here; the caller shifts it to the member's
 * line. Formulas: Green's theorem for polygons; shear areas 5/6 A (rectangle), 0.9 A (circle), 0.5 A (pipe),
 * webs of tee and box.
 * SPDX-License-Identifier: MIT */
#ifndef KERNLINE_SECTION_H
#define KERNLINE_SECTION_H

#include "arena.h"
#include "kernline/model.h"

/* The section at one station: dimensions between two rows are interpolated linearly (share 0 … 1 from a to b).
 * For outlines and voids point by point (both must have the same numbers of points, and void counts). */
typedef struct section_value {
    double area, inertia;     /* m^2, m^4 about the centroid, turned sections already turned */
    double centroid;          /* m above the bottom; bare: to_bottom or 0 */
    double depth;             /* m, bottom to top; bare: to_top + to_bottom, NAN when not given */
    double to_top, to_bottom; /* m from the centroid, NAN when a bare section does not say */
    double shear_area;        /* m^2, NAN: none known (outline or bare without shear_area) */
    double line;              /* m above the bottom: where the member's line runs */
    double perimeter_exposed; /* m: outer boundary plus half the inner one (cells); NAN for bare */
    double
        width_bottom; /* m of concrete at the lowest level, a circle has 0; bare: its `width`, else NAN */
} section_value;

/* Check one section's dimensions: positive, flanges within depth, webs and cells within width, outline not
 * self-crossing, voids inside the outline and not crossing it or each other. Errors to diags. */
kl_status section_check(const kl_section *section, kl_diags *diags);

/* Can dimensions vary linearly from a to b? (Same shape, not bare, same counts of points, cells, voids; the same
 * `line`, both shear flexible or neither. A section varies into itself.) */
bool section_can_vary(const kl_section *a, const kl_section *b);

/* Values at share t in 0 … 1 between a and b (a == b: prismatic). No allocation. Both passed section_check. */
void section_evaluate(const kl_section *a, const kl_section *b, double t, section_value *value);

/* Volume to surface at share t, m: as given, else area over what of the perimeter dries; NAN for a bare section that does
 * not say. */
double section_volume_to_surface(const kl_section *a, const kl_section *b, double t);

/* Integrals of a temperature that varies with depth below the top, piecewise linear between points, constant
 * beyond the first and zero below the last: ∫T dA and ∫T (y - centroid) dA over the concrete. Bare sections: over a
 * rectangle of the section's depth and A/depth wide, about its own middle. Exact for polygons (widths are piecewise
 * linear). */
void section_temperature_moments(const kl_section *a,
                                 const kl_section *b,
                                 double t,
                                 const kl_temperature_point *points,
                                 kl_index count,
                                 double *t_area,
                                 double *t_moment);
/* The temperature itself at a depth below the top. */
double section_temperature_at(const kl_temperature_point *points, kl_index count, double depth);

/* The outline of a shape at share t in 0 … 1 between a and b as polygons, x centred, y up from a level `datum` m above the bottom:
 * for drawings and for checks against direct formulas. All loops anticlockwise. Circles as `sides`-gons. Allocated in `memory`.
 * @return KL_NOT_THERE for bare sections. */
kl_status section_outline(const kl_section *a,
                          const kl_section *b,
                          double t,
                          double datum,
                          kl_index sides,
                          arena *memory,
                          kl_section_outline *outline);

#endif
