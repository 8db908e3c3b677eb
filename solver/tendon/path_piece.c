/* path_piece.c - see path_piece.h.
 *
 * Symbols: m duct slope, T the angle the duct turns through over the whole piece, u = (its angle from the start)/T,
 * o = offset_from + (offset_to - offset_from) u. With y'' = 2c: du/dX = 2c/(1+m^2)/T, d2u/dX2 = -8 c^2 m/(1+m^2)^2/T.
 * SPDX-License-Identifier: MIT */
#include "path_piece.h"

#include "near.h"

#include <math.h>

const double path_gauss_place[PATH_GAUSS] = {
    -0.9815606342467192506, -0.9041172563704748566, -0.7699026741943046870, -0.5873179542866174472,
    -0.3678314989981801937, -0.1252334085114689154, 0.1252334085114689154,  0.3678314989981801937,
    0.5873179542866174472,  0.7699026741943046870,  0.9041172563704748566,  0.9815606342467192506};
const double path_gauss_weight[PATH_GAUSS] = {
    0.04717533638651182719, 0.1069393259953184310, 0.1600783285433462263, 0.2031674267230659217,
    0.2334925365383548088,  0.2491470458134027850, 0.2491470458134027850, 0.2334925365383548088,
    0.2031674267230659217,  0.1600783285433462263, 0.1069393259953184310, 0.04717533638651182719};

double path_angle_between(double slope_a, double slope_b)
{
    return atan2(slope_b - slope_a, 1.0 + slope_a * slope_b);
}

/* Angle of the duct from t = 0, with the slope's change taken as 2 c t so that nothing cancels. */
static double duct_angle(const path_piece *piece, double t)
{
    const double rise = 2.0 * piece->c * t;
    return atan2(rise, 1.0 + piece->m0 * (piece->m0 + rise));
}

static bool has_offset_change(const path_piece *piece)
{
    return !is_exact_zero(piece->offset_to - piece->offset_from);
}

bool path_piece_is_straight(const path_piece *piece)
{
    return is_exact_zero(piece->c);
}

double path_piece_turn(const path_piece *piece)
{
    return duct_angle(piece, piece->to - piece->from);
}

double path_piece_slope(const path_piece *piece, double t)
{
    const double m = piece->m0 + 2.0 * piece->c * t;
    const double change = piece->offset_to - piece->offset_from;
    if (!has_offset_change(piece)) {
        return m;
    }
    if (path_piece_is_straight(piece)) {
        return m + change / (piece->to - piece->from);
    }
    return m + change * (2.0 * piece->c / (1.0 + m * m)) / piece->turn;
}

double path_piece_duct(const path_piece *piece, double t)
{
    return piece->y0 + (piece->m0 + piece->c * t) * t;
}

piece_shape path_piece_shape(const path_piece *piece, double t)
{
    const double m = piece->m0 + 2.0 * piece->c * t;
    piece_shape s = {.duct = path_piece_duct(piece, t), .duct_slope = m};
    s.height = s.duct + piece->offset_from;
    s.slope = path_piece_slope(piece, t);
    s.curvature = 2.0 * piece->c;
    if (!has_offset_change(piece)) {
        return s;
    }
    const double change = piece->offset_to - piece->offset_from;
    if (path_piece_is_straight(piece)) {
        s.height += change * t / (piece->to - piece->from);
        return s;
    }
    const double spread = 1.0 + m * m;
    s.height += change * duct_angle(piece, t) / piece->turn;
    s.curvature -= change * 8.0 * piece->c * piece->c * m / (spread * spread) / piece->turn;
    return s;
}

double path_piece_alpha_rate(const path_piece *piece, double t)
{
    const piece_shape s = path_piece_shape(piece, t);
    return hypot(s.curvature / (1.0 + s.slope * s.slope), piece->bend_rate);
}

kl_index path_piece_panels(const path_piece *piece, double t, double t_to)
{
    const double change = fabs(2.0 * piece->c * (t_to - t));
    return change < 31.5 ? 1 + (kl_index)(2.0 * change)
                         : 64; /* profile_build refuses steeper ones */
}

typedef double piece_integrand(const path_piece *piece, double t);

static double integrate(const path_piece *piece, double t_to, piece_integrand *f)
{
    const kl_index panels = path_piece_panels(piece, 0.0, t_to);
    const double half = 0.5 * t_to / (double)panels;
    double sum = 0.0;
    for (kl_index k = 0; k < panels; k++) {
        const double middle = half * (double)(2 * k + 1);
        for (int g = 0; g < PATH_GAUSS; g++) {
            sum += path_gauss_weight[g] * f(piece, middle + half * path_gauss_place[g]);
        }
    }
    return half * sum;
}

/* The centroid's curvature keeps the duct's sign unless the offset is about half the radius: 4 |c m do| < |T|
 * (from y'' = 2c (1 - 4 c m do/((1+m^2)^2 T))). */
static bool turns_one_way(const path_piece *piece)
{
    const double h = piece->to - piece->from;
    const double steepest = fmax(fabs(piece->m0), fabs(piece->m0 + 2.0 * piece->c * h));
    const double change = piece->offset_to - piece->offset_from;
    return 4.0 * fabs(piece->c * steepest * change) < fabs(piece->turn);
}

double path_piece_alpha(const path_piece *piece, double t)
{
    if (path_piece_is_straight(piece)) {
        return fabs(piece->bend_rate) * t;
    }
    if (!is_exact_zero(piece->bend_rate) || (has_offset_change(piece) && !turns_one_way(piece))) {
        return integrate(piece, t, path_piece_alpha_rate);
    }
    if (!has_offset_change(piece)) {
        return fabs(duct_angle(piece, t));
    }
    return fabs(path_angle_between(path_piece_slope(piece, 0.0), path_piece_slope(piece, t)));
}

double path_piece_length_rate(const path_piece *piece, double t)
{
    return hypot(1.0, path_piece_slope(piece, t));
}

double path_piece_length(const path_piece *piece, double t)
{
    if (path_piece_is_straight(piece)) {
        return t * path_piece_length_rate(piece, 0.0);
    }
    return integrate(piece, t, path_piece_length_rate);
}
