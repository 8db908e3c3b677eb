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
    double mark; /* size of supports, posts and hinges: 1 where there is room for them */
} frame_view;

typedef struct page_point {
    double x, y;
} page_point;

#define VIEW_MARGIN 34.0 /* px around the frame, for supports and names */

/* The whole model in the middle of a region, as large as it fits with a margin around it. */
frame_view frame_view_start(drawing *d, const kl_results *results, label_box region, double margin);
/* Begin a picture of the whole frame, as high as the frame asks for: title, the view, and room for a bar and a note under it. */
frame_view frame_view_page(drawing *d,
                           const kl_results *results,
                           const char *title,
                           const char *description,
                           double margin);
/* A line of explanation at the picture's foot. */
void frame_view_note(const frame_view *v, const char *text);
/* Height of a picture of this width, margins included, in which the frame is as wide as it can be; at most `most`. */
double frame_view_height(const kl_model *model, double width, double margin, double most);

page_point frame_view_point(const frame_view *v, double x, double y);
page_point frame_view_node(const frame_view *v, kl_index node);
/* A place on a member's line, moved by `across` px to its left hand (its top). */
page_point
frame_view_on_member(const frame_view *v, kl_index member, double station, double across);
/* The middle one of the members' lengths, px: how much room there is between nodes. */
double frame_view_spacing(const frame_view *v);

/* Members as lines: those that stand in the state thick, others faint; rigid ends, hinges; supports as
 * they hold then; falsework posts that stand. `state` NULL: all members stand, supports are those declared, no posts. */
void frame_view_draw(const frame_view *v, const kl_state *state);
/* Members as single lines of a class, those that do not stand left out; supports as they hold then. */
void frame_view_outline(const frame_view *v, kl_state state, const char *class);
/* Members and nodes by name, where there is room. */
void frame_view_names(const frame_view *v);
/* A bar of round length from (x, y) on, with its value: `pixels` to the base unit of the measure. */
void frame_view_bar(const frame_view *v, double x, double y, double pixels, kl_measure measure);
/* That of the frame itself, under it. */
void frame_view_scale_bar(const frame_view *v);

#endif
