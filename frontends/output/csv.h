/* csv.h - a table as comma-separated values (RFC 4180).
 *
 * One head line: each column's key, and its unit in parentheses when it has one. Lines end in CR LF. Numbers are in
 * the units of the head and in full: they read back to the same double. What does not exist is an empty field;
 * flags are yes and no.
 * SPDX-License-Identifier: MIT */
#ifndef KERNLINE_CSV_H
#define KERNLINE_CSV_H

#include <stdio.h>

#include "table.h"

/* @return the table's status; KL_FILE_TROUBLE when the stream fails. */
kl_status csv_write(const table *t, FILE *out);

#endif
