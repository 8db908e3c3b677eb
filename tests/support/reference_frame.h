/* reference_frame.h - a second plane-frame solver for tests, written from docs/mechanics.md and nothing else.
 *
 * It shares no code and no method with solver/: displacement elements with bubbles (the program's are flexibility
 * based), one dense elimination with multipliers for everything that holds (the program eliminates), equivalent forces
 * of tendons at Gauss points. A *tie* is whatever stands between two nodes, or a node and the ground: a support, a
 * spring, a bearing, a row of posts. Lengths in m, forces in N, angles in rad.
 * SPDX-License-Identifier: MIT */
#ifndef KERNLINE_REFERENCE_FRAME_H
#define KERNLINE_REFERENCE_FRAME_H

#include <stdbool.h>

enum {
    REF_CAUSES = 8,
    REF_NODES = 170,
    REF_MEMBERS = 8,
    REF_ELEMENTS = 160,
    REF_TIES = 48,
    REF_TENDONS = 3,
    REF_PIECES = 12,
    REF_LOADS = 64,
    REF_BUBBLES = 6,
    REF_LOCAL = 6 + 3 * REF_BUBBLES
};

typedef enum ref_line { REF_CENTROID, REF_TOP, REF_BOTTOM } ref_line;

/* A section at a station: about its own centroid; `centroid` is above the member's line. */
typedef struct ref_cut {
    double area, centroid, inertia, top, bottom; /* top, bottom: y of the faces from the line */
    double shear;                                /* shear area; 0: rigid in shear */
} ref_cut;

typedef struct ref_member {
    int from, to;
    double length, cosine, sine;
    double rigid[2];
    double diameter;        /* a circle, or a rectangle: */
    double width, depth[2]; /* depth at start and end, linear between */
    double peak_at, peak;   /* a depth on the way when peak_at > 0 */
    double flange, web;     /* a tee when flange > 0: its thickness; width of the web */
    ref_line line;
    bool shear;         /* shear flexible */
    double modulus;     /* constant, or 0: by strength and age */
    double strength;    /* Pa at 28 days */
    double cast_day;    /* for the age */
    double shear_ratio; /* E/G */
    double unit_weight; /* N/m^3 */
    double expansion;   /* 1/K */
    bool stands;
    double base[REF_NODES]; /* height of each of its nodes when it was set */
    int first, count;       /* elements */
} ref_member;

typedef struct ref_element {
    int member, node[2];
    double from, to;           /* stations of the flexible part */
    double arm[2];             /* from the node to the end of the flexible part, along the member */
    double end[REF_CAUSES][6]; /* on the element's ends: along, across, moment, start then end */
    double stress[2][2];       /* end, face (0 top); sums of increments */
    double tendon[REF_TENDONS][2]; /* present force in one tendon at the ends */
} ref_element;

/* One parabola of a tendon's duct: y = y0 + slope (x - from) + bend (x - from)^2, y above the member's line. */
typedef struct ref_piece {
    double from, to, y0, slope, bend;
    double shift[2]; /* of the tendon's centroid at the ends, upward; linear in the angle between */
} ref_piece;

typedef enum ref_phase { REF_EMPTY, REF_STRESSED, REF_GROUTED } ref_phase;

typedef struct ref_tendon {
    int member, count, piece_count;
    double area, modulus; /* of one tendon */
    double duct;          /* diameter */
    double friction, wobble, jack[2], set[2];
    bool in_turn; /* pulled and seated at the start, then at the end; else at both at once */
    ref_piece pieces[REF_PIECES];
    ref_phase phase;
    double gained[REF_CAUSES]; /* by following the concrete, one tendon */
    /* Found by reference_tendon_pull. */
    double angle[REF_PIECES + 1], way[REF_PIECES + 1], still[2];
    double length;
} ref_tendon;

