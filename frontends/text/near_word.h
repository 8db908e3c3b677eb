/* near_word.h - which word of the language a word that it does not have most likely means.
 *
 * In this order: the language's word for one that others use for the same thing (`selfweight`), one that differs by a few letters
 * (`widht`), the one that it begins (`pin` of `pinned`), the one that it goes on from (`settlement` of `settle`).
 * SPDX-License-Identifier: MIT */
#ifndef KERNLINE_NEAR_WORD_H
#define KERNLINE_NEAR_WORD_H

#include "grammar.h"

/* Among the words of one context; NULL: none is near. */
const char *near_word(grammar_context context, const char *text, size_t length);

/* Among all words of the language; NULL: none is near. */
const char *near_word_anywhere(const char *text, size_t length);

/* The language's own word, wherever it stands, for one that others use for the same thing; NULL: it is not one of those. */
const char *near_word_meaning(const char *text, size_t length);

/* How to write what this word was meant for on the line of a phrase, or in its block; NULL: nobody has looked for it there. */
const char *near_word_advice(const char *phrase, const char *text, size_t length);

#endif
