/* words.h - `kernline words`: the language told from its table.
 * SPDX-License-Identifier: MIT */
#ifndef KERNLINE_WORDS_H
#define KERNLINE_WORDS_H

#include <stdbool.h>
#include <stddef.h>
#include <stdio.h>

#include "kernline/check.h"

/* All words, block by block, with the form of their values and one line of help. */
void words_list(FILE *out);
/* The unit words. */
void words_units(FILE *out);
/* The automatic warnings; the list is the caller's. */
void words_warnings(FILE *out, const kl_warning_name *warnings, size_t count);

/* What one word means, everywhere it stands; a unit word too. @return false (and nothing printed) when the language
 * has no such word; then `near`, when not NULL, is the nearest word or NULL. */
bool words_explain(FILE *out, const char *word, const char **near);

#endif
