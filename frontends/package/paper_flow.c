/* paper_flow.c - see paper_flow.h.
 * SPDX-License-Identifier: MIT */
#include "paper_flow.h"

#include <math.h>
#include <stdio.h>

#include "mem.h"

#define FLOW_HEAD      50.0 /* baseline of the head; a rule stands below it */
#define FLOW_FOOT_EDGE 38.0 /* baseline of the last line at the foot, from the lower edge */
#define FLOW_FOOT_ROOM 90.0 /* width of "page n of N" */

static const paper_letters flow_head_letters = {"quiet", 9.5, false};
static const paper_letters flow_name_letters = {"strong", 9.5, false};
static const paper_letters flow_foot_letters = {"quiet", 8.5, false};

/* ---- where things stand ------------------------------------------------------------------------------ */

static bool flow_lies(const paper_flow *f, const paper_leaf *leaf)
{
    return leaf->drawing.width > f->width;
}

double paper_flow_width(const paper_flow *f, bool landscape)
{
    return (landscape ? f->height : f->width) - 2.0 * PAPER_MARGIN;
}

/* Where the rule over the foot stands: so many lines as the caution takes lie below. */
static double flow_foot_top(const paper_flow *f, bool landscape)
{
    const double width = paper_flow_width(f, landscape) - FLOW_FOOT_ROOM;
    const double lines = paper_line_count(&flow_foot_letters, f->package->caution, width);
    return (landscape ? f->width : f->height) - FLOW_FOOT_EDGE -
           lines * PAPER_LEADING * flow_foot_letters.size - 2.0;
}

void paper_flow_start(paper_flow *f, const package *p, paper_format format)
{
    *f = (paper_flow){.package = p, .status = p->status};
    f->width = format == PAPER_LETTER ? 816.0 : 794.0; /* 8.5 in; 210 mm */
    f->height = format == PAPER_LETTER ? 1056.0 : 1123.0;
    f->foot[false] = flow_foot_top(f, false);
    f->foot[true] = flow_foot_top(f, true);
    f->spare.status = KL_MISUSE; /* so that it takes nothing */
}

void paper_flow_free(paper_flow *f)
{
    for (size_t i = 0; i < f->count; i++) {
        drawing_free(&f->leaves[i].drawing);
    }
    mem_free(f->leaves);
    *f = (paper_flow){0};
}

double paper_flow_height(const paper_flow *f, bool landscape)
{
    return f->foot[landscape] - 8.0 - PAPER_TOP;
}

bool paper_flow_lies(const paper_flow *f)
{
    return f->count > 0 && flow_lies(f, &f->leaves[f->count - 1]);
}

double paper_flow_left(const paper_flow *f)
{
    if (f->count == 0) {
        return 0.0;
    }
    return PAPER_TOP + paper_flow_height(f, paper_flow_lies(f)) - f->y;
}

bool paper_flow_fresh(const paper_flow *f)
{
    return f->count > 0 && f->y <= PAPER_TOP;
}

drawing *paper_flow_page(paper_flow *f)
{
    if (f->status != KL_OK || f->count == 0) {
        return &f->spare;
    }
    return &f->leaves[f->count - 1].drawing;
}

static const char *flow_title(const paper_flow *f, const paper_leaf *leaf)
{
    return leaf->sheet == PAPER_CONTENTS ? "Contents" : f->package->sheets[leaf->sheet].title;
}

void paper_flow_turn(paper_flow *f)
{
    if (f->status != KL_OK) {
        return;
    }
    void *leaves = f->leaves;
    f->status = mem_grow(&leaves, &f->room, f->count + 1, sizeof *f->leaves, PAPER_PAGE_LIMIT);
    f->leaves = leaves;
    if (f->status != KL_OK) {
        return;
    }
    paper_leaf *leaf = &f->leaves[f->count++];
    leaf->sheet = f->sheet;
    leaf->begins = f->count < 2 || leaf[-1].sheet != f->sheet;
    drawing_start(&leaf->drawing, f->landscape ? f->height : f->width,
                  f->landscape ? f->width : f->height, flow_title(f, leaf), "");
    f->y = PAPER_TOP;
}

