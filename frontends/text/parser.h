/* parser.h - from the text of a model to phrases with checked values.
 * SPDX-License-Identifier: MIT */
#ifndef KERNLINE_PARSER_H
#define KERNLINE_PARSER_H

#include "arena.h"
#include "phrase.h"
#include "source.h"

#define PARSER_NESTING 8       /* blocks inside each other; the language needs four */
#define PARSER_PHRASES 2000000 /* of a model */
#define PARSER_LIST    10000   /* names, quantities or points in one list */
#define PARSER_SKEW                                                                                \
    1.55 /* rad: beyond some 89 degrees a bent is along the road, and `square` is without sense */

/* Read a model and what it includes; path "-" is standard input.
 *
 * All mistakes (at most COMPLAIN_ERRORS) go to diags; the document holds the phrases without mistakes, and the names
 * that the others would have declared: unless it is cut, bind_document can look for more mistakes in it. Phrases live
 * in `a`, and their texts are copied there; `sources` is needed to render diagnostics only.
 * @return KL_OK, KL_BAD_MODEL (mistakes, told), KL_FILE_TROUBLE and KL_TOO_LARGE (told), KL_NO_MEMORY; KL_MISUSE when diags is NULL. */
kl_status text_parse(
    text_sources *sources, const char *path, arena *a, kl_diags *diags, text_document *document);

/* The same for text that is at hand; `name` stands in messages. */
kl_status text_parse_text(text_sources *sources,
                          const char *name,
                          const char *text,
                          size_t length,
                          arena *a,
                          kl_diags *diags,
                          text_document *document);

#endif
