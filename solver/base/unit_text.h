/* unit_text.h - units written as products, quotients, powers and reciprocals of unit words.
 *
 *     unit = [ "per" " " ] term { ("*" | "/") term }       term = WORD [ "^" INTEGER ]
 *
 * The words are those of kernline/units.h; moments such as kip-ft are words of their own.
 * SPDX-License-Identifier: MIT */
#ifndef KERNLINE_UNIT_TEXT_H
#define KERNLINE_UNIT_TEXT_H

#include "kernline/units.h"

/* Read `length` bytes, all of them, into dimension and factor; the empty text is the pure number.
 * is_angle and is_mass are set for a single word without a power only.
 * @return false when it is no unit; then *out is untouched. */
bool unit_text_read(const char *text, size_t length, kl_unit *out);

#endif
