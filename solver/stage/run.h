/* run.h - an analysis under way: the model made ready, the state, and the increment being prepared.
 *
 * An increment is prepared by adding loads (and direct changes of what columns hold) under their causes, and is then
 * solved as one: contacts are those at its end on the total state. What is added under a cause goes to that cause;
 * a contact that opens gives its shares back cause by cause.
 * SPDX-License-Identifier: MIT */
#ifndef KERNLINE_RUN_H
#define KERNLINE_RUN_H

#include "block_pool.h"
#include "contact.h"
#include "creep_memory.h"
#include "kernline/analysis.h"
#include "member_tendons.h"
#include "relaxing.h"

/* A stressing that happened: what it did, and the force in one tendon while it was pulled and as it was left. */
typedef struct pull_record {
    kl_index tendon;
    kl_stressing done;
    force_draw draw[2];           /* of the ends that were pulled */
    force_curve unseated, seated; /* had no anchor seated; when all was done */
    force_curve pulled;           /* at the jack that pulled last, before its anchor seated */
} pull_record;

/* One column of the increment being prepared. */
typedef struct pending_column {
    kl_cause_kind kind;
    kl_index load_case;
    frame_loads loads;
    double *base_node,
        *base_moved; /* loads as prepared, before contacts add theirs; NULL: none do */
    /* A column block: direct changes of forces and the response, then the whole change, then the new total. Movements
     * and courses of elements are written by the response alone, which therefore stands in the block. */
    double *delta;
    double *u, *start, *turn, *field; /* in the block */
    double *sum, *bearing;            /* beside it: forces that have direct changes */
    double *coupled;                  /* change of force of each ungrouted tendon, N in the group */
} pending_column;

/* How far the equations are those of the structure that stands: since elements, hinges, supports or sections changed, its
 * elements have been formed, and the whole factored. */
typedef enum structure_phase {
    STRUCTURE_CHANGED,
    STRUCTURE_FORMED,
    STRUCTURE_FACTORED
} structure_phase;

typedef struct analysis_run {
    const kl_model *model;
    kl_settings settings;
    kl_diags *diags;
    arena *a; /* lives as long as the results */
    frame_mesh mesh;
    tendon_path *paths;
    tendon_trace *traces;
    member_tendons through;       /* each member's */
    struct stressing *from_slack; /* of each tendon (stressing.h) */
    kl_index *first_trace;
    column_layout layout;
    frame_system system;
    section_book book;
    stage_state state;
    block_pool blocks;
    ageing ageing;
    creep_memory memory;
    relaxing relaxing;
    bool ageless; /* no days are given: 28-day values */
    structure_phase phase;
    pending_column *pending; /* pool: the first `pending_count` are in use */
    kl_index pending_count, pending_capacity;
    memory_stress *stresses; /* workspace: one a pending column */
    pending_column *unit;    /* responses to one newton in each ungrouted tendon */
    double *basic;           /* 3 an element: basic forces of the column solved last */
    frame_hold *holds;       /* structure lists, sized for all */
    frame_joint *joints;
    frame_strut *struts;
    frame_structure structure;
    contact *contacts;       /* workspace, sized for all */
    kl_index *followers;     /* workspace: ungrouted tendons */
    kl_index *bearing_order; /* a bearing before the one that carries its base */
    kl_stressing *stressing; /* of each tendon: its fullest stressing so far */
    double *stressed_share;  /* share of the jacking force in that one */
    pull_record *pulls;      /* every stressing, in order; grows by doubling */
    kl_index pull_count, pull_room;
    kl_index step;            /* number of the step under way, KL_NONE: none */
    uint64_t turn;            /* increments so far, for seeded sets */
    kl_index contact_changes; /* of the last increment */
    double largest_force;     /* N seen so far, for tolerances */
} analysis_run;

/* Everything but the results: paths, mesh, system, an empty state. */
kl_status run_prepare(const kl_model *model,
                      const kl_settings *settings,
                      kl_diags *diags,
                      arena *a,
                      analysis_run *run);
void run_release(analysis_run *run); /* what is not in the arena */

/* Loads that will go to a cause in the increment being prepared; NULL: no memory. The pointer is good until the next
 * call. */
pending_column *run_pending(analysis_run *run, kl_cause_kind kind, kl_index load_case);

#endif
