/* paper_flow.h - pages while they are filled from the top downward: where the next thing stands, when a new page begins, and what
 * stands at the head and foot of every one.
 *
 * The first failure is kept in `status` and makes every later call do nothing, as on drawings.
 * SPDX-License-Identifier: MIT */
#ifndef KERNLINE_PAPER_FLOW_H
#define KERNLINE_PAPER_FLOW_H

#include "package_paper.h"
#include "paper_text.h"

#define PAPER_MARGIN 60.0 /* px, left and right: room to bind */
#define PAPER_TOP    78.0 /* where the first line of a page begins */

typedef struct paper_leaf {
    drawing drawing;
    kl_index sheet; /* PAPER_CONTENTS, or the index of the sheet on it */
    bool begins;    /* the first page of its sheet */
} paper_leaf;

#define PAPER_CONTENTS (-1)

typedef struct paper_flow {
    const package *package;
    double width, height; /* of an upright page */
    double foot[2];       /* where the foot begins: of an upright page, of one that lies */
    paper_leaf *leaves;
    size_t count, room;
    kl_index sheet; /* that pages opened now belong to */
    bool landscape; /* how pages opened now lie */
    double y;       /* where the next thing begins on the last page */
    drawing spare;  /* takes what is drawn after a failure */
    kl_status status;
} paper_flow;

void paper_flow_start(paper_flow *f, const package *p, paper_format format);
void paper_flow_free(paper_flow *f);

/* The first page of a sheet. */
void paper_flow_sheet(paper_flow *f, kl_index index, bool landscape);

/* The last page, to draw on; until the next call that may open one. */
drawing *paper_flow_page(paper_flow *f);

/* Of a page that lies so: width between the margins, and height between head and foot. */
double paper_flow_width(const paper_flow *f, bool landscape);
double paper_flow_height(const paper_flow *f, bool landscape);
/* Does the last page lie? */
bool paper_flow_lies(const paper_flow *f);
/* What is left of the last page below y. */
double paper_flow_left(const paper_flow *f);
/* Nothing stands on the last page yet. */
bool paper_flow_fresh(const paper_flow *f);

/* A new page, lying as the flow says. */
void paper_flow_turn(paper_flow *f);
/* See that `height` px are left, on a new page if need be. @return whether a page was opened. */
bool paper_flow_need(paper_flow *f, double height);

/* Lines of a text in `width` px from x, flowing over pages. */
void paper_flow_text(
    paper_flow *f, const paper_letters *letters, double x, double width, const char *text);

/* Draw head and foot of every page, when it is known how many there are. */
void paper_flow_furnish(paper_flow *f);

#endif
