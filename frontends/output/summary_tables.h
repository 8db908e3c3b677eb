/* summary_tables.h - the small tables of the summary.
 *
 * Each fills a table that is started and empty. Rows are limited; a note tells where the rest is.
 * SPDX-License-Identifier: MIT */
#ifndef KERNLINE_SUMMARY_TABLES_H
#define KERNLINE_SUMMARY_TABLES_H

#include "tables.h"

#define SUMMARY_ROW_LIMIT 60

/* Say how many rows were left out and where they are; nothing when there are none. */
void summary_note_left_out(table *t, kl_index left_out, const char *where);

table_builder summary_build_reactions; /* models without stages */
table_builder
    summary_build_members; /* models without stages: each member's end moments and extremes */
table_builder summary_build_stresses;  /* models without stages: the extremes of stress */
table_builder summary_build_courses;   /* models with stages: members step by step … */
table_builder summary_build_governing; /* … and the rest at their governing steps */
table_builder summary_build_tendons, summary_build_secondary;
table_builder summary_build_checks, summary_build_expectations;
table_builder summary_build_camber;

/* Force in one post, rows by steps, for one falsework. */
void summary_build_posts(table *t, kl_results *results, kl_index falsework);

#endif
