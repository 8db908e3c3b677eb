/* state.h - the structure as it stands and what it carries, cause by cause.
 *
 * What one cause has brought is a *column*: one block of doubles with the movements of nodes, the forces of supports,
 * bearings, rows and tendons and the courses along elements. Columns are never written after they are recorded: an
 * increment that changes a cause makes a new block, and one that does not shares the old one. Blocks that were never
 * recorded (between one step of time and the next) are used again, so that memory does not grow with their number.
 * Creep has a column for each kind of cause whose stresses creep.
 * SPDX-License-Identifier: MIT */
#ifndef KERNLINE_STATE_H
#define KERNLINE_STATE_H

#include "action.h"
#include "assemble.h"
#include "force.h"
#include "kernline/results.h"
#include "recover.h"

/* Offsets into a column's block, in doubles. */
typedef struct column_layout {
    size_t node;     /* 3 a node: movement since the node first stood, global axes */
    size_t reaction; /* 3 a node of the model: the supports' force on the structure */
    size_t start; /* 3 an element: local movement of its flexible start since the member was set */
    size_t
        turn; /* 2 a member: how its two nodes turned since it was set, and its rigid ends with them */
    size_t field;   /* FIELD_COUNT at each quadrature point of each element */
    size_t row;     /* 1 a row of posts: force, compression + */
    size_t bearing; /* 3 a bearing: the base's force on the node */
    size_t tendon;  /* 1 at each trace point of each tendon: force in the group */
    size_t size;
} column_layout;

typedef struct cause_column {
    kl_cause_kind kind;
    kl_index
        load_case; /* which case brought it, KL_NONE for the construction's own causes; of creep: the source */
    double *data;  /* NULL: nothing yet */
    bool recorded; /* a record shares the block */
} cause_column;

/* A set of columns: the state after a step, or what a load case alone brings. */
typedef struct column_set {
    cause_column *columns;
    kl_index count;
} column_set;

typedef enum row_phase { ROW_ABSENT, ROW_READY, ROW_SET, ROW_GONE } row_phase;

typedef struct row_state {
    row_phase phase;
    bool bears;
    double virtual_force; /* f0 + k c: the force when it bears, -k times the gap when it does not */
} row_state;

/* One direction in which a support holds. */
typedef struct hold_state {
    kl_index support;
    int direction;
    kl_hold_kind kind;
    double stiffness;
    bool active; /* the support stands and has not been freed */
    bool bears;  /* push: in contact */
    double gap;  /* push: m, open */
} hold_state;

/* One direction of a bearing. */
typedef struct joint_state {
    kl_index bearing;
    int direction;
    kl_hold_kind kind;
    double stiffness;
    bool bears;
    double gap;
} joint_state;

typedef struct tendon_state {
    kl_tendon_phase phase;
    force_curve curve; /* as seated, one tendon */
    double uniform;    /* N in one tendon: change since, the same all along, while ungrouted */
} tendon_state;

typedef struct member_state {
    bool stands;
    double birth; /* s */
} member_state;

/* A piece of form between two neighbouring carriers, for one line of cast members. */
typedef struct form_span {
    double from, to;         /* x, overhang included */
    const kl_index *members; /* of the line */
    kl_index member_count;
    kl_index row[2];  /* carriers: a row (index into mesh->rows) … */
    kl_index node[2]; /* … or a node */
    double share[2];  /* N each carrier got from this span */
    bool struck;
} form_span;

/* What carried fresh concrete, at the moment of its pour. */
typedef struct form_carrier {
    double x;      /* m */
    kl_index row;  /* index into mesh->rows, or KL_NONE … */
    kl_index node; /* … and then a node that stood already */
    double force;  /* N, wet weight on it */
    double moved;  /* m up: what the pour moved the node, or what the row's feet stand on */
} form_carrier;

/* One line of members poured together and what carried it, by rising x. */
typedef struct form_pour {
    struct form_pour *before; /* the pour before, NULL: this is the first */
    kl_index step;            /* of the cast */
    double from, to;          /* x of the ends of the concrete */
    const kl_index *members;  /* of the line */
    kl_index member_count;
    form_carrier *carriers; /* two or more */
    kl_index carrier_count;
} form_pour;

typedef struct stage_state {
    double time; /* s */
    column_set set;
    bool *element_on;
    bool (*hinge)[2];
    bool *node_stands; /* an element that stands meets the node … */
    bool *node_turns;  /* … and one of them resists turning there */
    row_state *rows;
    hold_state *holds;
    kl_index hold_count;
    joint_state *joints;
    kl_index joint_count;
    tendon_state *tendons;
    member_state *members;
    form_span *spans;
    size_t span_count, span_capacity;
    form_pour *pour;     /* the last, with all before it, those of members removed since too */
    double *case_factor; /* how much of each load case is on */
    double *load_on; /* of each load of each case: loads go with the member or node they stand on */
    kl_index *first_load; /* of each case, in load_on; case_count + 1 entries */
} stage_state;

/* Layout for a mesh and its tendons. `first_trace` gets tendon_count + 1 entries: where each tendon's points begin. */
column_layout
state_layout(const frame_mesh *mesh, const tendon_trace *traces, kl_index *first_trace);

/* A state in which nothing stands yet. */
kl_status state_create(const frame_mesh *mesh, arena *a, stage_state *state);

/* Set node_stands and node_turns after elements or hinges have changed. */
void state_count_nodes(const frame_mesh *mesh, stage_state *state);

/* The column of a cause, made when it is new. NULL: no memory. Arrays grow in the arena. */
cause_column *state_column(arena *a, column_set *set, kl_cause_kind kind, kl_index load_case);

/* Does a column belong to what is asked: all, a kind, or everything a case brought? */
bool state_matches(const cause_column *c, kl_cause cause);

/* Sum of one entry over the columns that match. */
double state_sum(const column_set *set, kl_cause cause, size_t entry);

#endif
