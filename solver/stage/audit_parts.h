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

/* A running total of forces and moments with what rounding has taken from it: of a hundred thousand reactions a plain
 * sum loses more than the audit allows. (A. Neumaier, Rundungsfehleranalyse einiger Verfahren zur Summation endlicher
 * Summen, 1974.) */
typedef struct audit_sum {
    double value[3], lost[3];
} audit_sum;

typedef struct audit_work {
    const kl_results *results;
    const kl_model *model;
    const frame_mesh *mesh;
    const state_record *record;
    kl_state state;
    audit_body *bodies;
    kl_index *first_body; /* of each member; member_count + 1 entries */
    double *node;         /* 3 a model node: the sum of all that acts on it */
    kl_index *first_load; /* of each case; case_count + 1 entries */
    double *on;           /* of each load: how much of it is on */
    double weight_on;     /* and of the weight that construction brought */
    double *wet;          /* of each row: wet shares that forms still put on it, N */
    kl_point middle;
    double size; /* m, diagonal of the model */
    audit_sum load, reaction;
    audit_sum
        form; /* forms: pressure and shares (must cancel); couples of bearings' ends that stand a hair apart */
    double largest_force, largest_moment; /* of all that was put on bodies and nodes */
    double force_at_hand;                 /* N: what errors are held against */
    double weight;                        /* N of all members that stand */
} audit_work;

/* What the state prints: entries of run.layout, `stride` apart, summed over the columns it asks for. */
void audit_printed(const audit_work *w, size_t entry, size_t stride, int count, double *out);

/* Does what a cause and a case brought belong to what is asked? */
bool audit_belongs(kl_cause wanted, kl_cause_kind kind, kl_index load_case);

/* audit_applied.c: fill `on` and `weight_on`. */
kl_status audit_applied(audit_work *w);

/* audit_body.c: cut the standing members into bodies. */
kl_status audit_cut(audit_work *w);
/* A force and a couple at a station: to the body there, to the node there, or by statics to the node of the rigid part
 * it falls on; axial members hand forces to their ends as simple beams. @param total NULL: internal, not totalled. */
void audit_force(
    audit_work *w, kl_index member, double station, const double f[3], audit_sum *total);
/* A force and a couple at a model node. */
void audit_at_node(audit_work *w, kl_index node, const double f[3], audit_sum *total);
/* Add to totals only. */
void audit_total(const audit_work *w, kl_point at, const double f[3], audit_sum *total);
void audit_sum_add(audit_sum *sum, const double f[3]);
void audit_sum_value(const audit_sum *sum, double out[3]);
/* A resultant on one body (moment about its start), totalled as well. */
void audit_on_body(audit_work *w, audit_body *body, const double f[3], audit_sum *total);
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
    audit_work *w, kl_index member, double from, double to, double factor, audit_sum *total);

/* audit_forms.c: pressure and shares of the forms still in place (first: they fill `wet`), forces of rows. */
kl_status audit_press_forms(audit_work *w);
void audit_push_rows(audit_work *w);

#endif
