/* mesh_stops.h - the stations where elements must end: one list, sorted by member and station, merged: time n log n.
 * SPDX-License-Identifier: MIT */
#ifndef KERNLINE_MESH_STOPS_H
#define KERNLINE_MESH_STOPS_H

#include "mesh.h"

#define MESH_LIMIT_ELEMENTS 2000000 /* some 3 GB with all that belongs to them */

typedef struct mesh_stop {
    kl_index member;
    kl_index node; /* model node here, or KL_NONE */
    double station;
    bool is_kink; /* a mesh_break: good to have, not needed */
} mesh_stop;

/* Start with {0}; free `items` with mem_free. */
typedef struct mesh_stops {
    mesh_stop *items;
    size_t count, capacity;
} mesh_stops;

/* Collect the stops of a mesh whose members are measured. @return KL_TOO_LARGE, KL_NO_MEMORY. */
kl_status mesh_stops_collect(const frame_mesh *mesh,
                             const mesh_break *breaks,
                             kl_index break_count,
                             mesh_stops *stops);

/* Where a member that is not upright passes a place, m. */
double mesh_station_at_x(const frame_mesh *mesh, kl_index member, double x);

#endif
