/* elevation.h - members in one line seen from the side, heights stretched: concrete, centroid, columns, supports, falsework.
 *
 * Stations run on from one member to the next, as those of a tendon that runs through them; heights are above the members' line.
 * SPDX-License-Identifier: MIT */
#ifndef KERNLINE_ELEVATION_H
#define KERNLINE_ELEVATION_H

#include "arena.h"
#include "kernline/results.h"
#include "plot.h"

typedef struct elevation {
    kl_results *results;
    kl_index *members;
    double *begin; /* m, of each member in the line */
    kl_index member_count;
    double length;                             /* m */
    double *station, *top, *bottom, *centroid; /* shown units; NAN where a section says no height */
    int count;
    double low, high; /* shown: of concrete and line */
} elevation;

/* One member, or with `joined` all members that tendons join to it. Allocated in the arena. */
kl_status
elevation_gather(arena *a, kl_results *results, kl_index member, bool joined, elevation *out);
/* Where the tendon's station 0 lies in the elevation, m; NAN: not all of its members are here, one after the other. */
double elevation_offset(const elevation *e, kl_index tendon);

/* Axes in a region; `below` is the share of the height that is left under the concrete, `beyond` that of the length at both ends. */
plot elevation_axes(drawing *d, const elevation *e, label_box region, double below, double beyond);
/* How many times heights are stretched. */
double elevation_stretch(const plot *p, const elevation *e);

/* Concrete from top to bottom. */
void elevation_concrete(const plot *p, const elevation *e);
void elevation_centroid(const plot *p, const elevation *e);
/* Columns and other members that meet these, as far as there is room, and supports that hold in the state (NULL: all that are
 * declared). */
void elevation_columns(const plot *p, const elevation *e, const kl_state *state);
/* Posts that stand in the state (NULL: none). */
void elevation_posts(const plot *p, const elevation *e, const kl_state *state);

#endif
