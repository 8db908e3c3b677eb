/* consistency.h - looking at a whole model: what the parts of kl_model_check share.
 *
 * kl_model_add_… has already refused what is wrong in one entity by itself. Here entities are held against each
 * other: what something needs and does not have, what is done out of order, what is doubled, unused or merely odd.
 * Each part reports to the diagnostics and goes on; kl_model_check counts the errors.
 * SPDX-License-Identifier: MIT */
#ifndef KERNLINE_CONSISTENCY_H
#define KERNLINE_CONSISTENCY_H

#include "arena.h"
#include "build.h"
#include "kernline/model.h"

/* Of one kind of message about places or members this many are told; then how many more there are. */
#define CONSISTENCY_MOST_TOLD 20

typedef struct consistency {
    const kl_model *model;
    kl_diags *diags;
    bool staged;
    double near;  /* m: places closer than this are one */
    arena memory; /* until the check ends */
    /* the members that end at node n: at_members[at_start[n] … at_start[n+1]-1] */
    kl_index *at_start, *at_members;
    /* the nodes declared on member m, by station, likewise */
    kl_index *on_start, *on_nodes;
    kl_index *bearing_of; /* by node: the bearing that carries it, or KL_NONE */
    /* the supports of node n: support_first[n], then support_next of each, to KL_NONE */
    kl_index *support_first, *support_next;
} consistency;

/* Counts messages of one kind. Start with {0}. */
typedef struct consistency_tally {
    kl_index count;
} consistency_tally;

/* One more: may it be told? */
bool consistency_tell(consistency_tally *tally);
/* "… and 12 more" when some were not told. */
void consistency_tell_rest(consistency *c,
                           consistency_tally tally,
                           kl_severity severity,
                           const char *name);

/* Steeper than ten to one: a column. */
bool consistency_is_vertical(const consistency *c, kl_index member);
/* Not steeper than one to one: its weight needs something under it when it is cast. */
bool consistency_is_level(const consistency *c, kl_index member);
/* Does a member end at the node, or is the node on one? */
bool consistency_has_member(const consistency *c, kl_index node);
/* Node n with all that its bearings rest on: the node at the bottom. */
kl_index consistency_base(const consistency *c, kl_index node);

/* The parts, one file each. KL_OK or KL_NO_MEMORY. */
kl_status consistency_nodes(consistency *c);     /* nodes at one place, nodes of nothing */
kl_status consistency_crossings(consistency *c); /* members that cross without a node */
kl_status consistency_frame(consistency *c);     /* materials, sections, supports, bearings */
kl_status consistency_tendons(consistency *c);   /* steel and ram */
kl_status consistency_falsework(consistency *c); /* columns, carriers, rows inside columns */
kl_status consistency_loads(consistency *c);     /* cases */
kl_status consistency_hinges(consistency *c);    /* tendons of cases through hinges */
kl_status consistency_stages(consistency *c);    /* what is done, in its order */
kl_status consistency_time(consistency *c);      /* laws of creep, shrinkage and relaxation */
kl_status consistency_combinations(consistency *c);

/* Sums of factored causes are only allowed where nothing can lift or close any more. `rows`: falsework bears still.
 * `supports`: bit 1 << d of each that holds direction d (consistency_replay.h); NULL: those that stand from the start. */
void consistency_contacts(consistency *c, const unsigned char *supports, bool rows);
kl_status consistency_asked(consistency *c);  /* checks, expectations */
kl_status consistency_grades(consistency *c); /* which members can have one */
kl_status consistency_uses(consistency *c);   /* what nothing uses */

#endif
