/* paper_block.c - see paper_block.h.
 * SPDX-License-Identifier: MIT */
#include "paper_block.h"

#include <math.h>

#include "paper_table.h"

#define BLOCK_AFTER        10.0
#define BLOCK_FIRST        40.0 /* px of a block that stand with a heading before it */
#define BLOCK_WHOLE_LINES  5    /* texts of so many lines stay whole */
#define BLOCK_SIGN         44.0 /* width of the sign of an alert */
#define BLOCK_ALERT_PAD    8.0
#define BLOCK_ALERT_LEAST  36.0 /* height of the frame */
#define BLOCK_ALERT_AFTER  6.0
#define BLOCK_BESIDE       90.0 /* height that a picture leaves to headings on its page */
#define BLOCK_TITLES       0.2  /* of a page: a sheet's title and what is said below it take less */
#define BLOCK_PICTURE_DOWN 0.85 /* and made so much smaller at most, to stand on the page at hand */
#define BLOCK_LETTERS      7.0  /* px: letters of a picture are not made smaller */
#define BLOCK_PICTURE_UP   1.15 /* a small picture is enlarged by so much at most */

static const paper_letters block_text_letters = {"", 11.5, false};
static const paper_letters block_heading_letters = {"strong", 14.0, false};
static const paper_letters block_sign_letters = {"strong", 14.0, false};

bool paper_block_lies(const paper_flow *f, const block *b)
{
    while (b && (b->kind == BLOCK_HEADING || b->kind == BLOCK_PARAGRAPH)) {
        b = b->next;
    }
    return b && b->kind == BLOCK_TABLE && paper_table_lies(f, b->table);
}

/* ---- pictures ---------------------------------------------------------------------------------------- */

/* As wide as the page, but whole. */
static double block_picture_width(const paper_flow *f, const drawing *d)
{
    const bool lies = paper_flow_lies(f);
    const double width = fmin(paper_flow_width(f, lies), BLOCK_PICTURE_UP * d->width);
    const double height = paper_flow_height(f, lies) - BLOCK_BESIDE;
    return fmin(width, height * d->width / d->height);
}

/* What a picture takes of this page: a little less than it would, when it then stands here and its letters can be read. */
static double block_picture_height(const paper_flow *f, const drawing *d)
{
    const double width = block_picture_width(f, d);
    const double height = width * d->height / d->width;
    const double least = fmax(BLOCK_PICTURE_DOWN, BLOCK_LETTERS / DRAWING_SMALL * d->width / width);
    const double left = paper_flow_left(f);
    return left < height && left >= least * height ? left : height;
}

static void block_picture(paper_flow *f, const drawing *d)
{
    paper_flow_need(f, block_picture_height(f, d));
    const double height = block_picture_height(f, d); /* the new page may lie otherwise */
    drawing_place(paper_flow_page(f), d, PAPER_MARGIN, f->y, height * d->width / d->height);
    f->y += height + BLOCK_AFTER;
}

/* ---- texts ------------------------------------------------------------------------------------------- */

static double block_paragraph_lines(const paper_flow *f, const char *text)
{
    return paper_line_count(&block_text_letters, text, paper_flow_width(f, false));
}

static void block_paragraph(paper_flow *f, const char *text)
{
    const double lines = block_paragraph_lines(f, text);
    const double together = lines <= BLOCK_WHOLE_LINES ? lines : 2.0;
    paper_flow_need(f, together * PAPER_LEADING * block_text_letters.size);
    paper_flow_text(f, &block_text_letters, PAPER_MARGIN, paper_flow_width(f, false), text);
    f->y += 0.6 * BLOCK_AFTER;
}

/* A triangle with an exclamation mark. */
static void block_sign(drawing *d, double x, double y)
{
    const double triangle[] = {x, y + 20.0, x + 11.5, y, x + 23.0, y + 20.0};
    drawing_area(d, "outline", triangle, 3);
    paper_write(d, &block_sign_letters, x + 11.5, y + 18.0, ANCHOR_MIDDLE, "!");
}

