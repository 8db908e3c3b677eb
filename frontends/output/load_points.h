/* load_points.h - forces, and moments, that act at one place in one direction: drawn as one, each told: "50 + 20 kip".
 *
 * Of more than LOAD_POINTS_APART the sum is told: "sum of 6: 300 kip".
 * SPDX-License-Identifier: MIT */
#ifndef KERNLINE_LOAD_POINTS_H
#define KERNLINE_LOAD_POINTS_H

#include "kernline/model.h"

#define LOAD_POINTS_APART 4
#define LOAD_POINTS_TEXT  240

typedef struct load_point {
    double x, y;                    /* px, the place */
    kl_measure measure;             /* KL_MEASURE_FORCE, KL_MEASURE_MOMENT */
    kl_point pull;                  /* where a force acts to; of a moment y > 0: anticlockwise */
    double under;                   /* px that an arrow must reach over */
    double sum;                     /* N or N·m, > 0 */
    double each[LOAD_POINTS_APART]; /* the first of them */
    int count;
} load_point;

typedef struct load_points {
    load_point *points; /* owned; start with {0} */
    kl_index count;
    size_t room;
} load_points;

/* One force or moment of that size. */
kl_status load_points_add(load_points *all, const load_point *at, double size);
/* Those that act alike at one place become one, where the first of them was. */
kl_status load_points_join(load_points *all);
void load_points_text(const load_point *point,
                      const kl_display *display,
                      char text[LOAD_POINTS_TEXT]);
void load_points_free(load_points *all);

#endif
