/* audit_parts.h - what the files of the audit share: free bodies, what acts on them, running totals.
 *
 * Forces are in global axes; totals' moments are about the middle of the model, bodies' about their start.
 * SPDX-License-Identifier: MIT */
#ifndef KERNLINE_AUDIT_PARTS_H
#define KERNLINE_AUDIT_PARTS_H

#include "result_store.h"

/* The flexible part of a standing member between two neighbouring model nodes on it. */
typedef struct audit_body {
    kl_index member;
    kl_index first, last; /* elements */
    kl_index node[2];     /* model nodes */
    double rigid[2];      /* m from the node to the body */
    double from, to;      /* stations */
    double load[3];       /* what acts on it between its ends; moment about its start */
} audit_body;

typedef struct audit_work {
    const kl_results *results;
    const kl_model *model;
    const frame_mesh *mesh;
    const state_record *record;
    kl_state state;
    double *printed; /* the sum of columns that the state asks for: one block of run.layout */
    audit_body *bodies;
    kl_index *first_body; /* of each member; member_count + 1 entries */
    double *node;         /* 3 a model node: the sum of all that acts on it */
    kl_index *first_load; /* of each case; case_count + 1 entries */
    double *on;           /* of each load: how much of it is on */
    double weight_on;     /* and of the weight that construction brought */
    double *wet;          /* of each row: wet shares that forms still put on it, N */
    kl_point middle;
    double size; /* m, diagonal of the model */
    double load[3], reaction[3];
    double form
        [3]; /* forms: pressure and shares (must cancel); couples of bearings' ends that stand a hair apart */
    double largest_force, largest_moment; /* of all that was put on bodies and nodes */
    double force_at_hand;                 /* N: what errors are held against */
    double weight;                        /* N of all members that stand */
} audit_work;

/* Does what a cause and a case brought belong to what is asked? */
bool audit_belongs(kl_cause wanted, kl_cause_kind kind, kl_index load_case);

/* audit_applied.c: fill `on` and `weight_on`. */
kl_status audit_applied(audit_work *w);

/* audit_body.c: cut the standing members into bodies. */
kl_status audit_cut(audit_work *w);
/* A force and a couple at a station: to the body there, to the node there, or by statics to the node of the rigid part
 * it falls on; axial members hand forces to their ends as simple beams. @param total NULL: internal, not totalled. */
void audit_force(audit_work *w, kl_index member, double station, const double f[3], double *total);
/* A force and a couple at a model node. */
void audit_at_node(audit_work *w, kl_index node, const double f[3], double *total);
/* Add to totals only. */
void audit_total(const audit_work *w, kl_point at, const double f[3], double *total);
/* A resultant on one body (moment about its start), totalled as well. */
void audit_on_body(audit_work *w, audit_body *body, const double f[3], double *total);
/* The mesh's station within rounding of `station`, else `station` itself. */
double audit_snap(const audit_work *w, kl_index member, double station);
/* Errors of nodes and bodies from the printed actions at the ends; forces in N, moments in N·m. */
typedef struct audit_worst {
    double force, moment;
} audit_worst;
audit_worst audit_balance_bodies(audit_work *w); /* adds the bodies' ends to the nodes */
audit_worst audit_balance_nodes(const audit_work *w);

/* audit_load.c: put everything that acts on bodies, nodes and totals. */
kl_status audit_load_all(audit_work *w);
/* Weight of a member between two stations, times a factor (negative: a form that presses upward). */
void audit_weigh(
    audit_work *w, kl_index member, double from, double to, double factor, double *total);

/* audit_forms.c: pressure and shares of the forms still in place (first: they fill `wet`), forces of rows. */
kl_status audit_press_forms(audit_work *w);
void audit_push_rows(audit_work *w);

#endif
