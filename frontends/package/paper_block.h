/* paper_block.h - the blocks of a sheet on pages, each by its kind.
 * SPDX-License-Identifier: MIT */
#ifndef KERNLINE_PAPER_BLOCK_H
#define KERNLINE_PAPER_BLOCK_H

#include "paper_flow.h"

/* Must the page lie for this block, or for what the words before it lead to? */
bool paper_block_lies(const paper_flow *f, const block *b);

/* One block. */
void paper_block(paper_flow *f, const block *b);

/* paper_facts.c: names with values, calculations, names with lines to write on. */
void paper_facts(paper_flow *f, const block *b);
/* paper_listing.c: text as it stands, its lines numbered. */
void paper_listing(paper_flow *f, const char *text);

#endif
