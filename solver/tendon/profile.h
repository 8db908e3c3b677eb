/* profile.h - the path of a tendon: from the rows of its profile to height, slope, angle and length anywhere.
 *
 * Symbols: X station along the tendon's members (running on from one to the next), y height above the member's
 * line, theta = atan(dy/dX) of the tendon's centroid, alpha(X) = integral of sqrt(dtheta^2 + dpsi^2) from the
 * start (absolute, never cancelling; psi: plan angle of `bend`) with a step at each corner of the duct, s(X) true
 * length from the start. The slight kinks that the offset's linear law leaves at flat points are in slope and not in
 * alpha: the duct does not bend the tendon there.
 * The duct's centre is straight or parabolic between rows; the tendon's centroid is offset from it toward the
 * inside of each curve: fully at flat points, not at all at anchors and inflections, linearly in the piece's
 * angle between.
 * SPDX-License-Identifier: MIT */
#ifndef KERNLINE_PROFILE_H
#define KERNLINE_PROFILE_H

#include "arena.h"
#include "kernline/model.h"

typedef struct path_piece {
    double from, to;  /* X */
    double y0, m0, c; /* duct: y = y0 + m0 (X-from) + c (X-from)^2 */
    double offset_from,
        offset_to;        /* m, signed: tendon's centroid above the duct's centre at the two ends */
    double turn;          /* rad, of the duct from one end to the other: path_piece_turn */
    double bend_rate;     /* dpsi/dX */
    double alpha, length; /* at `from`, after the corner there */
    double corner;        /* angle step at `from`, rad >= 0 (between straight pieces) */
} path_piece;

typedef struct tendon_path {
    const path_piece *pieces; /* a bend's ends also divide pieces, and so do members' ends */
    kl_index piece_count;
    double end;           /* X of the last anchor */
    double begin;         /* X of the first anchor */
    double alpha, length; /* totals */
} tendon_path;

typedef struct path_point {
    double duct;      /* m, duct's centre above the member's line */
    double height;    /* m, tendon's centroid above the member's line */
    double slope;     /* dy/dX of the tendon's centroid */
    double curvature; /* d2y/dX2 */
    double alpha;     /* rad from the start */
    double length;    /* m from the start */
} path_point;

/* Turn the rows into pieces. Errors (too few or too many facts for a piece: names the row and proposes one) go to
 * diags with the row's origin. The model's members, sections are valid. */
kl_status
profile_build(const kl_model *model, kl_index tendon, arena *a, kl_diags *diags, tendon_path *path);

/* The path at X; at a corner `side` chooses. Angle and length are exact to rounding (closed form or quadrature). */
path_point profile_at(const tendon_path *path, double x, kl_side side);

/* The piece that holds X; at the border of two `side` chooses. */
const path_piece *profile_piece_at(const tendon_path *path, double x, kl_side side);

/* The duct's height alone, without angle and length. */
double profile_duct_at(const tendon_path *path, double x, kl_side side);

/* Least radius of curvature of piece i, m; INFINITY for a straight one. */
double profile_least_radius(const path_piece *piece);

#endif