/* Force `f` (+ along `along` on node a, against it on node b), travel of a against it. */
typedef struct ref_tie {
    int a, b; /* b < 0: the ground */
    double along[3];
    double lever;      /* along's turn of node b is this much more: a rigid arm there */
    double compliance; /* 0: rigid */
    bool one_sided, stands, closed;
    double force[REF_CAUSES];
    double gap;  /* when open */
    double seat; /* f0 of a row of posts */
    double station;
} ref_tie;

typedef struct ref_line_load {
    int member;
    double from, to, start,
        end; /* N/m of line, global direction below; `weight`: times unit weight and area */
    double gx, gy;
    bool weight;
    int cause;
} ref_line_load;

/* What one increment puts on. */
typedef struct ref_step {
    int cause; /* of closing gaps and of tendons that follow */
    double day;
    double nodal[REF_CAUSES][REF_NODES][3];
    ref_line_load lines[REF_LOADS];
    int line_count;
    double moved[REF_TIES]; /* a support's movement along its direction */
    double warm[REF_MEMBERS], gradient[REF_MEMBERS];
    double pull[REF_TENDONS];    /* times the tendon's force after seating */
    double uniform[REF_TENDONS]; /* and this much the same all along, one tendon */
    double own
        [REF_TENDONS]; /* of a tendon being stressed: fraction of its own shortening that it follows */
    bool being_stressed[REF_TENDONS];
} ref_step;

typedef struct ref_frame {
    double x[REF_NODES], y[REF_NODES];
    double moved[REF_NODES][3];
    double base[REF_NODES][3]; /* when the node first stood */
    int node_count;
    ref_member members[REF_MEMBERS];
    int member_count;
    ref_element elements[REF_ELEMENTS];
    int element_count;
    ref_tendon tendons[REF_TENDONS];
    int tendon_count;
    ref_tie ties[REF_TIES];
    int tie_count;
    bool gross;    /* sections gross throughout */
    bool hole_own; /* a hole has an inertia of its own */
} ref_frame;

int reference_node(ref_frame *f, double x, double y);
/* Fill m->length and direction; elements end at each of `breaks` (rising, with 0 and the length) and are at most `most`
 * long. nodes[i]: node at breaks[i], or -1 to make one; filled. */
int reference_member(
    ref_frame *f, ref_member m, const double *breaks, int count, int *nodes, double most);
int reference_tie(
    ref_frame *f, int a, int b, double x, double y, double turn, double compliance, bool one_sided);

ref_cut reference_cut(const ref_member *m, double x);
double reference_modulus(const ref_member *m, double day);
/* Rigidity about the line of the section that carries increments: EA, -ES, EI. */
void reference_rigidity(
    const ref_frame *f, int member, double x, bool left, double day, double d[3]);

/* Solve one increment and add it to everything. Fails the test when contact is not found. */
void reference_solve(ref_frame *f, ref_step *s);

/* (n - 1)/(2n) of what the whole group's pull would take from a tendon that followed: counted once, so that the loss
 * does not lessen itself. Found with a tendon that follows a little. */
double reference_own_loss(const ref_frame *f, const ref_step *s, int tendon);

typedef struct ref_section_state {
    double axial, shear, moment; /* total */
    double primary_axial, primary_shear, primary_moment;
    double top, bottom; /* stresses */
    double drop;        /* deflection since the member's set */
    double sway, rotation;
} ref_section_state;
/* Of one cause (-1: all) just right or left of a station that is an element's end. */
ref_section_state reference_at(const ref_frame *f, int member, double x, bool left, int cause);
double reference_tendon_at(const ref_frame *f, int tendon, double x);
double reference_tie_force(const ref_tie *t);
/* Direction at node a (end 0) or b. */
double reference_along(const ref_tie *t, int end, int k);

/* ---- reference_tendon.c ---- */

/* Path of the tendon's centroid: y, slope dy/dx; *duct (may be NULL): y of the duct's centre. */
double reference_path(const ref_tendon *t, double x, bool left, double *slope, double *duct);
/* Friction, seating: after it reference_pull gives the force after seating. */
void reference_tendon_pull(ref_tendon *t);
double reference_pull(const ref_tendon *t, double x);

#endif
