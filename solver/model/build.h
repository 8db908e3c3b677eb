/* build.h - what every kl_model_add_… shares: one entity's checks, messages and place in its array.
 *
 * An add function starts a build_item, asks its questions (each one that fails is reported and remembered),
 * copies what it was given into the arena, and ends with build_append. So one wrong entity tells all that is
 * wrong with it, and nothing of it reaches the model.
 * SPDX-License-Identifier: MIT */
#ifndef KERNLINE_BUILD_H
#define KERNLINE_BUILD_H

#include "entities.h"

/* One entity on its way into the model. */
typedef struct build_item {
    kl_model *model;
    int list;         /* kl_kind or entity_list */
    const char *word; /* "section" */
    const char *name; /* "cap"; "" where the kind has no names */
    kl_origin origin;
    bool bad; /* an error was reported */
} build_item;

/* Start; a named kind must have a name that is free. */
build_item build_start(kl_model *model, int list, const char *name, kl_origin origin);

/* Report an error about the item or a part of it. */
void build_error(build_item *item, const char *diag_name, kl_origin origin, const char *format, ...)
    KL_PRINTF(4, 5);
void build_hint(const build_item *item, const char *format, ...) KL_PRINTF(2, 3);

/* "member cap", or "this support" where there is no name; the text lives in the model's arena ("" when out of
 * memory: the message is lost anyway). */
const char *build_subject(const build_item *item);

/* Room for the text of one quantity. */
typedef struct build_number {
    char text[48];
} build_number;

/* "12.5 ft" in the units the model is shown in. */
build_number build_show(const kl_model *model, kl_measure measure, double value);

/* Each reports when the value is wrong. NAN, "not given", passes unless the name says `need`. */
void build_positive(build_item *item, const char *what, double value);
void build_need_positive(build_item *item, const char *what, double value);
void build_not_negative(build_item *item, const char *what, double value);
void build_need_finite(build_item *item, const char *what, double value);
/* Within low … high, both included. */
void build_between(build_item *item, const char *what, double value, double low, double high);

/* A reference: 0 … count-1, and KL_NONE where `optional`. @return whether it can be followed. */
bool build_reference(
    build_item *item, const char *what, kl_index index, kl_index count, bool optional);

/* A station in 0 … length, with 1e-6 of the length to spare, which is then cut off. NAN passes. */
void build_station(
    build_item *item, kl_origin origin, double length, const char *line, double *station);

/* More than `limit` rows in a list of the item is an error. */
void build_limit(build_item *item, const char *what, kl_index count, kl_index limit);

/* Copy an array or a text into the model's arena, once nothing is wrong. A count of 0 gives NULL. */
kl_status
build_copy(kl_model *model, const void *items, kl_index count, size_t size, const void **copy);
kl_status
build_copy_text(kl_model *model, const char *text, const char **copy); /* NULL becomes "" */

/* The item's own name, copied; from then on the item goes by the copy. */
kl_status build_copy_name(build_item *item, const char **copy);

/* Put the finished entity at the end of its array, make *count one more, and enter a named kind's name (which
 * must be the copy) into the table.
 * @return KL_BAD_MODEL when the item is bad; KL_TOO_LARGE (reported), KL_NO_MEMORY; then nothing changed. */
kl_status
build_append(build_item *item, const void *entity, size_t size, kl_index *count, kl_index *added);

#endif
