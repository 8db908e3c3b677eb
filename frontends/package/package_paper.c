/* package_paper.c - see package_paper.h. The contents stand behind the cover, and are filled in when it is known on which page
 * each sheet begins.
 * SPDX-License-Identifier: MIT */
#include "package_paper.h"

#include <stdio.h>

#include "mem.h"
#include "paper_block.h"

#define CONTENTS_PITCH  19.0 /* px from line to line */
#define CONTENTS_BEFORE 12.0
#define CONTENTS_HEAD   40.0
#define CONTENTS_NAMES  30.0 /* where titles begin: the numbers stand before */

static const paper_letters contents_letters = {"", 11.5, false};
static const paper_letters title_letters = {"strong", 19.0, false};
static const paper_letters heading_letters = {"strong", 14.0, false};

/* Where the contents stand. */
typedef struct contents_place {
    size_t leaf;
    double y;
} contents_place;

static contents_place contents_reserve(paper_flow *f)
{
    const double height = CONTENTS_HEAD + CONTENTS_PITCH * (double)f->package->sheet_count;
    f->y += CONTENTS_BEFORE;
    if (f->count == 0 || height > paper_flow_left(f)) {
        paper_flow_sheet(f, PAPER_CONTENTS, false);
    }
    const contents_place place = {f->count - 1, f->y};
    f->y += height;
    return place;
}

static void contents_line(drawing *d, double y, const sheet *s, size_t page)
{
    const double right = d->width - PAPER_MARGIN;
    char number[32];
    snprintf(number, sizeof number, "%d", s->number);
    char on[32];
    snprintf(on, sizeof on, "%zu", page);
    const double x = PAPER_MARGIN + CONTENTS_NAMES;
    paper_write(d, &contents_letters, x - 12.0, y, ANCHOR_END, number);
    paper_write(d, &contents_letters, x, y, ANCHOR_START, s->title);
    paper_write(d, &contents_letters, right, y, ANCHOR_END, on);
    drawing_line(d, "rule", x + paper_width(&contents_letters, s->title) + 8.0, y,
                 right - paper_width(&contents_letters, on) - 8.0, y);
}

static void contents_fill(paper_flow *f, contents_place place)
{
    if (f->status != KL_OK) {
        return;
    }
    drawing *d = &f->leaves[place.leaf].drawing;
    double y = place.y + heading_letters.size;
    paper_write(d, &heading_letters, PAPER_MARGIN, y, ANCHOR_START, "Contents");
    y += CONTENTS_HEAD - CONTENTS_PITCH;
    for (size_t i = 0; i < f->count; i++) {
        const paper_leaf *leaf = &f->leaves[i];
        if (leaf->begins && leaf->sheet != PAPER_CONTENTS) {
            y += CONTENTS_PITCH;
            contents_line(d, y, &f->package->sheets[leaf->sheet], i + 1);
        }
    }
}

static void paper_sheet(paper_flow *f, kl_index index)
{
    const sheet *s = &f->package->sheets[index];
    paper_flow_sheet(f, index, paper_block_lies(f, s->first));
    paper_flow_text(f, &title_letters, PAPER_MARGIN, paper_flow_width(f, false), s->title);
    f->y += 8.0;
    for (const block *b = s->first; b && f->status == KL_OK; b = b->next) {
        paper_block(f, b);
    }
}

/* Hand the pages over as texts, each freed as a drawing before the next is made. */
static kl_status paper_take(paper *out, paper_flow *f)
{
    KL_TRY(f->status);
    out->pages = mem_array(f->count, sizeof *out->pages);
    if (!out->pages) {
        return KL_NO_MEMORY;
    }
    for (size_t i = 0; i < f->count; i++) {
        paper_leaf *leaf = &f->leaves[i];
        paper_page *page = &out->pages[out->count++];
        if (!drawing_finish(&leaf->drawing)) {
            return leaf->drawing.status;
        }
        page->svg = drawing_page(&leaf->drawing);
        drawing_free(&leaf->drawing);
        if (leaf->begins && leaf->sheet != PAPER_CONTENTS) {
            const sheet *s = &f->package->sheets[leaf->sheet];
            page->outline = arena_print(&out->memory, "%d %s", s->number, s->title);
        }
        if (!page->svg || (leaf->begins && leaf->sheet != PAPER_CONTENTS && !page->outline)) {
            return KL_NO_MEMORY;
        }
    }
    return KL_OK;
}

kl_status package_paper(paper *out, const package *p, paper_format format)
{
    paper_flow f;
    paper_flow_start(&f, p, format);
    kl_index next = 0;
    if (p->sheet_count > 0 && p->sheets[0].number == 0) {
        paper_sheet(&f, next++);
    }
    const contents_place contents = contents_reserve(&f);
    while (next < p->sheet_count) {
        paper_sheet(&f, next++);
    }
    contents_fill(&f, contents);
    paper_flow_furnish(&f);
    const kl_status status = paper_take(out, &f);
    paper_flow_free(&f);
    return status;
}

void paper_free(paper *out)
{
    for (kl_index i = 0; i < out->count; i++) {
        drawing_page_free(out->pages[i].svg);
    }
    mem_free(out->pages);
    arena_free(&out->memory);
    *out = (paper){0};
}
