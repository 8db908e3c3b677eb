/* pictured.h - a picture of a solved model, and what every picture must keep to.
 * SPDX-License-Identifier: MIT */
#ifndef KERNLINE_PICTURED_H
#define KERNLINE_PICTURED_H

#include "diagrams.h"
#include "solved.h"

/* The picture of that name; NULL: the drawing's status tells why. The drawing is the caller's to free. */
const char *picture(drawing *d, const solved *s, const char *name, const selection_wish *wish);

/* The picture holds the text. */
void assert_says(const solved *s, const char *name, const selection_wish *wish, const char *text);

/* Every picture of the model has classes that the style sheet knows, no number without an end, no text that leaves the page, no two
 * texts on one another; or says what the model lacks. @return how many were drawn */
int assert_pictures_are_sound(const solved *s);

/* No text of the picture, those that are folded away left out, leaves the page, lies on another or is crossed by a line that leads to
 * one. */
void assert_texts_keep_apart(const char *name, const drawing *d, const char *svg);

#endif
