/* path_piece.h - the geometry of one piece of a tendon's path: shape, angle and length from its start.
 *
 * The duct is y = y0 + m0 t + c t^2, t = X - from. The tendon's centroid lies o(t) above it, o going from offset_from
 * to offset_to linearly in the duct's angle (in t where the duct is straight).
 * SPDX-License-Identifier: MIT */
#ifndef KERNLINE_PATH_PIECE_H
#define KERNLINE_PATH_PIECE_H

#include "profile.h"

typedef struct piece_shape {
    double duct, duct_slope;
    double height, slope, curvature; /* of the tendon's centroid: y, dy/dX, d2y/dX2 */
} piece_shape;

/* What `turn` must be: the piece's maker sets it, for everything below divides by it again and again. */
double path_piece_turn(const path_piece *piece);

/* Shape at t = 0 … to - from. */
piece_shape path_piece_shape(const path_piece *piece, double t);
/* Parts of it that take no arc tangent: the duct's height and the centroid's slope. */
double path_piece_duct(const path_piece *piece, double t);
double path_piece_slope(const path_piece *piece, double t);
/* ds/dX */
double path_piece_length_rate(const path_piece *piece, double t);

/* Angle turned through from t = 0, rad: integral of sqrt(dtheta^2 + dpsi^2). Closed form without a bend in plan. */
double path_piece_alpha(const path_piece *piece, double t);
/* dalpha/dX */
double path_piece_alpha_rate(const path_piece *piece, double t);

/* True length from t = 0, m. */
double path_piece_length(const path_piece *piece, double t);

/* Is the tendon's centroid straight in elevation, so that angle and length grow evenly with X? */
bool path_piece_is_straight(const path_piece *piece);

/* Into how many equal panels t … t_to must be cut so that 12 Gauss points integrate smooth functions of slope to
 * rounding: the slope changes by at most a half in a panel, far from the branch points at slope = +-i. */
kl_index path_piece_panels(const path_piece *piece, double t, double t_to);

/* Angle between two slopes, rad, without cancellation: atan(b) - atan(a). */
double path_angle_between(double slope_a, double slope_b);

/* 12-point Gauss-Legendre rule on -1 … 1 (exact for polynomials of degree 23). */
#define PATH_GAUSS 12
extern const double path_gauss_place[PATH_GAUSS];
extern const double path_gauss_weight[PATH_GAUSS];

#endif
