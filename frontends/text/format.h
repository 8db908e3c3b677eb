/* format.h - the canonical layout of a model's text.
 *
 * Written from tokens, not from phrases: every number, name and comment stays as it was typed, only blanks and line
 * ends change. So the model is the same afterwards, and a text that is formatted once does not change again.
 * SPDX-License-Identifier: MIT */
#ifndef KERNLINE_FORMAT_H
#define KERNLINE_FORMAT_H

#include "source.h"

#define FORMAT_WIDTH  100 /* a block on one line stays there up to this width */
#define FORMAT_INDENT 4
#define FORMAT_ALIGN                                                                               \
    24 /* values in a block are aligned when the longest word is no longer than this */

/* Lay out a file; *out lives in `a`. Mistakes of the text's characters and braces go to diags, and then nothing is
 * written. @return KL_OK, KL_BAD_MODEL, KL_NO_MEMORY; KL_MISUSE when diags is NULL. */
kl_status
format_source(const text_sources *sources, int32_t file, arena *a, kl_diags *diags, char **out);

#endif
