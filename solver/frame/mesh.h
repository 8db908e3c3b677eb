/* mesh.h - the frame cut into elements: where members begin, end, meet, change or are loaded.
 *
 * Every member is meshed, whenever it is built, so that the pattern of the matrix is one and the same in all
 * stages. Element ends fall on nodes, ends of rigid parts, hinges, section rows, load ends, posts (on the
 * carried and on the carrying member), tendon rows and kinks of tendon forces, and are never farther apart
 * than the member's `mesh`. Mesh nodes 0 … model nodes-1 are the model's nodes.
 * SPDX-License-Identifier: MIT */
#ifndef KERNLINE_MESH_H
#define KERNLINE_MESH_H

#include "arena.h"
#include "member_section.h"
#include "quadrature.h"

/* Gross section at a quadrature point, from the member's line (y up from the line). */
typedef struct mesh_section {
    double area;        /* m^2 */
    double inertia;     /* m^4 about the centroid */
    double centroid;    /* m */
    double top, bottom; /* m, extreme fibres; NAN for bare sections without them */
    double depth;       /* m; NAN */
    double shear_area;  /* m^2; INFINITY: rigid in shear */
} mesh_section;

typedef struct mesh_element {
    kl_index member;
    kl_index node[2];
    double from, to;  /* member stations of the flexible part, m */
    double rigid[2];  /* m from the node to the flexible part at start and end */
    bool hinge[2];    /* the model's hinges; stages open and close more */
    kl_index section; /* first of QUADRATURE_POINTS entries in mesh->sections */
} mesh_element;

typedef struct mesh_member {
    kl_index first, count; /* elements, in order from start to end */
    double length;
    double cosine, sine; /* of the member's line */
} mesh_member;

/* One row of posts. */
typedef struct mesh_row {
    kl_index falsework, row;
    kl_index top;     /* mesh node on the carried member */
    kl_index foot;    /* mesh node on the carrying member, KL_NONE: ground */
    double stiffness; /* N/m of the whole row */
    double x;         /* m */
} mesh_row;

typedef struct frame_mesh {
    const kl_model *model;
    quadrature rule;
    mesh_member *members;
    mesh_element *elements;
    kl_index element_count;
    kl_point *nodes;
    kl_index node_count;
    bool *fixture; /* by node of the model: no member meets it, but a bearing does */
    mesh_section *sections;
    mesh_row *rows;
    kl_index *first_row; /* of each falsework; falsework_count + 1 entries */
    kl_index row_count;
} frame_mesh;

/* A place where an element should end for a reason that the model does not show (kinks of tendon forces); it is left
 * out just beside another place. */
typedef struct mesh_break {
    kl_index member;
    double station;
} mesh_break;

/* Cut the frame. Everything is allocated in `a`. @return KL_BAD_MODEL (with a diagnostic) when a row has no
 * ground or member to stand on or falls into a rigid end, KL_TOO_LARGE, KL_NO_MEMORY. */
kl_status mesh_create(const kl_model *model,
                      const mesh_break *breaks,
                      kl_index break_count,
                      arena *a,
                      kl_diags *diags,
                      frame_mesh *out);

/* The mesh node at a member's station, or KL_NONE when no element ends there (inside NEAR_STATION). */
kl_index mesh_node_at(const frame_mesh *m, kl_index member, double station);
/* The element that holds a station; at an element's end `side` chooses. Stations in a rigid part give the
 * element next to it. */
kl_index mesh_element_at(const frame_mesh *m, kl_index member, double station, kl_side side);
/* Station of quadrature point p of an element. */
double mesh_point_station(const frame_mesh *m, kl_index element, int p);
/* Does a section of the element give way in shear? Where none does its shear strain is 0. */
bool mesh_gives_way_in_shear(const frame_mesh *m, kl_index element);
/* Is the member upright (within a degree or so of vertical)? Such a member is never poured on falsework. */
bool mesh_is_upright(const frame_mesh *m, kl_index member);

#endif
