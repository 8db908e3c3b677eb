/* signs.c - see signs.h. Each sketch is a piece of a level member with what acts on its two ends.
 * SPDX-License-Identifier: MIT */
#include "signs.h"

#include <math.h>

#define SIGNS_WIDTH  760.0
#define SIGNS_HEIGHT 128.0
#define SIGNS_EACH   190.0
#define SIGNS_LEVEL  62.0 /* px down to the middle of the pieces */
#define PIECE_HALF   42.0
#define PIECE_DEPTH  34.0
#define ARC_POINTS   17
#define ARC_RADIUS   20.0

/* Part of a circle with a head at its end; angles in degrees, anticlockwise on the page. */
static void signs_arc(drawing *d, double x, double y, double from, double to)
{
    const double degree = acos(-1.0) / 180.0;
    double points[2 * ARC_POINTS];
    for (int i = 0; i < ARC_POINTS; i++) {
        const double angle = (from + (to - from) * i / (ARC_POINTS - 1)) * degree;
        points[2 * i] = x + ARC_RADIUS * cos(angle);
        points[2 * i + 1] = y - ARC_RADIUS * sin(angle);
    }
    drawing_course(d, "load", points, ARC_POINTS - 2);
    const double *last = points + 2 * (ARC_POINTS - 3);
    drawing_arrow(d, "load", last[0], last[1], last[4], last[5]);
}

static void signs_piece(drawing *d, double x, const char *name)
{
    drawing_box(d, "concrete", x - PIECE_HALF, SIGNS_LEVEL - 0.5 * PIECE_DEPTH, 2.0 * PIECE_HALF,
                PIECE_DEPTH);
    drawing_text(d, "", x, SIGNS_HEIGHT - 12.0, ANCHOR_MIDDLE, name);
}

static void signs_axes(drawing *d, double x)
{
    const double y = SIGNS_LEVEL + 22.0;
    drawing_arrow(d, "load", x - 40.0, y, x + 45.0, y);
    drawing_arrow(d, "load", x - 40.0, y, x - 40.0, y - 68.0);
    drawing_text(d, "", x + 52.0, y + 4.0, ANCHOR_START, "x");
    drawing_text(d, "", x - 40.0, y - 74.0, ANCHOR_MIDDLE, "y");
    signs_arc(d, x - 8.0, y - 30.0, -50.0, 120.0);
    drawing_text(d, "", x, SIGNS_HEIGHT - 12.0, ANCHOR_MIDDLE, "movement, rotation");
}

/* The ends turn up: the bottom is stretched. */
static void signs_moment(drawing *d, double x)
{
    signs_piece(d, x, "moment");
    signs_arc(d, x + PIECE_HALF, SIGNS_LEVEL, -65.0, 65.0);
    signs_arc(d, x - PIECE_HALF, SIGNS_LEVEL, 245.0, 115.0);
    const double bottom = SIGNS_LEVEL + 0.5 * PIECE_DEPTH;
    drawing_line(d, "shape", x - PIECE_HALF, bottom, x + PIECE_HALF, bottom);
    drawing_text(d, "small quiet", x, bottom + 14.0, ANCHOR_MIDDLE, "stretched");
}

/* With it the moment grows from left to right. */
static void signs_shear(drawing *d, double x)
{
    const double left = x - PIECE_HALF - 9.0;
    const double right = x + PIECE_HALF + 9.0;
    signs_piece(d, x, "shear, dM/dx");
    drawing_arrow(d, "load", left, SIGNS_LEVEL + 24.0, left, SIGNS_LEVEL - 24.0);
    drawing_arrow(d, "load", right, SIGNS_LEVEL - 24.0, right, SIGNS_LEVEL + 24.0);
}

static void signs_axial(drawing *d, double x)
{
    signs_piece(d, x, "axial force, stress");
    drawing_arrow(d, "load", x + PIECE_HALF, SIGNS_LEVEL, x + PIECE_HALF + 34.0, SIGNS_LEVEL);
    drawing_arrow(d, "load", x - PIECE_HALF, SIGNS_LEVEL, x - PIECE_HALF - 34.0, SIGNS_LEVEL);
}

void signs_draw(drawing *d)
{
    drawing_start(d, SIGNS_WIDTH, SIGNS_HEIGHT, "What is positive",
                  "Movement to the right and upward, rotation anticlockwise; a moment that "
                  "stretches the bottom; a "
                  "shear force that turns a piece clockwise; an axial force that pulls.");
    signs_axes(d, 0.5 * SIGNS_EACH);
    signs_moment(d, 1.5 * SIGNS_EACH);
    signs_shear(d, 2.5 * SIGNS_EACH);
    signs_axial(d, 3.5 * SIGNS_EACH);
    (void)drawing_finish(d);
}
