/* html.h - text within markup and within JSON of a page: shown as it is, whatever it holds.
 *
 * Texts of a model are of whoever wrote it. Markup in them is escaped; control characters are shown as the symbols that stand
 * for them; marks that turn the direction of writing and line ends that are none in a listing are shown by their numbers, so
 * that a name cannot look like another one; bytes that are no UTF-8 become U+FFFD. What is written is well-formed XML, too.
 * SPDX-License-Identifier: MIT */
#ifndef KERNLINE_HTML_H
#define KERNLINE_HTML_H

#include <stdio.h>

/* In elements and attributes. */
void html_text(FILE *out, const char *text);
/* The same, where line feeds and tabs stay what they are. */
void html_listing(FILE *out, const char *text);
/* Line feeds become <br/>. */
void html_lines(FILE *out, const char *text);

/* A JSON string with its quotes; nothing in it ends a script element. */
void html_json_text(FILE *out, const char *text);
/* A JSON number of so many digits; null for what is none. */
void html_json_number(FILE *out, double value, int digits);

/* A CSS string with its quotes. */
void html_css_text(FILE *out, const char *text);

#endif
