/* time_scope.h - what a calculation asks of a published model beyond the scope its own text states: for warnings.
 *
 * The laws still answer there, by their formula as it stands; who reads the answer must be told.
 * SPDX-License-Identifier: MIT */
#ifndef KERNLINE_TIME_SCOPE_H
#define KERNLINE_TIME_SCOPE_H

#include <stdbool.h>

#define TIME_SCOPE_MAX 8

typedef struct time_scope {
    const char *outside[TIME_SCOPE_MAX]; /* static texts: "humidity below 40 %" */
    int count;
} time_scope;

/* Add a text when the condition holds, unless it is there already. A condition that met a NAN must be false. */
void time_scope_add(time_scope *scope, bool is_outside, const char *what);

#endif
