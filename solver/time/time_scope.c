/* time_scope.c - see time_scope.h.
 * SPDX-License-Identifier: MIT */
#include "time_scope.h"

#include <assert.h>
#include <string.h>

void time_scope_add(time_scope *scope, bool is_outside, const char *what)
{
    if (!is_outside) {
        return;
    }
    for (int i = 0; i < scope->count; i++) {
        if (strcmp(scope->outside[i], what) == 0) {
            return;
        }
    }
    assert(scope->count < TIME_SCOPE_MAX);
    scope->outside[scope->count++] = what;
}
