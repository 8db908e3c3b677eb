/* markup.h - text of people inside XML and HTML: shown letter by letter, never read as markup.
 * SPDX-License-Identifier: MIT */
#ifndef KERNLINE_MARKUP_H
#define KERNLINE_MARKUP_H

#include <stddef.h>
#include <stdint.h>

/* The name of a character that means markup, "&lt;"; NULL: it means none. */
const char *markup_named(uint32_t letter);

/* How the character at `text` (not its end) must be written in a picture; NULL: as it is. What markup means is named; bytes that
 * are no UTF-8 and what nobody sees (utf8.h) become a mark, for which there is room.
 * @param bytes that the character takes, 1 to 4. */
const char *markup_entity(const char *text, size_t *bytes);

#endif
