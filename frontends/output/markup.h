/* markup.h - text of people inside XML and HTML: shown letter by letter, never read as markup.
 * SPDX-License-Identifier: MIT */
#ifndef KERNLINE_MARKUP_H
#define KERNLINE_MARKUP_H

#include <stddef.h>
#include <stdint.h>

#define MARKUP_WRONG 0xFFFDU /* what a byte is read as that begins no character */

/* The character of UTF-8 at *text, which is moved behind it; MARKUP_WRONG; 0 at the end, which is not passed. */
uint32_t markup_next(const char **text);

/* The name of a character that means markup, "&lt;"; NULL: it means none. */
const char *markup_named(uint32_t letter);

/* How the character at `text` (not its end) must be written; NULL: as it is. What markup means is named; what it has no way to
 * hold becomes a mark: control characters, bytes that are no UTF-8, and the signs that turn the order of the letters
 * after them, which would show 21 where 12 stands.
 * @param bytes that the character takes, 1 to 4. */
const char *markup_entity(const char *text, size_t *bytes);

#endif
