/* paper_facts.c - names with values, side by side where they are short; calculations written out, with a bar along them; names
 * with lines to write on.
 * SPDX-License-Identifier: MIT */
#include <math.h>

#include "paper_block.h"

#define FACTS_GAP   14.0  /* px between name and value */
#define FACTS_NAMES 0.45  /* of the width: more is broken into lines */
#define FACTS_PAD   3.0   /* px between rows */
#define FACTS_BLANK 24.0  /* px more above a line to write on */
#define FACTS_WRITE 150.0 /* px that a line to write on takes at least */
#define FACTS_BAR   12.0  /* px that the bar of a calculation moves it in */
#define FACTS_AFTER 12.0
#define FACTS_WHOLE 0.3 /* of a page: a block that is shorter stays whole */

static const paper_letters facts_name_letters = {"quiet", 11.0, false};
static const paper_letters facts_value_letters = {"", 11.0, false};
static const paper_letters facts_formula_letters = {"", 11.0, false};

typedef struct facts_layout {
    const block *block;
    paper_letters name;
    double left, width; /* of a column of names and values */
    double names;       /* of the names in it */
    kl_index columns;
} facts_layout;

static double facts_value_width(const block *b, kl_index i)
{
    return b->kind == BLOCK_BLANKS ? FACTS_WRITE
                                   : paper_width(&facts_value_letters, b->facts[i].value);
}

static facts_layout facts_lay(const paper_flow *f, const block *b)
{
    const double in = b->kind == BLOCK_WORKED ? FACTS_BAR : 0.0;
    const double width = paper_flow_width(f, false) - in;
    facts_layout l = {.block = b, .left = PAPER_MARGIN + in, .columns = 1};
    l.name = b->kind == BLOCK_WORKED ? facts_formula_letters : facts_name_letters;
    double values = 0.0;
    for (kl_index i = 0; i < b->fact_count; i++) {
        l.names = fmax(l.names, paper_width(&l.name, b->facts[i].name));
        values = fmax(values, facts_value_width(b, i));
    }
    l.names += FACTS_GAP;
    const bool beside = 2.0 * (l.names + values) + FACTS_GAP <= width;
    if (beside && b->kind != BLOCK_WORKED && b->fact_count > 3) {
        l.columns = 2;
    }
    l.width = width / (double)l.columns;
    l.names = fmin(l.names, FACTS_NAMES * width);
    return l;
}

/* Width for values. */
static double facts_room(const facts_layout *l)
{
    return l->width - l->names - (l->columns > 1 ? FACTS_GAP : 0.0);
}

/* What is still to be written of a fact. */
typedef struct facts_rest {
    const char *name, *value;
} facts_rest;

/* A line of the fact in column `column` of the layout, at the flow's y. */
static void facts_line(paper_flow *f, const facts_layout *l, kl_index column, facts_rest *rest)
{
    drawing *d = paper_flow_page(f);
    const double x = l->left + l->width * (double)column;
    const double y = f->y + l->name.size;
    char line[PAPER_LINE_SIZE];
    if (rest->name) {
        rest->name = paper_break(&l->name, rest->name, l->names - FACTS_GAP, line);
        paper_write(d, &l->name, x, y, ANCHOR_START, line);
    }
    if (rest->value) {
        rest->value = paper_break(&facts_value_letters, rest->value, facts_room(l), line);
        paper_write(d, &facts_value_letters, x + l->names, y, ANCHOR_START, line);
    }
}

static void facts_row(paper_flow *f, const facts_layout *l, kl_index first)
{
    const block *b = l->block;
    const double leading = PAPER_LEADING * l->name.size;
    const kl_index count = first + l->columns <= b->fact_count ? l->columns : 1;
    facts_rest rests[2];
    for (kl_index i = 0; i < count; i++) {
        rests[i] = (facts_rest){b->facts[first + i].name, b->facts[first + i].value};
    }
    bool more = true;
    while (more && f->status == KL_OK) {
        const double top = f->y;
        paper_flow_need(f, leading);
        const double from = paper_flow_fresh(f) ? f->y : top;
        more = false;
        for (kl_index i = 0; i < count; i++) {
            facts_line(f, l, i, &rests[i]);
            more = more || rests[i].name || rests[i].value;
        }
        f->y += leading + (more ? 0.0 : FACTS_PAD);
        if (b->kind == BLOCK_WORKED) {
            drawing_line(paper_flow_page(f), "axis", PAPER_MARGIN + 2.0, from, PAPER_MARGIN + 2.0,
                         f->y);
        }
    }
}

static void facts_blank_lines(paper_flow *f, const facts_layout *l, kl_index first)
{
    const double y = f->y - FACTS_PAD + 1.0;
    for (kl_index i = 0; i < l->columns && first + i < l->block->fact_count; i++) {
        const double x = l->left + l->width * (double)i;
        drawing_line(paper_flow_page(f), "tick", x + l->names, y,
                     x + l->width - (l->columns > 1 ? FACTS_GAP : 0.0), y);
    }
}

static double facts_height(const facts_layout *l)
{
    const block *b = l->block;
    const double more = FACTS_PAD + (b->kind == BLOCK_BLANKS ? FACTS_BLANK : 0.0);
    double height = 0.0;
    for (kl_index i = 0; i < b->fact_count; i += l->columns) { /* side by side they have one line */
        const int names = paper_line_count(&l->name, b->facts[i].name, l->names - FACTS_GAP);
        const int values = paper_line_count(&facts_value_letters, b->facts[i].value, facts_room(l));
        height += (names > values ? names : values) * PAPER_LEADING * l->name.size + more;
    }
    return height;
}

void paper_facts(paper_flow *f, const block *b)
{
    const facts_layout l = facts_lay(f, b);
    const double whole = facts_height(&l);
    paper_flow_need(f, whole <= FACTS_WHOLE * paper_flow_height(f, false) ? whole : 0.0);
    for (kl_index first = 0; first < b->fact_count; first += l.columns) {
        const double height = PAPER_LEADING * l.name.size + FACTS_PAD;
        paper_flow_need(f, (first == 0 ? 2.0 : 1.0) * height + FACTS_BLANK);
        f->y += b->kind == BLOCK_BLANKS ? FACTS_BLANK : 0.0;
        facts_row(f, &l, first);
        if (b->kind == BLOCK_BLANKS) {
            facts_blank_lines(f, &l, first);
        }
    }
    f->y += FACTS_AFTER;
}
