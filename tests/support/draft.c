/* draft.c - see draft.h.
 * SPDX-License-Identifier: MIT */
#include "draft.h"

#include <stdio.h>
#include <stdlib.h>
#include <string.h>

#include "assert_close.h"

void draft_add(text_draft *draft, const char *format, ...)
{
    va_list arguments;
    va_start(arguments, format);
    char piece[4000];
    const int length = vsnprintf(piece, sizeof piece, format, arguments);
    va_end(arguments);
    assert_in_range(length, 0, sizeof piece - 1);
    if (draft->length + (size_t)length + 1 > draft->room) {
        draft->room = 2 * draft->room + (size_t)length + 1;
        draft->text = realloc(draft->text, draft->room);
        assert_non_null(draft->text);
    }
    memcpy(draft->text + draft->length, piece, (size_t)length + 1);
    draft->length += (size_t)length;
}

void draft_free(text_draft *draft)
{
    free(draft->text);
    *draft = (text_draft){0};
}
