/* section_temperature.c - integrals of a temperature profile over a section.
 *
 * The profile is a chain of linear pieces over depth bands. In a band the integrand is a polynomial in y of degree
 * two (for T) or three (for T y) along each edge of a shape with corners, for which Simpson's rule is exact; a
 * circle goes by y = r sin(phi).
 * SPDX-License-Identifier: MIT */
#include <math.h>

#include "section.h"
#include "section_polygon.h"

/* One linear piece of the profile, in levels: T = low at `bottom` … high at `top`. */
typedef struct temperature_band {
    double bottom, top;
    double low, high;
} temperature_band;

/* ∫T dA and ∫T (y - middle) dA. */
typedef struct temperature_integral {
    double area, moment;
} temperature_integral;

double section_temperature_at(const kl_temperature_point *points, kl_index count, double depth)
{
    if (count < 1 || depth > points[count - 1].depth) {
        return 0.0;
    }
    if (depth <= points[0].depth) {
        return points[0].temperature;
    }
    kl_index i = 1;
    while (points[i].depth < depth) {
        i++;
    }
    const double range = points[i].depth - points[i - 1].depth;
    const double t = (depth - points[i - 1].depth) / range;
    return section_shape_mix(points[i - 1].temperature, points[i].temperature, t);
}

/* Band i of the profile: 0 is the constant one above the first point. */
static temperature_band band_of(const kl_temperature_point *points, kl_index i, double top)
{
    if (i == 0) {
        const double t = points[0].temperature;
        return (temperature_band){top - points[0].depth, fmax(top, top - points[0].depth), t, t};
    }
    return (temperature_band){top - points[i].depth, top - points[i - 1].depth,
                              points[i].temperature, points[i - 1].temperature};
}

static double band_temperature(const temperature_band *band, double y)
{
    return section_shape_mix(band->low, band->high,
                             (y - band->bottom) / (band->top - band->bottom));
}

static double edge_x(kl_point p, kl_point q, double y)
{
    return section_shape_mix(p.x, q.x, (y - p.y) / (q.y - p.y));
}

/* ∫f(y) x dy along the part of the edge p-q inside the band. */
static void add_edge(
    kl_point p, kl_point q, const temperature_band *band, double middle, temperature_integral *sum)
{
    const bool up = q.y > p.y;
    const double low = fmax(up ? p.y : q.y, band->bottom);
    const double high = fmin(up ? q.y : p.y, band->top);
    if (!(high > low)) {
        return;
    }
    const double y[3] = {low, 0.5 * (low + high), high};
    const double weight[3] = {1.0, 4.0, 1.0};
    const double scale = (up ? 1.0 : -1.0) * (high - low) / 6.0;
    for (int i = 0; i < 3; i++) {
        const double tx = scale * weight[i] * band_temperature(band, y[i]) * edge_x(p, q, y[i]);
        sum->area += tx;
        sum->moment += tx * (y[i] - middle);
    }
}

/* One loop in one band; `turn` receives twice the loop's area by its own sense of rotation. */
static temperature_integral loop_integral(const section_shape *shape,
                                          kl_index loop,
                                          const temperature_band *band,
                                          double middle,
                                          double *turn)
{
    temperature_integral sum = {0.0, 0.0};
    *turn = 0.0;
    const kl_index count = section_shape_points(shape, loop);
    kl_point p = section_shape_point(shape, loop, count - 1);
    for (kl_index i = 0; i < count; i++) {
        const kl_point q = section_shape_point(shape, loop, i);
        add_edge(p, q, band, middle, &sum);
        *turn += p.x * q.y - q.x * p.y;
        p = q;
    }
    return sum;
}

static temperature_integral
corners_integral(const section_shape *shape, const temperature_band *band, double middle)
{
    temperature_integral sum = {0.0, 0.0};
    const kl_index loops = section_shape_loops(shape);
    for (kl_index loop = 0; loop < loops; loop++) {
        double turn;
        const temperature_integral part = loop_integral(shape, loop, band, middle, &turn);
        const double sign = (turn < 0.0) == (loop == 0) ? -1.0 : 1.0;
        sum.area += sign * part.area;
        sum.moment += sign * part.moment;
    }
    return sum;
}

/* ∫sin^n(phi) cos²(phi) dphi from 0 to phi, times 2. */
static double sine_cosine(int n, double phi)
{
    const double c = cos(phi);
    if (n == 0) {
        return phi + sin(phi) * c;
    }
    if (n == 1) {
        return -2.0 / 3.0 * c * c * c;
    }
    return 0.25 * (phi - 0.25 * sin(4.0 * phi));
}

/* A full circle of radius r about `middle`. */
static temperature_integral circle_integral(double r, const temperature_band *band, double middle)
{
    const double low = fmin(fmax((band->bottom - middle) / r, -1.0), 1.0);
    const double high = fmin(fmax((band->top - middle) / r, -1.0), 1.0);
    if (!(high > low)) {
        return (temperature_integral){0.0, 0.0};
    }
    double powers[3]; /* ∫(y - middle)^n dA */
    for (int n = 0; n < 3; n++) {
        powers[n] = pow(r, 2.0 + n) * (sine_cosine(n, asin(high)) - sine_cosine(n, asin(low)));
    }
    const double rate = (band->high - band->low) / (band->top - band->bottom);
    const double at_middle = band->low + rate * (middle - band->bottom);
    return (temperature_integral){at_middle * powers[0] + rate * powers[1],
                                  at_middle * powers[1] + rate * powers[2]};
}

static temperature_integral round_integral(const section_shape *shape, const temperature_band *band)
{
    const double r = 0.5 * shape->diameter;
    temperature_integral sum = circle_integral(r, band, r);
    if (shape->kind == KL_PIPE) {
        const temperature_integral hole = circle_integral(r - shape->thickness, band, r);
        sum.area -= hole.area;
        sum.moment -= hole.moment;
    }
    return sum;
}

/* A bare section's stand-in: as deep as the section, A / depth wide. */
static section_shape stand_in(const section_value *value, kl_section *rectangle)
{
    *rectangle = (kl_section){.shape = KL_RECTANGLE};
    rectangle->depth = value->depth;
    rectangle->width = value->area / value->depth;
    return section_shape_between(rectangle, rectangle, 0.0);
}

void section_temperature_moments(const kl_section *a,
                                 const kl_section *b,
                                 double t,
                                 const kl_temperature_point *points,
                                 kl_index count,
                                 double *t_area,
                                 double *t_moment)
{
    section_shape shape = section_shape_between(a, b, t);
    section_value value;
    section_evaluate(a, b, t, &value);
    kl_section rectangle;
    if (shape.kind == KL_BARE) {
        shape = stand_in(&value, &rectangle);
        value.centroid = 0.5 * value.depth;
    }
    const bool round = shape.kind == KL_CIRCLE || shape.kind == KL_PIPE;
    double bottom = 0.0;
    if (!round) {
        section_sums sums;
        section_polygon_sums(&shape, &sums);
        bottom = sums.bottom;
    }
    const double middle = bottom + value.centroid;
    *t_area = *t_moment = 0.0;
    for (kl_index i = 0; i < count; i++) {
        const temperature_band band = band_of(points, i, bottom + value.depth);
        if (!(band.top > band.bottom)) {
            continue; /* a step, or nothing above the first point */
        }
        const temperature_integral part =
            round ? round_integral(&shape, &band) : corners_integral(&shape, &band, middle);
        *t_area += part.area;
        *t_moment += part.moment;
    }
}
