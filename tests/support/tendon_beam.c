/* tendon_beam.c - see tendon_beam.h.
 * SPDX-License-Identifier: MIT */
#include "tendon_beam.h"

#include <math.h>
#include <stdio.h>
#include <string.h>

#define STEPS 4000

/* ---- the closed form ----------------------------------------------------------------------------------------- */

double tendon_beam_ordinate(const tendon_span *s, double x)
{
    if (s->harp > 0.0) {
        const double left = s->y0 + (s->ym - s->y0) * x / s->harp;
        const double right = s->y1 + (s->ym - s->y1) * (s->length - x) / s->harp;
        return x < s->harp ? left : x > s->length - s->harp ? right : s->ym;
    }
    const double t = x / s->length;
    return s->y0 + (4 * s->ym - 3 * s->y0 - s->y1) * t + 2 * (s->y0 + s->y1 - 2 * s->ym) * t * t;
}

double tendon_beam_slope(const tendon_span *s, double x)
{
    if (s->harp > 0.0) {
        return x < s->harp               ? (s->ym - s->y0) / s->harp
               : x > s->length - s->harp ? (s->y1 - s->ym) / s->harp
                                         : 0.0;
    }
    const double t = x / s->length;
    return ((4 * s->ym - 3 * s->y0 - s->y1) + 4 * (s->y0 + s->y1 - 2 * s->ym) * t) / s->length;
}

double tendon_beam_cosine(const tendon_span *s, double x)
{
    return 1.0 / sqrt(1.0 + tendon_beam_slope(s, x) * tendon_beam_slope(s, x));
}

/* P cos(theta) y: the primary moment of the concrete. */
double tendon_beam_primary(const tendon_beam *b, int i, double x)
{
    return b->force * tendon_beam_cosine(&b->spans[i], x) * tendon_beam_ordinate(&b->spans[i], x);
}

/* Integral over span i of f(x) times the primary moment, f going from f0 at `from` linearly to f1 at `to`. */
static double integrate(const tendon_beam *b, int i, double from, double to, double f0, double f1)
{
    double sum = 0.0;
    for (int n = 0; n < STEPS;
         n++) { /* two Gauss points a step: no trouble with kinks that fall on steps */
        for (int g = -1; g <= 1; g += 2) {
            const double t = (n + 0.5 + 0.5 * g / sqrt(3.0)) / STEPS;
            sum += 0.5 / STEPS * (to - from) * (f0 + (f1 - f0) * t) *
                   tendon_beam_primary(b, i, from + (to - from) * t);
        }
    }
    return sum;
}

/* Moment over the inner support by the force method: X (L1 + L2) / 3 + integral of the hat times the primary = 0. */
double tendon_beam_secondary(const tendon_beam *b)
{
    const double l0 = b->spans[0].length;
    const double l1 = b->spans[1].length;
    return b->count < 2
               ? 0.0
               : -3.0 / (l0 + l1) * (integrate(b, 0, 0, l0, 0, 1) + integrate(b, 1, 0, l1, 1, 0));
}

/* Rise of the middle of span 0: minus the integral of the unit load's moment times the curvature. */
double tendon_beam_camber(const tendon_beam *b)
{
    const double l = b->spans[0].length;
    const double own = integrate(b, 0, 0, l / 2, 0, l / 4) + integrate(b, 0, l / 2, l, l / 4, 0);
    return -(own + tendon_beam_secondary(b) * l * l / 16) / (b->modulus * b->inertia);
}

/* ---- the model ----------------------------------------------------------------------------------------------- */

static void write_tendon(const tendon_beam *b, int i, double offset, char *text, size_t size)
{
    const tendon_span *s = &b->spans[i];
    const double end = offset + s->length;
    char rows[512];
    if (s->harp > 0.0) {
        (void)snprintf(rows, sizeof rows,
                       "through at %.17g m height %.17g m straight\nthrough at %.17g m height "
                       "%.17g m straight\n"
                       "anchor at %.17g m height %.17g m straight",
                       offset + s->harp, s->ym, end - s->harp, s->ym, end, s->y1);
    } else if (fabs(s->y0 + s->y1 - 2 * s->ym) > 0.0) {
        const double turn = s->y0 + s->y1 - 2 * s->ym;
        const double x = -s->length * (4 * s->ym - 3 * s->y0 - s->y1) / (4 * turn);
        (void)snprintf(
            rows, sizeof rows, "%s at %.17g m height %.17g m\nanchor at %.17g m height %.17g m",
            turn > 0.0 ? "low" : "high", offset + x, tendon_beam_ordinate(s, x), end, s->y1);
    } else {
        (void)snprintf(rows, sizeof rows, "anchor at %.17g m height %.17g m straight", end, s->y1);
    }
    const size_t used = strlen(text);
    (void)snprintf(text + used, size - used,
                   "tendon T%d in b { of strand; strands 20 area 500 mm^2; jack start force %.17g "
                   "N; friction 0; seating 0 mm\n"
                   "profile from line { anchor at %.17g m height %.17g m\n%s } }\n",
                   i + 1, b->force, offset, s->y0, rows);
}

void tendon_beam_run(solved *s, const tendon_beam *b)
{
    static char text[8192];
    const double l0 = b->spans[0].length;
    const double l = l0 + (b->count > 1 ? b->spans[1].length : 0.0);
    (void)snprintf(
        text, sizeof text,
        "show si\nsections gross\nmaterial c { modulus %.17g Pa }\n"
        "prestressing strand { ultimate 1860 MPa; yield 1670 MPa; modulus 200 GPa; relaxation none "
        "}\n"
        "section g { area %.17g m^2; inertia %.17g m^4; to_top %.17g m; to_bottom %.17g m }\n"
        "node A at (0 m, 0 m)\nnode C at (%.17g m, 0 m)\nmember b from A to C section g of c\n"
        "support A pinned\nsupport C roller\n",
        b->modulus, b->area, b->inertia, b->to_top, b->to_bottom, l);
    if (b->count > 1) {
        const size_t used = strlen(text);
        (void)snprintf(text + used, sizeof text - used,
                       "node B on b at %.17g m\nsupport B roller\n", l0);
    }
    for (int i = 0; i < b->count; i++) {
        write_tendon(b, i, i * l0, text, sizeof text);
    }
    const size_t used = strlen(text);
    (void)snprintf(text + used, sizeof text - used, "load pull { stress T1%s }\n%s",
                   b->count > 1 ? "; stress T2" : "", b->loads ? b->loads : "");
    solved_open(s, text);
}
