/* maker.h - what the makers of sheets are given, and what they share.
 *
 * A maker fills one sheet that has been begun: sheets_<kind>.c. A sheet it puts nothing on is left out.
 * SPDX-License-Identifier: MIT */
#ifndef KERNLINE_MAKER_H
#define KERNLINE_MAKER_H

#include "diagrams.h"
#include "figure.h"
#include "label.h"
#include "package_make.h"

typedef struct maker {
    package *package;
    const package_input *input;
    kl_results *results;
    const kl_model *model;
    const kl_check_report *report;
    kl_index steps; /* 0: a model without stages */
} maker;

typedef void sheet_maker(maker *m);

#define MAKER_ROWS 3000 /* of one table: more are hardly read on a page */

/* sheets_front.c */
sheet_maker sheet_cover, sheet_glance;
/* sheets_frame.c, sheets_material.c, sheets_load.c */
sheet_maker sheet_frame, sheet_materials, sheet_sections, sheet_loads;
/* sheets_tendon.c, sheets_stressing.c */
sheet_maker sheet_tendons, sheet_tendon_force, sheet_stressing, sheet_losses;
/* sheets_result.c */
sheet_maker sheet_stages, sheet_posts, sheet_actions, sheet_secondary, sheet_movements,
    sheet_grades, sheet_reactions;
/* sheets_stress.c, sheets_check.c */
sheet_maker sheet_stresses, sheet_checks, sheet_expectations;
/* sheets_basis.c */
sheet_maker sheet_basis;

/* Keep a failure in the package's status; KL_NOT_THERE is none. @return status == KL_OK */
bool maker_accepts(maker *m, kl_status status);

/* Put a table that `kernline table` has; nothing when it has no rows. */
void maker_table(maker *m, const char *name, const selection_wish *wish);
/* The same for a table of the package's own. */
void maker_own_table(maker *m,
                     const char *name,
                     table_builder *build,
                     selection_span span,
                     const selection_wish *wish);
/* Put a picture that `kernline plot` has; nothing when there is none of that name or nothing on it. */
void maker_picture(maker *m, const char *name, const selection_wish *wish);

/* How much of the tables along members a sheet shows: tenths of all members at the end of every stage, or of the last where that
 * would be too many rows, or of the members with pictures only. */
typedef struct station_plan {
    selection_wish wish;
    bool few;
} station_plan;

/* @param stages false: the last only is wanted. Puts a sentence on the sheet where something is left out. */
station_plan maker_plan(maker *m, bool stages);
void maker_planned_table(maker *m, const station_plan *plan, const char *name);
/* Every step, for pictures. */
selection_wish maker_wish_steps(kl_index member);

/* A picture of the whole frame at the end of the last stage; without stages one of each of the first cases and combinations. */
void maker_put_frame(maker *m, const char *name);
/* What goes on over time at the middle of the first member with pictures, moments between stages too. */
void maker_put_history(maker *m);
/* Cases and combinations of a model with stages beside its last step, along the first of the members with pictures. */
void maker_put_loaded(maker *m, const char *name);

/* The members that have pictures of their own: those with tendons or checks, or else the longest few; rising. @return how many. */
#define MAKER_MEMBERS 6
int maker_members(const maker *m, kl_index members[MAKER_MEMBERS]);

/* "1234 kip-ft": four digits and the unit; NAN: "-". */
const char *
maker_figure(const maker *m, char room[FIGURE_SIZE + 20], double value, kl_measure measure);
/* Put a fact of a figure. */
void maker_fact(maker *m, const char *name, double value, kl_measure measure);

/* The state in which a model is shown when none is asked for: the last step, or the first case that is solved.
 * @return false: there is none. */
bool maker_last_state(const maker *m, kl_state *state);

/* Is there any? What is known under no load and at no step is no sheet. */
bool maker_is_solved(const maker *m);

/* Every step of the model, or every case that is solved: the i-th. @return false beyond the last. */
bool maker_state_at(const maker *m, kl_index i, kl_state *state);

#endif
