/* tendon_beam.h - beams of one or two spans with one tendon a span: the model as text, and the closed form with true
 * angles beside it.
 *
 * Ordinates are y, up from the centroid; m, N, Pa.
 * SPDX-License-Identifier: MIT */
#ifndef KERNLINE_TENDON_BEAM_H
#define KERNLINE_TENDON_BEAM_H

#include "solved.h"

/* One parabola in a span through its ends and its middle; or, where `harp` is set, straight from both ends to ym
 * between harp and L - harp. */
typedef struct tendon_span {
    double length, y0, ym, y1, harp;
} tendon_span;

typedef struct tendon_beam {
    tendon_span spans[2];
    int count;
    double modulus, area, inertia, to_top, to_bottom, force;
    const char *loads; /* further load cases */
} tendon_beam;

/* Ordinate, slope and cos(theta) of the tendon at x of its span. */
double tendon_beam_ordinate(const tendon_span *s, double x);
double tendon_beam_slope(const tendon_span *s, double x);
double tendon_beam_cosine(const tendon_span *s, double x);
/* P cos(theta) y in span i: the primary moment of the concrete. */
double tendon_beam_primary(const tendon_beam *b, int i, double x);
/* Moment over the inner support; 0 for one span. */
double tendon_beam_secondary(const tendon_beam *b);
/* Rise of the middle of the first span. */
double tendon_beam_camber(const tendon_beam *b);

/* The model (member b from A to C, inner support B, tendons T1 and T2, case pull), analysed. */
void tendon_beam_run(solved *s, const tendon_beam *b);

#endif
