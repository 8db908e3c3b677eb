/* draft.h - the text of a model put together piece by piece.
 * SPDX-License-Identifier: MIT */
#ifndef KERNLINE_DRAFT_H
#define KERNLINE_DRAFT_H

#include <stddef.h>

#include "kernline/diag.h"

/* A text that grows; starts as all zeros. */
typedef struct text_draft {
    char *text;
    size_t length, room;
} text_draft;

/* Append, as printf does, at most 4000 bytes at a time. */
void draft_add(text_draft *draft, const char *format, ...) KL_PRINTF(2, 3);
void draft_free(text_draft *draft);

#endif
