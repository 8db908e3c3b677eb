/* paper_text.h - texts broken into lines that fit, and written on a page.
 * SPDX-License-Identifier: MIT */
#ifndef KERNLINE_PAPER_TEXT_H
#define KERNLINE_PAPER_TEXT_H

#include "drawing.h"

#define PAPER_LINE_SIZE 2048 /* bytes of a line, its end included */

typedef struct paper_letters {
    const char *class; /* "", "quiet", "strong" */
    double size;       /* height, px; lines are PAPER_LEADING times as far apart */
    bool mono;         /* all letters one width, spaces kept */
} paper_letters;

#define PAPER_LEADING 1.32

/* Width that a text takes in one line, px. */
double paper_width(const paper_letters *letters, const char *text);

/* The next line of `text`, at most `width` wide: broken at spaces, within a word that is wider than a line, and at line ends.
 * Every letter is in some line, spaces at a break are not. A line has a letter at least, however narrow.
 * @return where the text goes on; NULL when this was the last line. */
const char *paper_break(const paper_letters *letters,
                        const char *text,
                        double width,
                        char line[PAPER_LINE_SIZE]);

/* How many lines that makes; 1 for an empty text. */
int paper_line_count(const paper_letters *letters, const char *text, double width);

/* One line, its baseline at y. */
void paper_write(drawing *d,
                 const paper_letters *letters,
                 double x,
                 double y,
                 text_anchor anchor,
                 const char *line);

#endif
