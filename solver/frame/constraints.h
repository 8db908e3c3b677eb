/* constraints.h - which unknowns exist, which are held, which follow another.
 *
 * An unknown is 3*node + direction in the node's own axes (turned where an inclined roller stands). It is free,
 * held (its movement is given), absent (nothing there has stiffness for it: an identity row) or a slave (a
 * bearing makes it follow its master: its row folds into the master's). Held, absent and slave unknowns keep
 * their place in the matrix, so supports and contacts change values and never the pattern.
 * SPDX-License-Identifier: MIT */
#ifndef KERNLINE_CONSTRAINTS_H
#define KERNLINE_CONSTRAINTS_H

#include "mesh.h"

typedef enum unknown_kind {
    UNKNOWN_FREE,
    UNKNOWN_HELD,
    UNKNOWN_ABSENT,
    UNKNOWN_SLAVE
} unknown_kind;

/* A support's hold on one unknown (node axes). */
typedef struct frame_hold {
    kl_index node;
    int direction;
    bool held;        /* rigidly; else by the spring */
    double stiffness; /* 0: no spring */
} frame_hold;

/* A bearing's hold between two nodes in one direction (global axes). */
typedef struct frame_joint {
    kl_index node, base;
    int direction;
    bool joined;
    double stiffness;
} frame_joint;

/* A row of posts that bears: a vertical spring between two nodes, or to the ground (foot KL_NONE). */
typedef struct frame_strut {
    kl_index top, foot;
    double stiffness;
} frame_strut;

typedef struct node_axis {
    double cosine, sine;
} node_axis;

/* The structure at one moment, as the solver sees it. */
typedef struct frame_structure {
    const bool *on;         /* elements that stand */
    const bool (*hinge)[2]; /* hinges as they are now */
    const frame_hold *holds;
    kl_index hold_count;
    const frame_joint *joints;
    kl_index joint_count;
    const frame_strut *struts;
    kl_index strut_count;
    const bool *stands; /* by node, for fixtures of the mesh: they are there; NULL: none is */
} frame_structure;

typedef struct unknown_map {
    unsigned char *kind; /* unknown_kind; 3 a node */
    kl_index *master;    /* of a slave; otherwise the unknown itself */
    node_axis *axis;     /* of each node */
    bool *plain;         /* node: all three free, axes upright: the fast way */
} unknown_map;

/* Arrays for a mesh; node axes from the supports' slopes, which agree at a node. @return KL_NO_MEMORY. */
kl_status constraints_create(const frame_mesh *mesh, arena *a, unknown_map *map);

/* Set the map for a structure. */
void constraints_update(const frame_mesh *mesh, const frame_structure *structure, unknown_map *map);

/* Turn vectors of all nodes (3 a node) between global axes and node axes, in place. */
void constraints_to_node_axes(const frame_mesh *mesh, const unknown_map *map, double *v);
void constraints_to_global(const frame_mesh *mesh, const unknown_map *map, double *v);

#endif
