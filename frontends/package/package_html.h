/* package_html.h - the package as one page of HTML that needs nothing beside it: no network, no other file.
 *
 * Well-formed as XML too. Everything is there without scripts: all tables, all pictures with the steps that have room in
 * them. The scripts find what they need in two elements of JSON, `courses` and `derivations` (package_data.h).
 * SPDX-License-Identifier: MIT */
#ifndef KERNLINE_PACKAGE_HTML_H
#define KERNLINE_PACKAGE_HTML_H

#include <stdio.h>

#include "package_make.h"

/* @return the package's status; KL_FILE_TROUBLE: the stream failed; KL_NO_MEMORY. */
kl_status package_write_html(const package *p, const package_input *input, FILE *out);

/* A table as a figure: title, head, a body a group, notes. Numbers stand rounded, in full in `data-value`. */
void html_write_table(FILE *out, const table *t); /* html_table.c */

/* The courses along members and what every figure of theirs is the sum of, as two script elements. */
kl_status
html_write_data(FILE *out, const package *p, const package_input *input); /* html_data.c */

/* Embedded by the Makefile; each ends in a zero. */
extern const unsigned char PACKAGE_CSS[], PACKAGE_JS[];

#endif
