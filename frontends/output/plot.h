/* plot.h - a diagram of values over stations or time: axes with units and round values, courses, limits, marks.
 *
 * Values are in shown units. A plot lives within a drawing and is used up at once; the drawing keeps the failures.
 * SPDX-License-Identifier: MIT */
#ifndef KERNLINE_PLOT_H
#define KERNLINE_PLOT_H

#include "drawing.h"
#include "scale.h"

typedef struct plot_axis {
    double low, high;  /* values to be held */
    const char *label; /* "moment, kip-ft" */
    const char *key;   /* of the upright axis: what it measures, for programs: "moment"; or NULL */
    bool downward;     /* of the upright axis: + goes down, as bending moments are drawn */
    bool tight;        /* ends where the values end: stations of a member */
    bool decades; /* of the axis along the bottom: values are powers of ten, a logarithmic axis */
} plot_axis;

typedef struct plot {
    drawing *drawing;
    scale x, y;
    double left, top, right, bottom; /* of the field, px */
} plot;

/* Room that axis labels take around the field. */
#define PLOT_MARGIN_LEFT   64.0
#define PLOT_MARGIN_RIGHT  18.0
#define PLOT_MARGIN_TOP    38.0
#define PLOT_MARGIN_BOTTOM 44.0

/* Draw the axes in a region of the drawing, margins included: a group "axes" with the values at the field's ends (data-x0, -x1,
 * -y0, -y1, as shown; logarithms with data-decades="x"), where these lie, px (data-px0, -px1, -py0, -py1), and the upright axis's
 * key (data-quantity). */
plot plot_start(drawing *d, label_box region, const plot_axis *x, const plot_axis *y);

/* A second upright axis on the right, whose values are the left one's times `factor`: stress beside force. It takes PLOT_MARGIN_LEFT
 * of room that the region must leave there. */
void plot_right_axis(const plot *p, double factor, const char *label);

double plot_x(const plot *p, double x);
double plot_y(const plot *p, double y);

/* `count` pairs x[i], y[i]; a NAN breaks the course. Cut at the field's edges is not needed: axes hold the values. */
void plot_course(const plot *p, const char *class, const double *x, const double *y, int count);
/* The area between a course and zero. */
void plot_fill(const plot *p, const char *class, const double *x, const double *y, int count);
/* The area between two courses of the same places; where either is NAN there is none. */
void plot_band(const plot *p,
               const char *class,
               const double *x,
               const double *upper,
               const double *lower,
               int count);
/* A value not to be passed from x1 to x2: a line with hatching on the far side (above: values larger), its name, "" for none, at
 * its end. */
void plot_limit(const plot *p, double y, double x1, double x2, bool above, const char *text);
/* A place: an upright rule with its name at the field's top, where there is room: what is asked for first goes first. */
void plot_place(const plot *p, double x, const char *name);
/* A value at a point of a course. */
void plot_value(const plot *p, double x, double y, double weight, const char *text);
/* The same of one of many courses: left out where those that weigh more leave no room. */
void plot_value_if_room(const plot *p, double x, double y, double weight, const char *text);

/* What the classes mean, in rows over the field that no label enters; between them and the field there is room for names of places. */
typedef struct plot_key_entry {
    const char *class;
    const char *name;
} plot_key_entry;
void plot_key(const plot *p, const plot_key_entry *entries, int count);
/* The same, each entry in the group of its step (drawing_open_step). */
void plot_key_of_steps(const plot *p, const plot_key_entry *entries, const int *steps, int count);
/* Height that rows beyond the first take above a region of that width, which must begin so much lower. */
double plot_key_height(const plot_key_entry *entries, int count, double region_width);

#endif
