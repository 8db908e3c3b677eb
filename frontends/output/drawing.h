/* drawing.h - a picture while it is drawn: lines, areas and texts on a page, written as SVG.
 *
 * Pixels of CSS (96 to the inch), y down. What a thing looks like follows from its class, in one style sheet for all pictures
 * (DRAWING_STYLE), so that a page may show them light or dark and a printer in black. Labels are only asked for; where
 * they come to stand is found at the end, when it is known what lies around (label_place.h).
 *
 * The first failure (out of memory) is kept in `status` and makes every later call do nothing.
 * SPDX-License-Identifier: MIT */
#ifndef KERNLINE_DRAWING_H
#define KERNLINE_DRAWING_H

#include "label_place.h"

typedef enum text_anchor { ANCHOR_START, ANCHOR_MIDDLE, ANCHOR_END } text_anchor;

#define DRAWING_TEXT    12.0 /* height of letters, px */
#define DRAWING_SMALL   10.5 /* of small ones */
#define DRAWING_NO_STEP (-1)

typedef struct drawing {
    double width, height;
    char *text; /* the SVG so far */
    size_t length, room;
    label_field labels;
    int depth; /* groups that are open */
    int step;  /* the step that is being drawn, DRAWING_NO_STEP: none */
    bool folded;
    bool folds; /* labels of steps that have no room beside those of others are there, folded */
    kl_status status;
    bool blank; /* what it is about is 0 all along: a package of many pictures leaves it out */
    const char *absent; /* static: why there is nothing to draw; the status is KL_NOT_THERE then */
} drawing;

/* Everything but colour comes from here; the colours are CSS variables with the light ones as their fallback, so that the text
 * can stand in a file of its own and in a page with colours of its own. */
extern const char DRAWING_STYLE[];

/* Begin a picture. `title` and `description` are read aloud to those who do not see it, and copied. */
void drawing_start(
    drawing *d, double width, double height, const char *title, const char *description);
/* Place the labels and close. @return the picture as one <svg> element, the drawing's own until drawing_free; NULL when
 * something failed (see status). */
const char *drawing_finish(drawing *d);
void drawing_free(drawing *d);

/* Put a finished picture into this one, so wide, its upper left corner at (x, y). */
void drawing_place(drawing *d, const drawing *picture, double x, double y, double width);

/* A finished picture as a file of its own: with an XML head and DRAWING_STYLE. @return text of the caller's, or NULL: no memory. */
char *drawing_page(const drawing *d);
void drawing_page_free(char *text);

/* A group with a class, and further attributes as they are ("data-step=\"3\""; the caller escapes) or NULL. */
void drawing_open(drawing *d, const char *class, const char *attributes);
void drawing_close(drawing *d);
/* A group with what is true after one step of the construction only, labels asked for within it too: <g class="step" data-step="3">,
 * so that a page can show one step at a time. `step` counts from 0; DRAWING_NO_STEP: nothing is grouped. */
void drawing_open_step(drawing *d, int step);
/* The same, hidden unless a page's script shows it (class "folded"); no label makes room for what is in it. */
void drawing_open_folded_step(drawing *d, int step);
void drawing_close_step(drawing *d);

void drawing_line(drawing *d, const char *class, double x1, double y1, double x2, double y2);
/* `count` strokes of (dx, dy), the first from (x, y), each two dx beyond the one before: hatching along a line. */
void drawing_hatch(
    drawing *d, const char *class, double x, double y, double dx, double dy, int count);
/* Points are x, y, x, y …; `count` points. They also keep labels away. */
void drawing_course(drawing *d, const char *class, const double *points, int count);
void drawing_area(drawing *d, const char *class, const double *points, int count);
/* An area whose edges keep labels away. */
void drawing_outline(drawing *d, const char *class, const double *points, int count);
void drawing_box(drawing *d, const char *class, double x, double y, double width, double height);
void drawing_circle(drawing *d, const char *class, double x, double y, double radius);
/* A head at (x2, y2) of a line from (x1, y1). */
void drawing_arrow(drawing *d, const char *class, double x1, double y1, double x2, double y2);

/* A text where it must stand, its baseline at y. Class "" is the plain one. */
void drawing_text(
    drawing *d, const char *class, double x, double y, text_anchor anchor, const char *text);
/* The same, turned upward by a quarter. */
void drawing_text_up(
    drawing *d, const char *class, double x, double y, text_anchor anchor, const char *text);

/* A text that belongs to a place and stands as near to it as there is room; of two that want the same room the one with the larger
 * `weight` gets it, and one of weight 0 is left out when there is none. */
void drawing_label(
    drawing *d, const char *class, double x, double y, double weight, const char *text);

/* The same, but left out when there is no room close by, whatever its weight: for the many values of a large frame, of which those
 * that weigh most stay. */
void drawing_hint(
    drawing *d, const char *class, double x, double y, double weight, const char *text);

/* The same, with no line between the place and the text: for values of courses that lie in a bundle. */
void drawing_hint_beside(
    drawing *d, const char *class, double x, double y, double weight, const char *text);

/* Keep labels off a line, and off a region. */
void drawing_keep_line(drawing *d, double x1, double y1, double x2, double y2);
void drawing_keep_free(drawing *d, double x, double y, double width, double height);
/* Likewise a region of lines, over which a label may stand sooner than over a text. */
void drawing_keep_hatch(drawing *d, double x, double y, double width, double height);

/* Markup as it is (short), and text with what markup means escaped (markup.h); for data and for pages that are made of drawings. */
void drawing_put(drawing *d, const char *format, ...) KL_PRINTF(2, 3);
void drawing_put_escaped(drawing *d, const char *text);

#endif
