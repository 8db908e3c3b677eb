/* markup.h - text of people inside XML and HTML: shown letter by letter, never read as markup.
 * SPDX-License-Identifier: MIT */
#ifndef KERNLINE_MARKUP_H
#define KERNLINE_MARKUP_H

#include <stddef.h>

/* How the character at `text` (not its end) must be written; NULL: as it is. What markup means is named; what it has no way to
 * hold becomes a mark: control characters, bytes that are no UTF-8, and the signs that turn the order of the letters
 * after them, which would show 21 where 12 stands.
 * @param bytes that the character takes, 1 to 4. */
const char *markup_entity(const char *text, size_t *bytes);

#endif
