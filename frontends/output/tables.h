/* tables.h - every table the program can show: its name, what it tells, and who fills it.
 *
 * A builder gets a table that is started and empty; it adds columns, rows, title and notes. What is not there at a
 * moment (a member that does not stand yet) gives no row; a single value that does not exist is NAN.
 * SPDX-License-Identifier: MIT */
#ifndef KERNLINE_TABLES_H
#define KERNLINE_TABLES_H

#include "selection.h"
#include "table.h"

typedef void table_builder(table *t, kl_results *results, const selection *s);

typedef struct table_recipe {
    const char *name; /* "actions" */
    const char *help; /* one line */
    selection_span span;
    bool has_causes;   /* its values can be split by cause */
    bool has_stations; /* its rows are stations along members, of which one can be chosen */
    table_builder *build;
} table_recipe;

const table_recipe *table_recipes(kl_index *count);
const table_recipe *table_recipe_find(const char *name); /* NULL: there is none */

/* Start `t` and fill it. @return the table's status. The caller frees the table in any case. */
kl_status
table_build(table *t, const table_recipe *recipe, kl_results *results, const selection *s);

/* Builders: table_<name>.c or the file of their kind. */
table_builder table_build_steps, table_build_audit; /* table_steps.c */
table_builder table_build_nodes, table_build_deflections,
    table_build_camber;                                      /* table_movements.c */
table_builder table_build_grades;                            /* table_grades.c */
table_builder table_build_history;                           /* table_history.c */
table_builder table_build_actions, table_build_ends;         /* table_actions.c */
table_builder table_build_stresses, table_build_sections;    /* table_stresses.c */
table_builder table_build_reactions;                         /* table_reactions.c */
table_builder table_build_posts;                             /* table_posts.c */
table_builder table_build_tendons, table_build_tendon_loads; /* table_tendons.c */
table_builder table_build_stressing;                         /* table_stressing.c */
table_builder table_build_losses;                            /* table_losses.c */
table_builder table_build_loss_estimates;                    /* table_loss_estimates.c */
void table_add_reactions(table *t);                          /* title and columns */
/* A row, unless the node has no support in that state. */
void table_put_reaction(table *t, const kl_results *results, kl_state state, kl_index node);
/* What the tendon moves at an end when it is pulled there, else NAN. */
double table_elongation(const kl_stressing *stressing, int end);
/* All that moves at a jack from the first reading (`reference`) to the last, draw-in of the far anchor included; NAN: an
 * end that is not pulled, no reference. */
double table_between_readings(const kl_tendon *tendon, const kl_stressing *stressing, int end);
table_builder table_build_checks;       /* table_checks.c */
table_builder table_build_expectations; /* table_expectations.c */

/* Columns and rows of expectations, at most `limit` rows. */
void table_put_expectations(table *t,
                            const kl_results *results,
                            const kl_check_report *report,
                            bool only_missed,
                            kl_index limit);

/* ---- what builders share: tables.c ---------------------------------------------------------------------- */

/* Keep a failure in the table's status; KL_NOT_THERE is none. @return status == KL_OK */
bool table_accepts(table *t, kl_status status);
/* A value on a member, NAN when it is not there. */
double table_member_value(table *t,
                          const kl_results *results,
                          kl_state state,
                          kl_quantity quantity,
                          kl_part part,
                          kl_index member,
                          double station,
                          kl_side side);
/* Columns every table of moments and of stations starts with: group state, group member, station, place, side. */
void table_add_state(table *t);
void table_add_station(table *t);
/* The cells of these columns; for row i of a member's stations. */
void table_put_state(table *t, const kl_results *results, kl_state state);
void table_put_station(table *t,
                       const kl_results *results,
                       kl_index member,
                       const kl_station_row *rows,
                       kl_index count,
                       kl_index i);

/* The stations of a member that were asked for: all, no further apart than `every`, or the one at s->at (none on a
 * shorter member). @return false: none, or a failure that the status tells. */
bool table_stations(table *t,
                    kl_results *results,
                    const selection *s,
                    kl_index member,
                    double every,
                    const kl_station_row **rows,
                    kl_index *count);

/* Call `row` for every station of every wanted member that stands, in every state; table_put_state and
 * table_put_station have been done. */
typedef void table_station_row(
    table *t, kl_results *results, kl_state state, kl_index member, const kl_station_row *row);
void table_walk_stations(table *t, kl_results *results, const selection *s, table_station_row *row);

#endif
