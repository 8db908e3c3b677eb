/* force.h - the force along a tendon: friction, jacking from one end or two, seating.
 *
 * With phi(X) = mu alpha(X) + K s(X) every branch of a force curve is C exp(-phi) (pulled from the start, or let
 * back from the end), C exp(+phi) (the other way round), plus what was added since, the same along the branch.
 * SPDX-License-Identifier: MIT */
#ifndef KERNLINE_FORCE_H
#define KERNLINE_FORCE_H

#include "profile.h"

typedef struct force_piece {
    double from, to; /* X */
    double scale;    /* C, N in one tendon */
    int sign;        /* -1, +1: of phi in the exponent */
    double add;      /* N, changes since (elastic shortening, losses), the same along the piece */
} force_piece;

typedef struct force_curve {
    const force_piece *pieces; /* from the first anchor to the last, without gaps */
    kl_index count;
} force_curve;

/* What a jack found, and the part of the tendon that it drew. */
typedef struct force_draw {
    force_curve before; /* count 0: slack */
    double from, to;    /* X */
} force_draw;

/* What a stressing did, apart from the structure's answer. */
typedef struct force_record {
    double pull;         /* N, of the jacks, outside their anchors */
    double force_at[2];  /* after seating at start, end, when all is done */
    double seated_at[2]; /* when that end had just seated; NAN where it does not */
    /* m, at start, end, before seating: movement of that anchor's place in the tendon against the concrete, without
     * `grip`; 0 where nothing was pulled. at_reference: how much of it had happened at the `reference` force */
    double elongation[2];
    double at_reference[2];
    force_draw draw[2];       /* of the ends that were pulled */
    double seating_length[2]; /* m along X; NAN where not seated */
    double still[2];          /* X of zero movement; NAN */
    bool reaches_far_end;
    force_curve unseated; /* as the jacks alone leave it, had no anchor seated on the way */
} force_record;

/* Stress one tendon to `share` of its jacking force, as its `jack` says: `start then end` stresses and seats at the
 * start, pulls the end, seats at the end; where the tendon already carries force (locked) the force becomes the
 * larger of what is locked and the new curve. Seating reverses friction exactly; it runs to the point where the
 * movement is used up, through steps; to the far end when the tendon is short; zones from two ends that would
 * meet share a still point.
 * @param locked the curve now in the tendon, NULL: none.
 * @param before the curve before the last seating; after: when all is done. Arena-allocated.
 * @return KL_BAD_MODEL with a diagnostic when the set would leave no force. */
kl_status force_stress(const kl_model *model,
                       kl_index tendon,
                       const tendon_path *path,
                       double share,
                       const force_curve *locked,
                       arena *a,
                       kl_diags *diags,
                       force_curve *before,
                       force_curve *after,
                       force_record *record);

/* Force at X, N in one tendon. At a jump `side` chooses. */
double force_at(const kl_tendon *tendon,
                const tendon_path *path,
                const force_curve *curve,
                double x,
                kl_side side);

/* All X where the curve or the path has a kink or a jump, ascending, inside and at the ends. */
kl_status force_breaks(
    const tendon_path *path, const force_curve *curve, arena *a, const double **x, kl_index *count);

#endif