void paper_flow_sheet(paper_flow *f, kl_index index, bool landscape)
{
    f->sheet = index;
    f->landscape = landscape;
    paper_flow_turn(f);
}

bool paper_flow_need(paper_flow *f, double height)
{
    if (height <= paper_flow_left(f) || paper_flow_fresh(f)) {
        return false;
    }
    paper_flow_turn(f);
    return true;
}

void paper_flow_text(
    paper_flow *f, const paper_letters *letters, double x, double width, const char *text)
{
    const double leading = PAPER_LEADING * letters->size;
    char line[PAPER_LINE_SIZE];
    while (text != NULL && f->status == KL_OK) {
        text = paper_break(letters, text, width, line);
        paper_flow_need(f, leading);
        paper_write(paper_flow_page(f), letters, x, f->y + letters->size, ANCHOR_START, line);
        f->y += leading;
    }
}

/* ---- head and foot ----------------------------------------------------------------------------------- */

/* The first line of a text, with a mark where there is more. */
static void flow_write_short(
    drawing *d, const paper_letters *letters, double x, double y, double width, const char *text)
{
    char line[PAPER_LINE_SIZE];
    char marked[PAPER_LINE_SIZE + 8];
    const char *more = paper_break(letters, text, width - letters->size, line);
    snprintf(marked, sizeof marked, "%s%s", line, more ? " …" : "");
    paper_write(d, letters, x, y, ANCHOR_START, marked);
}

static void flow_head(paper_flow *f, paper_leaf *leaf)
{
    drawing *d = &leaf->drawing;
    const double right = d->width - PAPER_MARGIN;
    char name[160];
    if (leaf->sheet == PAPER_CONTENTS) {
        snprintf(name, sizeof name, "%s", flow_title(f, leaf));
    } else {
        snprintf(name, sizeof name, "%d  %s%s", f->package->sheets[leaf->sheet].number,
                 flow_title(f, leaf), leaf->begins ? "" : ", continued");
    }
    const double room = right - PAPER_MARGIN - paper_width(&flow_name_letters, name) - 20.0;
    flow_write_short(d, &flow_head_letters, PAPER_MARGIN, FLOW_HEAD, room, f->package->title);
    paper_write(d, &flow_name_letters, right, FLOW_HEAD, ANCHOR_END, name);
    drawing_line(d, "axis", PAPER_MARGIN, FLOW_HEAD + 6.0, right, FLOW_HEAD + 6.0);
}

static void flow_foot(paper_flow *f, paper_leaf *leaf, size_t number)
{
    drawing *d = &leaf->drawing;
    const bool landscape = flow_lies(f, leaf);
    const double right = d->width - PAPER_MARGIN;
    const double width = paper_flow_width(f, landscape) - FLOW_FOOT_ROOM;
    double y = f->foot[landscape];
    drawing_line(d, "rule", PAPER_MARGIN, y, right, y);
    y += 4.0 + flow_foot_letters.size;
    char page[60];
    snprintf(page, sizeof page, "page %zu of %zu", number, f->count);
    paper_write(d, &flow_foot_letters, right, y, ANCHOR_END, page);
    char line[PAPER_LINE_SIZE];
    for (const char *text = f->package->caution; text != NULL;) {
        text = paper_break(&flow_foot_letters, text, width, line);
        paper_write(d, &flow_foot_letters, PAPER_MARGIN, y, ANCHOR_START, line);
        y += PAPER_LEADING * flow_foot_letters.size;
    }
}

void paper_flow_furnish(paper_flow *f)
{
    for (size_t i = 0; i < f->count && f->status == KL_OK; i++) {
        flow_head(f, &f->leaves[i]);
        flow_foot(f, &f->leaves[i], i + 1);
    }
}