/* Framed and with a sign; a text longer than a page is framed on each. */
static void block_alert(paper_flow *f, const char *text)
{
    const double leading = PAPER_LEADING * block_text_letters.size;
    const double full = paper_flow_width(f, false);
    const double width = full - BLOCK_SIGN - BLOCK_ALERT_PAD;
    const double lines = paper_line_count(&block_text_letters, text, width);
    paper_flow_need(f, fmin(lines, BLOCK_WHOLE_LINES) * leading + 2.0 * BLOCK_ALERT_PAD);
    char line[PAPER_LINE_SIZE];
    while (text != NULL && f->status == KL_OK) {
        drawing *d = paper_flow_page(f);
        const double top = f->y;
        const double bottom = top + paper_flow_left(f) - BLOCK_ALERT_PAD;
        f->y += BLOCK_ALERT_PAD;
        do {
            text = paper_break(&block_text_letters, text, width, line);
            paper_write(d, &block_text_letters, PAPER_MARGIN + BLOCK_SIGN,
                        f->y + block_text_letters.size, ANCHOR_START, line);
            f->y += leading;
        } while (text != NULL && f->y + leading <= bottom);
        f->y = fmax(f->y + BLOCK_ALERT_PAD, top + BLOCK_ALERT_LEAST);
        drawing_box(d, "outline", PAPER_MARGIN, top, full, f->y - top);
        block_sign(d, PAPER_MARGIN + 10.0, top + 0.5 * (BLOCK_ALERT_LEAST - 20.0));
        if (text != NULL) {
            paper_flow_turn(f);
        }
    }
    f->y += BLOCK_ALERT_AFTER;
}

/* ---- headings ---------------------------------------------------------------------------------------- */

/* Height at the beginning of a block that must stand with a heading before it. */
static double block_least(const paper_flow *f, const block *b)
{
    if (!b) {
        return 0.0;
    }
    if (b->kind == BLOCK_HEADING) {
        return 2.0 * PAPER_LEADING * block_heading_letters.size + block_least(f, b->next);
    }
    if (b->kind == BLOCK_TABLE) {
        return paper_table_least(f, b->table);
    }
    return b->kind == BLOCK_PICTURE ? block_picture_height(f, b->drawing) : BLOCK_FIRST;
}

/* Is there something to be filled in by hand below this heading? */
static bool block_is_form(const block *b)
{
    for (b = b->next; b && b->kind != BLOCK_HEADING; b = b->next) {
        if (b->kind == BLOCK_BLANKS) {
            return true;
        }
    }
    return false;
}

/* Nothing but the sheet's title, and what is said below it, stands on the page. */
static bool block_page_begins(const paper_flow *f)
{
    const double full = paper_flow_height(f, paper_flow_lies(f));
    return paper_flow_fresh(f) || (f->count > 0 && f->leaves[f->count - 1].begins &&
                                   paper_flow_left(f) > (1.0 - BLOCK_TITLES) * full);
}

/* A form has a page of its own. */
static void block_heading(paper_flow *f, const block *b)
{
    f->landscape = paper_block_lies(f, b);
    const bool form = block_is_form(b) && !block_page_begins(f);
    if (form || (f->landscape && !paper_flow_lies(f))) {
        paper_flow_turn(f);
    }
    paper_flow_need(f, block_least(f, b));
    f->y += paper_flow_fresh(f) ? 0.0 : 0.5 * block_heading_letters.size;
    paper_flow_text(f, &block_heading_letters, PAPER_MARGIN, paper_flow_width(f, false), b->text);
    f->y += 0.4 * BLOCK_AFTER;
}

void paper_block(paper_flow *f, const block *b)
{
    f->landscape = false; /* what must lie says so itself */
    switch (b->kind) {
    case BLOCK_HEADING:
        block_heading(f, b);
        break;
    case BLOCK_PARAGRAPH:
        block_paragraph(f, b->text);
        break;
    case BLOCK_ALERT:
        block_alert(f, b->text);
        break;
    case BLOCK_FACTS:
    case BLOCK_WORKED:
    case BLOCK_BLANKS:
        paper_facts(f, b);
        break;
    case BLOCK_TABLE:
        paper_table(f, b->table);
        break;
    case BLOCK_PICTURE:
        block_picture(f, b->drawing);
        break;
    case BLOCK_LISTING:
        paper_listing(f, b->text);
        break;
    }
}
