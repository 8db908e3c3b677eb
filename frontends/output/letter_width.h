/* letter_width.h - how wide a text will be, near enough to keep labels apart.
 *
 * Whoever shows a picture picks the letters; all common sans-serif faces are about as wide as the widths kept here, which
 * are per cent of the letter size, rounded up from the faces metric-compatible with Helvetica.
 * SPDX-License-Identifier: MIT */
#ifndef KERNLINE_LETTER_WIDTH_H
#define KERNLINE_LETTER_WIDTH_H

/* @param text UTF-8; what is not ASCII counts as a wide letter, what is not of an alphabet as a square and more.
 * @return in the unit of `size`, the height of the letters. */
double letter_width(const char *text, double size);

#endif
