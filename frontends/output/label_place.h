/* label_place.h - where labels go: each as near to its place as it can be without covering another or a line.
 *
 * Greedy, the weightiest first, over a fixed list of positions around the place, nearest first; so the same picture always
 * comes out the same.
 * SPDX-License-Identifier: MIT */
#ifndef KERNLINE_LABEL_PLACE_H
#define KERNLINE_LABEL_PLACE_H

#include <stdbool.h>
#include <stddef.h>

#include "kernline/diag.h"

typedef struct label_box {
    double x, y, width, height; /* the upper left corner */
} label_box;

typedef struct label_wish {
    double x, y;          /* the place it belongs to */
    double width, height; /* of the text */
    double weight;
    bool optional; /* left out when there is no room close by, whatever its weight */
    bool beside;   /* no line may lie between the place and the label */
    int step;      /* drawing.h */
    const char *class;
    char *text; /* owned */
    /* found */
    label_box box;
    bool placed;
    bool far;              /* so far away that a line must lead to it, */
    double lead_x, lead_y; /* from the place to here */
} label_wish;

/* What a label may not cover: of lines it would do so if there were no other way, of texts and regions only if lines were worse. */
typedef struct label_taken {
    label_box box;
    bool is_line;
} label_taken;

/* Start with {0}. */
typedef struct label_field {
    label_wish *wishes;
    size_t wish_count, wish_room;
    label_taken *taken; /* texts that stand, lines, regions to be kept free */
    size_t taken_count, taken_room;
} label_field;

kl_status label_field_wish(label_field *field, const label_wish *wish);
/* A text that stands, or a region. */
kl_status label_field_take(label_field *field, label_box box);
/* A region of lines. */
kl_status label_field_take_hatch(label_field *field, label_box box);
/* A straight line as small boxes along it. */
kl_status label_field_take_line(label_field *field, double x1, double y1, double x2, double y2);

/* Find a box within the page for each wish. Those with weight > 0 that are not optional get one in any case, where least is
 * covered; the line that leads to one crosses no text where that can be helped. */
kl_status label_field_place(label_field *field, double page_width, double page_height);

void label_field_free(label_field *field);

#endif
