/* profile_rows.h - the rows of a profile as points in the member's axes.
 * SPDX-License-Identifier: MIT */
#ifndef KERNLINE_PROFILE_ROWS_H
#define KERNLINE_PROFILE_ROWS_H

#include <stdbool.h>

#include "profile.h"

typedef struct profile_knot {
    double x; /* X, station along the tendon's members */
    double y; /* m above the member's line; NAN: to be found (inflection) */
    kl_profile_row_kind kind;
    bool straight; /* the piece before it is straight */
    kl_origin origin;
} profile_knot;

/* Turn the rows' ordinates into y with the section at each row's own station. That the rows rise, lie on the members
 * and stand between two anchors has been checked when the tendon was added (model/build_tendon).
 * @param knots row_count of them, out.
 * @return KL_BAD_MODEL with profile-no-datum; all rows are looked at. */
kl_status
profile_rows_read(const kl_model *model, kl_index tendon, kl_diags *diags, profile_knot *knots);

/* Add an error about a row: "<before>`high` at 22 ft<after>". */
void profile_rows_complain(const kl_model *model,
                           kl_diags *diags,
                           const char *name,
                           const profile_knot *knot,
                           const char *before,
                           const char *after);

/* The word of a row's kind: "high". Static text. */
const char *profile_row_word(kl_profile_row_kind kind);

/* A place that moves along a tendon: near the place before, its member is found at once. */
typedef struct profile_walk {
    const kl_model *model;
    const kl_tendon *tendon;
    kl_index at;  /* which of the tendon's members, 0 to begin with */
    double start; /* where it begins along the tendon, 0 to begin with */
} profile_walk;

/* The member at x along the tendon and the station on it. At a joint the member before it (KL_LEFT) or after it (KL_RIGHT). */
kl_index profile_walk_to(profile_walk *walk, double x, kl_side side, double *station);

/* Write a station as the user sees it ("29 ft"). */
#define PROFILE_PLACE 48
void profile_place(const kl_model *model, double x, char text[PROFILE_PLACE]);

#endif
