/* frame_view.h - the frame on the page, to scale: where nodes and places on members lie, and what everyone draws of it.
 * SPDX-License-Identifier: MIT */
#ifndef KERNLINE_FRAME_VIEW_H
#define KERNLINE_FRAME_VIEW_H

#include "drawing.h"
#include "kernline/results.h"

typedef struct frame_view {
    drawing *drawing;
    const kl_model *model;
    const kl_results *results;
    double x, y; /* m, the place in the middle of the region */
    double at_x, at_y;
    double pixels;                   /* to the metre */
    double left, right, top, bottom; /* px, of the frame itself */
} frame_view;

typedef struct page_point {
    double x, y;
} page_point;

/* The whole model in the middle of a region, as large as it fits. */
frame_view frame_view_start(drawing *d, const kl_results *results, label_box region);

page_point frame_view_point(const frame_view *v, double x, double y);
page_point frame_view_node(const frame_view *v, kl_index node);
/* A place on a member's line, moved by `across` px to its left hand (its top). */
page_point
frame_view_on_member(const frame_view *v, kl_index member, double station, double across);

/* Members as lines: those that stand in the state thick, others faint; rigid ends, hinges; supports; falsework posts that stand.
 * `names`: members and nodes are named. */
void frame_view_draw(const frame_view *v, kl_state state, bool names);
/* A bar of round length with its length, under the frame. */
void frame_view_scale_bar(const frame_view *v);

#endif
