/* solved.h - a model written as text, solved, and asked in one line a value.
 *
 * For tests of whole analyses: the text goes through the reader, the model's check and the analysis. Whatever goes
 * wrong on the way (where nothing should) fails the test and prints the messages. Values are in m, N, Pa, rad.
 * SPDX-License-Identifier: MIT */
#ifndef KERNLINE_SOLVED_H
#define KERNLINE_SOLVED_H

#include "assert_close.h"

#include "arena.h"
#include "kernline/results.h"
#include "source.h"

typedef struct solved {
    text_sources sources;
    arena memory;
    kl_diags *diags;
    kl_model *model;
    kl_results *results; /* NULL when the status is not KL_OK */
    kl_status status;
} solved;

/* Read and check only. @return the status; everything is freed by solved_close either way. */
kl_status solved_read(solved *s, const char *text);
/* The same; the test fails unless all is well. */
void solved_read_well(solved *s, const char *text);
/* Analyse what was read. settings NULL: the defaults. */
kl_status solved_analyze(solved *s, const kl_settings *settings);
/* Both; the test fails unless all is well. */
void solved_open(solved *s, const char *text);
/* The same with settings; NULL: the defaults. */
void solved_run(solved *s, const char *text, const kl_settings *settings);
void solved_close(solved *s);
/* The text must fail with this status and a message of this name. @return the message's text in s (not closed). */
const char *solved_refused(solved *s, const char *text, kl_status status, const char *name);
/* The message of that name, or NULL. */
const kl_diag *solved_message(const solved *s, const char *name);

/* The state after a stage, or under a case. */
kl_state solved_after(const solved *s, const char *stage);
kl_state solved_under(const solved *s, const char *load_case);
/* The same from one cause; of a case with solved_from_case. */
kl_state solved_from(kl_state state, kl_cause_kind kind);
kl_state solved_from_case(const solved *s, kl_state state, const char *load_case);

kl_index solved_index(const solved *s, kl_kind kind, const char *name);

/* `part` of a quantity; total; just before a station. */
double solved_part(const solved *s,
                   kl_state state,
                   kl_part part,
                   kl_quantity quantity,
                   const char *member,
                   double x);
double
solved_value(const solved *s, kl_state state, kl_quantity quantity, const char *member, double x);
double
solved_left(const solved *s, kl_state state, kl_quantity quantity, const char *member, double x);
double solved_node(const solved *s, kl_state state, kl_quantity quantity, const char *node);
double solved_reaction(const solved *s, kl_state state, const char *node, kl_direction direction);
/* Force in a row of posts, the row's number from 0. */
double solved_row(const solved *s, kl_state state, const char *falsework, kl_index row);
kl_post_row solved_post(const solved *s, kl_state state, const char *falsework, kl_index row);
double solved_length(const solved *s, const char *member);
/* Force in one tendon. */
double solved_force(const solved *s, kl_state state, const char *tendon, double x);

#endif
